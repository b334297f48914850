"""A corner drawn sharp: its stress is the same on any mesh, and falls with its mean's length as Williams has it."""

from __future__ import annotations

import math
from functools import cache

import cadquery as cq
import numpy as np
import pytest
from cadquery import Solid
from tests.reference.elastic import BODY, answer, flat, load, pressure, the

from fitwright.frame import Frame
from fitwright.loads import LoadFace
from fitwright.physics.elastic import refined
from fitwright.physics.elastic.surface import blunt_mm
from fitwright.physics.elastic.task import Peak
from fitwright.physics.ring import band_edge_mpa

LEG, THICK, WIDE = 80.0, 20.0, 10.0
ROUND_A_MM = 20.0
WILLIAMS = 0.5445
"""Of a corner of 90 deg, opening: M. L. Williams, Stress singularities resulting from various boundary conditions in
angular corners of plates in extension, J. Appl. Mech. 19 (1952): stress goes with r ** (this - 1)."""


def angle() -> Solid:
    """Two legs of 80 x 20 x 10 with a sharp corner between them."""
    outline = [(0, 0), (LEG, 0), (LEG, THICK), (THICK, THICK), (THICK, LEG), (0, LEG)]
    made = cq.Workplane("XZ").polyline(outline).close().extrude(WIDE).val()
    assert isinstance(made, Solid)
    return made


@cache
def corner(size_mm: float, wall_mm: float, read: bool) -> Peak:
    faces = (
        flat("top", (THICK / 2, -WIDE / 2, LEG), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (WIDE / 2, THICK / 2)),
        flat("tip", (LEG, -WIDE / 2, THICK / 2), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (WIDE / 2, THICK / 2)),
    )
    across = (0.0, 0.0, 1.0) if read else None
    case = load("tip", 100.0, (0.0, 0.0, -1.0), ["top"])
    found = answer(angle(), faces, (), [case], size_mm, 0.36, refinements=3, wall_mm=wall_mm, read=across)
    peak = the(found).peak
    assert np.hypot(peak.at[0] - THICK, peak.at[2] - THICK) < 1.5
    return peak


@pytest.mark.parametrize("read", [True, False], ids=["between layers", "in the layers"])
def test_a_sharp_corner_has_one_stress_on_any_mesh(read: bool) -> None:
    found = [corner(size, 2.5, read).stress_mpa for size in (10.0, 6.0)]
    assert max(found) < 1.15 * min(found)


def test_a_corners_stress_falls_with_the_length_of_its_mean(monkeypatch: pytest.MonkeyPatch) -> None:
    """The mean over a disc of radius R goes with R ** (0.5445 - 1): on a mesh fine enough for the smaller one."""
    for name, value in (("HOT_BLUNTS", 4.0), ("FINE_ENOUGH", 1.6), ("GRADED", 0.7)):
        monkeypatch.setattr(refined, name, value)
    corner.cache_clear()
    half, whole = corner(6.0, 1.25, True), corner(6.0, 2.5, True)
    assert (blunt_mm(1.25), blunt_mm(2.5)) == (0.5, 1.0)
    assert half.stress_mpa / whole.stress_mpa == pytest.approx(2.0 ** (1.0 - WILLIAMS), rel=0.06)
    corner.cache_clear()


def test_a_mean_is_not_taken_over_both_sides_of_an_edge() -> None:
    """Beside a free edge the stress runs along the surface alone: the equivalent one is 1 (free to narrow) to
    sqrt(1 - nu + nu^2) (held, plane strain) of the pull. A mean over both sides would be pulled both ways at once."""
    share = corner(6.0, 2.5, False).stress_mpa / corner(6.0, 2.5, True).stress_mpa
    assert 0.98 * math.sqrt(1.0 - 0.36 + 0.36**2) < share < 1.02
    # the corner bears more than its leg would without it: M / W of the upright leg and F / A
    nominal = 100.0 * (LEG - THICK / 2) / (WIDE * THICK**2 / 6.0) + 100.0 / (WIDE * THICK)
    assert corner(6.0, 2.5, True).stress_mpa > 1.2 * nominal


def test_the_edge_of_a_hole_bears_what_kirsch_says() -> None:
    """Three times the pull (G. Kirsch, 1898), 3.03 at this width (R. C. J. Howland, 1930, d / W = 0.1, from memory);
    over a disc of 1 mm on a bore of 5 mm the mean of 1 + 2 cos 2 phi is 2.96."""
    long, wide, thick, r = 160.0, 100.0, 6.0, 5.0
    plate = Solid.makeBox(long, wide, thick).cut(Solid.makeCylinder(r, thick, cq.Vector(long / 2, wide / 2, 0)))
    half = (wide / 2, thick / 2)
    faces = (
        flat("root", (0.0, wide / 2, thick / 2), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), half),
        flat("end", (long, wide / 2, thick / 2), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), half),
    )
    case = load("end", wide * thick, (1.0, 0.0, 0.0), ["root"])
    found = answer(Solid(plate.wrapped), faces, (), [case], 10.0, 0.0, refinements=3, wall_mm=2.5, read=(1.0, 0.0, 0.0))
    peak = the(found).peak
    assert peak.stress_mpa == pytest.approx(3.03 * 2.96 / 3.0, rel=0.03)
    assert peak.at[0] == pytest.approx(long / 2, abs=1.0) and abs(peak.at[1] - wide / 2) == pytest.approx(r, abs=0.1)


def test_a_band_bends_a_tube_as_a_long_cylinder_is_bent() -> None:
    """Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, section 116; the band's edge cuts elements."""
    wall, outside, band, press = 3.2, 49.75, 13.0, 1.237
    tube = Solid.makeCylinder(outside, 150.0).cut(Solid.makeCylinder(outside - wall, 150.0))
    faces = (
        LoadFace(
            "band",
            BODY,
            "round",
            Frame((0, 0, 75.0), (0, 0, 1.0), (1.0, 0, 0)),
            r_mm=outside,
            s_mm=(-band / 2, band / 2),
        ),
        flat("foot", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (outside, outside)),
    )
    expected = band_edge_mpa(press, band, wall, outside - wall / 2, 0.36)
    for size in (8.0, 5.0):
        case = pressure("band", press, ["foot"])
        found = answer(
            Solid(tube.wrapped), faces, (), [case], size, 0.36, refinements=2, wall_mm=wall, read=(0.0, 0.0, 1.0)
        )
        assert the(found).peak.stress_mpa == pytest.approx(expected, rel=0.07)
