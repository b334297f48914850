"""What `measure printer` says: the numbers with their uncertainty, what was left out, what it means for a part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.measure.printer import Apart, Calibration, Estimate
from fitwright.report.measured.printer_slips import left_out
from fitwright.spec.grammar.measuring.printer import PrinterReadingKeys
from fitwright.spec.measure_file import Asked
from fitwright.spec.models import Printer
from fitwright.units import MM_PER_INCH, Units, format_length

POOR_MM = 0.2
"""A line known no better than this at its largest gauge wants more gauges: a sliding fit's air (physics/fits.py)."""


def calibration_words(
    asked: Asked, keys: PrinterReadingKeys, base: Printer, found: Calibration, places: Sequence[tuple[int, str]]
) -> str:
    """All that is shown; `places` are gauge number and key of each observation."""
    units = asked.context.units
    return "\n".join(
        [
            _head(keys),
            "printed = scale x modelled size + offset, each to 95 %:",
            "",
            *_table(base, found, units),
            "",
            *_scatter(found, units),
            *_tests(found, keys, units),
            *left_out(asked, keys, found, places),
            *_meaning(keys, found, units),
        ]
    )


def _head(keys: PrinterReadingKeys) -> str:
    holes = sum(one.kind == "hole" for one in keys.gauges)
    read = sum(len(readings) for one in keys.gauges for readings in one.read_along.values())
    both = ((holes, "hole"), (len(keys.gauges) - holes, "outside"))
    counted = ", ".join(_count(n, what) for n, what in both if n)
    return f"{keys.name} in {keys.material}: {counted}, {_count(read, 'reading')}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")


def _table(base: Printer, found: Calibration, units: Units) -> Iterator[str]:
    if found.scale_x and found.scale_y:
        yield _scale("scale along x", found.scale_x)
        yield _scale("scale along y", found.scale_y)
        yield _scale("their mean", found.scale)
    else:
        yield _scale("scale", found.scale)
    kept = {"hole": base.hole_offset_mm, "outside": base.outside_offset_mm}
    for kind in ("hole", "outside", "small hole"):
        name = "holes below 10 mm" if kind == "small hole" else f"{kind}s"
        if one := found.offsets.get(kind):
            value, within, error = (_fine(v, units) for v in (one.value, one.half_width, one.error))
            signed = value if one.value < 0 else f"+{value}"
            yield f"  {name:<18} {signed:>10}   +-{within:<10} (standard error {error})"
        elif kind in kept:
            yield f"  {name:<18} {_fine(kept[kind], units):>10}   not measured: as in {base.name}"


def _scale(name: str, one: Estimate) -> str:
    return f"  {name:<18} {one.value:>10.4f}   +-{one.half_width:<10.4f} (standard error {one.error:.4f})"


def _length(mm: float, units: Units) -> str:
    return format_length(mm, units, fraction=False)


def _fine(mm: float, units: Units) -> str:
    """A small length, a place finer than sizes are told."""
    return f"{mm:.3f} mm" if units == "mm" else f"{mm / MM_PER_INCH:.4f} in"


def _scatter(found: Calibration, units: Units) -> Iterator[str]:
    if found.reading_sd_mm is None:
        yield "reading error: not known, nothing was read twice (three readings each would tell)"
    else:
        yield f"one reading scatters by {_fine(found.reading_sd_mm, units)} (standard deviation)"
    yield f"a print scatters about that line by {_fine(found.print_sd_mm, units)} (standard deviation)"
    rel = f"{_percent(found.scatter_rel)} % of the size + {_length(found.scatter_abs_mm, units)}"
    yield f"for fits: 19 of 20 prints lie within {rel} of what is wanted"


def _percent(part: float) -> str:
    """Two digits, none where there is nothing but rounding."""
    return f"{100 * part:.2g}" if part >= 5e-6 else "0"


def _tests(found: Calibration, keys: PrinterReadingKeys, units: Units) -> Iterator[str]:
    if one := found.holes_apart:
        yield f"holes and outsides: {_apart(one)}"
        if one.differs:
            yield "  one scale is used for both; are the gauges from one print, lying flat, seams out of the way?"
    if one := found.axes_apart:
        yield f"x and y: {_apart(one)}"
        if one.differs:
            largest = max(gauge.size_mm for gauge in keys.gauges)
            oval = _length(abs(one.by.value) * largest, units)
            yield f"  a round of {_length(largest, units)} comes out oval by {oval}, and fits count with it. The cure:"
            yield "  set the printer's steps per mm along x and y (belts tight first), then print and measure again"


def _apart(one: Apart) -> str:
    alike = "their scales differ" if one.differs else "one scale, as far as these gauges tell"
    return f"{alike} (difference {one.by.value:+.4f} +-{one.by.half_width:.4f}, p = {one.chance:.2g})"


def _meaning(keys: PrinterReadingKeys, found: Calibration, units: Units) -> Iterator[str]:
    largest = max(one.size_mm for one in keys.gauges)
    came = [
        f"{_length(found.scale.value * largest + found.offsets[kind].value, units)} as {words}"
        for kind, words in (("hole", "a hole"), ("outside", "an outside"))
        if kind in found.offsets
    ]
    known = _length(found.known_mm, units)
    yield ""
    yield f"A size modelled as {_length(largest, units)} prints as {' and '.join(came)}, known to +-{known};"
    yield f"parts that say `printer: {keys.name}` are modelled so that they print as wanted."
    if found.known_mm > POOR_MM:
        yield f"That is known poorly: print more gauges, some of them larger ({_length(POOR_MM, units)} would do)."
