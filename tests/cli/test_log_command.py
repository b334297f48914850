"""The command `log`: what it says, what it refuses, and that the next part is made by it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.cli.paths import yaml_files
from fitwright.spec.load import load_file
from fitwright.spec.print_store import prints_in
from fitwright.spec.printed import FitJoint, modelled_at, printed_cone
from fitwright.spec.taught import FIT_JOINTS

Captured = pytest.CaptureFixture[str]
SAW = "part: reducer\nend_a: {socket: {over: 60}}\nend_b: {hose_tail: {hose_inside: 50}}\n"
SET = """\
units: in
parts:
  - {name: one, part: reducer, end_a: {socket: {over: 4.21}}, end_b: {plain: {inside: 2}}}
  - name: two
    part: reducer
    end_a: {flange: {holes: {count: 4, circle: 6, size: M5}, opening: 3.5}}
    end_b: {spigot: {into: 4}}
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "saw.yaml").write_text(SAW)
    (tmp_path / "set.yaml").write_text(SET)
    return tmp_path


def log(*words: str) -> int:
    return main(["log", *words])


def test_a_print_is_logged_and_answered(here: Path, capsys: Captured) -> None:
    words = "--end end_a --read 60.2 60.25 60.15 --went tight --date 2026-11-02".split()
    assert log("saw.yaml", *words, "--note", "cold shed") == 0
    said = capsys.readouterr().out
    assert "saw end_a: 60.20 mm (3 readings; 60.42 mm wanted), went tight (cold shed)" in said
    assert "holes on generic_220 in PETG come out 0.1" in said and "smaller" in said
    assert "allowance for slide sockets on generic_220 in PETG: 0.42 -> 0.4" in said
    assert "from 1 print\n" in said and "the next saw end_a: modelled 60.6" in said
    [one] = prints_in(here / "prints.yaml")
    assert (one.date, one.wanted, one.modelled, one.went, one.note) == (
        "2026-11-02",
        60.42,
        60.42,
        "tight",
        "cold shed",
    )


def test_readings_alone_and_a_verdict_alone(here: Path, capsys: Captured) -> None:
    assert log("saw.yaml", "--end", "end_b", "--read", "49.6") == 0
    assert "until you say how one went" in capsys.readouterr().out
    assert log("saw.yaml", "--end", "end_b", "--went", "right") == 0
    assert "hose tails on generic_220 in PETG: 0.50 -> 0." in capsys.readouterr().out
    assert [bool(one.readings) for one in prints_in(here / "prints.yaml")] == [True, False]


def test_inches_and_a_unit_of_its_own(here: Path, capsys: Captured) -> None:
    assert log("set.yaml", "--name", "one", "--end", "end_a", "--read", "4.23", "107.4 mm", "--went", "right") == 0
    said = capsys.readouterr().out
    assert "4.229 in (2 readings" in said and " mm" not in said
    [one] = prints_in(here / "prints.yaml")
    assert one.readings == pytest.approx([4.23 * 25.4, 107.4], abs=1e-4)
    assert one.fit == "taper" and one.eased == pytest.approx(0.0, abs=1e-9)


REFUSED = [
    ("saw.yaml --end end_c --went right", "--end: found 'end_c'; allowed: end_a (socket) | end_b (hose_tail)"),
    ("saw.yaml --went right", "--end: found nothing; allowed: end_a or end_b. add --end"),
    ("saw.yaml --end end_a", "--read: found neither readings nor how it went"),
    ("saw.yaml --end end_a --went goood", "--went: found 'goood'; allowed: loose | right | tight | split"),
    ("saw.yaml --end end_a --went good", "did you mean right?"),
    ("saw.yaml --end end_a --read 63.6", "--read[1]: found 63.6 mm, where 60.42 mm was wanted; allowed: 57.4 mm to"),
    ("saw.yaml --end end_a --read 60 49.4", "--read[2]: found 49.4 mm"),
    ("saw.yaml --end end_a --read 49.5 49.4", "did you measure end_b, which was to be 49.5 mm?"),
    ("saw.yaml --end end_a --read 60,2", "decimals are written with a point"),
    ("saw.yaml --end end_a --read sixty", "no number is written here"),
    ("saw.yaml --end end_a --read -60.4", "--read[1]: found '-60.4'"),
    ("saw.yaml --end end_a --went right --date yesterday", "--date: found 'yesterday'; allowed: a day"),
    ("saw.yaml --end end_a --went right --date 2026-02-30", "a day of the calendar"),
    ("saw.yaml --end end_a --went right --date 2099-01-01", "still to come"),
    ("saw.yaml --end end_a --went right --name hoover", "--name: found 'hoover'; allowed: saw"),
    ("set.yaml --end end_a --went right", "--name: found a file of 2 parts, and no --name; allowed: one | two"),
    ("set.yaml --end end_a --went right --name ona", "did you mean one?"),
    (
        "set.yaml --end end_a --went right --name two",
        "--end: found end_a, a flange end, which has no fit; allowed: end_b",
    ),
    ("set.yaml --end end_a --read 107.4 --name one", "--read[1]: found '107.4'; allowed: a length from"),
    ("set.yaml --end end_a --read 107.4 --name one", "did you mean 107.4 mm?"),
    ("set.yaml --end end_a --read 4.23 --name one --show", "found beside --show"),
    (". --end end_a --went right", ". is a folder; allowed: the YAML file of the part"),
    ("gone.yaml --end end_a --went right", "gone.yaml: file: found No such file"),
    ("gone.yaml --show", "gone.yaml: found no such file or folder"),
]


@pytest.mark.parametrize(("words", "said"), REFUSED, ids=[words for words, _ in REFUSED])
def test_what_is_wrong_is_named_and_nothing_is_logged(words: str, said: str, here: Path, capsys: Captured) -> None:
    assert log(*words.split()) == 2
    assert said in capsys.readouterr().err
    assert not (here / "prints.yaml").exists()


def test_a_damaged_log_stops_the_part_and_stays(here: Path, capsys: Captured) -> None:
    (here / "prints.yaml").write_text("prints:\n  - {date: soon}\n")
    for words in (
        ["log", "saw.yaml", "--end", "end_a", "--went", "right"],
        ["check", "saw.yaml"],
        ["log", ".", "--show"],
    ):
        assert main(words) == 2
        assert "prints.yaml:2:12: prints[1].date: found 'soon'" in capsys.readouterr().err
    assert (here / "prints.yaml").read_text() == "prints:\n  - {date: soon}\n"


def test_show(here: Path, capsys: Captured) -> None:
    assert log(".", "--show") == 0
    assert "nothing is logged in prints.yaml yet" in capsys.readouterr().out
    for went in ("tight", "right"):
        log("saw.yaml", "--end", "end_a", "--read", "60.3", "--went", went, "--date", "2026-11-02")
    log("set.yaml", "--name", "one", "--end", "end_a", "--went", "loose", "--date", "2026-10-02")
    capsys.readouterr()
    for what in (".", "saw.yaml", "prints.yaml"):
        assert log(what, "--show") == 0
        lines = capsys.readouterr().out.splitlines()
        assert lines[0] == "3 prints in prints.yaml"
        assert lines[2].startswith("2026-10-02 one end_a: not measured")
        assert any(line.startswith("slide sockets on generic_220 in PETG: 0.0") for line in lines)
        assert any(line.startswith("tapered sockets on") and "tighter" in line for line in lines)
        assert any(line.startswith("holes on generic_220") and "from 2 prints with readings" in line for line in lines)


def test_prints_on_a_printer_that_no_part_names_are_doubted(here: Path, capsys: Captured) -> None:
    log("saw.yaml", "--end", "end_a", "--read", "60.3", "--went", "right")
    text = (here / "prints.yaml").read_text().replace("generic_220", "old one")
    (here / "prints.yaml").write_text(text)
    capsys.readouterr()
    assert log(".", "--show") == 0
    assert "no part here is printed on old one: weighed with the scatter of generic_220" in capsys.readouterr().out


def joint_of(path: Path) -> FitJoint:
    joint = load_file(path)[0].end_a.joint
    assert isinstance(joint, FIT_JOINTS)
    return joint


def test_both_ends_of_one_print_were_made_before_either_was_logged(here: Path, capsys: Captured) -> None:
    """What was learned from the first line of the day did not yet shape the print that its second line tells of."""
    for words in ("--read 60.1", "--went tight", "--read 60.12"):
        log("saw.yaml", "--end", "end_a", *words.split(), "--date", "2026-11-02")
    assert [one.modelled for one in prints_in(here / "prints.yaml")] == [60.42] * 3
    log("saw.yaml", "--end", "end_a", "--went", "right", "--date", "2026-11-03")
    assert prints_in(here / "prints.yaml")[3].modelled > 60.6
    assert "no build in outputs/saw" in capsys.readouterr().out


WEDGE = "socket: {over: {end: 58.4, further: 60.2, apart: 30}, depth: 30}"


@pytest.mark.parametrize("end", ["socket: {over: 107.1}", "spigot: {into: 107.1}", WEDGE], ids=lambda end: end[:13])
def test_a_tapers_log_holds_what_it_was_eased_by(end: str, here: Path, capsys: Captured) -> None:
    (here / "saw.yaml").write_text(SAW.replace("socket: {over: 60}", end))
    for day in ("01", "02"):
        assert log("saw.yaml", "--end", "end_a", "--went", "tight", "--date", f"2026-11-{day}") == 0
    first, second = prints_in(here / "prints.yaml")
    assert first.fit == "taper" and first.eased == pytest.approx(0.0, abs=1e-9)
    assert second.eased is not None and second.eased > 0.02
    sign = -1.0 if end.startswith("spigot") else 1.0
    assert sign * (second.wanted - first.wanted) == pytest.approx(second.eased, abs=2e-4)
    assert "where" not in capsys.readouterr().err


def test_an_allowance_of_its_own_is_told(here: Path, capsys: Captured) -> None:
    (here / "saw.yaml").write_text(SAW.replace("over: 60", "over: 60, allowance: 0.3"))
    log("saw.yaml", "--end", "end_a", "--read", "60.3", "--went", "tight")
    said = capsys.readouterr().out
    assert "allowance of its own in the YAML, which stays" in said and "to measure 60.30 mm" in said


def test_readings_that_differ_are_told(here: Path, capsys: Captured) -> None:
    log("saw.yaml", "--end", "end_a", "--read", "60.3", "61.3")
    assert "its readings differ by 1.00 mm" in capsys.readouterr().out


def test_the_log_is_no_part(here: Path) -> None:
    log("saw.yaml", "--end", "end_a", "--went", "right")
    assert yaml_files([here]) == [here / "saw.yaml", here / "set.yaml"]
    (here / "prints.yaml").write_text("# all struck out\n")
    assert yaml_files([here]) == [here / "saw.yaml", here / "set.yaml"]


@pytest.mark.slow
def test_the_next_part_is_made_by_it_and_logged_as_built(here: Path, capsys: Captured) -> None:
    for _ in range(6):
        log("saw.yaml", "--end", "end_a", "--read", "60.2", "60.22", "--went", "tight", "--date", "2026-11-02")
    assert main(["build", "saw.yaml", "-j", "1", "--quick"]) == 0
    said = (here / "outputs/saw/report.txt").read_text()
    flat = " ".join(said.split())
    assert "Allowance 0.5" in flat and "mm: table 0.42 mm, and +0.1" in flat
    assert "from 6 of your prints on generic_220 in PETG (give or take 0.1" in flat
    assert "modelled 0.2" in flat and "mm larger, because holes came out 0.2" in flat
    report = json.loads((here / "outputs/saw/report.json").read_bytes())
    assert report["learned"]["end_a"]["verdicts"] == 6 and "end_b" not in report["learned"]
    printer, joint = load_file(here / "saw.yaml")[0].printer, joint_of(here / "saw.yaml")
    made, measures = modelled_at(joint, 3.0, printer), printed_cone(joint, printer).at(3.0)
    [built] = [f for f in report["findings"] if f["code"] == "fit.built" and f["place"].startswith("end_a socket")]
    assert built["severity"] == "pass" and built["value"] == pytest.approx(made, abs=0.05)
    capsys.readouterr()
    for _ in range(2):  # the log moves on, the print stays as it was built
        log("saw.yaml", "--end", "end_a", "--read", "60.3", "--went", "tight")
        assert "no build" not in capsys.readouterr().out
        last = prints_in(here / "prints.yaml")[-1]
        assert (last.modelled, last.wanted) == pytest.approx((made, measures), abs=1e-4)


@pytest.mark.parametrize(
    "bare", ["prints:\n", "# mine\nprints:\n  # - date: 2026-11-20\n", "\ufeffprints:   # none\r\n"]
)
def test_a_log_whose_prints_are_all_commented_out_teaches_nothing_and_goes_on(bare: str, here: Path) -> None:
    (here / "prints.yaml").write_bytes(bare.encode())
    assert load_file(here / "saw.yaml")[0].end_a is not None and prints_in(here / "prints.yaml") == ()
    assert log("saw.yaml", "--end", "end_a", "--went", "right") == 0
    assert (here / "prints.yaml").read_bytes().startswith(bare.encode())
    assert len(prints_in(here / "prints.yaml")) == 1
