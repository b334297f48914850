"""The fit gauge: rings or plugs that step through a size, each with its value on it, on one bed."""

from __future__ import annotations

from fitwright.errors import RefusalError
from fitwright.part import Part
from fitwright.parts.gauge_body import gauge_body
from fitwright.parts.gauge_plate import Laid, laid_out
from fitwright.parts.gauge_sizes import gauge_sizes
from fitwright.parts.gauge_words import gauge_assumed, gauge_dimensions, gauge_facts
from fitwright.spec.models import FitGaugeSpec

LEAST_OPEN_MM = 6.0
"""The narrowest opening of a plug: a window of 5 mm goes through both its faces."""
CAUTIONS = ("A gauge tells one spool on one printer: print it in the filament and with the settings of the part.",)


def build_fit_gauge(spec: FitGaugeSpec) -> Part:
    """The part; RefusalError where the bed or a piece has no room for what is asked."""
    sizes = gauge_sizes(spec)
    laid = laid_out(spec, sizes)
    _refuse_filled(spec, laid)
    bodies = tuple(gauge_body(one.draft, sizes, one.at, spec.key) for one in laid)
    return Part(
        name=spec.name,
        family=spec.part,
        bodies=bodies,
        dimensions=gauge_dimensions(laid),
        section_across=(0.0, 0.0, 1.0),
        facts=gauge_facts(spec, laid),
        assumed=gauge_assumed(spec, laid, sizes),
        cautions=CAUTIONS,
        one_plate=True,
    )


def _refuse_filled(spec: FitGaugeSpec, laid: list[Laid]) -> None:
    """A wall that leaves no opening."""
    least = min(one.draft.least_r_mm for one in laid)
    if least < LEAST_OPEN_MM / 2:
        allowed = f"{spec.wall_mm - LEAST_OPEN_MM / 2 + least:.2f} mm or less"
        raise RefusalError("wall", f"{spec.wall_mm:.2f} mm", allowed, "the smallest plug would be filled up")
