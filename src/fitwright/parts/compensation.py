"""What the printer does to sizes, undone once: printed = scale x nominal + offset.

`modelled` is the one place where scale and offset of a diameter are undone; positions (hole centres, corners of an
outline) have a scale and no offset: `placed`. Lengths along the passage stay as they are.
"""

from __future__ import annotations

from fitwright.data.profiles import SMALL_HOLE_MM
from fitwright.spec.models import Printer
from fitwright.spec.printed import as_printed as as_printed
from fitwright.spec.printed import modelled as modelled

LEAST_GAP_MM = 0.05
"""Two faces of one part that are to go together are modelled no closer, however large its holes print."""


def placed(at_mm: float, printer: Printer) -> float:
    """The coordinate [mm] to model so that a point comes to lie at `at_mm` once printed."""
    return at_mm / printer.scale_xy


def caught(across_mm: float, printer: Printer) -> float:
    """How wide [mm] a bought thing stands in the model where a printed pocket holds it.

    The pocket is modelled off its size so that it prints right; the thing is drawn off by the same.
    """
    return modelled(across_mm, "hole", printer)


def gap_between(gap_mm: float, printer: Printer) -> float:
    """The gap [mm] to model between an outside and the hole round it, both of one print, so that it prints so wide."""
    return max(LEAST_GAP_MM, (modelled(2 * gap_mm, "hole", printer) - modelled(0.0, "outside", printer)) / 2)


def small_hole(d: float, printer: Printer) -> float:
    """A screw hole's diameter [mm] as modelled.

    Below SMALL_HOLE_MM it is opened by `small_hole_add_mm` or by the hole offset, whichever is more: both are the same
    shrinking (the width of the line, which curls inwards on a small circle), and it is undone once.
    """
    short = max(0.0, printer.small_hole_add_mm + printer.hole_offset_mm) if d < SMALL_HOLE_MM else 0.0
    return modelled(d + short, "hole", printer)
