"""Every flange plate that could not be bolted, cut or sealed is refused: file, line, key, found, allowed.

Each is a plate that builds, with one thing in it changed.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.errors import Problem, RefusalError, SpecError
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file, load_text

SOUND = """\
part: flange_plate
rectangle: {width: 200, height: 160, corner: 10}
openings: [{round: 90}, {round: 10, at: {right: 70}}]
holes: {count: 4, circle: 130, first_at: 45, size: M6}
gasket: yes
"""
SHEET = SOUND + "sheet: {material: steel, thickness: 1.5}\n"
ACRYLIC = SOUND + "sheet: {material: acrylic, thickness: 5}\n"
CONFIGS = Path(__file__).parents[1] / "configs"


def problems(text: str) -> list[Problem]:
    with pytest.raises(SpecError) as caught:
        load_text(text, str(CONFIGS / "plate.yaml"))
    found = list(caught.value.problems)
    assert all(p.file.endswith("plate.yaml") and p.line > 0 and p.key and p.found and p.allowed for p in found), found
    return found


def told(text: str, *changes: tuple[str, str]) -> str:
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text


@pytest.mark.parametrize("text", [SOUND, SHEET, ACRYLIC])
def test_before_it_is_spoilt_it_builds(text: str) -> None:
    (spec,) = load_text(text, "plate.yaml")
    part = BUILDERS[spec.part](spec)
    assert [body.name for body in part.bodies] == ["plate", "gasket"]


CHANGES = [
    # M6: 6.6 mm (ISO 273 medium): 9.9 mm at 1.5 diameters, 13.2 mm at 2; a hole at 45.96 of 56 mm leaves 10.0 mm
    (SOUND, ("height: 160", "height: 111"), "holes", "hole 1, 9.54 mm from its centre to the edge", "9.9 mm or more"),
    (ACRYLIC, ("height: 160", "height: 117"), "holes", "hole 1, 12.54 mm", "2 hole diameters: acrylic sheet splits"),
    (SHEET, ("height: 160", "height: 60"), "holes", "outside the outline", "9.9 mm or more"),
    (SOUND, ("round: 90", "round: 120"), "holes", "from its centre to the round opening of 120 mm", "washer"),
    (SOUND, ("round: 90", "round: 140"), "holes", "in the round opening of 140 mm", "or more"),
    (ACRYLIC, ("round: 90", "round: 106"), "holes", "12 mm from its centre", "13.2 mm or more (2 hole diameters"),
    (SOUND, ("right: 70", "right: 40"), "openings[2]", "which meets the round opening of 90 mm", "2.52 mm or more"),
    (SOUND, ("right: 70", "right: 94"), "openings[2]", "1 mm from the edge", "2.52 mm or more left"),
    (SOUND, ("right: 70", "right: 150"), "openings[2]", "lies outside", "left to the edge"),
    (SHEET, ("right: 70", "right: 50.5"), "openings[2]", "0.5 mm from the round", "1.5 mm or more between"),
    (SOUND, ("size: M6", "size: M6, residual: 0.8"), "holes.residual", "without read_with", "tape or tracing"),
    (SOUND, ("size: M6", "size: M6, read_with: caliper, residual: 0.8"), "holes.residual", "caliper", "tape"),
    (SOUND, ("size: M6", "size: M6, read_with: eye"), "holes.read_with", "'eye'", "caliper | tape | tracing"),
    (SOUND, ("{round: 90}", "{round: 90, oval: {width: 90, height: 40}}"), "openings[1].oval", "together", "one of"),
    (SOUND, ("{round: 90}", "{at: {up: 3}}"), "openings[1]", "without a shape", "round, rectangle, oval, points"),
    (
        SOUND,
        ("{round: 90}", "{rectangle: {width: 90, height: 40, corner: 30}}"),
        "openings[1].rectangle.corner",
        "30",
        "20",
    ),
    (SOUND, ("gasket: yes", "gasket: perhaps"), "gasket", "'perhaps'", "yes, no, or a map"),
    (SOUND, ("gasket: yes", "gasket: {material: leather}"), "gasket.material", "'leather'", "foam rubber"),
    (SOUND, ("gasket: yes", "gasket: {alone: yes}\nthickness: 5"), "thickness", "alone", "a plate, or a gasket"),
    (SHEET, ("material: steel", "material: cheese"), "sheet.material", "'cheese'", "stainless"),
    (SHEET, ("thickness: 1.5", "thickness: 16 ga"), "sheet.thickness", "'16 ga'", "a length"),
    (SHEET, ("gasket: yes", "thickness: 5"), "thickness", "thickness beside sheet", "sheet: {thickness: }"),
    (SOUND, ("gasket: yes", "round: 200"), "rectangle", "round and rectangle together", "one outline"),
    (SOUND, ("gasket: yes", "thickness: 0.5"), "thickness", "'0.5'", "1 mm"),
    (SOUND, ("gasket: yes", "opening: 30"), "opening", "the unknown key", "openings"),
    (SOUND, ("part: flange_plate", "part: flange_plat"), "part", "'flange_plat'", "flange_plate"),
]


@pytest.mark.parametrize(("text", "change", "key", "found", "allowed"), CHANGES)
def test_it_is_refused(text: str, change: tuple[str, str], key: str, found: str, allowed: str) -> None:
    listed = problems(told(text, change))
    those = [p for p in listed if p.key == key]
    assert those, listed
    assert found in those[0].found and allowed in those[0].allowed, those[0]


def test_without_any_hole_it_is_no_plate() -> None:
    (found,) = problems("part: flange_plate\nround: 100\n")
    assert found.key == "openings" and "matches" in found.allowed


MATCHES = [
    ("{part: nowhere.yaml}", "matches.part", "No such file", "can be read"),
    ("{part: clocked_inlet.yaml, end: end_b}", "matches.end", "which is a socket", "end_a"),
    ("{part: pipe_to_hose.yaml}", "matches.part", "end_a: socket, end_b: hose_tail", "with a flange"),
    ("{part: pipe_gauge.yaml}", "matches.part", "it has no ends", "with a flange"),
    ("{part: port_set.yaml}", "matches.name", "guard_to_pipe, pipe_to_extractor", "add `name:`"),
    ("{part: port_set.yaml, name: guard}", "matches.name", "'guard'", "guard_to_pipe"),
    ("{part: measure/inlet_bolts.yaml}", "matches.part", "whose line", "a file that builds"),
    ("{end: end_a}", "matches.part", "nothing", "YAML file"),
]


@pytest.mark.parametrize(("matches", "key", "found", "allowed"), MATCHES)
def test_a_flange_that_is_not_there(matches: str, key: str, found: str, allowed: str) -> None:
    one = problems(f"part: flange_plate\nmatches: {matches}\n")[0]
    assert one.key == key and found in one.found and allowed in one.allowed, one


def test_two_plates_cannot_be_made_for_each_other(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("part: flange_plate\nmatches: {part: b.yaml}\n", encoding="utf-8")
    (tmp_path / "b.yaml").write_text("part: flange_plate\nmatches: {part: a.yaml}\n", encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        load_file(tmp_path / "a.yaml")
    (found,) = caught.value.problems
    assert found.key == "matches.part" and "no adapter" in found.found and "with a flange" in found.allowed


def test_a_wrong_part_is_named_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("part: flange_plate\nmatches: {part: b.yaml}\n", encoding="utf-8")
    (tmp_path / "b.yaml").write_text("part: reducer\nend_a: {plain: {inside: x}}\nend_b: {}\n", encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        load_file(tmp_path / "a.yaml")
    (found,) = caught.value.problems
    assert found.file.endswith("a.yaml") and found.line == 2 and "b.yaml, whose line 2 is wrong" in found.found


def test_the_flange_of_a_part_in_the_same_file(tmp_path: Path) -> None:
    text = (CONFIGS / "clocked_inlet.yaml").read_text(encoding="utf-8")
    adapter = "\n".join(f"    {line}" for line in text.splitlines() if not line.startswith("#"))
    (tmp_path / "set.yaml").write_text(
        f"parts:\n  - name: inlet\n{adapter}\n  - {{part: flange_plate, name: plate, matches: {{part: set.yaml}}}}\n",
        encoding="utf-8",
    )
    _, plate = load_file(tmp_path / "set.yaml")
    assert "inlet, end_a" in plate.matches  # type: ignore[union-attr]


def test_a_flange_that_asks_too_much_of_brittle_sheet(tmp_path: Path) -> None:
    """10 mm from centre to edge are 1.82 diameters of an M5 hole: enough for the print, not for acrylic."""
    text = (
        f"part: flange_plate\nmatches: {{part: {CONFIGS / 'hood.yaml'}}}\nsheet: {{material: acrylic, thickness: 4}}\n"
    )
    (spec,) = load_text(text, "plate.yaml")
    with pytest.raises(RefusalError) as caught:
        BUILDERS[spec.part](spec)
    assert caught.value.key == "matches" and "10 mm from its centre to the edge" in caught.value.found
    assert "11 mm or more" in caught.value.allowed


def test_a_gasket_with_nothing_left_between() -> None:
    """65 - (106 + 12) / 2 - 10.6 / 2 = 0.7 mm between its holes and its opening."""
    larger = ("gasket: yes", "gasket: {hole_more: 4, opening_more: 12}")
    text = told(SHEET, ("round: 90", "round: 106"), (", {round: 10, at: {right: 70}}", ""), larger)
    (spec,) = load_text(text, "plate.yaml")
    with pytest.raises(RefusalError) as caught:
        BUILDERS[spec.part](spec)
    assert caught.value.key == "gasket" and "leave 0.7 mm beside a bolt hole" in caught.value.found
    assert "2 mm or more" in caught.value.allowed


def test_a_clear_plate_on_the_old_screws() -> None:
    """6 x 10 x 1/4 in of acrylic over a 4 in pipe: the old No. 10 screws stand 3/8 in from the edge, where it shatters.

    ASME B18.2.8 normal for No. 10: 0.221 in, of which 2 are 0.442 in (11.2 mm).
    """
    text = """\
part: flange_plate
units: in
rectangle: {width: 6, height: 10}
openings: 4 1/4
holes: {points: [{right: 2 5/8, up: 4 5/8}, {left: 2 5/8, up: 4 5/8}, {left: 2 5/8, down: 4 5/8},
  {right: 2 5/8, down: 4 5/8}], size: No. 10}
"""
    (found,) = problems(text + "sheet: {material: acrylic, thickness: 1/4}\n")
    assert found.key == "holes" and "0.375 in (3/8) from its centre to the edge" in found.found
    assert "0.442 in" in found.allowed and "2 hole diameters" in found.allowed
    (spec,) = load_text(text + "sheet: {material: steel, thickness: 1/16}\n", "plate.yaml")
    assert BUILDERS[spec.part](spec).bodies[0].name == "plate"  # 1.70 diameters are enough for steel
