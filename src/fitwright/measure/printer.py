"""What a printer does to sizes: printed = scale x modelled + offset, fitted to gauges that were printed and measured.

One scale, along x and along y where readings say so; an offset each for holes, outsides, and small holes (the width of
the line, which lies half inside the outline). The mean of a gauge's readings is one observation. Its variance is that
of the print from gauge to gauge plus that of a reading / number of readings; the first is found by moments, so that a
gauge read once weighs less than one read five times, and no more than the print's own scatter allows.

Outliers: externally studentised residuals, the worst tested with Bonferroni's correction, left out, and again
(R. D. Cook and S. Weisberg, Residuals and Influence in Regression, 1982, section 2.2; from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from fitwright.measure.linear_fit import LinearFit, linear_fit, worst_of
from fitwright.measure.slips import ALARM, LEAST_SD_MM, Slip, repeats

Kind = Literal["hole", "outside"]
Along = Literal["round", "x", "y"]
SCALE = (0.97, 1.03)
OFFSET_MM = 1.0
"""Beyond these it is no printer but a slip: inches for mm, a hole read outside (common practice, no source)."""
LEAST_SPREAD_MM = 20.0
"""Between the smallest and the largest hole, or outside: less does not tell scale and offset apart."""
LEAST_DOF = 2
CALIPER_MM = 0.03
"""Half-range of what a caliper can see; scatter is never said to be less (error limit of a 0.01 mm caliper: 0.02 to
0.03 mm; from memory, after DIN 862)."""
WORST_SD_MM, WORST_REL, WORST_MM = 0.3, 0.02, 1.0
"""Prints that scatter more are not repeatable, and fits that have to allow for more are none (common practice)."""
SAME_SCALE = 1e-6
"""Scales closer than this are one: 0.0002 mm on 200 mm is rounding, not a printer."""
DIFFERS = 0.05
MOST_LEFT_OUT = 0.25
"""Where a larger share of the gauges is off, they do not lie on a line at all."""


class CalibrationError(ValueError):
    """The gauges as a whole cannot tell the printer: what was found, what would do."""

    def __init__(self, found: str, allowed: str, hint: str = "") -> None:
        super().__init__(f"{found}; {allowed}. {hint}")
        self.found, self.allowed, self.hint = found, allowed, hint


@dataclass(frozen=True)
class Gauge:
    """Readings [mm] of one modelled size [mm], all along one axis of the printer, or anyhow (`round`)."""

    kind: Kind
    size_mm: float
    readings_mm: tuple[float, ...]
    along: Along = "round"


@dataclass(frozen=True)
class Estimate:
    """A value with its standard error and half the width of its 95 % interval."""

    value: float
    error: float
    half_width: float


@dataclass(frozen=True)
class Outlier:
    """A gauge whose mean lies `off_mm` off the line of the others; `chance`: of the worst of so many being so far."""

    gauge: int
    off_mm: float
    chance: float


@dataclass(frozen=True)
class Apart:
    """Whether two scales differ: their difference, and p."""

    by: Estimate
    chance: float

    @property
    def differs(self) -> bool:
        """At the 5 % level, and by more than rounding."""
        return self.chance < DIFFERS and abs(self.by.value) > SAME_SCALE


@dataclass(frozen=True)
class Calibration:
    """What was found. Offsets are None where no gauge of the kind was there; `scale` is the mean of x and y.

    A print's diameter lies within `scatter_rel` x d + `scatter_abs_mm` of the line 19 times of 20, at any size up to
    the one asked for. `reading_sd_mm` None: nothing was read twice. `used`: numbers of the gauges in the fit.
    `known_mm`: half the 95 % interval of the line at the largest gauge.
    """

    scale: Estimate
    scale_x: Estimate | None
    scale_y: Estimate | None
    offsets: dict[str, Estimate]
    scatter_rel: float
    scatter_abs_mm: float
    print_sd_mm: float
    reading_sd_mm: float | None
    used: tuple[int, ...]
    known_mm: float
    outliers: tuple[Outlier, ...] = ()
    slips: tuple[Slip, ...] = ()
    holes_apart: Apart | None = None
    axes_apart: Apart | None = None


@dataclass(frozen=True)
class _Data:
    """Observations: gauges with their numbers in the file, as rows of the model."""

    gauges: tuple[Gauge, ...]
    numbers: tuple[int, ...]
    small_below_mm: float

    def group(self, gauge: Gauge) -> str:
        """The offset that it has."""
        return "small hole" if gauge.kind == "hole" and gauge.size_mm < self.small_below_mm else gauge.kind

    @property
    def groups(self) -> list[str]:
        """Those that are there, in order."""
        return sorted({self.group(one) for one in self.gauges})

    @property
    def by_axis(self) -> bool:
        """Whether x and y have scales of their own."""
        return {"x", "y"} <= {one.along for one in self.gauges}

    def row(self, size_mm: float, group: str, along: Along = "round") -> list[float]:
        """The model's row of a size."""
        share = {"round": (0.5, 0.5), "x": (1.0, 0.0), "y": (0.0, 1.0)}[along] if self.by_axis else (1.0,)
        return [size_mm * one for one in share] + [1.0 if group == one else 0.0 for one in self.groups]

    @property
    def rows(self) -> list[list[float]]:
        """One a gauge."""
        return [self.row(one.size_mm, self.group(one), one.along) for one in self.gauges]

    @property
    def means(self) -> list[float]:
        """One a gauge [mm]."""
        return [float(np.mean(one.readings_mm)) for one in self.gauges]

    def without(self, k: int) -> _Data:
        """All but one."""
        return replace(
            self, gauges=self.gauges[:k] + self.gauges[k + 1 :], numbers=self.numbers[:k] + self.numbers[k + 1 :]
        )


def calibrate(gauges: Sequence[Gauge], small_below_mm: float, largest_mm: float) -> Calibration:
    """Scale and offsets of a printer from its gauges; holes below `small_below_mm` have an offset of their own.

    `largest_mm` is the size up to which the scatter is to hold (the bed's). CalibrationError says what is missing.
    """
    read = repeats([one.readings_mm for one in gauges])
    kept = [(k, replace(g, readings_mm=r)) for k, (g, r) in enumerate(zip(gauges, read.readings_mm, strict=True)) if r]
    data = _Data(tuple(g for _, g in kept), tuple(k for k, _ in kept), small_below_mm)
    fit, data, outliers, between = _without_outliers(data, read.sd_mm)
    found = _told(data, fit, largest_mm)
    _refuse_nonsense(found)
    _refuse_vague(found, between, max(one.size_mm for one in gauges))
    return replace(
        found,
        print_sd_mm=between,
        reading_sd_mm=read.sd_mm,
        outliers=tuple(outliers),
        slips=read.slips,
        holes_apart=_holes_apart(data),
    )


def _without_outliers(data: _Data, reading_sd: float | None) -> tuple[LinearFit, _Data, list[Outlier], float]:
    """The worst gauge left out while it is worse than chance allows."""
    outliers: list[Outlier] = []
    most = int(MOST_LEFT_OUT * len(data.gauges))
    while True:
        refuse_too_little(data.gauges, data.small_below_mm)
        fit, between = _fit(data, reading_sd)
        worst, chance = worst_of(fit.studentised(LEAST_SD_MM), fit.dof - 1)
        if chance >= ALARM:
            return fit, data, outliers, between
        off = float(fit.residuals[worst] / (1.0 - fit.leverages[worst]))
        outliers.append(Outlier(data.numbers[worst], off, chance))
        if len(outliers) > max(1, most):
            raise CalibrationError(
                f"{len(outliers)} gauges that lie on no line with the others",
                f"at most {max(1, most)}",
                "measure them again, or print a fresh set in one go",
            )
        data = data.without(worst)


def _fit(data: _Data, reading_sd: float | None) -> tuple[LinearFit, float]:
    """Fit with weights, and the print's own standard deviation [mm] from gauge to gauge.

    By moments from the plain fit: sum r^2 = sum (1 - h_i)(between^2 + reading^2 / n_i).
    """
    plain = linear_fit(data.rows, data.means, [1.0] * len(data.gauges))
    share = np.array([(reading_sd or 0.0) ** 2 / len(one.readings_mm) for one in data.gauges])
    free = 1.0 - plain.leverages
    between = max(0.0, float(np.sum(plain.residuals**2) - np.sum(free * share)) / float(np.sum(free)))
    variance = between + share
    if np.ptp(variance) <= 1e-12:
        return plain, float(np.sqrt(between))
    return linear_fit(data.rows, data.means, list(1.0 / np.maximum(variance, 1e-12))), float(np.sqrt(between))


def refuse_too_little(gauges: Sequence[Gauge], small_below_mm: float) -> None:
    """CalibrationError where the gauges are too few, or all of one size."""
    data = _Data(tuple(gauges), tuple(range(len(gauges))), small_below_mm)
    need = len(data.groups) + (2 if data.by_axis else 1) + LEAST_DOF
    print_these = "print holes and outsides of 20, 40, 60, 80 and 100 mm"
    spreads = [[g.size_mm for g in gauges if data.group(g) == name] for name in data.groups]
    spread = max((max(sizes) - min(sizes) for sizes in spreads), default=0.0)
    if spread < LEAST_SPREAD_MM:
        found = f"sizes that differ by {spread:g} mm at the most within holes or within outsides"
        why = "scale and offset cannot be told apart"
        raise CalibrationError(found, f"{LEAST_SPREAD_MM:g} mm or more", f"{why}: {print_these}")
    if len(gauges) < need:
        found = f"{len(gauges)} means to tell {need - LEAST_DOF} numbers from"
        raise CalibrationError(found, f"{need} or more (x and y count as one each)", print_these)


def _told(data: _Data, fit: LinearFit, largest_mm: float) -> Calibration:
    """The fit in the words of the job."""

    def estimate(row: Sequence[float]) -> Estimate:
        value, error = fit.of(row)
        return Estimate(value, error, fit.t * error)

    none = [0.0] * len(data.groups)
    scale = estimate(data.row(1.0, ""))
    x, y = (estimate(data.row(1.0, "", a)) for a in ("x", "y")) if data.by_axis else (None, None)
    offsets = {name: estimate(data.row(0.0, name)) for name in data.groups}
    differ = [1.0, -1.0, *none]
    largest = max(one.size_mm for one in data.gauges)
    known = fit.t * max(fit.of(data.row(largest, name))[1] for name in data.groups)
    rel, constant = _scatter(lambda d: max(fit.next_half_range(data.row(d, name)) for name in data.groups), largest_mm)
    return Calibration(
        scale=scale,
        scale_x=x,
        scale_y=y,
        offsets=offsets,
        scatter_rel=rel,
        scatter_abs_mm=constant,
        print_sd_mm=0.0,
        reading_sd_mm=None,
        used=data.numbers,
        known_mm=known,
        axes_apart=Apart(estimate(differ), fit.chance_of(differ)) if data.by_axis else None,
    )


def _scatter(half_range: Callable[[float], float], largest_mm: float) -> tuple[float, float]:
    """scatter_rel, scatter_abs [mm]: the half-range is convex in d, its chord lies above it from 0 to the largest."""
    at_nothing, at_largest = half_range(0.0), half_range(largest_mm)
    rel = max(0.0, (at_largest - at_nothing) / largest_mm)
    return rel, max(CALIPER_MM, at_nothing, at_largest - rel * largest_mm)


def _holes_apart(data: _Data) -> Apart | None:
    """Do holes scale differently from outsides? The model with one more column for it; None where it cannot be told."""
    holes = [g.size_mm if g.kind == "hole" else 0.0 for g in data.gauges]
    both = all(len({g.size_mm for g in data.gauges if data.group(g) == name}) > 1 for name in ("hole", "outside"))
    if not both or len(holes) - len(data.rows[0]) - 1 < 1:
        return None
    fit = linear_fit([[*row, d] for row, d in zip(data.rows, holes, strict=True)], data.means, [1.0] * len(holes))
    row = [0.0] * len(data.rows[0]) + [1.0]
    value, error = fit.of(row)
    return Apart(Estimate(value, error, fit.t * error), fit.chance_of(row))


def _refuse_vague(found: Calibration, print_sd_mm: float, size_mm: float) -> None:
    """Gauges that agree so badly, or are so few, that no fit can be told from them."""
    if print_sd_mm > WORST_SD_MM:
        said = f"gauges that scatter by {print_sd_mm:.2f} mm (standard deviation) about any line"
        raise CalibrationError(
            said, f"{WORST_SD_MM:g} mm or less", "look for typing slips; is each size the modelled one?"
        )
    half_range = found.scatter_rel * size_mm + found.scatter_abs_mm
    if half_range > WORST_MM or found.scatter_rel > WORST_REL:
        said = f"gauges from which the next print of {size_mm:g} mm is known to +-{half_range:.2f} mm only"
        allowed = f"+-{WORST_MM:g} mm or less"
        raise CalibrationError(said, allowed, "print more gauges, and sizes further apart: 20, 40, 60, 80 and 100 mm")


def _refuse_nonsense(found: Calibration) -> None:
    """A scale or an offset that no printer has."""
    hint = "look for inches among mm, for a hole written as an outside, for a typing slip"
    for name, scale in (("scale", found.scale), ("scale along x", found.scale_x), ("scale along y", found.scale_y)):
        if scale and not SCALE[0] <= scale.value <= SCALE[1]:
            raise CalibrationError(f"a {name} of {scale.value:.4f}", f"{SCALE[0]:g} to {SCALE[1]:g}", hint)
    for name, offset in found.offsets.items():
        if abs(offset.value) > OFFSET_MM:
            raise CalibrationError(f"{name}s {offset.value:+.2f} mm off", f"{OFFSET_MM:g} mm at the most", hint)
