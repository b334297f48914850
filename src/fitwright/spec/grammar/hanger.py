"""A hose hanger as the YAML says it: what it carries, how it is held, on what."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.hanger_carried import HoseValue, PipeValue
from fitwright.spec.grammar.hanger_holes import WHERE
from fitwright.spec.grammar.hanger_mounts import MountValue
from fitwright.spec.grammar.hanger_run import HangerRunKeys
from fitwright.spec.grammar.hanger_styles import ClampValue, HookValue, SaddleValue
from fitwright.spec.grammar.parts import PartKeys
from fitwright.spec.grammar.places import PointValue
from fitwright.spec.grammar.values import Context, Count, Length, Words, YesNo
from fitwright.spec.hanger import BESIDE_STRAP_MM, SADDLE_MM, Carried, HangerMount, Strap, strap_wide_mm
from fitwright.units import format_length

STYLES = ("saddle", "hook", "clamp")
WIDTH_MM = 44.0
"""A hanger is so wide where nothing is said: a saddle's width, and its rounded rims (common practice, no source)."""
TO_SURFACE_DEG = 60.0
"""It cannot open within this angle of the surface that it is fixed to."""
SURFACE_DEG = {"up": 0.0, "right": 90.0, "down": 180.0, "left": 270.0}
_ABOVE = (
    *(("person", "people"), ("bench", "people"), ("someone", "people"), ("walkway", "people")),
    *(("machine", "cutter"), ("blade", "cutter"), ("spindle", "cutter"), ("saw", "cutter")),
    *(("none", "nothing"), ("no", "nothing"), ("floor", "nothing")),
)


class HoseHangerKeys(PartKeys):
    """A hanger for hose or pipe."""

    example: ClassVar[str] = "{part: hose_hanger, hose: {over_ribs: 108.4}}"
    filled: ClassVar[tuple[str, ...]] = (
        *PartKeys.filled,
        *("mount", "width", "arm", "apart", "second_fixing", "spacing", "dust"),
    )
    meant: ClassVar[Mapping[str, str]] = {
        **PartKeys.meant,
        **dict.fromkeys(("over_ribs", "inside", "squeezes_to"), "this key stands under hose: hose: {over_ribs: ...}"),
        **dict.fromkeys(
            ("over", "diameter", "od", "outside", "size"), "write hose: {over_ribs: ...} or pipe: {over: ...}"
        ),
        **dict.fromkeys(("id", "hose_inside", "duct", "tube"), "write hose: {over_ribs: ...} or pipe: {over: ...}"),
        **dict.fromkeys(("style", "type_of_hanger", "holder", "kind"), "write saddle: yes, hook: yes or clamp: yes"),
        **dict.fromkeys(("hanger", "bracket"), "its keys (hose, mount, saddle ...) stand at the top"),
        **dict.fromkeys(("throat", "opens"), "write hook: {throat: ...}"),
        **dict.fromkeys(("strap", "velcro"), "write saddle: {strap: 25}"),
        **dict.fromkeys(("band", "bolts", "screws"), "of a clamp: clamp: {screws: M5}; of the mount: mount: {...}"),
        **dict.fromkeys(
            ("joist", "joist_side", "joist_underside", "wall_side", "ceiling", "shelf", "strut", "t_slot", "holes"),
            "write mount: joist_side, or mount: {strut: {...}}",
        ),
        **dict.fromkeys(("rod", "batten", "cable_tie", "flat", "fixing", "on"), "write mount: {rod: {drop: ...}}"),
        **dict.fromkeys(("number", "hoses", "pipes", "how_many"), "write count"),
        **dict.fromkeys(("gap", "pitch", "centres"), "write apart: from axis to axis"),
        **dict.fromkeys(("wide", "depth", "saddle_width"), "write width: along the hose"),
        **dict.fromkeys(("arms", "arm_thickness"), "write arm"),
        **dict.fromkeys(("below", "over_what", "under"), "write above: people, cutter or nothing"),
        **dict.fromkeys(("safety_line", "tether", "eye", "second_point"), "write second_fixing"),
        **dict.fromkeys(("every", "distance", "interval"), "write spacing: to the next hanger"),
        **dict.fromkeys(("bend", "to_elbow"), "write elbow: to the next elbow"),
        **dict.fromkeys(("moves", "rides", "stroke"), "write travel: {right: 600}"),
        **dict.fromkeys(("turns", "rotates", "pivot"), "write swivel: yes"),
        **dict.fromkeys(("end_a", "end_b"), "a hanger has no ends: write hose or pipe"),
    }
    part: Annotated[Literal["hose_hanger"], Words(("hose_hanger",))] = Field(
        description="The family: hose_hanger; no unit."
    )
    hose: HoseValue | None = Field(None, description="The hose that it carries; a map, lengths in the file's units.")
    pipe: PipeValue | None = Field(
        None, description="Or a pipe: its name in the tables (mm and inches are in it), or a map, in the file's units."
    )
    saddle: SaddleValue | None = Field(
        None, description="A saddle with a strap: yes, or a map, in the file's units; this one if no style is named."
    )
    hook: HookValue | None = Field(None, description="An open hook: yes, or a map, in the file's units.")
    clamp: ClampValue | None = Field(None, description="A clamp of two halves: yes, or a map, in the file's units.")
    count: Annotated[int, Count(1, 8)] = Field(
        1, description="How many hoses side by side along the surface. A whole number, 1 if absent."
    )
    apart: Annotated[float | None, Length(20.0, 600.0, auto=True)] = Field(
        None, description="From axis to axis of several, in the file's units; as near as they come in if absent."
    )
    mount: MountValue | None = Field(
        None, description="Where it is fixed: a word, or a map by kind, in the file's units; joist_side if absent."
    )
    width: Annotated[float | None, Length(12.0, 150.0, auto=True)] = Field(
        None, description="How wide it is, along the hose, in the file's units; 44 mm if absent, more for a wide strap."
    )
    arm: Annotated[float | None, Length(3.0, 25.0, auto=True)] = Field(
        None, description="Thickness of the arms round the hose, in the file's units; as the style needs if absent."
    )
    swivel: Annotated[bool, YesNo()] = Field(
        False, description="It turns about an upright bolt, two washers and a locking nut: yes or no (no unit)."
    )
    above: Annotated[Literal["people", "cutter", "nothing"] | None, Words(("people", "cutter", "nothing"), _ABOVE)] = (
        Field(None, description="What is below it: people, cutter or nothing; no unit. Not known if absent.")
    )
    second_fixing: Annotated[bool | None, YesNo()] = Field(
        None, description="An eye for a line to a second fixing point: yes or no (no unit); where it hangs if absent."
    )
    spacing: Annotated[float | None, Length(150.0, 6000.0, auto=True)] = Field(
        None, description="To the next hanger, in the file's units; 1200 mm if absent."
    )
    run: HangerRunKeys | None = Field(
        None, description="The hose run that says its load, in place of spacing; a map (no unit). By spacing if absent."
    )
    elbow: Annotated[float | None, Length(0.0, 6000.0)] = Field(
        None, description="From this hanger to the next elbow, in the file's units; none is near if absent."
    )
    travel: PointValue | None = Field(
        None,
        description="How far it rides with a machine, as a map of directions, in the file's units; what it must keep "
        "clear of is judged all the way. It stands still if absent.",
    )
    dust: Annotated[
        Literal["chips", "shavings", "fine"],
        Words(("chips", "shavings", "fine"), (("sawdust", "fine"), ("sanding", "fine"), ("planer", "shavings"))),
    ] = Field("shavings", description="What settles in it: chips, shavings or fine; no unit. Shavings if absent.")

    @property
    def style(self) -> Literal["saddle", "hook", "clamp"]:
        """As asked; a saddle where nothing is."""
        return "hook" if self.hook is not None else "clamp" if self.clamp is not None else "saddle"

    @property
    def opens(self) -> float | None:
        """To where it opens as asked [deg]."""
        held = self.saddle or self.hook
        return held.opens if held is not None else None

    def strap(self) -> Strap:
        """The strap as meant: as wide as a saddle where the hose hangs in it, and not on the print."""
        said = self.saddle.strap if self.saddle is not None else None
        wide = strap_wide_mm("pipe" if self.hose is None else "hose", self.meant_mount().side, self.opens)
        if said is None:
            return Strap(wide_mm=wide)
        return Strap(wide_mm=wide if said.width is None else said.width, thick_mm=said.thickness)

    @property
    def width_mm(self) -> float:
        """The width as asked; so that a hose lies on a saddle's width between the rounded rims, the strap fits in."""
        strap = self.strap().wide_mm + BESIDE_STRAP_MM if self.style == "saddle" else 0.0
        return max(WIDTH_MM, strap) if self.width is None else self.width

    def carried(self) -> Carried:
        """The hose or pipe as meant."""
        if self.hose is not None:
            return self.hose.carried()
        assert self.pipe is not None  # sense
        return self.pipe

    def meant_mount(self) -> HangerMount:
        """As asked, or the side of a joist."""
        return self.mount.mount() if self.mount is not None else HangerMount()

    @property
    def mount_key(self) -> str:
        """The kind of the mount as the YAML has it."""
        return self.mount.kind if self.mount is not None else "joist_side"

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self._one_of_each()
        if (self.hose is None) == (self.pipe is None):
            return
        yield from self._beside_hose(context)
        yield from self._beside_run()
        yield from self._beside_mount()
        yield from self._hung_over()

    def _one_of_each(self) -> Iterator[Fault]:
        if self.hose is None and self.pipe is None:
            hint = "such as hose: {over_ribs: 108.4}; a strip of paper laid round tells it: {circumference: ...}"
            yield Fault(("hose",), "nothing", "hose or pipe: what it carries", hint, at="key")
        elif self.hose is not None and self.pipe is not None:
            yield Fault(("pipe",), "hose and pipe together", "one of the two", "a hanger a size: delete one", at="key")
        given = [key for key in STYLES if getattr(self, key) is not None]
        if len(given) > 1:
            found, hint = f"{given[0]} and {given[1]} together", "delete one"
            yield Fault((given[1],), found, "one of saddle, hook, clamp", hint, at="key")

    def _beside_hose(self, context: Context) -> Iterator[Fault]:
        """Sizes that only make sense beside what is held."""
        over, say = self.carried().size.nominal_mm, partial(format_length, units=context.units)
        if self.hose is not None and self.width is not None and self.width < SADDLE_MM:
            allowed = f"{say(SADDLE_MM)} or more under a hose"
            yield Fault(("width",), say(self.width), allowed, "a narrower one cuts into a flexible hose")
        elif self.style == "saddle" and self.width is not None:
            wide = self.strap().wide_mm
            if wide + BESIDE_STRAP_MM > self.width:
                found = f"a strap of {say(wide)} in a saddle of {say(self.width)}"
                yield Fault(("width",), found, f"{say(wide + BESIDE_STRAP_MM)} or more", "or a narrower strap")
        if self.hook is not None and self.hook.throat is not None and self.hook.throat >= over:
            yield from self._dropped_in(
                f"a throat of {say(self.hook.throat)} for {say(over)}", f"less than {say(over)}"
            )
        if self.count == 1 and self.apart is not None:
            yield Fault(("apart",), "apart beside one hose", "count: 2 to 8", "add `count:`, or delete it", at="key")
        elif self.apart is not None and self.apart < over:
            found = f"{say(self.apart)} from axis to axis"
            yield Fault(("apart",), found, f"more than {say(over)}, what each measures", "from axis to axis")

    def _beside_run(self) -> Iterator[Fault]:
        """A run says the load of one hose, and how far the next hanger is."""
        if self.run is not None and self.spacing is not None:
            yield Fault(("spacing",), "spacing and run together", "one of the two", "the run says it", at="key")
        if self.run is not None and self.hose is None:
            yield Fault(("run",), "a hose run for a pipe", "hose: {over_ribs: ...}", "write spacing", at="key")

    def _dropped_in(self, found: str, less: str) -> Iterator[Fault]:
        """A throat as wide as what it holds: it is laid in from above, and its weight alone keeps it there."""
        if self.above in ("people", "cutter"):
            below = "people" if self.above == "people" else "a cutter"
            yield Fault(("hook", "throat"), found, less, f"only its weight holds it in, above {below}")
        elif self.opens not in (None, 0.0) or self.meant_mount().side == "up":
            hint = "a wider one holds only in a hook that opens up: opens: up on a wall, joist side or shelf"
            yield Fault(("hook", "throat"), found, less, hint)

    def _beside_mount(self) -> Iterator[Fault]:
        mount = self.meant_mount()
        if self.swivel and (mount.side != "up" or mount.kind in ("rod", "cable_tie")):
            found = f"a swivel on mount: {self.mount_key}"
            if mount.kind == "rod":
                hint = "a rod turns in its nuts by itself: delete swivel"
            elif mount.kind == "cable_tie":
                hint = "a tie gives by itself: delete swivel, or screw the hanger on"
            else:
                hint = "its bolt stands upright: mount: joist_underside or ceiling, or strut: {side: up}"
            yield Fault(("swivel",), found, "no, or a mount above the hose", hint)
        elif self.swivel and self.count > 1:
            yield Fault(("count",), f"{self.count} hoses on one swivel", "1", "or several hangers, or no swivel")
        if mount.kind == "rod" and self.count > 1:
            yield Fault(("count",), f"{self.count} hoses on one rod", "1", "it tips: a rod a hose, or another mount")
        if self.opens is not None and _between(self.opens, SURFACE_DEG[mount.side]) < TO_SURFACE_DEG:
            found = f"a {self.style} that opens towards the surface, which lies {WHERE[mount.side]} the hose"
            yield Fault((self.style, "opens"), found, "away from the surface, or along it", "the hose must come in")

    def _hung_over(self) -> Iterator[Fault]:
        """What hangs over somebody or something must not let go."""
        mount = self.meant_mount()
        if self.above == "people" and self.second_fixing is False and mount.side != "down":
            hint = "a print may let go; a line to a second point catches it: delete second_fixing, or write yes"
            yield Fault(("second_fixing",), "no, above people", "yes", hint)
        if self.above == "cutter" and mount.kind == "cable_tie":
            found = "a cable tie above a cutter, which holds by friction alone"
            hint = "screw it on: mount: holes, t_slot or joist_underside"
            yield Fault(("mount",), found, "a mount with screws or bolts", hint)
        if self.second_fixing and mount.side == "down":
            found = f"a second fixing on mount: {self.mount_key}, which does not hang"
            yield Fault(("second_fixing",), found, "no", "it rests on what is below it: delete second_fixing")
        if self.above is not None and mount.side == "down" and self.above != "nothing":
            found = f"{self.above} below a hanger on mount: {self.mount_key}"
            yield Fault(("above",), found, "nothing, or a mount that hangs", "a shelf is below the hose: delete above")
        if self.travel is not None and math.hypot(*self.travel) < 1.0:
            yield Fault(("travel",), "a travel of 0", "1 mm or more in some direction", "delete it: it stands still")

    def open_keys(self) -> tuple[str, ...]:
        """One hose has no distance to another."""
        left = super().open_keys()
        return tuple(key for key in left if key != "apart" or self.count > 1)


def _between(one_deg: float, other_deg: float) -> float:
    """The angle between two directions [deg, 0 to 180]."""
    return abs((one_deg - other_deg + 180.0) % 360.0 - 180.0)
