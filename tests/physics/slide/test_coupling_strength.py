"""Strength of the coupling against closed forms and a finite sum worked here."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.physics.slide import coupling


def test_pin_bending_is_that_of_a_beam() -> None:
    """M by summing the load over the blade's thickness: simply held at the jaws' middles (statics)."""
    force, blade, slot, jaw, core = 400.0, 3.0, 3.4, 5.0, 3.14
    span = slot + jaw
    z = np.linspace(-blade / 2, blade / 2, 200_001)
    moment_middle = force / 2 * span / 2 - force * np.mean(np.where(z > 0, z, 0.0))
    stress = moment_middle * (core / 2) / (math.pi * core**4 / 64)
    assert coupling.pin_bending_mpa(force, core, blade, slot, jaw) == pytest.approx(stress, rel=1e-4)


def test_web_is_a_strip_built_in() -> None:
    """Fixed both sides, load in the middle: M = F L / 8 (a beam table's case, from memory)."""
    t = coupling.web_mm(500.0, 16.0, 25.0, 20.0)
    assert 500.0 * 16.0 / 8 / (25.0 * t**2 / 6) == pytest.approx(20.0)


def test_jaw_is_a_lever() -> None:
    """Moments about the heel: screws x heel arm = blade x (heel arm + blade arm)."""
    for heel, blade in ((5.0, 10.0), (8.0, 8.0)):
        pressed = coupling.jaw_holds_n(500.0, 2, heel, blade, 0.3) / (2 * 0.3)
        assert pressed * (heel + blade) == pytest.approx(1000.0 * heel)


def test_torque_of_the_preload() -> None:
    """A washer bears a quarter of the print's strength for good: M5 (ISO 7089: 10 outside) over a 5.5 hole, 44 MPa."""
    area = math.pi / 4 * (10.0**2 - 5.5**2)
    assert coupling.washer_preload_n(10.0, 5.5, 44.0) == pytest.approx(area * 11.0)


def test_tear_out_and_bearing() -> None:
    assert coupling.tear_out_n(4.0, 5.0, 25.0) == pytest.approx(2 * 4.0 * 5.0 * 12.5)
    assert coupling.bearing_mpa(100.0, 4.0, 5.0) == pytest.approx(5.0)
    assert coupling.ring_mm2(5.0, 6.0) == 0.0
