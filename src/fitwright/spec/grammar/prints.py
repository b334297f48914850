"""The log of prints (`prints.yaml` beside the parts), and what `fitwright log` is told on the command line."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from fitwright.measure.log import WENT, Went
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.units import MM_PER_INCH, format_length

OFF_REL = 0.05
"""A print that misses what was wanted by more than this share of it is a slip of the caliper or the keys."""
FITS = ("slide", "snug", "press", "glue", "stretch", "taper", "hose")
LogFit = Literal["slide", "snug", "press", "glue", "stretch", "taper", "hose"]
LogJoint = Literal["socket", "spigot", "hose_tail"]
_SLIPS = (
    *(("slack", "loose"), ("slides", "loose"), ("wobbles", "loose"), ("big", "loose"), ("small", "tight")),
    *(("good", "right"), ("ok", "right"), ("fine", "right"), ("well", "right"), ("fits", "right")),
    *(("stuck", "tight"), ("stiff", "tight"), ("cracked", "split"), ("broke", "split"), ("burst", "split")),
)
_SIZE, _NEAR = Length(5.0, 400.0), Length(-20.0, 20.0, signed=True)
_NAME = Text("a name", 80, number=True)


def _iso_date(text: str) -> str:
    try:
        found = datetime.date.fromisoformat(text)
    except ValueError:
        raise FaultError([Fault((), shown(text), "a day of the calendar as year-month-day: 2026-11-25")]) from None
    if not 2000 <= found.year <= 2100:
        raise FaultError([Fault((), shown(text), "a year from 2000 to 2100")])
    return found.isoformat()


class _Day(Text):
    """A day; other readers of YAML make a date of it, which is no text to them."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"format": "date"}


DATE = _Day("a day as year-month-day: 2026-11-25", 10, _iso_date)
NOTE = Text("one line of text", 300, number=True)
WENT_WORDS = Words(WENT, _SLIPS)


class PrintKeys(Grammar):
    """One print of one end."""

    example: ClassVar[str] = "{date: 2026-11-25, part: saw, end: end_a, ..., went: tight}"
    date: Annotated[str, DATE] = Field(description="The day, year-month-day; no unit.")
    part: Annotated[str, _NAME] = Field(description="The part's name; no unit.")
    end: Annotated[Literal["end_a", "end_b"], Words(("end_a", "end_b"))] = Field(description="Which end; no unit.")
    printer: Annotated[str, _NAME] = Field(description="The printer's name; no unit.")
    material: Annotated[str, _NAME] = Field(description="The material's name; no unit.")
    joint: Annotated[LogJoint, Words(("socket", "spigot", "hose_tail"))] = Field(description="The joint; no unit.")
    fit: Annotated[LogFit, Words(FITS)] = Field(description="The fit, `taper` where a taper makes it; no unit.")
    bought: Annotated[float, _SIZE] = Field(description="What the bought part measures there, in mm or with its unit.")
    wanted: Annotated[float, _SIZE] = Field(description="What the print was to measure, in mm or with its unit.")
    modelled: Annotated[float, _SIZE] = Field(description="What was modelled, in mm or with its unit.")
    eased: Annotated[float | None, _NEAR] = Field(
        None, description="How much looser than usual a taper or soft cuff was made, in mm or with its unit."
    )
    across: Annotated[float | None, Length(5.0, 800.0)] = Field(
        None, description="The longer side of what is not round, in mm or with its unit."
    )
    oval: Annotated[float | None, Length(0.0, 20.0)] = Field(
        None, description="How far the bought part's readings differ round it, in mm or with its unit."
    )
    readings: list[Annotated[float, _SIZE]] | None = Field(
        None, min_length=1, max_length=20, description="Caliper readings of the print, in mm or with their unit."
    )
    went: Annotated[Went | None, WENT_WORDS] = Field(None, description="loose, right, tight or split; no unit.")
    note: Annotated[str | None, NOTE] = Field(None, description="A remark; no unit.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if not self.readings and self.went is None:
            yield Fault((), "neither readings nor went", "readings: [107.9], or went: right, or both")
        yield from readings_far_off(self.readings or [], self.wanted, context)


def readings_far_off(readings: list[float], wanted: float, context: Context) -> Iterator[Fault]:
    """Readings that no print misses by: a slip, another unit, another end."""
    for i, reading in enumerate(readings):
        if abs(reading - wanted) > OFF_REL * wanted:
            low, high = (format_length((1 + k * OFF_REL) * wanted, context.units, fraction=False) for k in (-1, 1))
            middle = format_length(wanted, context.units, fraction=False)
            found = f"{format_length(reading, context.units, fraction=False)}, where {middle} was wanted"
            yield Fault(("readings", i), found, f"{low} to {high}", _other_unit(reading, wanted))


def _other_unit(reading: float, wanted: float) -> str:
    for factor, hint in ((MM_PER_INCH, "in inches? write the unit: '4.25 in'"), (1 / MM_PER_INCH, "in mm? write mm")):
        if abs(factor * reading - wanted) <= OFF_REL * wanted:
            return hint
    return "measure again: the right end, the right face, square across?"


class PrintsKeys(Grammar):
    """The whole file."""

    example: ClassVar[str] = "{prints: [...]}"
    prints: list[PrintKeys] = Field(description="The prints, a list of maps; lengths in mm or with their unit.")


class LogKeys(Grammar):
    """What the command line says of one print; its keys are called after the options."""

    end: Annotated[str, Text("end_a or end_b", 20)] = Field(description="end_a or end_b.")
    readings: list[Annotated[float, _SIZE]] | None = Field(
        None, alias="read", min_length=1, max_length=20, description="A list of 1 to 20 readings."
    )
    went: Annotated[Went | None, WENT_WORDS] = None
    date: Annotated[str | None, DATE] = None
    note: Annotated[str | None, NOTE] = None

    def sense(self, context: Context) -> Iterator[Fault]:
        if not self.readings and self.went is None:
            yield Fault(("read",), "neither readings nor how it went", "--read 107.9 107.8, or --went right, or both")
