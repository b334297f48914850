"""The drawings of the measuring guide: current, inside their page, legible, and true where they show geometry."""

from __future__ import annotations

import io
import itertools
import math
import re
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest
from reportlab.pdfbase.pdfmetrics import stringWidth

from fitwright.drawing import sheet as marks
from fitwright.drawing.pdf import MM_PER_POINT, pdf_bytes
from fitwright.drawing.sheet import Sheet, Words
from fitwright.drawing.svg import svg_text
from fitwright.report.guide import hoses, machines, ports
from fitwright.report.guide.marks import WIDE_MM
from fitwright.report.guide.pictures import FOLDER, PICTURES, write_pictures

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "measuring.md").read_text(encoding="utf-8")
SECTIONS = {
    found[1]: section
    for section in re.split(r"^## ", PAGE, flags=re.MULTILINE)
    for found in re.finditer(r"pictures/measuring/(\w+)\.svg", section)
}


@pytest.mark.parametrize("name", PICTURES)
def test_the_committed_drawing_is_the_generated_one(name: str) -> None:
    file = ROOT / FOLDER / f"{name}.svg"
    assert file.read_text(encoding="utf-8") == svg_text(PICTURES[name]()), "run python -m fitwright.report.guide"


def test_all_drawings_and_no_others_are_there_and_shown(tmp_path: Path) -> None:
    assert sorted(file.name for file in write_pictures(tmp_path)) == sorted(f"{name}.svg" for name in PICTURES)
    assert sorted(file.stem for file in (ROOT / FOLDER).iterdir()) == sorted(PICTURES) == sorted(SECTIONS)


@pytest.mark.parametrize("name", PICTURES)
def test_nothing_runs_off_the_page(name: str) -> None:
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([PICTURES[name]()]))) as document:
        dark = np.asarray(document[0].render(scale=4 * MM_PER_POINT).to_pil().convert("L")) < 200
    border = np.ones_like(dark)
    border[6:-6, 6:-6] = False
    assert not (dark & border).any()
    for words in (mark for mark in PICTURES[name]().marks if isinstance(mark, Words)):
        assert extent(words)[0] >= 1.5 and extent(words)[2] <= WIDE_MM - 1.0, words.text


def extent(words: Words) -> tuple[float, float, float, float]:
    """Left, lower, right, upper [mm], in letters a sixth wider than Helvetica's (browsers without it take such)."""
    font = "Helvetica-Bold" if words.bold else "Helvetica"
    wide = 7 / 6 * stringWidth(words.text, font, words.size_mm)
    left = words.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[words.anchor]
    return left, words.at[1], left + wide, words.at[1] + words.cap_mm


@pytest.mark.parametrize("name", PICTURES)
def test_no_words_lie_on_others(name: str) -> None:
    shown = [mark for mark in PICTURES[name]().marks if isinstance(mark, Words) and mark.text.strip()]
    for one, other in itertools.combinations(shown, 2):
        a, b = extent(one), extent(other)
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one.text!r} on {other.text!r}"


@pytest.mark.parametrize(
    "name", ["slide_gate", "cylinder", "tapered_port", "rectangular_port", "flange_bolts", "thread"]
)
def test_every_letter_is_explained_in_its_section(name: str) -> None:
    letters = {m.text for m in PICTURES[name]().marks if isinstance(m, Words) and m.bold and len(m.text) <= 2}
    assert letters
    for letter in letters:
        assert re.search(rf"(?<![A-Za-z]){letter}(?![a-z])", SECTIONS[name]), letter


def test_the_gate_has_nine_readings() -> None:
    letters = {m.text[0] for m in machines.slide_gate().marks if isinstance(m, Words) and m.bold}
    assert letters == set("ABCDEFGHJ")


def texts(drawn: Sheet) -> str:
    return " ".join(mark.text for mark in drawn.marks if isinstance(mark, Words))


def test_jaws_in_a_bore_touch_it_by_their_corners_and_the_figures_follow() -> None:
    """Chord: D = sqrt(R^2 + w^2); the drawing's own jaws obey it, and its words are its values."""
    drawn = ports.inside_jaws()
    [bore] = [m for m in drawn.marks if isinstance(m, marks.Arc) and m.fill == 1.0 and m.width_mm == marks.THICK_MM]
    jaws = [m for m in drawn.marks if isinstance(m, marks.Path) and m.closed and m.width_mm and len(m.points) == 4]
    assert len(jaws) == 2
    for jaw in jaws:
        reach = sorted(math.dist(point, bore.centre) for point in jaw.points)
        assert reach[2:] == pytest.approx([bore.radius_mm] * 2) and reach[1] < bore.radius_mm - 1.0
    for d, says in ((20, "in 20 mm 0.23"), (40, "in 40 mm 0.11"), (100, "in 100 mm 0.05")):
        assert f"{d - math.sqrt(d * d - 9):.2f}" == says[-4:] and says in texts(drawn)


def test_right_hand_ribs_climb_to_the_right() -> None:
    """A right-hand helix (cos t, sin t, c t), c > 0, seen from its -y side: from left to right it rises."""
    helix = [(math.cos(t), t) for t in np.linspace(math.pi, 2 * math.pi, 5)]
    assert helix[0][0] < helix[-1][0] and helix[0][1] < helix[-1][1]
    ribs = [m.points for m in hoses.hose_hand().marks if isinstance(m, marks.Path) and len(m.points) > 20]
    rises = [(points[-1][0] > 85, points[-1][1] > points[0][1], points[-1][0] > points[0][0]) for points in ribs]
    assert set(rises) == {(False, True, True), (True, False, True)}


def test_pitch_and_crests_are_counted_over_ten() -> None:
    wires = [m for m in hoses.hose_inside().marks if isinstance(m, marks.Arc) and m.radius_mm == 0.7]
    xs = sorted({round(m.centre[0], 3) for m in wires})
    assert xs[10] - xs[0] == pytest.approx(55.0)
    numbers = [m for m in machines.thread().marks if isinstance(m, Words) and m.text.isdecimal()]
    assert [int(m.text) for m in numbers] == list(range(11))
    assert numbers[-1].at[0] - numbers[0].at[0] == pytest.approx(60.0)


def test_the_guides_figures_are_what_their_formulas_give() -> None:
    assert f"{1 / math.pi:.2f}" == "0.32" and "0.32 mm of diameter" in PAGE
    five, eight, two_on = (1 / math.sin(math.radians(a)) for a in (36, 22.5, 72))
    assert f"{five:.3f} x (B - d)" in PAGE and f"{two_on:.4f} x (E - d / 2)" in PAGE
    assert f"{0.5 * five:.2f} mm\non the circle, of eight holes {0.5 * eight:.1f} mm" in PAGE
    assert f"{100 * (1 / math.cos(math.radians(5)) - 1):.1f} mm too much on 100 mm" in PAGE
    r, inertia = (110 - 3.2) / 2, 45 * 3.2**3 / 12
    assert 0.149 * 16 * r**3 / (3000 * inertia) == pytest.approx(1.0, abs=0.05)  # "squashed by 1 mm with 16 N"
    h = (4 / 80) ** 2  # Ramanujan 1914: perimeter of an ellipse with axes 42 and 38
    assert f"{40 * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h))):.2f}" == "40.03" and "circle of 40.03" in PAGE
    for per_inch, says in ((32, "7.9"), (20, "12.7"), (18, "14.1"), (16, "15.9"), (19, "13.4")):
        assert f"{254 / per_inch:.1f}" == says and says in SECTIONS["thread"]
    assert f"{0.1 * 25 / 0.6:.0f} mm" == "4 mm" and "that is 4 mm" in PAGE
