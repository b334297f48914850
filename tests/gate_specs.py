"""Gate brackets as meant, without YAML: a 4 in and a 6 in plastic gate, a 100 mm metal gate; all invented."""

from __future__ import annotations

from typing import Any

from fitwright.spec.gate import Blade, Cylinder, Gate, GateBody, GateBracketSpec, GateMount, GatePort, GateScrews
from fitwright.spec.grammar.own_printers import DEFAULT_PRINTER, table_printer
from fitwright.spec.grammar.profiles import DEFAULT_MATERIAL, read_material
from fitwright.spec.grammar.values import Context
from fitwright.spec.resolve import default_wall_mm

BORE_16 = Cylinder(
    name="ISO 6432 16 x 125",
    standard="ISO 6432",
    bore_mm=16.0,
    stroke_mm=125.0,
    rod_mm=6.0,
    rod_thread="M6 x 1",
    rod_thread_long_mm=16.0,
    rod_flats_mm=5.0,
    rod_stub_mm=22.0,
    nose_mm=18.0,
    nose_thread="M16 x 1.5",
    nose_nut_af_mm=24.0,
    nose_nut_m_mm=8.0,
    body_round_mm=18.0,
    length_0_mm=56.0,
    port="M5",
    mass_kg=0.15,
)
BORE_20 = BORE_16.model_copy(
    update={
        "name": "ISO 6432 20 x 160",
        "bore_mm": 20.0,
        "stroke_mm": 160.0,
        "rod_mm": 8.0,
        "rod_thread": "M8 x 1.25",
        "rod_thread_long_mm": 20.0,
        "rod_flats_mm": 7.0,
        "rod_stub_mm": 24.0,
        "nose_mm": 20.0,
        "nose_thread": "M22 x 1.5",
        "nose_nut_af_mm": 32.0,
        "nose_nut_m_mm": 11.0,
        "body_round_mm": 22.0,
        "length_0_mm": 68.0,
        "port": "G 1/8",
        "mass_kg": 0.3,
    }
)
BORE_32 = Cylinder(
    name="ISO 15552 32 x 125",
    standard="ISO 15552",
    bore_mm=32.0,
    stroke_mm=125.0,
    rod_mm=12.0,
    rod_thread="M10 x 1.25",
    rod_thread_long_mm=22.0,
    rod_flats_mm=10.0,
    rod_stub_mm=26.0,
    nose_mm=4.0,
    boss_d_mm=30.0,
    square_mm=32.5,
    square_screw="M6",
    square_deep_mm=16.0,
    body_square_mm=45.0,
    length_0_mm=94.0,
    port="G 1/8",
    mass_kg=0.9,
)
GATE_4 = Gate(
    shut_mm=20.0,
    open_mm=126.0,
    blade=Blade(width_mm=118.0, thickness_mm=3.0, hole_mm=5.0, hole_to_edge_mm=8.0),
    body=GateBody(width_mm=150.0, thickness_mm=22.0),
    port=GatePort(d_mm=102.0, to_edge_mm=72.0),
    mount=GateMount(kind="screws", screws=GateScrews(across_mm=132.0, from_edge_mm=12.0, size="M5")),
)
GATE_6 = Gate(
    shut_mm=20.0,
    open_mm=177.0,
    blade=Blade(width_mm=170.0, thickness_mm=3.0, hole_mm=6.0, hole_to_edge_mm=9.0),
    body=GateBody(width_mm=205.0, thickness_mm=24.0, far_end="open"),
    port=GatePort(d_mm=152.0, to_edge_mm=100.0),
    mount=GateMount(kind="screws", screws=GateScrews(across_mm=186.0, from_edge_mm=12.0, size="M5")),
)
METAL_100 = Gate(
    shut_mm=24.0,
    open_mm=128.0,
    blade=Blade(
        width_mm=112.0,
        thickness_mm=1.5,
        hole_mm=6.5,
        hole_to_edge_mm=10.0,
        material="steel",
        modulus_mpa=200000.0,
        bearing_mpa=200.0,
        density_g_cm3=7.85,
    ),
    body=GateBody(width_mm=140.0, thickness_mm=12.0, length_mm=150.0, far_end="open", far_room_mm=10.0),
    port=GatePort(d_mm=100.0, to_edge_mm=72.0, stub_outside_mm=100.0, stub_long_mm=40.0),
    mount=GateMount(kind="screws", screws=GateScrews(across_mm=126.0, from_edge_mm=12.0, size="M5")),
)


def gate_bracket(gate: Gate = GATE_4, cylinder: Cylinder = BORE_16, **changes: Any) -> GateBracketSpec:
    """A spec with every default, but for `changes`."""
    printer = table_printer(DEFAULT_PRINTER)
    shared: dict[str, Any] = {
        "name": "gate",
        "source_file": "gate.yaml",
        "wall_mm": default_wall_mm(printer),
        "printer": printer,
        "material": read_material(DEFAULT_MATERIAL, Context()),
    }
    hold = "nose" if cylinder.nose_thread else "front_square"
    return GateBracketSpec.model_validate({**shared, "gate": gate, "cylinder": cylinder, "hold": hold, **changes})


def gate_4in(**changes: Any) -> GateBracketSpec:
    """The 4 in plastic gate with a 16 x 125 cylinder."""
    return gate_bracket(GATE_4, BORE_16, **changes)


def gate_6in(**changes: Any) -> GateBracketSpec:
    """The 6 in plastic gate with a 20 x 160 cylinder."""
    return gate_bracket(GATE_6, BORE_20, **changes)


def metal_alongside(**changes: Any) -> GateBracketSpec:
    """A 100 mm metal gate, the cylinder alongside, with a second guide."""
    return gate_bracket(METAL_100, BORE_16, **{"layout": "alongside", "second_guide": True, **changes})
