"""What a gate bracket's YAML may not say: each fault names line, key, what was found, what is allowed, the cure."""

from __future__ import annotations

import pytest
from yaml_cases import only, refused

LINES = {
    "part": "part: gate_bracket",
    "sticks_out": "  sticks_out: {shut: 20, open: 126}",
    "blade": "  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}",
    "body": "  body: {width: 150, thickness: 22}",
    "screws": "  screws: {across: 132, from_edge: 12, size: M5}",
    "more": "",
    "cylinder": "cylinder: ISO 6432 16 x 125",
    "top": "",
}
ROWS = {"part": 1, "sticks_out": 3, "blade": 4, "body": 5, "screws": 6, "more": 7, "cylinder": 8, "top": 9}


def text(**changes: str) -> str:
    """The shortest YAML with some of its lines written otherwise; line 2 is `gate:`."""
    lines = {**LINES, **changes}
    return "\n".join([lines["part"], "gate:", *(lines[name] for name in list(ROWS)[1:])]) + "\n"


def blade(said: str) -> dict[str, str]:
    return {"blade": f"  blade: {{{said}}}"}


def body(said: str) -> dict[str, str]:
    return {"body": f"  body: {{{said}}}"}


def sticks(said: str) -> dict[str, str]:
    return {"sticks_out": f"  sticks_out: {{{said}}}"}


def screws(said: str) -> dict[str, str]:
    return {"screws": f"  screws: {{{said}}}"}


def more(said: str) -> dict[str, str]:
    return {"more": f"  {said}"}


def cyl(said: str) -> dict[str, str]:
    return {"cylinder": f"cylinder: {said}"}


def top(said: str) -> dict[str, str]:
    return {"top": said}


PROUD = "label: knob, from_edge: 40, across: 20, along: 20, high: 15"
CODE = "code: ISO 6432 16 x 125"
FAULTS = [
    # gate
    (sticks("shut: 126, open: 20"), "gate.sticks_out.open", "20 mm open and 126 mm shut", "136 mm or more", "swapped"),
    (sticks("shut: 20, open: 25"), "gate.sticks_out.open", "25 mm open", "30 mm or more", "pulled open all the way"),
    (sticks("shut: 20"), "gate.sticks_out.open", "nothing", "body edge to the blade's outer edge", "add `open:`"),
    (sticks("shut: -2, open: 126"), "gate.sticks_out.shut", "'-2'", "a length", "minus sign"),
    (sticks("shut: 20, open: 4.96"), "gate.sticks_out.open", "'4.96'", "from 12 mm", "did you mean 4.96 in?"),
    (sticks("shut: 20, open: [126, 162, 126]"), "gate.sticks_out.open[2]", "'162' beside 126, 126", "agree", "again"),
    (sticks("shut: 20, open: []"), "gate.sticks_out.open", "a list of 0", "1 to 20 readings", ""),
    (sticks("shut: {a: 2}, open: 126"), "gate.sticks_out.shut", "a map with a", "or a list of readings", ""),
    (
        sticks("closed: 20, open: 126, shut: 20"),
        "gate.sticks_out.closed",
        "the unknown key",
        "shut, open",
        "write shut",
    ),
    (blade("width: 4.6, thickness: 3"), "gate.blade.width", "'4.6'", "from 20 mm to 400 mm", "did you mean 4.6 in?"),
    (blade("width: 118, thickness: 0.118"), "gate.blade.thickness", "'0.118'", "from 0.4 mm", "did you mean 0.118 in?"),
    (blade("width: 118, thickness: 3, hole: 5"), "gate.blade.hole_to_edge", "nothing", "beside hole", "or delete hole"),
    (blade("width: 118, thickness: 3, hole_to_edge: 8"), "gate.blade.hole", "nothing", "hole beside", "is clamped"),
    (
        blade("width: 118, thickness: 3, hole: 5, hole_to_edge: 2.5"),
        "gate.blade.hole_to_edge",
        "a hole of 5 mm, its centre 2.5 mm from the edge",
        "3 mm or more",
        "half the hole",
    ),
    (
        blade("width: 118, thickness: 3, hole: 5, hole_to_edge: 22"),
        "gate.blade.hole_to_edge",
        "a hole 22 mm from an edge that stands out 20 mm",
        "less than 20 mm",
        "",
    ),
    (blade("width: 118, thickness: 3, material: acril"), "gate.blade.material", "'acril'", "plastic | ABS", "acrylic?"),
    (blade("width: 118, thickness: 3, plane: top"), "gate.blade.plane", "'top'", "middle, or a map", ""),
    (
        blade("width: 118, thickness: 3, plane: {above: 2, below: 1}"),
        "gate.blade.plane.below",
        "above and below together",
        "one of above, below, below_top",
        "",
    ),
    (
        blade("width: 118, thickness: 3, plane: {above: 10}"),
        "gate.blade.plane",
        "10 mm off",
        "less than 9.5 mm",
        "down",
    ),
    (
        body("width: 100, thickness: 22"),
        "gate.body.width",
        "100 mm round a blade of 118 mm",
        "118 mm or more",
        "swapped",
    ),
    (
        screws("across: 160, from_edge: 12"),
        "gate.screws.across",
        "160 mm apart",
        "less than the body's width",
        "swapped",
    ),
    (screws("across: 132, from_edge: 12, size: M55"), "gate.screws.size", "'M55'", "a machine screw", "write M5"),
    (screws("across: 132, from_edge: 12, size: No. 8 wood"), "gate.screws.size", "'No. 8 wood'", "a machine screw", ""),
    (screws("across: 132, edge: 12, from_edge: 12"), "gate.screws.edge", "unknown key", "from_edge", "write from_edge"),
    ({"screws": ""}, "gate.screws", "nothing", "one of screws, clamp, saddle", "how does the bracket hold the gate?"),
    (more("clamp: {size: M5}"), "gate.clamp", "screws and clamp together", "one of screws", "delete one"),
    (
        {"screws": "  saddle: {band: 12}"},
        "gate.saddle",
        "a saddle and no stub",
        "a saddle beside port: {stub: ...}",
        "what the saddle sits on",
    ),
    (more("port: {diameter: 120}"), "gate.port.diameter", "120 mm behind a blade of 118 mm", "less than", "cover"),
    (more("port: {diameter: 102, to_edge: 30}"), "gate.port.to_edge", "30 mm from the body's edge", "51 mm", "centre"),
    (
        {**body("width: 150, thickness: 22, length: 120"), **more("port: {diameter: 102, to_edge: 75}")},
        "gate.body.length",
        "a body 120 mm long round a port of 102 mm with its centre 75 mm",
        "126 mm or more",
        "",
    ),
    (more("port: {bore: 102, diameter: 102}"), "gate.port.bore", "unknown key", "diameter, to_edge, stub", "diameter"),
    (more("drag: 12"), "gate.drag", "'12'", "a force with its unit", "write the unit: N"),
    (more("drag: [12 N, 3 kg]"), "gate.drag[2]", "'3 kg'", "a force with its unit", "kgf"),
    (more("drag: 12 N\n  friction: 0.4"), "gate.friction", "friction beside drag", "one of the two", "delete friction"),
    (more("suction: 10"), "gate.suction", "'10'", "a pressure with its unit", "write the unit"),
    (more(f"proud: [{{{PROUD}, from_left: 3, from_right: 2}}]"), "gate.proud[1].from_right", "together", "one of", ""),
    (more("proud: [{label: knob}]"), "gate.proud[1].from_edge", "nothing", "from the edge", "add"),
    (more("travel: 106"), "gate.travel", "unknown key", "sticks_out", "write sticks_out"),
    # cylinder
    (cyl("16 x 125"), "cylinder", "'16 x 125'", "ISO 6432 16 x 125", "say which standard"),
    (cyl("32 x 125"), "cylinder", "'32 x 125'", "ISO 15552 32 x 125 | ISO 21287 32 x 125", "say which standard"),
    (cyl("ISO 6432 17 x 125"), "cylinder", "'ISO 6432 17 x 125'", "a cylinder of the tables", "the nearest is"),
    (cyl("ISO 6432 16"), "cylinder", "'ISO 6432 16'", "a cylinder of the tables", "names no stroke"),
    (cyl("ISO 21287 32 x 125"), "cylinder", "only remembered", "readings of", "measure yours"),
    (cyl("3/4 in x 4 in"), "cylinder", "'3/4 in x 4 in'", "or a map of readings", "is in inches"),
    (cyl("[16, 125]"), "cylinder", "a list of 2", "by standard, bore x stroke", ""),
    (cyl("{code: ISO 6423 16 x 125}"), "cylinder.code", "'ISO 6423 16 x 125'", "a cylinder of the tables", ""),
    (cyl(f"{{{CODE}, wf: 22}}"), "cylinder.wf", "unknown key", "rod_stub", "write rod_stub"),
    (cyl(f"{{{CODE}, nose: {{thread: M16, length: 18}}}}"), "cylinder.nose.nut", "nothing", "for M16 x 2", "measure"),
    (cyl(f"{{{CODE}, rod_thread: M6.2}}"), "cylinder.rod_thread", "'M6.2'", "a thread of the tables", ""),
    (cyl(f"{{{CODE}, rod_stub: 0.86}}"), "cylinder.rod_stub", "'0.86'", "from 2 mm to 150 mm", "did you mean 0.86 in?"),
    (cyl(f"{{{CODE}, body: {{}}}}"), "cylinder.body", "an empty map", "round or square", ""),
    (cyl(f"{{{CODE}, ports: top}}"), "cylinder.ports", "'top'", "up | down | left | right", "did you mean up?"),
    (cyl(f"{{{CODE}, mass: 0.2}}"), "cylinder.mass", "'0.2'", "a mass with its unit", "write the unit: kg"),
    (cyl(f"{{{CODE}, bore: 16, rod: 16}}"), "cylinder.rod", "16 mm", "less than the bore, 16 mm", ""),
    (cyl(f"{{{CODE}, bore: 5}}"), "cylinder.bore", "5 mm", "more than the rod, 6 mm", ""),
    (cyl(f"{{{CODE}, rod_stub: 12}}"), "cylinder.rod_stub", "a nose of 18 mm", "18 mm or more", "or add nose"),
    (cyl(f"{{{CODE}, length: 100}}"), "cylinder.length", "100 mm", "more than the stroke, 125 mm", "rod in"),
    (
        cyl(f"{{{CODE}, nose: {{thread: M16 x 1.5, length: 18}}, boss: {{diameter: 9, length: 2}}}}"),
        "cylinder.boss",
        "nose and boss together",
        "one of the two",
        "",
    ),
    (cyl(f"{{{CODE}, stroke: 125, length: 100}}"), "cylinder.length", "100 mm", "more than the stroke", "rear end"),
    (
        cyl(f"{{{CODE}, nose: {{thread: M16 x 1.5, length: 30}}, rod_stub: 22}}"),
        "cylinder.nose.length",
        "a nose of 30 mm that hides the rod's shoulder at 22 mm",
        "at most 22 mm",
        "mounting face",
    ),
    (
        cyl(f"{{{CODE}, spring: {{drives: in, least: 20 N, greatest: 8 N}}}}"),
        "cylinder.spring.greatest",
        "8 N",
        "the least, 20 N, or more",
        "",
    ),
    (
        cyl(f"{{{CODE}, spring: {{drives: in, greatest: 9 N}}}}"),
        "cylinder.spring.least",
        "nothing",
        "its force at its weakest",
        "add",
    ),
    (cyl(f"{{{CODE}, single_acting: yes}}"), "cylinder.single_acting", "unknown key", "spring", "write spring"),
    # top
    (top("pressure: 6"), "pressure", "'6'", "an air pressure with its unit, such as 6 bar or 87 psi", "6 bar?"),
    (top("pressure: 90"), "pressure", "'90'", "an air pressure with its unit", "did you mean 90 psi?"),
    (top("pressure: 60 bar"), "pressure", "'60 bar'", "from 1 bar to 12 bar", "regulator"),
    (top("pressure: 6 baar"), "pressure", "'6 baar'", "an air pressure", "did you mean bar?"),
    (top("hold: thread"), "hold", "'thread'", "auto | nose | front_square | clamp", "did you mean nose?"),
    (top("hold: front_square"), "hold", "of which no screws in the front are known", "nose | clamp", "square: {apart"),
    (
        {**cyl("ISO 15552 32 x 125"), **top("hold: nose")},
        "hold",
        "which has no nose thread",
        "front_square | clamp",
        "nose: {thread",
    ),
    (top("stop: spacer"), "stop", "'spacer'", "auto | sleeve | over_shut", "did you mean sleeve?"),
    (top("frame: printed"), "frame", "'printed'", "auto | one_piece | rods | board", "did you mean one_piece?"),
    (top("frame: one_piece\nrods: M8"), "rods", "rods beside frame: one_piece", "frame: rods", "delete rods"),
    (top("board: {thickness: 18}"), "board", "board beside frame: auto", "frame: board", "or write frame: board"),
    (top("layout: beside"), "layout", "'beside'", "in_line | alongside", "did you mean alongside?"),
    (top("layout: alongside\nframe: rods"), "frame", "frame: rods alongside", "auto", "delete frame"),
    (top("second_guide: yes"), "second_guide", "a second guide in line", "layout: alongside", "delete it"),
    (top("layout: alongside\nsecond_guide: 10"), "second_guide", "'10'", "yes, no, or a map such as {diameter", ""),
    (top("mounted: vertical"), "mounted", "'vertical'", "any | blade_up", "did you mean blade_up?"),
    (top("guard: maybe"), "guard", "'maybe'", "auto | yes | no", ""),
    (top("rods: M4"), "rods", "'M4'", "a threaded rod of M6 to M12", "M8 is usual"),
    (top("setting: 50"), "setting", "'50'", "from 0 mm to 20 mm", ""),
    (top("closing_time: 2"), "closing_time", "'2'", "a time with its unit", "write the unit: s"),
    (top("support: 60"), "support", "'60'", "a map such as {down: 60}", ""),
    (top("stroke: 125"), "stroke", "unknown key", "gate, cylinder", "write gate: {sticks_out"),
    (top("actuator: x"), "actuator", "unknown key", "cylinder", "write cylinder"),
    (more("frame: rods"), "gate.frame", "unknown key", "sticks_out", "stands at the top"),
    (cyl(f"{{{CODE}, hold: nose}}"), "cylinder.hold", "unknown key", "code, bore", "stands at the top"),
    (top("blade: {width: 118}"), "blade", "unknown key", "gate", "stands under gate"),
    (top("margin: 0.5"), "margin", "'0.5'", "from 1 to 10", ""),
]


@pytest.mark.parametrize(("changes", "key", "found", "allowed", "hint"), FAULTS, ids=[row[1] for row in FAULTS])
def test_a_fault_names_its_place_and_cure(
    changes: dict[str, str], key: str, found: str, allowed: str, hint: str
) -> None:
    said = text(**changes)
    at = [one for one in refused(said) if one.key == key]
    assert at, [str(one) for one in refused(said)]
    problem = at[0]
    assert found in problem.found and allowed in problem.allowed and hint in problem.hint, str(problem)
    assert problem.line >= ROWS[next(iter(changes))] - (changes == {"screws": ""}) * 4
    assert all(one.key == key or one.key.startswith("gate.proud") for one in refused(said)), "one slip, one fault"


def test_faults_are_told_all_at_once_in_the_order_of_the_file() -> None:
    said = text(**sticks("shut: 126, open: 20"), **blade("width: 4.6, thickness: 3"), **top("pressure: 6"))
    assert [one.key for one in refused(said)] == ["gate.sticks_out.open", "gate.blade.width", "pressure"]


def test_limits_are_told_in_the_files_units() -> None:
    said = "part: gate_bracket\nunits: in\ngate:\n  sticks_out: {shut: 4, open: 2}\n"
    said += "  blade: {width: 118, thickness: 1/8}\n  body: {width: 6, thickness: 7/8}\n"
    said += "  clamp: {}\ncylinder: ISO 6432 16 x 125\npressure: 300 psi\n"
    swapped, wide, pressure = refused(said)
    assert swapped.allowed == "4.394 in or more" and "did you mean 118 mm?" in wide.hint
    assert "from 14.5 psi to 174 psi" in pressure.allowed


def test_a_mistyped_family_is_known_by_its_keys() -> None:
    assert only(text(part="part: gate_braket")).hint == "did you mean gate_bracket?"
    problems = refused(text(part="part: gate", **top("presure: 6 bar")))
    assert [one.hint for one in problems if one.key == "presure"] == ["did you mean pressure?"]
