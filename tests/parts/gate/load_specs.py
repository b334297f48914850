"""Brackets of every frame, hold and mount, for what they bear; all invented."""

from __future__ import annotations

from tests.gate_specs import (
    BORE_16,
    BORE_20,
    BORE_32,
    GATE_4,
    METAL_100,
    gate_4in,
    gate_6in,
    gate_bracket,
    metal_alongside,
)

from fitwright.spec.gate import Gate, GateBracketSpec, GateMount, GatePort
from fitwright.spec.grammar.own_printers import table_printer

BIG = table_printer("generic_300")
STUB_4 = GatePort(d_mm=102.0, to_edge_mm=72.0, stub_outside_mm=104.0, stub_long_mm=60.0)
PLAIN_4 = GATE_4.model_copy(
    update={"blade": GATE_4.blade.model_copy(update={"hole_mm": None, "hole_to_edge_mm": None})}
)
SIDE_16, SIDE_20, SIDE_32 = (one.model_copy(update={"ports_face": "left"}) for one in (BORE_16, BORE_20, BORE_32))
HEAVY_20 = BORE_20.model_copy(update={"mass_kg": 0.5})


def held(gate: Gate, kind: str, **changes: object) -> Gate:
    """The gate, gripped another way."""
    return gate.model_copy(update={"mount": GateMount.model_validate({"kind": kind}), **changes})


SPECS: dict[str, GateBracketSpec] = {
    "rods 4 in": gate_4in(frame="rods"),
    "rods 6 in": gate_6in(frame="rods", mounted="sideways"),
    "rods metal": gate_bracket(METAL_100, frame="rods"),
    "rods clamp": gate_bracket(held(GATE_4, "clamp"), BORE_16, frame="rods", mounted="blade_up"),
    "rods saddle": gate_bracket(held(GATE_4, "saddle", port=STUB_4), BORE_16, frame="rods"),
    "rods bore 32": gate_bracket(GATE_4, BORE_32, frame="rods", support_down_mm=60.0),
    "rods barrel": gate_bracket(GATE_4, SIDE_16, frame="rods", hold="clamp"),
    "rods square barrel": gate_bracket(GATE_4, SIDE_32, frame="rods", hold="clamp", pressure_mpa=0.3),
    "rods no hole": gate_bracket(PLAIN_4, BORE_16, frame="rods", mounted="blade_down"),
    "rods supported": gate_bracket(GATE_4, HEAVY_20, frame="rods", support_down_mm=45.0),
    "one piece 4 in": gate_4in(frame="one_piece", printer=BIG),
    "one piece 6 in": gate_6in(frame="one_piece", printer=BIG),
    "one piece bore 32": gate_bracket(GATE_4, BORE_32, frame="one_piece", printer=BIG),
    "one piece barrel": gate_bracket(GATE_4, SIDE_16, frame="one_piece", hold="clamp", printer=BIG),
    "one piece clamp": gate_bracket(held(GATE_4, "clamp"), BORE_16, frame="one_piece", printer=BIG),
    "board 4 in": gate_4in(frame="board"),
    "board 6 in": gate_6in(frame="board"),
    "board bore 32": gate_bracket(GATE_4, BORE_32, frame="board"),
    "alongside": metal_alongside(),
    "alongside 4 in": gate_bracket(GATE_4, BORE_16, layout="alongside", second_guide=True),
    "alongside bore 32": gate_bracket(GATE_4, BORE_32, layout="alongside", second_guide=True, guide_d_mm=16.0),
}
"""Words for the test's name -> spec."""
