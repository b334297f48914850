"""What a printer's profile leaves open in a part: another filament, sizes beyond its gauges, x and y apart."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.profiles import OTHER_NAMES
from fitwright.finding import Finding
from fitwright.part import Part
from fitwright.spec.models import Calibration, Material, PartBase
from fitwright.units import format_number

BEYOND = 1.5
"""A diameter larger than the largest gauge by more than this factor is read off the end of the line."""
OVAL_MM = 0.2
"""An ovality above this takes up a sliding fit's air (physics/fits.py)."""

_Doubt = tuple[str, str, float | None, float | None]


def doubts(code: str, part: Part, spec: PartBase) -> Iterator[Finding]:
    """Warnings: the numbers hold for one filament, for sizes such as were measured, for round prints."""
    if not part.printed:
        return
    name = part.bodies[0].name if part.bodies else ""
    for message, advice, value, limit in _doubts(part, spec):
        yield Finding(code, "warn", name, value, limit, "mm" if value is not None else "", "printer", message, advice)


def _doubts(part: Part, spec: PartBase) -> Iterator[_Doubt]:
    printer, known = spec.printer, spec.printer.calibration
    sizes = [max(fit.printed0_mm, fit.printed1_mm, fit.scatter_d_mm) for body in part.bodies for fit in body.fits]
    if known and known.material and _called(known.material) not in _names(spec.material):
        yield _other_filament(printer.name, known, spec.material.name)
    if known and known.largest_mm and sizes and max(sizes) > BEYOND * known.largest_mm:
        largest, size = format_number(known.largest_mm, 1), format_number(max(sizes), 1)
        message = f"{size} mm lies far beyond the largest gauge of {printer.name}, {largest} mm: its scale is stretched"
        yield message, "Print and measure a larger gauge.", float(max(sizes)), float(BEYOND * known.largest_mm)
    oval = 2 * printer.oval_rel * max(sizes, default=0.0)
    if oval > OVAL_MM:
        apart = f"x and y print apart ({printer.scale_x:.4f} and {printer.scale_y:.4f})"
        message = f"{apart}: {format_number(max(sizes), 1)} mm round comes out oval by {format_number(oval, 2)} mm"
        yield message, "Set the printer's steps per mm along x and y, then measure it again.", float(oval), OVAL_MM


def _names(material: Material) -> tuple[str, ...]:
    """What a part's filament may be called: a spool of one's own also like the kind that it is."""
    like = material.origin.like if material.origin else material.name
    return _called(material.name), _called(like)


def _other_filament(name: str, known: Calibration, material: str) -> _Doubt:
    message = f"{name} was measured in {known.material}, this part is {material}: filaments shrink by different amounts"
    return message, f"Print gauges in {material} and measure them, or take the fits as guesses.", None, None


def _called(material: str) -> str:
    """One name for each filament, capitals or not."""
    name = " ".join(material.casefold().split())
    return OTHER_NAMES.get(name, name).casefold()
