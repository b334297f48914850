"""`log`: what came off the printer and how it fitted, so that the next part is made accordingly."""

from __future__ import annotations

import argparse
import datetime
from collections.abc import Mapping
from pathlib import Path

from fitwright.cli.exit_codes import GOOD
from fitwright.cli.paths import yaml_files
from fitwright.errors import FitwrightError, SpecError
from fitwright.export.print_log import append_print
from fitwright.report.built import changed_since, learned_when_built
from fitwright.report.logged import answer, basis_words, logged_words, shown, uneven_words
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.own_printers import DEFAULT_PRINTER, table_printer
from fitwright.spec.grammar.prints import LogKeys
from fitwright.spec.grammar.profiles import read_printer
from fitwright.spec.grammar.values import Context
from fitwright.spec.learned import Learned
from fitwright.spec.load import load_file
from fitwright.spec.models import PartBase, Printer
from fitwright.spec.print_entry import (
    as_built,
    command_line_error,
    end_called,
    entry_of,
    keys_of,
    own_allowance,
    print_of,
    spec_called,
)
from fitwright.spec.print_store import Prints, prints_in, store_beside
from fitwright.spec.taught import learned
from fitwright.spec.text_file import PRINTS, kind_of


def run(options: argparse.Namespace) -> int:
    """Log one print and say what it taught; with --show, say what is logged."""
    asked = {"end": options.end, "read": options.read, "went": options.went, "date": options.date, "note": options.note}
    if options.show:
        if said := [key for key, value in asked.items() if value is not None]:
            faults = [Fault((key,), "beside --show", "one of the two: --show logs nothing") for key in said]
            raise command_line_error(faults)
        print("\n".join(_shown(options.path)))
        return GOOD
    if options.path.is_dir():
        raise FitwrightError(
            f"{options.path} is a folder; allowed: the YAML file of the part that was printed, or --show"
        )
    spec = spec_called(list(load_file(options.path)), options.name)
    print("\n".join(_log(spec, keys_of(asked, spec.units), options)))
    return GOOD


def _log(spec: PartBase, keys: LogKeys, options: argparse.Namespace) -> list[str]:
    today = datetime.date.today()
    _refuse_future(keys.date, today)
    end_called(spec, keys.end)
    store = store_beside(options.path.parent)
    report_file = options.output / spec.name / "report.json"
    day = keys.date or today.isoformat()
    built = learned_when_built(report_file)
    when: Mapping[str, Learned | None] = _learned_before(spec, day, prints_in(store)) if built is None else built
    entry = entry_of(as_built(spec, when), keys, today)
    prints = append_print(store, entry)
    said = [f"logged in {store}: {logged_words(one := print_of(entry), spec.units)}", uneven_words(one, spec.units)]
    said.append(
        basis_words(options.path, report_file, built is not None, changed_since(options.path, report_file), day)
    )
    return [line for line in [*said, *answer(spec, keys.end, prints)] if line]


def _refuse_future(written: str | None, today: datetime.date) -> None:
    if written and datetime.date.fromisoformat(written) > today:
        found = f"{written!r}, which is still to come"
        raise command_line_error([Fault(("date",), found, f"{today.isoformat()} or before")])


def _learned_before(spec: PartBase, day: str, prints: Prints) -> dict[str, Learned | None]:
    """What had been learned before that day, on which the part was printed."""
    earlier = [one for one in prints if one.date < day]
    return {
        key: learned(getattr(spec, key), earlier, spec.printer, spec.material, own_allowance(spec, key))
        for key in ("end_a", "end_b")
    }


def _shown(path: Path) -> list[str]:
    folder = path if path.is_dir() else path.parent
    store = path if path.is_file() and kind_of(path) == "prints" else store_beside(folder)
    if not path.exists():
        raise FitwrightError(
            f"{path}: found no such file or folder; allowed: a part's YAML, its folder, or its {PRINTS}"
        )
    prints = prints_in(store)
    if not prints:
        return [
            f"nothing is logged in {store} yet: fitwright log PART.yaml --end end_a --read 107.9 107.8 --went right"
        ]
    specs = _specs_in(path, folder)
    printers = {spec.printer.name.casefold(): spec.printer for spec in specs}
    units = specs[0].units if specs else "mm"
    for name in {one.printer for one in prints} - set(printers):
        if (known := _known_printer(name, folder)) is not None:
            printers.setdefault(name.casefold(), known)
    other = table_printer(DEFAULT_PRINTER)
    strange = sorted({one.printer for one in prints if one.printer.casefold() not in printers})
    doubt = [f"no part here is printed on {name}: weighed with the scatter of {other.name}" for name in strange]
    return [
        f"{len(prints)} print{'s' * (len(prints) > 1)} in {store}",
        "",
        *shown(prints, printers, other, units),
        *doubt,
    ]


def _specs_in(path: Path, folder: Path) -> list[PartBase]:
    """The parts that can be read, for their printers as they are calibrated today."""
    found: list[PartBase] = []
    try:
        files = [path] if path.is_file() and kind_of(path) == "part" else yaml_files([folder])
    except SpecError:
        return []
    for file in files:
        try:
            found += load_file(file) if file.parent == folder else []
        except SpecError:
            if file == path:
                raise
    return found


def _known_printer(name: str, folder: Path) -> Printer | None:
    try:
        return read_printer(name, Context(folder=str(folder)))
    except ValueError:  # a FaultError: no profile of that name
        return None
