"""Which readings and gauges were left out of a printer's fit, where they stand, and what to do about them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.measure.printer import Calibration, Outlier
from fitwright.measure.slips import Slip
from fitwright.spec.grammar.measuring.printer import PrinterReadingKeys
from fitwright.spec.measure_file import Asked
from fitwright.units import format_length

Place = tuple[int, str]
"""Gauge number and the key of its readings."""


def left_out(asked: Asked, keys: PrinterReadingKeys, found: Calibration, places: Sequence[Place]) -> Iterator[str]:
    """One line each, with gauge, line of the file, how far off, and how likely that is by chance."""
    for slip in found.slips:
        yield _slip(asked, keys, slip, places[slip.gauge])
    for outlier in found.outliers:
        yield _outlier(asked, keys, outlier, places[outlier.gauge])


def _slip(asked: Asked, keys: PrinterReadingKeys, slip: Slip, place: Place) -> str:
    number, key = place
    readings = keys.gauges[number].read_along[key]
    off = format_length(abs(slip.off_mm), asked.context.units, fraction=False)
    where = _where(asked, keys, place)
    if slip.reading is None:
        return f"left out: {where}: its two readings are {off} apart and one is a slip; read it again"
    reading = format_length(readings[slip.reading], asked.context.units, fraction=False)
    side = "above" if slip.off_mm > 0 else "below"
    chance = _chance(slip.chance)
    return f"left out: {where}: the reading {reading} is {off} {side} its fellows ({chance}); read it again"


def _outlier(asked: Asked, keys: PrinterReadingKeys, outlier: Outlier, place: Place) -> str:
    off = format_length(abs(outlier.off_mm), asked.context.units, fraction=False)
    side = "larger" if outlier.off_mm > 0 else "smaller"
    chance = _chance(outlier.chance)
    return (
        f"left out: {_where(asked, keys, place)}: it is {off} {side} than the others ask ({chance}); "
        "look for a typing slip, a blob or a seam under the caliper, and read it again"
    )


def _where(asked: Asked, keys: PrinterReadingKeys, place: Place) -> str:
    number, key = place
    one = keys.gauges[number]
    line = asked.tree.marks.get(("gauges", number), (0, 0))[0]
    along = "" if key == "read" else f" along {key}"
    size = format_length(one.size_mm, asked.context.units, fraction=False)
    return f"gauge {number + 1} ({one.kind} {size}{along}, line {line})"


def _chance(chance: float) -> str:
    """How often the worst of so many is so far off by chance."""
    return "by chance less than once in 10 000 times" if chance < 1e-4 else f"by chance once in {1 / chance:.0f} times"
