"""docs/measuring/thread.md shows what a real run says, and the examples of configs/measure are answered."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.cli.main import main

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "measuring" / "thread.md"
SHOWN = re.findall(r"^```\n\$ fitwright (.*)\n((?:.*\n)*?)```", PAGE.read_text(encoding="utf-8"), re.MULTILINE)


def test_the_page_shows_runs() -> None:
    assert len(SHOWN) == 5


@pytest.mark.parametrize(("command", "output"), SHOWN, ids=[command for command, _ in SHOWN])
def test_the_page_shows_what_a_run_says(command: str, output: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(command.split())
    assert capsys.readouterr().out == output


@pytest.mark.parametrize(
    ("file", "verdict"),
    [
        ("unknown_bolt.yaml", "This is M8 x 1.25."),
        ("air_fitting.yaml", "This is G 1/4."),
        ("tapped_lug.yaml", "1/4 in or M6: check the pitch."),
    ],
)
def test_the_examples_are_answered(file: str, verdict: str, capsys: pytest.CaptureFixture[str]) -> None:
    path = ROOT / "configs" / "measure" / file
    assert path.read_text(encoding="utf-8").startswith("# Birch Lane shed (invented)")
    assert main(["measure", str(path)]) == 0
    assert verdict in capsys.readouterr().out
    assert f"`measure/{file}`" in (ROOT / "configs" / "README.md").read_text(encoding="utf-8")
