"""What a template shows of a part: at the size that will be measured, in the mouth's own frame."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from fitwright.drawing.face import Face
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file

MM, INCH = 1.0, 25.4
TRUE_PRINTER = "printer: {name: mine, bed_x: 400, bed_y: 400, bed_z: 400}\n"
SMALL_PRINTER = "printer: {name: mine, bed_x: 400, bed_y: 400, bed_z: 400, scale_xy: 0.994, hole_offset: -0.25}\n"
INLET = """
part: reducer
end_a:
  label: inlet
  flange:
    opening: 98
    holes: {points: [{left: 60, up: 62}, {right: 61, up: 58}, {right: 60, down: 60}, {left: 60, down: 60}], size: M6}
end_b: {hose_tail: {hose_inside: 100}}
"""


def built(text: str, tmp_path: Path) -> Part:
    file = tmp_path / "part.yaml"
    file.write_text(text)
    [spec] = load_file(file)
    return BUILDERS[spec.part](spec)


@pytest.mark.parametrize(
    "opening, wide, high", [("98", 98.0, 98.0), ("{rectangle: {width: 90, height: 50, corner: 8}}", 90.0, 50.0)]
)
def test_an_opening_is_drawn_as_it_was_asked_for(opening: str, wide: float, high: float, tmp_path: Path) -> None:
    text = INLET.replace("opening: 98", f"opening: {opening}").replace(
        "hose_tail: {hose_inside: 100}", "plain: {inside: 80}"
    )
    drawn = line(built(text + SMALL_PRINTER, tmp_path).templates[0], "opening")
    left, down, right, up = drawn[1]
    assert (right - left, up - down) == pytest.approx((wide, high), abs=0.01)


def line(face: Face, name: str) -> tuple[float, tuple[float, float, float, float]]:
    [found] = [line for line in face.lines if line.name == name]
    return found.d_mm, found.bounds_mm


def test_holes_stand_where_the_yaml_puts_them(tmp_path: Path) -> None:
    face = built(INLET, tmp_path).templates[0]
    assert [hole.at for hole in face.holes] == [(-60.0, 62.0), (61.0, 58.0), (60.0, -60.0), (-60.0, -60.0)]
    assert {(hole.d_mm, hole.bolt) for hole in face.holes} == {(6.6, "M6")}  # ISO 273, medium
    assert face.key == "end_a" and face.name == "end_a (inlet), flange" and face.needed
    assert line(face, "opening")[0] == 98.0 and not face.is_symmetric()


def test_a_printer_that_prints_small_gets_the_same_template(tmp_path: Path) -> None:
    """0.994 models everything 0.6 % larger (0.36 mm at a hole 60 mm out); on paper nothing of it may show."""
    true, small = (built(INLET + p, tmp_path) for p in (TRUE_PRINTER, SMALL_PRINTER))
    assert small.bodies[0].holes[0].start[0] == pytest.approx(-60.0 / 0.994)
    assert small.bodies[0].holes[0].d_mm == pytest.approx((6.6 + 0.25) / 0.994)  # the greater of 0.2 and 0.25, once
    for one, other in zip(true.templates, small.templates, strict=True):
        for a, b in zip(one.holes, other.holes, strict=True):
            assert a.at == pytest.approx(b.at, abs=1e-9) and a.d_mm == b.d_mm
        assert [line.name for line in one.lines] == [line.name for line in other.lines]
        for first, second in zip(one.lines, other.lines, strict=True):
            # an edge of our own choice stands two modelled hole diameters beyond the holes, and so really moves
            within = 2 * 0.25 + 0.1 if first.name == "edge" else 0.05
            assert first.bounds_mm == pytest.approx(second.bounds_mm, abs=within), first.name


def test_the_declared_holes_of_the_finished_part_are_the_templates_holes(tmp_path: Path) -> None:
    """fit.built proves the declared holes on the mesh; scaled as the print will be, they are the paper's."""
    part = built(INLET + SMALL_PRINTER, tmp_path)
    declared = [(0.994 * hole.start[0], 0.994 * hole.start[2]) for hole in part.bodies[0].holes]
    assert [hole.at for hole in part.templates[0].holes] == [pytest.approx(at) for at in declared]


def test_the_far_end_is_seen_in_its_own_mouth(tmp_path: Path) -> None:
    """Looking into end_b, its right is end_a's left; the template keeps to the YAML's right."""
    turned = INLET.replace("end_a", "end_x").replace("end_b", "end_a").replace("end_x", "end_b")
    part = built(turned, tmp_path)
    assert part.templates[1].holes[0].at == (-60.0, 62.0)
    assert part.bodies[0].holes[0].start[0] == pytest.approx(60.0)


def test_what_a_mouth_meets_is_drawn_as_measured(tmp_path: Path) -> None:
    text = "part: reducer\nend_a: {socket: {over: [107.0, 107.2, 107.1]}}\nend_b: {hose_tail: {hose_inside: 100}}\n"
    over, inside = built(text, tmp_path).templates
    assert line(over, "as measured")[0] == pytest.approx(107.1) and line(inside, "as measured")[0] == 100.0
    assert "ring slips on" in over.says[0] and "disc drops in" in inside.says[0]
    assert line(over, "outside of the print")[0] > 107.1 + 2 * 2.0
    assert not over.needed and not inside.needed


def test_inches_and_a_section_that_is_not_round(tmp_path: Path) -> None:
    text = (
        "part: reducer\nunits: in\nend_a: {socket: {over: {rectangle: {width: 6, height: 2.5, corner: 1/4}}}}\n"
        "end_b: {hose_tail: {hose_inside: 4}}\nmaterial: PETG\n"
    )
    face = built(text, tmp_path).templates[0]
    assert line(face, "as measured")[1] == pytest.approx((-3 * INCH, -1.25 * INCH, 3 * INCH, 1.25 * INCH), abs=0.02)
    assert face.needed and face.is_symmetric() and "6 in x 2.5 in" in face.says[0]


def test_a_tapered_port_has_both_its_lines(tmp_path: Path) -> None:
    text = (
        "part: reducer\nend_a: {socket: {over: {end: 63.3, further: 64.4, apart: 25}, depth: 32}}\n"
        "end_b: {hose_tail: {hose_inside: 63}}\n"
    )
    face = built(text, tmp_path).templates[0]
    assert line(face, "as measured")[0] == pytest.approx(63.3) and line(face, "further along")[0] == pytest.approx(64.4)
    assert any("64.4 mm" in words and "25 mm" in words for words in face.says)


def test_a_bolt_circle_of_300_mm_and_an_outline_of_ones_own(tmp_path: Path) -> None:
    text = (
        "part: reducer\nend_a: {flange: {opening: 150, round: 300, holes: {count: 6, circle: 270, size: M8}}}\n"
        "end_b: {hose_tail: {hose_inside: 150}}\n"
    )
    face = built(text + SMALL_PRINTER, tmp_path).templates[0]
    assert line(face, "edge")[0] == 300.0 and any("Bolt circle 270 mm" in words for words in face.says)
    assert math.dist(face.holes[0].at, face.holes[3].at) == pytest.approx(270.0, abs=1e-6)


def test_what_a_blank_flange_covers_is_dashed(tmp_path: Path) -> None:
    text = (
        "part: reducer\nend_a: {flange: {covers: {round: 62}, opening: 30, thickness: 4}}\n"
        "end_b: {hose_tail: {hose_inside: 36}}\n"
    )
    face = built(text, tmp_path).templates[0]
    assert line(face, "what it covers")[1] == pytest.approx((-31, -31, 31, 31), abs=0.02)
    assert face.holes == () and line(face, "edge")[0] == pytest.approx(2 * (31 + 5))


def test_a_parted_flange_is_drawn_whole_and_once() -> None:
    [spec] = load_file(Path(__file__).parents[2] / "configs" / "split_offset.yaml")
    part = BUILDERS[spec.part](spec)
    assert len(part.bodies) == 2 and [len(face.holes) for face in part.templates] == [0, 4]
