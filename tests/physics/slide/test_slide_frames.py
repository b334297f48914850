"""Frames against an independent direct-stiffness solver, and sections against integrals on a grid."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.beam_frames import Frame

from fitwright.physics.slide.frames import (
    POISSON,
    Movement,
    NosePlate,
    Rail,
    beside_middle,
    gate_moment_nm,
    post,
    rails_frame,
    rods_frame,
    sag,
    strip,
)
from fitwright.physics.slide.sections import (
    Rectangle,
    Section,
    channel,
    composed,
    rectangle,
    round_bar,
    stress_diameter_mm,
)

E = 1750.0
NOSE = NosePlate(88, channel(50, 10, 6, 14), E, shear_mm2=2 * 6 * 24)


def kga(area: float, modulus: float = E) -> float:
    return 5 / 6 * area * modulus / (2 * (1 + POISSON))


def solved_strip(force: float, offset: float, length: float, section: Section, modulus: float) -> tuple[float, ...]:
    frame = Frame()
    nodes = frame.beam((0, 0), (length, 0), modulus * section.area_mm2, modulus * section.deep_mm4)
    end = 3 * nodes[-1]
    moved = frame.solve([0, 1, 2], {end: force, end + 2: force * offset})
    return moved[end] + offset * moved[end + 2], moved[end + 1], math.degrees(moved[end + 2])


def test_sections_against_a_fine_grid() -> None:
    pieces = [Rectangle(60, 8, 0, 4), Rectangle(5, 30, -27.5, 23), Rectangle(7, 20, 20, 18)]
    section, step = composed(pieces), 0.05
    areas, xs, ys = 0.0, [], []
    for one in pieces:
        x = np.arange(one.across_at - one.across_mm / 2 + step / 2, one.across_at + one.across_mm / 2, step)
        y = np.arange(one.deep_at - one.deep_mm / 2 + step / 2, one.deep_at + one.deep_mm / 2, step)
        grid = np.meshgrid(x, y)
        xs.append(grid[0].ravel())
        ys.append(grid[1].ravel())
        areas += grid[0].size * step**2
    x, y = np.concatenate(xs), np.concatenate(ys)
    assert section.area_mm2 == pytest.approx(areas)
    assert (section.across_at, section.deep_at) == pytest.approx((x.mean(), y.mean()))
    assert section.deep_mm4 == pytest.approx(((y - y.mean()) ** 2).sum() * step**2, rel=1e-4)
    assert section.across_mm4 == pytest.approx(((x - x.mean()) ** 2).sum() * step**2, rel=1e-4)
    assert section.fibre_deep_mm == pytest.approx(38 - y.mean())


def test_stress_areas_of_rods() -> None:
    # ISO 898-1, table of nominal stress areas: M6 20.1, M8 36.6, M10 58.0, M12 84.3 mm2
    for d, pitch, area in ((6, 1.0, 20.1), (8, 1.25, 36.6), (10, 1.5, 58.0), (12, 1.75, 84.3)):
        assert round_bar(stress_diameter_mm(d, pitch)).area_mm2 == pytest.approx(area, abs=0.05)


def test_the_plate_beside_the_line() -> None:
    # 60 x 8: I = 2560 mm4, Z = 640 mm3; M = 121 x 20.6 = 2492.6 N mm over 184.5 mm at 1750 MPa
    plate = strip(121, 20.6, 184.5, rectangle(60, 8), E)
    assert plate.aside_mm == pytest.approx(2492.6 * 184.5**2 / (2 * E * 2560))
    assert round(plate.aside_mm, 1) == 9.5
    assert round(plate.tilt_deg, 1) == 5.9
    # 3.9 MPa is the bending alone; the pull adds 121 / 480
    assert plate.stress_mpa == pytest.approx(2492.6 / 640 + 121 / 480)
    assert round(2492.6 / 640, 1) == 3.9
    # and the nose, 20.6 above the plate, goes outwards with the tilt: 2.1 mm, which is a stroke that is missing
    assert round(plate.along_mm, 1) == 2.1
    assert not plate.within()


def test_a_u_section_is_stiff_enough() -> None:
    # floor 60 x 8, walls 5 x 30; the thrust line 24.6 above the underside, the centroid 11.31: 13.29 beside it
    u = channel(60, 8, 5, 30)
    offset = 20.6 - u.deep_at
    assert offset == pytest.approx(13.29, abs=0.01)
    moved = strip(121, offset, 184.5, u, E)
    assert moved.aside_mm == pytest.approx(0.17, abs=0.001)
    assert moved.within()
    # with walls of 12 instead of 30 it is not
    low = channel(60, 8, 5, 12)
    assert not strip(121, 20.6 - low.deep_at, 184.5, low, E).within()


@pytest.mark.parametrize("section", [rectangle(60, 8), channel(60, 8, 5, 30), rectangle(150, 18)])
def test_strips_against_the_solver(section: Section) -> None:
    found = strip(121, 13.0, 184.5, section, E)
    expected = solved_strip(121, 13.0, 184.5, section, E)
    assert (found.along_mm, found.aside_mm, found.tilt_deg) == pytest.approx(expected, rel=1e-6)


def solved_rails(force: float, rail: Rail, nose: NosePlate, beside: float = 0.0, stiff: float = 1.0) -> np.ndarray:
    """Two rails up from y = 0, the plate across; movement of its middle: u, v, turn."""
    frame = Frame()
    half = nose.span_mm / 2
    ea, ei = rail.modulus_mpa * rail.section.area_mm2, rail.modulus_mpa * rail.section.across_mm4
    feet = [frame.beam((x, 0), (x, rail.length_mm), ea, ei)[0] for x in (-half, half)]
    plate = (1e9, stiff * nose.modulus_mpa * nose.section.deep_mm4, stiff * kga(nose.shear_mm2, nose.modulus_mpa))
    frame.beam((-half, rail.length_mm), (half, rail.length_mm), *plate, pieces=8)
    middle = 3 * frame.node(0.0, rail.length_mm)
    held = [3 * foot + k for foot in feet for k in range(3)]
    loads = {middle + 1: force, middle + 2: force * beside}
    return frame.solve(held, loads)[middle : middle + 3]


@pytest.mark.parametrize("deep", [8.0, 12.0, 20.0])
@pytest.mark.parametrize("span", [60.0, 88.0, 170.0])
def test_rails_against_the_solver(deep: float, span: float) -> None:
    rail = Rail(180, rectangle(deep, 30), E)
    nose = NosePlate(span, NOSE.section, E, NOSE.shear_mm2)
    found = rails_frame(121, rail, nose).along_mm
    assert found == pytest.approx(solved_rails(121, rail, nose)[1], rel=2e-3)
    stretch = 121 * 180 / (2 * E * deep * 30)
    assert 121 * nose.built_in_mm_per_n < found - stretch < 121 * nose.pinned_mm_per_n


def test_rails_off_the_line_bend_as_two_strips() -> None:
    rail = Rail(180, rectangle(12, 30), E)
    moved = rails_frame(121, rail, NOSE, off_line_mm=5.0)
    along, aside, tilt = solved_strip(60.5, 5.0, 180, rail.section, E)
    assert (moved.aside_mm, moved.tilt_deg) == pytest.approx((aside, tilt), rel=1e-6)
    on_line = rails_frame(121, rail, NOSE)
    assert moved.along_mm - on_line.along_mm == pytest.approx(along - 60.5 * 180 / (E * 360), rel=1e-6)


def test_thrust_beside_the_middle_tilts_the_plate() -> None:
    rail = Rail(180, rectangle(12, 30), E)
    straight = solved_rails(121, rail, NOSE, stiff=1e5)
    beside = solved_rails(121, rail, NOSE, beside=2.0, stiff=1e5)
    found = beside_middle(121, 2.0, 180, rail.section, E, 88)
    # the frame sways as well, which takes a little of the rails' own bending away
    assert math.radians(found.tilt_deg) == pytest.approx(beside[2] - straight[2], rel=0.02)


def test_a_plain_nose_plate_bends_too_far() -> None:
    # 6 mm thick across 200 mm at 121 N: I = 50 x 6^3 / 12 = 900: 121 x 200^3 / 48 E I = 12.8 mm; with ribs 0.6
    rod = round_bar(stress_diameter_mm(10, 1.5))
    plain = NosePlate(200, rectangle(50, 6), E, shear_mm2=300)
    assert rods_frame(121, 190, rod, plain).along_mm > 12.8
    assert not rods_frame(121, 190, rod, plain).within()
    ribbed = NosePlate(200, channel(50, 10, 6, 24), E, shear_mm2=2 * 6 * 34)
    assert rods_frame(121, 190, rod, ribbed).within()


def test_rods_bend_where_the_plate_stands_off_their_line() -> None:
    rod = round_bar(stress_diameter_mm(8, 1.25))
    # M = 121 x 20.6 / 2 each, I = pi 6.83^4 / 64 = 106.6 mm4, 205 GPa: 1.03 mm, 0.62 deg
    moved = rods_frame(121, 190, rod, NOSE, off_line_mm=20.6)
    assert moved.aside_mm == pytest.approx(121 * 20.6 / 2 * 190**2 / (2 * 205_000 * 106.6), rel=3e-3)
    assert not moved.within()
    assert rods_frame(121, 190, rod, NOSE, off_line_mm=1.0).within()


def test_posts_and_sag_against_the_solver() -> None:
    section = rectangle(60, 20)
    frame = Frame()
    nodes = frame.beam((0, 0), (40, 0), E * 1200, E * section.deep_mm4, kga(1200))
    moved = frame.solve([0, 1, 2], {3 * nodes[-1] + 1: 121})
    found = post(121, 40, section, E)
    assert (found.along_mm, math.radians(found.tilt_deg)) == pytest.approx(moved[3 * nodes[-1] + 1 :][:2], rel=1e-6)

    rod = round_bar(stress_diameter_mm(8, 1.25))
    frame = Frame()
    nodes = frame.beam((0, 0), (167, 0), 1e9, 2 * 205_000 * rod.deep_mm4)
    weight, end = 0.2 * 9.80665, 3 * nodes[-1]
    moved = frame.solve([0, 1, 2], {end + 1: weight, end + 2: weight * 60})
    found = sag(0.2, 167, 60, rod, 205_000)
    assert (found.aside_mm, math.radians(found.tilt_deg)) == pytest.approx(moved[end + 1 : end + 3], rel=1e-6)


def test_movements_add_up() -> None:
    both = Movement(0.1, 0.2, 0.3, 4.0) + Movement(0.2, 0.2, 0.1, 3.0)
    assert (both.along_mm, both.aside_mm, both.tilt_deg, both.stress_mpa) == pytest.approx((0.3, 0.4, 0.4, 4.0))
    assert both.moves_mm == pytest.approx(0.5)
    assert both.within()
    assert not (both + Movement(tilt_deg=0.11)).within()
    assert not (both + Movement(along_mm=0.01)).within()


def test_the_weight_at_the_gates_edge() -> None:
    # 0.3 kg x 9.80665 x 0.34 m = 1.0 N m
    assert gate_moment_nm(0.3, 340) == pytest.approx(1.0003, abs=1e-4)
