"""Check cover: plates that are too small fail by what was taken off; blank flanges are as large as they must be."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest

from fitwright import pipeline
from fitwright.checks import cover
from fitwright.errors import RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.spec.load import load_text

from .whole import blocking, body_of, findings, part_of, result_of, spec_of

TAIL = "end_b: {hose_tail: {hose_inside: 36}}\n"
LOBES = (
    "{points: [{right: 10, up: 17.3, via: {right: 25.5, up: 0}}, {right: -20, up: 0, via: {right: -12.75, up: 22.08}}, "
    "{right: 10, up: -17.3, via: {right: -12.75, up: -22.08}}]}"
)
BLANK = f"part: reducer\nend_a: {{flange: {{covers: {LOBES}, margin: 8, thickness: 4, opening: 30}}}}\n{TAIL}"
SHAPE = "[{left: 45, down: 40}, {right: 45, down: 40}, {right: 45, up: 40}, {left: 45, up: 40, via: {up: 60}}]"


def flange(keys: str) -> str:
    """A part with this flange and a hose tail."""
    return f"part: reducer\nend_a: {{flange: {{{keys}}}}}\n{TAIL}"


def spoilt(solid: cq.Shape) -> list[cover.Finding]:
    """What the check says of the blank flange with another solid in its place."""
    body = replace(body_of(BLANK), solid=solid.Solids()[0])
    part = replace(part_of(BLANK), bodies=(body,))
    found = pipeline.check(part, {body.name: mesh_body(body)}, spec_of(BLANK))
    return [f for f in found if f.code == "cover"]


def test_the_blank_flange_is_as_large_as_hole_and_margin() -> None:
    assert not blocking(result_of(BLANK).findings)
    box = body_of(BLANK).solid.BoundingBox()
    # furthest from the axis: the top of the first lobe, 25.5 (the others 25.497), and the margin of 8
    assert box.xlen == pytest.approx(2 * 33.5, abs=0.01)
    assert body_of(BLANK).genus == 1
    (passed,) = findings(BLANK, "cover")
    assert passed.severity == "pass" and passed.value == pytest.approx(8.0, abs=0.02)
    assert any("footprint" in piece.name for piece in body_of(BLANK).tries)


def test_two_millimetres_too_small_fails() -> None:
    whole = body_of(BLANK).solid
    turned = whole.cut(
        cq.Solid.makeCylinder(60, 4.2, cq.Vector(0, -0.1, 0), cq.Vector(0, 1, 0)).cut(
            cq.Solid.makeCylinder(31.5, 6, cq.Vector(0, -1, 0), cq.Vector(0, 1, 0))
        )
    )
    (failed,) = spoilt(turned)
    assert failed.severity == "fail"
    assert (failed.value, failed.limit) == (pytest.approx(6.0, abs=0.02), 8.0)


def test_a_bite_out_of_the_rim_fails_where_it_is() -> None:
    bite = cq.Solid.makeCylinder(12, 6, cq.Vector(0, -1, -33.5), cq.Vector(0, 1, 0))
    (failed,) = spoilt(body_of(BLANK).solid.cut(bite))
    assert failed.severity == "fail" and failed.value is not None and failed.value < 2.0
    assert "down" in failed.message or "up -" in failed.message


def test_a_hole_left_open_is_negative() -> None:
    half = cq.Solid.makeBox(100, 4.2, 100, cq.Vector(16, -0.1, -50))
    (failed,) = spoilt(body_of(BLANK).solid.cut(half))
    assert failed.severity == "fail" and failed.value == pytest.approx(-9.5, abs=0.1)


def test_no_face_is_not_checked() -> None:
    far = cq.Solid.makeBox(10, 10, 10, cq.Vector(0, 50, 0))
    (failed,) = spoilt(far)
    assert failed.severity == "fail" and "not checked" in failed.message


def test_an_opening_beyond_the_hole_is_told() -> None:
    text = flange("covers: {round: 40}, opening: 46")
    found = findings(text, "cover")
    assert [f.severity for f in found] == ["pass", "pass"]
    assert found[1].value == pytest.approx(3.0, abs=0.02) and "beyond the hole" in found[1].message


def test_the_second_end_is_seen_from_its_own_side() -> None:
    text = (
        f"part: reducer\nend_a: {{hose_tail: {{hose_inside: 36}}}}\nend_b: {{flange: {{covers: {LOBES}, margin: 8}}}}\n"
    )
    (passed,) = findings(text, "cover")
    assert passed.severity == "pass" and passed.value == pytest.approx(8.0, abs=0.02)
    skew = "{points: [{right: 40, up: 0}, {up: 20}, {left: 20}, {down: 20}]}"
    own = "[{right: 50, up: 0}, {up: 35}, {left: 35}, {down: 35}]"
    keys = f"covers: {skew}, points: {own}, opening: 24, margin: 3"
    text = f"part: reducer\nend_a: {{hose_tail: {{hose_inside: 36}}}}\nend_b: {{flange: {{{keys}}}}}\n"
    box = body_of(text).solid.BoundingBox()
    assert (box.xmin, box.xmax) == (pytest.approx(-50.0, abs=0.01), pytest.approx(35.0, abs=0.01))
    assert not blocking(result_of(text).findings)


def test_any_outline_has_the_volume_of_its_area() -> None:
    text = flange(f"points: {SHAPE}, covers: {{round: 60}}, opening: 40, thickness: 5, gussets: 0")
    plain = flange("round: 120, covers: {round: 60}, opening: 40, thickness: 5, gussets: 0")
    # a rectangle of 90 x 80 and a circular segment 20 high on a chord of 90: r = (45^2 + 20^2) / 40
    r = (45.0**2 + 20.0**2) / 40.0
    half = math.asin(45.0 / r)
    area = 90 * 80 + r * r * (half - math.sin(half) * math.cos(half))
    apart = body_of(text).solid.Volume() - body_of(plain).solid.Volume()
    assert apart == pytest.approx(5 * (area - math.pi * 60**2), rel=1e-6)
    assert not blocking(result_of(text).findings)


def test_bolts_and_gussets_of_any_outline() -> None:
    places = ", ".join(f"{{{side}: 37, {high}: 32}}" for side in ("left", "right") for high in ("up", "down"))
    bolts = f"holes: {{points: [{places}], size: M4}}"
    text = flange(f"points: {SHAPE}, opening: 30, gussets: 4, {bolts}")
    assert not blocking(result_of(text).findings) and body_of(text).genus == 5
    assert sum("gusset" in f.name for f in body_of(text).features) == 4


@pytest.mark.parametrize(
    ("keys", "key", "words"),
    [
        ("opening: 40", "flange.holes", "covers"),
        ("covers: {round: 62}, round: 70", "flange.round", "round: 72"),
        (
            "covers: {rectangle: {width: 60, height: 40}}, rectangle: {width: 66, height: 52}",
            "flange.rectangle",
            "width: 70 mm",
        ),
        (
            "covers: {round: 62}, points: [{left: 40, down: 40}, {right: 40, down: 40}, {up: 50}]",
            "flange.points",
            "5 mm or more",
        ),
        ("covers: {}", "flange.covers", "one of round"),
        ("covers: {round: 62, margin: 8}", "flange.covers.margin", "stands beside covers"),
        ("covers: {round: 62}, nut_pockets: yes", "flange.nut_pockets", "holes"),
        ("covers: {round: 62}, holes: {count: 4, circle: 70, size: M6}", "flange.holes", "1.5 hole diameters"),
        ("margin: 4, holes: {count: 4, circle: 70, size: M6}, opening: 30", "flange.margin", "add `covers:`"),
        (
            "covers: {points: [{right: 9}, {up: 9}, {right: 9, up: 9}, {left: 9}]}",
            "flange.covers.points[4]",
            "ends only",
        ),
        (
            f"points: {SHAPE}, holes: {{count: 4, circle: 86, size: M6}}, opening: 30",
            "flange.points",
            "1.5 hole diameters",
        ),
    ],
)
def test_refused(keys: str, key: str, words: str) -> None:
    with pytest.raises(SpecError) as caught:
        load_text(flange(keys), "x.yaml")
    problem = caught.value.problems[0]
    assert problem.key == f"end_a.{key}"
    assert words in f"{problem.allowed} {problem.hint}", str(problem)


def test_an_outline_beside_the_neck_is_refused() -> None:
    narrow = "[{left: 60, down: 22}, {right: 60, down: 22}, {right: 60, up: 60}, {left: 60, up: 60}]"
    with pytest.raises(RefusalError) as caught:
        part_of(flange(f"points: {narrow}, opening: 40, covers: {{round: 30}}"))
    assert caught.value.key == "end_a.flange.points"
