"""`fitwright template`: files as a user gets them, and what is refused."""

from __future__ import annotations

import io
import itertools
import math
from pathlib import Path
from xml.etree import ElementTree as Xml

import pypdfium2 as pdfium
import pytest

from fitwright.cli.main import main
from fitwright.drawing.pdf import MM_PER_POINT

FLANGED = """
part: reducer
end_a: {label: inlet, flange: {opening: 98, holes: {count: 5, circle: 130, size: M6, first_at: 10 deg}}}
end_b: {hose_tail: {hose_inside: 100}}
"""
INCHES = "part: reducer\nunits: in\nend_a: {socket: {over: 4.215}}\nend_b: {hose_tail: {hose_inside: 4}}\n"
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def names(folder: Path) -> list[str]:
    return sorted(file.name for file in folder.iterdir())


def pages(file: Path) -> list[tuple[float, float, str]]:
    """(width, height [mm], text) of every page."""
    with pdfium.PdfDocument(io.BytesIO(file.read_bytes())) as document:
        return [
            (*(round(side * MM_PER_POINT, 1) for side in page.get_size()), page.get_textpage().get_text_range())  # type: ignore[misc]
            for page in document
        ]


@pytest.mark.slow
def test_one_pdf_and_an_svg_a_side(here: Path, capsys: Captured) -> None:
    (here / "inlet.yaml").write_text(FLANGED)
    assert main(["template", "inlet.yaml"]) == 0
    folder = here / "outputs/inlet"
    assert names(folder) == [
        "inlet_end_a.svg",
        "inlet_end_a_mirrored.svg",
        "inlet_end_b.svg",
        "inlet_template.pdf",
    ]
    front, back, ring = pages(folder / "inlet_template.pdf")
    assert front[:2] == back[:2] == (210.0, 297.0)
    assert "FRONT: as you look into the part's mouth" in front[2] and "5 x 6.6 mm for M6" in front[2]
    assert "BACK, mirrored: as you look at the machine" in back[2] and "end_b, hose tail" in ring[2]
    said = capsys.readouterr()
    assert said.err == "" and "wrote outputs/inlet/inlet_template.pdf" in said.out and "100 %" in said.out
    before = {file.name: file.read_bytes() for file in folder.iterdir()}
    assert main(["template", "inlet.yaml"]) == 0
    assert before == {file.name: file.read_bytes() for file in folder.iterdir()}


@pytest.mark.slow
def test_holes_of_the_yaml_are_found_on_the_paper(here: Path) -> None:
    """Five on 130 mm, the first 10 deg clockwise from up: read from the PDF by pdfium's objects, front and mirrored."""
    (here / "inlet.yaml").write_text(FLANGED)
    assert main(["template", "inlet.yaml"]) == 0
    data = (here / "outputs/inlet/inlet_template.pdf").read_bytes()
    with pdfium.PdfDocument(io.BytesIO(data)) as document:
        for page, sign in ((document[0], 1.0), (document[1], -1.0)):
            boxes = [o.get_bounds() for o in page.get_objects() if o.type == pdfium.raw.FPDF_PAGEOBJ_PATH]
            found = [[MM_PER_POINT * c for c in b] for b in boxes]
            round_ones = [b for b in found if all(6.6 < b[k + 2] - b[k] < 7.1 for k in (0, 1))]
            centres = [((b[0] + b[2]) / 2, (b[1] + b[3]) / 2) for b in round_ones]
            assert len(centres) == 5
            x0, y0 = (sum(c[k] for c in centres) / 5 for k in (0, 1))
            for k, (x, y) in enumerate(centres):
                turn = math.radians(10 + 72 * k)
                assert (x - x0, y - y0) == pytest.approx((sign * 65 * math.sin(turn), 65 * math.cos(turn)), abs=0.02)


@pytest.mark.slow
def test_letter_where_asked_or_where_the_file_is_in_inches(here: Path) -> None:
    (here / "duct.yaml").write_text(INCHES)
    assert main(["template", "duct.yaml", "-o", "one"]) == 0
    assert main(["template", "duct.yaml", "-o", "two", "--paper", "A4"]) == 0
    letter, a4 = (pages(here / folder / "duct/duct_template.pdf") for folder in ("one", "two"))
    assert {page[:2] for page in letter} == {(215.9, 279.4)} and {page[:2] for page in a4} == {(210.0, 297.0)}
    assert "4.215 in" in letter[0][2]


@pytest.mark.slow
def test_a_build_writes_the_same_template_beside_the_try_print(here: Path) -> None:
    (here / "inlet.yaml").write_text(FLANGED)
    assert main(["build", "inlet.yaml", "--quick"]) == 0
    built = (here / "outputs/inlet/inlet_template.pdf").read_bytes()
    assert "inlet_template.pdf" in (here / "outputs/inlet/report.json").read_text()
    assert "on paper inlet_template.pdf" in (here / "outputs/inlet/report.txt").read_text()
    assert main(["template", "inlet.yaml"]) == 0
    assert (here / "outputs/inlet/inlet_template.pdf").read_bytes() == built


SQUARE = "measure: bolts\nholes: 4\nhole: 6.6\nbetween: {1-2: 80, 2-3: 60, 3-4: 80, 4-1: 60, 1-3: 100}\n"


def test_a_measured_bolt_pattern_is_drawn(here: Path) -> None:
    """80 x 60 with a diagonal of 100 (3-4-5): the SVG's centres are that far apart."""
    (here / "lid.yaml").write_text(SQUARE)
    assert main(["template", "lid.yaml", "-o", "out"]) == 0
    assert "lid_template.pdf" in names(here / "out/lid")
    (svg,) = (name for name in names(here / "out/lid") if name.endswith("pattern.svg"))
    root = Xml.fromstring((here / "out/lid" / svg).read_text())
    holes = [c for c in root.iter("{http://www.w3.org/2000/svg}circle") if abs(float(c.get("r", "")) - 3.3) < 1e-3]
    at = [(float(c.get("cx", "")), float(c.get("cy", ""))) for c in holes]
    apart = sorted(math.dist(a, b) for a, b in itertools.combinations(at, 2))
    assert apart == pytest.approx([60, 60, 80, 80, 100, 100], abs=0.01)


def test_an_uneven_pattern_says_which_side_of_the_part_it_is(here: Path) -> None:
    """(0, 0), (80, 0), (80, 60), (0, 40): no mirror image of itself."""
    sides = "{1-2: 80, 2-3: 60, 3-4: 82.462, 4-1: 40, 1-3: 100, 2-4: 89.443}"
    for face, told in (("machine", True), ("flange", False)):
        (here / "lid.yaml").write_text(f"measure: bolts\nholes: 4\nhole: 6.6\nface: {face}\nbetween: {sides}\n")
        assert main(["template", "lid.yaml", "-o", face]) == 0
        assert ("FRONT here is BACK" in (here / face / "lid/lid_pattern.svg").read_text()) == told


def test_a_pattern_that_is_left_open_is_not_drawn(here: Path, capsys: Captured) -> None:
    """All six distances of (0, 0), (90, 5), (80, 70), (10, 60), one of them 5 mm off: nothing tells which."""
    between = "{1-2: 90.14, 2-3: 65.76, 3-4: 70.71, 4-1: 60.83, 1-3: 111.3, 2-4: 97.08}"
    (here / "lid.yaml").write_text(f"measure: bolts\nholes: 4\nhole: 6.6\nbetween: {between}\n")
    assert main(["template", "lid.yaml", "-o", "out"]) == 2
    assert "leave open" in capsys.readouterr().err and not (here / "out").exists()


def test_what_is_no_part_is_refused(here: Path, capsys: Captured) -> None:
    (here / "port.yaml").write_text("measure: circle\nreadings: [110.2, 110.5, 109.9]\n")
    assert main(["template", "port.yaml"]) == 2
    said = capsys.readouterr().err
    assert "port.yaml:1" in said and "found 'circle'" in said and "allowed: bolts" in said
    (here / "prints.yaml").write_text("prints: []\n")
    assert main(["template", "prints.yaml"]) == 2
    assert "prints.yaml: holds no mouth to draw" in capsys.readouterr().err
    (here / "prints.yaml").unlink()
    assert main(["template", "missing.yaml"]) == 2
    assert "missing.yaml" in capsys.readouterr().err
    (here / "bad.yaml").write_text(FLANGED.replace("circle", "circel"))
    assert main(["template", "bad.yaml"]) == 2
    said = capsys.readouterr().err
    assert "bad.yaml:3" in said and "circel" in said and "circle" in said
    assert names(here) == ["bad.yaml", "port.yaml"]


@pytest.mark.slow
def test_a_part_that_cannot_be_made_says_which_key_and_writes_nothing(here: Path, capsys: Captured) -> None:
    (here / "near.yaml").write_text(FLANGED.replace("circle: 130", "circle: 114"))
    assert main(["template", "near.yaml"]) == 2
    said = capsys.readouterr().err
    assert "near.yaml:3" in said and "end_a.flange.holes" in said and "washers would run into the neck" in said
    assert names(here / "outputs") == []


def test_a_paper_that_we_do_not_have_is_refused(here: Path, capsys: Captured) -> None:
    with pytest.raises(SystemExit) as stop:
        main(["template", "inlet.yaml", "--paper", "A3"])
    assert stop.value.code == 2 and "A4" in capsys.readouterr().err


RECTANGLE = "measure: bolts\nholes: 4\nbetween: {1-2: 80, 2-3: 60, 3-4: 80, 4-1: 60, 1-3: 100}\n"


@pytest.mark.slow
def test_a_part_without_mouths_is_told_so(here: Path, capsys: Captured) -> None:
    (here / "plug.yaml").write_text("part: fit_gauge\nplugs: {hose_inside: 50}\n")
    assert main(["template", "plug.yaml"]) == 2
    assert "plug: a fit_gauge has no mouth to draw" in capsys.readouterr().err
    assert not (here / "outputs/plug").exists()


@pytest.mark.parametrize("other", ["b/lid.yaml", "LID.yaml"])
def test_two_drawings_of_one_name_are_refused(other: str, here: Path, capsys: Captured) -> None:
    (here / "b").mkdir()
    (here / "lid.yaml").write_text(RECTANGLE)
    (here / other).write_text(RECTANGLE)
    assert main(["template", "lid.yaml", other]) == 2
    assert "which is drawn from lid.yaml too" in capsys.readouterr().err
    assert not (here / "outputs").exists()


def test_a_part_is_not_drawn_over_by_a_pattern(here: Path, capsys: Captured) -> None:
    (here / "lid.yaml").write_text(RECTANGLE)
    (here / "part.yaml").write_text(f"name: lid\n{FLANGED.strip()}\n")
    assert main(["template", "lid.yaml", "part.yaml"]) == 2
    assert "drawn from part.yaml too" in capsys.readouterr().err


def test_a_pattern_with_a_reading_left_out_says_so(here: Path, capsys: Captured) -> None:
    (here / "lid.yaml").write_text(RECTANGLE.replace("1-3: 100", "1-3: 99, 2-4: 100"))
    assert main(["template", "lid.yaml"]) == 0
    assert "a reading was left out" in capsys.readouterr().out
