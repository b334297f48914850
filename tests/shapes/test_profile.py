"""Half-profiles against closed forms that stand here."""

from __future__ import annotations

import math
from typing import Any

import pytest

from fitwright.shapes.profile import clipped, hump, radius_at, reversed_from, tidy, upper_envelope, volume_mm3


def near(line: tuple[tuple[float, float], ...]) -> list[Any]:
    """Points compared with the usual tolerance."""
    return [pytest.approx(p) for p in line]


def test_a_cylinder_and_a_cone_have_their_textbook_volumes() -> None:
    assert volume_mm3(((0, 10), (50, 10))) == pytest.approx(math.pi * 100 * 50, rel=1e-15)
    assert volume_mm3(((0, 30), (60, 0))) == pytest.approx(math.pi * 900 * 60 / 3, rel=1e-15)


def test_the_envelope_of_a_plain_skin_and_a_hump_is_the_hump_on_the_skin() -> None:
    skin = ((0.0, 50.0), (100.0, 50.0))
    line = upper_envelope([skin, hump(40.0, 45.0, 52.0, 48.0)])
    assert list(line) == near(((0, 50), (38, 50), (40, 52), (45, 52), (47, 50), (100, 50)))


def test_the_envelope_keeps_a_step() -> None:
    line = upper_envelope([((0.0, 80.0), (6.0, 80.0)), ((0.0, 50.0), (40.0, 50.0))])
    assert list(line) == near(((0, 80), (6, 80), (6, 50), (40, 50)))


def test_radius_clipping_and_reversal() -> None:
    cone = ((0.0, 10.0), (10.0, 20.0))
    assert radius_at(cone, 2.5) == pytest.approx(12.5)
    assert radius_at(cone, 11.0) == 0.0
    assert list(clipped(cone, 2.0, 4.0)) == near(((2, 12), (4, 14)))
    assert list(reversed_from(cone, 30.0)) == near(((20, 20), (30, 10)))
    assert tidy([(0, 1), (0, 1), (1, 1), (2, 1), (2, 3)]) == ((0, 1), (2, 1), (2, 3))
