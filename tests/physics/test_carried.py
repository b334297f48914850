"""Weights, spacing and sag against published rules and closed forms."""

import math

import pytest

from fitwright.physics import carried


def test_half_full_pipe():
    """A half circle: pi D^2 / 8 x density, in another arrangement."""
    radius = 0.05
    assert carried.dust_kg_m(100.0) == pytest.approx(250.0 * 0.5 * math.pi * radius * radius)
    assert carried.dust_kg_m(100.0, fill=0.0) == 0.0


def test_pipe_weight_of_a_published_table():
    """PVC drain 110 x 3.2: 1.6 kg/m with its socket, 1.5 without; 160 x 4.0: 2.7 (merchants' tables, from memory)."""
    assert carried.pipe_kg_m(110.0, 3.2) == pytest.approx(1.5, abs=0.1)
    assert carried.pipe_kg_m(160.0, 4.0) == pytest.approx(2.75, abs=0.1)
    outer, inner = 0.110**2, 0.1036**2
    assert carried.pipe_kg_m(110.0, 3.2) == pytest.approx(1400 * math.pi / 4 * (outer - inner))


def test_rules_in_feet():
    """ADC 4 ft, SMACNA 10 ft; half an inch a foot; saddles 1.5 in and 1 in."""
    foot = 0.3048
    assert carried.FLEXIBLE_ADC.spacing_m == pytest.approx(4 * foot, abs=1e-3)
    assert carried.FLEXIBLE_SMACNA.spacing_m == pytest.approx(10 * foot)
    for rule in (carried.FLEXIBLE_ADC, carried.FLEXIBLE_SMACNA):
        assert carried.permitted_sag_mm(1.0, rule) == pytest.approx(12.7 / foot, abs=0.05)
    assert (carried.FLEXIBLE_ADC.saddle_mm, carried.FLEXIBLE_SMACNA.saddle_mm) == (38.0, 25.4)
    assert carried.permitted_sag_mm(2.4, carried.RIGID_PIPE) == math.inf


@pytest.mark.parametrize("spacing", [0.4, 1.2, 3.0])
@pytest.mark.parametrize("share", [0.005, 0.0417, 0.3, 1.0])
def test_catenary(spacing, share):
    """Both textbook relations hold: sag from the parameter, and S^2 = 4 f^2 + 8 f a; flat ones are parabolas."""
    sag = share * spacing
    one = carried.catenary(spacing, 1000 * sag)
    assert one.parameter_m * (math.cosh(spacing / 2 / one.parameter_m) - 1) == pytest.approx(sag, rel=1e-9)
    assert one.length_m**2 == pytest.approx(4 * sag**2 + 8 * sag * one.parameter_m, rel=1e-9)
    if share < 0.05:
        assert one.parameter_m == pytest.approx(spacing**2 / (8 * sag), rel=0.005)


def test_a_tight_hose_pulls_its_last_hanger():
    """w L^2 / 8 f: 1.68 kg/m, 1.2 m, 50 mm: 59 N, three times its weight."""
    pull = carried.catenary(1.2, 50.0).pull_n(1.68)
    assert pull == pytest.approx(1.68 * 9.80665 * 1.44 / 0.4, rel=0.005)
    assert pull > 2.9 * carried.lasting_n(1.68)


def test_too_far_apart_is_said():
    assert carried.judge_spacing(1.219) == ""
    words = carried.judge_spacing(1.5)
    assert words.startswith("hangers 1.5 m apart: at most 1.219 m (ADC")
    assert carried.judge_spacing(1.5, carried.FLEXIBLE_SMACNA) == ""
