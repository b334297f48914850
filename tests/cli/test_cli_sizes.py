"""`fitwright sizes` for air cylinders."""

import pytest

from fitwright.cli.main import main

Captured = pytest.CaptureFixture[str]


@pytest.mark.parametrize(
    ("words", "shown"),
    [
        (["cylinder"], ["ISO 6432 8 ", "ISO 15552 125", "ISO 21287 100"]),
        (["ISO", "6432"], ["ISO 6432 25", "*: only remembered"]),
        (["iso6432 16 x 125"], ["ISO 6432 16, round [mm]", "M16 x 1.5"]),
        (["16 x 125"], ["ISO 6432 16, round [mm]"]),
        (["cylinder", "32", "x", "100"], ["ISO 15552 32", "ISO 21287 32"]),
    ],
)
def test_cylinders_are_listed(words: list[str], shown: list[str], capsys: Captured) -> None:
    assert main(["sizes", *words]) == 0
    out = capsys.readouterr().out
    assert all(word in out for word in shown)


def test_a_bore_that_is_not_made(capsys: Captured) -> None:
    assert main(["sizes", "ISO 6432 17"]) == 2
    told = capsys.readouterr()
    assert told.out == "" and "the nearest is ISO 6432 16" in told.err
    assert main(["sizes", "ISO 6432 16 quick"]) == 2
    assert "'quick' is unknown" in capsys.readouterr().err


def test_pipes_stay_pipes(capsys: Captured) -> None:
    """EN 1506 round duct is no round cylinder; 32 x 100 may be either."""
    assert main(["sizes", "round", "duct", "100"]) == 0
    out = capsys.readouterr().out
    assert "EN 1506 duct" in out and "ISO 6432" not in out
    assert main(["sizes", "32 x 100"]) == 0
    out = capsys.readouterr().out
    assert "DN/OD 32" in out and "`fitwright sizes cylinder 32 x 100`" in out
    assert main(["sizes"]) == 0
    assert "air cylinders: `fitwright sizes cylinder`" in capsys.readouterr().out
