"""How warm a part gets on or beside an electric motor's housing: orders of magnitude, until one is measured."""

from __future__ import annotations

from typing import Literal

Insulation = Literal["B", "F", "H"]

AIR_C = 40.0
"""The warmest air that a motor is rated for (IEC 60034-1, as quoted by a published motor manual)."""
RISE_K = {"B": 80.0, "F": 105.0, "H": 125.0}
"""The most that the winding may be warmer than that air, by its mean resistance (the same source)."""
HOUSING_COOLER_K = 40.0
"""The housing of a closed, fan-cooled motor under its winding (common practice, no source: 30 to 50 K)."""
ROOM_C = 30.0
"""A workshop in summer."""
BESIDE = ((2.0, 1.0), (50.0, 0.6), (150.0, 0.3))
"""Up to so far from something hot [mm], so much of its rise over the room is felt (a safe guess, no source)."""


def housing_c(insulation: Insulation = "B") -> float:
    """The housing's temperature [C] under load at the most that its insulation class allows the winding.

    Most small motors have class F insulation and keep to the rise of class B (common practice).

    >>> [housing_c(one) for one in ("B", "F", "H")]
    [80.0, 105.0, 125.0]
    """
    return AIR_C + RISE_K[insulation] - HOUSING_COOLER_K


def beside_c(gap_mm: float, hot_c: float) -> float:
    """Temperature [C] of a part `gap_mm` (0 or more) from a surface of `hot_c`: as hot where the two touch.

    >>> [beside_c(gap, 80.0) for gap in (0.0, 30.0, 100.0, 400.0)]
    [80.0, 60.0, 45.0, 30.0]
    """
    share = next((left for up_to, left in BESIDE if gap_mm <= up_to), 0.0)
    return ROOM_C + share * (hot_c - ROOM_C)
