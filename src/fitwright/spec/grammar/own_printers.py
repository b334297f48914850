"""Printer profiles of one's own: `printers/NAME.yaml` beside the part's YAML or in a folder above it, nearest first."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data import profiles
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.own_files import EARLIER as EARLIER
from fitwright.spec.grammar.own_files import date_text as date_text
from fitwright.spec.grammar.own_files import own_file, own_names, read_own
from fitwright.spec.grammar.printer_settings import PrinterSettings, machine_faults
from fitwright.spec.grammar.values import Context, Count, Length, Number, Text, Words
from fitwright.spec.models import Calibration, Printer
from fitwright.units import format_length

DEFAULT_PRINTER = "generic_220"
FOLDER = "printers"
NAME_PATTERN = re.compile(r"[A-Za-z0-9_-]+")
_UNITS = Words(("mm", "in"), (("inch", "in"), ("inches", "in"), ("metric", "mm")))


def table_name(text: str) -> str:
    """The row of our own table that is called so."""
    rows = list(profiles.printers())
    for row in rows:
        if row.casefold() == text.casefold():
            return row
    raise FaultError([Fault((), shown(text), " | ".join(rows), nearest(text, rows))])


class StandardErrorKeys(Grammar):
    """How well each number is known; told in the report of a measuring, and used nowhere else."""

    example: ClassVar[str] = "{scale_xy: 0.0004, hole_offset: 0.02, outside_offset: 0.02}"
    scale_xy: Annotated[float | None, Number(0.0, 0.1)] = Field(None, description="Of the scale; no unit.")
    scale_x: Annotated[float | None, Number(0.0, 0.1)] = Field(None, description="Of the scale along x; no unit.")
    scale_y: Annotated[float | None, Number(0.0, 0.1)] = Field(None, description="Of the scale along y; no unit.")
    hole_offset: Annotated[float | None, Length(0.0, 2.0)] = Field(
        None, description="Of the hole offset, in the file's units."
    )
    outside_offset: Annotated[float | None, Length(0.0, 2.0)] = Field(
        None, description="Of the outside offset, in the file's units."
    )
    small_hole_add: Annotated[float | None, Length(0.0, 2.0)] = Field(
        None, description="Of the small holes' figure, in the file's units."
    )


class OwnPrinterKeys(PrinterSettings):
    """A profile of one's own, as `fitwright measure printer` writes it; anything in it may be changed by hand."""

    example: ClassVar[str] = "{printer_profile: birch_lane_220, like: generic_220, scale_xy: 0.994}"
    printer_profile: Annotated[str, Text("a name", 40, number=True)] = Field(
        description="The profile's name: that of its file; no unit."
    )
    units: Annotated[Literal["mm", "in"], _UNITS] = Field(
        "mm", description="Unit of plain numbers in this file: mm or in; mm if absent."
    )
    like: Annotated[str, Text("a printer of the tables", 40, table_name)] = Field(
        DEFAULT_PRINTER, description="The printer of the tables that gives what is absent here; no unit."
    )
    material: Annotated[str | None, Text("a filament", 40, number=True)] = Field(
        None, description="The filament that the gauges were printed in; no unit."
    )
    measured: Annotated[str | None, Text("a day", 20, date_text)] = Field(
        None, description="The day of the measuring, such as 2026-11-20; no unit."
    )
    gauges: Annotated[int | None, Count(1, 1000)] = Field(
        None, description="How many holes and outsides were measured; no unit."
    )
    smallest: Annotated[float | None, Length(0.5, 2000.0)] = Field(
        None, description="The smallest modelled size measured, in the file's units."
    )
    largest: Annotated[float | None, Length(0.5, 2000.0)] = Field(
        None, description="The largest modelled size measured, in the file's units."
    )
    standard_errors: StandardErrorKeys | None = Field(
        None, description="How well each number is known; lengths in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self.scale_faults()
        if self.smallest and self.largest and self.smallest > self.largest:
            found = f"{format_length(self.smallest, context.units)}, above largest"
            allowed = f"at most {format_length(self.largest, context.units)}"
            yield Fault(("smallest",), found, allowed, "the two are swapped")
        yield from machine_faults(self.changed(table_printer(self.like)))

    def meant_as(self, file: str) -> Printer:
        """The printer of this profile."""
        made = self.changed(table_printer(self.like))
        calibration = Calibration(
            file=file,
            like=self.like,
            measured=self.measured or "",
            gauges=self.gauges or 0,
            material=self.material or "",
            smallest_mm=self.smallest,
            largest_mm=self.largest,
        )
        status = "measured" if self.measured else "by hand"
        return made.model_copy(update={"name": self.printer_profile, "calibration": calibration, "status": status})


def table_printer(name: str) -> Printer:
    """The printer of a row of our own table."""
    return Printer.model_validate(asdict(profiles.printer(name)))


def profile_file(name: str, folder: str) -> Path | None:
    """The file of the profile of this name, capitals or not, that is nearest to a folder."""
    return own_file(name, FOLDER, folder)


def profile_names(folder: str) -> list[str]:
    """Names of all profiles that a part in this folder may use, nearest first."""
    return own_names("printer_profile", FOLDER, folder)


def own_printer(name: str, folder: str) -> Printer | None:
    """The profile of this name that is nearest to a folder, or None; SpecError where its file is damaged.

    The error carries the profile's own file, line and key.
    """
    file = profile_file(name, folder)
    return read_profile(file, folder) if file else None


def read_profile(file: Path, folder: str = ".") -> Printer:
    """The printer that a profile's file tells of; SpecError with everything that is wrong with it.

    Its path is told as seen from the part's `folder`.
    """
    keys, seen = read_own(file, folder, OwnPrinterKeys, "printer_profile")
    return keys.meant_as(seen)
