"""What the printer does to sizes, undone once: printed = scale x nominal + offset."""

from __future__ import annotations

from fitwright.spec.models import Printer
from fitwright.spec.printed import modelled as modelled

SMALL_HOLE_MM = 10.0
"""Round holes below this print small, and are opened by the printer's figure (common practice, no source)."""


def small_hole(d: float, printer: Printer) -> float:
    """A screw hole's diameter [mm] as modelled."""
    return modelled(d + (printer.small_hole_add_mm if d < SMALL_HOLE_MM else 0.0), "hole", printer)
