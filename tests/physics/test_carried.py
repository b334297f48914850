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
