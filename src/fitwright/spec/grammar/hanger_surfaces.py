"""A hanger on wood: the side or underside of a joist, a wall, ceiling or shelf, a batten between two joists."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.hanger_mount import (
    MOUNT_MEANT,
    RUNS_SAYS,
    SCREWS_SAYS,
    SIDE_SAYS,
    LeftRight,
    MountGrammar,
    Runs,
)
from fitwright.spec.grammar.hanger_wood import WOOD, WOOD_SAYS, IntoKeys, JoistKeys, WoodScrewsKeys
from fitwright.spec.grammar.values import Context, Length
from fitwright.spec.hanger import Batten, HangerMount, Side, Wood
from fitwright.units import format_length

JOIST_SAYS = "The joist: a map, in the file's units; 38 mm wide if absent."


class JoistSideKeys(MountGrammar):
    """On the side of a joist, post or beam that runs along the hose."""

    example: ClassVar[str] = "{side: right, joist: {width: 38, depth: 195}}"
    filled: ClassVar[tuple[str, ...]] = ("side", "joist", "screws", "to_axis")
    meant: ClassVar[Mapping[str, str]] = {**MOUNT_MEANT, "wood": "write joist: {wood: ...}"}
    side: LeftRight = Field("left", description=SIDE_SAYS.format("left or right", "Left"))
    joist: JoistKeys = Field(
        JoistKeys.read({}, Context()), description="The joist: a map, in the file's units; 38 mm wide if absent."
    )
    screws: WoodScrewsKeys = Field(WoodScrewsKeys.read({}, Context()), description=SCREWS_SAYS)

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
        **MOUNT_MEANT,
        "wood": "write joist: {wood: ...}",
        "side": "under a joist there is one side only: delete it, or write joist_side",
    }
    runs: Runs = Field("along", description=RUNS_SAYS.format("Along"))
    joist: JoistKeys = Field(
        JoistKeys.read({}, Context()), description="The joist: a map, in the file's units; 38 mm wide if absent."
    )
    screws: WoodScrewsKeys = Field(WoodScrewsKeys.read({}, Context()), description=SCREWS_SAYS)

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
        **MOUNT_MEANT,
        **dict.fromkeys(("wood", "board", "joist", "plug", "thickness"), "write into: {wood: plywood, thickness: 18}"),
    }
    into: IntoKeys = Field(
        IntoKeys.read({}, Context()),
        description="What the screws go into: a map, in the file's units; 38 mm of spruce if absent.",
    )
    screws: WoodScrewsKeys = Field(WoodScrewsKeys.read({}, Context()), description=SCREWS_SAYS)

    def on(self, side: Side) -> HangerMount:
        """On the surface at this side."""
        return HangerMount(
            kind="flat",
            side=side,
            axis_mm=self.to_axis,
            wood=self.into.wood_meant(),
            screws=self.screws.meant_as(),
        )


class MountWallKeys(_FlatKeys):
    """On an upright flat surface: a wall, a panel, a machine's side."""

    example: ClassVar[str] = "{side: left, into: {wood: plywood, thickness: 18}}"
    filled: ClassVar[tuple[str, ...]] = ("side", *_FlatKeys.filled)
    side: LeftRight = Field("left", description=SIDE_SAYS.format("left or right", "Left"))

    def mount(self) -> HangerMount:
        return self.on(self.side)


class MountCeilingKeys(_FlatKeys):
    """Under a flat ceiling."""

    example: ClassVar[str] = "{into: {wood: plywood, thickness: 18}}"

    def mount(self) -> HangerMount:
        return self.on("up")


class MountShelfKeys(_FlatKeys):
    """On top of a shelf, bench or beam: the hose rests, it does not hang."""

    example: ClassVar[str] = "{into: {wood: plywood, thickness: 18}}"

    def mount(self) -> HangerMount:
        return self.on("down")


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
        **MOUNT_MEANT,
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
    screws: WoodScrewsKeys = Field(WoodScrewsKeys.read({}, Context()), description=SCREWS_SAYS)

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
