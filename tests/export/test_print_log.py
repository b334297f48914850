"""The log of prints is only ever added to: what stands in it stays byte for byte, and nobody's print is lost."""

from __future__ import annotations

import stat
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from fitwright.errors import ExportError, SpecError
from fitwright.export import print_log
from fitwright.export.print_log import append_print, locked
from fitwright.spec.nodes import Value
from fitwright.spec.print_store import prints_in


def one(**more: Value) -> dict[str, Value]:
    return {
        "date": "2026-11-02",
        "part": "saw",
        "end": "end_a",
        "printer": "generic_220",
        "material": "PETG",
        "joint": "socket",
        "fit": "slide",
        "bought": "60",
        "wanted": "60.42",
        "modelled": "60.42",
        "went": "right",
        **more,
    }


@pytest.fixture
def log(tmp_path: Path) -> Path:
    return tmp_path / "prints.yaml"


def test_the_first_print_makes_the_file(log: Path) -> None:
    found = append_print(log, one(readings=["60.4", "2.378 in"]))
    assert found == prints_in(log) and len(found) == 1
    assert found[0].readings == pytest.approx([60.4, 2.378 * 25.4])
    assert [path.name for path in log.parent.iterdir()] == ["prints.yaml"]  # neither a lock nor half a file is left
    assert log.read_text().startswith("# What came off the printer")


def written(indent: str, end: str) -> str:
    lines = [f"{key}: {value}" for key, value in one().items()]
    body = f"\n{indent}  ".join(lines)
    return f"# mine\nprints: # newest last\n{indent}- {body}  # went well{end}"


@pytest.mark.parametrize("indent", ["", "  ", "      "], ids=len)
@pytest.mark.parametrize("end", ["", "\n", "\n\n# the end\n", "\n      # further in\n"], ids=repr)
@pytest.mark.parametrize("newline", ["\n", "\r\n"], ids=repr)
@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"], ids=["", "byte order mark"])
def test_what_stands_there_stays_byte_for_byte(indent: str, end: str, newline: str, bom: bytes, log: Path) -> None:
    before = bom + written(indent, end).replace("\n", newline).encode()
    log.write_bytes(before)
    for note in ('a "quoted" # remark: \\ yes', "größe ø", "- [x]"):
        append_print(log, one(note=note))
    after = log.read_bytes()
    assert after.startswith(before)
    assert len(prints_in(log)) == 4 and prints_in(log)[1].note == 'a "quoted" # remark: \\ yes'
    assert (b"\r\n" in after[len(before) :]) is (newline == "\r\n")
    assert [p["note"] for p in yaml.safe_load(after)["prints"][2:]] == ["größe ø", "- [x]"]  # to others it is YAML too


def test_comments_alone_stay_at_the_top(log: Path) -> None:
    log.write_text("# my shed\n")
    append_print(log, one())
    assert log.read_text().startswith("# my shed\nprints:\n  - date:")


LAYOUTS = {
    "in brackets": "prints: [{}]\n".format("{" + ", ".join(f"{key}: {value}" for key, value in one().items()) + "}"),
    "ended": written("  ", "\n...\n"),
    "damaged": "prints:\n  - {date: soon}\n",
    "empty list": "prints: []\n",
    "other keys": written("  ", "\nshed: mine\n"),
    "no YAML": "prints: [\n",
    "not UTF-8": "prints: \udcff\n",
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_what_cannot_be_added_to_is_refused_and_stays(layout: str, log: Path) -> None:
    before = LAYOUTS[layout].encode("utf-8", "surrogateescape")
    log.write_bytes(before)
    with pytest.raises(SpecError) as error:
        append_print(log, one())
    assert "prints.yaml" in str(error.value) and "allowed" in str(error.value)
    assert log.read_bytes() == before and [path.name for path in log.parent.iterdir()] == ["prints.yaml"]


def test_a_link_and_the_rights_are_kept(tmp_path: Path) -> None:
    real = tmp_path / "shared" / "prints.yaml"
    real.parent.mkdir()
    append_print(real, one())
    real.chmod(0o660)
    link = tmp_path / "prints.yaml"
    link.symlink_to(real)
    append_print(link, one())
    assert link.is_symlink() and len(prints_in(real)) == 2
    assert stat.S_IMODE(real.stat().st_mode) == 0o660


PROGRAM = """
import sys
from pathlib import Path
from fitwright.export.print_log import append_print
for number in range(12):
    entry = dict(date="2026-11-02", part=sys.argv[2], end="end_a", printer="p", material="m", joint="socket")
    append_print(Path(sys.argv[1]), {**entry, "fit": "slide", "bought": "60", "wanted": "60.4", "modelled": "60.4",
                 "went": "right", "note": str(number)})
"""


def test_commands_at_once_lose_nothing(log: Path) -> None:
    runs = [subprocess.Popen([sys.executable, "-c", PROGRAM, str(log), name]) for name in ("one", "two", "three")]
    assert [run.wait(timeout=120) for run in runs] == [0, 0, 0]
    found = prints_in(log)
    for name in ("one", "two", "three"):
        assert [p.note for p in found if p.part == name] == [str(number) for number in range(12)]


def test_a_command_that_keeps_it_is_told(log: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(print_log, "WAIT_S", 0.05)
    with locked(log.parent), pytest.raises(ExportError, match="another command is writing the log"):
        append_print(log, one())
    assert not log.exists()
    append_print(log, one())


def test_a_disk_that_refuses_is_told(log: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    append_print(log, one())
    before = log.read_bytes()

    def refuse(path: Path, data: bytes) -> None:
        raise ExportError("no") from OSError(28, "No space left on device")

    monkeypatch.setattr(print_log, "write_bytes", refuse)
    with pytest.raises(ExportError, match=r"prints\.yaml: No space left on device; the print was not logged"):
        append_print(log, one())
    assert log.read_bytes() == before


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ExportError, match="No such file"):
        append_print(tmp_path / "gone" / "prints.yaml", one())


def test_where_folders_cannot_be_locked_the_print_is_logged_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Windows refuses to open a folder: it must not even be tried there (told by the platform's name, run here)."""
    with monkeypatch.context() as patched:
        patched.setattr(sys, "platform", "win32")
        with locked(Path("no such folder")):
            pass
    with pytest.raises(ExportError, match="cannot open"), locked(Path("no such folder")):
        pass
