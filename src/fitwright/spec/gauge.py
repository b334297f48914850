"""From a gauge's keys to its steps: how many, how far apart, and what stands on each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitwright.physics.fits import scatter_mm
from fitwright.physics.gauge_steps import HOSE_LABEL_MM, fit_range, gauge_values_mm, nice_step_mm, widened
from fitwright.spec.faults import Fault, FaultError
from fitwright.spec.grammar.gauge import FitGaugeKeys
from fitwright.spec.grammar.joints import ALLOWANCE
from fitwright.spec.models import FitGaugeSpec, GaugeStep, Printer
from fitwright.spec.size import Size
from fitwright.units import MM_PER_INCH, Units, format_length

WALL_LINES = 3
"""Wall of a gauge in printed lines: it holds its shape in the hand, and prints in minutes (common practice)."""
SET_WALL_MM = 1.5
"""Of a ring to measure the printer with: its outside is then 3 mm larger than its hole."""
HOSE_ALLOWANCE_MM = 0.5
HOSE_ACROSS_MM = 0.3
"""A soft hose that lies oval, read across: how well it is known once pressed round (common practice, no source)."""
LEAST_PLUG_MM = 12.0
"""A smaller plug or bore has no room for a wall and its mark."""


def gauge_of(keys: FitGaugeKeys, shared: Mapping[str, object], printer: Printer) -> FitGaugeSpec:
    """The spec; FaultError where its values don't go together. `shared` is what all families have."""
    wall = default_wall_mm(keys, printer) if keys.wall is None else keys.wall
    own: dict[str, object] = {"wall_mm": wall, "kind": keys.kind, "height_mm": keys.height}
    own["form"] = None if keys.form == "auto" else keys.form
    if keys.sizes is not None:
        steps = tuple(GaugeStep(mark=m, printed_mm=d, outside_mm=round(d + 2 * wall, 6)) for m, d in _set(keys))
        return FitGaugeSpec.model_validate({**shared, **own, "key": "sizes", "form": "separate", "steps": steps})
    gauged = keys.gauged
    assert gauged is not None
    hose = gauged.size_key in ("hose_inside", "hose")
    marks = keys.marks or ("size" if hose else "allowance")
    bought = bought_mm(gauged.size, hose)
    low, high = _range(keys, hose, marks, printer)
    step = nice_step_mm(low, high, keys.steps, keys.units == "in") if keys.step is None else keys.step
    steps = gauge_steps(keys.kind, bought, (low + high) / 2, step, keys.steps, marks, keys.units)
    if steps[0].printed_mm < LEAST_PLUG_MM:
        found = f"{keys.steps} steps of {format_length(step, keys.units)} down to {steps[0].printed_mm:.1f} mm"
        allowed = f"steps down to {format_length(LEAST_PLUG_MM, keys.units)} or more"
        raise FaultError([Fault(("step",), found, allowed, "a smaller step, or fewer steps", at="key")])
    own |= {"key": f"{keys.kind}.{gauged.size_key}", "bought_mm": bought, "steps": steps, "marks": marks}
    own["bought"] = "hose" if hose else "pipe" if keys.rings else "hole"
    return FitGaugeSpec.model_validate({**shared, **own})


def default_wall_mm(keys: FitGaugeKeys, printer: Printer) -> float:
    """A few lines; a set of sizes gets a wall that makes its outsides round numbers."""
    lines = round(WALL_LINES * printer.line_mm, 6)
    return max(SET_WALL_MM, lines) if keys.sizes is not None else lines


def bought_mm(size: Size, hose: bool) -> float:
    """The size [mm] that a joint's allowance is counted from: the middle of the spread; of a hose what it is called."""
    return size.nominal_mm if hose else (size.least_mm + size.greatest_mm) / 2


def spread_mm(size: Size, hose: bool = False) -> float:
    """Half of what the bought part may differ by [mm], its ovality with it; a hose that lies oval goes round again."""
    if hose and size.ovality_mm:
        return HOSE_ACROSS_MM
    return (size.greatest_mm - size.least_mm) / 2 + size.ovality_mm / 2


def _range(keys: FitGaugeKeys, hose: bool, marks: str, printer: Printer) -> tuple[float, float]:
    gauged = keys.gauged
    assert gauged is not None
    d, spread = gauged.size.nominal_mm, spread_mm(gauged.size, hose)
    scatters = d, printer.scatter_rel, printer.scatter_abs_mm
    if not hose or keys.fit is not None:
        return fit_range(keys.fit, *scatters, spread)
    if marks == "size":
        most = max(HOSE_LABEL_MM, scatter_mm(*scatters) + spread)
        return -most, most
    return widened(0.0, 2 * HOSE_ALLOWANCE_MM, *scatters, spread)


def gauge_steps(
    kind: str, bought: float, middle: float, step: float, count: int, marks: str, units: Units
) -> tuple[GaugeStep, ...]:
    """The steps, rising in size. `middle` is the allowance [mm] in the middle, `bought` what it is counted from."""
    inches = units == "in"
    sign = 1.0 if kind == "rings" else -1.0
    if marks == "size":
        printed = gauge_values_mm(bought + sign * middle, step, count, inches)
        return tuple(GaugeStep(mark=m, printed_mm=d) for m, d in zip(marked(printed, units), printed, strict=True))
    allowances = _writable(gauge_values_mm(middle, step, count, inches), step)
    made = [
        GaugeStep(mark=m, printed_mm=round(bought + sign * a, 6))
        for m, a in zip(marked(allowances, units), allowances, strict=True)
    ]
    return tuple(sorted(made, key=lambda one: one.printed_mm))


def _writable(allowances: tuple[float, ...], step: float) -> tuple[float, ...]:
    """Moved up by whole steps until the least may be written as an allowance (that of a soft cuff may be less)."""
    least = ALLOWANCE.least or 0.0
    if allowances[-1] < least:
        return allowances
    short = max(0, -int((allowances[0] - least + 1e-9) // step))
    return tuple(round(one + short * step, 9) for one in allowances)


def _set(keys: FitGaugeKeys) -> list[tuple[str, float]]:
    sizes = keys.sizes or ()
    return list(zip(marked(sizes, keys.units), sizes, strict=True))


def marked(values_mm: Sequence[float], units: Units) -> list[str]:
    """What stands on the pieces: all with the same decimals, as few as tell them exactly (four at the most).

    >>> marked([-0.2, 0.05, 0.3], "mm")
    ['-0.20', '0.05', '0.30']
    """
    values = [value / (MM_PER_INCH if units == "in" else 1.0) for value in values_mm]
    digits = next((n for n in range(4) if all(abs(round(v, n) - v) < 1e-6 for v in values)), 3)
    return [f"{round(value, digits) + 0.0:.{digits}f}" for value in values]
