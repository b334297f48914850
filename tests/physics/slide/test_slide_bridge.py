"""The bridge and its guide rod: linear programming for the friction, the frame solver for the bending."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.optimize import linprog
from tests.beam_frames import Frame

from fitwright.physics.slide.bridge import (
    Bridge,
    bare_rod,
    bent_guide,
    equal_side_n,
    forced_rod_n,
    permitted_side_n,
    shared_couple,
)


def ei(d: float) -> float:
    return 205_000 * math.pi * d**4 / 64


def least_thrust(bridge: Bridge, rod: float) -> float:
    """Least thrust that moves the bridge against 1 N at the blade; inf where none does.

    The bush may touch its rod, `rod` thick, on both sides at both ends, each contact sliding.
    """
    columns = [(0.0, 1.0, 0.0)]
    for side in (-1, 1):
        for end in (0.0, bridge.bush_mm):
            x = bridge.guide_at_mm + side * rod / 2
            columns.append((-side, -bridge.mu_bush, -bridge.mu_bush * x + side * end))
    wanted = [0.0, 1.0, bridge.blade_at_mm]
    answer = linprog([1, 0, 0, 0, 0], A_eq=np.array(columns).T, b_eq=wanted, bounds=[(0, None)] * 5)
    return float(answer.fun) if answer.status == 0 else math.inf


def test_the_bush_against_linear_programming() -> None:
    dice, jammed = random.Random(5), 0
    for _ in range(200):
        bridge = Bridge(dice.uniform(20, 200), dice.uniform(-100, 200), dice.uniform(8, 80), dice.uniform(0.05, 0.4))
        found = least_thrust(bridge, dice.uniform(4, 12))
        jammed += math.isinf(found)
        assert bridge.thrust_over_drag == pytest.approx(found, rel=1e-6)
        assert bridge.jams == math.isinf(found)
    assert 20 < jammed < 180


def test_where_the_guide_rod_goes() -> None:
    # blade 85 mm from the piston rod, bush 30, mu 0.2: on the far side of the gate it jams (2 x 0.2 x 170 = 68 > 30)
    assert Bridge(85, 170, 30).jams
    assert math.isinf(Bridge(85, 170, 30).bush_n(20.2))
    # 25 mm beside the piston rod, towards the gate: 20.2 x 85 / (30 - 10) = 85.9 N, 2.7 x the drag
    near = Bridge(85, 25, 30)
    assert near.bush_n(20.2) == pytest.approx(20.2 * 85 / 20)
    assert near.thrust_over_drag == pytest.approx(2.7)
    # on its other side: 20.2 x 85 / 40 = 42.9 N, 1.85 x
    away = Bridge(85, -25, 30)
    assert away.thrust_over_drag == pytest.approx(1 + 0.4 * 85 / 40)
    assert away.least_bush_mm == 0.0
    assert near.stuck_drag_n(120.6) == pytest.approx(120.6 / 2.7)
    assert Bridge(85, 25, near.least_bush_mm).jam_ratio == pytest.approx(0.5)


def test_guide_rods_against_the_solver() -> None:
    for free, span in ((120.0, None), (40.0, 160.0), (80.0, 160.0), (110.0, 160.0)):
        frame = Frame()
        frame.beam((0, 0), (free, 0), 1e9, ei(8), pieces=4)
        held = [0, 1, 2]
        if span is not None:
            end = frame.beam((free, 0), (span, 0), 1e9, ei(8), pieces=4)[-1]
            held = [0, 1, 3 * end + 1]
        place = 3 * frame.node(free, 0)
        moved = frame.solve(held, {place + 2: 2574.0})
        found = bent_guide(2574.0, 8.0, free, span)
        assert found.aside_mm == pytest.approx(abs(moved[place + 1]), rel=1e-6, abs=1e-12)
        assert math.radians(found.tilt_deg) == pytest.approx(moved[place + 2], rel=1e-6)
    # M / W, W = pi 512 / 32 = 50.27 mm3
    assert bent_guide(2574.0, 8.0, 120).stress_mpa == pytest.approx(51.2, abs=0.05)


def test_the_bare_rod_bends() -> None:
    # 53 mm beside it, 6 mm rod, 147 mm out: 0.9 mm and 0.7 deg at the drag of 20.2 N, 5 mm and 4 deg at stall, 301 MPa
    drag, stall = bare_rod(6, 147, 20.2 * 53), bare_rod(6, 147, 120.6 * 53)
    assert not drag.within()
    assert (round(drag.aside_mm, 1), round(drag.tilt_deg, 1)) == (0.9, 0.7)
    assert (round(stall.aside_mm, 1), round(stall.tilt_deg, 1), round(stall.stress_mpa)) == (5.3, 4.1, 301)
    frame = Frame()
    end = 3 * frame.beam((0, 0), (147, 0), 1e9, ei(6))[-1]
    moved = frame.solve([0, 1, 2], {end + 1: 3.0, end + 2: 1000.0})
    both = bare_rod(6, 147, 1000.0, side_n=3.0)
    assert (both.aside_mm, math.radians(both.tilt_deg)) == pytest.approx(moved[end + 1 : end + 3], rel=1e-6)
    # and the nose feels it as 7 N at the rod's end, where 5 % of 121 N are permitted
    assert equal_side_n(20.2 * 53, 147) > permitted_side_n(120.6)


def test_a_rod_that_is_forced_aside() -> None:
    frame = Frame()
    end = 3 * frame.beam((0, 0), (147, 0), 1e9, ei(6))[-1]
    stiffness = frame.stiffness()[3:, 3:]
    inverse = np.linalg.inv(stiffness)
    tip = np.ix_([end - 2, end - 1], [end - 2, end - 1])
    forces = np.linalg.inv(inverse[tip]) @ [0.5, math.radians(0.2)]
    assert forced_rod_n(6, 147, 0.5, 0.2) == pytest.approx(forces[0], rel=1e-6)
    free = frame.solve([0, 1, 2], {end + 1: forced_rod_n(6, 147, 0.5, fixed=False)})
    assert free[end + 1] == pytest.approx(0.5, rel=1e-6)


def test_rods_share_the_couple() -> None:
    # no play: by stiffness; a joint at the piston rod: all to the guide; play never used up: all to the piston rod
    piston, guide = ei(6) / 147, ei(8) / 120
    even = shared_couple(1717, piston, guide, 0.0, 30)
    assert even.piston_nmm == pytest.approx(1717 * piston / (piston + guide))
    loose = shared_couple(1717, 0.0, guide, 0.1, 30)
    assert (loose.piston_nmm, loose.guide_nmm) == pytest.approx((0.0, 1717))
    wide = shared_couple(100, piston, guide, 0.5, 30)
    assert (wide.piston_nmm, wide.guide_nmm) == pytest.approx((100, 0.0))
    # at the moment when the play is just used up both ways of reckoning agree
    at = piston * 0.1 / 30
    assert shared_couple(at * 1.000001, piston, guide, 0.1, 30).piston_nmm == pytest.approx(at, rel=1e-5)
