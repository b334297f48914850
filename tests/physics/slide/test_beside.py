"""The yoke beside a gate against an independent beam: finite differences of its moments, and unit loads by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.physics.slide.beside import Yoke, screw_turn, yoke_gives
from fitwright.physics.slide.bridge import Bridge

YOKE = Yoke(63.0, 57.5, 67.0, 79.0, 91.0, 17500.0, 66000.0, 24000.0, 1000.0)


def by_loads(yoke: Yoke, guide: bool) -> tuple[float, float, float]:
    """A beam on two supports at +-s under its real loads, by numbers: nose along, nose tilt, root tilt [rad].

    Loads on the arm: the thrust T on the nose, friction F and couple M on the guide rod (statics of a bridge, moments
    about the middle of the gate). x runs to the cylinder's side.
    """
    drag, s, a = 20.0, yoke.screw_mm, yoke.nose_mm
    bridge = Bridge(a, a - (yoke.guide_mm or a), 70.0, 0.25) if guide else None
    thrust = drag * (bridge.thrust_over_drag if bridge else 1.0)
    friction = thrust - drag
    couple = thrust * a - friction * (yoke.guide_mm or a)  # so that nothing is left to turn the gate
    x = np.linspace(-s, a, 400_001)
    moment = np.where(x < (yoke.guide_mm or a), couple, 0.0) - thrust * (a - x)
    moment += np.where(x < (yoke.guide_mm or a), friction * ((yoke.guide_mm or a) - x), 0.0)
    right = moment[np.searchsorted(x, s)] / (2 * s)  # the support at -s, from moments about the one at s
    moment = np.where(x < s, right * (x + s), moment)
    second = np.where(np.abs(x) < yoke.window_mm, yoke.bars_mm4, yoke.ends_mm4)
    second = np.where(x > yoke.web_mm, yoke.web_mm4, second)
    step = x[1] - x[0]
    angle = np.cumsum(moment / (yoke.modulus_mpa * second)) * step
    y = np.cumsum(angle) * step
    at = np.searchsorted(x, s)
    lean = y[at] / (2 * s)  # both supports stay where they are
    angle, y = angle - lean, y - lean * (x + s)
    return abs(float(y[-1])), abs(float(angle[-1])), abs(float(angle[np.searchsorted(x, yoke.guide_mm or a) - 1]))


@pytest.mark.parametrize("guide", [True, False])
def test_yoke_gives_way_as_a_beam_under_its_real_loads(guide: bool) -> None:
    yoke = YOKE if guide else Yoke(**{**vars(YOKE), "guide_mm": None})
    bridge = Bridge(91.0, 24.0, 70.0, 0.25)
    along, tilt, root = by_loads(yoke, guide)
    moved, root_deg = yoke_gives(yoke, 20.0, 20.0 * bridge.thrust_over_drag if guide else 20.0)
    assert moved.along_mm == pytest.approx(along, rel=2e-3)
    assert math.radians(moved.tilt_deg) == pytest.approx(tilt, rel=5e-3)
    assert math.radians(root_deg) == pytest.approx(root, rel=2e-3)


def test_uniform_beam_with_a_couple_at_its_end() -> None:
    """M L / 3 EI (Roark's Formulas for Stress and Strain, table of beams; from memory)."""
    yoke = Yoke(60.0, 60.0, None, 70.0, 80.0, 1000.0, 9e9, 2000.0, 2000.0)
    assert screw_turn(yoke, 10.0) == pytest.approx(600.0 * 120.0 / (3 * 2000.0 * 1000.0))
