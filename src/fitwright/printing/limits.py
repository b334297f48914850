"""What a printer manages without support, and how good a place is.

All limits are common practice. Sources read: 45 degrees, half of the bead resting on the bead below, and ledges of
0.5 to 1.5 mm (JAITA 2020, 38-47, abstract); bridges 10 mm clean, 20 mm with cooling (common practice, no source).
"""

from __future__ import annotations

import math
from typing import Literal

from fitwright.finding import Severity
from fitwright.tolerances import TOLERANCES

BRIDGE_MM = (10.0, 20.0)
"""Held at both ends: clean up to the first, sagging up to the second (common practice, no source)."""
LEDGE_MM = (0.8, 1.5)
"""Held on one side: clean up to the first, curling up to the second (common practice)."""
FLATTEST_RAD = math.pi / 4 - TOLERANCES.overhang_slack_rad
"""An underside less steep than this above the horizontal is looked at."""
MEASURE_MM = 0.01
"""Accuracy of the measured spans: the mesh's chord on both sides."""

Form = Literal["bridge", "ledge", "slope"]
RANK: dict[Severity, int] = {"pass": 0, "warn": 1, "fail": 2}


def judge(value_mm: float, limits_mm: tuple[float, float]) -> Severity:
    """pass up to the first limit, warn up to the second, else fail."""
    if value_mm <= limits_mm[0] + MEASURE_MM:
        return "pass"
    return "warn" if value_mm <= limits_mm[1] + MEASURE_MM else "fail"


def step_mm(slope_rad: float, layer_mm: float) -> float:
    """How far each layer stands out beyond the one below it on an underside of this slope above the horizontal."""
    return layer_mm / math.tan(slope_rad) if slope_rad > 1e-9 else math.inf


def judge_slope(slope_rad: float, layer_mm: float, line_mm: float) -> Severity:
    """45 deg passes; flatter warns while each line still rests in part on the line below; then it fails.

    A line laid `step_mm` further out than the one below has lost all support when the step reaches the line's width
    (geometry; that it then droops is common practice, no source). At 0.2 mm layers and 0.42 mm lines this is 25 deg.
    """
    if slope_rad >= FLATTEST_RAD:
        return "pass"
    return "warn" if step_mm(slope_rad, layer_mm) <= line_mm else "fail"
