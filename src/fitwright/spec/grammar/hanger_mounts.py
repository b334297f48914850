"""Where a hanger is fixed, as the YAML says it: one map a kind of mount, most of which may be one word."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.hanger_holes import HangerHolesKeys
from fitwright.spec.grammar.hanger_mount import (
    SIDE_SAYS,
    TO_AXIS,
    TO_AXIS_SAYS,
    MountGrammar,
    SideWord,
)
from fitwright.spec.grammar.hanger_rails import CableTieKeys, RodKeys, StrutKeys, TSlotKeys
from fitwright.spec.grammar.hanger_surfaces import (
    BattenKeys,
    JoistSideKeys,
    JoistUndersideKeys,
    MountCeilingKeys,
    MountShelfKeys,
    MountWallKeys,
)
from fitwright.spec.grammar.values import Context, Words
from fitwright.spec.hanger import HangerMount


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
    wall: MountWallKeys | None = Field(None, description="On an upright flat surface; a map, in the file's units.")
    ceiling: MountCeilingKeys | None = Field(None, description="Under a flat ceiling; a map, in the file's units.")
    shelf: MountShelfKeys | None = Field(None, description="On top of a shelf or beam; a map, in the file's units.")
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
