"""Printer profiles of one's own: where they are looked for, what is taken from them, what is wrong with them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from yaml_cases import MINIMUM

from fitwright.errors import Problem, SpecError
from fitwright.spec.load import load_file
from fitwright.spec.models import Printer

PROFILE = """\
printer_profile: shed
like: generic_256
material: PETG
measured: 2026-11-20
gauges: 10
smallest: 20
largest: 100
scale_xy: 0.994
hole_offset: -0.18
outside_offset: 0.09
scatter_rel: 0.0005
scatter_abs: 0.12
"""


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def printer_of(part: Path, line: str) -> Printer:
    return load_file(write(part, f"{MINIMUM}{line}\n"))[0].printer


def problems_of(part: Path, line: str) -> list[Problem]:
    with pytest.raises(SpecError) as caught:
        printer_of(part, line)
    return caught.value.problems


def test_a_profile_beside_the_part(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.yaml", PROFILE)
    made = printer_of(tmp_path / "part.yaml", "printer: Shed")
    assert (made.name, made.bed_x_mm, made.scale_xy, made.hole_offset_mm) == ("shed", 256.0, 0.994, -0.18)
    assert made.small_hole_add_mm == 0.2 and made.status == "measured"
    known = made.calibration
    assert known and (known.measured, known.gauges, known.material) == ("2026-11-20", 10, "PETG")
    assert (known.file, known.smallest_mm, known.largest_mm) == ("printers/shed.yaml", 20.0, 100.0)


def test_the_nearest_of_two_counts(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.yaml", PROFILE)
    deep = tmp_path / "machines/saw/part.yaml"
    assert printer_of(deep, "printer: shed").scale_xy == 0.994
    write(tmp_path / "machines/printers/shed.yml", PROFILE.replace("0.994", "0.996"))
    made = printer_of(deep, "printer: shed")
    assert made.scale_xy == 0.996
    assert made.calibration and made.calibration.file == "../printers/shed.yml"


def test_a_profile_with_changes(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.yaml", PROFILE)
    made = printer_of(tmp_path / "part.yaml", "printer: {name: shed, nozzle: 0.6, hole_offset: -0.2}")
    assert (made.nozzle_mm, made.line_mm, made.bed_x_mm) == (0.6, 0.63, 256.0)
    assert (made.scale_xy, made.hole_offset_mm, made.outside_offset_mm) == (0.994, -0.2, 0.09)
    assert made.calibration and made.calibration.changed == ("hole_offset", "nozzle")


def test_a_profile_called_like_a_table_row_goes_first(tmp_path: Path) -> None:
    write(tmp_path / "printers/generic_220.yaml", PROFILE.replace("shed", "generic_220"))
    assert printer_of(tmp_path / "part.yaml", "printer: generic_220").scale_xy == 0.994
    assert printer_of(tmp_path / "part.yaml", "printer: generic_256").scale_xy == 1.0
    assert printer_of(tmp_path / "part.yaml", "").scale_xy == 1.0  # a part that names no printer has the table's


def test_x_and_y_apart(tmp_path: Path) -> None:
    """Their mean is undone, half their difference is scatter."""
    write(tmp_path / "printers/shed.yaml", PROFILE.replace("scale_xy: 0.994", "scale_x: 0.996\nscale_y: 0.992"))
    made = printer_of(tmp_path / "part.yaml", "printer: shed")
    assert made.scale_xy == pytest.approx(0.994) and made.oval_rel == pytest.approx(0.002)
    assert made.scatter_rel == pytest.approx(0.0005 + 0.002)
    changed = printer_of(tmp_path / "part.yaml", "printer: {name: shed, scatter_rel: 0.001}")
    assert changed.scatter_rel == pytest.approx(0.001 + 0.002)
    alike = printer_of(tmp_path / "part.yaml", "printer: {name: shed, scale_xy: 0.99}")
    assert (alike.scale_xy, alike.scale_x, alike.oval_rel) == (0.99, None, 0.0)
    assert alike.scatter_rel == pytest.approx(0.0005)


def test_inches(tmp_path: Path) -> None:
    text = "printer_profile: shed\nunits: in\nbed_x: 10\nhole_offset: -0.007\nscatter_abs: 0.1 mm\n"
    write(tmp_path / "printers/shed.yaml", text)
    made = printer_of(tmp_path / "part.yaml", "printer: shed")
    assert (made.bed_x_mm, made.hole_offset_mm) == pytest.approx((254.0, -0.1778))
    assert made.scatter_abs_mm == 0.1 and made.status == "by hand"


def test_what_was_measured_before_can_still_be_used(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.earlier.yaml", PROFILE)
    assert printer_of(tmp_path / "part.yaml", "printer: shed.earlier").scale_xy == 0.994


def test_an_unknown_name_lists_both_kinds(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.yaml", PROFILE)
    [problem] = problems_of(tmp_path / "part.yaml", "printer: sheds")
    assert problem.allowed.startswith("of your own, in a folder printers/: shed; of the tables: generic_220")
    assert problem.hint == "did you mean shed?"
    [problem] = problems_of(tmp_path / "part.yaml", "printer: {name: shedd, nozzle: 0.6}")
    assert problem.key == "printer.name" and problem.hint == "did you mean shed?"
    assert printer_of(tmp_path / "part.yaml", "printer: {name: cellar, nozzle: 0.6}").name == "cellar"


def test_without_profiles_it_says_so(tmp_path: Path) -> None:
    [problem] = problems_of(tmp_path / "part.yaml", "printer: shed")
    assert "none found" in problem.allowed


@pytest.mark.parametrize(
    ("text", "line", "key", "words"),
    [
        (PROFILE.replace("0.994", "0,994"), 8, "scale_xy", "decimals take a point"),
        (PROFILE.replace("0.994", "1.4"), 8, "scale_xy", "'1.4'"),
        (PROFILE.replace("scale_xy", "scale_x"), 8, "scale_x", "scale_x without scale_y"),
        (PROFILE + "scale_x: 0.99\nscale_y: 0.99\n", 8, "scale_xy", "scale_xy beside scale_x and scale_y"),
        (PROFILE.replace("hole_offset", "hole_ofset"), 9, "hole_ofset", "did you mean hole_offset?"),
        (PROFILE.replace("like: generic_256", "like: generic_265"), 2, "like", "generic_220 | generic_256"),
        (PROFILE.replace("2026-11-20", "20.11.2026"), 4, "measured", "a day such as 2026-11-20"),
        (PROFILE.replace("profile: shed", "profile: barn"), 1, "printer_profile", "the name of its file"),
        (PROFILE.replace("printer_profile: shed\n", ""), 1, "printer_profile", "found nothing"),
        (PROFILE + "layer: 0.5\n", 13, "layer", "layers of 0.5 mm"),
        (PROFILE + "scale_xy: 0.99\n", 13, "scale_xy", "twice"),
        (PROFILE.replace("smallest: 20", "smallest: 120"), 6, "smallest", "the two are swapped"),
        ("printer_profile shed\n", 1, "file", "only the text"),
        ("", 1, "file", "an empty file"),
    ],
)
def test_a_damaged_profile_names_its_own_place(text: str, line: int, key: str, words: str, tmp_path: Path) -> None:
    profile = write(tmp_path / "printers/shed.yaml", text)
    problem = problems_of(tmp_path / "part.yaml", "printer: shed")[0]
    assert Path(problem.file) == profile
    assert (problem.line, problem.key) == (line, key)
    assert words in str(problem)


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "printers").mkdir()
    (tmp_path / "printers/shed.yaml").write_bytes(b"printer_profile: \xff\n")
    assert "not UTF-8" in str(problems_of(tmp_path / "part.yaml", "printer: shed")[0])
    (tmp_path / "printers/barn.yaml").mkdir()
    assert "found Is a directory" in str(problems_of(tmp_path / "part.yaml", "printer: barn")[0])


def test_a_profile_is_no_part(tmp_path: Path) -> None:
    profile = write(tmp_path / "printers/shed.yaml", PROFILE)
    with pytest.raises(SpecError, match="a printer's profile: name it in a part"):
        load_file(profile)


def test_loading_a_part_with_a_profile_is_light(tmp_path: Path) -> None:
    write(tmp_path / "printers/shed.yaml", PROFILE)
    part = write(tmp_path / "part.yaml", f"{MINIMUM}printer: shed\n")
    program = (
        "import sys; from pathlib import Path; from fitwright.spec.load import load_file; "
        "load_file(Path(sys.argv[1])); print(sorted({'numpy', 'scipy', 'cadquery'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", program, str(part)], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
