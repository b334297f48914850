"""Whether a profile of this length and height lies on the printer's bed, turned as it likes."""

from __future__ import annotations

import math

from fitwright.spec.part_base import Printer

MARGIN_MM = 2.0
"""On all sides of the bed."""


def lies_on_bed(long_mm: float, high_mm: float, printer: Printer) -> bool:
    """Whether the rectangle fits at any angle, in steps of a degree."""
    x, y = printer.bed_x_mm - 2 * MARGIN_MM, printer.bed_y_mm - 2 * MARGIN_MM
    for deg in range(91):
        c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
        if long_mm * c + high_mm * s <= x and long_mm * s + high_mm * c <= y:
            return True
    return False
