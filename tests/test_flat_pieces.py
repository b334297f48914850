"""A part with pieces that are cut from sheet, from its solids to its folder of files."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pypdfium2
import pytest
from ezdxf import recover
from PIL import Image

from fitwright import pipeline
from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.errors import ExportError
from fitwright.export.atomic import Staging
from fitwright.export.dxf import body_dxf
from fitwright.export.templates import faces_of, template_pdf
from fitwright.part import Body, Dimension, Paper, Part, Pose
from fitwright.report.cut_list import cut_list
from fitwright.report.findings import terminal_text
from fitwright.report.model import Result
from fitwright.spec.models import Printer
from fitwright.spec.part_base import InfillOf
from tests.flat_handmade import ACRYLIC, AT_MOUTH, RUBBER, SLOTTED, SQUARE, STEEL, flat_body, flat_part
from tests.handmade import spec

Build = Callable[..., Result]
SIZES = (Dimension("plate", (0.0, 0.0, -60.0), (0.0, 0.0, 60.0), 120.0),)
PLATE = flat_body(SQUARE, STEEL)
GASKET = flat_body(replace(SQUARE, thickness_mm=3.0), RUBBER, replace(AT_MOUTH, origin=(0.0, -3.0, 0.0)), "gasket")
FLANGE = replace(
    flat_body(replace(SQUARE, thickness_mm=6.0), STEEL, replace(AT_MOUTH, origin=(0.0, 2.0, 0.0)), "flange"),
    stock=None,
    flat=None,
    flat_frame=None,
    wall_mm=4.0,
    poses=(Pose("flat on the bed", (0.0, 1.0, 0.0)),),
)
CUT_ONLY = replace(flat_part(PLATE, GASKET), dimensions=SIZES, section_across=(0.0, 0.0, 1.0))
BOTH = replace(CUT_ONLY, bodies=(FLANGE, PLATE, GASKET))


@pytest.fixture
def build(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Build:
    """Build a part made by hand with all real checks."""

    def run(part: Part, units: str = "mm", **options: Any) -> Result:
        monkeypatch.setattr(pipeline, "BUILDERS", {"flange_plate": lambda _: part})
        printer = Printer(name="generic_220", bed_x_mm=220.0, bed_y_mm=220.0, bed_z_mm=240.0)
        made = dict(part="flange_plate", name=part.name, units=units, wall_mm=2.4, thickest_wall_mm=2.4)
        asked: Any = SimpleNamespace(**{**vars(spec(**made)), "printer": printer, "infill": InfillOf()})
        return pipeline.build_part(asked, tmp_path, **options)

    return run


def folder(result: Result) -> Path:
    return result.files[0].parent


def texts(data: bytes) -> list[str]:
    document, _ = recover.read(io.BytesIO(data))
    return [e.dxf.text for e in document.modelspace() if e.dxftype() == "TEXT"]


def test_a_part_of_sheet_alone_builds_and_says_that_nothing_is_printed(build: Build) -> None:
    result = build(CUT_ONLY)
    assert [path.name for path in result.files] == [
        "inlet.png",
        "inlet_cut_list.txt",
        "inlet_gasket.dxf",
        "inlet_plate.dxf",
        "inlet_plate.step",
        "inlet_template.pdf",
        "report.json",
        "report.txt",
    ]
    assert terminal_text(result.report) == "inlet (flange plate): good to cut, nothing to print, 16 checks passed"
    codes = {f.code.partition(".")[0] for f in result.findings}
    assert not codes & {"printing", "wall", "temperature", "fit", "plate"}
    text = (folder(result) / "report.txt").read_text("utf-8")
    assert "nothing to print: see below what is cut" in text and "PETG" not in text and "printer:" not in text


def test_the_report_says_what_a_shop_asks(build: Build) -> None:
    """Weight: 6365.14 mm2 (closed form in tests/drawing/test_dxf.py) x 2 mm x 7.85 g/cm3 = 99.9 g; foam: 2.9 g."""
    text = " ".join((folder(build(CUT_ONLY)) / "report.txt").read_text("utf-8").split())
    assert (
        "inlet_plate.dxf: steel sheet 2 mm thick, from a sheet of 120.0 x 120.0 mm or larger; cut length 846 mm, "
        "1 opening, 4 holes of 5.5 mm for M5; 100 g"
    ) in text
    assert "inlet_gasket.dxf: foam rubber 3 mm thick" in text and "for M5; 2.9 g" in text


def test_a_file_in_inches_reports_in_inches_and_draws_in_mm(build: Build) -> None:
    mm = (folder(build(CUT_ONLY)) / "inlet_plate.dxf").read_bytes()
    result = build(CUT_ONLY, units="in")
    text = " ".join((folder(result) / "report.txt").read_text("utf-8").split())
    assert "from a sheet of 4.724 x 4.724 in or larger; cut length 33.307 in" in text and "3.5 oz" in text
    cut = " ".join((folder(result) / "inlet_cut_list.txt").read_text("utf-8").split())
    assert "4.724 x 4.724 in over all" in cut and "it is drawn in mm" in cut
    assert (folder(result) / "inlet_plate.dxf").read_bytes() == mm


def test_report_json_holds_the_same(build: Build) -> None:
    content = json.loads((folder(build(BOTH)) / "report.json").read_bytes())
    flange, plate, gasket = content["bodies"]
    assert "cut" not in flange and flange["lies"] == "flat on the bed"
    assert plate["lies"] == "" and plate["mass_g"] == pytest.approx(6365.144 * 2 * 7.85e-3, abs=0.01)
    assert plate["cut"] == {
        "kind": "sheet",
        "from": "steel sheet",
        "thickness_mm": 2.0,
        "size_mm": [120.0, 120.0],
        "cut_length_mm": 846.11,
        "area_mm2": 6365.14,
        "openings": 1,
        "holes": [{"count": 4, "d_mm": 5.5, "longer_mm": 0.0, "bolt": "M5"}],
    }
    assert gasket["cut"]["kind"] == "gasket"


def test_what_is_printed_beside_it_still_gets_its_stl(build: Build) -> None:
    result = build(BOTH)
    names = {path.name for path in result.files}
    assert {"inlet_flange.stl", "inlet_flange.step", "inlet_plate.dxf", "inlet_gasket.dxf"} <= names
    assert not {"inlet_plate.stl", "inlet_gasket.stl", "inlet_gasket.step"} & names
    judged = {f.body for f in result.findings if f.code.startswith(("printing", "wall", "temperature"))}
    assert judged == {"flange"}
    assert terminal_text(result.report).startswith("inlet (flange plate): good to print and to cut")


def test_one_piece_alone_is_called_as_the_part_is(build: Build) -> None:
    result = build(flat_part(flat_body(SLOTTED, ACRYLIC), name="window"))
    assert {"window.dxf", "window.step"} <= {path.name for path in result.files}
    text = " ".join((folder(result) / "report.txt").read_text("utf-8").split())
    assert "1 slot of 6.5 x 18.5 mm for M6, 1 hole of 6.5 mm for M6" in text


@pytest.mark.parametrize("name", ["größe ø 110", "d'été (2)"])
def test_names_with_odd_letters(build: Build, name: str) -> None:
    result = build(replace(CUT_ONLY, name=name))
    file = folder(result) / f"{name}_plate.dxf"
    assert texts(file.read_bytes())[1] == f"{name}_plate"


def test_the_same_part_gives_the_same_bytes(build: Build) -> None:
    first = {path.name: path.read_bytes() for path in build(BOTH).files}
    second = {path.name: path.read_bytes() for path in build(BOTH).files}
    assert first == second


def test_a_blocked_piece_is_held_back_and_its_earlier_drawing_set_aside(build: Build) -> None:
    good = folder(build(CUT_ONLY))
    earlier = (good / "inlet_plate.dxf").read_bytes()
    near = replace(
        SQUARE, holes=tuple(replace(hole, at=(hole.at[0] * 53.5 / 48.0, hole.at[1])) for hole in SQUARE.holes)
    )
    bad = replace(CUT_ONLY, bodies=(flat_body(near, STEEL), GASKET))
    result = build(bad)
    assert result.report.blocked and not result.report.exported
    names = {path.name for path in good.iterdir()}
    assert "inlet_plate.dxf" not in names and (good / "inlet_plate.earlier.dxf").read_bytes() == earlier
    assert "inlet_gasket.dxf" in names and "inlet_cut_list.txt" not in {path.name for path in result.files}
    assert "inlet_plate: no file is written" in (good / "report.txt").read_text("utf-8")
    forced = build(bad, force=True)
    assert "inlet_plate.dxf" in {path.name for path in forced.files} and forced.report.forced


def test_nothing_is_lost_when_the_drawing_cannot_be_written(build: Build, monkeypatch: pytest.MonkeyPatch) -> None:
    good = folder(build(CUT_ONLY))
    before = {path.name: path.read_bytes() for path in good.iterdir()}
    honest = Staging.add

    def full(self: Staging, name: str, data: bytes) -> None:
        if name == "inlet_gasket.dxf":
            raise ExportError("cannot write: no space left")
        honest(self, name, data)

    monkeypatch.setattr(Staging, "add", full)
    with pytest.raises(ExportError, match="no space left"):
        build(replace(CUT_ONLY, bodies=(PLATE, replace(GASKET, stock=replace(RUBBER, words="cork")))))
    assert {path.name: path.read_bytes() for path in good.iterdir()} == before


def test_a_body_that_has_no_drawing_is_refused_not_written_wrong() -> None:
    with pytest.raises(ExportError, match="no flat drawing belongs to it"):
        body_dxf(replace(PLATE, flat=None), "inlet_plate")
    with pytest.raises(ExportError, match="no flat drawing belongs to it"):
        body_dxf(FLANGE, "inlet_flange")


def test_the_cut_list_is_for_flat_pieces_and_gives_way_to_the_familys_own() -> None:
    assert cut_list(replace(BOTH, bodies=(FLANGE,)), "mm") == ()
    assert cut_list(replace(BOTH, papers=(Paper("cut_list", "own", ()),)), "mm") == ()
    (paper,) = cut_list(BOTH, "mm")
    assert [heading for heading, _ in paper.sections] == ["Cut", "Measure what comes back", "Take care"]
    assert len(paper.sections[0][1]) == 3 and len(paper.sections[2][1]) == 2


def _tones(path: Path) -> set[tuple[int, int, int]]:
    with Image.open(path) as image:
        colours = image.convert("RGB").getcolors(1 << 22) or []
    return {colour for count, colour in colours if count > 100}  # type: ignore[misc]


def test_the_picture_tells_sheet_gasket_and_print_apart(build: Build) -> None:
    """Fills of the section and squares of the legend; a part that is printed alone has none of the others."""
    sheet, gasket, printed = (190, 200, 228), (120, 84, 88), (236, 205, 158)
    assert {sheet, gasket, printed} <= _tones(folder(build(BOTH)) / "inlet.png")
    alone = _tones(folder(build(CUT_ONLY)) / "inlet.png")
    assert {sheet, gasket} <= alone and printed not in alone
    only = _tones(folder(build(replace(BOTH, name="ring", bodies=(FLANGE,)))) / "ring.png")
    assert printed in only and not {sheet, gasket} & only


def test_every_flat_piece_is_drawn_on_paper_once() -> None:
    assert [face.key for face in faces_of(CUT_ONLY)] == ["plate", "gasket"]
    own = Face("gasket", "gasket", (FaceLine("outline", 120.0),))
    assert [face.key for face in faces_of(replace(CUT_ONLY, templates=(own,)))] == ["gasket", "plate"]
    assert faces_of(replace(BOTH, bodies=(FLANGE,))) == ()


def test_a_slot_on_paper_measures_what_it_should() -> None:
    """Bounds of a slot 6.5 x 18.5 turned by 30 deg: 12 sin 30 + 6.5 wide, 12 cos 30 + 6.5 high."""
    (face,) = faces_of(flat_part(flat_body(SLOTTED, ACRYLIC)))
    left, lower, right, upper = face.holes[0].bounds_mm
    assert right - left == pytest.approx(12.0 * 0.5 + 6.5) and upper - lower == pytest.approx(12.0 * 3**0.5 / 2 + 6.5)
    with pypdfium2.PdfDocument(template_pdf("window", (face,), "mm")) as pdf:
        assert len(pdf) == 2  # front, and its mirror image
        words = pdf[0].get_textpage().get_text_range()
    assert "1 x slot 6.5 mm x 18.5 mm for M6" in words


def test_a_face_with_slots_is_symmetric_only_where_its_slots_are() -> None:
    line = (FaceLine("outline", 100.0),)

    def slot(x: float, turned: float, long: float = 10.0) -> FaceHole:
        return FaceHole((x, 0.0), 6.0, "M6", long, turned)

    assert Face("a", "a", line, (slot(-30.0, 30.0), slot(30.0, 150.0))).is_symmetric()
    assert not Face("a", "a", line, (slot(-30.0, 30.0), slot(30.0, 30.0))).is_symmetric()
    assert not Face("a", "a", line, (slot(-30.0, 30.0), slot(30.0, -30.0, 12.0))).is_symmetric()
    assert Face("a", "a", line, (slot(0.0, 90.0),)).is_symmetric()


def test_bodies_know_whether_they_are_printed() -> None:
    assert BOTH.printed == (FLANGE,) and CUT_ONLY.printed == ()
    assert isinstance(PLATE, Body) and PLATE.stock is not None
