"""What the families promise: refusals whose cure works, level bottoms, clocking, mirror images."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text


def build(text: str) -> Part:
    """The part of a one-part YAML text."""
    spec = load_text(text, "test.yaml")[0]
    return BUILDERS[spec.part](spec)


def refusal(text: str) -> RefusalError:
    """What the family says to a text that it cannot build."""
    with pytest.raises(RefusalError) as caught:
        build(text)
    return caught.value


def first_number(text: str) -> float:
    found = re.search(r"\d+(\.\d+)?", text)
    assert found, text
    return float(found.group())


OFFSET = "{{part: offset_adapter, length: {length}, offset: {{up: {up}}}, end_a: {a}, end_b: {b}}}"
PIPE = "{plain: {inside: 100}}"


def test_a_bend_that_would_fold_over_is_refused_with_the_length_that_works() -> None:
    # known fault of sweeps (CadQuery issues 674 and 808): valid, watertight, right volume, and folded into itself
    error = refusal(OFFSET.format(length=90, up=40, a=PIPE, b=PIPE))
    assert error.key == "length"
    shortest = first_number(error.allowed)
    build(OFFSET.format(length=shortest, up=40, a=PIPE, b=PIPE))
    assert refusal(OFFSET.format(length=shortest - 1, up=40, a=PIPE, b=PIPE)).key == "length"


def test_auto_length_prints_at_45_deg_with_a_diameter_of_radius() -> None:
    part = build(OFFSET.format(length="auto", up=60, a=PIPE, b=PIPE))
    radius, in_d = (float(x) for x in re.findall(r"radius ([\d.]+) mm \(([\d.]+) D\)", part.facts["bends"])[0])
    # two arcs over L: R = (L^2 + o^2) / 4 o >= 100 asks for L >= 142.8; 45 deg asks for L >= 2.4142 o = 144.9
    assert radius == pytest.approx((144.853**2 + 60**2) / 240, abs=0.1)
    assert in_d == pytest.approx(radius / 100, abs=0.01)


def test_a_reducer_too_short_for_its_joints_is_refused_with_the_length_that_works() -> None:
    ends = "end_a: {{socket: {{over: 110}}}}, end_b: {{hose_tail: {{hose_inside: 63}}}}"
    text = f"{{{{part: reducer, length: {{length}}, {ends}}}}}"
    error = refusal(text.format(length=80))
    assert error.key == "length"
    build(text.format(length=first_number(error.allowed)))


def test_a_bolt_circle_too_small_for_its_washers_is_refused_with_the_circle_that_works() -> None:
    text = (
        "{{part: reducer, end_b: {{plain: {{inside: 100}}}},"
        " end_a: {{flange: {{opening: 100, holes: {{count: 4, circle: {circle}, size: M6}}}}}}}}"
    )
    error = refusal(text.format(circle=114))
    assert error.key == "end_a.flange.holes"
    build(text.format(circle=2 * first_number(error.allowed) + 0.1))


def test_level_passages_have_their_bottoms_flush() -> None:
    part = build("{part: reducer, line: level, end_a: {plain: {inside: 150}}, end_b: {plain: {inside: 100}}}")
    mesh = mesh_body(part.bodies[0]).mesh
    for y, radius in ((0.5, 75.0), (float(mesh.bounds[1][1]) - 0.5, 50.0)):
        ring = mesh.section([0, 1, 0], [0, y, 0]).vertices
        inner = ring[np.hypot(ring[:, 0], ring[:, 2] + 75.0 - radius) < radius + 0.5]
        assert inner[:, 2].min() == pytest.approx(-75.0, abs=0.01)
        assert inner[:, 2].max() == pytest.approx(2 * radius - 75.0, abs=0.01)


CLOCKED = (
    "{{part: offset_adapter, clock: {clock} deg, offset: {{up: 60}}, end_b: {{plain: {{inside: 100}}}},"
    " end_a: {{flange: {{opening: 100, holes: {{count: 4, circle: 150, size: M6, first_at: 45 deg}}}}}}}}"
)


@pytest.mark.parametrize(("clock", "x", "z"), [(0, 0, 60), (90, 60, 0), (180, 0, -60), (270, -60, 0)])
def test_clock_turns_the_offset_and_leaves_the_bolts(clock: int, x: float, z: float) -> None:
    part = build(CLOCKED.format(clock=clock))
    mesh = mesh_body(part.bodies[0]).mesh
    mouth = mesh.vertices[mesh.vertices[:, 1] > mesh.bounds[1][1] - 0.01]
    assert mouth.mean(axis=0)[[0, 2]] == pytest.approx([x, z], abs=0.5)
    holes = {(round(h.start[0], 3), round(h.start[2], 3)) for h in part.bodies[0].holes}
    reach = round(75 * math.sin(math.pi / 4), 3)
    assert holes == {(reach, reach), (reach, -reach), (-reach, reach), (-reach, -reach)}


def test_a_mirrored_spec_is_the_mirrored_part() -> None:
    text = (
        "{{part: offset_adapter, length: 240, angle: 20 deg, offset: {{right: {right}, up: 40}},"
        " end_a: {{socket: {{over: 90}}}}, end_b: {{hose_tail: {{hose_inside: 80}}}}}}"
    )
    one, other = (build(text.format(right=r)).bodies[0].solid for r in (30, -30))
    assert one.Volume() == pytest.approx(other.Volume(), rel=1e-9)
    flipped = one.mirror("YZ")
    assert flipped.intersect(other).Volume() == pytest.approx(other.Volume(), rel=1e-6)


def test_a_nested_sleeve_has_the_wall_that_the_gap_leaves() -> None:
    # hose 107.95 inside: its tail is 107.45; port 101.6: slide on the bore; the wall is half the difference
    part = build(
        "{part: reducer, line: nested, end_a: {socket: {over: 101.6, allowance: 0.6}},"
        " end_b: {hose_tail: {hose_inside: 107.95}}}"
    )
    (body,) = part.bodies
    bore, skin = body.fits
    assert body.wall_mm == pytest.approx((107.45 - 102.2) / 2, abs=0.13)
    assert bore.d0_mm == pytest.approx(102.2) and skin.d0_mm == pytest.approx(107.45)


def test_too_close_for_a_sleeve_is_refused() -> None:
    error = refusal(
        "{part: reducer, line: nested, end_a: {socket: {over: 100}}, end_b: {hose_tail: {hose_inside: 102}}}"
    )
    assert "wall" in error.found
