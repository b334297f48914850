"""Clearances in words. The limits are common practice, no source; the cases are people's own accounts, restated."""

from dataclasses import replace

import pytest

from fitwright.physics.fit_words import Meeting, gap_words, judge_fit, leaks
from fitwright.physics.fits import Squeeze, clearance_range

BARE = Meeting((0.1, 0.9), (0.1, 0.9), 45.0, 110.0, "none", "none", strain_limit=0.005)


def parallel(least, greatest, **changes):
    return replace(BARE, mouth=(least, greatest), bottom=(least, greatest), **changes)


def test_a_bare_slide_socket_neither_holds_nor_seals():
    verdict = judge_fit(BARE)
    assert (verdict.severity, verdict.word) == ("warn", "slides")
    assert verdict.sentence == "slides, gap 0.1-0.9 mm, leaks, does not hold: tape and three screws, or a clamp"
    assert (verdict.value_mm, verdict.limit_mm) == (0.9, 0.3)


def test_a_socket_held_otherwise_only_leaks():
    verdict = judge_fit(parallel(0.1, 0.9, grip="screws"))
    assert verdict.sentence == "slides, gap 0.1-0.9 mm, leaks, held by screws: tape or clamp"


@pytest.mark.parametrize(
    ("seal", "grip"), [("screws and tape", "screws"), ("band", "band"), ("glue", "glue"), ("hose clamp", "hose clamp")]
)
def test_what_seals_and_holds_passes(seal, grip):
    verdict = judge_fit(parallel(0.1, 0.9, seal=seal, grip=grip))
    assert (verdict.severity, verdict.advice) == ("pass", "")


def test_case_2_inch_spigot_into_metric_socket_is_refused():
    verdict = judge_fit(parallel(*clearance_range("shaft", 101.6, 99.9, 100.1, 0.002, 0.1), d_mm=101.6))
    assert (verdict.severity, verdict.word) == ("fail", "does not go on")
    assert verdict.advice and verdict.value_mm < verdict.limit_mm == 0.0


def test_case_5_one_millimetre_is_loose():
    """1.94 in over 1.900 in: 1.0 mm on the diameter."""
    verdict = judge_fit(parallel(*clearance_range("hole", 49.28, 48.16, 48.36, 0.002, 0.1), d_mm=48.0))
    assert (verdict.severity, verdict.word) == ("warn", "loose")
    assert "clamp" in verdict.sentence


def test_case_7_two_millimetres_leak_even_under_tape():
    bare, taped = parallel(1.7, 2.3), parallel(1.7, 2.3, seal="screws and tape", grip="screws")
    for meeting in (bare, taped):
        assert leaks(meeting)
        assert judge_fit(meeting).severity == "warn"
        assert "leaks" in judge_fit(meeting).words


def test_press_fit_within_and_beyond_the_hoop_strain():
    """110 mm, 0.5 %: 0.55 mm of interference is allowed."""
    assert judge_fit(parallel(-0.5, -0.1, grip="press")).severity == "pass"
    assert judge_fit(parallel(-0.7, -0.1, grip="press")).severity == "warn"
    assert judge_fit(parallel(-1.0, -0.2, grip="press")).severity == "fail"


def test_slit_fingers_give():
    meeting = parallel(-0.9, 0.1, seal="band", grip="band", flexes=True)
    assert judge_fit(meeting).severity == "pass"
    assert judge_fit(replace(meeting, mouth=(-3.0, -2.0), bottom=(-3.0, -2.0))).severity == "fail"


def test_taper_that_grips_at_the_bottom():
    meeting = replace(BARE, mouth=(0.05, 0.89), bottom=(-0.73, 0.05), grip="taper")
    assert meeting.tapered
    assert meeting.grips_at_mm(0.0) == pytest.approx(45.0 * 0.05 / 0.78)
    assert meeting.grips_at_mm(1.0) == 45.0
    verdict = judge_fit(meeting)
    assert verdict.severity == "pass"
    assert "touches 3-45 mm in" in verdict.words


def test_taper_that_never_starts_never_grips_or_grips_too_early():
    taper = replace(BARE, grip="taper")
    assert judge_fit(replace(taper, mouth=(-0.9, -0.1), bottom=(-1.7, -0.9))).severity == "fail"
    assert "may not grip" in judge_fit(replace(taper, mouth=(0.9, 1.7), bottom=(0.2, 1.0))).words
    assert "too early" in judge_fit(replace(taper, mouth=(-0.3, 0.5), bottom=(-1.1, -0.3))).advice


def test_hose_may_stretch_three_percent():
    hose = parallel(0.2, 2.3, seal="hose clamp", grip="hose clamp", hose=True, d_mm=100.0)
    assert (judge_fit(hose).severity, judge_fit(hose).word) == ("pass", "pushes on")
    assert judge_fit(replace(hose, mouth=(-2.9, 0.0), bottom=(-2.9, 0.0))).severity == "pass"
    assert judge_fit(replace(hose, mouth=(-3.1, 0.0), bottom=(-3.1, 0.0))).severity == "warn"
    assert "leaks" in judge_fit(replace(hose, mouth=(0.2, 3.2), bottom=(0.2, 3.2))).words


@pytest.mark.parametrize(
    ("least", "greatest", "severity", "word"),
    [(0.15, 0.25, "pass", "seals"), (0.10, 0.25, "warn", "another cord"), (-0.05, 0.2, "warn", "can leak")],
)
def test_cord(least, greatest, severity, word):
    verdict = judge_fit(parallel(0.1, 0.9, seal="cord", grip="screws", squeeze=Squeeze(least, greatest)))
    assert verdict.severity == severity
    assert word in verdict.sentence


def test_gap_words():
    assert gap_words(0.1, 0.94) == "gap 0.1-0.94 mm"
    assert gap_words(-0.16, 0.68) == "from 0.16 mm interference to 0.68 mm gap"
    assert gap_words(-0.5, -0.1) == "interference 0.1-0.5 mm"


def test_a_ring_stretched_too_far_shows_the_interference_and_what_the_material_stands():
    """0.5 % of 110 mm is 0.55 mm."""
    verdict = judge_fit(parallel(-0.8, 0.2))
    assert verdict.severity == "warn" and "hoop strain up to 0.73 %" in verdict.words
    assert (verdict.value_mm, verdict.limit_mm) == (0.8, pytest.approx(0.55))


def test_flat_sides_bow_and_are_not_judged_as_a_hoop() -> None:
    """0.4 mm on a 60 mm side would be 0.67 % of a hoop; a flat side gives that."""
    shared = {"engaged_mm": 30.0, "d_mm": 60.0, "seal": "none", "grip": "none", "strain_limit": 0.005}
    tight = Meeting(mouth=(-0.4, 0.4), bottom=(-0.4, 0.4), **shared)  # type: ignore[arg-type]
    assert "hoop strain" in judge_fit(tight).words and judge_fit(tight).severity == "warn"
    flat = judge_fit(replace(tight, flat=True))
    assert "flat sides give 0.5 mm" in flat.words and "hoop" not in flat.words
