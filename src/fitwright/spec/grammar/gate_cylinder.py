"""An air cylinder as the YAML says it: a name of the tables, a name with readings beside it, or readings alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data.cylinders import CylinderRow
from fitwright.data.nuts import nut
from fitwright.errors import DataError
from fitwright.spec.cylinder_of import CylinderRead, from_readings, from_table, table_row
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.gate import Cylinder, Spring
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.gate_values import MACHINE_SCREW, THREAD, Force, Mass, Readings
from fitwright.spec.grammar.measured import Tolerance
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.units import Units, format_force, format_length

NAMED = "a cylinder of the tables by standard, bore x stroke, such as ISO 6432 16 x 125 or ISO 15552 32 x 125"
MEMORY_ALONE = "ISO 21287"
"""No row of this standard was read anywhere: none is taken without readings."""
LEAST_ENDS_MM = 8.0
"""A cylinder's body is at least so much longer than its stroke: piston and covers (common practice, no source)."""
ALONE = ("bore", "stroke", "rod", "rod_thread", "rod_thread_length", "rod_stub", "body", "length")
"""What must be read where no table is named."""


class NoseNutKeys(Grammar):
    """The nut of the nose thread."""

    example: ClassVar[str] = "{across_flats: 24, height: 8}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("flats", "af", "width", "spanner"), "write across_flats"),
        **dict.fromkeys(("thickness", "m"), "write height"),
    }
    across_flats: Annotated[float, Readings(Length(5.0, 90.0), "greatest")] = Field(
        description="Across its flats, by caliper, in the file's units."
    )
    height: Annotated[float, Readings(Length(2.0, 40.0), "greatest")] = Field(
        description="How high it is, by caliper, in the file's units."
    )


class NoseKeys(Grammar):
    """The threaded nose round the rod."""

    example: ClassVar[str] = "{thread: M16 x 1.5, length: 18}"
    thread: Annotated[str, THREAD] = Field(description="Its thread by name (the unit is in it): M16 x 1.5, 5/8-18 UNF.")
    length: Annotated[float, Readings(Length(3.0, 80.0))] = Field(
        description="How far it stands out of the face that the bracket lies against, in the file's units."
    )
    nut: NoseNutKeys | None = Field(
        None, description="Its nut, a map, in the file's units; from the tables for a nose of ISO 6432 if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.nut is None:
            try:
                nut(self.thread, "nose")
            except DataError:
                hint = f"measure the nut that came with it: nut: {NoseNutKeys.example}"
                yield Fault(("nut",), "nothing", f"the nut's sizes: no table has one for {self.thread}", hint, at="key")


class BossKeys(Grammar):
    """The plain round boss round the rod, on a front cover without a nose thread."""

    example: ClassVar[str] = "{diameter: 30, length: 4}"
    diameter: Annotated[float, Readings(Length(8.0, 120.0), "greatest")] = Field(
        description="Its outside, by caliper, in the file's units."
    )
    length: Annotated[float, Readings(Length(0.0, 60.0))] = Field(
        description="How far it stands out of the front cover, in the file's units."
    )


class SquareKeys(Grammar):
    """The four screw holes of the front cover."""

    example: ClassVar[str] = "{apart: 32.5, screw: M6, deep: 16}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("spacing", "pitch", "across", "width"), "write apart: centre to centre along a side"),
        **dict.fromkeys(("size", "thread"), "write screw"),
        "depth": "write deep",
    }
    apart: Annotated[float, Readings(Length(10.0, 200.0))] = Field(
        description="Centre to centre along one side of the square, in the file's units."
    )
    screw: Annotated[str, MACHINE_SCREW] = Field(
        description="The screw that goes in, by its name (its unit is in it): M6."
    )
    deep: Annotated[float, Length(4.0, 60.0)] = Field(description="How deep their thread is, in the file's units.")


class CylinderBodyKeys(Grammar):
    """The cylinder's body: round or square."""

    example: ClassVar[str] = "{round: 18}"
    meant: ClassVar[Mapping[str, str]] = {"diameter": "write round", "width": "write square"}
    round: Annotated[float | None, Readings(Length(6.0, 200.0), "greatest")] = Field(
        None, description="Outside of a round body, at its thickest, in the file's units."
    )
    square: Annotated[float | None, Readings(Length(8.0, 200.0), "greatest")] = Field(
        None, description="Across a square or profiled body, at its thickest, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if (self.round is None) == (self.square is None):
            found = "round and square together" if self.round is not None else "an empty map"
            yield Fault((), found, "round or square")


class SpringKeys(Grammar):
    """The spring of a single-acting cylinder."""

    example: ClassVar[str] = "{drives: in, least: 8 N, greatest: 20 N}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("direction", "pushes", "way"), "write drives: in or out"),
        **dict.fromkeys(("min", "minimum", "weakest"), "write least"),
        **dict.fromkeys(("max", "maximum", "strongest"), "write greatest"),
    }
    drives: Annotated[
        Literal["in", "out"], Words(("in", "out"), (("retract", "in"), ("extend", "out"), ("back", "in")))
    ] = Field(description="Which way the spring drives the rod without air: in or out; no unit.")
    least: Annotated[float, Readings(Force(0.5, 2000.0))] = Field(
        description="Its force at its weakest, with its unit; by a spring balance on the rod, or as the catalogue says."
    )
    greatest: Annotated[float, Readings(Force(0.5, 4000.0))] = Field(
        description="Its force at its strongest, with its unit."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.greatest < self.least:
            found = format_force(self.greatest, context.units)
            yield Fault(("greatest",), found, f"the least, {format_force(self.least, context.units)}, or more")

    def meant_as(self) -> Spring:
        """The spring."""
        return Spring(drives=self.drives, least_n=self.least, greatest_n=self.greatest)


class CylinderKeys(Grammar):
    """An air cylinder: `code` names a row of the tables, and what stands beside it was read on yours."""

    example: ClassVar[str] = "{code: ISO 6432 16 x 125, rod_stub: 21.6}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("name", "type", "model", "standard"), "write code: ISO 6432 16 x 125"),
        **dict.fromkeys(("diameter", "piston"), "write bore"),
        **dict.fromkeys(("travel", "throw"), "write stroke"),
        **dict.fromkeys(("thread", "rod_end"), "write rod_thread for the rod's, nose: {thread: ...} for the nose's"),
        **dict.fromkeys(("wf", "wh", "WF", "WH", "stub"), "write rod_stub: mounting face to the rod's shoulder"),
        **dict.fromkeys(("flats", "wrench"), "write rod_flats"),
        **dict.fromkeys(("front", "screws", "holes"), "write square: {apart: ..., screw: ..., deep: ...}"),
        **dict.fromkeys(("weight",), "write mass"),
        **dict.fromkeys(("single_acting", "return"), "write spring: {drives: in, least: 8 N, greatest: 20 N}"),
        **dict.fromkeys(("ports_face", "ports_up", "air"), "write ports: up, down, left or right"),
        **dict.fromkeys(("hold", "pressure", "stop", "frame", "layout", "mounted"), "this key stands at the top"),
        **dict.fromkeys(("round", "barrel"), "write body: {round: ...}"),
    }
    code: Annotated[str | None, Text("a cylinder of the tables", 80)] = Field(
        None, description="Its name in the tables, such as ISO 6432 16 x 125; mm are in it. Readings alone if absent."
    )
    bore: Annotated[float | None, Length(4.0, 130.0)] = Field(
        None, description="Its bore, as written on it, in the file's units."
    )
    stroke: Annotated[float | None, Readings(Length(5.0, 1000.0))] = Field(
        None, description="How far the rod comes out, read rod in and rod out, in the file's units."
    )
    stroke_tolerance: Annotated[tuple[float, float] | None, Tolerance()] = Field(
        None, description="How much the stroke may differ, in the file's units: 0.3 either way, or +1.5/0."
    )
    rod: Annotated[float | None, Readings(Length(2.0, 40.0))] = Field(
        None, description="Diameter of the rod, by caliper, in the file's units."
    )
    rod_thread: Annotated[str | None, THREAD] = Field(
        None, description="Thread of the rod's end by name (the unit is in it): M6 x 1, 1/4-28 UNF."
    )
    rod_thread_length: Annotated[float | None, Readings(Length(4.0, 100.0))] = Field(
        None, description="From the rod's shoulder to its tip, in the file's units."
    )
    rod_flats: Annotated[float | None, Readings(Length(2.5, 36.0))] = Field(
        None, description="Across the flats for a spanner on the rod, in the file's units; none if absent."
    )
    rod_stub: Annotated[float | None, Readings(Length(2.0, 150.0))] = Field(
        None, description="From the mounting face to the rod's shoulder, rod in, in the file's units."
    )
    nose: NoseKeys | None = Field(
        None, description="Its threaded nose, a map, in the file's units; none if absent and no code is given."
    )
    boss: BossKeys | None = Field(None, description="A plain boss instead, a map, in the file's units.")
    square: SquareKeys | None = Field(
        None, description="The four screw holes of the front cover, a map, in the file's units."
    )
    body: CylinderBodyKeys | None = Field(
        None, description="The body: a map with round or square, in the file's units."
    )
    length: Annotated[float | None, Readings(Length(20.0, 1500.0))] = Field(
        None, description="From the mounting face to the rear end, in the file's units."
    )
    port: Annotated[str | None, THREAD] = Field(
        None, description="Thread of the air ports by name (the unit is in it): M5, G 1/8, 1/8-27 NPT."
    )
    ports: Annotated[
        Literal["up", "down", "left", "right"],
        Words(("up", "down", "left", "right"), (("top", "up"), ("bottom", "down"))),
    ] = Field(
        "up",
        description="Where the air ports look: up, down, left or right; no unit; in a clamp left if absent.",
    )
    mass: Annotated[float | None, Mass(0.01, 30.0)] = Field(
        None, description="Its mass, with its unit: 0.15 kg or 5 oz; that of a like one if absent."
    )
    spring: SpringKeys | None = Field(
        None, description="The spring of a single-acting one, a map, forces with their unit; double-acting if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        row, stroke = None, self.stroke
        if self.code is None:
            yield from self._alone()
        else:
            try:
                row, said = table_row(self.code)
            except FaultError as error:
                yield from (fault.under("code") for fault in error.faults)
                return
            stroke = said if stroke is None else stroke
        faults = tuple(self._against_itself(row, stroke, context))
        yield from faults
        if row is not None and row.standard == MEMORY_ALONE and not faults:
            made = self.cylinder(context.units).cylinder
            if made.remembered:
                yield _to_be_read(made, ("code",))

    def _alone(self) -> Iterator[Fault]:
        for key in ALONE:
            if getattr(self, key) is None:
                hint = f"add `{key}:`, or `code:` with its name in the tables"
                yield Fault((key,), "nothing", self._says(key), hint, at="key")

    def _against_itself(self, row: CylinderRow | None, stroke: float | None, context: Context) -> Iterator[Fault]:
        """Readings against each other, and against the table's value where only one of the two was read."""
        say = partial(format_length, units=context.units)
        bore = self.bore or (row.bore_mm if row else None)
        rod = self.rod or (row.rod_mm if row else None)
        if rod is not None and bore is not None and rod >= bore:
            key, found = ("bore", say(bore)) if self.rod is None else ("rod", say(rod))
            allowed = f"more than the rod, {say(rod)}" if key == "bore" else f"less than the bore, {say(bore)}"
            yield Fault((key,), found, allowed)
        if self.length is not None and stroke is not None and self.length < stroke + LEAST_ENDS_MM:
            allowed = f"more than the stroke, {say(stroke)}, and {say(LEAST_ENDS_MM)} for piston and covers"
            yield Fault(("length",), say(self.length), allowed, "from the mounting face to the rear end, rod in")
        if self.nose is not None and self.boss is not None:
            yield Fault(("boss",), "nose and boss together", "one of the two", "a nose has a thread", at="key")
        else:
            yield from self._shoulder_seen(row, context)

    def _shoulder_seen(self, row: CylinderRow | None, context: Context) -> Iterator[Fault]:
        """The rod's shoulder stands out of the nose or boss, rod in."""
        say = partial(format_length, units=context.units)
        end = self.nose or self.boss
        key = "boss" if self.boss or (row and row.nose_thread is None and not self.nose) else "nose"
        long = end.length if end else (row.nose_len_mm if row else None)
        stub = self.rod_stub or (row.rod_stub_mm if row else None)
        if long is None or stub is None or long <= stub:
            return
        found = f"a {key} of {say(long)} that hides the rod's shoulder at {say(stub)}"
        if end is not None:
            yield Fault((key, "length"), found, f"at most {say(stub)}", "both from the mounting face")
        else:
            hint = f"both from the mounting face; or add {key}: its length as you read it"
            yield Fault(("rod_stub",), found, f"{say(long)} or more", hint)

    def cylinder(self, units: Units = "mm") -> CylinderRead:
        """What is meant, its name in `units`; FaultError where no table has it."""
        values = self._values()
        if self.code is None:
            return from_readings(values, units)
        return from_table(self.code, values)

    def _values(self) -> dict[str, object]:
        """The readings by the names of `spec.gate.Cylinder`; `long_mm` is the whole length."""
        nose, boss, square, body = self.nose, self.boss, self.square, self.body
        tolerance = self.stroke_tolerance or (None, None)
        end = nose or boss
        found: dict[str, object] = {
            "bore_mm": self.bore,
            "stroke_mm": self.stroke,
            "stroke_low_mm": tolerance[0],
            "stroke_high_mm": tolerance[1],
            "rod_mm": self.rod,
            "rod_thread": self.rod_thread,
            "rod_thread_long_mm": self.rod_thread_length,
            "rod_flats_mm": self.rod_flats,
            "rod_stub_mm": self.rod_stub,
            "nose_mm": end.length if end else None,
            "nose_thread": nose.thread if nose else None,
            "nose_nut_af_mm": nose.nut.across_flats if nose and nose.nut else None,
            "nose_nut_m_mm": nose.nut.height if nose and nose.nut else None,
            "boss_d_mm": boss.diameter if boss else None,
            "square_mm": square.apart if square else None,
            "square_screw": square.screw if square else None,
            "square_deep_mm": square.deep if square else None,
            "body_round_mm": body.round if body else None,
            "body_square_mm": body.square if body else None,
            "long_mm": self.length,
            "port": self.port,
            "ports_face": self.ports,
            "ports_said": "ports" in self.model_fields_set or None,
            "mass_kg": self.mass,
            "spring": self.spring.meant_as() if self.spring else None,
        }
        return {key: value for key, value in found.items() if value is not None}


def _to_be_read(made: Cylinder, path: tuple[str, ...] = ()) -> Fault:
    keys = made.remembered_keys
    top = dict.fromkeys(key.partition(".")[0] for key in keys)
    hint = f"measure yours: cylinder: {{code: {made.name}, {', '.join(f'{key}: ...' for key in top)}}}"
    found = f"{made.standard}, of which our table is only remembered"
    return Fault(path, found, f"readings of {', '.join(keys)} beside the code", hint)


def read_cylinder(value: object, context: Context) -> CylinderRead:
    """A name of the tables, or a map."""
    if isinstance(value, dict):
        return CylinderKeys.read(value, context).cylinder(context.units)
    if not isinstance(value, str):
        raise FaultError([Fault((), shown(value), f"{NAMED}, or a map such as {CylinderKeys.example}")])
    read = from_table(value, {})
    if read.cylinder.standard == MEMORY_ALONE:
        raise FaultError([_to_be_read(read.cylinder)])
    return read


_Name = Annotated[str, Text("a cylinder of the tables")]
CylinderValue = Annotated[CylinderRead, Forms(read_cylinder, _Name | CylinderKeys, "a cylinder's name, or a map")]
