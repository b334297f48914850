"""Shaft and bore: nominal sizes ranked by how far off they are, metric and inch near-equals, shim strips."""

from __future__ import annotations

import pytest

from fitwright.measure.sleeve import candidates, read_of, shims, sure, twin_of, twins


def made_to(nominal_mm: float) -> float:
    """IT9 as printed in ISO 286-1 Table 1 for the sizes used here: 18-30 mm 0.052, 10-18 mm 0.043, 30-50 mm 0.062."""
    return 0.043 if nominal_mm <= 18 else 0.052 if nominal_mm <= 30 else 0.062


def test_a_shaft_called_one_inch_that_reads_24_94_is_25_mm() -> None:
    first, *others = candidates(read_of([0.982 * 25.4]), "shaft", made_to)
    assert first.nominal.name == "25 mm" and first.near
    inch = next(one for one in others if one.nominal.name == "1 in")
    assert not inch.near and inch.off_mm == pytest.approx(24.9428 - 25.4, abs=1e-9)


def test_5_8_in_and_16_mm() -> None:
    [shaft, *_] = candidates(read_of([16.0]), "shaft", made_to)
    [bore, *_] = candidates(read_of([15.875]), "bore", made_to)
    assert (shaft.nominal.name, bore.nominal.name) == ("16 mm", "5/8 in")
    assert twins(shaft, bore) and not twins(shaft, shaft) and not twins(None, bore)


def test_two_near_sizes_are_not_guessed_between() -> None:
    """19 mm and 3/4 in (19.05) are within what one caliper reading tells."""
    both = candidates(read_of([19.0]), "shaft", made_to)
    assert {one.nominal.name for one in both if one.near} == {"19 mm", "3/4 in"}
    assert sure(both) is None
    alone = sure(candidates(read_of([25.0]), "shaft", made_to))
    assert alone is not None and alone.nominal.name == "25 mm"
    assert sure(candidates(read_of([25.6]), "bore", made_to)) is None


@pytest.mark.parametrize(
    ("mm", "kind", "name"),
    [
        (19.05, "shaft", "3/4 in"),
        (19.0, "bore", "19 mm"),
        (12.69, "shaft", "1/2 in"),
        (31.74, "shaft", "1 1/4 in"),
        (38.1, "bore", "1 1/2 in"),
        (28.0, "bore", "28 mm"),
    ],
)
def test_the_nominal_that_was_made(mm: float, kind: str, name: str) -> None:
    assert candidates(read_of([mm, mm]), kind, made_to)[0].nominal.name == name  # type: ignore[arg-type]


def test_both_systems_are_always_shown() -> None:
    for mm in (7.3, 25.2, 40.0, 101.6, 130.0):
        systems = {one.nominal.system for one in candidates(read_of([mm]), "bore", lambda _: 0.05)}
        assert systems == {"mm", "in"}


def test_twins_of_a_name() -> None:
    [inch, *_] = candidates(read_of([25.4, 25.4]), "bore", made_to)
    twin = twin_of(inch.nominal)
    assert twin is not None and twin.name == "25 mm"
    [alone, *_] = candidates(read_of([20.0, 20.0]), "bore", made_to)
    assert twin_of(alone.nominal) is None  # 13/16 in is 20.64


def test_more_readings_do_not_beat_the_caliper() -> None:
    one, many = read_of([25.0]), read_of([25.0] * 40)
    assert one.error_mm == pytest.approx(0.05)
    assert 0.029 < many.error_mm < one.error_mm


@pytest.mark.parametrize(
    ("gap", "strips"),
    [(0.04, ()), (0.05, (0.05,)), (0.23, (0.2,)), (0.35, (0.3, 0.05)), (0.62, (0.5, 0.1)), (1.4, (0.5, 0.5))],
)
def test_strips_never_pass_the_gap(gap: float, strips: tuple[float, ...]) -> None:
    assert shims(gap) == strips
