"""What a printer manages without support, and how good a place is.

All limits are common practice. Sources read: 45 degrees, half of the bead resting on the bead below, and ledges of
0.5 to 1.5 mm (JAITA 2020, 38-47, abstract); bridges 10 mm clean, 20 mm with cooling (common practice, no source).
"""

from __future__ import annotations

import math
from typing import Literal

from fitwright.tolerances import TOLERANCES

BRIDGE_MM = (10.0, 20.0)
"""Held at both ends: clean up to the first, sags up to the second, then wants support (common practice, no source)."""
LEDGE_MM = (0.8, 1.5)
"""Held on one side: clean up to the first, curls up to the second, then wants support (common practice)."""
FLATTEST_RAD = math.pi / 4 - TOLERANCES.overhang_slack_rad
"""An underside less steep than this above the horizontal is looked at."""
MEASURE_MM = 0.01
"""Accuracy of the measured spans: the mesh's chord on both sides."""

Form = Literal["bridge", "ledge", "slope"]
Grade = Literal["clean", "rough", "support"]
"""Prints clean, prints with a rough underside, prints with support below it only."""
GRADES: tuple[Grade, ...] = ("clean", "rough", "support")
RANK: dict[Grade, int] = {grade: rank for rank, grade in enumerate(GRADES)}


def judge(value_mm: float, limits_mm: tuple[float, float]) -> Grade:
    """Clean up to the first limit, rough up to the second, else it wants support."""
    if value_mm <= limits_mm[0] + MEASURE_MM:
        return "clean"
    return "rough" if value_mm <= limits_mm[1] + MEASURE_MM else "support"


def step_mm(slope_rad: float, layer_mm: float) -> float:
    """How far each layer stands out beyond the one below it on an underside of this slope above the horizontal."""
    return layer_mm / math.tan(slope_rad) if slope_rad > 1e-9 else math.inf


def judge_slope(slope_rad: float, layer_mm: float, line_mm: float) -> Grade:
    """45 deg is clean; flatter is rough while each line still rests in part on the line below; then it wants support.

    A line laid `step_mm` further out than the one below has lost all support when the step reaches the line's width
    (geometry; that it then droops is common practice, no source). At 0.2 mm layers and 0.42 mm lines this is 25 deg.
    """
    if slope_rad >= FLATTEST_RAD:
        return "clean"
    return "rough" if step_mm(slope_rad, layer_mm) <= line_mm else "support"
