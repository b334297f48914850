"""From a gate bracket's keys to its spec: what is not said is filled in, and told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.data.sheets import sheet
from fitwright.spec.gate import Blade, Cylinder, Gate, GateBody, GateBracketSpec, GatePort, Proud
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.gate import GateKeys, ProudKeys
from fitwright.spec.grammar.gate_blade import BladeKeys
from fitwright.spec.grammar.gate_bracket import GUIDE_MM, GateBracketKeys
from fitwright.units import format_length

LIP_MM = 2.0
"""A blade covers its port by so much all round (common practice, no source): port = travel - 2 lips."""
SUCTION_PA, DIRT = 2490.89, 2.0
"""10 in of water; twice as hard when dirty (common practice, no source)."""
ODD_TRAVEL_MM = 12.0
"""A travel that differs by more from the port and its two lips makes one doubt a reading (common practice)."""


def gate_of(keys: GateBracketKeys, shared: Mapping[str, object]) -> GateBracketSpec:
    """The spec; `shared` is what all families have."""
    gate, cylinder = _gate(keys.gate), _turned(keys)
    own: dict[str, object] = {
        "gate": gate,
        "cylinder": cylinder,
        "pressure_mpa": keys.pressure,
        "margin": keys.margin,
        "hold": keys.made_hold,
        "stop": keys.stop,
        "setting_mm": keys.setting,
        "frame": keys.frame,
        "layout": keys.layout,
        "second_guide": keys.second_guide is not None,
        "guide_d_mm": keys.second_guide or GUIDE_MM,
        "mounted": keys.mounted,
        "guard": keys.guard,
        "rod_size": keys.rods,
        "support_down_mm": keys.support.down if keys.support else None,
        "tape_mm": keys.tape,
        "close_in_s": keys.closing_time,
        "defaulted": tuple(_defaulted(keys, shared)),
        "doubts": tuple(_doubts(keys, gate)),
    }
    if keys.board is not None:
        own |= {"board_thick_mm": keys.board.thickness, "board_material": keys.board.material}
    return GateBracketSpec.model_validate({**shared, **own})


def _turned(keys: GateBracketKeys) -> Cylinder:
    """The cylinder, its ports to the left where nobody said and what holds it stands above and below: a clamp."""
    cylinder = keys.cylinder.cylinder
    turn = keys.made_hold == "clamp" and not cylinder.ports_said
    return cylinder.model_copy(update={"ports_face": "left"}) if turn else cylinder


def _gate(keys: GateKeys) -> Gate:
    body = keys.body
    return Gate(
        shut_mm=keys.sticks_out.shut,
        open_mm=keys.sticks_out.open,
        blade=_blade(keys.blade, body.thickness),
        body=GateBody(
            width_mm=body.width,
            thickness_mm=body.thickness,
            length_mm=body.length,
            far_end=body.far_end,
            far_room_mm=body.far_end_room,
        ),
        port=_port(keys),
        mount=keys.meant_mount(),
        proud=tuple(_proud(one, body.width) for one in keys.proud),
        suction_pa=SUCTION_PA if keys.suction is None else keys.suction,
        friction=sheet(keys.blade.material).friction if keys.friction is None else keys.friction,
        dirt=DIRT if keys.dirt is None else keys.dirt,
        drag_n=keys.drag,
    )


def _blade(keys: BladeKeys, body_mm: float) -> Blade:
    made_of = sheet(keys.material)
    return Blade(
        width_mm=keys.width,
        thickness_mm=keys.thickness,
        hole_mm=keys.hole,
        hole_to_edge_mm=keys.hole_to_edge,
        material=keys.material,
        modulus_mpa=made_of.modulus_mpa,
        bearing_mpa=made_of.bearing_mpa,
        density_g_cm3=made_of.density_g_cm3,
        plane_mm=keys.plane_mm(body_mm),
        length_mm=keys.length,
    )


def _port(keys: GateKeys) -> GatePort:
    """As measured; else what the travel opens less a lip each side, in the middle of a body as long as it is wide."""
    travel = keys.sticks_out.open - keys.sticks_out.shut
    if keys.port is None:
        return GatePort(d_mm=travel - 2 * LIP_MM, to_edge_mm=keys.body.width / 2)
    port, stub = keys.port, keys.port.stub
    return GatePort(
        d_mm=port.diameter,
        to_edge_mm=keys.body.width / 2 if port.to_edge is None else port.to_edge,
        stub_outside_mm=stub.outside if stub else None,
        stub_long_mm=stub.long if stub else None,
    )


def _proud(keys: ProudKeys, width_mm: float) -> Proud:
    x = 0.0
    if keys.from_left is not None:
        x = -width_mm / 2 + keys.from_left + keys.across / 2
    elif keys.from_right is not None:
        x = width_mm / 2 - keys.from_right - keys.across / 2
    return Proud(
        label=keys.label,
        x_mm=x,
        y_mm=keys.from_edge,
        across_mm=keys.across,
        along_mm=keys.along,
        high_mm=keys.high,
        side=keys.face,
    )


def _defaulted(keys: GateBracketKeys, shared: Mapping[str, object]) -> Iterator[str]:
    """Dotted keys that were left to us."""
    yield from keys.open_keys()
    yield from _below("gate", keys.gate)
    if keys.gate.port is None:
        yield from ("gate.port.diameter", "gate.port.to_edge")
    if keys.gate.drag is None:
        yield from (f"gate.{key}" for key in ("friction", "dirt") if getattr(keys.gate, key) is None)
    yield from (f"cylinder.{key}" for key in keys.cylinder.filled)
    if keys.made_hold == "clamp" and not keys.cylinder.cylinder.ports_said:
        yield "cylinder.ports"
    if keys.board is not None:
        yield from _below("board", keys.board)


def _below(path: str, keys: Grammar) -> Iterator[str]:
    yield from (f"{path}.{key}" for key in keys.open_keys())
    for key in keys.keys():
        inner = getattr(keys, key, None)
        if isinstance(inner, Grammar):
            yield from _below(f"{path}.{key}", inner)


def _doubts(keys: GateBracketKeys, gate: Gate) -> Iterator[str]:
    """What fits badly together, though it may be so."""
    if keys.gate.port is None and gate.port.d_mm >= gate.blade.width_mm:
        travel, wide = (format_length(mm, keys.units) for mm in (gate.travel_mm, gate.blade.width_mm))
        yield f"no round port needs a travel of {travel} behind a blade {wide} wide: write gate.port as it is"
    if keys.gate.port is not None:
        meant = gate.port.d_mm + 2 * LIP_MM
        if abs(gate.travel_mm - meant) > ODD_TRAVEL_MM:
            travel, port = (format_length(mm, keys.units) for mm in (gate.travel_mm, gate.port.d_mm))
            want = format_length(meant, keys.units)
            yield f"the travel is {travel}, but a port of {port} wants about {want}: read gate.sticks_out again"
