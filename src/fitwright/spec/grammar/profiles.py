"""Printer and material: a name from the tables, a map, or a name with some values changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data import profiles
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import Context, Length, Number, Pressure, Temperature, Text, YesNo
from fitwright.spec.models import Material, Printer

DEFAULT_PRINTER, DEFAULT_MATERIAL = "generic_220", "PETG"
LINE_PER_NOZZLE = 1.05
"""Line width of a nozzle where none is given (common practice, no source)."""
_BED, _OFFSET, _NAME = Length(50.0, 2000.0), Length(-2.0, 2.0, signed=True), Text("a name", 40, number=True)


class PrinterKeys(Grammar):
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
    bed_x: Annotated[float | None, _BED] = Field(None, description="Width of the bed, in the file's units.")
    bed_y: Annotated[float | None, _BED] = Field(None, description="Depth of the bed, in the file's units.")
    bed_z: Annotated[float | None, _BED] = Field(None, description="Greatest height of a print, in the file's units.")
    nozzle: Annotated[float | None, Length(0.1, 2.0)] = Field(None, description="Nozzle, in the file's units.")
    line: Annotated[float | None, Length(0.1, 3.0)] = Field(
        None, description="Width of a printed line, in the file's units; 1.05 x nozzle if absent."
    )
    layer: Annotated[float | None, Length(0.04, 1.2)] = Field(None, description="Layer height, in the file's units.")
    scatter_rel: Annotated[float | None, Number(0.0, 0.05)] = Field(
        None, description="How much printed diameters scatter, as a part of the diameter; no unit (0.002)."
    )
    scatter_abs: Annotated[float | None, Length(0.0, 2.0)] = Field(
        None, description="What is added to that scatter, in the file's units."
    )
    scale_xy: Annotated[float | None, Number(0.9, 1.1)] = Field(
        None, description="Printed size over modelled size, from your gauges; no unit (1.0 = not calibrated)."
    )
    hole_offset: Annotated[float | None, _OFFSET] = Field(
        None, description="How much holes print larger (+) or smaller (-), on the diameter, in the file's units."
    )
    outside_offset: Annotated[float | None, _OFFSET] = Field(
        None, description="How much outsides print larger (+) or smaller (-), on the diameter, in the file's units."
    )
    small_hole_add: Annotated[float | None, Length(0.0, 1.0)] = Field(
        None, description="What is added to screw holes below 10 mm, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        made = self.printer()
        if made.layer_mm > 0.85 * made.nozzle_mm:
            found = f"layers of {made.layer_mm:g} mm from a nozzle of {made.nozzle_mm:g} mm"
            yield Fault(("layer",), found, f"at most {0.85 * made.nozzle_mm:.2f} mm", "check layer and nozzle")
        if not 0.8 * made.nozzle_mm <= made.line_mm <= 2.0 * made.nozzle_mm:
            found = f"lines of {made.line_mm:g} mm from a nozzle of {made.nozzle_mm:g} mm"
            yield Fault(("line",), found, f"{0.8 * made.nozzle_mm:.2f} to {2 * made.nozzle_mm:.2f} mm")

    def printer(self) -> Printer:
        """The profile with what was changed."""
        known = {name.casefold() for name in profiles.printers()}
        base = self.name if self.name and self.name.casefold() in known else DEFAULT_PRINTER
        values = asdict(profiles.printer(base))
        written = {key: getattr(self, key) for key in self.model_fields_set if key != "name"}
        if "nozzle" in written and "line" not in written:
            written["line"] = round(LINE_PER_NOZZLE * written["nozzle"], 3)
        without_unit = ("scatter_rel", "scale_xy")
        values.update({key if key in without_unit else f"{key}_mm": value for key, value in written.items()})
        return Printer.model_validate({**values, "name": self.name or base})


def read_printer(value: object, context: Context) -> Printer:
    """A printer's name, or a map."""
    if not isinstance(value, str):
        return PrinterKeys.read(value, context).printer()
    return PrinterKeys.read({"name": _known(value, list(profiles.printers()))}, context).printer()


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
