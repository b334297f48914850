"""A gate bracket as the YAML says it: gate, cylinder, and how one is to move the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.gate import GateKeys
from fitwright.spec.grammar.gate_cylinder import CylinderValue
from fitwright.spec.grammar.gate_values import ROD_SIZE, AirPressure, Seconds
from fitwright.spec.grammar.parts import PartKeys
from fitwright.spec.grammar.values import YES_NO, Context, Length, Number, Text, Words, YesNo

GUIDE_MM = 10.0
"""A second guide rod of 10 mm is sold ground and straight (common practice, no source)."""


class GuideKeys(Grammar):
    """A second rod that guides, beside the cylinder's."""

    example: ClassVar[str] = "{diameter: 10}"
    diameter: Annotated[float, Length(4.0, 30.0)] = Field(description="Of the guide rod, in the file's units.")


class BoardKeys(Grammar):
    """The bought board that carries gate foot and nose foot."""

    example: ClassVar[str] = "{thickness: 18, material: plywood}"
    filled: ClassVar[tuple[str, ...]] = ("thickness", "material")
    thickness: Annotated[float, Length(4.0, 60.0)] = Field(
        18.0, description="Of the board, in the file's units; 18 mm if absent."
    )
    material: Annotated[str, Text("a few words", 30)] = Field(
        "plywood", description="What it is made of, in your words; no unit."
    )


class SupportKeys(Grammar):
    """A surface on which a second support under the cylinder may stand."""

    example: ClassVar[str] = "{down: 60}"
    meant: ClassVar[Mapping[str, str]] = {"below": "write down", "distance": "write down"}
    down: Annotated[float, Length(5.0, 500.0)] = Field(
        description="From the middle of the blade down to that surface, in the file's units."
    )


def read_guide(value: object, context: Context) -> float | None:
    """`yes`, `no` or a map; the rod's diameter [mm]."""
    if isinstance(value, dict):
        return GuideKeys.read(value, context).diameter
    word = value.strip().casefold() if isinstance(value, str) else ""
    if word not in YES_NO:
        raise FaultError([Fault((), shown(value), f"yes, no, or a map such as {GuideKeys.example}")])
    return GUIDE_MM if YES_NO[word] else None


GuideValue = Annotated[float | None, Forms(read_guide, Annotated[bool, YesNo()] | GuideKeys, "`yes`, `no` or a map")]
_HOLDS = (
    ("thread", "nose"),
    ("nut", "nose"),
    ("square", "front_square"),
    ("screws", "front_square"),
    ("body", "clamp"),
)
_FRAMES = (("u", "one_piece"), ("one piece", "one_piece"), ("printed", "one_piece"), ("rod", "rods"), ("bar", "board"))
_LAYOUTS = (("inline", "in_line"), ("in line", "in_line"), ("beside", "alongside"), ("parallel", "alongside"))
_MOUNTED = (("up", "blade_up"), ("down", "blade_down"), ("vertical", "blade_up"), ("horizontal", "sideways"))
_GUARD = (("true", "yes"), ("on", "yes"), ("false", "no"), ("off", "no"))
_STOPS = (("spacer", "sleeve"), ("overshut", "over_shut"), ("overopen", "over_open"), ("no", "none"))


class GateBracketKeys(PartKeys):
    """An air cylinder on a manual slide gate."""

    example: ClassVar[str] = "{part: gate_bracket, gate: {...}, cylinder: ISO 6432 16 x 125}"
    filled: ClassVar[tuple[str, ...]] = (
        *PartKeys.filled,
        *("pressure", "margin", "hold", "stop", "setting", "frame", "layout", "mounted", "guard", "rods"),
    )
    meant: ClassVar[Mapping[str, str]] = {
        **PartKeys.meant,
        **dict.fromkeys(("actuator", "ram", "piston", "air_cylinder"), "write cylinder"),
        **dict.fromkeys(("valve", "blast_gate", "slide_gate", "damper"), "write gate"),
        **dict.fromkeys(("stroke", "travel"), "write gate: {sticks_out: {shut: ..., open: ...}}"),
        **dict.fromkeys(("sticks_out", "blade", "body", "screws", "port"), "this key stands under gate"),
        **dict.fromkeys(("bore", "rod_stub", "nose", "ports", "spring", "code"), "this key stands under cylinder"),
        **dict.fromkeys(("air", "air_pressure", "supply"), "write pressure: 6 bar"),
        **dict.fromkeys(("safety", "factor", "reserve"), "write margin"),
        **dict.fromkeys(("mount", "fixing", "holds"), "write hold: nose, front_square or clamp"),
        **dict.fromkeys(("limit", "end_stop", "sleeve"), "write stop"),
        **dict.fromkeys(("adjust", "adjustment"), "write setting"),
        **dict.fromkeys(("orientation", "direction", "gravity"), "write mounted"),
        **dict.fromkeys(("position", "arrangement"), "write layout"),
        **dict.fromkeys(("guide", "guide_rod"), "write second_guide"),
        **dict.fromkeys(("cover", "shield"), "write guard"),
        **dict.fromkeys(("rod", "threaded_rods"), "write rods: M8"),
        **dict.fromkeys(("time", "speed"), "write closing_time: 2 s"),
        "bracket": "the bracket's keys (frame, hold, stop ...) stand at the top",
    }
    part: Annotated[Literal["gate_bracket"], Words(("gate_bracket",))] = Field(
        description="The family: gate_bracket; no unit."
    )
    gate: GateKeys = Field(description="The manual slide gate as you measured it; a map, lengths in the file's units.")
    cylinder: CylinderValue = Field(
        description="The air cylinder: its name in the tables (mm are in it), or a map of readings in the file's units."
    )
    pressure: Annotated[float, AirPressure(0.1, 1.2)] = Field(
        0.6, description="The air supply, with its unit (6 bar, 87 psi); 6 bar if absent."
    )
    margin: Annotated[float, Number(1.0, 10.0)] = Field(
        2.0, description="Thrust over drag that is asked for, a plain number; 2 if absent."
    )
    hold: Annotated[
        Literal["auto", "nose", "front_square", "clamp"], Words(("auto", "nose", "front_square", "clamp"), _HOLDS)
    ] = Field("auto", description="What holds the cylinder: its nose thread, its front's screws, or a clamp; no unit.")
    stop: Annotated[
        Literal["auto", "sleeve", "over_shut", "over_open", "none"],
        Words(("auto", "sleeve", "over_shut", "over_open", "none"), _STOPS),
    ] = Field("auto", description="What takes up a stroke that is longer than the travel; no unit.")
    setting: Annotated[float, Length(0.0, 20.0)] = Field(
        5.0, description="How far it can be set either way, in the file's units; 5 mm if absent."
    )
    frame: Annotated[
        Literal["auto", "one_piece", "rods", "board"], Words(("auto", "one_piece", "rods", "board"), _FRAMES)
    ] = Field("auto", description="What joins gate and cylinder: one print, threaded rods, or a board; no unit.")
    layout: Annotated[Literal["in_line", "alongside"], Words(("in_line", "alongside"), _LAYOUTS)] = Field(
        "in_line", description="The cylinder in line with the blade, or beside the gate; no unit."
    )
    second_guide: GuideValue = Field(
        None, description="A second guide rod, alongside only: yes, no, or its diameter in the file's units."
    )
    mounted: Annotated[
        Literal["any", "blade_up", "blade_down", "sideways"],
        Words(("any", "blade_up", "blade_down", "sideways"), _MOUNTED),
    ] = Field("any", description="Which way the blade comes out as the gate is mounted; no unit.")
    guard: Annotated[Literal["auto", "yes", "no"], Words(("auto", "yes", "no"), _GUARD)] = Field(
        "auto", description="A printed guard over gaps that pinch; no unit. auto: where there are such gaps."
    )
    rods: Annotated[str | None, ROD_SIZE] = Field(
        None, description="The threaded rods by their name (the unit is in it): M8, M10; as stiff as needed if absent."
    )
    board: BoardKeys | None = Field(
        None, description="The board of frame: board; a map, in the file's units; 18 mm plywood if absent."
    )
    support: SupportKeys | None = Field(
        None, description="What a second support may stand on: a map, in the file's units; nothing if absent."
    )
    tape: Annotated[float, Length(0.1, 3.0)] = Field(
        0.5, description="How well your tape reading is known, either way, in the file's units; 0.5 mm if absent."
    )
    closing_time: Annotated[float | None, Seconds(0.1, 60.0)] = Field(
        None, description="How long closing is to take, with its unit: 2 s; slow, to be set, if absent."
    )

    @property
    def made_hold(self) -> Literal["nose", "front_square", "clamp"]:
        """As asked, or what the cylinder has."""
        if self.hold != "auto":
            return self.hold
        cylinder = self.cylinder.cylinder
        if cylinder.nose_thread is not None:
            return "nose"
        return "front_square" if cylinder.square_mm is not None else "clamp"

    def sense(self, context: Context) -> Iterator[Fault]:
        cylinder = self.cylinder.cylinder
        if self.hold == "nose" and cylinder.nose_thread is None:
            yield _no_hold("nose", f"{cylinder.name}, which has no nose thread", cylinder.square_mm is not None)
        if self.hold == "front_square" and cylinder.square_mm is None:
            found = f"{cylinder.name}, of which no screws in the front are known"
            yield _no_hold("front_square", found, cylinder.nose_thread is not None)
        if self.second_guide is not None and self.layout == "in_line":
            hint = "in line the rod pulls in the blade's own axis; delete it, or write layout: alongside"
            yield Fault(("second_guide",), "a second guide in line", "layout: alongside beside it", hint, at="key")
        for key, frames in (("rods", ("auto", "rods")), ("board", ("board",))):
            if getattr(self, key) is not None and self.frame not in frames:
                found = f"{key} beside frame: {self.frame}"
                yield Fault((key,), found, f"frame: {key}", f"delete {key}, or write frame: {key}", at="key")
        if self.layout == "alongside" and self.frame != "auto":
            hint = "a cylinder alongside has a frame of its own: delete frame"
            yield Fault(("frame",), f"frame: {self.frame} alongside", "auto", hint)

    def open_keys(self) -> tuple[str, ...]:
        """Rods are filled in only where there may be any."""
        left = super().open_keys()
        return tuple(key for key in left if key != "rods" or self.frame in ("auto", "rods"))


def _no_hold(asked: str, found: str, other: bool) -> Fault:
    has = {"nose": "front_square", "front_square": "nose"}[asked]
    allowed = f"{has} | clamp" if other else "clamp"
    key = "nose: {thread: ..., length: ...}" if asked == "nose" else "square: {apart: ..., screw: ..., deep: ...}"
    return Fault(("hold",), f"{asked} on {found}", allowed, f"or add its readings: cylinder: {{{key}}}")
