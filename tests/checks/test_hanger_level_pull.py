"""What a hose pulls level for good is felt by a hanger's screws, from whatever side."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.checks.hanger_fixing import _still, surface_of
from fitwright.hanging import Hanging, HeldBy
from fitwright.physics.fixing import Plate

UP = (0.0, 0.0, 1.0)
SCREWS = ((-40.0, 0.0, 80.0), (40.0, 0.0, 80.0))
CORNERS = ((-50.0, -25.0, 80.0), (50.0, -25.0, 80.0), (50.0, 25.0, 80.0), (-50.0, 25.0, 80.0))
HELD = tuple(HeldBy(f"screw {k}", "5.0 mm", 5.0, at, UP, "wood", "mount.screws") for k, at in enumerate(SCREWS))
UNDER_A_JOIST = Hanging(held=HELD, plate=CORNERS, load_at=((0.0, 0.0, 0.0),), lasting_n=30.0)


def felt(hanging: Hanging) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    surface = surface_of(hanging)
    corners = tuple(surface.at(p)[:2] for p in hanging.plate)
    plate = Plate(corners, tuple(surface.at(one.at)[:2] for one in hanging.held))
    return [(one.tension_n, one.shears_n) for one in _still(hanging, surface, plate)]


def test_a_weight_alone_is_shared() -> None:
    (only,) = felt(UNDER_A_JOIST)
    assert only[0] == pytest.approx((15.0, 15.0)) and only[1] == pytest.approx((0.0, 0.0), abs=1e-9)


def test_a_level_pull_goes_aside_and_tips_the_plate() -> None:
    """20 N level, 80 mm below the plate, along the screws' line: 10 N aside each. The moment of 1600 Nmm tips the plate
    over an end, 10 and 90 mm from the screws: T = M l / sum l^2 on top of the weight's, which acts 50 mm from there."""
    cases = felt(replace(UNDER_A_JOIST, level_n=20.0))
    assert len(cases) == 8
    for _, shears in cases:
        assert shears == pytest.approx((10.0, 10.0), abs=1e-6)
    moment = 30.0 * 50.0 + 20.0 * 80.0
    assert max(max(tension) for tension, _ in cases) >= moment * 90.0 / (10.0**2 + 90.0**2) * (1 - 1e-6)
