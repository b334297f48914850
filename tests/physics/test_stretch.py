"""Soft joints against hand calculation: strain = interference / diameter, grip = mu 2 pi E strain t L."""

from __future__ import annotations

import math

import pytest

from fitwright.physics.stretch import Stretching, crumple_strain, grip_n, judge_stretch, stretch_mm


def cuff(least_mm: float, greatest_mm: float, d_mm: float = 30.0, limit: float = 0.05) -> Stretching:
    """A parallel cuff whose interference runs from `least_mm` to `greatest_mm`."""
    reach = (-greatest_mm, -least_mm)
    return Stretching("hole", reach, reach, d_mm, 2.5, limit)


def test_a_30_mm_tube_on_a_32_mm_hose() -> None:
    # 2 mm on 30: 6.67 %, give or take 0.1 mm: 6.33 to 7.0 %. 85 Shore A bears it, 95 Shore A does not
    verdict = judge_stretch(cuff(1.9, 2.1, limit=0.10))
    assert verdict.severity == "pass"
    assert verdict.words == "stretches 6.3-7.0 % over the pipe, grips and seals by itself"
    assert judge_stretch(cuff(1.9, 2.1)).severity == "fail"
    assert "5 %" in judge_stretch(cuff(1.9, 2.1)).words


def test_only_the_tightest_pair_over_the_limit_warns() -> None:
    # 1.0 to 1.6 on 30: 3.3 to 5.3 %, middle 4.3 %
    assert judge_stretch(cuff(1.0, 1.6)).severity == "warn"
    assert judge_stretch(cuff(1.0, 1.5)).severity == "pass"


@pytest.mark.parametrize(
    ("least", "greatest", "severity"), [(-0.1, 0.5, "warn"), (-0.5, 0.3, "fail"), (0.0, 0.6, "warn")]
)
def test_slack(least: float, greatest: float, severity: str) -> None:
    verdict = judge_stretch(cuff(least, greatest))
    assert verdict.severity == severity
    assert "neither grips nor seals" in verdict.words
    assert verdict.value_mm == pytest.approx(-least)


def test_the_wanted_share_and_the_spread() -> None:
    # 60 % of 5 % of 32 = 0.96 mm
    assert stretch_mm(32.0, 0.05, 0.26) == pytest.approx(0.96)
    # a spread of 0.9 with 0.5 % of 32 on top needs 1.06; what the tightest bears leaves 1.6 - 0.9 = 0.7: the middle
    assert stretch_mm(32.0, 0.05, 0.9) == pytest.approx((1.06 + 0.7) / 2)
    # 0.6 x 1.6 = 0.96 is more than 1.6 - 0.7 = 0.9 leaves: that much
    assert stretch_mm(32.0, 0.05, 0.7) == pytest.approx(0.9)


def test_a_ring_in_a_hole_folds_before_it_is_too_tight() -> None:
    # t / D = 0.025: 0.025 ** 1.2 = 0.011955; / (2 (1 - 0.48^2)) = / 1.5392
    assert crumple_strain(100.0, 2.5) == pytest.approx(0.011955 / 1.5392, rel=1e-3)
    squeezed = Stretching("shaft", (-1.2, -0.4), (-1.2, -0.4), 100.0, 2.5, 0.05)
    verdict = judge_stretch(squeezed)
    assert verdict.severity == "fail" if 0.008 > crumple_strain(100.0, 2.5) else "warn"
    assert "fold inwards above 0.8 %" in verdict.words


def test_grip() -> None:
    # pressure E eps t / r on 2 pi r L: r cancels. 30 MPa, 3 %, 2.5 mm, 25 mm, mu 0.4
    assert grip_n(0.03, 30.0, 2.5, 25.0) == pytest.approx(0.4 * 2 * math.pi * 30 * 0.03 * 2.5 * 25)
    assert grip_n(-0.01, 30.0, 2.5, 25.0) == 0.0
