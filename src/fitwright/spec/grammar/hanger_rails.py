"""A hanger on strut channel, a T-slot rail, a bar that it is tied to, or a threaded rod."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data.channel_nuts import all_channel_nuts, strut_nut
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.hanger_mount import (
    MOUNT_MEANT,
    RUNS_SAYS,
    SIDE_SAYS,
    MountGrammar,
    Runs,
    SideWord,
)
from fitwright.spec.grammar.values import Context, Length, Text
from fitwright.spec.hanger import HangerMount
from fitwright.units import format_length

RODS = ("M6", "M8", "M10")


def _strut_bolt(text: str) -> str:
    try:
        return strut_nut(text).thread
    except DataError:
        known = [row.thread for row in all_channel_nuts() if row.kind == "strut"]
        raise FaultError([Fault((), shown(text), " | ".join(known), "the thread of the channel nut")]) from None


class StrutKeys(MountGrammar):
    """On 41 mm strut channel, by channel nuts."""

    example: ClassVar[str] = "{side: up, runs: across, bolt: M8}"
    filled: ClassVar[tuple[str, ...]] = ("side", "runs", "bolt", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {**MOUNT_MEANT, **dict.fromkeys(("size", "nut", "screws"), "write bolt")}
    side: SideWord = Field("up", description=SIDE_SAYS.format("up, left, right or down", "Up"))
    runs: Runs = Field("across", description=RUNS_SAYS.format("Across"))
    bolt: Annotated[str, Text("a bolt's name: M6, M8 or M10", 20, _strut_bolt)] = Field(
        "M8", description="Bolt and channel nut by their name (the unit is in it): M6, M8, M10; M8 if absent."
    )

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="strut", side=self.side, along=self.runs == "along", axis_mm=self.to_axis, bolt=self.bolt
        )


def slot_bolts(slot_mm: float) -> tuple[str, ...]:
    """The threads of the nuts that are known for a T-slot of this width [mm]."""
    rows = [row for row in all_channel_nuts() if row.kind == "T-slot" and row.slot_mm <= slot_mm + 0.5]
    widest = max(row.slot_mm for row in rows)
    return tuple(row.thread for row in rows if row.slot_mm == widest)


class TSlotKeys(MountGrammar):
    """On a rail with a T-slot, by T-slot nuts."""

    example: ClassVar[str] = "{slot: 8.2, side: left, runs: across}"
    filled: ClassVar[tuple[str, ...]] = ("side", "runs", "bolt", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **MOUNT_MEANT,
        **dict.fromkeys(("size", "nut", "screws"), "write bolt"),
        **dict.fromkeys(("width", "gap", "slot_width"), "write slot: its width at the face"),
    }
    slot: Annotated[float, Length(4.5, 16.0)] = Field(
        description="Width of the slot at the rail's face, by caliper, in the file's units."
    )
    side: SideWord = Field("up", description=SIDE_SAYS.format("up, left, right or down", "Up"))
    runs: Runs = Field("along", description=RUNS_SAYS.format("Along"))
    bolt: Annotated[str | None, Text("a bolt's name, such as M6", 20)] = Field(
        None,
        description="Bolt and T-slot nut by their name (the unit is in it): M5, M6, M8; as the slot takes if absent.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        fits = slot_bolts(self.slot)
        if self.made_bolt not in fits:
            found = f"{self.made_bolt} in a slot of {format_length(self.slot, context.units)}"
            yield Fault(("bolt",), found, " | ".join(fits), "a T-slot nut that is known to go in; or delete bolt")

    @property
    def made_bolt(self) -> str:
        """As asked, or M6 where the slot takes it, else the least from M5 on that it takes."""
        if self.bolt is not None:
            return self.bolt.strip().upper()
        return "M5" if self.slot < 7.5 else "M6" if self.slot < 9.5 else "M8"

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="t_slot",
            side=self.side,
            along=self.runs == "along",
            axis_mm=self.to_axis,
            bolt=self.made_bolt,
            slot_mm=self.slot,
        )


class TieKeys(Grammar):
    """The cable tie."""

    example: ClassVar[str] = "{width: 7.6, thickness: 1.9}"
    filled: ClassVar[tuple[str, ...]] = ("width", "thickness")
    width: Annotated[float, Length(2.5, 15.0)] = Field(
        7.6, description="Its width, in the file's units; 7.6 mm if absent."
    )
    thickness: Annotated[float, Length(0.8, 3.0)] = Field(
        1.9, description="Its thickness, in the file's units; 1.9 mm if absent."
    )


class CableTieKeys(MountGrammar):
    """Tied to a round bar or tube."""

    example: ClassVar[str] = "{bar: 25, runs: across}"
    filled: ClassVar[tuple[str, ...]] = ("side", "runs", "tie", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **MOUNT_MEANT,
        **dict.fromkeys(("diameter", "tube", "pipe", "rod"), "write bar: its diameter"),
        **dict.fromkeys(("width", "thickness"), "write tie: {width: ..., thickness: ...}"),
    }
    bar: Annotated[float, Length(6.0, 120.0)] = Field(
        description="Diameter of the bar or tube that it is tied to, in the file's units."
    )
    side: SideWord = Field("up", description=SIDE_SAYS.format("up, left, right or down", "Up"))
    runs: Runs = Field("across", description=RUNS_SAYS.format("Across"))
    tie: TieKeys = Field(
        TieKeys.read({}, Context()), description="The tie: a map, in the file's units; 7.6 x 1.9 mm if absent."
    )

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="cable_tie",
            side=self.side,
            along=self.runs == "along",
            axis_mm=self.to_axis,
            bar_mm=self.bar,
            tie_wide_mm=self.tie.width,
            tie_thick_mm=self.tie.thickness,
        )


def _rod(text: str) -> str:
    plain = text.replace(" ", "").upper()
    if plain not in RODS:
        raise FaultError([Fault((), shown(text), " | ".join(RODS))])
    return plain


class RodKeys(Grammar):
    """Hung by a threaded rod."""

    example: ClassVar[str] = "{drop: 300}"
    filled: ClassVar[tuple[str, ...]] = ("size",)
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("length", "long", "to_axis", "height", "down"), "write drop"),
        **dict.fromkeys(("bolt", "thread", "diameter"), "write size"),
        "side": "a rod hangs: delete it",
    }
    drop: Annotated[float, Length(30.0, 3000.0)] = Field(
        description="From what carries the rod down to the hose's axis, in the file's units."
    )
    size: Annotated[str, Text("a rod's name: M6, M8 or M10", 20, _rod)] = Field(
        "M8", description="The rod by its name (the unit is in it): M6, M8, M10; M8 if absent."
    )

    def mount(self) -> HangerMount:
        """As meant."""
        return HangerMount(kind="rod", side="up", drop_mm=self.drop, bolt=self.size)
