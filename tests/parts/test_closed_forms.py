"""Volumes of whole parts, built from YAML, against closed forms that stand here."""

from __future__ import annotations

import math

import pytest

from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

PI = math.pi
WALL = 3.0


def volume(text: str) -> float:
    """Volume [mm3] of the one body of a part."""
    spec = load_text(text, "test.yaml")[0]
    (body,) = BUILDERS[spec.part](spec).bodies
    assert body.solid.isValid()
    return float(body.solid.Volume())


def ring(r: float, t: float = WALL) -> float:
    """Area of a ring of inner radius r."""
    return PI * ((r + t) ** 2 - r**2)


def frustum(r0: float, r1: float, length: float) -> float:
    """Volume of a frustum (Cavalieri: an oblique one as well)."""
    return PI * length * (r0 * r0 + r0 * r1 + r1 * r1) / 3


def test_a_straight_tube() -> None:
    text = "{part: reducer, wall: 3, length: 80, end_a: {plain: {inside: 60}}, end_b: {plain: {inside: 60}}}"
    assert volume(text) == pytest.approx(ring(30) * 80, rel=1e-9)


def cone_tube(r0: float, r1: float, length: float, slope: float) -> float:
    """A tube's cone whose wall is WALL along its normal at the steepest line."""
    radial = WALL * math.hypot(1, slope)
    # either end steps up to the radial wall, at 45 deg or over half a millimetre, and goes straight on for 0.6 walls
    step = max(radial - WALL, 0.5)
    roots = sum(frustum(r + WALL, r + radial, step) - PI * r * r * step for r in (r0, r1))
    roots += 0.6 * WALL * (ring(r0, radial) + ring(r1, radial))
    return roots + frustum(r0 + radial, r1 + radial, length) - frustum(r0, r1, length)


def test_a_coaxial_cone() -> None:
    # ends 10 long, a cone of 10 deg between
    text = "{part: reducer, wall: 3, end_a: {plain: {inside: 100}}, end_b: {plain: {inside: 60}}}"
    slope = math.tan(math.radians(10))
    expected = 10 * ring(50) + 10 * ring(30) + cone_tube(50, 30, 20 / slope, slope)
    assert volume(text) == pytest.approx(expected, rel=1e-6)


def test_a_level_cone() -> None:
    text = "{part: reducer, line: level, wall: 3, end_a: {plain: {inside: 100}}, end_b: {plain: {inside: 60}}}"
    length = 20 / math.tan(math.radians(10))
    slope = 40 / length  # its steepest line drops by both changes of radius: 20 + 20
    expected = 10 * ring(50) + 10 * ring(30) + cone_tube(50, 30, length, slope)
    assert volume(text) == pytest.approx(expected, rel=1e-6)


def test_an_s_bend() -> None:
    text = (
        "{part: offset_adapter, wall: 3, length: 180, offset: {right: 24, up: 32},"
        " end_a: {plain: {inside: 60}}, end_b: {plain: {inside: 60}}}"
    )
    offset, bend = 40.0, 160.0  # ends 10 long each
    radius = (bend**2 + offset**2) / (4 * offset)
    along = 2 * radius * 2 * math.atan(offset / bend)
    assert volume(text) == pytest.approx(ring(30) * (20 + along), rel=1e-9)


def test_a_single_45_deg_bend() -> None:
    a = math.radians(45)
    tangent = 60.0
    offset = (tangent + 10) * math.sin(a)
    length = 10 + tangent + (tangent + 10) * math.cos(a)
    text = (
        f"{{part: offset_adapter, wall: 3, length: {length:.9f}, offset: {{up: {offset:.9f}}}, angle: 45 deg,"
        " end_a: {plain: {inside: 50}}, end_b: {plain: {inside: 50}}}"
    )
    radius = tangent / math.tan(a / 2)
    assert volume(text) == pytest.approx(ring(25) * (20 + radius * a), rel=1e-6)


def test_a_round_flange_with_four_holes_and_washer_seats() -> None:
    text = (
        "{part: reducer, wall: 3, length: 60, end_b: {plain: {inside: 100}},"
        " end_a: {flange: {opening: 100, round: 190, thickness: 6, gussets: 0,"
        " holes: {count: 4, circle: 160, size: M6}}}}"
    )
    hole = 6.6 + 0.2  # ISO 273 medium for M6, opened by the generic printer's 0.2
    seat = 12.0 + 1.0  # ISO 7089 washer for M6 is 12 wide; seat 0.4 deep
    neck = 53.0
    plate = PI * (95**2 - 50**2) * 6
    foot = 2 * PI * (neck + 1.0) * (3.0 * 3.0 / 2)  # Pappus: triangle 3 x 3, its centroid 1 outside the neck
    holes = 4 * PI / 4 * (hole**2 * 6 + (seat**2 - hole**2) * 0.4)
    assert volume(text) == pytest.approx(plate + ring(50) * 54 + foot - holes, rel=1e-6)


def test_a_socket_with_its_stop_shoulder() -> None:
    # 60 mm pipe, slide by 0.6 on the diameter, depth 30, no lead-in, stop 1 at 45 deg
    text = (
        "{part: reducer, wall: 3, length: 60, end_b: {plain: {inside: 58.6}},"
        " end_a: {socket: {over: 60, allowance: 0.6, depth: 30, lead_in: 0, taper: 0 deg, stop: 1}}}"
    )
    bore, passage = 30.3, 29.3
    step = 30 + 3 * (math.sqrt(2) - 1)  # the outside goes on until its 45 deg slope keeps 3 mm from the corner
    outside = PI * (bore + 3) ** 2 * step + frustum(bore + 3, passage + 3, 1) + PI * (passage + 3) ** 2 * (59 - step)
    inside = PI * bore**2 * 30 + frustum(bore, passage, 1) + PI * passage**2 * 29
    assert volume(text) == pytest.approx(outside - inside, rel=1e-6)
