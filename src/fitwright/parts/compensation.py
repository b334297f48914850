"""What the printer does to sizes, undone once: printed = scale x nominal + offset."""

from __future__ import annotations

from fitwright.spec.models import Printer

SMALL_HOLE_MM = 10.0
"""Round holes below this print small, and are opened by the printer's figure (common practice, no source)."""


def modelled(printed_d: float, kind: str, printer: Printer) -> float:
    """The diameter [mm] to model so that it measures `printed_d` once printed; kind is `hole` or `outside`."""
    offset = printer.hole_offset_mm if kind == "hole" else printer.outside_offset_mm
    return (printed_d - offset) / printer.scale_xy


def measured(modelled_d: float, kind: str, printer: Printer) -> float:
    """The diameter [mm] that a modelled one measures once printed; undoes `modelled`."""
    offset = printer.hole_offset_mm if kind == "hole" else printer.outside_offset_mm
    return printer.scale_xy * modelled_d + offset


def small_hole(d: float, printer: Printer) -> float:
    """A screw hole's diameter [mm] as modelled."""
    return modelled(d + (printer.small_hole_add_mm if d < SMALL_HOLE_MM else 0.0), "hole", printer)
