"""Printer and material: a name from the tables, a map, or a name with some values changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data import profiles
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms
from fitwright.spec.grammar.material_settings import MaterialSettings
from fitwright.spec.grammar.own_materials import material_names, own_material, row_name, table_material
from fitwright.spec.grammar.own_printers import (
    DEFAULT_PRINTER,
    own_printer,
    profile_file,
    profile_names,
    table_printer,
)
from fitwright.spec.grammar.printer_settings import PrinterSettings, machine_faults
from fitwright.spec.grammar.values import Context, Text
from fitwright.spec.models import Material, Printer

DEFAULT_MATERIAL = "PETG"
ALMOST = 0.85
"""A name so like that of a profile is taken for a slip (difflib's ratio)."""
_NAME = Text("a name", 40, number=True)


class PrinterKeys(PrinterSettings):
    """A printer; what is absent is taken from the named profile, or from generic_220."""

    example: ClassVar[str] = "{name: generic_220, nozzle: 0.6}"
    meant: ClassVar[Mapping[str, str]] = {
        "bed": "write bed_x, bed_y, bed_z",
        "height": "write bed_z",
        "layer_height": "write layer",
    }
    name: Annotated[str | None, _NAME] = Field(
        None, description="A profile to start from, or a name of your own; no unit."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self.scale_faults()
        yield from machine_faults(self.printer(context))
        near = get_close_matches((self.name or "").casefold(), profile_names(context.folder), 1, ALMOST)
        if near and profile_file(self.name or "", context.folder) is None and not _in_tables(self.name):
            allowed = f"{near[0]}, or a name less like it"
            yield Fault(("name",), f"{shown(self.name)}, which no profile has", allowed, f"did you mean {near[0]}?")

    def printer(self, context: Context) -> Printer:
        """The profile with what was changed: one of your own, nearest first, or one of the tables."""
        own = own_printer(self.name, context.folder) if self.name else None
        base = own or table_printer(self.name if self.name and _in_tables(self.name) else DEFAULT_PRINTER)
        made = self.changed(base)
        if own and own.calibration:
            changed = tuple(sorted(self.model_fields_set - {"name"}))
            return made.model_copy(update={"calibration": own.calibration.model_copy(update={"changed": changed})})
        return made.model_copy(update={"name": self.name or base.name})


def _in_tables(name: str | None) -> bool:
    return (name or "").casefold() in {row.casefold() for row in profiles.printers()}


def read_printer(value: object, context: Context) -> Printer:
    """A printer's name (a profile of your own first, then the tables), or a map."""
    if not isinstance(value, str):
        return PrinterKeys.read(value, context).printer(context)
    own = own_printer(value, context.folder)
    if own:
        return own
    name = _known_printer(value, profile_names(context.folder))
    return PrinterKeys.read({"name": name}, context).printer(context)


def _known_printer(value: str, own: list[str]) -> str:
    """The row of the tables; a fault lists them and the profiles of one's own."""
    rows = list(profiles.printers())
    for name in rows:
        if name.casefold() == value.strip().casefold():
            return name
    kinds = f"of your own, in a folder printers/: {' | '.join(own) or 'none found'}; of the tables: {' | '.join(rows)}"
    raise FaultError([Fault((), shown(value), f"{kinds}; or a map", nearest(value.strip(), [*own, *rows]))])


class MaterialKeys(MaterialSettings):
    """A filament; what is absent is taken from the named one."""

    example: ClassVar[str] = "{name: PETG, density: 1.27}"
    meant: ClassVar[Mapping[str, str]] = {**MaterialSettings.meant, "type": "write name"}
    name: Annotated[str, _NAME] = Field(
        description="A filament to start from, your own or of the tables (PLA, PETG, ABS, ASA, PA, TPU, TPU 85A), "
        "or beside `like` a new name; no unit."
    )
    like: Annotated[str | None, _NAME] = Field(
        None, description="The filament of the tables that a new one is nearest to; no unit."
    )

    def material(self, context: Context) -> Material:
        """The filament with what was changed; FaultError where none is called so."""
        base = _named_material(self.like or self.name, context, "like" if self.like else "name")
        made = self.changed(base)
        return made.model_copy(update={"name": self.name}) if self.like else made

    def sense(self, context: Context) -> Iterator[Fault]:
        try:
            made = self.material(context)
        except FaultError as error:
            yield from error.faults
            return
        yield from self.faults(made)


def read_material(value: object, context: Context) -> Material:
    """A filament's name (one of your own first, then the tables), or a map."""
    if not isinstance(value, str):
        return MaterialKeys.read(value, context).material(context)
    return _named_material(value, context)


def _named_material(value: str, context: Context, key: str = "") -> Material:
    own = own_material(value, context.folder)
    if own:
        return own
    try:
        return table_material(row_name(value))
    except FaultError:
        names, rows = material_names(context.folder), list(profiles.materials())
        kinds = f"of the tables: {' | '.join(rows)}; of your own, in a folder materials/: {' | '.join(names) or 'none'}"
        path = (key,) if key else ()
        near = nearest(value.strip(), [*names, *rows])
        near = near or (_NEW_ONE if key == "name" else "")
        raise FaultError([Fault(path, shown(value), kinds + ("" if key else "; or a map"), near)]) from None


_NEW_ONE = "for a new one add `like:` and the nearest of these"
_Name = Annotated[str, _NAME]
PrinterValue = Annotated[Printer, Forms(read_printer, _Name | PrinterKeys)]
MaterialValue = Annotated[Material, Forms(read_material, _Name | MaterialKeys)]
