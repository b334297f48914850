"""The command line: exit codes, what is said, and that nothing half-written stays behind."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fitwright.cli import build as build_module
from fitwright.cli.main import main

GOOD = "part: reducer\nend_a: {socket: {over: 60}}\nend_b: {hose_tail: {hose_inside: 50}}\n"
BLOCKED = "part: reducer\nlength: 300\nend_a: {socket: {over: 60}}\nend_b: {hose_tail: {hose_inside: 50}}\n"
"""300 mm long on a printer 240 mm high."""
BAD = "part: reducer\nend_a: {socket: {diameter: 107}}\nend_b: {hose_tail: {hose_inside: 100}}\n"


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def pretended(monkeypatch: pytest.MonkeyPatch) -> None:
    """Workers that pretend: each part does what its name says (see worker_jobs.py), without the kernel."""
    monkeypatch.setattr(build_module, "TARGET", "worker_jobs:act_as_named")
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))


Captured = pytest.CaptureFixture[str]


@pytest.mark.slow
def test_build_a_good_part(here: Path, capsys: Captured) -> None:
    (here / "toad.yaml").write_text(GOOD)
    assert main(["build", "toad.yaml", "--quick"]) == 0
    assert names(here / "outputs/toad") == [
        "report.json",
        "report.txt",
        "toad.png",
        "toad.step",
        "toad.stl",
        "toad_try.stl",
    ]
    captured = capsys.readouterr()
    assert "toad (reducer): good to print" in captured.out and captured.err == ""


@pytest.mark.slow
def test_a_blocked_part_answers_one_unless_asked_for_anyway(here: Path, capsys: Captured) -> None:
    (here / "tall.yaml").write_text(BLOCKED)
    assert main(["check", "tall.yaml", "--quick"]) == 1
    assert names(here) == ["tall.yaml"]
    said = capsys.readouterr().out
    assert "BLOCKS printing.bed" in said and "    -> " in said
    assert main(["build", "tall.yaml", "--quick", "--export-anyway"]) == 0
    assert "tall.stl" in names(here / "outputs/tall")


def test_bad_yaml_says_everything_and_answers_two(here: Path, capsys: Captured) -> None:
    (here / "bad.yaml").write_text(BAD)
    assert main(["build", "bad.yaml"]) == 2
    captured = capsys.readouterr()
    assert "bad.yaml:2" in captured.err and "diameter" in captured.err
    assert names(here) == ["bad.yaml"]


def test_one_bad_file_does_not_keep_the_others_from_being_built(here: Path, capsys: Captured, pretended: None) -> None:
    (here / "a_bad.yaml").write_text(BAD)
    (here / "good.yaml").write_text(GOOD)
    assert main(["build", "."]) == 2
    captured = capsys.readouterr()
    assert "good (reducer): good to print" in captured.out and "a_bad.yaml:2" in captured.err


def test_parts_that_hang_or_die_cost_themselves_only(here: Path, capsys: Captured, pretended: None) -> None:
    for name in ("a", "hang", "segfault", "refuse", "bug", "z"):
        (here / f"{name}.yaml").write_text(GOOD)
    assert main(["build", ".", "--time-limit", "2"]) == 2
    captured = capsys.readouterr()
    assert "a (reducer): good" in captured.out and "z (reducer): good" in captured.out
    for words in (
        "hang: not finished after 2 s",
        "segfault: its process died (SIGSEGV)",
        "refuse.yaml:1:1: wall: found 0.1 mm; allowed: 0.8 mm or more. thinner than a line",
        "bug: internal",
    ):
        assert words in captured.err
    assert "Traceback" not in captured.err
    assert names(here / "outputs") == []


def test_debug_shows_where_an_internal_error_happened(here: Path, capsys: Captured, pretended: None) -> None:
    (here / "bug.yaml").write_text(GOOD)
    assert main(["build", "bug.yaml", "--debug"]) == 1
    assert "worker_jobs.py" in capsys.readouterr().err


def test_files_of_an_earlier_run_do_not_look_current_after_a_death(
    here: Path, capsys: Captured, pretended: None
) -> None:
    folder = here / "outputs/segfault"
    folder.mkdir(parents=True)
    (folder / "segfault.stl").write_bytes(b"earlier")
    (folder / "report.json").write_text('{"files": ["segfault.stl", "report.json"]}')
    (here / "segfault.yaml").write_text(GOOD)
    assert main(["build", "segfault.yaml"]) == 1
    assert names(folder) == ["report.earlier.json", "segfault.earlier.stl"]
    assert "segfault.earlier.stl" in capsys.readouterr().err


def test_equal_names_are_refused_before_anything_is_built(here: Path, capsys: Captured) -> None:
    for folder in ("one", "two"):
        (here / folder).mkdir()
    (here / "one/toad.yaml").write_text(GOOD)
    (here / "two/Toad.yaml").write_text(GOOD)
    assert main(["build", "one", "two"]) == 2
    assert "a part in one/toad.yaml has this name too" in capsys.readouterr().err
    assert not (here / "outputs").exists()


def test_a_file_named_twice_is_built_once(here: Path, capsys: Captured, pretended: None) -> None:
    (here / "toad.yaml").write_text(GOOD)
    assert main(["build", "--quick", "toad.yaml", ".", "./toad.yaml"]) == 0
    assert capsys.readouterr().out.count("good to print") == 1


def test_folders_are_read_but_for_those_meant_to_fail(here: Path, capsys: Captured, pretended: None) -> None:
    for folder in ("configs/more", "configs/must_fail", "configs/.hidden"):
        (here / folder).mkdir(parents=True)
        (here / folder / f"{Path(folder).name.strip('.')}.yaml").write_text(GOOD)
    assert main(["build", "--quick", "configs"]) == 0
    assert capsys.readouterr().out.count("good to print") == 1
    assert main(["build", "configs/must_fail"]) == 0


@pytest.mark.parametrize("path", ["missing.yaml", "empty"])
def test_paths_without_yaml(path: str, here: Path, capsys: Captured) -> None:
    (here / "empty").mkdir()
    assert main(["check", path]) == 2
    assert path in capsys.readouterr().err


def test_an_output_folder_that_is_a_file(here: Path, capsys: Captured) -> None:
    (here / "toad.yaml").write_text(GOOD)
    (here / "taken").write_text("mine")
    assert main(["build", "toad.yaml", "-o", "taken"]) == 2
    assert "taken: it is a file" in capsys.readouterr().err
    assert (here / "taken").read_text() == "mine"


def test_new_prints_or_writes_but_never_over_a_file(here: Path, capsys: Captured) -> None:
    assert main(["new", "reducer"]) == 0
    printed = capsys.readouterr().out
    assert "part: reducer" in printed
    assert main(["new", "reducer", "-o", "mine.yaml"]) == 0
    assert (here / "mine.yaml").read_text() == printed
    (here / "mine.yaml").write_text("precious")
    assert main(["new", "reducer", "-o", "mine.yaml"]) == 2
    assert (here / "mine.yaml").read_text() == "precious"
    assert main(["new", "reducer", "-o", "no/such/folder.yaml"]) == 2


def test_new_refuses_an_unknown_family_with_those_there_are(here: Path, capsys: Captured) -> None:
    assert main(["new", "teapot"]) == 2
    assert "offset_adapter" in capsys.readouterr().err


@pytest.mark.parametrize("options", [["-j", "0"], ["-j", "x"], ["--time-limit", "0"], ["--time-limit", "nan"]])
def test_senseless_options(options: list[str], here: Path) -> None:
    with pytest.raises(SystemExit) as stop:
        main(["build", "x.yaml", *options])
    assert stop.value.code == 2


def test_sizes_lists_the_different_four_inch_things(capsys: Captured) -> None:
    """ASTM D1785 and D2729: 114.3 and 107.06 mm outside (4.500 and 4.215 in)."""
    assert main(["sizes", "4", "in"]) == 0
    table = capsys.readouterr().out
    assert "114.3" in table and "107.06" in table
    assert main(["sizes", "4 in", "--units", "in"]) == 0
    table = capsys.readouterr().out
    assert "4.5 " in table and "4.215" in table
    assert main(["sizes", "nonsense"]) == 2


def hears_ctrl_c() -> None:
    """What a shell starts in the background inherits a deaf ear for Ctrl-C, and so would the command under test."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def command(*arguments: str, **more: object) -> subprocess.Popen[str]:
    return subprocess.Popen(  # type: ignore[call-overload, no-any-return]
        [sys.executable, "-m", "fitwright", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        **{"preexec_fn": hears_ctrl_c, **more},
    )


@pytest.mark.slow
def test_ctrl_c_stops_cleanly(here: Path) -> None:
    """In the middle of a build: a short word, no traceback, no half file, no process left."""
    (here / "toad.yaml").write_text(GOOD)
    running = command("build", "toad.yaml")
    until = time.monotonic() + 60
    while time.monotonic() < until and not list(here.glob("outputs/toad/.unfinished-*")):
        time.sleep(0.02)
    os.kill(running.pid, signal.SIGINT)
    _, said = running.communicate(timeout=30)
    assert running.returncode == 130
    assert "stopped" in said and "Traceback" not in said
    assert names(here / "outputs") == []


@pytest.mark.slow
def test_a_disk_that_refuses_leaves_the_earlier_files(here: Path) -> None:
    """No file may grow over 20 kB here, as on a full disk: an ordinary error of the system."""
    (here / "toad.yaml").write_text(GOOD)
    assert main(["build", "toad.yaml", "--quick"]) == 0
    before = {path.name: path.read_bytes() for path in (here / "outputs/toad").iterdir()}

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))

    running = command("build", "toad.yaml", preexec_fn=limit)
    _, said = running.communicate(timeout=120)
    assert running.returncode == 1
    assert "cannot write to" in said and "Traceback" not in said
    kept = {path.name.replace(".earlier", ""): path.read_bytes() for path in (here / "outputs/toad").iterdir()}
    assert kept == before


def test_a_terminal_without_the_letters_of_a_label_is_no_error(here: Path) -> None:
    (here / "bad.yaml").write_text(BAD.replace("socket: {", "label: Schläuche, sokkel: {"), encoding="utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    _, said = (running := command("check", "bad.yaml", env=environment)).communicate(timeout=60)
    assert running.returncode == 2 and "Traceback" not in said and "sokkel" in said


def test_a_reader_that_leaves_is_no_error(here: Path) -> None:
    done = subprocess.run(
        f"{sys.executable} -m fitwright sizes | head -1", shell=True, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0 and done.stderr == ""
