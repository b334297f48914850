"""What the report says of a gate bracket: positions by hand, the regulator as the check has it, each key left out."""

from __future__ import annotations

import re

import pytest
from tests.gate_specs import BORE_16, BORE_32, GATE_4, gate_4in, gate_6in, gate_bracket, metal_alongside

from fitwright.checks import motion
from fitwright.mesh import mesh_body
from fitwright.parts.gate.built_load import built_load
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate.words import gate_assumed, gate_cautions, gate_dimensions, gate_facts
from fitwright.parts.gate.words_assumed import WORDS
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.gate import GateBracketSpec, Spring
from fitwright.spec.load import load_text

SHORT = """part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body: {width: 150, thickness: 22}
  screws: {across: 132, from_edge: 12, size: M5}
cylinder: ISO 6432 16 x 125
"""


def facts(spec: GateBracketSpec) -> dict[str, str]:
    plan = gate_plan(spec)
    return dict(gate_facts(plan, spec, built_load(plan, spec, ())))


def test_the_worked_example() -> None:
    """16 x 125 in line, shut 20: nose face 20 + c + 22 + 125; the sleeve takes 19 and the gap 22 - 18.

    Drag 0.5 x 2 x 2490.9 Pa on 102 mm = 20.4 N, and 0.13 kg in the worst position 1.8 N: 2 x 22.2 / (0.085 x 172.8 mm2)
    = 3.02 bar, in steps of 0.5: 3.5.
    """
    spec = gate_4in(frame="rods")
    said, c = facts(spec), gate_plan(spec).chain.coupling_mm
    assert said["blade edge beyond the body"].startswith("shut 20.0 mm, open 126.0 mm")
    assert said["cylinder's mounting face"].startswith(f"{20 + c + 22 + 125:.1f} mm")
    assert said["sleeve"].startswith("23.0 mm on the rod") and "19.0 mm longer" in said["sleeve"]
    assert "2 x M8, cut to" in said["threaded rods"]
    assert "litres of free air a cycle" in said["air"] and "regulator at 3.5 bar (3.0" in said["air"]


def test_where_no_setting_has_every_margin_it_says_so() -> None:
    assert "no setting has every margin" in facts(gate_6in(frame="rods"))["air"]


def test_every_key_left_out_has_its_words() -> None:
    (spec,) = load_text(SHORT, "gate.yaml")
    assert isinstance(spec, GateBracketSpec)
    said = gate_assumed(gate_plan(spec), spec)
    told = {key for key in spec.defaulted if key in said}
    untold = set(spec.defaulted) - told - {"rods", "second_guide"}
    assert not untold, untold
    assert all(said.values()) and "lip" in said["gate.port.diameter"]
    assert not [key for key in spec.defaulted if not key.startswith("cylinder.") and key not in WORDS]


def test_cautions_name_what_happens_without_air() -> None:
    spring = BORE_16.model_copy(update={"spring": Spring(drives="out", least_n=60.0, greatest_n=80.0)})
    for spec, words in ((gate_4in(), "stays where it is"), (gate_bracket(GATE_4, spring), "the spring shuts the gate")):
        said = " ".join(gate_cautions(gate_plan(spec), spec))
        assert words in said and "pinch" in said and "airtight" in said and "local codes" in said


def test_dimensions_are_the_plans() -> None:
    spec = gate_4in(frame="rods")
    plan = gate_plan(spec)
    values = {one.label: one.value for one in gate_dimensions(plan, spec)}
    assert values == {"blade out, shut": 20.0, "travel": 106.0, "mounting face": plan.nose_face_mm}


@pytest.mark.slow
@pytest.mark.parametrize(
    "spec",
    [gate_4in(frame="rods"), gate_bracket(GATE_4, BORE_32, frame="rods"), metal_alongside()],
    ids=["4 in", "bore 32", "alongside"],
)
def test_report_check_and_sheet_say_one_setting_and_one_range(spec: GateBracketSpec) -> None:
    """Least, setting and most of the regulator: in the facts, in the thrust finding, on the commissioning sheet."""
    part = build_gate_bracket(spec)
    found = motion.check(part, {body.name: mesh_body(body) for body in part.bodies}, spec)
    thrust = next(f.message for f in found if f.code == "motion.thrust" and "set the regulator" in f.message)
    sheet = " ".join(line for paper in part.papers for _, lines in paper.sections for line in lines)
    said = {
        "facts": re.search(r"regulator at ([0-9.]+) bar \(([0-9.]+) bar to ([0-9.]+) bar\)", part.facts["air"]),
        "check": re.search(r"set the regulator to ([0-9.]+) bar \(([0-9.]+) to ([0-9.]+) bar\)", thrust),
        "sheet": re.search(
            r"Set it to ([0-9.]+) bar. Below ([0-9.]+) bar it may stick; never above ([0-9.]+) bar", sheet
        ),
    }
    numbers = {where: tuple(map(float, match.groups())) for where, match in said.items() if match}
    assert set(numbers) == set(said) and len(set(numbers.values())) == 1, numbers
    setting, least, most = numbers["facts"]
    assert least <= setting <= most <= 10.0 * spec.pressure_mpa
