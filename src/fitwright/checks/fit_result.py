"""Check `fit.result`: will the print go on, hold and seal, whatever both parts measure within their spread?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from fitwright.checks.fit_printer import doubts
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, FitSurface, Part
from fitwright.physics.fit_words import FitVerdict, Meeting, judge_fit
from fitwright.physics.fits import Squeeze, clearance_range, cord_squeeze
from fitwright.physics.stretch import Stretching, judge_stretch
from fitwright.units import format_number

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase, Printer, Size

CODE = "fit.result"
OVAL_REL = 0.01
"""A diameter that differs by more than this share of itself round the part is oval (common practice, no source)."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """One finding for each fit, and a warning for each size that nobody has measured or that is oval."""
    fits = {
        fit.name: (body, fit) for body in reversed(part.bodies) for fit in body.fits
    }  # once, though two halves share it
    findings = [_judge(body, fit, spec) for body, fit in reversed(fits.values())]
    name = part.bodies[0].name if part.bodies else ""
    findings += [*_doubtful_sizes(name, spec), *doubts(CODE, part, spec), *_open_slit(name, part, spec)]
    if part.family in ("fit_gauge", "gate_bracket") or not part.printed:
        return findings  # what fits is found by trying it; a bracket has no joints
    return findings or [Finding(CODE, "pass", name, None, None, "", "whole part", "no joint with a fit")]


def _judge(body: Body, fit: FitSurface, spec: PartBase) -> Finding:
    meeting = meeting_of(fit, spec.printer, spec.material.strain_limit)
    verdict = judge_stretch(_stretching(fit, meeting)) if fit.fit == "stretch" else judge_fit(meeting)
    message = f"{fit.name} on its {fit.bought}: {verdict.words}{_stops_where(meeting, verdict)}"
    advice = f"{verdict.advice[0].upper()}{verdict.advice[1:]} ({fit.key})." if verdict.advice else ""
    value, limit = float(verdict.value_mm), float(verdict.limit_mm)
    return Finding(CODE, verdict.severity, body.name, value, limit, "mm", fit.key, message, advice)


def meeting_of(fit: FitSurface, printer: Printer, strain_limit: float) -> Meeting:
    """A declared fit as the clearances at its two ends, over the spread of the print and of the bought part."""
    mouth = _range(fit, fit.printed0_mm, fit.bought_least0_mm, fit.bought_greatest0_mm, printer)
    bottom = _range(fit, fit.printed1_mm, fit.bought_least1_mm, fit.bought_greatest1_mm, printer)
    return Meeting(
        mouth=mouth,
        bottom=bottom,
        engaged_mm=fit.s1_mm - fit.s0_mm,
        d_mm=min(fit.printed0_mm, fit.printed1_mm),
        seal=fit.seal,
        grip=fit.grip,
        strain_limit=strain_limit,
        flexes=fit.flexes,
        flat=fit.about is not None,
        hose=fit.fit == "hose",
        squeeze=_squeeze(fit, mouth, bottom),
    )


def _stretching(fit: FitSurface, meeting: Meeting) -> Stretching:
    return Stretching(fit.kind, meeting.mouth, meeting.bottom, meeting.d_mm, fit.bore_wall_mm, meeting.strain_limit)


def _range(fit: FitSurface, printed: float, least: float, greatest: float, printer: Printer) -> tuple[float, float]:
    if fit.scatter_mm is not None:
        return clearance_range(fit.kind, printed, least, greatest, 0.0, fit.scatter_mm)
    of_longer = printer.scatter_rel * max(0.0, fit.scatter_d_mm - printed)
    scatter = printer.scatter_abs_mm + of_longer
    return clearance_range(fit.kind, printed, least, greatest, printer.scatter_rel, scatter)


def _squeeze(fit: FitSurface, mouth: tuple[float, float], bottom: tuple[float, float]) -> Squeeze | None:
    """Over the whole gap range, wherever along the joint the groove is."""
    if fit.cord_mm <= 0.0:
        return None
    least, greatest = min(mouth[0], bottom[0]), max(mouth[1], bottom[1])
    return cord_squeeze(max(least, 0.0), max(greatest, 0.0), fit.cord_groove_depth_mm, fit.cord_mm)


def _stops_where(meeting: Meeting, verdict: FitVerdict) -> str:
    """For a joint that closes towards its bottom: does it grip before the stop, in every case, in some, in none?"""
    if not meeting.tapered or meeting.hose or meeting.grip == "stretch" or verdict.severity == "fail":
        return ""
    tight, slack = meeting.grips_at_mm(0.0), meeting.grips_at_mm(1.0)
    depth = meeting.engaged_mm
    if slack < depth:
        short = format_number(depth - tight, 0)
        return f", always grips before the stop (up to {short} mm short of it)"
    alone = " (nothing else holds it then)" if meeting.grip == "taper" else ""
    if tight >= depth:
        return f", reaches the stop before it grips{alone}"
    return f", may reach the stop before it grips{alone}"


def _open_slit(name: str, part: Part, spec: PartBase) -> Iterator[Finding]:
    """A slit along the whole sleeve stays a slot between its ends, whatever the bands do."""
    slit = getattr(spec, "slit", None)
    if slit is None:
        return
    if slit.seal is None:
        message = f"slit {part.facts.get('slit', '').partition(';')[0]}: nothing seals it"
        advice = "Lay tape or a foam strip along it inside, and write slit: {seal: tape}."
        yield Finding(CODE, "warn", name, None, None, "", "slit", message, advice)


def _doubtful_sizes(name: str, spec: PartBase) -> Iterator[Finding]:
    for place, size in spec.sizes.items():
        yield from _doubtful_size(name, place, size)


def _doubtful_size(name: str, place: str, size: Size) -> Iterator[Finding]:
    if size.status == "memory":
        message = f"{format_number(size.nominal_mm, 2)} mm ({size.source}) is remembered, not read from the standard"
        advice = "Measure the part and give the reading instead."
        yield Finding(CODE, "warn", name, float(size.nominal_mm), None, "mm", place, message, advice)
    limit = OVAL_REL * size.nominal_mm
    if size.ovality_mm > limit:
        message = f"the readings differ by {format_number(size.ovality_mm, 2)} mm round the part: it is oval"
        advice = "Lay a tape round it and give the circumference; it tells the size of what can be pressed round."
        yield Finding(CODE, "warn", name, float(size.ovality_mm), float(limit), "mm", place, message, advice)
