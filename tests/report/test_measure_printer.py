"""`fitwright measure printer`: what is said, the profile that is written, and readings that cannot be."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.spec.grammar.own_printers import read_profile

Captured = pytest.CaptureFixture[str]
HEAD = "measure: printer\nname: shed\nmaterial: PETG\nmeasured: 2026-11-20\ngauges:\n"
SIZES = (20, 40, 60, 80, 100)
WOBBLE = (0.03, -0.04, 0.02, -0.01, 0.04, -0.02, 0.03, -0.03, 0.01, -0.03)
"""Scatter of ten gauges as a printer may have it: typed, so that nothing here is by luck."""


def gauge(kind: str, size: float, wobble: float = 0.0) -> str:
    mean = 0.994 * size + (-0.18 if kind == "hole" else 0.09) + wobble
    return f"  - {{{kind}: {size}, read: [{mean - 0.01:.3f}, {mean:.3f}, {mean + 0.01:.3f}]}}\n"


def gauges() -> list[str]:
    kinds = [(kind, size) for kind in ("hole", "outside") for size in SIZES]
    return [gauge(kind, size, w) for (kind, size), w in zip(kinds, WOBBLE, strict=True)]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def measured(here: Path, text: str, code: int = 0) -> Path:
    (here / "readings.yaml").write_text(text, encoding="utf-8")
    assert main(["measure", "readings.yaml"]) == code
    return here / "printers" / "shed.yaml"


def test_the_profile_is_written_and_read(here: Path, capsys: Captured) -> None:
    profile = measured(here, HEAD + "".join(gauges()))
    said = capsys.readouterr().out
    assert "shed in PETG: 5 holes, 5 outsides, 30 readings" in said
    assert "printer: shed" in said and "wrote printers/shed.yaml" in said
    made = read_profile(profile)
    assert made.scale_xy == pytest.approx(0.994, abs=0.001)
    assert (made.hole_offset_mm, made.outside_offset_mm) == pytest.approx((-0.18, 0.09), abs=0.06)
    assert made.calibration and (made.calibration.gauges, made.calibration.measured) == (10, "2026-11-20")
    assert (made.bed_x_mm, made.small_hole_add_mm) == (220.0, 0.2)
    assert [file.name for file in profile.parent.iterdir()] == ["shed.yaml"]


def test_the_numbers_said_are_the_numbers_written(here: Path, capsys: Captured) -> None:
    made = read_profile(measured(here, HEAD + "".join(gauges())))
    said = capsys.readouterr().out
    assert f"{made.scale_xy:.4f}   +-" in said
    assert f"{made.hole_offset_mm:.3f} mm" in said and f"+{made.outside_offset_mm:.3f} mm" in said


def test_it_is_measured_today_if_nothing_is_said(here: Path) -> None:
    made = read_profile(measured(here, (HEAD + "".join(gauges())).replace("measured: 2026-11-20\n", "")))
    day = datetime.date.fromisoformat(made.calibration.measured if made.calibration else "")
    assert abs((datetime.date.today() - day).days) <= 1


def test_what_was_there_before_is_kept(here: Path) -> None:
    text = HEAD + "".join(gauges())
    profile = measured(here, text)
    before = profile.read_text()
    measured(here, text)  # the same again: nothing to keep
    assert [file.name for file in profile.parent.iterdir()] == ["shed.yaml"]
    measured(here, text.replace("2026-11-20", "2026-12-24"))
    assert (profile.parent / "shed.earlier.yaml").read_text() == before
    assert read_profile(profile.parent / "shed.earlier.yaml").name == "shed"


def test_a_profile_further_up_is_the_one_that_is_replaced(here: Path) -> None:
    """Else a part beside it would go on with the old one."""
    profile = measured(here, HEAD + "".join(gauges()))
    (here / "bench").mkdir()
    (here / "bench/again.yaml").write_text(HEAD.replace("11-20", "12-24") + "".join(gauges()))
    assert main(["measure", "bench/again.yaml"]) == 0
    assert not (here / "bench/printers").exists()
    assert "2026-12-24" in profile.read_text()


def test_bed_and_nozzle_and_a_profile_to_start_from(here: Path) -> None:
    text = HEAD + "".join(gauges())
    measured(here, text.replace("gauges:", "like: generic_256\nbed_z: 400\nnozzle: 0.6\ngauges:"))
    made = read_profile(here / "printers/shed.yaml")
    assert (made.bed_x_mm, made.bed_z_mm, made.nozzle_mm, made.line_mm) == (256.0, 400.0, 0.6, 0.63)
    outsides = "".join(one for one in gauges() if "outside" in one)
    measured(here, HEAD.replace("shed", "shed_asa").replace("gauges:", "like: shed\ngauges:") + outsides)
    other = read_profile(here / "printers/shed_asa.yaml")
    assert (other.bed_z_mm, other.hole_offset_mm) == (400.0, made.hole_offset_mm)  # holes were not measured


def test_small_holes_are_told_apart(here: Path, capsys: Captured) -> None:
    small = "".join(f"  - {{hole: {d}, read: {0.994 * d - 0.27:.3f}}}\n" for d in (3, 5, 8))
    made = read_profile(measured(here, HEAD + "".join(gauges()) + small))
    assert "holes below 10 mm" in capsys.readouterr().out
    assert made.small_hole_add_mm == pytest.approx(0.27, abs=0.04)


def test_an_outlier_is_named_and_left_out(here: Path, capsys: Captured) -> None:
    lines = gauges()
    wrong = [*lines[:6], gauge("outside", 40, WOBBLE[6] + 0.5), *lines[7:]]
    made = read_profile(measured(here, HEAD + "".join(wrong)))
    said = capsys.readouterr().out
    assert re.search(r"left out: gauge 7 \(outside 40 mm, line 12\): it is 0\.\d+ mm larger than the others", said)
    assert made.calibration and made.calibration.gauges == 9
    assert made.outside_offset_mm == pytest.approx(0.09, abs=0.06)


def test_a_slip_of_one_reading_is_named_and_left_out(here: Path, capsys: Captured) -> None:
    text = HEAD + "".join(gauges())
    line = gauges()[3]
    read = re.findall(r"[\d.]+", line.partition("read")[2])
    wrong = line.replace(read[1], f"{float(read[1]) + 0.5:.3f}")
    read_profile(measured(here, text.replace(line, wrong)))
    said = capsys.readouterr().out
    assert re.search(r"left out: gauge 4 \(hole 80 mm, line 9\): the reading 79\.\d+ mm is 0\.\d+ mm above its", said)


def test_x_and_y(here: Path, capsys: Captured) -> None:
    lines = [
        f"  - {{{kind}: {d}, x: {0.997 * d + o:.3f}, y: {0.992 * d + o:.3f}}}\n"
        for kind, o in (("hole", -0.18), ("outside", 0.09))
        for d in SIZES
    ]
    made = read_profile(measured(here, HEAD + "".join(lines)))
    said = capsys.readouterr().out
    assert (made.scale_x, made.scale_y) == pytest.approx((0.997, 0.992), abs=1e-4)
    assert "a round of 100 mm comes out oval by 0.5 mm" in said and "steps per mm" in said
    assert "nothing was read twice" in said


def test_inches(here: Path, capsys: Captured) -> None:
    lines = [
        f"  - {{{kind}: {d}, read: {0.994 * d + o:.4f}}}\n"
        for kind, o in (("hole", -0.007), ("outside", 0.004))
        for d in (1, 2, 3, 4)
    ]
    made = read_profile(measured(here, HEAD.replace("gauges:", "units: in\ngauges:") + "".join(lines)))
    said = capsys.readouterr().out
    assert "-0.0070 in" in said and "A size modelled as 4 in prints as" in said
    assert made.hole_offset_mm == pytest.approx(-0.1778, abs=0.001)


def test_a_name_that_the_tables_have_too(here: Path, capsys: Captured) -> None:
    (here / "readings.yaml").write_text(HEAD.replace("shed", "generic_220") + "".join(gauges()))
    assert main(["measure", "readings.yaml"]) == 0
    assert "parts here that say `printer: generic_220` use your profile" in capsys.readouterr().out


def one_off(line: str) -> str:
    return HEAD + line + "".join(gauges()[1:])


@pytest.mark.parametrize(
    ("text", "line", "key", "words"),
    [
        (HEAD + gauges()[0] * 5, 6, "gauges", "scale and offset cannot be told apart: print holes and outsides of 20"),
        (HEAD + gauges()[0] + gauges()[4], 6, "gauges", "found 2 means"),
        (one_off("  - {hole: 20, outside: 26, read: 19.8}\n"), 6, "gauges[1]", "hole and outside in one gauge"),
        (one_off("  - {read: 19.8}\n"), 6, "gauges[1]", "neither hole nor outside"),
        (one_off("  - {hole: 20}\n"), 6, "gauges[1]", "no readings"),
        (one_off("  - {hole: 20, x: 19.8}\n"), 6, "gauges[1]", "read, or x and y"),
        (one_off("  - {hole: 20, read: 19.8, x: 19.8, y: 19.7}\n"), 6, "gauges[1]", "found read and x and y"),
        (one_off("  - {hole: 0, read: 19.8}\n"), 6, "gauges[1].hole", "1 mm to 1000 mm"),
        (one_off("  - {hole: 20, read: [19.8, 25.9]}\n"), 6, "gauges[1].read[2]", "is it the outside of the ring?"),
        (one_off("  - {outside: 26, read: 19.8}\n"), 6, "gauges[1].read", "is it the hole of the ring?"),
        (one_off("  - {hole: 20, read: 0.78}\n"), 6, "gauges[1].read", "is the reading in inches?"),
        (one_off("  - {hole: 60, read: 57.0}\n"), 6, "gauges[1].read", "57.2 mm to 62.8 mm on a hole of 60 mm"),
        (one_off("  - {hole: 20, read: []}\n"), 6, "gauges[1].read", "1 to 50 readings"),
        (one_off("  - {hole: 20, read: x}\n"), 6, "gauges[1].read", "found 'x'"),
        (one_off("  - {bore: 20, read: 19.8}\n"), 6, "gauges[1].bore", "write hole"),
        (HEAD + "  []\n", 6, "gauges", "the gauges, each a map"),
        (HEAD.replace("name: shed", "name: my/shed") + gauges()[0], 2, "name", "did you mean my-shed?"),
        (HEAD.replace("material: PETG\n", "") + "".join(gauges()), 1, "material", "found nothing"),
        (HEAD.replace("gauges:", "like: generic_200\ngauges:") + "".join(gauges()), 5, "like", "did you mean generic_"),
        (HEAD.replace("gauges:", "layer: 0.5\ngauges:") + "".join(gauges()), 5, "layer", "at most 0.34 mm"),
        (HEAD.replace("2026-11-20", "yesterday") + "".join(gauges()), 4, "measured", "a day such as"),
        (HEAD + "".join(gauge("hole", d, -0.029 * d) for d in SIZES), 6, "gauges", "scale of 0.965"),
        (HEAD + "".join(gauge("outside", d, 1.05) for d in SIZES), 6, "gauges", "outsides +1.14 mm off"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(
    text: str, line: int, key: str, words: str, here: Path, capsys: Captured
) -> None:
    measured(here, text, 2)
    said = capsys.readouterr().err
    assert f"readings.yaml:{line}:" in said and f" {key}: found" in said and words in said, said
    assert not (here / "printers").exists()


def test_words_on_the_command_line_are_sent_to_a_file(here: Path, capsys: Captured) -> None:
    for words in (["printer"], ["printer", "name=shed", "20"]):
        assert main(["measure", *words]) == 2
        assert "a YAML file, such as: fitwright measure readings.yaml" in capsys.readouterr().err


def test_a_damaged_profile_to_start_from_names_its_own_file(here: Path, capsys: Captured) -> None:
    (here / "printers").mkdir()
    (here / "printers/old.yaml").write_text("printer_profile: old\nscale_xy: 2\n")
    measured(here, HEAD.replace("gauges:", "like: old\ngauges:") + "".join(gauges()), 2)
    assert "printers/old.yaml:2:11: scale_xy: found '2'" in capsys.readouterr().err


def test_no_scatter_at_all_is_said_without_powers_of_ten(here: Path, capsys: Captured) -> None:
    measured(here, HEAD + "".join(gauge(kind, size) for kind in ("hole", "outside") for size in SIZES))
    said = capsys.readouterr().out
    assert "within 0 % of the size + 0.03 mm" in said and "e-" not in said


def test_a_profile_behind_a_link_is_written_there(here: Path) -> None:
    (here / "printers").mkdir()
    (here / "mine.yaml").write_text("printer_profile: shed\n")
    (here / "printers/shed.yaml").symlink_to("../mine.yaml")
    profile = measured(here, HEAD + "".join(gauges()))
    assert profile.is_symlink() and "scale_xy" in (here / "mine.yaml").read_text()
