"""`fitwright worksheet`: what it writes, what it keeps, what it refuses, what it does not load."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from fitwright.cli.main import main
from fitwright.drawing.paper import PAPERS
from fitwright.drawing.pdf import MM_PER_POINT
from fitwright.report.worksheets import WORKSHEETS

HEAVY = {"cadquery", "OCP", "trimesh", "scipy", "manifold3d", "reportlab"}


def test_a_sheet_is_written_beside_and_named_after_its_family(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["worksheet", "thread"]) == 0
    assert [path.name for path in tmp_path.iterdir()] == ["thread_worksheet.pdf"]
    assert "wrote thread_worksheet.pdf: 2 pages, A4" in capsys.readouterr().out
    before = (tmp_path / "thread_worksheet.pdf").read_bytes()
    assert main(["worksheet", "thread", "--paper", "Letter"]) == 2
    assert "exists already and is kept" in capsys.readouterr().err
    assert (tmp_path / "thread_worksheet.pdf").read_bytes() == before


def test_letter_paper_and_a_name_of_ones_own(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "sheet.PDF"
    assert main(["worksheet", "thread", "--paper", "letter", "-o", str(path)]) == 0
    with pdfium.PdfDocument(path) as document:
        letter = PAPERS["Letter"]
        for page in document:
            size = [side * MM_PER_POINT for side in page.get_size()]
            assert size == pytest.approx([letter.width_mm, letter.height_mm], abs=0.01)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["reducr"], "no worksheet is called 'reducr'"),
        (["reducr"], "did you mean reducer?"),
        (["hanger"], ", ".join(WORKSHEETS)),
        (["thread", "-o", "sheet.txt"], "should end in .pdf, such as sheet.pdf"),
    ],
)
def test_what_cannot_be_is_refused_by_name(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["worksheet", *words]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("written", ["offset-adapter", "Offset_Adapter", "offset adapter"])
def test_a_family_may_be_written_with_a_dash(written: str) -> None:
    from fitwright.cli.worksheet import known

    assert known(written) == "offset_adapter"


@pytest.mark.parametrize(("words", "code"), [(["reducr"], 2), (["thread", "-o", "x.txt"], 2), (["thread"], 0)])
def test_no_kernel_is_loaded_where_none_is_needed(words: list[str], code: int, tmp_path: Path) -> None:
    program = (
        "import sys, json\nfrom fitwright.cli.main import main\ncode = main(sys.argv[1:])\n"
        "print(json.dumps([code, sorted({name.partition('.')[0] for name in sys.modules})]))\n"
    )
    command = [sys.executable, "-c", program, "worksheet", *words]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False, timeout=60)
    answered, loaded = json.loads(done.stdout.splitlines()[-1])
    assert answered == code and not (HEAVY - ({"reportlab"} if code == 0 else set())) & set(loaded)


def test_a_disk_that_refuses_is_said_plainly(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("")
    assert main(["worksheet", "thread", "-o", str(tmp_path / "file" / "x.pdf")]) != 0
    said = capsys.readouterr().err
    assert "Traceback" not in said and "internal error" not in said
