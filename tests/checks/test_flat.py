"""Check `flat` on pieces made by hand: what is sound passes, and each thing that can be wrong is caught and named."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import ezdxf
import pytest
from tests.flat_handmade import (
    ACRYLIC,
    ASLANT,
    AT_MOUTH,
    HOOD,
    PIECES,
    ROUND,
    RUBBER,
    SLOTTED,
    SQUARE,
    STEEL,
    flat_body,
    flat_part,
    meshed,
)

from fitwright.checks import CHECKS, flat
from fitwright.checks.flat_lines import edge_distances, inner_corners, webs
from fitwright.drawing import dxf
from fitwright.drawing.dxf_read import read_dxf
from fitwright.finding import Finding
from fitwright.flat import Flat, FlatHole, Stock
from fitwright.frame import Frame
from fitwright.outline import Side, circle, rectangle, through
from fitwright.part import Body


def found(body: Body) -> list[Finding]:
    part = flat_part(body)
    return flat.check(part, meshed(part))


def bad(body: Body, severity: str = "fail") -> dict[str, Finding]:
    return {f.code: f for f in found(body) if f.severity == severity}


def holed(flat_piece: Flat, number: int, **changes: Any) -> Flat:
    holes = list(flat_piece.holes)
    holes[number] = replace(holes[number], **changes)
    return replace(flat_piece, holes=tuple(holes))


@pytest.mark.parametrize("frame", [AT_MOUTH, ASLANT], ids=["upright", "aslant"])
@pytest.mark.parametrize("name", PIECES)
def test_a_sound_piece_passes_wherever_it_lies(name: str, frame: Frame) -> None:
    piece, stock = PIECES[name]
    codes = {f.code: f.severity for f in found(flat_body(piece, stock, frame))}
    assert codes == dict.fromkeys(
        ["flat.dxf", "flat.thickness", "flat.area", "flat.shape", "flat.web", "flat.edge"], "pass"
    )


def test_a_gasket_is_not_asked_for_its_bolts_edges() -> None:
    assert {f.code for f in found(flat_body(replace(ROUND, thickness_mm=3.0), RUBBER))} == {
        "flat.dxf",
        "flat.thickness",
        "flat.area",
        "flat.shape",
        "flat.web",
    }


def test_what_is_printed_is_none_of_its_business() -> None:
    body = replace(flat_body(SQUARE, STEEL), stock=None)
    assert found(body) == []
    assert "flat" in dict(CHECKS)


def test_a_hole_moved_by_a_tenth_is_caught() -> None:
    built = flat_body(SQUARE, STEEL)
    moved = holed(SQUARE, 2, at=(48.1, -48.0))
    failed = bad(replace(built, flat=moved))
    assert set(failed) == {"flat.shape"}
    assert failed["flat.shape"].value == pytest.approx(0.1, abs=0.005)
    assert failed["flat.shape"].message == (
        "bolt hole 3 of the DXF is 0.10 mm off the finished piece, 48.1 mm right, 48.0 mm down"
    )


def test_a_hole_moved_by_less_than_a_twentieth_passes() -> None:
    assert not bad(replace(flat_body(SQUARE, STEEL), flat=holed(SQUARE, 2, at=(48.03, -48.0))))


def test_a_mirrored_drawing_is_caught() -> None:
    back = replace(AT_MOUTH, inward=(0.0, -1.0, 0.0), right=(-1.0, 0.0, 0.0), origin=(0.0, 4.0, 0.0))
    failed = bad(replace(flat_body(SLOTTED, ACRYLIC), flat_frame=back))
    assert "flat.shape" in failed


def test_an_area_that_is_off_is_caught() -> None:
    """The mesh is of a piece with larger holes: 4 x pi/4 x (7^2 - 5.5^2) = 58.9 mm2."""
    larger = replace(SQUARE, holes=tuple(replace(hole, d_mm=7.0) for hole in SQUARE.holes))
    failed = bad(replace(flat_body(larger, STEEL), flat=SQUARE))
    assert {"flat.area", "flat.shape"} <= set(failed)
    off = math.pi * (7.0**2 - 5.5**2)
    assert failed["flat.area"].limit - failed["flat.area"].value == pytest.approx(off, rel=1e-4)  # type: ignore[operator]
    assert failed["flat.shape"].value == pytest.approx(0.75, abs=0.01)


def test_a_missing_hole_is_caught() -> None:
    fewer = replace(SQUARE, holes=SQUARE.holes[:3])
    failed = bad(replace(flat_body(fewer, STEEL), flat=SQUARE))
    assert failed["flat.shape"].message == "the finished piece has 5 closed lines, the drawing 6"


def test_another_thickness_is_caught() -> None:
    failed = bad(replace(flat_body(SQUARE, STEEL), stock=replace(STEEL, thickness_mm=1.5)))
    assert failed["flat.thickness"].message.endswith("the steel sheet 1.50 mm")
    assert "flat.thickness" in bad(replace(flat_body(SQUARE, STEEL), flat=replace(SQUARE, thickness_mm=2.2)))


def test_a_formula_that_is_off_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Flat, "area_mm2", property(lambda self: 6365.0))
    failed = bad(replace(flat_body(SQUARE, STEEL), volume_mm3=None))
    assert "the formula's 6365.0 mm2" in failed["flat.area"].message


def test_a_body_without_its_drawing_is_not_passed() -> None:
    for missing in ({"flat": None}, {"flat_frame": None}):
        (finding,) = found(replace(flat_body(SQUARE, STEEL), **missing))  # type: ignore[arg-type]
        assert finding.blocks and finding.message.startswith("not checked: there is no flat drawing")


def test_a_body_without_a_mesh_is_not_passed() -> None:
    (finding,) = flat.check(flat_part(flat_body(SQUARE, STEEL)), {})
    assert finding.blocks and finding.message.startswith("not checked: there is no mesh")


def spoilt(change: Callable[[Any], None]) -> Callable[..., bytes]:
    """`piece_dxf` whose document somebody changed."""
    honest = dxf.piece_dxf

    def made(*arguments: Any) -> bytes:
        document = ezdxf.read(io.StringIO(honest(*arguments).decode("cp1252")))
        change(document)
        text = io.StringIO()
        document.write(text)
        return text.getvalue().encode("cp1252")

    return made


def _open(document: Any) -> None:
    next(iter(document.modelspace().query("LWPOLYLINE"))).closed = False


def _inches(document: Any) -> None:
    document.header["$INSUNITS"] = 1


def _loose_line(document: Any) -> None:
    document.modelspace().add_line((0, 0), (5, 5), dxfattribs={"layer": "outline"})


def _twice(document: Any) -> None:
    document.modelspace().add_circle((48.0, -48.0), 2.75, dxfattribs={"layer": "bolt holes"})


def _second_outline(document: Any) -> None:
    document.modelspace().add_circle((0.0, 0.0), 300.0, dxfattribs={"layer": "outline"})


def _crosses(document: Any) -> None:
    document.modelspace().add_circle((60.0, 0.0), 3.0, dxfattribs={"layer": "bolt holes"})


def _outside(document: Any) -> None:
    document.modelspace().add_circle((90.0, 0.0), 3.0, dxfattribs={"layer": "bolt holes"})


def _in_the_opening(document: Any) -> None:
    document.modelspace().add_circle((0.0, 0.0), 3.0, dxfattribs={"layer": "bolt holes"})


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (_open, "a line on layer `outline` is open"),
        (_inches, "its unit is number 1, not 4 (mm)"),
        (_loose_line, "a LINE on layer `outline`"),
        (_twice, "bolt hole 3 and bolt hole 5 cross or touch"),
        (_second_outline, "2 outlines, there must be one"),
        (_crosses, "bolt hole 5 cross or touch at"),
        (_outside, "bolt hole 5 does not lie wholly on the piece"),
        (_in_the_opening, "bolt hole 5 lies inside opening 1, where nothing is left"),
    ],
)
def test_a_file_that_is_spoilt_is_caught(
    change: Callable[[Any], None], words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dxf, "piece_dxf", spoilt(change))
    (finding,) = found(flat_body(SQUARE, STEEL))
    assert finding.code == "flat.dxf" and finding.blocks
    assert words in finding.message


def test_bytes_that_are_no_drawing_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dxf, "piece_dxf", lambda *arguments: b"nothing of the kind")
    (finding,) = found(flat_body(SQUARE, STEEL))
    assert finding.blocks and finding.code == "flat.dxf"


def test_cuts_that_touch_are_caught() -> None:
    """Two holes of 5.5 mm 5.5 mm apart: their lines share one point."""
    touching = replace(SQUARE, holes=(*SQUARE.holes[:3], replace(SQUARE.holes[0], at=(-42.5, -48.0))))
    body = replace(flat_body(SQUARE, STEEL), flat=touching)
    assert "bolt hole 1 and bolt hole 4 cross or touch" in bad(body)["flat.dxf"].message


@pytest.mark.parametrize(
    ("stock", "left_mm", "severity"),
    [
        (STEEL, 1.99, "warn"),
        (STEEL, 2.01, "pass"),
        (STEEL, 0.99, "fail"),
        (replace(STEEL, thickness_mm=0.8), 0.99, "warn"),
        (replace(STEEL, thickness_mm=0.8), 1.01, "pass"),
        (RUBBER, 1.9, "warn"),
        (RUBBER, 2.1, "pass"),
        (RUBBER, 0.9, "fail"),
    ],
)
def test_the_web_between_two_cuts_is_measured(stock: Stock, left_mm: float, severity: str) -> None:
    d = 2 * (63.0 - 2.75 - left_mm)
    piece = replace(ROUND, openings=(circle(d),), thickness_mm=stock.thickness_mm)
    web = next(f for f in found(flat_body(piece, stock)) if f.code == "flat.web")
    assert web.severity == severity
    assert web.value == pytest.approx(left_mm, abs=0.003)
    if severity != "pass":
        assert f"only {left_mm:.2f} mm are left between bolt hole" in web.message and "opening 1" in web.message


def test_a_neck_of_the_piece_itself_is_found() -> None:
    """Two plates of 40 x 40 joined by a bar 1.6 mm high: too thin for 2 mm sheet, not for 1 mm."""
    x, y, n = 60.0, 20.0, 0.8
    corners = [
        (-x, -y),
        (-10, -y),
        (-10, -n),
        (10, -n),
        (10, -y),
        (x, -y),
        (x, y),
        (10, y),
        (10, n),
        (-10, n),
        (-10, y),
    ]
    outline = through([*corners, (-x, y)], [None] * 12)
    piece = Flat(outline, (), (), 2.0)
    web = bad(flat_body(piece, STEEL), "warn")["flat.web"]
    assert web.message == "the piece itself is narrower than 2 mm at 0.0 mm right, 0.0 mm up"
    thin = flat_body(replace(piece, thickness_mm=1.0), replace(STEEL, thickness_mm=1.0))
    assert not bad(thin, "warn") and not bad(thin)


@pytest.mark.parametrize(("stock", "times"), [(STEEL, 1.5), (ACRYLIC, 2.0)])
def test_holes_too_near_the_edge_are_caught(stock: Stock, times: float) -> None:
    for more, fails in ((-0.01, True), (0.0, False)):
        edge = times * 5.5 + more
        piece = holed(replace(ROUND, thickness_mm=stock.thickness_mm), 0, at=(0.0, 75.0 - edge))
        failed = bad(flat_body(piece, stock))
        assert ("flat.edge" in failed) == fails
        if fails:
            assert failed["flat.edge"].value == pytest.approx(edge) and failed["flat.edge"].limit == times * 5.5
            assert f"bolt hole 1's centre is {edge:.2f} mm from outline" in failed["flat.edge"].message


def test_a_hole_near_an_opening_warns() -> None:
    warned = bad(flat_body(holed(ROUND, 0, at=(0.0, 57.0)), STEEL), "warn")
    assert warned["flat.edge"].value == pytest.approx(7.0) and "opening 1" in warned["flat.edge"].message


def test_a_slot_is_measured_from_the_nearer_end() -> None:
    slot = FlatHole((0.0, 0.0), 6.0, "", 20.0, 90.0)
    loops = read_dxf(dxf.dxf_bytes(Flat(rectangle(60.0, 40.0), (), (slot,), 2.0))).loops
    (one,) = edge_distances(loops)
    assert one.from_centre_mm == pytest.approx(20.0, abs=1e-5)  # the end's centre stands 10 mm from the middle
    assert one.d_mm == pytest.approx(6.0, abs=1e-5)


def test_sharp_inner_corners_of_brittle_sheet_warn() -> None:
    sharp = replace(SLOTTED, openings=(rectangle(60.0, 40.0).mapped(1.0, (-20.0, 0.0)),))
    warned = bad(flat_body(sharp, ACRYLIC), "warn")
    assert warned["flat.corner"].value == 0.0
    assert warned["flat.corner"].message.startswith("4 inner corners of radius 0.00 mm, one of opening 1")
    steel = flat_body(sharp, replace(STEEL, thickness_mm=4.0))
    assert "flat.corner" not in bad(steel, "warn")


def test_corners_that_point_outwards_are_no_inner_corners() -> None:
    loops = read_dxf(dxf.dxf_bytes(Flat(rectangle(60.0, 40.0), (rectangle(20.0, 20.0, 3.0),), (), 2.0))).loops
    assert [r for loop in loops for _, r in inner_corners(loop)] == pytest.approx([3.0] * 4, abs=1e-5)


def test_webs_are_measured_between_arcs_and_straights() -> None:
    """Closed forms: circle to circle, circle to straight."""
    holes = (FlatHole((0.0, 0.0), 10.0), FlatHole((30.0, 40.0), 20.0))
    loops = read_dxf(dxf.dxf_bytes(Flat(rectangle(200.0, 120.0), (), holes, 2.0))).loops
    by = {web.between: web.width_mm for web in webs(loops)}
    assert by[("bolt hole 1", "bolt hole 2")] == pytest.approx(50.0 - 15.0, abs=0.003)
    assert by[("bolt hole 2", "outline")] == pytest.approx(60.0 - 50.0, abs=0.003)


def test_an_outline_that_crosses_itself_is_caught() -> None:
    bow = through([(-50.0, -30.0), (50.0, 30.0), (50.0, -30.0), (-50.0, 30.0)], [None] * 4)
    body = replace(flat_body(HOOD, STEEL), flat=replace(HOOD, outline=bow, openings=(), holes=()))
    assert "outline crosses or touches itself" in bad(body)["flat.dxf"].message
    assert isinstance(bow.sides[0], Side)
