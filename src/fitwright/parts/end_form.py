"""What the joints of an end are carried round: the bought part's section as it must be modelled, or a circle."""

from __future__ import annotations

from fitwright.parts.compensation import placed
from fitwright.section import LEAST_CORNER_MM, Section
from fitwright.shapes.forms import ROUND, Form
from fitwright.spec.models import Flange, Joint, Printer


def form_of(joint: Joint, taken_over: Section | None, printer: Printer, least_corner_mm: float) -> Form:
    """The form of an end's joint; `taken_over` is the passage that a flange without an opening takes from elsewhere.

    Lengths are scaled as the printer asks, sharp corners rounded by `least_corner_mm`.
    """
    if isinstance(joint, Flange):
        if joint.opening_mm is None:  # what is taken over is modelled already
            return ROUND if taken_over is None else form_round(taken_over)
        return ROUND if joint.opening is None else form_round(joint.opening.scaled(placed(1.0, printer)))
    outline = getattr(joint.size, "outline", None)
    return ROUND if outline is None else form_round(outline.scaled(placed(1.0, printer)), least_corner_mm)


def form_round(section: Section, least_corner_mm: float = LEAST_CORNER_MM) -> Form:
    """The form whose outline at half the section's shorter side is that section."""
    return ROUND if section.is_round else Form(section.rounded(least_corner_mm), section.shorter_mm / 2)
