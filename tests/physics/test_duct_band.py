"""Bands of handbooks' values: what they add up to, and their words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.errors import DataError
from fitwright.physics.duct_band import NOTHING, Band, spread, total

VALUES = st.lists(st.floats(0.0, 1e5), min_size=3, max_size=3).map(lambda v: Band(*sorted(v)))


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (Band(24.2, 34.4, 46.7), "25-45 Pa, about 34"),
        (Band(32.6, 33.8, 34.4), "33-34 Pa, about 34"),
        (Band(33.7, 33.8, 34.2), "about 34 Pa"),
        (Band(98.6, 100.2, 102.4), "about 100 Pa"),
        (Band(0.2, 0.4, 0.9), "under 1 Pa"),
        (Band(0.3, 2.0, 4.0), "0-4 Pa, about 2"),
        (Band(178.0, 191.0, 210.0), "180-210 Pa, about 190"),
        (Band(1020.0, 1440.0, 1980.0), "1000-2000 Pa, about 1400"),
        (Band(-7.0, 12.0, 40.0), "-7 to 40 Pa, about 12"),
        (Band(0.0, 0.0, 43.0), "0-45 Pa, about 0"),
        (Band(152.0, 1090.0, 4480.0), "150-4500 Pa, about 1100"),
    ],
)
def test_words_carry_two_digits(band: Band, words: str) -> None:
    assert band.words() == words


def test_words_of_other_units() -> None:
    assert Band(15.2, 17.8, 20.3).words("m/s") == "15-20 m/s, about 18"
    assert Band(1.23, 2.19, 3.31).words("times a smooth bore") == "1.2-3.5 times a smooth bore, about 2.2"
    assert Band(0.977, 1.18, 1.52).words("") == "1.0-1.5, about 1.2"
    assert Band(0.068, 0.082, 0.14).words("") == "0.07-0.14, about 0.082"


@given(VALUES, VALUES)
def test_sums_and_differences(one: Band, other: Band) -> None:
    both = one + other
    assert both.low <= both.middle <= both.high
    assert total([one, other]) == both
    left = both.less(other)
    assert left.low <= one.low + 1e-9 * both.high
    assert left.high >= one.high - 1e-9 * both.high
    assert left.middle == pytest.approx(one.middle, abs=1e-9 * (1.0 + both.high))


@given(VALUES, VALUES)
def test_products(one: Band, factor: Band) -> None:
    assert one.by(factor).low <= one.by(factor).middle <= one.by(factor).high
    assert one.times(2.0) == one.by(Band(2.0, 2.0, 2.0))


def test_of_several_sources() -> None:
    assert spread([0.3, 0.1, 0.2]) == Band(0.1, 0.2, 0.3)
    assert spread([0.4, 0.1, 0.2, 0.3]).middle == pytest.approx(0.25)
    assert total([]) == NOTHING


@pytest.mark.parametrize("values", [(2.0, 1.0, 3.0), (1.0, 3.0, 2.0)])
def test_a_band_that_does_not_rise(values: tuple[float, float, float]) -> None:
    with pytest.raises(DataError, match="rises from low to high"):
        Band(*values)


def test_numbers_that_are_none() -> None:
    with pytest.raises(DataError, match="finite numbers"):
        Band(0.0, float("nan"), 1.0)
    with pytest.raises(DataError, match="no source gives a value"):
        spread([])
