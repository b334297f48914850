"""`measure printer`: the printer's scale and offsets from its gauges, and the profile that parts then use."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from fitwright.data import profiles
from fitwright.data.profiles import SMALL_HOLE_MM
from fitwright.measure.printer import Along, CalibrationError, Gauge, calibrate
from fitwright.report.measured.answer import Answer
from fitwright.report.measured.printer_profile import profile_text
from fitwright.report.measured.printer_words import calibration_words
from fitwright.spec.faults import Fault, nearest, shown
from fitwright.spec.grammar.measuring.printer import PrinterReadingKeys
from fitwright.spec.grammar.own_printers import EARLIER, FOLDER, own_printer, profile_file, profile_names, table_printer
from fitwright.spec.grammar.printer_settings import machine_faults
from fitwright.spec.measure_file import Asked
from fitwright.spec.models import Printer

_ALONG: dict[str, Along] = {"read": "round", "x": "x", "y": "y"}


@dataclass(frozen=True)
class Read:
    """One observation with the place of its readings in the file: gauge number and key."""

    gauge: Gauge
    number: int
    key: str


def answer(asked: Asked) -> Answer:
    """Scale, offsets and scatter with their uncertainty; the profile is written beside the readings."""
    keys = asked.keys
    assert isinstance(keys, PrinterReadingKeys)
    base = _base(asked, keys)
    read = _observations(keys)
    bed_mm = min(base.bed_x_mm, base.bed_y_mm)
    largest_mm = max(bed_mm, *(one.gauge.size_mm for one in read))
    try:
        found = calibrate([one.gauge for one in read], SMALL_HOLE_MM, largest_mm)
    except CalibrationError as error:
        raise asked.wrong([Fault(("gauges",), error.found, error.allowed, error.hint)]) from None
    day = keys.measured or datetime.date.today().isoformat()
    text = profile_text(keys, base, found, day, len({read[k].number for k in found.used}))
    path = profile_file(keys.name, asked.context.folder)
    path = path or Path(asked.context.folder) / FOLDER / f"{keys.name}.yaml"
    words = calibration_words(asked, keys, base, found, [(one.number, one.key) for one in read])
    return Answer(f"{words}{_two_of_one_name(keys.name)}", f"printer: {keys.name}", True, _files(path, text))


def _base(asked: Asked, keys: PrinterReadingKeys) -> Printer:
    """The printer to start from, with the bed and nozzle of the readings file."""
    folder = asked.context.folder
    rows = {row.casefold(): row for row in profiles.printers()}
    base = own_printer(keys.like, folder)
    if base is None and keys.like.casefold() not in rows:
        names = [*profile_names(folder), *rows.values()]
        raise asked.wrong([Fault(("like",), shown(keys.like), " | ".join(names), nearest(keys.like, names))])
    made = keys.changed(base or table_printer(keys.like))
    faults = list(machine_faults(made))
    if faults:
        raise asked.wrong(faults)
    return made


def _observations(keys: PrinterReadingKeys) -> list[Read]:
    """Each gauge once, or once along x and once along y."""
    made = []
    for number, one in enumerate(keys.gauges):
        for key, readings in one.read_along.items():
            made.append(Read(Gauge(one.kind, one.size_mm, readings, _ALONG[key]), number, key))
    return made


def _files(path: Path, text: str) -> tuple[tuple[Path, str], ...]:
    """The profile; one of that name that says otherwise is kept beside it."""
    try:
        before = path.read_bytes().decode("utf-8", "replace")
    except OSError:
        return ((path, text),)
    if before == text:
        return ((path, text),)
    return ((path.with_name(f"{path.stem}{EARLIER}{path.suffix}"), before), (path, text))


def _two_of_one_name(name: str) -> str:
    """Said where our own tables hold a printer of this name."""
    if name.casefold() not in {row.casefold() for row in profiles.printers()}:
        return ""
    return f"\nThe tables hold a printer called {name} too: parts here that say `printer: {name}` use your profile."
