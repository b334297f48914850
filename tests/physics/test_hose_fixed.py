"""Pieces that stand still: what their bends do to the pull, when they kink, and how much hose keeps them whole."""

from __future__ import annotations

import math
import random

import pytest

from fitwright.frame import Vec
from fitwright.physics.hose_droop import usual_stiffness_n_mm2
from fitwright.physics.hose_fixed import Fixed, with_room_mm
from fitwright.physics.hose_head import Reach, Way

W, EMPTY = 8.354e-3, 3.64e-3
STIFF = usual_stiffness_n_mm2(77.4, EMPTY, 105.0)
PORT: Vec = (-700.0, 400.0, 1500.0)
HOOK: Vec = (600.0, 400.0, 2400.0)
UP: Vec = (0.0, 0.0, 1.0)
R = 105.0


def piece(length: float, leaves: Way = UP, arrives: Way = "free", stiff: tuple[float, float] = STIFF) -> Fixed:
    return Fixed(Reach(PORT, leaves, HOOK, arrives, R, W), length, stiff)


def test_bends_take_hose_and_what_is_left_pulls() -> None:
    """Up out of the port, 1581.1 straight, 1596.8 with an arc of 105: of 1599 only 2.2 are slack. A parabola of that
    slack over 1300 across and 900 up: H = w L^2 sqrt(1 + t^2) / 8 f with f^2 = 3 L x slack (1 + t^2)^1.5 / 8."""
    one, free = piece(1599.0), piece(1599.0, leaves="free")
    slack = 1599.0 - (1596.84 - 1581.14) - 1581.14
    steep = math.hypot(1.0, 900 / 1300)
    sag = math.sqrt(3 * 1300.0 * slack * steep**3 / 8)
    soft = math.hypot(*one.forces(end=True)[0][:2])
    assert soft == pytest.approx(W * 1300.0**2 * steep / (8 * sag), rel=0.01)
    # three times what the limp line says, and what springy hoses say lies in between
    limp = one.piece.span.level_n(W)
    assert soft > 2.8 * limp and all(limp < math.hypot(*f[:2]) < soft for f in one.forces(end=True)[1:])
    # free to turn at both ends no bend takes anything: a stiff one bears a little of its weight by itself
    low, high = free.level_n()
    assert 0.9 * limp < low and high == pytest.approx(limp, rel=0.01)


def test_it_kinks_where_its_slack_does_not_make_a_bend() -> None:
    """A weightless rod turns at a clamp with R = s / (4 sin(b / 2) (1 - cos(b / 2))), s its slack, b 57.0 deg here: the
    18 mm of 1599 make about 77, less than 105; 105 takes 24.3 mm."""
    turn = piece(1599.0).reach.bent.start_turn  # type: ignore[union-attr]
    assert math.degrees(turn) == pytest.approx(57.0, abs=0.1)
    takes = 4 * math.sin(turn / 2) * (1 - math.cos(turn / 2))
    for length in (1590.0, 1599.0, 1615.0):
        # b is seen from the straight line: the bend itself lifts it and turns a little less
        assert piece(length).roundest_mm == pytest.approx((length - 1581.14) / takes, rel=0.12)
    assert piece(1599.0).faults() == ("folds",) and piece(1612.0).faults() == ()
    assert piece(1590.0).faults() == ("short",) and 1581.14 + takes * R == pytest.approx(1605.4, abs=0.1)


def test_no_room_and_no_slack() -> None:
    back = Fixed(Reach(PORT, (-1.0, 0.0, 0.0), (-600.0, 400.0, 1500.0), (-1.0, 0.0, 0.0), R, W), 400.0, STIFF)
    assert back.faults() == ("turns",) and math.isinf(back.lacks_mm)
    taut = piece(1500.0)
    assert taut.faults() == ("short",) and math.isinf(taut.level_n()[1]) and not taut.rods


def test_straight_through_has_no_bends_to_speak_of() -> None:
    """Level from port to hanger in one line, drawn to 17 mm of sag a metre: a catenary of a = 3600, no tighter."""
    reach = Reach((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1500.0, 0.0, 0.0), (1.0, 0.0, 0.0), R, W)
    one = Fixed(reach, with_room_mm(reach, 1511.0, STIFF), STIFF)
    assert one.length_mm == 1511.0 and one.faults() == () and one.roundest_mm > 2 * R


@pytest.mark.parametrize("seed", range(40))
def test_so_much_hose_keeps_its_bends(seed: int) -> None:
    """Whatever way it leaves and arrives: with the length that is worked out it neither lacks nor kinks."""
    rng = random.Random(seed)
    ways: list[Way] = [(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), UP, (0.0, 0.0, -1.0), "free"]
    end = (rng.uniform(400, 2500), rng.uniform(-800, 800), rng.uniform(-700, 1200))
    reach = Reach((0.0, 0.0, 0.0), rng.choice(ways), end, rng.choice(ways), R, W)
    length = with_room_mm(reach, 1.005 * math.hypot(*end), STIFF)
    one = Fixed(reach, length, STIFF)
    if reach.bent is None:
        assert one.faults() == ("turns",)
        return
    assert one.faults() == () and one.roundest_mm >= R
    low, high = one.level_n()
    assert 0.0 < low <= high < 60.0
    # three centimetres shorter than its shortest way it is refused
    assert Fixed(reach, reach.least_mm - 30.0, STIFF).faults() == ("short",)
