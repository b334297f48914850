"""A helical ridge for wire-ribbed hose, and the lug that its wire is bonded to, as the YAML says them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from fitwright.data.fasteners import fastener
from fitwright.physics.ridge_room import LEAST_TURNS, MOST_TURNS
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, gather, under
from fitwright.spec.grammar.screws import SCREW
from fitwright.spec.grammar.values import Angle, Context, Count, Length, Number, Words
from fitwright.spec.joints import Bond, Ridge
from fitwright.spec.size import SCATTER_REL, slip_in

PITCH = Length(3.0, 60.0)
WIRE, BARE, HEIGHT = Length(0.8, 8.0), Length(0.5, 4.0), Length(0.4, 6.0)
SEE_HAND = (
    "hold the hose upright and look at the ribs in front of you: rising to the right is right-hand, rising to the left "
    "is left-hand, whichever end is up"
)


@dataclass(frozen=True)
class Hand(Words):
    """`left` or `right`; whatever else is answered with how to see it."""

    def _validate(self, value: object) -> str:
        try:
            return super()._validate(value)
        except FaultError as error:
            (fault,) = error.faults
            hint = f"{fault.hint} {SEE_HAND}".strip()
            raise FaultError([Fault(fault.path, fault.found, fault.allowed, hint)]) from None


HAND = Hand(
    ("left", "right"),
    (
        *((f"left{said}", "left") for said in ("-hand", "-handed", " hand", "hand")),
        *((f"right{said}", "right") for said in ("-hand", "-handed", " hand", "hand")),
        ("lh", "left"),
        ("rh", "right"),
    ),
)


class Ribs(Grammar):
    """A distance over several ribs, as it is best measured."""

    example: ClassVar[str] = "{ribs: 5, over: 61}"
    ribs: Annotated[int, Count(2, 40)] = Field(
        description="How many ribs on: from a rib to the one so many further. A whole number."
    )
    over: Annotated[float, Length(6.0, 1000.0)] = Field(
        description="The distance from that rib to the last one, along the hose, in the file's units."
    )


def read_pitch(value: object, context: Context) -> float:
    """The pitch [mm]: one reading, several, or a distance over some ribs."""
    if isinstance(value, dict):
        said = Ribs.read(value, context)
        pitch = said.over / said.ribs
        if not (PITCH.least or 0.0) <= pitch <= (PITCH.most or 0.0):
            found = f"{said.ribs} ribs over {PITCH.say(said.over, context)}: {PITCH.say(pitch, context)} a rib"
            raise FaultError([Fault(("over",), found, PITCH.allowed(context), "count the ribs after the first one")])
        return pitch
    if isinstance(value, list):
        return _mean(value, context)
    found_pitch = PITCH.read(value, context)
    assert found_pitch is not None  # PITCH has no `auto`
    return found_pitch


def _mean(value: list[Any], context: Context) -> float:
    """The mean of several readings, none of them far off."""
    if not 1 <= len(value) <= 50:
        raise FaultError([Fault((), shown(value), "1 to 50 readings of the pitch")])
    readings = gather([under((i,), partial(PITCH.read, one, context)) for i, one in enumerate(value)])
    slip = slip_in(tuple(readings))
    if slip is not None:
        allowed = f"readings within {SCATTER_REL:.0%} of their mean"
        raise FaultError([Fault((slip,), shown(value[slip]), allowed, "read it again, over several ribs")])
    return float(sum(readings) / len(readings))


Pitch = Annotated[float, Forms(read_pitch, Annotated[float, PITCH] | list[Annotated[float, PITCH]] | Ribs)]


class RidgeKeys(Grammar):
    """The ridge lies in the valley between a hose's ribs, so that the hose is screwed on."""

    example: ClassVar[str] = "{pitch: 12, hand: left, wire: 3}"
    filled: ClassVar[tuple[str, ...]] = ()
    meant: ClassVar[Mapping[str, str]] = {
        "lead": "write pitch: the distance from rib to rib along the hose",
        "direction": "write hand: left or right",
        "rib": "write wire: how thick a rib is",
        "width": "write wire: how thick a rib is; the ridge takes its width from it",
    }
    pitch: Pitch = Field(
        description=(
            "Distance from rib to rib along the hose, in the file's units; one reading, a list of them, or the "
            "distance over some ribs as {ribs: 5, over: 61}."
        )
    )
    hand: Annotated[Literal["left", "right"], HAND] = Field(
        description=f"Which way the ribs wind, left or right, no unit and no default: {SEE_HAND}."
    )
    wire: Annotated[float, WIRE] = Field(
        description="How thick a rib is, over the film that covers its wire, in the file's units."
    )
    height: Annotated[float | None, HEIGHT] = Field(
        None, description="Height of the ridge, in radius, in the file's units; half the wire if absent."
    )
    turns: Annotated[float | None, Number(LEAST_TURNS, MOST_TURNS)] = Field(
        None,
        description=(
            "How many turns of it, no unit; as many as the depth holds if absent (an absent depth makes room for 1.5)."
        ),
    )

    def meant_as(self) -> Ridge:
        """With nothing filled in: what the depth holds is the joint's to say."""
        return Ridge(pitch_mm=self.pitch, hand=self.hand, wire_mm=self.wire, height_mm=self.height, turns=self.turns)


class BondKeys(Grammar):
    """A channel for the hose's bared wire and a lug with a pilot hole, where a wire to the machine is screwed on."""

    example: ClassVar[str] = "{screw: M4, wire: 2}"
    filled: ClassVar[tuple[str, ...]] = ("screw", "at")
    meant: ClassVar[Mapping[str, str]] = {"size": "write screw", "clock": "write at: degrees clockwise from up"}
    screw: Annotated[str, SCREW] = Field(
        "M4", description="The screw by its name: M4, No. 8 (its unit is in it); M4 if absent."
    )
    wire: Annotated[float, BARE] = Field(description="Diameter of the bared wire, in the file's units.")
    at: Annotated[float, Angle(-360.0, 360.0, signed=True)] = Field(
        0.0, description="Where the lug is, in degrees clockwise from up, looking into the mouth; 0 if absent."
    )

    def meant_as(self) -> Bond:
        """With the screw's pilot in plastic and the room its head or washer needs."""
        row = fastener(self.screw)
        return Bond(
            screw=self.screw,
            wire_mm=self.wire,
            at_deg=self.at,
            major_mm=row.major_mm,
            pilot_d_mm=row.pilot_plastic_mm,
            seat_d_mm=max(row.washer_d2_mm or 0.0, row.head_d_mm),
            head_k_mm=(row.head_k_mm or row.csk_k_mm or 0.0) + (row.washer_h_mm or 0.0),
        )
