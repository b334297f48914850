"""What the clearance check advises, by family: the keys that would help differ."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.part import Part


@dataclass(frozen=True)
class Words:
    """`too_near` takes {by} (mm), {way} and {key}; `clash` and `room` (where only a tool's room is taken) {thing}
    and {joint}; `things` is for two bought things."""

    too_near: str
    clash: str
    room: str = (
        "Use screws that a spanner or a bent key turns, lengthen the part (length), or turn the holes ({joint})."
    )
    things: str = "Lengthen the part (length) or move the ends further apart."


ADAPTER = Words(
    "Move the part there {by} mm {way} (offset, length, clock), or change {key}.",
    "Give {thing} more room: lengthen the part (length), or change {joint}.",
)
BRACKET = Words(
    "It lacks {by} mm {way}: turn the gate round, choose another layout or frame or another side for the ports"
    " (cylinder.ports), or change {key}.",
    "Measure again what {thing} and its neighbour hang on, or choose another frame.",
)
HANGER = Words(
    "It lacks {by} mm {way}: hang it elsewhere, on another side (mount) or further from its surface (to_axis), or"
    " change {key}.",
    "Give {thing} room: further from the surface (to_axis), another style, or another mount.",
    "Use a bent key or a longer driver, or put the hanger further from its surface (to_axis).",
    "Put the hanger further from its surface (to_axis), or the hoses further apart (apart).",
)
PLATE = Words(
    "It lacks {by} mm {way}: a smaller outline, a thinner plate, or change {key}.",
    "Move the holes or openings, or change {joint}.",
)
_FAMILIES = {"gate_bracket": BRACKET, "hose_hanger": HANGER, "flange_plate": PLATE}
SCREW_IN_BLADE = (
    "No other frame helps: the gate's screws pass beside its blade. Measure again (gate.screws.across,"
    " gate.blade.width), take holes further apart, or hold the gate by gate.clamp or gate.saddle; screws that end short"
    " of the blade are not reckoned with."
)


def words_for(part: Part) -> Words:
    """What can be changed in the YAML of this part's family."""
    return _FAMILIES.get(part.family, ADAPTER)
