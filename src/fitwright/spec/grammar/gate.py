"""A bought manual slide gate as the YAML says it: blade, body, port, and how the bracket holds on to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.gate import GateMount, GateScrews
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.gate_blade import BladeKeys
from fitwright.spec.grammar.gate_values import MACHINE_SCREW, Force, Readings, Suction
from fitwright.spec.grammar.values import Context, Length, Number, Text, Words
from fitwright.units import format_length

LEAST_TRAVEL_MM = 10.0
_AT_THE_TOP = ("cylinder", "layout", "frame", "mounted", "guard", "support", "hold", "stop", "setting", "units")
MOUNTS = ("screws", "clamp", "saddle")


class SticksOutKeys(Grammar):
    """How far the blade's outer edge stands out of the body: measured shut, and pulled open as far as it is to go."""

    example: ClassVar[str] = "{shut: 20, open: 126}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("closed", "close", "in"), "write shut"),
        **dict.fromkeys(("opened", "out"), "write open"),
        **dict.fromkeys(("travel", "stroke"), "write shut and open: their difference is the travel"),
    }
    shut: Annotated[float, Readings(Length(0.0, 400.0))] = Field(
        description="Body edge to the blade's outer edge, gate shut, in the file's units; one reading or several."
    )
    open: Annotated[float, Readings(Length(12.0, 800.0))] = Field(
        description="Body edge to the blade's outer edge, gate open, in the file's units; one reading or several."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        say = partial(format_length, units=context.units)
        if self.open < self.shut + LEAST_TRAVEL_MM:
            found = f"{say(self.open)} open and {say(self.shut)} shut"
            hint = "shut and open are swapped" if self.open < self.shut else "measure it pulled open all the way"
            yield Fault(("open",), found, f"{say(self.shut + LEAST_TRAVEL_MM)} or more", hint)


class BodyKeys(Grammar):
    """The gate's housing."""

    example: ClassVar[str] = "{width: 150, thickness: 22}"
    filled: ClassVar[tuple[str, ...]] = ("far_end",)
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("depth", "height"), "write thickness: square to the blade"),
        **dict.fromkeys(("end", "back", "rear"), "write far_end: open or closed"),
    }
    width: Annotated[float, Readings(Length(30.0, 500.0), "greatest")] = Field(
        description="Of the body across the blade, at the edge where the blade comes out, in the file's units."
    )
    thickness: Annotated[float, Readings(Length(4.0, 100.0), "greatest")] = Field(
        description="Of the body square to the blade, at that edge, by caliper, in the file's units."
    )
    length: Annotated[float | None, Length(30.0, 900.0)] = Field(
        None, description="Of the body along the blade's way, in the file's units; not known if absent."
    )
    far_end: Annotated[
        Literal["open", "closed", "unknown"],
        Words(("open", "closed", "unknown"), (("yes", "open"), ("no", "closed"), ("shut", "closed"))),
    ] = Field("unknown", description="Whether the slot's far end is open, so that dust falls out; no unit.")
    far_end_room: Annotated[float, Length(0.0, 400.0)] = Field(
        0.0, description="How far the blade can be pushed beyond shut, in the file's units; 0 if absent: not known."
    )


class StubKeys(Grammar):
    """The round pipe stub on the body's faces."""

    example: ClassVar[str] = "{outside: 101.2, long: 40}"
    meant: ClassVar[Mapping[str, str]] = {"diameter": "write outside", "length": "write long"}
    outside: Annotated[float, Readings(Length(20.0, 350.0), "greatest")] = Field(
        description="Its outside diameter, by caliper, in the file's units."
    )
    long: Annotated[float, Length(3.0, 300.0)] = Field(
        description="How far it stands out of the body's face, in the file's units."
    )


class PortKeys(Grammar):
    """The opening that the blade shuts."""

    example: ClassVar[str] = "{diameter: 102, to_edge: 72}"
    filled: ClassVar[tuple[str, ...]] = ("to_edge",)
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("bore", "inside", "size", "opening"), "write diameter"),
        **dict.fromkeys(("from_edge", "center", "centre"), "write to_edge: its centre from the body's edge"),
    }
    diameter: Annotated[float, Readings(Length(20.0, 350.0))] = Field(
        description="Inside of the opening, in the file's units."
    )
    to_edge: Annotated[float | None, Length(10.0, 400.0)] = Field(
        None, description="From its centre to the body's edge, in the file's units; half the body's width if absent."
    )
    stub: StubKeys | None = Field(
        None, description="The pipe stub round it: a map, in the file's units; none, or not measured, if absent."
    )


class GateScrewsKeys(Grammar):
    """The two screws that go through the body nearest the edge where the blade comes out."""

    example: ClassVar[str] = "{across: 132, from_edge: 12, size: M5}"
    filled: ClassVar[tuple[str, ...]] = ("size",)
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("spacing", "apart", "width", "distance"), "write across: centre to centre"),
        **dict.fromkeys(("to_edge", "edge"), "write from_edge: hole centre to the body's edge"),
        **dict.fromkeys(("screw", "thread", "diameter"), "write size: M5"),
    }
    across: Annotated[float, Readings(Length(20.0, 480.0))] = Field(
        description="Centre to centre, across the blade, in the file's units."
    )
    from_edge: Annotated[float, Readings(Length(3.0, 150.0))] = Field(
        description="Hole centre to the edge where the blade comes out, in the file's units."
    )
    size: Annotated[str, MACHINE_SCREW] = Field(
        "M5", description="The screw that goes through, by its name (its unit is in it): M5, No. 10; M5 if absent."
    )


class GateClampKeys(Grammar):
    """The bracket grips the body's edges from above and below, squeezed by screws beside it; no hole is needed."""

    example: ClassVar[str] = "{size: M5}"
    filled: ClassVar[tuple[str, ...]] = ("size",)
    size: Annotated[str, MACHINE_SCREW] = Field(
        "M5", description="The screws that squeeze it, by their name (its unit is in it); M5 if absent."
    )


class SaddleKeys(Grammar):
    """The bracket sits on the pipe stub, held by a hose clamp."""

    example: ClassVar[str] = "{band: 12}"
    filled: ClassVar[tuple[str, ...]] = ("band",)
    band: Annotated[float, Length(5.0, 30.0)] = Field(
        12.0, description="Width of the hose clamp's band, in the file's units; 12 mm if absent."
    )


class ProudKeys(Grammar):
    """Something that stands proud of the body: a knob, a label plate, a screw's head. A box round it."""

    example: ClassVar[str] = "{label: knob, from_left: 20, from_edge: 40, across: 20, along: 20, high: 15}"
    label: Annotated[str, Text("a few words", 40)] = Field(
        description="What it is, in your words, for messages; no unit."
    )
    from_left: Annotated[float | None, Length(-200.0, 500.0, signed=True)] = Field(
        None, description="Body's left side to its near side, in the file's units; blade coming out away from you."
    )
    from_right: Annotated[float | None, Length(-200.0, 500.0, signed=True)] = Field(
        None, description="Body's right side to its near side, in the file's units; in the middle if both are absent."
    )
    from_edge: Annotated[float, Length(-100.0, 800.0, signed=True)] = Field(
        description="From the edge where the blade comes out, inwards to its near side, in the file's units."
    )
    across: Annotated[float, Length(0.5, 500.0)] = Field(description="Its size across the blade, in the file's units.")
    along: Annotated[float, Length(0.5, 800.0)] = Field(
        description="Its size along the blade's way, in the file's units."
    )
    high: Annotated[float, Length(0.5, 300.0)] = Field(
        description="How far it stands out of the body's face, in the file's units."
    )
    face: Annotated[
        Literal["up", "down"], Words(("up", "down"), (("top", "up"), ("upper", "up"), ("bottom", "down")))
    ] = Field("up", description="On which face, as the gate lies on the bench: up or down; no unit.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.from_left is not None and self.from_right is not None:
            yield Fault(("from_right",), "from_left and from_right together", "one of the two", "delete one", at="key")


class GateKeys(Grammar):
    """A manual slide gate, laid on the bench with the blade coming out away from you."""

    example: ClassVar[str] = "{sticks_out: {...}, blade: {...}, body: {...}, screws: {...}}"
    filled: ClassVar[tuple[str, ...]] = ("drag", "suction")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("travel", "stroke", "opening"), "write sticks_out: {shut: ..., open: ...}"),
        **dict.fromkeys(("slide", "plate", "shutter", "knife"), "write blade"),
        **dict.fromkeys(("housing", "case"), "write body"),
        **dict.fromkeys(("diameter", "bore", "hole"), "write port: {diameter: ...}, or blade: {hole: ...}"),
        **dict.fromkeys(("mount", "bolts", "holes"), "write screws, clamp or saddle"),
        **dict.fromkeys(("vacuum", "pressure"), "write suction; the air supply's pressure stands at the top"),
        **dict.fromkeys(("force", "pull"), "write drag"),
        **dict.fromkeys(_AT_THE_TOP, "this key stands at the top, beside gate"),
        **dict.fromkeys(("obstacles", "stands_proud", "keep_clear"), "write proud: a list"),
    }
    sticks_out: SticksOutKeys = Field(
        description="How far the blade stands out of the body, shut and open; a map, in the file's units."
    )
    blade: BladeKeys = Field(description="The sliding plate; a map, lengths in the file's units.")
    body: BodyKeys = Field(description="The housing; a map, lengths in the file's units.")
    port: PortKeys | None = Field(
        None,
        description="The opening that the blade shuts; a map, in the file's units; travel less two lips of 2 mm if "
        "absent.",
    )
    screws: GateScrewsKeys | None = Field(
        None, description="Two screws through the body; a map, in the file's units. Or clamp, or saddle."
    )
    clamp: GateClampKeys | None = Field(None, description="Grips the body's edges instead; a map, in the file's units.")
    saddle: SaddleKeys | None = Field(
        None, description="Sits on the port's pipe stub instead; a map, in the file's units."
    )
    proud: list[ProudKeys] = Field(
        [], description="What stands proud of the body: a list of maps, in the file's units.", max_length=20
    )
    drag: Annotated[float | None, Readings(Force(0.2, 1000.0, auto=True), "greatest")] = Field(
        None,
        description="What a spring balance shows at the blade, with its unit, one reading or several; from suction "
        "and friction if absent.",
    )
    suction: Annotated[float | None, Suction(0.0, 30000.0)] = Field(
        None, description="What the collector pulls with at the shut gate, with its unit; 10 inH2O if absent."
    )
    friction: Annotated[float | None, Number(0.05, 2.0)] = Field(
        None, description="Friction of the blade in its guides, a plain number; that of its material if absent."
    )
    dirt: Annotated[float | None, Number(1.0, 10.0)] = Field(
        None, description="How many times harder it goes when dirty, a plain number; 2 if absent."
    )

    def meant_mount(self) -> GateMount:
        """How the bracket holds on to it."""
        if self.screws is not None:
            one = self.screws
            made = GateScrews(across_mm=one.across, from_edge_mm=one.from_edge, size=one.size)
            return GateMount(kind="screws", screws=made, size=one.size)
        if self.clamp is not None:
            return GateMount(kind="clamp", size=self.clamp.size)
        assert self.saddle is not None
        return GateMount(kind="saddle", band_mm=self.saddle.band)

    def sense(self, context: Context) -> Iterator[Fault]:
        say = partial(format_length, units=context.units)
        yield from self._mount_sense()
        yield from self._body_sense(context)
        if self.blade.hole_to_edge is not None and self.blade.hole_to_edge >= self.sticks_out.shut > 0:
            found = f"a hole {say(self.blade.hole_to_edge)} from an edge that stands out {say(self.sticks_out.shut)}"
            allowed = f"less than {say(self.sticks_out.shut)}: the hole stands out of the body, shut"
            yield Fault(("blade", "hole_to_edge"), found, allowed, "hole's centre to the blade's outer edge")
        if self.port is not None:
            yield from self._port_sense(self.port, context)
        if self.drag is not None:
            for key in ("friction", "dirt"):
                if getattr(self, key) is not None:
                    hint = f"delete {key}: the spring balance has measured it"
                    yield Fault((key,), f"{key} beside drag", "one of the two", hint, at="key")

    def _mount_sense(self) -> Iterator[Fault]:
        given = [kind for kind in MOUNTS if getattr(self, kind) is not None]
        if not given:
            hint = f"how does the bracket hold the gate? such as screws: {GateScrewsKeys.example}"
            yield Fault(("screws",), "nothing", "one of screws, clamp, saddle", hint, at="key")
        for other in given[1:]:
            found = f"{given[0]} and {other} together"
            yield Fault((other,), found, "one of screws, clamp, saddle", "delete one", at="key")
        if self.saddle is not None and (self.port is None or self.port.stub is None):
            hint = "add port: {diameter: ..., stub: {outside: ..., long: ...}}: that is what the saddle sits on"
            yield Fault(("saddle",), "a saddle and no stub", "a saddle beside port: {stub: ...}", hint, at="key")

    def _port_sense(self, port: PortKeys, context: Context) -> Iterator[Fault]:
        """The blade covers the port, and the port lies in the body."""
        say, half = partial(format_length, units=context.units), port.diameter / 2
        if port.diameter >= self.blade.width:
            found = f"a port of {say(port.diameter)} behind a blade of {say(self.blade.width)}"
            allowed = f"less than the blade's width, {say(self.blade.width)}"
            yield Fault(("port", "diameter"), found, allowed, "the blade must cover its port")
        if port.to_edge is None:
            return
        at = f"a port of {say(port.diameter)} with its centre {say(port.to_edge)} from the body's edge"
        if port.to_edge < half:
            hint = "to_edge is to the port's centre: near side to the edge, and half the port"
            yield Fault(("port", "to_edge"), at, f"{say(half)} or more: the port lies in the body", hint)
        if self.body.length is not None and self.body.length < port.to_edge + half:
            found = f"a body {say(self.body.length)} long round {at}"
            yield Fault(("body", "length"), found, f"{say(port.to_edge + half)} or more, or a smaller port.to_edge")

    def _body_sense(self, context: Context) -> Iterator[Fault]:
        say, blade, body = partial(format_length, units=context.units), self.blade, self.body
        if blade.width > body.width:
            found = f"a body of {say(body.width)} round a blade of {say(blade.width)}"
            hint = "both are measured across the blade; are they swapped?"
            yield Fault(("body", "width"), found, f"{say(blade.width)} or more: the blade goes through it", hint)
        if blade.thickness >= body.thickness:
            found = f"a body of {say(body.thickness)} round a blade of {say(blade.thickness)}"
            yield Fault(("body", "thickness"), found, f"more than the blade's {say(blade.thickness)}")
        elif abs(blade.plane_mm(body.thickness)) + blade.thickness / 2 >= body.thickness / 2:
            room = (body.thickness - blade.thickness) / 2
            found = f"a blade whose middle lies {say(abs(blade.plane_mm(body.thickness)))} off the body's middle"
            allowed = f"less than {say(room)}: the blade lies inside the body"
            yield Fault(("blade", "plane"), found, allowed, "measure down from the body's upper face: {below_top: ...}")
        if self.screws is not None and self.screws.across >= body.width >= blade.width:
            found = f"screws {say(self.screws.across)} apart in a body {say(body.width)} wide"
            hint = "across is centre to centre; are they swapped?"
            yield Fault(("screws", "across"), found, f"less than the body's width, {say(body.width)}", hint)
