"""How long a print takes, roughly: enough to tell ten minutes from six hours, no more."""

from __future__ import annotations

LINE_SPEED_MM_S = 60.0
"""Usual speed of a wall line (common practice, no source)."""
LAYER_CHANGE_S = 3.0
"""Lift, travel and seam of each layer (common practice, no source)."""


def hours(volume_mm3: float, height_mm: float, line_mm: float, layer_mm: float) -> float:
    """Printed solid, with lines `line_mm` wide and layers `layer_mm` high [h]."""
    rate = line_mm * layer_mm * LINE_SPEED_MM_S
    return (volume_mm3 / rate + height_mm / layer_mm * LAYER_CHANGE_S) / 3600.0


def duration(hours: float) -> str:
    """`7 hours`, `1.5 hours`, `40 minutes`: no finer than the estimate is.

    >>> duration(0.2), duration(1.4), duration(6.7)
    ('10 minutes', '1.5 hours', '7 hours')
    """
    if hours < 1.0:
        return f"{max(1, round(hours * 6)) * 10} minutes"
    return f"{hours:.0f} hours" if hours >= 3.0 else f"{round(hours * 2) / 2:g} hour{'' if hours < 1.25 else 's'}"
