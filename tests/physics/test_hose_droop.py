"""Stiffness from a droop: beams, another integration, and the cloth trade's own formula."""

from __future__ import annotations

import math

import pytest
from scipy import integrate, optimize

from fitwright.physics.hose_droop import DOUBT, jut_for, measured_stiffness_n_mm2, usual_stiffness_n_mm2


@pytest.mark.parametrize("share", [0.02, 0.05])
def test_a_little_droop_is_a_cantilever(share: float) -> None:
    """y = w L^4 / 8 E I of every handbook: (L / c)^3 = 8 y / L."""
    assert jut_for(share) ** 3 == pytest.approx(8 * share, rel=0.01)


def by_shooting(jut: float) -> tuple[float, float]:
    """y / L and x / L of a droop of L = jut x c, the slope at the edge 0 and no moment at the end."""

    def end(curve: float) -> object:
        return integrate.solve_ivp(
            lambda s, y: [y[1], (s - jut) * math.cos(y[0]), math.sin(y[0]), math.cos(y[0])],
            (0.0, jut),
            [0.0, curve, 0.0, 0.0],
            rtol=1e-9,
            atol=1e-11,
        )

    curve = optimize.brentq(lambda k: end(k).y[1][-1], 0.0, jut * jut)  # type: ignore[attr-defined]
    found = end(curve).y  # type: ignore[attr-defined]
    return float(found[2][-1]) / jut, float(found[3][-1]) / jut


@pytest.mark.parametrize("jut", [0.6, 1.2, 2.0, 2.8])
def test_by_another_integration(jut: float) -> None:
    assert jut_for(by_shooting(jut)[0]) == pytest.approx(jut, rel=1e-3)


@pytest.mark.parametrize("jut", [1.0, 1.5, 2.0])
def test_the_cloth_trade_has_the_same(jut: float) -> None:
    """F. T. Peirce, 1930: c = L (cos(a / 2) / 8 tan a)^(1 / 3), a from edge to end below level; 0.5 L at 41.5 deg (ASTM
    D1388). It is a fit, too stiff at that angle (N. Lammens and others, Textile Research Journal 84, 2014)."""
    hangs, across = by_shooting(jut)
    a = math.atan2(hangs, across)
    peirce = (math.cos(a / 2) / (8 * math.tan(a))) ** (1 / 3)
    assert 1.0 / jut == pytest.approx(peirce, rel=0.06)
    half = math.radians(41.5)
    assert (math.cos(half / 2) / (8 * math.tan(half))) ** (1 / 3) == pytest.approx(0.5, abs=0.01)


def test_what_was_measured_and_its_doubt() -> None:
    """A 70 mm hose of 3.64 N/m, 600 mm jut out and hang 50 mm: w L^4 / 8 y = 1.18e6 N mm2, less droop than a beam's."""
    soft, stiff = measured_stiffness_n_mm2(600.0, 50.0, 3.64e-3)
    assert math.sqrt(soft * stiff) == pytest.approx(3.64e-3 * 600.0**4 / (8 * 50.0), rel=0.02)
    assert stiff / soft == pytest.approx(DOUBT**2)


def test_more_droop_is_softer() -> None:
    juts = [jut_for(share / 100) for share in range(2, 91)]
    assert juts == sorted(juts)


def test_usual_hoses() -> None:
    """6 and 12 diameters jut out: c is half of that, so E I = w (3 D)^3 and w (6 D)^3."""
    soft, stiff = usual_stiffness_n_mm2(77.4, 3.64e-3, 105.0)
    assert soft == pytest.approx(3.64e-3 * (3 * 77.4) ** 3) and stiff == pytest.approx(8 * soft)


def test_hands_bend_it_to_its_least_radius() -> None:
    """A heavy hose of 160 mm by its weight alone would ask for w (6 D)^3 / R = 348 N m at 60 mm; hands have 25."""
    soft, stiff = usual_stiffness_n_mm2(160.0, 0.0236, 60.0)
    assert 0.0236 * 960.0**3 / 60.0 > 13 * 25_000.0
    assert soft == stiff == 25_000.0 * 60.0
