"""Allowances, clearances, strain and cord squeeze against the guide's bands and closed forms."""

import math

import pytest

from fitwright.physics.fits import (
    CORD_SQUEEZE,
    allowance_mm,
    clearance_range,
    cord_groove_depth_mm,
    cord_squeeze,
    hoop_strain,
)

REL, ABS = 0.002, 0.1


@pytest.mark.parametrize(
    ("fit", "low", "high"),
    [("press", 0.0, 0.1), ("snug", 0.1, 0.2), ("slide", 0.2, 0.4)],
)
@pytest.mark.parametrize("d_mm", [10.0, 20.0, 35.0, 50.0])
def test_small_parts_keep_to_the_guide(fit, low, high, d_mm):
    """Print-service guide, diametral: press 0 to 0.1; snug .1 to .2; sliding .2 to .4."""
    assert low <= allowance_mm(fit, d_mm, REL, ABS).value_mm <= high + 1e-9


@pytest.mark.parametrize("d_mm", [10.0, 20.0, 63.0, 110.0, 160.0, 250.0, 315.0])
@pytest.mark.parametrize(("rel", "absolute"), [(0.002, 0.1), (0.0005, 0.03), (0.005, 0.2), (0.0, 0.0)])
def test_order(d_mm, rel, absolute):
    press, snug, slide = (allowance_mm(fit, d_mm, rel, absolute).value_mm for fit in ("press", "snug", "slide"))
    assert 0.0 <= press < snug < slide
    assert 0.15 <= allowance_mm("glue", d_mm, rel, absolute).value_mm <= 0.30


def test_values_at_110():
    """By hand: scatter 0.002 x 110 + 0.1 = 0.32."""
    assert allowance_mm("slide", 110.0, REL, ABS).value_mm == pytest.approx(0.52)
    assert allowance_mm("snug", 110.0, REL, ABS).value_mm == pytest.approx(0.26)
    assert allowance_mm("press", 110.0, REL, ABS).value_mm == pytest.approx(0.05)
    assert allowance_mm("glue", 110.0, REL, ABS).value_mm == pytest.approx(0.26)


@pytest.mark.parametrize("fit", ["press", "snug", "slide", "glue"])
def test_every_allowance_says_where_it_comes_from(fit):
    assert any(word in allowance_mm(fit, 100.0, REL, ABS).source for word in ("guide", "common practice, no source"))


def test_unknown_fit():
    with pytest.raises(ValueError, match="slide, snug, press, glue"):
        allowance_mm("slip", 100.0, REL, ABS)


@pytest.mark.parametrize("d_mm", [20.0, 110.0, 315.0])
def test_a_slide_fit_goes_on_in_the_worst_print(d_mm):
    """Pipe read with a caliper to +-0.1: the tightest print still leaves 0.2 - 0.1."""
    bore = d_mm + allowance_mm("slide", d_mm, REL, ABS).value_mm
    least, greatest = clearance_range("hole", bore, d_mm - 0.1, d_mm + 0.1, REL, ABS)
    assert least == pytest.approx(0.1, abs=0.003)
    assert greatest > least


def test_clearance_range_by_hand():
    """Hole 110.5 +-0.321 over 110.0 to 110.3; shaft 99.5 +-0.299 into 100.0 to 101.5."""
    assert clearance_range("hole", 110.5, 110.0, 110.3, REL, ABS) == pytest.approx((-0.121, 0.821))
    assert clearance_range("shaft", 99.5, 100.0, 101.5, REL, ABS) == pytest.approx((0.201, 2.299))


def test_case_2_a_101_6_spigot_does_not_enter_a_100_socket():
    least, greatest = clearance_range("shaft", 101.6, 99.9, 100.1, REL, ABS)
    assert least < greatest < 0.0


def test_hoop_strain():
    """Circumference pi d: a ring of 100 stretched to 100.5 is 0.5 % longer."""
    assert hoop_strain(0.5, 100.0) == pytest.approx(math.pi * 100.5 / (math.pi * 100.0) - 1.0)
    assert hoop_strain(-0.5, 100.0) == 0.0


def test_cord_squeeze_by_hand():
    """Cord 4 in a groove of 3, gap 0.2 to 0.6 on the diameter: room 3.1 to 3.3, squeezed 22.5 to 17.5 %."""
    squeeze = cord_squeeze(0.2, 0.6, 3.0, 4.0)
    assert (squeeze.least, squeeze.greatest) == pytest.approx((0.175, 0.225))
    assert squeeze.seals
    assert not cord_squeeze(0.2, 1.4, 3.0, 4.0).seals
    assert cord_squeeze(0.2, 2.4, 3.0, 4.0).least < 0.0


def test_groove_depth_gives_the_middle_of_what_is_wanted():
    depth = cord_groove_depth_mm(0.2, 0.6, 4.0)
    squeeze = cord_squeeze(0.4, 0.4, depth, 4.0)
    assert squeeze.least == squeeze.greatest == pytest.approx(sum(CORD_SQUEEZE) / 2.0)
