"""Which sizes a fit gauge steps through: enough to find the one that fits, whatever printer and bought part measure.

The range is worked out on the diametral allowance: from the tightest fit to the slackest, widened by the printer's
scatter and by the spread of the bought part. All numbers in mm.
"""

from __future__ import annotations

import math

from fitwright.physics.fits import Fit, allowance_mm, scatter_mm

NICE_MM = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0)
"""Steps that one can add up in one's head."""
NICE_IN = (0.002, 0.004, 0.005, 0.01, 0.015, 0.02, 0.025, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.125, 0.15, 0.2)
GRIDS_MM, GRIDS_IN = (0.1, 0.05, 0.01, 0.001), (0.01, 0.005, 0.001, 0.0001)
"""The middle of the gauge is rounded to the coarsest of these that divides the step, so that marks stay short."""
HOSE_LABEL_MM = 2.0
"""A hose's inside differs from what it is called by up to this: 100 mm is sold as 4 in (common practice, no source)."""
MM_PER_INCH = 25.4


def fit_range(
    fit: Fit | None, d_mm: float, scatter_rel: float, scatter_abs_mm: float, spread_mm: float
) -> tuple[float, float]:
    """Least and greatest allowance [mm] that a gauge should hold; `fit` None: from press to slide.

    `spread_mm` is the half-range of the bought part's own size.

    >>> [round(one, 3) for one in fit_range(None, 100.0, 0.002, 0.1, 0.1)]
    [-0.35, 0.9]
    """
    fits: tuple[Fit, ...] = ("press", "slide") if fit is None else (fit,)
    wanted = [allowance_mm(one, d_mm, scatter_rel, scatter_abs_mm).value_mm for one in fits]
    return widened(min(wanted), max(wanted), d_mm, scatter_rel, scatter_abs_mm, spread_mm)


def widened(
    low_mm: float, high_mm: float, d_mm: float, scatter_rel: float, scatter_abs_mm: float, spread_mm: float
) -> tuple[float, float]:
    """A range of allowances [mm], widened by the printer's scatter and the bought part's spread on both sides."""
    more = scatter_mm(d_mm, scatter_rel, scatter_abs_mm) + spread_mm
    return low_mm - more, high_mm + more


def nice_step_mm(low_mm: float, high_mm: float, count: int, inches: bool = False) -> float:
    """The least round step [mm] by which `count` values reach from low to high.

    >>> nice_step_mm(-0.35, 0.9, 7)
    0.25
    """
    need = (high_mm - low_mm) / (count - 1)
    steps = [step * MM_PER_INCH for step in NICE_IN] if inches else list(NICE_MM)
    return next((step for step in steps if step >= need - 1e-9), math.ceil(need))


def gauge_values_mm(middle_mm: float, step_mm: float, count: int, inches: bool = False) -> tuple[float, ...]:
    """`count` rising values [mm] about a middle that is rounded so that all of them are short to write.

    >>> gauge_values_mm(0.275, 0.25, 5)
    (-0.2, 0.05, 0.3, 0.55, 0.8)
    """
    unit = MM_PER_INCH if inches else 1.0
    step = step_mm / unit
    grid = next((one for one in (GRIDS_IN if inches else GRIDS_MM) if _divides(one, step)), 0.0)
    lowest = middle_mm / unit - step * (count - 1) / 2.0
    first = round(math.floor(lowest / grid + 0.5) * grid, 9) if grid else lowest
    return tuple(round((first + k * step) * unit, 9) for k in range(count))


def _divides(grid: float, step: float) -> bool:
    return abs(step / grid - round(step / grid)) < 1e-6
