"""A round thing from points on its rim, or from the chord and height of a part of its arc."""

from __future__ import annotations

import math

from fitwright.measure.circle import (
    Form,
    RimCircle,
    RoundSize,
    StraightError,
    arc_circle,
    rim_circle,
)
from fitwright.report.measured.face_line import length, lengths
from fitwright.report.measured.round_found import OVAL_REL, Found, counted, oval_advice, percent, say
from fitwright.spec.faults import Fault
from fitwright.spec.joints import Place
from fitwright.spec.measure_file import Asked
from fitwright.units import Units, format_angle

TOO_OPEN_REL = 0.02
"""A diameter less certain than this share of itself sizes no joint: 2 mm at 100 (common practice, no source)."""
OPEN_MM = 0.5
"""A diameter less certain than this is warned of: more than a slide fit gives (common practice, no source)."""
HALF_DEG = 200.0
"""Points that go no further round than this leave the diameter to the curvature of an arc."""


def rim(points: tuple[Place, ...], asked: Asked) -> Found:
    """The circle nearest to the points, its form where they go round, the suspect point."""
    units = asked.context.units
    try:
        circle = rim_circle([(p.right_mm, p.up_mm) for p in points])
    except StraightError:
        allowed = "3 or more points that go round a rim"
        raise asked.wrong([Fault(("points",), "points on a straight line, or in one place", allowed)]) from None
    form = None if circle.suspect is not None else circle.form()
    size = _size(circle, form)
    found = Found(size.d_mm, lines=[_size_words(size, counted(len(points), "point"), units)])
    found.lines.append(
        f"centre at right {say(circle.right_mm, units)}, up {say(circle.up_mm, units)}; the points go round "
        f"{circle.arc_deg:.0f} deg and lie within {say(max(abs(r) for r in circle.residuals_mm), units)} of it"
    )
    if circle.suspect is not None:
        return _suspected(found, circle, units)
    more = "points further round the rim" if circle.arc_deg < HALF_DEG else "more points"
    if _too_open(size, found, more, units):
        return found
    found.value = _value(size, form, units)
    found.lines += _form_lines(form, size, units)
    if form is not None and _is_oval(form) and form.oval_mm > OVAL_REL * size.d_mm:
        found.fit = "slide"
        found.lines += oval_advice(form.oval_mm, units)
    return found


def _size(circle: RimCircle, form: Form | None) -> RoundSize:
    """The diameter; where the rim is oval or lobed, as sure as what is left once that is taken off."""
    if form is None or not (_is_oval(form) or _is_lobed(form)):
        return circle.size
    d, error = circle.size.d_mm, form.mean_error_mm
    return RoundSize(d, d - error, d + error)


def arc(chords: tuple[float, ...], heights: tuple[float, ...], asked: Asked) -> Found:
    """The diameter from a part of the rim that cannot be spanned."""
    units = asked.context.units
    size, each = arc_circle(chords, heights)
    found = Found(size.d_mm, lines=[_size_words(size, counted(len(chords), "chord"), units)])
    if len(each) > 1:
        found.lines.append(f"each alone: {', '.join(say(d, units) for d in each)}")
    if _too_open(size, found, "a longer chord", units):
        return found
    found.value = _value(size, None, units)
    found.notes.append("the rest of the rim was not measured: how round it is this does not say")
    return found


def _size_words(size: RoundSize, how: str, units: Units) -> str:
    if math.isinf(size.greatest_mm):
        return f"diameter about {say(size.d_mm, units)}, anything from {say(size.least_mm, units)} to straight ({how})"
    return (
        f"diameter {say(size.d_mm, units)}, give or take {say(size.error_mm, units)}: "
        f"{say(size.least_mm, units)} to {say(size.greatest_mm, units)} ({how})"
    )


def _too_open(size: RoundSize, found: Found, cure: str, units: Units) -> bool:
    """Refuse an arc that leaves the diameter open; warn of one that leaves more than a fit gives."""
    if size.error_mm <= TOO_OPEN_REL * size.d_mm:
        if size.error_mm > OPEN_MM:
            found.notes.append(f"that is more than a fit gives: {cure}, or print the try-piece first")
        return False
    radius = "without bound" if math.isinf(size.error_mm) else f"by {say(size.error_mm / 2.0, units)}"
    allowed = say(TOO_OPEN_REL * size.d_mm / 2.0, units)
    found.lines.append(f"too short an arc: the radius is uncertain {radius}, allowed {allowed} (2 %); take {cure}")
    found.good = False
    return True


def _value(size: RoundSize, form: Form | None, units: Units) -> str:
    """As readings where the rim is oval, so that the part sees it; else a diameter with its tolerance."""
    if form is not None and _is_oval(form):
        half = form.oval_mm / 2.0
        return lengths([round(size.d_mm + turned, 2) for turned in (half, 0.0, -half, 0.0)], units)
    tolerance = length(round(max(size.error_mm, 0.1), 2), units)
    return f"{{catalogue: {length(round(size.d_mm, 2), units)}, tolerance: {tolerance}}}"


def _is_oval(form: Form) -> bool:
    return form.oval_mm > form.oval_error_mm


def _is_lobed(form: Form) -> bool:
    return form.lobes_mm > form.lobes_error_mm


def _form_lines(form: Form | None, size: RoundSize, units: Units) -> list[str]:
    if form is None:
        return ["its form is not judged: that takes 9 points or more, all round, none further than 75 deg apart"]
    lines = []
    if _is_oval(form):
        share = percent(form.oval_mm / size.d_mm)
        lines.append(
            f"oval: by {say(form.oval_mm, units)}, give or take {say(form.oval_error_mm, units)} ({share}), "
            f"widest at {format_angle(form.wide_at_deg)} from right towards up"
        )
    if _is_lobed(form):
        lines.append(
            f"three-lobed: {say(form.lobes_mm, units)} between its lobes and its flats, which no caliper shows; what "
            f"goes over it needs {say(size.d_mm + form.lobes_mm, units)}"
        )
    return lines or ["round, as far as these points show"]


def _suspected(found: Found, circle: RimCircle, units: Units) -> Found:
    at = circle.suspect
    assert at is not None
    x, y = circle.points_mm[at]
    rest = [p for i, p in enumerate(circle.points_mm) if i != at]
    off = circle.residuals_mm[at]
    side = "outside" if off > 0 else "inside"
    found.lines.append(
        f"suspect: point {at + 1} (right {say(x, units)}, up {say(y, units)}) lies {say(abs(off), units)} {side} the "
        "circle"
    )
    found.lines.append(f"without it the diameter is {say(rim_circle(rest).size.d_mm, units)}: check that point")
    found.good = False
    return found
