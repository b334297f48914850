"""Filaments of one's own: where they are looked for, what is taken from them, what is wrong with them."""

from __future__ import annotations

from pathlib import Path

import pytest
from yaml_cases import MINIMUM

from fitwright.errors import Problem, SpecError
from fitwright.spec.load import load_file
from fitwright.spec.models import Material

PROFILE = """\
material_profile: spool
like: PETG
measured: 2026-11-24
note: 235 C, little fan
modulus: 1600 MPa
strength: 22 MPa
"""


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def material_of(part: Path, line: str) -> Material:
    return load_file(write(part, f"{MINIMUM}{line}\n"))[0].material


def problems_of(part: Path, line: str) -> list[Problem]:
    with pytest.raises(SpecError) as caught:
        material_of(part, line)
    return caught.value.problems


def test_a_filament_beside_the_part(tmp_path: Path) -> None:
    """What was not measured keeps its ratio to what was: PETG has 44 MPa, 25 across, 2000 MPa, 0.5 % for good."""
    write(tmp_path / "materials/spool.yaml", PROFILE)
    made = material_of(tmp_path / "part.yaml", "material: Spool")
    assert (made.name, made.modulus_mpa, made.strength_mpa, made.density_g_cm3) == ("spool", 1600.0, 22.0, 1.27)
    assert made.strength_across_mpa == pytest.approx(25 * 22 / 44)
    assert made.strain_limit == pytest.approx(0.005 * (22 / 1600) / (44 / 2000))
    assert (made.service_c, made.softening_c, made.status, made.note) == (65.0, 75.0, "measured", "235 C, little fan")
    told = made.origin
    assert told and (told.file, told.like, told.measured) == ("materials/spool.yaml", "PETG", "2026-11-24")
    assert told.told == ("modulus", "strength")


def test_the_nearest_of_two_counts(tmp_path: Path) -> None:
    write(tmp_path / "materials/spool.yaml", PROFILE)
    deep = tmp_path / "machines/saw/part.yaml"
    assert material_of(deep, "material: spool").modulus_mpa == 1600.0
    write(tmp_path / "machines/materials/spool.yml", PROFILE.replace("1600", "1900"))
    made = material_of(deep, "material: spool")
    assert made.modulus_mpa == 1900.0
    assert made.origin and made.origin.file == "../materials/spool.yml"


def test_changes_in_the_part(tmp_path: Path) -> None:
    write(tmp_path / "materials/spool.yaml", PROFILE)
    made = material_of(tmp_path / "part.yaml", "material: {name: spool, service: 50, creep_share: 0.4}")
    assert (made.name, made.modulus_mpa, made.service_c, made.softening_c) == ("spool", 1600.0, 50.0, 60.0)
    assert made.lasting_modulus_mpa == pytest.approx(0.4 * 1600)
    fresh = material_of(tmp_path / "part.yaml", "material: {name: blue, like: spool, softening: 70}")
    assert (fresh.name, fresh.modulus_mpa, fresh.service_c) == ("blue", 1600.0, 60.0)


def test_a_profile_called_like_a_table_row_goes_first(tmp_path: Path) -> None:
    write(tmp_path / "materials/PETG.yaml", PROFILE.replace("spool", "PETG"))
    assert material_of(tmp_path / "part.yaml", "material: PETG").modulus_mpa == 1600.0
    assert material_of(tmp_path / "part.yaml", "material: ABS").modulus_mpa == 1700.0
    assert material_of(tmp_path / "part.yaml", "").modulus_mpa == 2000.0  # a part that names none has the table's


def test_an_unknown_name_lists_both_kinds(tmp_path: Path) -> None:
    write(tmp_path / "materials/spool.yaml", PROFILE)
    [problem] = problems_of(tmp_path / "part.yaml", "material: spol")
    assert problem.key == "material" and problem.hint == "did you mean spool?"
    assert "PLA | PETG" in problem.allowed and "in a folder materials/: spool" in problem.allowed
    [problem] = problems_of(tmp_path / "part.yaml", "material: {name: blue, density: 1.3}")
    assert problem.key == "material.name" and "add `like:`" in problem.hint
    [problem] = problems_of(tmp_path / "part.yaml", "material: {name: blue, like: PETGG}")
    assert problem.key == "material.like" and problem.hint == "did you mean PETG?"


@pytest.mark.parametrize(
    ("text", "line", "key", "words"),
    [
        (PROFILE.replace("1600 MPa", "1600"), 5, "modulus", "write the unit"),
        (PROFILE.replace("1600 MPa", "8 bar"), 5, "modulus", "1 MPa"),
        (PROFILE.replace("modulus", "modulos"), 5, "modulos", "did you mean modulus?"),
        (PROFILE.replace("like: PETG", "like: PTEG"), 2, "like", "did you mean PETG?"),
        (PROFILE.replace("like: PETG\n", ""), 1, "like", "found nothing"),
        (PROFILE.replace("2026-11-24", "24.11.2026"), 3, "measured", "a day such as"),
        (PROFILE.replace("e: spool", "e: barn"), 1, "material_profile", "the name of its file"),
        (PROFILE.replace("material_profile: spool\n", ""), 1, "material_profile", "found nothing"),
        (PROFILE + "strength_across: 40 MPa\n", 7, "strength_across", "are the two swapped?"),
        (PROFILE + "service: 90\nsoftening: 80\n", 7, "service", "at most 80 C"),
        (PROFILE + "creep_share: 50\n", 7, "creep_share", "0.05 to 1"),
        (PROFILE + "poisson: 0.5\n", 7, "poisson", "0 to 0.49"),
        (PROFILE + "soft: yes\n", 7, "soft", "0.02 or more"),
        (PROFILE + "modulus: 1700 MPa\n", 7, "modulus", "twice"),
        (PROFILE + "tensile: 40 MPa\n", 7, "tensile", "write strength"),
        ("material_profile spool\n", 1, "file", "only the text"),
        ("", 1, "file", "an empty file"),
    ],
)
def test_a_damaged_profile_names_its_own_place(text: str, line: int, key: str, words: str, tmp_path: Path) -> None:
    profile = write(tmp_path / "materials/spool.yaml", text)
    problem = problems_of(tmp_path / "part.yaml", "material: spool")[0]
    assert Path(problem.file) == profile
    assert (problem.line, problem.key) == (line, key)
    assert words in str(problem)


def test_a_profile_is_no_part(tmp_path: Path) -> None:
    profile = write(tmp_path / "materials/spool.yaml", PROFILE)
    with pytest.raises(SpecError) as caught:
        load_file(profile)
    assert "a filament's profile: name it in a part" in str(caught.value)
