"""The blade over the port, against polygons."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Point, box

from fitwright.physics.slide.overlap import PortAndBlade, segment_share, travel_needed_mm


def polygon_share(port: PortAndBlade, out: float) -> float:
    bore = Point(0, -port.port_in_mm).buffer(port.bore_mm / 2, quad_segs=720)
    tip = out - port.blade_mm
    blade = box(-200, tip, 200, 300)
    if port.tip_radius_mm is not None:
        radius = port.tip_radius_mm
        blade = box(-radius, tip + radius, radius, 300).union(Point(0, tip + radius).buffer(radius, quad_segs=720))
    return float(bore.intersection(blade).area / bore.area)


@pytest.mark.parametrize("radius", [None, 55.0, 80.0])
@pytest.mark.parametrize("out", [20.0, 40.0, 70.0, 100.0, 123.0, 126.0])
def test_covered_share(radius: float | None, out: float) -> None:
    port = PortAndBlade(101.6, 75, 150, tip_radius_mm=radius)
    assert port.covered_share(out) == pytest.approx(polygon_share(port, out), abs=2e-5)


def test_half_quarter_and_none() -> None:
    assert segment_share(50.0, 100.0) == pytest.approx(0.5)
    # height of half the radius: (pi / 3 - sqrt(3) / 4) / pi
    assert segment_share(25.0, 100.0) == pytest.approx((math.pi / 3 - math.sqrt(3) / 4) / math.pi)
    assert segment_share(-3.0, 100.0) == 0.0
    assert segment_share(130.0, 100.0) == pytest.approx(1.0)


def test_three_millimetres_short_cost_little_air() -> None:
    # 3 mm left in a 101.6 mm bore: under 1 % of its area, and 105.6 of travel leave none
    port = PortAndBlade(101.6, 75.0, 150.0)
    shut, opened = port.least_out_mm() - travel_needed_mm(101.6, 4.0), port.least_out_mm()
    assert port.lap_mm(shut) == pytest.approx(4.0)
    assert port.left_mm(opened) == pytest.approx(0.0)
    assert port.left_mm(opened - 3.0) == pytest.approx(3.0)
    assert 0.008 < port.covered_share(opened - 3.0) < 0.009
    # a blade that does not reach the far edge leaves a slit
    assert port.lap_mm(shut + 5.0) == pytest.approx(-1.0)
