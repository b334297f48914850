"""The command `gauge`: which ends get one, what is said of the others, what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.errors import RefusalError
from fitwright.spec.gauge_of_end import gauge_of_end
from fitwright.spec.load import load_text
from fitwright.spec.models import FitGaugeSpec

Captured = pytest.CaptureFixture[str]
PART = "part: reducer\nname: toad\nend_a: {socket: {over: %s}}\nend_b: {%s}\n"
FLANGED = PART % ("60", "flange: {opening: 50, holes: {count: 4, circle: 80, size: M5}}")


def gauge(
    over: str = "60", other: str = "hose_tail: {hose_inside: 50}", end: str = "end_a", **how: float
) -> FitGaugeSpec:
    (spec,) = load_text(PART % (over, other))
    return gauge_of_end(spec, end, **how)  # type: ignore[arg-type]


def test_a_socket_gets_rings_round_what_it_is_printed_with() -> None:
    """60 mm slides with 0.2 % x 60 + 0.1 + 0.2 = 0.42; scatter 0.22 and the reading's 0.1 to both sides: 0.32 / 3."""
    made = gauge()
    assert (made.kind, made.name, made.marks) == ("rings", "toad_gauge_end_a", "allowance")
    assert [one.mark for one in made.steps] == ["-0.05", "0.10", "0.25", "0.40", "0.55", "0.70", "0.85"]
    assert made.steps[3].printed_mm == pytest.approx(60.4)


def test_a_tail_gets_plugs_and_a_hose_is_counted_from_what_it_is_called() -> None:
    made = gauge(end="end_b", steps=5, step_mm=0.2)
    assert [(one.mark, one.printed_mm) for one in made.steps] == [
        ("0.9", pytest.approx(49.1)),
        ("0.7", pytest.approx(49.3)),
        ("0.5", pytest.approx(49.5)),
        ("0.3", pytest.approx(49.7)),
        ("0.1", pytest.approx(49.9)),
    ]


@pytest.mark.parametrize(
    ("over", "other", "end", "said"),
    [
        ("60", "plain: {inside: 50}", "end_b", "no gauge for a plain end"),
        ("{rectangle: {width: 80, height: 60}}", "plain: {inside: 50}", "end_a", "not round"),
        ("{end: 58.4, further: 60.2, apart: 30}", "plain: {inside: 50}", "end_a", "tapers"),
    ],
)
def test_an_end_without_a_gauge_says_why(over: str, other: str, end: str, said: str) -> None:
    with pytest.raises(RefusalError) as refused:
        gauge(over, other, end)
    assert said in str(refused.value) and refused.value.why


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--end", "end_c"], "--end: found 'end_c'; allowed: end_a, end_b"),
        (["--steps", "12"], "--steps: found '12'; allowed: a whole number from 5 to 9"),
        (["--step", "7"], "--step: found '7'; allowed: a length from 0.02 mm to 5 mm"),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, list) else "",
)
def test_options_are_refused_by_name(words: list[str], said: str, tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "toad.yaml").write_text(FLANGED)
    assert main(["gauge", str(tmp_path / "toad.yaml"), "-o", str(tmp_path), *words]) == 2
    assert said in capsys.readouterr().err


def test_a_gauge_has_no_gauge(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "one.yaml").write_text("part: fit_gauge\nrings: {over: 60}\n")
    assert main(["gauge", str(tmp_path / "one.yaml")]) == 2
    assert "has no ends" in capsys.readouterr().err


@pytest.mark.slow
def test_it_builds_what_it_can_and_says_what_not(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "toad.yaml").write_text(FLANGED)
    assert main(["gauge", str(tmp_path / "toad.yaml"), "-o", str(tmp_path / "out"), "--steps", "5"]) == 0
    said = capsys.readouterr().out
    assert "toad, end_b.flange: no gauge for a flange end" in said and "good to print" in said
    folder = tmp_path / "out" / "toad_gauge_end_a"
    assert (folder / "toad_gauge_end_a_plate.stl").is_file()
    assert "`allowance:` and the mark under end_a's socket" in (folder / "report.txt").read_text().replace(
        "\n    ", " "
    )


def test_only_ends_without_a_fit(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "toad.yaml").write_text(FLANGED)
    assert main(["gauge", str(tmp_path / "toad.yaml"), "-o", str(tmp_path / "out"), "--end", "end_b"]) == 2
    assert "no gauge for a flange end" in capsys.readouterr().out
