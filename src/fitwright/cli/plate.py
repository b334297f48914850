"""`plate`: a plate, a gasket or both for the flange of a part, built, checked and written as any part is."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from fitwright.cli.build import build_all, load, refuse_folder
from fitwright.cli.exit_codes import BAD_INPUT
from fitwright.cli.paths import refuse_equal_names, yaml_files
from fitwright.errors import FitwrightError
from fitwright.spec.faults import FaultError, dotted
from fitwright.spec.grammar.plate import THICKNESS
from fitwright.spec.grammar.plate_made import GasketKeys, SheetKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.plate_of_end import PlateMade, plate_of_end

if TYPE_CHECKING:
    from fitwright.spec.models import FlangePlateSpec, PartBase
    from fitwright.units import Units

Read = TypeVar("Read")


def run(options: argparse.Namespace) -> int:
    """Make a plate for each part of the file that has a flange; the exit code is the worst of all."""
    specs, code = load(yaml_files([options.path]))
    plates = [plate for spec in specs if (plate := _of_part(spec, options, len(specs) > 1))]
    if not plates:
        return max(code, BAD_INPUT)
    refuse_equal_names(plates)
    refuse_folder(options.output)
    return max(code, build_all(plates, options, write=True))


def _of_part(spec: PartBase, options: argparse.Namespace, several: bool) -> FlangePlateSpec | None:
    """The plate for one part; of several, those without a flange are told and passed over."""
    made = _made(options, spec.units)
    try:
        return plate_of_end(spec, options.end, made)
    except FaultError as error:
        fault = error.faults[0]
        if several:
            print(f"{spec.name}: no plate: {fault.found}")
            return None
        option = "--end" if fault.path == ("end",) else spec.source_file
        raise FitwrightError(f"{option}: found {fault.found}; allowed: {fault.allowed}") from None


def _made(options: argparse.Namespace, units: Units) -> PlateMade:
    context = Context(units)
    made = PlateMade()
    if options.sheet is not None:
        material, thickness = options.sheet
        value = {"material": material, "thickness": thickness}
        made = replace(made, sheet=_asked("--sheet", lambda: SheetKeys.read(value, context)))
    if options.thickness is not None:
        if options.sheet is not None or options.gasket_only:
            raise FitwrightError("--thickness: that of a printed plate; a sheet or gasket says its own")
        made = replace(made, thickness_mm=_asked("--thickness", lambda: THICKNESS.read(options.thickness, context)))
    if options.gasket_only and options.sheet is not None:
        raise FitwrightError("--gasket-only: found --sheet beside it; allowed: a plate, or a gasket alone")
    if options.gasket is None and not options.gasket_only:
        return made
    keys: dict[str, object] = {"alone": "yes"} if options.gasket_only else {}
    words = options.gasket or []
    keys |= dict(zip(("material", "thickness"), words, strict=False))
    if len(words) > 2:
        raise FitwrightError(f"--gasket: found {len(words)} words; allowed: a material and a thickness, in quotes")
    return replace(made, gasket=_asked("--gasket", lambda: GasketKeys.read(keys, context)).made())


def _asked(option: str, read: Callable[[], Read]) -> Read:
    try:
        return read()
    except FaultError as error:
        fault = error.faults[0]
        where = f" {dotted(fault.path)}:" if fault.path else ""
        raise FitwrightError(f"{option}:{where} found {fault.found}; allowed: {fault.allowed}. {fault.hint}") from None
