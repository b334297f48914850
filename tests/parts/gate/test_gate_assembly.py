"""The assembly sheet: all that is printed is in it, in an order in which it can be done."""

from __future__ import annotations

import pytest
from tests.gate_specs import BORE_16, BORE_32, GATE_4, METAL_100, gate_4in, gate_6in, gate_bracket, metal_alongside

from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.report.paper_txt import paper_txt
from fitwright.spec.gate import GateBracketSpec, GateMount

SIDEWAYS = BORE_16.model_copy(update={"ports_face": "left"})
NO_HOLE = GATE_4.model_copy(
    update={"blade": GATE_4.blade.model_copy(update={"hole_mm": None, "hole_to_edge_mm": None})}
)
SADDLE = METAL_100.model_copy(update={"mount": GateMount(kind="saddle")})
SPECS = {
    "rods": gate_4in(frame="rods"),
    "one piece": gate_4in(),
    "board, second support": gate_bracket(GATE_4, BORE_32, frame="board"),
    "6 in": gate_6in(),
    "no hole": gate_bracket(NO_HOLE, frame="rods"),
    "clamp": gate_bracket(GATE_4, SIDEWAYS, frame="rods", hold="clamp"),
    "saddle": gate_bracket(SADDLE, frame="rods"),
    "alongside": metal_alongside(),
}


def said(spec: GateBracketSpec) -> tuple[set[str], str]:
    """The bodies' names in words, and the sheet."""
    part = build_gate_bracket(spec)
    paper = next(one for one in part.papers if one.key == "assembly")
    text = " ".join(paper_txt(paper, spec.units).decode().lower().split())
    return {body.name.replace("_", " ") for body in part.bodies}, text


@pytest.mark.parametrize("name", SPECS)
def test_every_printed_body_is_in_the_sheet(name: str) -> None:
    bodies, text = said(SPECS[name])
    assert {body for body in bodies if body not in text} == set()


@pytest.mark.parametrize("name", ["rods", "one piece", "6 in"])
def test_the_nose_nut_goes_on_before_what_it_does_not_pass(name: str) -> None:
    """Nut, then coupling on the rod, then the gate, then the pin, then the guard."""
    _, text = said(SPECS[name])
    steps = ("nose nut", "screw the rod into the coupling", "own screws out", "the pin, an", "guard up")
    at = [text.index(step) for step in steps]
    assert at == sorted(at)


def test_a_saddle_has_a_hose_clamp_on_each_stub() -> None:
    part = build_gate_bracket(SPECS["saddle"])
    clamps = [one for one in part.hardware if one.what.startswith("hose clamp")]
    assert [one.count for one in clamps] == [2]
