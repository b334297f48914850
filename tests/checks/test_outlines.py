"""`fit.built` on faces that are not round: as built against as meant, and parts spoilt by a fifth of a millimetre."""

from __future__ import annotations

import cadquery as cq
import pytest
from tests.test_must_fail import box, only, spoilt, the
from tests.whole import blocking, body_of, result_of

from fitwright.frame import Frame
from fitwright.shapes.forms import Form

TEXT = """part: reducer
end_a: {socket: {over: {rectangle: {width: 120, height: 60, corner: 8}}, fit: slide, depth: 30}}
end_b: {plain: {inside: 80}}
"""
OUTSIDE = """part: reducer
end_a: {spigot: {into: {oval: {width: 120, height: 60}}, depth: 30}}
end_b: {plain: {inside: 80}}
"""


def bore(by_mm: float, start: float = -1.0, long: float | None = None, aside: float = 0.0) -> cq.Solid:
    """The socket's own bore, all round larger by `by_mm`, as a solid about end_a's axis."""
    (fit,) = body_of(TEXT).fits
    assert fit.about is not None
    grown = Form(fit.about.grown((fit.d0_mm - fit.about_d_mm) / 2 + by_mm).moved(aside, 0.0), 0.0)
    end = fit.s1_mm if long is None else start + long
    return grown.full(((start, 0.0), (end, 0.0)), Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)))


@pytest.mark.parametrize("text", [TEXT, OUTSIDE])
def test_as_built_it_is_what_was_meant(text: str) -> None:
    (finding,) = (f for f in result_of(text).findings if f.code == "fit.built" and f.place.startswith("end_a"))
    assert finding.severity == "pass" and finding.value == pytest.approx(finding.limit, abs=0.03)


def test_a_socket_two_tenths_too_narrow_on_one_side() -> None:
    (fit,) = body_of(TEXT).fits
    right = 60 + (fit.d0_mm - 60) / 2
    strip = box((right - 0.2, 2, -40), (right + 1, fit.s1_mm, 40)).intersect(bore(1.0))
    found = spoilt(TEXT, only(body_of(TEXT).solid.fuse(strip)), codes=("fit.built",), volume_mm3=None)
    assert "fit.built" in blocking(found)
    the(found, "fit.built", "end_a socket")


def test_a_corner_filled() -> None:
    """A corner of 8 mm is filled up to a chord: its sides stay, and the duct would stand on the corner."""
    (fit,) = body_of(TEXT).fits
    x, y = 60 + (fit.d0_mm - 60) / 2, fit.d0_mm / 2
    wedge = (
        cq.Workplane("XZ").polyline([(x - 8, y + 1), (x + 1, y + 1), (x + 1, y - 8)]).close().extrude(-fit.s1_mm).val()
    )
    fill = cq.Solid(wedge.wrapped).intersect(bore(1.0, start=2.0))
    found = spoilt(TEXT, only(body_of(TEXT).solid.fuse(fill)), codes=("fit.built",), volume_mm3=None)
    assert "fit.built" in blocking(found)


def test_a_socket_two_tenths_aside() -> None:
    """Its whole bore moved to the right: too wide on one side, too narrow on the other."""
    (fit,) = body_of(TEXT).fits
    walled = body_of(TEXT).solid.fuse(bore(1.0, start=0.0).cut(bore(0.0, start=-1.0, long=fit.s1_mm + 1, aside=0.2)))
    made = only(walled.cut(bore(0.0, start=-1.0, aside=0.2)))
    assert "fit.built" in blocking(spoilt(TEXT, made, codes=("fit.built",), volume_mm3=None))


def test_a_socket_two_tenths_too_wide() -> None:
    found = spoilt(TEXT, only(body_of(TEXT).solid.cut(bore(0.1))), codes=("fit.built",), volume_mm3=None)
    (fit,) = body_of(TEXT).fits
    finding = the(found, "fit.built", "off by 0.")
    assert finding.value == pytest.approx(fit.d0_mm + 0.2, abs=0.03)


def test_a_spigot_with_a_flat_on_it() -> None:
    (fit,) = body_of(OUTSIDE).fits
    flat = box((-30, 3, fit.d0_mm / 2 - 0.2), (30, fit.s1_mm, 40))
    assert "fit.built" in blocking(
        spoilt(OUTSIDE, only(body_of(OUTSIDE).solid.cut(flat)), codes=("fit.built",), volume_mm3=None)
    )
