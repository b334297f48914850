"""Parts in two halves against closed forms, and the refusals that name where a part may be parted."""

from __future__ import annotations

import math

import pytest

from fitwright.errors import RefusalError, SpecError
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

WALL = 2.52  # six lines of 0.42
INSIDE, LONG = 60.0, 140.0
TUBE = (
    f"part: reducer\nlength: {LONG}\nend_a: {{plain: {{inside: {INSIDE}}}}}\nend_b: {{plain: {{inside: {INSIDE}}}}}\n"
)
R, OUT = INSIDE / 2, INSIDE / 2 + WALL
HOLE = 4.5 + 0.2  # ISO 273 medium for M4, and the printer's allowance for small holes
LIP = 9.0 / 2 + 1.0 + 1.5 * HOLE  # washer ISO 7089 for M4, 1 mm beside it, 1.5 holes to the edge
SCREWED = "part: reducer\nlength: 200\nend_a: {socket: {over: 110, screws: {}}}\nend_b: {socket: {over: 90}}\n"
FLANGED = (
    "part: reducer\nlength: 200\nend_a: {socket: {over: 100}}\n"
    "end_b: {flange: {opening: 90, holes: {count: 4, circle: 140, size: M6}}}\n"
)


def built(text: str) -> Part:
    spec = load_text(text, "halves.yaml")[0]
    return BUILDERS[spec.part](spec)


def total(part: Part) -> float:
    return sum(float(body.solid.Volume()) for body in part.bodies)


def tube(inside: float, outside: float, long: float) -> float:
    """Volume of a ring."""
    return math.pi * (outside**2 - inside**2) * long


def test_a_bolted_tube_has_the_volume_worked_by_hand() -> None:
    part = built(TUBE + "halves: {across: 60}\n")
    count = math.ceil(2 * math.pi * (OUT + 5.5) / 60)
    lips = tube(OUT, OUT + LIP, 8.0) - count * math.pi / 4 * HOLE**2 * 8.0
    assert total(part) == pytest.approx(tube(R, OUT, LONG) + lips, rel=1e-6)
    assert [body.genus for body in part.bodies] == [1 + count, 1 + count]
    first = tube(R, OUT, 60.0) + lips / 2
    assert float(part.bodies[0].solid.Volume()) == pytest.approx(first, rel=1e-6)
    assert f"{count} x M4 x 16" in part.facts["halves joint"]  # 8 of lips, 1.6 washers, 3.2 nut, 1.4 two threads: 14.2


def test_a_lapped_tube_has_the_volume_worked_by_hand() -> None:
    part = built(TUBE + "halves: {across: 70, joint: {lap: {length: 10, keys: 0}}}\n")
    bore, collar = OUT + 0.2, OUT + 0.2 + WALL
    stands = collar - OUT
    foot = math.pi * (collar**2 * stands - collar * stands**2 + stands**3 / 3 - OUT**2 * stands)
    added = tube(bore, collar, 10.0) + tube(OUT, collar, WALL) + foot
    assert total(part) == pytest.approx(tube(R, OUT, LONG) + added, rel=1e-6)
    seam = part.seams[0]
    assert (abs(seam.lap_mm), seam.gap_mm) == (10.0, 0.2)


def test_along_both_halves_are_alike() -> None:
    part = built(TUBE + "halves: {along: up}\n")
    left, right = (float(body.solid.Volume()) for body in part.bodies)
    assert left == pytest.approx(right, rel=1e-9)
    assert part.bodies[0].solid.Center().x < 0 < part.bodies[1].solid.Center().x
    assert all(body.genus == len(body.holes) for body in part.bodies)


def test_auto_leaves_alone_what_fits() -> None:
    part = built(TUBE + "halves: auto\n")
    assert len(part.bodies) == 1 and "one piece" in part.facts["halves"]


def test_auto_parts_what_is_too_tall() -> None:
    part = built(TUBE + "halves: auto\nprinter: {name: small, bed_x: 120, bed_y: 120, bed_z: 100}\n")
    assert [body.name for body in part.bodies] == ["half_a", "half_b"]
    assert all(float(body.solid.BoundingBox().ylen) <= 100.0 for body in part.bodies)


@pytest.mark.parametrize(
    ("text", "found", "allowed"),
    [
        (SCREWED + "halves: {across: 26}\n", "through the end_a screw", "free from"),
        (SCREWED + "halves: {across: 40}\n", "end_a", "free from"),
        (FLANGED + "halves: {along: up}\n", "through the end_b bolt hole 1", "deg, or auto"),
        (FLANGED + "halves: {across: 198}\n", "through the end_b bolt hole", "free from"),
    ],
)
def test_a_seam_through_a_hole_is_refused_with_a_place_that_is_free(text: str, found: str, allowed: str) -> None:
    with pytest.raises(RefusalError) as refused:
        built(text)
    assert refused.value.key.startswith("halves.") and found in refused.value.found
    assert allowed in refused.value.allowed


def test_the_place_that_a_refusal_names_works() -> None:
    with pytest.raises(RefusalError) as refused:
        built(SCREWED + "halves: {across: 26}\n")
    place = refused.value.allowed.split(" mm")[0]
    assert len(built(SCREWED + f"halves: {{across: {place}}}\n").bodies) == 2
    with pytest.raises(RefusalError) as refused:
        built(FLANGED + "halves: {along: up}\n")
    turn = refused.value.allowed.split(" deg")[0]
    assert len(built(FLANGED + f"halves: {{along: {turn}}}\n").bodies) == 2


def test_the_plane_must_hold_the_bend() -> None:
    text = "part: offset_adapter\noffset: {up: 60}\nend_a: {socket: {over: 60}}\nend_b: {socket: {over: 60}}\n"
    with pytest.raises(RefusalError, match="centreline must lie in the plane"):
        built(text + "halves: {along: right}\n")


@pytest.mark.parametrize(
    "halves",
    ["half", "{across: 60, along: up}", "{joint: {bolts: {}, lap: {}}}", "{joint: {bolts: {size: No. 8 wood}}}"],
)
def test_what_says_nothing_clear_is_refused_by_name(halves: str) -> None:
    with pytest.raises(SpecError, match="halves"):
        load_text(TUBE + f"halves: {halves}\n", "halves.yaml")
