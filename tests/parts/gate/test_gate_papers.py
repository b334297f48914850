"""Commissioning sheet, cut list and templates: their numbers against the checks', the mesh and handbook sums."""

from __future__ import annotations

import re

import pytest
from tests.gate_specs import BORE_16, BORE_32, GATE_4, METAL_100, gate_4in, gate_6in, gate_bracket

from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_load import load
from fitwright.drawing.template import sides, template_sheets
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.board_plan import COACH_DRILL_MM, DRILL_MM
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.report.paper_txt import paper_txt
from fitwright.spec.gate import GateBracketSpec, Spring

PAGE_LINES = 60
"""Of a sheet of A4 or Letter, as text is printed (common practice, no source)."""
SPECS = {
    "board": gate_4in(frame="board"),
    "rods": gate_4in(frame="rods"),
    "inches": gate_bracket(GATE_4, BORE_32, frame="board", units="in"),
    "no pressure": gate_6in(frame="board"),
    "metal": gate_bracket(METAL_100, frame="rods"),
}


BUILT: dict[str, Part] = {}


def built(spec: GateBracketSpec) -> Part:
    """The part of this spec, built once for all tests of this file."""
    key = repr(spec)
    if key not in BUILT:
        BUILT[key] = build_gate_bracket(spec)
    return BUILT[key]


def text(spec: GateBracketSpec, key: str) -> str:
    part = built(spec)
    paper = next(one for one in part.papers if one.key == key)
    return " ".join(paper_txt(paper, spec.units).decode().split())


@pytest.mark.parametrize("name", SPECS)
def test_no_longer_than_a_page_and_a_half(name: str) -> None:
    spec = SPECS[name]
    papers = {paper.key: paper_txt(paper, spec.units).decode() for paper in built(spec).papers}
    assert set(papers) == {"assembly", "commissioning", "cut_list"}
    for said in papers.values():
        assert len(said.splitlines()) <= 1.5 * PAGE_LINES
        assert not re.search(r"None|nan\b|inf\b|\d\.\d{4,}|-0\.0", said)


@pytest.mark.parametrize("name", ["board", "metal"])
def test_the_regulator_is_set_as_the_check_says(name: str) -> None:
    """The check weighs the finished meshes and finds the blade on them; the sheet must say the same pressure."""
    spec = SPECS[name]
    part = built(spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    judged = load(part, meshes, spec, driven(part, meshes, spec)).range
    assert judged.setting_bar is not None
    said = text(spec, "commissioning")
    assert f"Set it to {judged.setting_bar:.1f} bar. Below {judged.least_bar:.1f} bar" in said


def test_a_worked_sheet_by_hand() -> None:
    """Bore 16, rod 6, a drag of 20 N read: twice the drag pulls at 40 / (0.85 x 17.28) = 2.72 bar, set 3.0.

    Areas 201.06 and 172.79 mm2 x 106 mm x (3 + 1.013) / 1.013 = 0.157 litres; two tubes of 2 mm bore, 2 m each, filled
    and blown off once a cycle: 2 x 6.28 ml x 3 / 1.013 = 0.037. Sum 0.19. Stalled: 0.3 x 201.06 = 60 N.
    """
    gate = GATE_4.model_copy(update={"drag_n": 20.0})
    said = text(gate_bracket(gate, BORE_16, frame="rods"), "commissioning")
    assert "Set it to 3.0 bar. Below 2.7 bar" in said
    assert "it pushes with 60 N (6 kg)" in said
    assert "About 0.19 litres" in said
    assert "no bend tighter than 10 mm" in said  # 4 mm tube on M5, its maker's manual


def test_where_no_pressure_keeps_both_margins_it_says_so() -> None:
    said = text(SPECS["no pressure"], "commissioning")
    assert "NO PRESSURE KEEPS BOTH MARGINS" in said and "and no higher" in said
    thin = GATE_4.model_copy(update={"blade": GATE_4.blade.model_copy(update={"thickness_mm": 1.0})})
    said = text(gate_bracket(thin, BORE_16, frame="rods"), "commissioning")
    assert "DO NOT RUN IT" in said and "Not before a setting is found" in said


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"mounted": "sideways"}, "stays where it is"),
        ({"mounted": "blade_up"}, "shuts by its own weight"),
        ({"mounted": "blade_down"}, "opens by its own weight"),
    ],
)
def test_what_happens_without_air(changes: dict[str, str], words: str) -> None:
    """A steel blade of 10 mm weighs more than clean friction and the seals hold."""
    blade = GATE_4.blade.model_copy(update={"thickness_mm": 10.0, "density_g_cm3": 7.85, "modulus_mpa": 2e5})
    gate = GATE_4.model_copy(update={"blade": blade})
    assert words in text(gate_bracket(gate, BORE_16, frame="rods", **changes), "commissioning")


@pytest.mark.parametrize(("drives", "word"), [("in", "opens"), ("out", "shuts")])
def test_a_spring_says_where_it_goes(drives: str, word: str) -> None:
    spring = Spring(drives=drives, least_n=60.0, greatest_n=90.0)
    cylinder = BORE_32.model_copy(update={"spring": spring})
    said = text(gate_bracket(GATE_4, cylinder, frame="rods"), "commissioning")
    assert f"the spring {word} the gate" in said and "3/2" in said


def test_inches_everywhere_but_for_metric_sizes() -> None:
    for key in ("commissioning", "cut_list"):
        said = text(SPECS["inches"], key)
        assert not re.search(r"\d ?mm\b", said)
    assert "9/32 in for M6" in text(SPECS["inches"], "cut_list")  # 7 mm = 17.6 / 64 in, the next drill up is 18 / 64
    assert "(22 psi)" in text(SPECS["inches"], "commissioning")  # 1.5 bar x 14.504


def test_the_cut_list_names_board_rods_and_holes() -> None:
    board = settled_board(gate_plan(SPECS["board"]), SPECS["board"])
    said = text(SPECS["board"], "cut_list")
    assert f"{board.wide_mm:g} mm wide, cut to {board.long_mm:.1f} mm" in said
    x, y = board.gate_holes[-1]
    assert f"{y - board.near_y:.1f} mm from the edge at the gate, {x:.1f} mm left and right" in said
    assert "threaded rod M8" in text(SPECS["rods"], "cut_list")


def templates(part: Part) -> dict[str, object]:
    return {face.key: face for face in part.templates}


@pytest.mark.parametrize("name", ["board", "no pressure", "inches"])
def test_the_boards_template_has_its_holes(name: str) -> None:
    """Against the drilled board among the stand-ins: cylinders of its solid, middle and diameter."""
    spec = SPECS[name]
    part = built(spec)
    face = next(one for one in part.templates if one.key == "board")
    board = next(one.solid for one in part.stand_ins if one.name == "board")
    box = board.BoundingBox()
    left, lower, right, upper = face.bounds_mm
    assert (right - left, upper - lower) == pytest.approx((box.xlen, box.ylen), abs=1e-6)
    middle = (box.ymin + box.ymax) / 2
    drilled = {
        (round(f.Center().x, 2), round(f.Center().y - middle, 2), round(2 * f._geomAdaptor().Cylinder().Radius(), 2))
        for f in board.Faces()
        if f.geomType() == "CYLINDER"
    }
    drawn = {(round(h.at[0], 2), round(h.at[1], 2), h.d_mm) for h in face.holes if h.d_mm > 3.0}
    assert drawn == drilled and {d for *_, d in drawn} == {DRILL_MM, COACH_DRILL_MM}


def test_it_tiles_and_looks_the_same_from_both_sides() -> None:
    """A board longer than the paper's 277 mm goes on several sheets, turned if that takes fewer; each side once."""
    spec = SPECS["no pressure"]
    part = built(spec)
    assert len(sides(part.templates)) == len(part.templates) == 2
    left, lower, right, upper = part.templates[0].bounds_mm
    assert max(right - left, upper - lower) > 277
    sheets = template_sheets("g", part.templates[:1], "A4", "mm")
    assert len(sheets) >= 2


def test_the_gates_template_has_its_screws_on_the_ears() -> None:
    """Against the ears' holes on the finished foot."""
    spec = SPECS["board"]
    part = built(spec)
    face = next(one for one in part.templates if one.key == "gate")
    foot = next(one for one in part.bodies if one.name == "gate_foot")
    ears = {(round(h.start[0], 2), round(h.start[1], 2)) for h in foot.holes if "ear" in h.name}
    assert {(round(h.at[0], 2), round(h.at[1], 2)) for h in face.holes} == ears
    assert {h.d_mm for h in face.holes} == {5.5}  # ISO 273 medium, M5


@pytest.mark.parametrize("name", ["board", "no pressure", "inches"])
def test_templates_are_worded_by_holes_and_arrow_for_their_pages_may_be_turned(name: str) -> None:
    """No word leans on the page's own edges; the holes named are those next to the gate."""
    part = built(SPECS[name])
    for face in part.templates:
        said = " ".join([*face.says, face.front, face.back])
        assert not re.search(r"\b(upper|lower|left|right) edge\b|\b(top|bottom)\b", said)
        assert face.upwards == "away" and f'"{face.upwards}"' in said
        first, last = map(int, re.findall(r"[Hh]oles (\d+) (?:to|and) (\d+)", said)[0])
        named, others = face.holes[first - 1 : last], face.holes[last:]
        nearest = max if face.key == "gate" else min
        assert all(nearest(one.at[1], other.at[1]) == one.at[1] for one in named for other in others)


def test_a_clamped_gate_has_no_screw_template() -> None:
    gate = GATE_4.model_copy(update={"mount": GATE_4.mount.model_copy(update={"kind": "clamp", "screws": None})})
    part = built(gate_bracket(gate, BORE_16, frame="rods"))
    assert templates(part) == {}


@pytest.mark.parametrize("units", ["mm", "in"])
def test_an_inch_screw_keeps_its_name_and_its_length_in_inches(units: str) -> None:
    """`No. 8 x 44.4 mm` once became `No. 0.315 x 1.748 in`."""
    screws = GATE_4.mount.screws
    assert screws is not None
    mount = GATE_4.mount.model_copy(update={"screws": screws.model_copy(update={"size": "No. 8"})})
    spec = gate_bracket(GATE_4.model_copy(update={"mount": mount}), frame="rods", units=units)
    assert re.search(r"2 x screw No\. 8 x [1-9][\d.]* in ", text(spec, "cut_list"))
