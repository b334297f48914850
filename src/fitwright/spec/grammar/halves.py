"""A part printed as two halves, as the YAML says it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.screws import SCREW
from fitwright.spec.grammar.values import Angle, Context, Count, Length
from fitwright.spec.halves import Halves, HalvesBolts, HalvesLap

HEADINGS = {"up": 0.0, "right": 90.0, "down": 180.0, "left": 270.0}


@dataclass(frozen=True)
class Heading(Angle):
    """A direction square to end_a's axis: up, right, down, left, or degrees clockwise from up."""

    def parse(self, text: str, context: Context) -> float:
        return HEADINGS[text] if text in HEADINGS else super().parse(text, context)

    def form(self, context: Context) -> str:
        return "up, right, or an angle clockwise from up"

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": ["number", "string"]}]


class HalvesBoltsKeys(Grammar):
    """Bolts through lips on both halves."""

    example: ClassVar[str] = "{size: M4, spacing: 60}"
    filled: ClassVar[tuple[str, ...]] = ("size", "spacing")
    meant: ClassVar[Mapping[str, str]] = {
        "count": "write spacing: the number follows from it",
        "pitch": "write spacing",
    }
    size: Annotated[str, SCREW] = Field("M4", description="The bolt by its name (no unit beside it); M4 if absent.")
    spacing: Annotated[float, Length(15.0, 300.0)] = Field(
        60.0, description="From bolt to bolt along the seam, at most, in the file's units; 60 mm if absent."
    )

    @property
    def row(self) -> FastenerRow:
        """The bolt's dimensions."""
        return fastener(self.size)

    def sense(self, context: Context) -> Iterator[Fault]:
        if not self.row.nut_af_mm:
            found = f"{self.size}, whose nut is not in our tables"
            yield Fault(("size",), found, "a size with a nut (M3 to M12, inch bolts)")

    def meant_as(self) -> HalvesBolts:
        """With hole, head, washer and nut of that bolt."""
        row = self.row
        return HalvesBolts(
            size=self.size,
            spacing_mm=self.spacing,
            hole_d_mm=row.hole_mm("medium"),
            major_mm=row.major_mm,
            pitch_mm=row.pitch_mm or 1.0,
            head_d_mm=row.head_d_mm,
            head_k_mm=row.head_k_mm or row.major_mm,
            washer_d_mm=row.washer_d2_mm or row.head_d_mm,
            washer_h_mm=row.washer_h_mm or 0.0,
            nut_af_mm=row.nut_af_mm or row.head_d_mm,
            nut_m_mm=row.nut_m_mm or row.major_mm,
        )


class HalvesLapKeys(Grammar):
    """A lap for glue."""

    example: ClassVar[str] = "{length: 10, keys: 4}"
    filled: ClassVar[tuple[str, ...]] = ("length",)
    length: Annotated[float, Length(4.0, 60.0)] = Field(
        10.0, description="How far one half goes over the other, or how wide the glued lips are; 10 mm if absent."
    )
    keys_: Annotated[int, Count(0, 24)] = Field(
        4, alias="keys", description="How many ribs or pegs put it in its place. A whole number, 4 if absent."
    )

    def meant_as(self) -> HalvesLap:
        """The lap."""
        return HalvesLap(length_mm=self.length, keys=self.keys_)


class HalvesJointKeys(Grammar):
    """What joins the halves: bolts or a glued lap."""

    example: ClassVar[str] = "{bolts: {size: M4, spacing: 60}}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("screws", "bolt"), "write bolts"),
        **dict.fromkeys(("glue", "glued"), "write lap"),
    }
    bolts: HalvesBoltsKeys | None = Field(
        None, description="Bolts through lips on both halves; a map, in the file's units."
    )
    lap: HalvesLapKeys | None = Field(None, description="A lap for glue; a map, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if (self.bolts is None) == (self.lap is None):
            found = "neither bolts nor lap" if self.bolts is None else "bolts and lap together"
            yield Fault((), found, "bolts or lap", f"such as {self.example}")

    def meant_as(self) -> HalvesBolts | HalvesLap:
        """Whichever was written."""
        keys = self.bolts or self.lap
        assert keys is not None
        return keys.meant_as()


class HalvesKeys(Grammar):
    """A part printed as two halves."""

    example: ClassVar[str] = "{across: 120, joint: {bolts: {size: M4, spacing: 60}}}, or auto"
    filled: ClassVar[tuple[str, ...]] = ("joint",)
    meant: ClassVar[Mapping[str, str]] = {
        "bolts": "it goes one deeper: `joint: {bolts: {...}}`",
        "lap": "it goes one deeper: `joint: {lap: {...}}`",
        "at": "write across: the distance from end_a's mouth",
        "plane": "write along: up or right",
    }
    across: Annotated[float | None, Length(1.0, 3000.0, auto=True)] = Field(
        None,
        description="Parted square to the passage, so far along its centreline from end_a's mouth, in the file's "
        "units; auto: the middle of what is free.",
    )
    along: Annotated[float | None, Heading(-360.0, 360.0, auto=True, signed=True)] = Field(
        None,
        description="Parted by the plane of end_a's axis and this direction: up, right, degrees clockwise from up, or "
        "auto. up cuts left from right.",
    )
    joint: HalvesJointKeys | None = Field(
        None, description="What joins the halves, bolts or lap; a map, in the file's units. Bolts if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if {"across", "along"} <= self.model_fields_set:
            yield Fault(("along",), "across and along together", "one of the two", "delete one", at="key")

    def meant_as(self) -> Halves:
        """With the joint filled in."""
        way: Literal["auto", "across", "along"] = "auto"
        if "across" in self.model_fields_set:
            way = "across"
        elif "along" in self.model_fields_set:
            way = "along"
        joint = self.joint.meant_as() if self.joint else HalvesBoltsKeys.read({}, Context()).meant_as()
        return Halves(way=way, across_mm=self.across, along_deg=self.along, joint=joint)


def read_halves(value: object, context: Context) -> Halves:
    """`auto`, or a map."""
    if isinstance(value, str):
        if value.strip() != "auto":
            hint = nearest(value.strip(), ["auto"])
            raise FaultError([Fault((), shown(value), f"auto, or a map such as {HalvesKeys.example}", hint)])
        return HalvesKeys.read({}, context).meant_as()
    return HalvesKeys.read(value, context).meant_as()


HalvesValue = Annotated[Halves, Forms(read_halves, HalvesKeys | Literal["auto"])]
