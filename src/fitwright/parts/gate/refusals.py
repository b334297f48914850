"""What would work, rounded so that it does: lengths for a RefusalError."""

from __future__ import annotations

import math

from fitwright.units import MM_PER_INCH, Units, format_length

_FUZZ = 1e-9


def or_more(mm: float, units: Units) -> str:
    """`14.8 mm or more` for 14.71: up to the next tenth of a millimetre, or hundredth of an inch.

    >>> or_more(14.71, "mm"), or_more(14.71, "in")
    ('14.8 mm or more', '0.58 in or more')
    """
    step = 0.1 if units == "mm" else 0.01 * MM_PER_INCH
    return f"{format_length(math.ceil(mm / step - _FUZZ) * step, units)} or more"


def at_most(mm: float, units: Units) -> str:
    """`6.3 mm at the most` for 6.38: down to a tenth of a millimetre, or hundredth of an inch.

    >>> at_most(6.38, "mm")
    '6.3 mm at the most'
    """
    step = 0.1 if units == "mm" else 0.01 * MM_PER_INCH
    return f"{format_length(math.floor(mm / step + _FUZZ) * step, units)} at the most"
