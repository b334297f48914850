"""Every figure of the case that is worked by hand in docs/hose_runs.md is what the functions answer."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from fitwright.physics.hose_bend import roundest_mm
from fitwright.physics.hose_head import Reach
from fitwright.spec.run_file import run_of_file
from fitwright.spec.run_solved import solved_moving

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "hose_runs.md"
RUN = run_of_file(ROOT / "configs" / "runs" / "gantry_run.yaml")
SOLVED = solved_moving(RUN)
HOOK, W, R = RUN.stations[1].at, RUN.hose.full_n_mm, RUN.hose.radius_mm
LOW = Reach(HOOK, "follows", (0.0, 0.0, 1150.0), (0.0, 0.0, -1.0), R, W)
PORT = Reach(RUN.stations[0].at, RUN.stations[0].way, HOOK, "free", R, W)


def figures() -> dict[str, str]:
    assert LOW.bent is not None and SOLVED.window.shortest is not None
    turns = math.degrees(LOW.bent.start_turn), math.degrees(LOW.bent.end_turn)
    cut, hook = SOLVED.moving_mm, SOLVED.felt[1]
    return {
        "weight, half full": f"{1000 * W:.2f} N/m",
        "hook to a low corner, straight": f"{LOW.straight_mm:.1f} mm",
        "in plan": f"{LOW.stand(cut).slack.span.level_mm:.1f} mm",
        "its bends": f"{turns[0]:.1f} and {turns[1]:.1f} deg",
        "with bends": f"{LOW.least_mm:.1f} mm",
        "to a high corner, straight": f"{math.dist(HOOK, (0.0, 0.0, 1270.0)):.1f} mm",
        "shortest": f"{SOLVED.window.shortest.length_mm:.1f} mm",
        "hose's axis at the lowest": f"{SOLVED.moving.limits.lowest_mm:.1f} mm",
        "longest": f"{SOLVED.window.longest.length_mm:.1f} mm",
        "loop there, shoe high, 1572": f"{roundest_mm(0.0, -1130.0, 1572.0):.0f} mm",
        "cut": f"{cut:.0f} mm",
        "hangs down to, cut so": f"{SOLVED.worst['drags'].stand.lowest_mm - RUN.hose.over_mm / 2:.0f} mm",
        "pull in a low corner, cut so": f"{LOW.stand(cut).pull_n:.1f} N",
        "port to hook, shortest": f"{PORT.least_mm:.1f} mm",
        "port to hook, drawn": f"{SOLVED.fixed[0].length_mm:.0f} mm",
        "port to hook, pull": f"{SOLVED.fixed[0].level_n()[1]:.1f} N",
        "all of the hose": f"{SOLVED.length_mm:.0f} mm",
        "hook, for good": f"{hook.down_n:.1f} N, {hook.level_n:.1f} N",
    }


def printed() -> dict[str, str]:
    text = PAGE.read_text(encoding="utf-8").partition("## One case by hand")[2].partition("\n## ")[0]
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line[:2] == "| "]
    return {row[0]: row[-1] for row in cells if row[0] != "what"}


@pytest.mark.parametrize("row", figures())
def test_figures_of_the_page(row: str) -> None:
    assert printed().get(row) == figures()[row]


def test_no_row_is_left_out() -> None:
    assert set(printed()) == set(figures())


def test_the_case_by_hand() -> None:
    """The same with a pocket calculator's formulas alone."""
    plan = math.hypot(600.0, 400.0)
    assert LOW.least_mm == pytest.approx(105 * math.pi / 2 + (plan - 105) / math.cos(math.radians(61.716)), abs=0.05)
    excess = math.sqrt(1477.92**2 - 1250.0**2) / plan
    z = 0.7387
    assert math.sinh(z) / z == pytest.approx(excess, abs=1e-4)
    a = plan / (2 * z)
    turns_at = plan / 2 + a * math.asinh(1250.0 / (2 * a * math.sinh(z)))
    assert turns_at == pytest.approx(966.4, abs=0.1)
    pull = 8.354e-3 * a * math.cosh((turns_at - plan) / a)
    assert LOW.stand(1500.0).pull_n == pytest.approx(pull, rel=1e-3)
    bend = 4 * 105 * math.sin(math.radians(28.52)) * (1 - math.cos(math.radians(28.52)))
    assert math.ceil(1586.94 + bend) == SOLVED.fixed[0].length_mm == 1612
    z = 1300 / (2 * 2236)
    assert math.sinh(z) / z == pytest.approx(math.sqrt(1596.3**2 - 900**2) / 1300, abs=2e-5)
    assert SOLVED.fixed[0].level_n()[1] == pytest.approx(8.354e-3 * 2236, rel=5e-3)
    assert 13.0 < SOLVED.fixed[0].level_n()[0] < 13.6
    assert SOLVED.window.longest.length_mm == pytest.approx(
        1250.0 + 2 * (1150.0 - 950.0 - RUN.hose.over_mm / 2), abs=0.01
    )
