"""A whole part as the YAML says it, one model a family."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.air import AirKeys
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.envelope import EnvelopeKeys
from fitwright.spec.grammar.halves import HalvesValue
from fitwright.spec.grammar.joints import EndKeys
from fitwright.spec.grammar.near_heat import HeatValue
from fitwright.spec.grammar.places import PlaceKeys, PlaceValue
from fitwright.spec.grammar.profiles import MaterialValue, PrinterValue
from fitwright.spec.grammar.slit import SlitValue
from fitwright.spec.grammar.values import Angle, Context, Count, Length, Percent, Text, Words
from fitwright.spec.joints import Place

LEAST_TURN_DEG = 0.1
"""A smaller angle is none."""
STEEPEST_DEG = 30.0
"""A steeper cone is a step to the flow, and chips plug it (common practice, no source)."""
_SPELT = {"ö": "oe", "ä": "ae", "ü": "ue", "ø": "o"}


def slug(text: str) -> str:
    """A name that is safe for files: small letters, digits, - and _; empty where nothing is left.

    >>> slug("Größe Ø100 inlet")
    'groesse-o100-inlet'
    """
    spelt = "".join(_SPELT.get(letter, letter) for letter in text.casefold())
    plain = unicodedata.normalize("NFKD", spelt).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9_]+", "-", plain).strip("-")[:60]


def _slug(text: str) -> str:
    made = slug(text)
    if not made:
        raise FaultError([Fault((), shown(text), "a name with at least one plain letter or digit")])
    return made


class PartKeys(Grammar):
    """What every part may say."""

    example: ClassVar[str] = "{part: reducer, name: saw_inlet, material: ASA, ...}"
    filled: ClassVar[tuple[str, ...]] = ("units", "wall", "printer", "material")
    meant: ClassVar[Mapping[str, str]] = {
        "unit": "write units",
        "filament": "write material",
        "thickness": "write wall",
        "type": "write part",
        "family": "write part",
        "perimeters": "write wall_lines",
        "walls": "write wall_lines",
        "fill": "write infill",
        "density": "write infill",
    }
    part: str
    name: Annotated[str | None, Text("a short name", 60, _slug, number=True)] = Field(
        None, description="Name of the part and of its files; the YAML file's name if absent; no unit."
    )
    units: Annotated[Literal["mm", "in"], Words(("mm", "in"), (("inch", "in"), ("inches", "in"), ("metric", "mm")))] = (
        Field("mm", description="Unit of plain numbers in this file and of the answers: mm or in; mm if absent.")
    )
    wall: Annotated[float | None, Length(0.8, 20.0, auto=True)] = Field(
        None, description="Thickness of the wall, in the file's units; 2.4 mm raised to whole printed lines if absent."
    )
    printer: PrinterValue | None = Field(None, description="The printer's name, or a map; mm. generic_220 if absent.")
    material: MaterialValue | None = Field(None, description="The filament's name, or a map (no unit); PETG if absent.")
    envelope: EnvelopeKeys = Field(
        EnvelopeKeys.model_construct(keep_clear=[], stay_inside=[]),
        description="What the part must keep clear of or stay inside of; lengths in the file's units.",
    )
    near_heat: HeatValue | None = Field(
        None,
        description="How warm it gets where the part sits, in deg C or with its unit, or the place; room if absent.",
    )
    infill: Annotated[float, Percent(10.0, 100.0)] = Field(
        1.0,
        description="How full the slicer fills it inside its wall lines, in percent, no other unit; 100 if absent.",
    )
    wall_lines: Annotated[int | None, Count(1, 40)] = Field(
        None,
        description="Whole number of lines along every surface, no unit; as make its thickest wall solid if absent.",
    )


class AdapterKeys(PartKeys):
    """What all adapters share."""

    example: ClassVar[str] = "{part: reducer, end_a: {socket: {over: 107.1}}, end_b: {hose_tail: {hose_inside: 100}}}"
    filled: ClassVar[tuple[str, ...]] = ("units", "length", "wall", "half_angle", "printer", "material")
    meant: ClassVar[Mapping[str, str]] = {
        **PartKeys.meant,
        "inlet": "write end_a or end_b",
        "outlet": "write end_a or end_b",
        "ends": "write end_a and end_b",
        "flow": "write air: {flow: ..., from: end_b}",
        **dict.fromkeys(("half", "parts_of", "cut", "pieces"), "write halves"),
    }
    end_a: EndKeys = Field(
        description="The mouth that you stand at and look into; a map with one joint, in the file's units."
    )
    end_b: EndKeys = Field(description="The other mouth; a map with one joint, lengths in the file's units.")
    length: Annotated[float | None, Length(5.0, 1500.0, auto=True)] = Field(
        None, description="From mouth face to mouth face along end_a's axis, in the file's units; auto if absent."
    )
    half_angle: Annotated[float | None, Angle(2.0, STEEPEST_DEG, auto=True)] = Field(
        None, description="Slope of the cone between two sizes against the axis, in degrees; 7 to 15 if absent."
    )
    air: AirKeys | None = Field(
        None, description="The air: flow or fan with their units, where it comes in, its dust; not judged if absent."
    )
    halves: HalvesValue | None = Field(
        None,
        description="Print it as two halves where it is larger than the bed: auto, or a map, in the file's units.",
    )


class ReducerKeys(AdapterKeys):
    """Two ends in line."""

    filled: ClassVar[tuple[str, ...]] = (*AdapterKeys.filled, "line")
    meant: ClassVar[Mapping[str, str]] = {
        **AdapterKeys.meant,
        "offset": "write eccentricity, or part: offset_adapter for two axes further apart",
        "slot": "write slit",
    }
    part: Annotated[Literal["reducer"], Words(("reducer",))] = Field(description="The family: reducer; no unit.")
    line: Annotated[Literal["coaxial", "level", "nested"], Words(("coaxial", "level", "nested"))] = Field(
        "coaxial",
        description="coaxial, level (both passages' lowest points) or nested (a sleeve, end_b round end_a); no unit.",
    )
    eccentricity: PlaceValue | None = Field(
        None, description="Centre of end_b's mouth from end_a's axis, as a place, in the file's units; none if absent."
    )
    slit: SlitValue = Field(
        None,
        description="One slit along the whole sleeve, shut by bands: yes or a map, in the file's units; no if absent.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.eccentricity is not None and self.line != "coaxial":
            found = f"eccentricity beside line: {self.line}"
            yield Fault(("eccentricity",), found, "one of the two", f"{self.line} sets the axes itself", at="key")
        if self.line == "nested":
            yield from self._nested()

    def _nested(self) -> Iterator[Fault]:
        a, b = self.end_a, self.end_b
        if self.halves is not None:
            yield Fault(
                ("halves",), "halves of a nested sleeve", "no halves", "its outside is a joint: no lip finds room"
            )
        if a.socket is None:
            yield Fault(("end_a",), f"{a.kind} in a nested sleeve", "socket: end_a is the bore", "or swap the ends")
        if b.spigot is None and b.hose_tail is None:
            yield Fault(("end_b",), f"{b.kind} in a nested sleeve", "spigot or hose_tail: end_b is the outside")


def _read_offset(value: object, context: Context) -> Place | None:
    return None if isinstance(value, str) and value.strip() == "auto" else PlaceKeys.read(value, context).place()


def _read_turns(value: object, context: Context) -> Place:
    """A direction word, or a map of two directions with their shares."""
    if isinstance(value, dict):
        place = PlaceKeys.read(value, context).place()
        if math.hypot(place.right_mm, place.up_mm) < 1e-6:
            raise FaultError([Fault((), "no direction", "a map such as {right: 1, up: 1}")])
        return place
    word = value.strip() if isinstance(value, str) else ""
    if word in _DIRECTIONS:
        return Place(*_DIRECTIONS[word])
    allowed = " | ".join(_DIRECTIONS) + ", or a map such as {right: 1, up: 1}"
    raise FaultError([Fault((), shown(value), allowed, nearest(word, list(_DIRECTIONS)))])


_DIRECTIONS = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
OffsetValue = Annotated[Place | None, Forms(_read_offset, Literal["auto"] | PlaceKeys)]
TurnsValue = Annotated[Place, Forms(_read_turns, Literal["right", "left", "up", "down"] | PlaceKeys)]


class OffsetAdapterKeys(AdapterKeys):
    """Two ends whose axes are apart, at an angle, or both."""

    example: ClassVar[str] = "{part: offset_adapter, offset: {up: 60}, end_a: {...}, end_b: {...}}"
    filled: ClassVar[tuple[str, ...]] = (*AdapterKeys.filled, "angle", "clock", "bend_radius")
    meant: ClassVar[Mapping[str, str]] = {
        **AdapterKeys.meant,
        "eccentricity": "write offset",
        "rotate": "write clock",
        "direction": "write turns",
        "radius": "write bend_radius",
    }
    part: Annotated[Literal["offset_adapter"], Words(("offset_adapter",))] = Field(
        description="The family: offset_adapter; no unit."
    )
    offset: OffsetValue | None = Field(
        None,
        description="Centre of end_b's mouth from end_a's axis, as a place, in the file's units; auto or absent with "
        "an angle: a plain elbow.",
    )
    angle: Annotated[float, Angle(0.0, 90.0)] = Field(
        0.0, description="How far end_b's axis turns out of end_a's, in degrees; 0 if absent."
    )
    turns: TurnsValue | None = Field(
        None,
        description="Where end_b's axis turns to, seen looking into end_a: right, left, up, down or a map of two; no "
        "unit; towards the offset if absent.",
    )
    clock: Annotated[float, Angle(-360.0, 360.0, signed=True)] = Field(
        0.0, description="Turns offset and bend about end_a's axis, clockwise, in degrees; 0 if absent; bolts stay."
    )
    bend_radius: Annotated[float | None, Length(5.0, 3000.0, auto=True)] = Field(
        None,
        description="Radius of the centreline's bends, in the file's units; as large as there is room for if absent.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.turns is not None and self.angle < LEAST_TURN_DEG:
            yield Fault(("turns",), "turns without an angle", "angle: from 0.1 deg to 90 deg", "add `angle:`", at="key")
        if self.angle >= LEAST_TURN_DEG:
            return
        if self.offset is None:
            yield Fault(
                ("offset",), "nothing", self._says("offset"), "add `offset:`, or `angle:` for a plain elbow", at="key"
            )
        elif abs(self.offset.right_mm) + abs(self.offset.up_mm) < 0.05:
            yield Fault(
                ("offset",), "an offset of 0", "an offset of 0.1 mm or more", "without one, write part: reducer"
            )
