"""The fit gauge: rings or plugs that step through a size, each with its value on it, on one bed."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.gauge_body import gauge_body
from fitwright.parts.gauge_plate import laid_out
from fitwright.parts.gauge_sizes import gauge_sizes
from fitwright.parts.gauge_words import gauge_assumed, gauge_dimensions, gauge_facts
from fitwright.spec.models import FitGaugeSpec

CAUTIONS = ("A gauge tells one spool on one printer: print it in the filament and with the settings of the part.",)


def build_fit_gauge(spec: FitGaugeSpec) -> Part:
    """The part; RefusalError where the bed or a piece has no room for what is asked."""
    sizes = gauge_sizes(spec)
    laid = laid_out(spec, sizes)
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
