"""Tabs, bars and windows: the kernel's volume against integrals worked out here by an independent library."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import dblquad, quad

from fitwright.frame import Frame
from fitwright.shapes.gauge import Bars, Tab, Turned, Window, strip_mm2
from fitwright.shapes.solids import fused

UP = Frame((3.0, -2.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
R, W, C, H = 20.0, 2.0, 0.5, 6.0
RING = Turned(((0, R - W + C), (C, R - W), (H, R - W), (H, R), (C, R), (0, R - C)), R, R - W, R - W / 2, C, C)
"""A ring whose bore and outside are both chamfered at the foot."""


def test_a_turned_ring_has_the_volume_of_shells() -> None:
    """Cylinders and cones by the formula of a truncated cone, h/3 pi (a^2 + ab + b^2)."""

    def cone(a: float, b: float, h: float) -> float:
        return math.pi * h / 3 * (a * a + a * b + b * b)

    outside = cone(R - C, R, C) + math.pi * R**2 * (H - C)
    bore = cone(R - W + C, R - W, C) + math.pi * (R - W) ** 2 * (H - C)
    assert RING.volume_mm3 == pytest.approx(outside - bore, rel=1e-12)
    assert RING.solid(UP).Volume() == pytest.approx(outside - bore, rel=1e-9)


@pytest.mark.parametrize(("radius", "half"), [(20.0, 5.0), (20.0, 20.0), (8.0, 11.0)])
def test_strip_of_a_half_circle(radius: float, half: float) -> None:
    area, _ = quad(lambda y: math.sqrt(max(0.0, radius**2 - y * y)), -min(half, radius), min(half, radius))
    assert strip_mm2(radius, half) == pytest.approx(area, rel=1e-6)


@pytest.mark.parametrize("turn", [-math.pi / 2, 0.4])
@pytest.mark.parametrize("half", [4.0, 12.0, 24.0])
def test_a_tab_adds_what_stands_outside_the_ring(turn: float, half: float) -> None:
    """Beyond the circle, which shrinks in the chamfer: integrated in two variables by SciPy."""
    tab = Tab(turn, half, 30.0, 1.4)
    both = fused([RING.solid(UP), tab.solid(RING, UP)], "both")

    def width(y: float, s: float) -> float:
        radius = R - max(0.0, C - s)
        return 30.0 - math.sqrt(max(0.0, radius**2 - y * y))

    added, _ = dblquad(width, 0.0, 1.4, -half, half, epsabs=1e-6)
    assert tab.volume_mm3(RING) == pytest.approx(added, rel=1e-5)
    assert both.Volume() == pytest.approx(RING.volume_mm3 + tab.volume_mm3(RING), rel=1e-7)


@pytest.mark.parametrize("halves", [(3.5,), (3.5, 2.0)])
def test_bars_fill_the_bore(halves: tuple[float, ...]) -> None:
    bars = Bars(halves, 1.4)
    both = fused([RING.solid(UP), bars.solid(RING, UP)], "both")
    assert both.Volume() == pytest.approx(RING.volume_mm3 + bars.volume_mm3(RING), rel=1e-7)
    flat = sum(4 * quad(lambda y: math.sqrt((R - W) ** 2 - y * y), 0, half)[0] for half in halves)
    crossing = 4 * halves[0] * halves[1] if len(halves) == 2 else 0.0
    assert bars.volume_mm3(RING) == pytest.approx((flat - crossing) * 1.4, rel=0.01)  # chamfer left out here
    assert bars.openings == 2 * len(halves)


def test_a_window_through_a_wall_that_leans() -> None:
    wall = Turned(((0, 18.0), (H, 18.0), (H, 21.0), (0, 20.0)), 20.0, 18.0, 19.0)
    window = Window(0.7, 5.0, 2.0, 4.0, (18.0, 18.0), (20.0 + 2 / 6, 20.0 + 4 / 6))
    left = wall.solid(UP).cut(window.tool(UP))

    def depth(y: float, s: float) -> float:
        return math.sqrt((20.0 + s / 6) ** 2 - y * y) - math.sqrt(18.0**2 - y * y)

    taken, _ = dblquad(depth, 2.0, 4.0, -2.5, 2.5)
    assert window.volume_mm3 == pytest.approx(taken, rel=1e-9)
    assert wall.volume_mm3 - left.Volume() == pytest.approx(taken, rel=1e-6)
