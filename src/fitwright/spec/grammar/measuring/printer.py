"""`measure: printer`: gauges that were printed and measured, from which a printer's profile is made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright import units as u
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, gather, under
from fitwright.spec.grammar.measured import MAX_READINGS
from fitwright.spec.grammar.measuring.base import MeasureKeys
from fitwright.spec.grammar.own_printers import DEFAULT_PRINTER, NAME_PATTERN, date_text
from fitwright.spec.grammar.parts import slug
from fitwright.spec.grammar.printer_settings import BedKeys
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.spec.nodes import Value

MAX_GAUGES = 200
OFF_REL, OFF_MM = 0.03, 1.0
"""A reading further from its modelled size than this is of something else (scale and offset allow no more)."""
_READING = Length(0.3, 2000.0)
_SIZE = Length(1.0, 1000.0)


def _name(text: str) -> str:
    if NAME_PATTERN.fullmatch(text):
        return text
    allowed = "letters, digits, - and _: it becomes the name of a file"
    meant = slug(text)
    raise FaultError([Fault((), shown(text), allowed, f"did you mean {meant}?" if meant else "")])


def read_readings(value: object, context: Context) -> tuple[float, ...]:
    """One reading, or a list of them [mm]."""
    if not isinstance(value, list):
        return (_reading(value, context),)
    if not 1 <= len(value) <= MAX_READINGS:
        raise FaultError([Fault((), shown(value), f"1 to {MAX_READINGS} readings")])
    return tuple(gather([under((k,), partial(_reading, one, context)) for k, one in enumerate(value)]))


def _reading(value: object, context: Context) -> float:
    number = _READING.read(value, context)
    assert number is not None
    return number


Readings = Annotated[
    tuple[float, ...], Forms(read_readings, Annotated[float, _READING] | list[Annotated[float, _READING]])
]


def _as_read(reading_mm: float, context: Context) -> str:
    """A reading to the last digit of a caliper or micrometer, so that who typed it knows it again."""
    per = u.MM_PER_INCH if context.units == "in" else 1.0
    return f"{u.format_number(reading_mm / per, 4)} {context.units}"


class GaugeKeys(Grammar):
    """One hole or outside of a printed gauge: its modelled size and what the caliper says of it."""

    example: ClassVar[str] = "{hole: 40, read: [39.58, 39.60, 39.57]}"
    meant: ClassVar[Mapping[str, str]] = {
        "inside": "write hole",
        "bore": "write hole",
        "outer": "write outside",
        "readings": "write read",
    }
    hole: Annotated[float | None, _SIZE] = Field(
        None, description="Modelled diameter or width of the hole, in the file's units."
    )
    outside: Annotated[float | None, _SIZE] = Field(
        None, description="Modelled diameter or width of the outside, in the file's units."
    )
    readings: Readings | None = Field(
        None, alias="read", description="What it measures, one reading or several round it, in the file's units."
    )
    x: Readings | None = Field(None, description="What it measures along the printer's x, in the file's units.")
    y: Readings | None = Field(None, description="What it measures along the printer's y, in the file's units.")

    @property
    def kind(self) -> Literal["hole", "outside"]:
        """Which of the two it is."""
        return "outside" if self.hole is None else "hole"

    @property
    def size_mm(self) -> float:
        """Its modelled size [mm]."""
        return (self.outside if self.hole is None else self.hole) or 0.0

    @property
    def read_along(self) -> dict[str, tuple[float, ...]]:
        """The readings [mm] by their key: read, or x and y."""
        named = {"read": self.readings, "x": self.x, "y": self.y}
        return {key: one for key, one in named.items() if one is not None}

    def sense(self, context: Context) -> Iterator[Fault]:
        keys = set(self.read_along)
        if (self.hole is None) == (self.outside is None):
            found = "neither hole nor outside" if self.hole is None else "hole and outside in one gauge"
            yield Fault((), found, "one of the two; a ring that was read on both is two gauges")
        elif keys not in ({"read"}, {"x", "y"}):
            found = " and ".join(sorted(keys)) or "no readings"
            yield Fault((), found, "read, or x and y", "x and y are read along the printer's own axes")
        else:
            yield from (fault for key, one in self.read_along.items() for fault in self._strange(key, one, context))

    def _strange(self, key: str, readings: Sequence[float], context: Context) -> Iterator[Fault]:
        """Readings that cannot be of this size: the wrong face, the wrong unit, a typing slip."""
        most = OFF_REL * self.size_mm + OFF_MM
        for k, one in enumerate(readings):
            if abs(one - self.size_mm) > most:
                low, high = (u.format_length(self.size_mm + s * most, context.units, fraction=False) for s in (-1, 1))
                found = _as_read(one, context)
                path = (key, k) if len(readings) > 1 else (key,)
                yield Fault(path, found, f"{low} to {high} on {self._called(context)}", self._hint(one, most))

    def _called(self, context: Context) -> str:
        article = "an" if self.kind == "outside" else "a"
        return f"{article} {self.kind} of {u.format_length(self.size_mm, context.units, fraction=False)}"

    def _hint(self, reading: float, most: float) -> str:
        for factor, words in ((u.MM_PER_INCH, "inches"), (1 / u.MM_PER_INCH, "mm")):
            if abs(reading * factor - self.size_mm) <= most:
                return f"is the reading in {words}? write its unit"
        if (reading > self.size_mm) == (self.kind == "hole"):
            other = "outside" if self.kind == "hole" else "hole"
            return f"is it the {other} of the ring? write that with its own modelled size"
        return "a typing slip?"


class PrinterReadingKeys(MeasureKeys, BedKeys):
    """Gauges of one printer in one filament."""

    example: ClassVar[str] = "{measure: printer, name: birch_lane_220, material: PETG, gauges: [...]}"
    measure: Annotated[Literal["printer"], Words(("printer",))] = Field(description="The kind: printer; no unit.")
    name: Annotated[str, Text("a name", 40, _name, number=True)] = Field(
        description="Name of the profile that is written; parts say `printer: NAME`; no unit."
    )
    like: Annotated[str, Text("a name", 40, number=True)] = Field(
        DEFAULT_PRINTER,
        description="The printer to start from, of the tables or of your own: bed, nozzle, what was not measured; "
        "no unit.",
    )
    material: Annotated[str, Text("a filament", 40, number=True)] = Field(
        description="The filament that the gauges are printed in: each shrinks in its own way; no unit."
    )
    measured: Annotated[str | None, Text("a day", 20, date_text)] = Field(
        None, description="The day of the measuring, today if absent; no unit."
    )
    gauges: Annotated[list[GaugeKeys], Field(min_length=1, max_length=MAX_GAUGES)] = Field(
        description="The gauges, each a map; lengths in the file's units."
    )

    @classmethod
    def from_words(cls, words: Sequence[str]) -> dict[str, Value]:
        """Gauges are a list of maps: that wants a file."""
        allowed = "a YAML file, such as: fitwright measure readings.yaml"
        raise FaultError([Fault(("gauges",), shown(" ".join(words)) if words else "nothing", allowed)])
