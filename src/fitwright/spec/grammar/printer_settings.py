"""Keys that say what a printer is and how it misses: in a part, in a profile of your own, in gauge readings."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Length, Number
from fitwright.spec.models import Printer

LINE_PER_NOZZLE = 1.05
"""Line width of a nozzle where none is given (common practice, no source)."""
_BED, _OFFSET, _SCALE = Length(50.0, 2000.0), Length(-2.0, 2.0, signed=True), Number(0.9, 1.1)
_WITHOUT_UNIT = ("scatter_rel", "scale_xy", "scale_x", "scale_y")


class BedKeys(Grammar):
    """What the printer is: bed, nozzle, line, layer."""

    bed_x: Annotated[float | None, _BED] = Field(None, description="Width of the bed, in the file's units.")
    bed_y: Annotated[float | None, _BED] = Field(None, description="Depth of the bed, in the file's units.")
    bed_z: Annotated[float | None, _BED] = Field(None, description="Greatest height of a print, in the file's units.")
    nozzle: Annotated[float | None, Length(0.1, 2.0)] = Field(None, description="Nozzle, in the file's units.")
    line: Annotated[float | None, Length(0.1, 3.0)] = Field(
        None, description="Width of a printed line, in the file's units; 1.05 x nozzle if absent."
    )
    layer: Annotated[float | None, Length(0.04, 1.2)] = Field(None, description="Layer height, in the file's units.")

    def changed(self, base: Printer) -> Printer:
        """The printer `base` with what is written here."""
        settings = {*BedKeys.model_fields, *PrinterSettings.model_fields}
        written = {key: getattr(self, key) for key in self.model_fields_set & settings}
        if "nozzle" in written and "line" not in written:
            written["line"] = round(LINE_PER_NOZZLE * written["nozzle"], 3)
        values = base.model_dump()
        values["scatter_rel"] = base.scatter_rel - base.oval_rel
        if "scale_xy" in written:
            values |= {"scale_x": None, "scale_y": None}
        values |= {key if key in _WITHOUT_UNIT else f"{key}_mm": value for key, value in written.items()}
        if values["scale_x"] is not None and values["scale_y"] is not None:
            values["scale_xy"] = (values["scale_x"] + values["scale_y"]) / 2
        made = Printer.model_validate(values)
        return made.model_copy(update={"scatter_rel": made.scatter_rel + made.oval_rel})


class PrinterSettings(BedKeys):
    """The same and how it misses: its scale and offsets, and how far its prints scatter."""

    scatter_rel: Annotated[float | None, Number(0.0, 0.05)] = Field(
        None, description="How much printed diameters scatter, as a part of the diameter; no unit (0.002)."
    )
    scatter_abs: Annotated[float | None, Length(0.0, 2.0)] = Field(
        None, description="What is added to that scatter, in the file's units."
    )
    scale_xy: Annotated[float | None, _SCALE] = Field(
        None, description="Printed size over modelled size, from your gauges; no unit (1.0 = not calibrated)."
    )
    scale_x: Annotated[float | None, _SCALE] = Field(
        None, description="The same along the printer's x alone, where y prints otherwise; no unit. With `scale_y`."
    )
    scale_y: Annotated[float | None, _SCALE] = Field(
        None, description="The same along the printer's y alone; no unit. With `scale_x`, in place of `scale_xy`."
    )
    hole_offset: Annotated[float | None, _OFFSET] = Field(
        None, description="How much holes print larger (+) or smaller (-), on the diameter, in the file's units."
    )
    outside_offset: Annotated[float | None, _OFFSET] = Field(
        None, description="How much outsides print larger (+) or smaller (-), on the diameter, in the file's units."
    )
    small_hole_add: Annotated[float | None, Length(0.0, 1.0)] = Field(
        None,
        description="By how much screw holes below 10 mm are opened, or by the hole offset where that is more, "
        "in the file's units.",
    )

    def scale_faults(self) -> Iterator[Fault]:
        """x and y go together, and stand in place of their mean."""
        apart = [key for key in ("scale_x", "scale_y") if getattr(self, key) is not None]
        if apart and self.scale_xy is not None:
            yield Fault(
                ("scale_xy",), f"scale_xy beside {' and '.join(apart)}", "scale_xy alone, or scale_x and scale_y"
            )
        elif len(apart) == 1:
            other = "scale_y" if apart == ["scale_x"] else "scale_x"
            yield Fault((apart[0],), f"{apart[0]} without {other}", "both, or scale_xy alone", f"add `{other}:`")


def machine_faults(made: Printer) -> Iterator[Fault]:
    """Layers and lines that such a nozzle cannot lay."""
    if made.layer_mm > 0.85 * made.nozzle_mm:
        found = f"layers of {made.layer_mm:g} mm from a nozzle of {made.nozzle_mm:g} mm"
        yield Fault(("layer",), found, f"at most {0.85 * made.nozzle_mm:.2f} mm", "check layer and nozzle")
    if not 0.8 * made.nozzle_mm <= made.line_mm <= 2.0 * made.nozzle_mm:
        found = f"lines of {made.line_mm:g} mm from a nozzle of {made.nozzle_mm:g} mm"
        yield Fault(("line",), found, f"{0.8 * made.nozzle_mm:.2f} to {2 * made.nozzle_mm:.2f} mm")
