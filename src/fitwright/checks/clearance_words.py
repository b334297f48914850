"""What the clearance check advises, by family: the keys that would help differ."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.part import Part


@dataclass(frozen=True)
class Words:
    """`too_near` takes {by} (mm), {way} and {key}; `clash` {thing} and {joint}."""

    too_near: str
    clash: str


ADAPTER = Words(
    "Move the part there {by} mm {way} (offset, length, clock), or change {key}.",
    "Give {thing} more room: lengthen the part (length), or change {joint}.",
)
BRACKET = Words(
    "It lacks {by} mm {way}: turn the gate round, choose another layout or frame or another side for the ports"
    " (cylinder.ports), or change {key}.",
    "Measure again what {thing} and its neighbour hang on, or choose another frame.",
)
SCREW_IN_BLADE = (
    "No other frame helps: the gate's screws pass beside its blade. Measure again (gate.screws.across,"
    " gate.blade.width), take holes further apart, or hold the gate by gate.clamp or gate.saddle; screws that end short"
    " of the blade are not reckoned with."
)


def words_for(part: Part) -> Words:
    """What can be changed in the YAML of this part's family."""
    return BRACKET if part.family == "gate_bracket" else ADAPTER
