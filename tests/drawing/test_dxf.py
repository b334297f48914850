"""The DXF of a flat piece, read back by ezdxf: units, layers, closed lines, arcs as arcs, areas by closed forms.

Bulge = tan(sweep / 4), $INSUNITS 4 = millimetres, $MEASUREMENT 1 = metric: Autodesk, DXF Reference, LWPOLYLINE and
HEADER; ezdxf is the independent reader.
"""

from __future__ import annotations

import io
import itertools
import math
import random
from dataclasses import replace
from typing import Any

import ezdxf
import ezdxf.math
import pytest
import shapely
from ezdxf import bbox, recover
from tests.flat_handmade import HOOD, PIECES, RUBBER, SLOTTED, SQUARE, STEEL

from fitwright.drawing.dxf import CUT_LAYERS, dxf_bytes, piece_dxf
from fitwright.drawing.dxf_read import read_dxf
from fitwright.flat import Flat, FlatHole, Stock
from fitwright.outline import Outline, Side, circle, rectangle

FINE_MM = 0.0005
HOLE = math.pi / 4 * 5.5**2
BIG = math.pi / 4 * 6.5**2
SEGMENT_R = (80.0**2 + 50.0**2) / (2 * 50.0)
SEGMENT_TURN = 2 * math.asin(80.0 / SEGMENT_R)
SEGMENT = SEGMENT_R**2 * (SEGMENT_TURN - math.sin(SEGMENT_TURN)) / 2
AREAS = {
    "round": math.pi / 4 * (150.0**2 - 100.0**2) - 2 * HOLE,
    "square": 120.0**2 - (4 - math.pi) * 10.0**2 - math.pi / 4 * 100.0**2 - 4 * HOLE,
    "slotted": 140.0 * 90.0
    - (4 - math.pi) * 6.0**2
    - (60.0 * 40.0 - (4 - math.pi) * 5.0**2)
    - (BIG + 6.5 * 12.0)
    - BIG,
    "hood": 160.0 * 60.0 + SEGMENT - (60.0 * 30.0 + math.pi * 15.0**2) - 2 * HOLE,
}
LENGTHS = {
    "round": math.pi * (150.0 + 100.0 + 2 * 5.5),
    "square": 400.0 + math.pi * (20.0 + 100.0 + 4 * 5.5),
    "slotted": 2 * (128 + 78) + 12 * math.pi + 2 * (50 + 30) + 10 * math.pi + (24 + 6.5 * math.pi) + 6.5 * math.pi,
    "hood": 160 + 60 + 60 + SEGMENT_R * SEGMENT_TURN + 120 + 30 * math.pi + 2 * 5.5 * math.pi,
}


def opened(data: bytes) -> Any:
    """The document, which needs no repair."""
    document, auditor = recover.read(io.BytesIO(data))
    assert not auditor.errors and not auditor.fixes
    return document


def cuts(data: bytes) -> list[Any]:
    return [e for e in opened(data).modelspace() if e.dxf.layer in CUT_LAYERS]


def piece(name: str) -> bytes:
    flat, stock = PIECES[name]
    return piece_dxf(flat, stock, name)


def points_of(entity: Any) -> list[tuple[float, float]]:
    """Points along a closed line: ezdxf turns bulges into arcs and divides these itself."""
    if entity.dxftype() == "CIRCLE":
        return [(p.x, p.y) for p in entity.flattening(FINE_MM)]
    chain: list[tuple[float, float]] = []
    for side in entity.virtual_entities():
        ends = [side.dxf.start, side.dxf.end] if side.dxftype() == "LINE" else side.flattening(FINE_MM)
        run = [(p.x, p.y) for p in ends]
        if chain and math.dist(chain[-1], run[0]) > 1e-5:
            run.reverse()
        elif not chain and side.dxftype() == "ARC" and math.dist(run[0], entity.get_points("xy")[0]) > 1e-5:
            run.reverse()
        assert not chain or math.dist(chain[-1], run[0]) < 1e-5
        chain += run
    return chain


def by_ezdxf(entity: Any) -> tuple[float, float]:
    """Area and length of a closed line, by ezdxf's own arcs and shapely."""
    polygon = shapely.Polygon(points_of(entity)).buffer(0)
    assert polygon.geom_type == "Polygon"
    return float(polygon.area), float(polygon.length)


@pytest.mark.parametrize("name", PIECES)
def test_area_and_cut_length_read_back_are_the_closed_forms(name: str) -> None:
    found = [(e.dxf.layer, *by_ezdxf(e)) for e in cuts(piece(name))]
    area = sum(area if layer == "outline" else -area for layer, area, _ in found)
    length = sum(length for _, _, length in found)
    assert area == pytest.approx(AREAS[name], abs=FINE_MM * length)
    assert length == pytest.approx(LENGTHS[name], rel=1e-4)
    flat = PIECES[name][0]
    assert flat.area_mm2 == pytest.approx(AREAS[name], rel=1e-12)
    assert flat.cut_length_mm == pytest.approx(LENGTHS[name], rel=1e-12)


@pytest.mark.parametrize("name", PIECES)
def test_it_is_in_mm_and_every_line_to_cut_is_closed(name: str) -> None:
    document = opened(piece(name))
    assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1
    assert document.dxfversion == "AC1015"
    for entity in cuts(piece(name)):
        assert entity.dxftype() == "CIRCLE" or (entity.dxftype() == "LWPOLYLINE" and entity.closed)


def test_the_layers_say_what_is_on_them() -> None:
    data = piece("slotted")
    layers = {layer.dxf.name for layer in opened(data).layers}
    assert {"outline", "openings", "bolt holes", "notes not cut"} <= layers
    counted = [e.dxf.layer for e in cuts(data)]
    assert counted == ["bolt holes", "bolt holes", "openings", "outline"]  # what lies inside is cut first
    others = {e.dxf.layer for e in opened(data).modelspace()} - set(CUT_LAYERS)
    assert others == {"notes not cut"}


def test_arcs_stay_arcs() -> None:
    lines = [e for e in cuts(piece("square")) if e.dxftype() == "LWPOLYLINE"]
    assert [e.dxf.layer for e in lines] == ["outline"]
    bulges = [bulge for _, _, bulge in lines[0].get_points("xyb")]
    assert len(bulges) == 8 and sum(b == 0.0 for b in bulges) == 4
    assert [abs(b) for b in bulges if b] == pytest.approx([math.tan(math.pi / 8)] * 4, abs=1e-9)  # quarter turns
    circles = {(e.dxf.layer, round(2 * e.dxf.radius, 6)) for e in cuts(piece("square")) if e.dxftype() == "CIRCLE"}
    assert circles == {("openings", 100.0), ("bolt holes", 5.5)}


def test_an_arc_by_three_points_keeps_its_radius() -> None:
    (line,) = (e for e in cuts(piece("hood")) if e.dxf.layer == "outline")
    points = line.get_points("xyb")
    ((k, bulge),) = ((k, b) for k, (_, _, b) in enumerate(points) if b)
    start, end = points[k][:2], points[(k + 1) % len(points)][:2]
    assert ezdxf.math.bulge_radius(start, end, bulge) == pytest.approx(SEGMENT_R, abs=1e-5)
    assert ezdxf.math.bulge_center(start, end, bulge).isclose((0.0, 70.0 - SEGMENT_R), abs_tol=1e-5)


def test_a_slot_has_half_turns_at_its_ends_and_lies_as_it_is_turned() -> None:
    (slot,) = (e for e in cuts(piece("slotted")) if e.dxftype() == "LWPOLYLINE" and e.dxf.layer == "bolt holes")
    assert sorted(abs(b) for _, _, b in slot.get_points("xyb")) == pytest.approx([0.0, 0.0, 1.0, 1.0])
    box = shapely.Polygon(points_of(slot)).minimum_rotated_rectangle
    assert box.area == pytest.approx(6.5 * 18.5, rel=1e-3)
    corners = list(box.exterior.coords)
    long = max(itertools.pairwise(corners), key=lambda two: math.dist(*two))
    way = math.degrees(math.atan2(long[1][0] - long[0][0], long[1][1] - long[0][1])) % 180
    assert way == pytest.approx(30.0, abs=0.1)  # clockwise from up


def test_an_arc_of_more_than_half_a_turn_goes_in_two() -> None:
    keyhole = Outline((Side((-3.0, -4.0), (3.0, -4.0), (0.0, 5.0)), Side((3.0, -4.0), (-3.0, -4.0))))
    data = dxf_bytes(Flat(keyhole, (), (), 1.0))
    (line,) = cuts(data)
    assert all(abs(b) <= 1.0 for _, _, b in line.get_points("xyb"))
    sweep = math.tau - 2 * math.asin(3 / 5)
    assert by_ezdxf(line)[0] == pytest.approx(25 * (sweep - math.sin(sweep)) / 2, rel=1e-3)


def test_the_same_piece_gives_the_same_bytes() -> None:
    assert all(piece(name) == piece(name) for name in PIECES)
    before = ezdxf.options.write_fixed_meta_data_for_testing
    piece("round")
    assert ezdxf.options.write_fixed_meta_data_for_testing == before  # the library's switch is put back


def test_no_date_and_no_mark_of_its_own_is_in_it() -> None:
    lines = piece("round").decode("cp1252").splitlines()
    for name in ("$TDCREATE", "$TDUPDATE"):
        assert lines[lines.index(name) + 2] == "2451545.0"  # noon of 2000-01-01 in Julian days, not today
    for name in ("$FINGERPRINTGUID", "$VERSIONGUID"):
        assert lines[lines.index(name) + 2] == "{00000000-0000-0000-0000-000000000000}"


@pytest.mark.parametrize("name", ["größe ø 110", "入口フランジ", "inlet plate (2)", "d'été"])
def test_odd_letters_are_read_back(name: str) -> None:
    data = piece_dxf(SQUARE, STEEL, name)
    said = [e.dxf.text for e in opened(data).modelspace() if e.dxftype() == "TEXT"]
    assert name in said


def test_the_notes_name_material_thickness_and_size_clear_of_the_piece() -> None:
    document = opened(piece_dxf(SQUARE, RUBBER, "gasket"))
    texts = [e.dxf.text for e in document.modelspace() if e.dxftype() == "TEXT"]
    assert texts[1:] == [
        "gasket",
        "foam rubber, 3 mm thick, 1 piece",
        "120.00 x 120.00 mm, all lengths in mm; seen from the front",
    ]
    (line,) = (e for e in document.modelspace() if e.dxftype() == "LINE")
    assert line.dxf.start.distance(line.dxf.end) == pytest.approx(100.0)
    notes = bbox.extents(e for e in document.modelspace() if e.dxf.layer == "notes not cut")
    assert notes.extmax.y < -60.0 - 5.0


def test_a_drawing_without_words_holds_what_is_cut_only() -> None:
    assert {e.dxf.layer for e in opened(dxf_bytes(SQUARE)).modelspace()} == set(CUT_LAYERS)


def test_the_front_is_drawn_as_seen_from_the_front() -> None:
    flat = Flat(rectangle(100.0, 50.0), (), (FlatHole((40.0, 10.0), 6.0),), 2.0)
    (hole,) = (e for e in cuts(dxf_bytes(flat)) if e.dxf.layer == "bolt holes")
    assert (hole.dxf.center.x, hole.dxf.center.y) == (40.0, 10.0)


def _random(way: random.Random) -> tuple[Flat, float]:
    """A rectangle with an opening and holes on a grid beside it, and its area."""
    w, h, c = way.uniform(120, 400), way.uniform(120, 400), way.choice((0.0, way.uniform(1, 20)))
    d = way.uniform(10, min(w, h) - 90)
    holes = []
    for x, y in ((-w / 2 + 18, -h / 2 + 18), (w / 2 - 18, h / 2 - 18), (0.0, h / 2 - 14)):
        long = way.choice((0.0, way.uniform(1, 8)))
        holes.append(FlatHole((x, y), way.uniform(2, 9), "", long, way.uniform(0, 360)))
    cut = math.fsum(math.pi / 4 * one.d_mm**2 + one.d_mm * one.long_mm for one in holes)
    at = (way.uniform(-5, 5), way.uniform(-5, 5))
    area = w * h - (4 - math.pi) * c * c - math.pi / 4 * d * d - cut
    return Flat(rectangle(w, h, c), (circle(d).mapped(1.0, at),), tuple(holes), 2.0), area


def test_any_piece_comes_back_whole() -> None:
    way = random.Random(4)
    for _ in range(200):
        flat, area = _random(way)
        read = read_dxf(dxf_bytes(flat))
        assert not read.strange and [loop.layer for loop in read.loops] == ["bolt holes"] * 3 + ["openings", "outline"]
        found = sum((1 if loop.layer == "outline" else -1) * loop.line.area_mm2 for loop in read.loops)
        assert found == pytest.approx(area, rel=1e-7)


def test_the_reader_names_what_must_not_be_there() -> None:
    document = ezdxf.new("R2000", units=4)
    space = document.modelspace()
    for layer in (*CUT_LAYERS, "frame"):
        document.layers.add(layer)
    space.add_lwpolyline([(0, 0), (10, 0), (10, 10)], dxfattribs={"layer": "outline"})
    space.add_spline([(0, 0), (1, 2), (3, 1)], dxfattribs={"layer": "openings"})
    space.add_circle((0, 0), 2, dxfattribs={"layer": "frame"})
    text = io.StringIO()
    document.write(text)
    strange = " ".join(read_dxf(text.getvalue().encode()).strange)
    assert "a line on layer `outline` is open: it begins at 0.00, 0.00 and ends at 10.00, 10.00" in strange
    assert "a SPLINE on layer `openings`" in strange and "a CIRCLE on layer `frame`" in strange


@pytest.mark.parametrize("data", [b"", b"no drawing", b"\x00\xff" * 40])
def test_what_is_no_drawing_is_said_not_raised(data: bytes) -> None:
    assert read_dxf(data).strange or not read_dxf(data).loops


def test_thin_material_is_not_said_to_be_zero() -> None:
    thin = Stock("sheet", "shim steel", 0.05, 7.85)
    assert b"0.05 mm thick" in piece_dxf(replace(HOOD, thickness_mm=0.05), thin, "shim")
    assert SLOTTED.holes[0].outline.area_mm2 == pytest.approx(BIG + 6.5 * 12.0)
