"""Printer and material: a name from the tables, a map, or a name with some values changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from difflib import get_close_matches
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data import profiles
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.own_printers import (
    DEFAULT_PRINTER,
    own_printer,
    profile_file,
    profile_names,
    table_printer,
)
from fitwright.spec.grammar.printer_settings import PrinterSettings, machine_faults
from fitwright.spec.grammar.values import Context, Number, Pressure, Temperature, Text, YesNo
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


SOFT_LEAST = 0.02
"""A material that bears less hoop strain than this for good is not soft (common practice, no source)."""


class MaterialKeys(Grammar):
    """A filament; what is absent is taken from the named row."""

    example: ClassVar[str] = "{name: PETG, density: 1.27}"
    meant: ClassVar[Mapping[str, str]] = {
        "type": "write name",
        **dict.fromkeys(("flexible", "flex", "elastic", "rubber"), "write soft: yes"),
        **dict.fromkeys(("stretch", "strain"), "write strain_limit: the stretch it bears for good, 0.05 for 5 %"),
    }
    name: Annotated[str, _NAME] = Field(
        description="A filament of the tables to start from (PLA, PETG, ABS, ASA, PA, TPU, TPU 85A), "
        "or beside `like` a name of your own; no unit."
    )
    like: Annotated[str | None, _NAME] = Field(
        None, description="The filament of the tables that one of your own is nearest to; no unit."
    )
    soft: Annotated[bool | None, YesNo()] = Field(
        None, description="Whether it stretches over a pipe and comes back (rubber-like): yes or no, no unit."
    )
    density: Annotated[float | None, Number(0.5, 3.0)] = Field(None, description="Density in g/cm3, a plain number.")
    modulus: Annotated[float | None, Pressure(1.0, 20000.0)] = Field(
        None, description="Elastic modulus, with its unit (MPa)."
    )
    strength: Annotated[float | None, Pressure(1.0, 300.0)] = Field(
        None, description="Strength in the layer, with its unit (MPa)."
    )
    strength_across: Annotated[float | None, Pressure(0.5, 300.0)] = Field(
        None, description="Strength between layers, with its unit (MPa)."
    )
    strain_limit: Annotated[float | None, Number(0.0005, 0.5)] = Field(
        None, description="Hoop strain allowed for good, as a ratio without unit (0.005)."
    )
    service: Annotated[float | None, Temperature(20.0, 300.0)] = Field(
        None, description="Warmest place it may stay in, in deg C or with its unit."
    )

    def material(self) -> Material:
        """The row with what was changed."""
        row = profiles.material(self.like or self.name)
        values = {key: value for key, value in asdict(row).items() if key in Material.model_fields}
        units = {"density": "_g_cm3", "modulus": "_mpa", "strength": "_mpa", "strength_across": "_mpa", "service": "_c"}
        for key in self.model_fields_set - {"name", "like"}:
            values[key + units.get(key, "")] = getattr(self, key)
        return Material.model_validate({**values, "name": self.name if self.like else row.name})

    def sense(self, context: Context) -> Iterator[Fault]:
        key, name = ("like", self.like) if self.like else ("name", self.name)
        try:
            made = self.material()
        except DataError:
            names = list(profiles.materials())
            own = "" if self.like else "for a filament of your own add `like:` and the nearest of these"
            yield Fault((key,), shown(name), " | ".join(names), nearest(name, names) or own)
            return
        if made.soft and made.strain_limit < SOFT_LEAST:
            at = "strain_limit" if self.strain_limit is not None else "soft"
            found = f"a soft filament that bears a strain of {made.strain_limit:g}"
            yield Fault((at,), found, f"strain_limit: {SOFT_LEAST:g} or more (0.05 is usual for 95 Shore A)")


def read_material(value: object, context: Context) -> Material:
    """A material's name, or a map."""
    if not isinstance(value, str):
        return MaterialKeys.read(value, context).material()
    known = profiles.OTHER_NAMES.get(value.strip().casefold()) or _known(value, list(profiles.materials()))
    return MaterialKeys.read({"name": known}, context).material()


def _known(value: str, names: list[str]) -> str:
    for name in names:
        if name.casefold() == value.strip().casefold():
            return name
    raise FaultError([Fault((), shown(value), f"{' | '.join(names)}, or a map", nearest(value.strip(), names))])


_Name = Annotated[str, _NAME]
PrinterValue = Annotated[Printer, Forms(read_printer, _Name | PrinterKeys)]
MaterialValue = Annotated[Material, Forms(read_material, _Name | MaterialKeys)]
