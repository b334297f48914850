"""Lever and blade, against points walked along the arc."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.physics.slide.lever import Lever


@pytest.mark.parametrize(("arm", "travel"), [(200, 105.6), (120, 105.6), (300, 160)])
def test_slots_by_walking_the_arc(arm: float, travel: float) -> None:
    lever = Lever(arm, travel)
    angles = np.radians(np.linspace(-lever.swing_deg / 2, lever.swing_deg / 2, 2001))
    along, across = arm * np.sin(angles), arm * np.cos(angles)
    assert np.ptp(along) == pytest.approx(travel)
    assert np.ptp(across) == pytest.approx(lever.sagitta_mm, rel=1e-6)
    assert lever.slot_mm(6.0, play_mm=0.0) == pytest.approx(np.ptp(across) + 6.0)
    # a slot along the lever: the pin goes along the line y = arm
    reach = np.hypot(np.linspace(-travel / 2, travel / 2, 2001), arm)
    assert lever.lever_slot_mm(6.0, play_mm=0.0) == pytest.approx(np.ptp(reach) + 6.0)


def test_an_arm_of_200_and_a_4_in_gate() -> None:
    # 200 - sqrt(200^2 - 52.8^2) = 7.10
    assert Lever(200, 105.6).sagitta_mm == pytest.approx(7.096, abs=1e-3)


def test_an_arm_too_short() -> None:
    with pytest.raises(ValueError, match=r"travel 105\.6 mm with an arm of 50 mm; allowed: less than twice the arm"):
        Lever(50, 105.6)
