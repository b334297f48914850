"""`fitwright sizes filament`: what is known of each, one's own first."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.cli.main import main

Captured = pytest.CaptureFixture[str]
OWN = "material_profile: spool\nlike: PETG\nmeasured: 2026-11-24\nmodulus: 1600 MPa\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that commands run in, with a spool of one's own."""
    (tmp_path / "materials").mkdir()
    (tmp_path / "materials" / "spool.yaml").write_text(OWN)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("word", ["filament", "Filaments", "material", "materials"])
def test_all_are_listed(word: str, folder: Path, capsys: Captured) -> None:
    assert main(["sizes", word]) == 0
    out = capsys.readouterr().out
    names = [line.split("  ")[0] for line in out.splitlines()[2:10]]
    assert names == ["spool", "PLA", "PETG", "ABS", "ASA", "PA", "TPU", "TPU 85A"]
    assert "attic 60 C" in out and "materials/NAME.yaml" in out and max(map(len, out.splitlines())) <= 100


@pytest.mark.parametrize("words", [["filament", "pla"], ["PLA"]])
def test_one_in_full(words: list[str], folder: Path, capsys: Captured) -> None:
    """22.8 MPa across (doi 10.1089/3dp.2020.0109); a quarter of it lasts (common practice)."""
    assert main(["sizes", *words]) == 0
    out = capsys.readouterr().out
    assert "22.8 MPa, lasting 5.7 MPa (confirmed)" in out and "soft at     55 C (memory)" in out
    assert "arXiv 2302.11240" in out and "spool" not in out


def test_ones_own_says_what_was_measured(folder: Path, capsys: Captured) -> None:
    assert main(["sizes", "filament", "Spool"]) == 0
    out = capsys.readouterr().out
    assert "spool, like PETG (materials/spool.yaml)" in out
    assert "1600 MPa, under lasting load 800 MPa (measured)" in out and "(confirmed, as PETG)" in out


def test_what_is_no_filament(folder: Path, capsys: Captured) -> None:
    assert main(["sizes", "filament", "wood"]) == 2
    assert "no filament is called 'wood'; known: spool, PLA" in capsys.readouterr().err


def test_a_damaged_profile_is_told_with_its_line(folder: Path, capsys: Captured) -> None:
    (folder / "materials" / "spool.yaml").write_text(OWN.replace("1600 MPa", "1600"))
    assert main(["sizes", "filament"]) == 2
    assert "materials/spool.yaml:4:10: modulus: found '1600'" in capsys.readouterr().err


def test_a_pipe_that_is_called_like_a_filament_stays_a_pipe(folder: Path, capsys: Captured) -> None:
    assert main(["sizes", "abs"]) == 0
    assert "ASTM D2661 ABS DWV" in capsys.readouterr().out


def test_a_folder_of_materials_is_no_part(folder: Path, capsys: Captured) -> None:
    (folder / "part.yaml").write_text("part: reducer\nend_a: {plain: {inside: 50}}\nend_b: {plain: {inside: 50}}\n")
    assert main(["template", str(folder), "-o", str(folder / "out")]) == 0
    assert main(["check", str(folder / "materials" / "spool.yaml")]) == 2
    assert "a filament's profile: name it in a part" in capsys.readouterr().err
