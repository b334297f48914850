"""Every hanger that would not hold or would harm its hose is stopped: file, line, key, found, allowed.

Each from a file by the command, as its user would.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import cadquery as cq
import pytest

from fitwright import pipeline
from fitwright.cli.main import main
from fitwright.finding import Finding
from fitwright.mesh import mesh_body

from .whole import part_of, spec_of

Captured = pytest.CaptureFixture[str]
HOSE = "part: hose_hanger\nhose: {over_ribs: 108.4, inside: 100, squeezes_to: 82}\n"
PIPE = "part: hose_hanger\npipe: {over: 110.2, wall: 3.2}\n"
HOLES = "mount: {holes: {side: left, points: [{up: 95}, {down: 95}], size: M6}}\n"
PLATE = "part: flange_plate\nrectangle: {width: 200, height: 116}\nopenings: {round: 90}\n"


def checked(text: str, folder: Path, capsys: Captured) -> tuple[int, str]:
    """Exit code and all words of `check` on a file."""
    (folder / "hanger.yaml").write_text(text, encoding="utf-8")
    code = main(["check", "--quick", str(folder / "hanger.yaml")])
    out, err = capsys.readouterr()
    return code, " ".join(f"{out} {err}".split())


REFUSED = [
    # (YAML, line, key, found, allowed)
    (PIPE + "mount: wall\nhook: {throat: 90}\n", 4, "hook.throat", "90", r"\d+\.\d to \d+\.\d mm"),
    (HOSE + "mount: ceiling\nhook: {throat: 110}\n", 4, "hook.throat", "110", "less than 108.4 mm"),
    (HOSE + "mount: wall\nwidth: 30\n", 4, "width", "30 mm", "38 mm or more under a hose"),
    (HOSE + "mount: wall\nwidth: 40\nsaddle: {strap: 38}\n", 4, "width", "a strap of 38 mm", r"\d+ mm or more"),
    (HOSE + "mount: ceiling\nabove: people\nsecond_fixing: no\n", 5, "second_fixing", "no, above people", "yes"),
    (
        HOSE + "mount:\n  wall:\n    screws: {size: 5.0 mm, head: countersunk}\n",
        5,
        "mount.wall.screws.head",
        "'countersunk'",
        "pan | washer | hex",
    ),
    (
        HOSE + "mount:\n  wall: {screws: {size: 5.0 mm, length: 16}}\n",
        4,
        "mount.wall.screws.length",
        "16 mm",
        r"\d+ to \d+ mm",
    ),
    (
        HOSE + "mount: {wall: {into: {wood: plywood, thickness: 9}}}\n",
        3,
        "mount.wall.into.thickness",
        "9 mm",
        r"\d+ mm or more",
    ),
    (
        HOSE + "mount:\n  joist_side:\n    joist: {width: 38, depth: 60}\n",
        5,
        "mount.joist_side.joist.depth",
        "60 mm",
        r"\d+\.?\d* mm or more",
    ),
    (
        HOSE + "mount:\n  holes: {side: left, points: [{up: 30}, {down: 30}], size: M6}\n",
        4,
        r"mount.holes.points\[\d\]",
        "30 mm from the axis",
        "or more",
    ),
    (HOSE + "mount: {holes: {side: left, points: [{up: 95}], size: M6}}\n", 3, "mount.holes.points", "1 places", "2"),
    (PIPE + "mount: wall\nclamp: {screws: M10}\nwidth: 24\n", 5, "width", "24", "33 mm or more"),
    (HOSE + "mount: wall\ncount: 3\napart: 112\n", 5, "apart", "112", r"\d+\.?\d* mm or more"),
    (HOSE + "mount: wall\ncount: 3\napart: 100\n", 5, "apart", "100 mm from axis to axis", "more than 108.4 mm"),
    (HOSE + "mount: {wall: {to_axis: 58}}\n", 3, "mount.wall.to_axis", "58 mm", r"\d+\.?\d* mm or more"),
    (HOSE + "mount: ceiling\nhook: {opens: up}\n", 4, "hook.opens", "towards the surface", "away from the surface"),
    (HOSE + "mount: {cable_tie: {bar: 30}}\nabove: cutter\n", 3, "mount", "friction", "screws or bolts"),
    (
        PLATE + "holes: {count: 4, circle: 130, first_at: 45, size: M6}\nsheet: {material: acrylic, thickness: 5}\n",
        4,
        "holes",
        "hole 1, 12.04 mm from its centre to the edge",
        "13.2 mm or more",
    ),
]


@pytest.mark.parametrize(("text", "line", "key", "found", "allowed"), REFUSED)
def test_refused(text: str, line: int, key: str, found: str, allowed: str, tmp_path: Path, capsys: Captured) -> None:
    """Exit code 2; the one message names file, line, key, what was found and what would do."""
    code, said = checked(text, tmp_path, capsys)
    assert code == 2, said
    match = re.search(rf"hanger\.yaml:{line}:\d+: ({key}): found (.*?); allowed: (.*)", said)
    assert match, said
    assert found in match[2] and re.search(allowed, match[3]), said


BLOCKED = [
    # (YAML, code, words)
    (
        HOSE + "mount: wall\nhook: {throat: 45}\n",
        "hanger.throat, hook.throat",
        r"Make `hook.throat` \d+\.\d mm or more",
    ),
    (HOSE + "mount: wall\nsaddle: {strap: 20}\nwidth: 40\n", "hanger.saddle", r"Make `width` \d+\.\d mm or more"),
    (HOSE + "mount: ceiling\nsaddle: {strap: 25}\n", "hanger.saddle, strap", "38 mm or more"),
    (
        PIPE + "clamp: yes\nmount: {joist_underside: {joist: {width: 24}, screws: {size: 6.0 mm}}}\n",
        "hanger.wood",
        "12.0 mm from the edge .* 15 mm or more",
    ),
    (HOSE + "mount: wall\nspacing: 3200\n", "hanger.spacing, spacing", "every 1219 mm or nearer"),
    (HOSE + "mount: wall\nhook: yes\nabove: cutter\n", "hanger.spacing, hook", "spring alone"),
    (
        PIPE + "clamp: {screws: M5}\nmount: {strut: {side: left, runs: across}}\nabove: cutter\n",
        "hanger.spacing",
        "friction alone",
    ),
]


@pytest.mark.slow
@pytest.mark.parametrize(("text", "code", "words"), BLOCKED)
def test_blocked(text: str, code: str, words: str, tmp_path: Path, capsys: Captured) -> None:
    """Exit code 1; the finding names the key and what would do."""
    exit_code, said = checked(text, tmp_path, capsys)
    assert exit_code == 1, said
    match = re.search(rf"BLOCKS {code}(.*)", said)
    assert match and re.search(words, match[1]), said


# spoilt after the build: what the YAML could not say wrong, the finished mesh tells

SOUND = PIPE + "clamp: {screws: M5}\n" + HOLES + "second_fixing: yes\n"
"""The bore 110.2; the surface on its left; two M6 holes 95 above and below."""


def spoilt(body: str, *away: cq.Shape, more: tuple[cq.Shape, ...] = ()) -> list[Finding]:
    """What blocks when this is cut from the finished body, or added to it; its declarations stay."""
    part = part_of(SOUND)
    (was,) = (one for one in part.bodies if one.name == body)
    solid = was.solid.fuse(*more) if more else was.solid.cut(*away)
    one = solid.Solids()[0]
    bodies = tuple(replace(each, solid=one) if each.name == body else each for each in part.bodies)
    made = replace(part, bodies=bodies)
    found = pipeline.check(made, {each.name: mesh_body(each) for each in bodies}, spec_of(SOUND))
    return [f for f in found if f.blocks]


def surface_x() -> float:
    """Where the mounting surface lies."""
    (body,) = (one for one in part_of(SOUND).bodies if one.name == "hanger")
    return float(body.solid.BoundingBox().xmin)


@pytest.mark.slow
def test_before_it_is_spoilt_nothing_blocks() -> None:
    assert spoilt("hanger", cq.Solid.makeBox(1, 1, 1, cq.Vector(900, 0, 0))) == []


@pytest.mark.slow
def test_a_coned_screw_hole() -> None:
    """A countersink of 12.6 x 3 in one of its two holes."""
    x = surface_x()
    cone = cq.Solid.makeCone(3.3, 6.3, 3.0, cq.Vector(x + 3.01, 22, 95), cq.Vector(1, 0, 0))
    assert "hanger.head" in {f.code for f in spoilt("hanger", cone)}


@pytest.mark.slow
def test_a_screw_hole_too_near_the_edge() -> None:
    """The plate's end sawn off 6 mm beyond the middle of a 6.6 mm hole: 1.5 diameters are 9.9."""
    end = cq.Solid.makeBox(40, 80, 60, cq.Vector(surface_x() - 1, -10, 101))
    assert spoilt("hanger", end)


@pytest.mark.slow
def test_a_pinched_hose() -> None:
    """A strip of 1 mm in the bore's bottom: 1 mm less than what lies in it."""
    strip = cq.Solid.makeCylinder(55.6, 44, cq.Vector(0, 0, 0), cq.Vector(0, 1, 0)).cut(
        cq.Solid.makeCylinder(54.1, 44, cq.Vector(0, 0, 0), cq.Vector(0, 1, 0)),
        cq.Solid.makeBox(200, 80, 200, cq.Vector(-15, -10, -100)),
    )
    assert "hanger.bore" in {f.code for f in spoilt("hanger", more=tuple(strip.Solids()))}


@pytest.mark.slow
def test_a_nut_that_cannot_be_put_in() -> None:
    """The opening of a nut's pocket is shut with a wall."""
    pocket = next(one for one in part_of(SOUND).fastenings if one.pocket is not None)
    x, _, z = pocket.head
    wall = cq.Solid.makeBox(30, 3, 20, cq.Vector(x - 30, 41, z - 10))
    codes = {f.code for f in spoilt("hanger", more=(wall,))}
    assert "hardware" in codes or "features" in codes, codes


# told, not stopped


@pytest.mark.slow
def test_a_rod_that_a_snag_bends_is_told_with_the_longest_that_does_not(tmp_path: Path, capsys: Captured) -> None:
    """M = 150 N x L; core of M8 6.466 mm, pi d^3 / 32 = 26.5 mm3, 240 MPa: 42 mm (ISO 898-1, class 4.6)."""
    text = PIPE + "clamp: yes\nmount: {rod: {drop: 900, size: M8}}\n"
    code, said = checked(text, tmp_path, capsys)
    longest = 240.0 * 3.141593 * (8.0 - 1.226869 * 1.25) ** 3 / 32.0 / 150.0
    assert code == 0 and f"under {longest:.0f} mm" in said
    assert re.search(r"warns hanger.rod, mount.drop: a snag of 150 N bends 900 mm of M8 rod for good", said)
