"""The command `plate`: which flange is meant, what it is made of, what is refused; and what it writes."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.spec.grammar.plate_made import GasketKeys, SheetKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.load import load_text
from fitwright.spec.plate_of_end import PlateMade, plate_of_end

Captured = pytest.CaptureFixture[str]
PART = """\
part: reducer
name: toad
end_a: {flange: {opening: 50, holes: {count: 4, circle: 80, size: M5}}}
end_b: {%s}
"""
TAIL = "hose_tail: {hose_inside: 50}"
BOTH = "flange: {opening: 60, holes: {count: 3, circle: 90, size: M6}}"


def test_the_only_flange_is_meant() -> None:
    (spec,) = load_text(PART % TAIL)
    made = plate_of_end(spec, None, PlateMade())
    assert (made.name, made.plate, made.made_for_end, made.thickness_mm) == (
        "toad_plate_end_a",
        "printed",
        "end_a",
        6.0,
    )
    assert made.printer == spec.printer and made.material == spec.material and made.gasket is None


def test_sheet_and_gasket() -> None:
    (spec,) = load_text(PART % BOTH)
    sheet = SheetKeys.read({"material": "steel", "thickness": "1.5"}, Context())
    gasket = GasketKeys.read({"material": "cork"}, Context()).made()
    made = plate_of_end(spec, "end_b", PlateMade(sheet, gasket))
    assert (made.name, made.plate, made.thickness_mm) == ("toad_plate_end_b", "sheet", 1.5)
    assert made.sheet is not None and made.sheet.density_g_cm3 == 7.85  # mild steel, handbook value
    assert made.gasket is not None and made.gasket.words == "cork"
    alone = GasketKeys.read({"alone": "yes"}, Context()).made()
    assert plate_of_end(spec, "end_a", PlateMade(None, alone)).name == "toad_gasket_end_a"


@pytest.mark.parametrize(
    ("other", "words", "said"),
    [
        (TAIL, ["--end", "end_b"], "--end: found end_b of toad, which is a hose tail; allowed: an end with a flange"),
        (TAIL, ["--end", "end_c"], "--end: found 'end_c'; allowed: an end with a flange: end_a"),
        (BOTH, [], "toad has a flange at both ends; allowed: end_a or end_b"),
        (TAIL, ["--sheet", "tin foil", "1"], "--sheet: material: found 'tin foil'; allowed: plastic, ABS"),
        (TAIL, ["--sheet", "steel", "100"], "--sheet: thickness: found '100'; allowed: a length from 0.3 mm to 40 mm"),
        (TAIL, ["--gasket", "bread"], "--gasket: material: found 'bread'; allowed: foam rubber"),
        (TAIL, ["--gasket", "foam", "rubber", "5"], "--gasket: found 3 words"),
        (TAIL, ["--thickness", "0.1"], "--thickness: found '0.1'; allowed: a length from 1 mm"),
        (TAIL, ["--thickness", "4", "--sheet", "steel", "1"], "--thickness: that of a printed plate"),
        (TAIL, ["--gasket-only", "--sheet", "steel", "1"], "--gasket-only: found --sheet beside it"),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, list) else "",
)
def test_what_is_refused_by_name(other: str, words: list[str], said: str, tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "toad.yaml").write_text(PART % other)
    assert main(["plate", str(tmp_path / "toad.yaml"), "-o", str(tmp_path / "out"), *words]) == 2
    assert said in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_file_without_a_flange(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "pipe.yaml").write_text("part: reducer\nend_a: {plain: {inside: 50}}\nend_b: {plain: {inside: 60}}\n")
    assert main(["plate", str(tmp_path / "pipe.yaml")]) == 2
    assert "a reducer with end_a: plain, end_b: plain" in capsys.readouterr().err


@pytest.mark.slow
def test_it_writes_what_is_cut_and_what_is_printed(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "toad.yaml").write_text(PART % TAIL)
    out = tmp_path / "out"
    assert main(["plate", str(tmp_path / "toad.yaml"), "--gasket", "-o", str(out)]) == 0
    assert "good to print and to cut" in capsys.readouterr().out
    names = {file.name for file in (out / "toad_plate_end_a").iterdir()}
    assert {"toad_plate_end_a_plate.stl", "toad_plate_end_a_gasket.dxf", "toad_plate_end_a_cut_list.txt"} <= names
    assert "toad_plate_end_a_gasket.stl" not in names
