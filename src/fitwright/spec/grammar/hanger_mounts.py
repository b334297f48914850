"""Where a hanger is fixed, as the YAML says it: one map a kind of mount, most of which may be one word."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data.channel_nuts import all_channel_nuts, slot_nut, strut_nut
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.hanger_holes import HangerHolesKeys
from fitwright.spec.grammar.hanger_wood import WOOD, WOOD_SAYS, IntoKeys, JoistKeys, WoodScrewsKeys
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.spec.hanger import Batten, HangerMount, Side, Wood
from fitwright.units import format_length

TO_AXIS = Length(10.0, 1000.0, auto=True)
TO_AXIS_SAYS = "From that surface to the hose's axis, in the file's units; as near as it fits if absent."
SIDES = ("up", "left", "right", "down")
_SIDE_SLIPS = (("above", "up"), ("top", "up"), ("ceiling", "up"), ("below", "down"), ("bottom", "down"))
_RUN_SLIPS = (("with", "along"), ("parallel", "along"), ("square", "across"), ("crosswise", "across"))
SideWord = Annotated[Side, Words(SIDES, _SIDE_SLIPS)]
LeftRight = Annotated[Literal["left", "right"], Words(("left", "right"))]
Runs = Annotated[Literal["along", "across"], Words(("along", "across"), _RUN_SLIPS)]
SIDE_SAYS = "On which side of the hose it lies, seen along the hose: {}; no unit. {} if absent."
RUNS_SAYS = "Whether it runs along the hose or across it: along or across; no unit. {} if absent."
SCREWS_SAYS = "The wood screws: a map of size, length, head and count, in the file's units; two of 5.0 mm if absent."
_MEANT: Mapping[str, str] = {
    **dict.fromkeys(("axis", "distance", "offset", "off", "standoff"), "write to_axis"),
    **dict.fromkeys(("direction", "along", "across"), "write runs: along, or runs: across"),
    **dict.fromkeys(("where", "position", "on"), "write side"),
    **dict.fromkeys(("screw", "bolts"), "write screws"),
}


class MountGrammar(Grammar):
    """What all mounts share."""

    meant: ClassVar[Mapping[str, str]] = _MEANT
    filled: ClassVar[tuple[str, ...]] = ("to_axis",)
    to_axis: Annotated[float | None, TO_AXIS] = Field(None, description=TO_AXIS_SAYS)

    def mount(self) -> HangerMount:
        """As meant."""
        raise NotImplementedError


class JoistSideKeys(MountGrammar):
    """On the side of a joist, post or beam that runs along the hose."""

    example: ClassVar[str] = "{side: right, joist: {width: 38, depth: 195}}"
    filled: ClassVar[tuple[str, ...]] = ("side", "joist", "screws", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {**_MEANT, "wood": "write joist: {wood: ...}"}
    side: LeftRight = Field("left", description=SIDE_SAYS.format("left or right", "Left"))
    joist: JoistKeys = Field(JoistKeys(), description="The joist: a map, in the file's units; 38 mm wide if absent.")
    screws: WoodScrewsKeys = Field(WoodScrewsKeys(), description=SCREWS_SAYS)

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="joist_side",
            side=self.side,
            axis_mm=self.to_axis,
            wood=self.joist.wood_meant(),
            screws=self.screws.meant_as(),
        )


class JoistUndersideKeys(MountGrammar):
    """Under a joist, screwed into its narrow edge."""

    example: ClassVar[str] = "{runs: across, joist: {width: 38, depth: 195}}"
    filled: ClassVar[tuple[str, ...]] = ("runs", "joist", "screws", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **_MEANT,
        "wood": "write joist: {wood: ...}",
        "side": "under a joist there is one side only: delete it, or write joist_side",
    }
    runs: Runs = Field("along", description=RUNS_SAYS.format("Along"))
    joist: JoistKeys = Field(JoistKeys(), description="The joist: a map, in the file's units; 38 mm wide if absent.")
    screws: WoodScrewsKeys = Field(WoodScrewsKeys(), description=SCREWS_SAYS)

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="joist_underside",
            side="up",
            along=self.runs == "along",
            axis_mm=self.to_axis,
            wood=self.joist.wood_meant(),
            screws=self.screws.meant_as(),
        )


class _FlatKeys(MountGrammar):
    """A flat surface of wood or board."""

    filled: ClassVar[tuple[str, ...]] = ("into", "screws", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **_MEANT,
        **dict.fromkeys(("wood", "board", "joist", "plug", "thickness"), "write into: {wood: plywood, thickness: 18}"),
    }
    into: IntoKeys = Field(
        IntoKeys(), description="What the screws go into: a map, in the file's units; 38 mm of spruce if absent."
    )
    screws: WoodScrewsKeys = Field(WoodScrewsKeys(), description=SCREWS_SAYS)

    def on(self, side: Side) -> HangerMount:
        """On the surface at this side."""
        return HangerMount(
            kind="flat",
            side=side,
            axis_mm=self.to_axis,
            wood=self.into.wood_meant(),
            screws=self.screws.meant_as(),
        )


class WallKeys(_FlatKeys):
    """On an upright flat surface: a wall, a panel, a machine's side."""

    example: ClassVar[str] = "{side: left, into: {wood: plywood, thickness: 18}}"
    filled: ClassVar[tuple[str, ...]] = ("side", *_FlatKeys.filled)
    side: LeftRight = Field("left", description=SIDE_SAYS.format("left or right", "Left"))

    def mount(self) -> HangerMount:
        return self.on(self.side)


class CeilingKeys(_FlatKeys):
    """Under a flat ceiling."""

    example: ClassVar[str] = "{into: {wood: plywood, thickness: 18}}"

    def mount(self) -> HangerMount:
        return self.on("up")


class ShelfKeys(_FlatKeys):
    """On top of a shelf, bench or beam: the hose rests, it does not hang."""

    example: ClassVar[str] = "{into: {wood: plywood, thickness: 18}}"

    def mount(self) -> HangerMount:
        return self.on("down")


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
    meant: ClassVar[Mapping[str, str]] = {**_MEANT, **dict.fromkeys(("size", "nut", "screws"), "write bolt")}
    side: SideWord = Field("up", description=SIDE_SAYS.format("up, left, right or down", "Up"))
    runs: Runs = Field("across", description=RUNS_SAYS.format("Across"))
    bolt: Annotated[str, Text("a bolt's name: M6, M8 or M10", 20, _strut_bolt)] = Field(
        "M8", description="Bolt and channel nut by their name (the unit is in it): M6, M8, M10; M8 if absent."
    )

    def mount(self) -> HangerMount:
        return HangerMount(
            kind="strut", side=self.side, along=self.runs == "along", axis_mm=self.to_axis, bolt=self.bolt
        )


class TSlotKeys(MountGrammar):
    """On a rail with a T-slot, by T-slot nuts."""

    example: ClassVar[str] = "{slot: 8.2, side: left, runs: across}"
    filled: ClassVar[tuple[str, ...]] = ("side", "runs", "bolt", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **_MEANT,
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
        try:
            slot_nut(self.made_bolt, self.slot)
        except DataError as error:
            yield Fault(
                ("bolt",) if self.bolt else ("slot",),
                f"{self.made_bolt} in a slot of {format_length(self.slot, context.units)}",
                f"{error}",
                "measure the slot at the rail's face",
            )

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
        **_MEANT,
        **dict.fromkeys(("diameter", "tube", "pipe", "rod"), "write bar: its diameter"),
        **dict.fromkeys(("width", "thickness"), "write tie: {width: ..., thickness: ...}"),
    }
    bar: Annotated[float, Length(6.0, 120.0)] = Field(
        description="Diameter of the bar or tube that it is tied to, in the file's units."
    )
    side: SideWord = Field("up", description=SIDE_SAYS.format("up, left, right or down", "Up"))
    runs: Runs = Field("across", description=RUNS_SAYS.format("Across"))
    tie: TieKeys = Field(TieKeys(), description="The tie: a map, in the file's units; 7.6 x 1.9 mm if absent.")

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
    size: Annotated[str, Words(("M6", "M8", "M10"), (("m6", "M6"), ("m8", "M8"), ("m10", "M10")))] = Field(
        "M8", description="The rod by its name (the unit is in it): M6, M8, M10; M8 if absent."
    )

    def mount(self) -> HangerMount:
        """As meant."""
        return HangerMount(kind="rod", side="up", drop_mm=self.drop, bolt=self.size)


class SidewaysKeys(Grammar):
    """How far to one side of the hose."""

    example: ClassVar[str] = "{left: 150}"
    left: Annotated[float | None, Length(0.0, 3000.0)] = Field(
        None, description="So far to the left of the hose, in the file's units."
    )
    right: Annotated[float | None, Length(0.0, 3000.0)] = Field(
        None, description="So far to the right of the hose, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if (self.left is None) == (self.right is None):
            found = "an empty map" if self.left is None else "left and right together"
            yield Fault((), found, "left or right", f"such as {self.example}")

    @property
    def x_mm(self) -> float:
        """Right positive."""
        return self.right if self.right is not None else -(self.left or 0.0)


class BattenKeys(MountGrammar):
    """On a batten from joist to joist, where there is no joist above the hose."""

    example: ClassVar[str] = "{near: {left: 150}, far: {right: 460}}"
    filled: ClassVar[tuple[str, ...]] = ("width", "thickness", "wood", "screws", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {
        **_MEANT,
        **dict.fromkeys(("left", "right"), "write near: {left: ...} and far: {right: ...}"),
        **dict.fromkeys(("first", "one"), "write near"),
        **dict.fromkeys(("second", "other"), "write far"),
        "depth": "write thickness",
        "side": "a batten is above the hose: delete it",
    }
    near: SidewaysKeys = Field(
        description="The fixing point that is nearer, from the hose's axis: left or right; a map, in the file's units."
    )
    far: SidewaysKeys = Field(
        description="The other fixing point, from the hose's axis; on the same side it is pulled up, not down; a map, "
        "in the file's units."
    )
    width: Annotated[float, Length(20.0, 300.0)] = Field(
        58.0, description="Width of the batten, the side that the hanger lies on, in the file's units; 58 mm if absent."
    )
    thickness: Annotated[float, Length(12.0, 150.0)] = Field(
        38.0, description="Thickness of the batten, in the file's units; 38 mm if absent."
    )
    wood: Annotated[str, WOOD] = Field("spruce", description=WOOD_SAYS)
    screws: WoodScrewsKeys = Field(WoodScrewsKeys(), description=SCREWS_SAYS)

    def sense(self, context: Context) -> Iterator[Fault]:
        near, far, say = self.near.x_mm, self.far.x_mm, partial(format_length, units=context.units)
        if abs(near - far) < 100.0:
            found = f"fixing points {say(abs(near - far))} apart"
            yield Fault(("far",), found, f"{say(100.0)} or more", "one on each of two joists")
        elif abs(near) > abs(far):
            found = f"near {say(abs(near))} and far {say(abs(far))} from the hose"
            yield Fault(("near",), found, "near not further than far", "swap the two")

    def mount(self) -> HangerMount:
        batten = Batten(near_mm=self.near.x_mm, far_mm=self.far.x_mm, wide_mm=self.width, thick_mm=self.thickness)
        return HangerMount(
            kind="batten",
            side="up",
            axis_mm=self.to_axis,
            wood=Wood(name=self.wood, wide_mm=self.width, deep_mm=self.thickness),
            screws=self.screws.meant_as(),
            batten=batten,
        )


class ExistingHolesKeys(HangerHolesKeys):
    """By screws in holes that are there already."""

    filled: ClassVar[tuple[str, ...]] = ("side", "clearance", "to_axis")
    to_axis: Annotated[float | None, TO_AXIS] = Field(None, description=TO_AXIS_SAYS)
    side: SideWord = Field("left", description=SIDE_SAYS.format("up, left, right or down", "Left"))

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from super().sense(context)
        yield from self.on_surface(self.side)

    def mount(self) -> HangerMount:
        """As meant."""
        return HangerMount(kind="holes", side=self.side, axis_mm=self.to_axis, holes=self.holes_on(self.side))


class HangerMountKeys(Grammar):
    """Where the hanger is fixed: one of these."""

    example: ClassVar[str] = "{joist_side: {side: right}}"
    meant: ClassVar[Mapping[str, str]] = {
        "flat": "write wall, ceiling or shelf",
        **dict.fromkeys(("joist", "beam", "post", "stud"), "write joist_side or joist_underside"),
        **dict.fromkeys(("side", "runs", "to_axis", "screws"), "this key stands under the kind: mount: {wall: {...}}"),
        **dict.fromkeys(("rail", "extrusion", "profile", "tslot"), "write t_slot"),
        **dict.fromkeys(("channel", "strut_channel"), "write strut"),
        **dict.fromkeys(("tie", "bar", "tube", "zip_tie"), "write cable_tie: {bar: ...}"),
        **dict.fromkeys(("threaded_rod", "drop"), "write rod: {drop: ...}"),
        **dict.fromkeys(("bench", "top"), "write shelf"),
        **dict.fromkeys(("points", "existing", "bolts"), "write holes"),
    }
    joist_side: JoistSideKeys | None = Field(
        None, description="On the side of a joist that runs along the hose; a map, in the file's units."
    )
    joist_underside: JoistUndersideKeys | None = Field(None, description="Under a joist; a map, in the file's units.")
    wall: WallKeys | None = Field(None, description="On an upright flat surface; a map, in the file's units.")
    ceiling: CeilingKeys | None = Field(None, description="Under a flat ceiling; a map, in the file's units.")
    shelf: ShelfKeys | None = Field(None, description="On top of a shelf or beam; a map, in the file's units.")
    strut: StrutKeys | None = Field(None, description="On 41 mm strut channel; a map, in the file's units.")
    t_slot: TSlotKeys | None = Field(None, description="On a rail with a T-slot; a map, in the file's units.")
    holes: ExistingHolesKeys | None = Field(
        None, description="By screws in holes that are there already; a map, in the file's units."
    )
    cable_tie: CableTieKeys | None = Field(None, description="Tied to a bar or tube; a map, in the file's units.")
    rod: RodKeys | None = Field(None, description="Hung by a threaded rod; a map, in the file's units.")
    batten: BattenKeys | None = Field(None, description="On a batten between two joists; a map, in the file's units.")

    @property
    def kind(self) -> str:
        """The one kind given."""
        return next(key for key in KINDS if getattr(self, key) is not None)

    @property
    def inner(self) -> MountGrammar | RodKeys | ExistingHolesKeys:
        """Its map."""
        inner: MountGrammar | RodKeys | ExistingHolesKeys = getattr(self, self.kind)
        return inner

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [key for key in KINDS if getattr(self, key) is not None]
        if not given:
            yield Fault((), "an empty map", f"one of {', '.join(KINDS)}", f"such as {self.example}")
        elif len(given) > 1:
            yield Fault((given[1],), f"{given[0]} and {given[1]} together", "one mount", "delete one", at="key")

    def mount(self) -> HangerMount:
        """As meant."""
        return self.inner.mount()


KINDS = tuple(HangerMountKeys.model_fields)
_WORDS = tuple(key for key in KINDS if key not in ("t_slot", "holes", "cable_tie", "rod", "batten"))
_NEEDS = {
    "t_slot": "t_slot: {slot: 8.2}",
    "holes": "holes: {points: [{up: 20}, {down: 20}], size: M5}",
    "cable_tie": "cable_tie: {bar: 25}",
    "rod": "rod: {drop: 300}",
    "batten": "batten: {near: {left: 150}, far: {right: 460}}",
}


def read_mount(value: object, context: Context) -> HangerMountKeys:
    """One word, or a map by kind."""
    if not isinstance(value, str):
        return HangerMountKeys.read(value, context)
    word = value.strip()
    if word in _WORDS:
        return HangerMountKeys.read({word: {}}, context)
    allowed = f"{' | '.join(_WORDS)}, or a map such as {HangerMountKeys.example}"
    if word in _NEEDS:
        found = f"{shown(value)}, which needs its sizes"
        raise FaultError([Fault((), found, f"mount: {{{_NEEDS[word]}}}", "a map, with your own numbers")])
    meant = HangerMountKeys.meant.get(word)
    hint = meant if meant and "under the kind" not in meant else nearest(word, KINDS)
    raise FaultError([Fault((), shown(value), allowed, hint)])


_Word = Annotated[str, Words(_WORDS)]
MountValue = Annotated[HangerMountKeys, Forms(read_mount, _Word | HangerMountKeys, "one word, or a map by kind")]
