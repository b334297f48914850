"""Rings, tubes and flat walls against handbook values, other handbooks' formulas and limits."""

from __future__ import annotations

import math

import pytest

from fitwright.physics import ring

RATIOS = ((3.2, 48.0, 40.0), (2.4, 51.0, 100.0), (1.2, 50.0, 60.0), (2.4, 100.0, 150.0), (1.6, 30.0, 50.0))
"""Wall, mean radius, length of tubes as they are printed [mm]."""


def test_long_tube() -> None:
    """t 2.4, r 51, E 2000, nu 0.36: 59.9 kPa, worked by hand from Bresse's formula; twenty times 3 kPa."""
    assert ring.long_tube_mpa(2000.0, 2.4, 51.0) * 1000 == pytest.approx(59.9, abs=0.05)


def test_long_tube_of_steel() -> None:
    """A public worked sheet of Roark (6th ed., table 35 case 19a): r 6.75 in, t 0.375 in, 29e6 psi, nu 0.29: 1357."""
    assert ring.long_tube_mpa(29e6, 0.375, 6.75, 0.29) == pytest.approx(1357.0, rel=1e-3)


def test_a_steel_ring_of_bresse() -> None:
    """Timoshenko and Gere write p = 3 E I / r^3 for a ring 1 wide; a tube has E / (1 - nu^2) in place of E."""
    inertia = 5.0**3 / 12
    assert ring.long_tube_mpa(2.1e5, 5.0, 250.0, 0.0) == pytest.approx(3 * 2.1e5 * inertia / 250.0**3)


def test_a_long_tube_is_the_limit_of_one_between_stiff_ends() -> None:
    assert ring.tube_mpa(2000.0, 2.4, 51.0, 1e5) == pytest.approx(ring.long_tube_mpa(2000.0, 2.4, 51.0), rel=1e-3)


@pytest.mark.parametrize(("wall", "r", "length"), RATIOS)
def test_between_stiff_ends_as_windenburg_and_trilling(wall: float, r: float, length: float) -> None:
    """Their formula 9 (Trans. ASME 56, 1934): 2.42 E (t/D)^2.5 / ((1-nu^2)^0.75 (L/D - 0.45 sqrt(t/D))), made to follow
    von Mises; with nu 0.3 the factor is the 2.60 that pressure vessel codes print.
    """
    assert 2.42 / (1 - 0.3**2) ** 0.75 == pytest.approx(2.60, abs=0.005)
    d = 2 * r
    theirs = 2.42 * 2000.0 * (wall / d) ** 2.5 / (1 - 0.36**2) ** 0.75 / (length / d - 0.45 * math.sqrt(wall / d))
    assert ring.tube_mpa(2000.0, wall, r, length) == pytest.approx(theirs, rel=0.12)


@pytest.mark.parametrize(("wall", "r", "length"), RATIOS[2:])
def test_between_stiff_ends_as_roark(wall: float, r: float, length: float) -> None:
    """Roark, 7th ed., table 15.2 case 20: 0.807 E t^2 / (l r) ((1 / (1 - nu^2))^3 t^2 / r^2)^(1/4): for tubes that are
    not very short it lies below von Mises by what 0.45 sqrt(t / D) is of L / D.
    """
    theirs = 0.807 * 2000.0 * wall**2 / (length * r) * ((1 / (1 - 0.36**2)) ** 3 * wall**2 / r**2) ** 0.25
    ours = ring.tube_mpa(2000.0, wall, r, length)
    assert theirs < ours < 1.3 * theirs


def test_a_free_mouth_halves_it_and_never_less_than_a_free_ring() -> None:
    both, stub = (f(2000.0, 3.2, 48.0, 40.0) for f in (ring.tube_mpa, ring.stub_mpa))
    assert stub == pytest.approx(0.6 * both)
    assert ring.stub_mpa(2000.0, 3.2, 48.0, 1e5) == pytest.approx(ring.long_tube_mpa(2000.0, 3.2, 48.0))


def test_a_band() -> None:
    """800 N round 100 mm with a band of 12 to 13 mm: 1.3 MPa (half a ring in balance: 2 T = p b d)."""
    assert ring.band_mpa(800.0, 12.3, 100.0) == pytest.approx(1.30, abs=0.005)


def test_thin_ring_and_lame() -> None:
    """Lame, ro / ri = 2: 1.667 p from inside; from outside 2.667 p; a thin ring: p r / t."""
    assert ring.burst_mpa(1.0, 20.0, 10.0) == pytest.approx(5 / 3)
    assert ring.hoop_mpa(1.0, 20.0, 10.0) == pytest.approx(8 / 3)
    assert ring.hoop_mpa(1.0, 50.0, 49.9) == pytest.approx(50.0 / 0.1, rel=2e-3)


def test_the_wall_beside_a_band_helps() -> None:
    """A ring's load P a length on a long tube: w = P r^2 lambda / (2 E t) (Timoshenko, section 115), the limit of a
    narrow band; a wide band's middle knows nothing of its ends.
    """
    lam = (3 * (1 - 0.36**2)) ** 0.25 / math.sqrt(50.0 * 3.0)
    assert ring.under_band(0.01, 3.0, 50.0) == pytest.approx(0.01 * lam / 2, rel=1e-3)
    assert ring.under_band(500.0, 3.0, 50.0) == pytest.approx(1.0, abs=1e-6)


def test_a_band_that_stays_where_it_was_screwed_relaxes() -> None:
    """Stiff band, no hose: half the modulus leaves half the tension; a soft hose keeps it."""
    assert ring.relaxed_share(1.0, 0.0, 0.5) == pytest.approx(0.5)
    assert ring.relaxed_share(1.0, 1e6, 0.5) == pytest.approx(1.0, abs=1e-5)


def test_discs() -> None:
    """q 2.5 kPa, a 50, t 2, E 2000, nu 0.36: 0.159 mm and 1.17 MPa held, 0.628 mm and 1.97 MPa resting."""
    held, rests = (f(0.0025, 50.0, 2.0, 2000.0) for f in (ring.clamped_disc, ring.resting_disc))
    assert held.deflection_mm == pytest.approx(0.159, abs=0.0005)
    assert held.stress_mpa == pytest.approx(1.17, abs=0.005)
    assert rests.deflection_mm == pytest.approx(0.628, abs=0.0006)
    assert rests.stress_mpa == pytest.approx(1.97, abs=0.005)


@pytest.mark.parametrize(
    ("ratio", "w", "m"),
    [(1.0, 0.00406, 0.0479), (1.5, 0.00772, 0.0812), (2.0, 0.01013, 0.1017), (4.0, 0.01282, 0.1235)],
)
def test_resting_rectangle(ratio: float, w: float, m: float) -> None:
    """Timoshenko and Woinowsky-Krieger, 2nd ed., table 8, nu = 0.3 (from memory)."""
    found = ring.resting_rectangle(0.003, (100.0, 100.0 * ratio), 2.4, 2000.0, 0.3)
    stiff = 2000.0 * 2.4**3 / (12 * 0.91)
    assert found.deflection_mm == pytest.approx(w * 0.003 * 100.0**4 / stiff, rel=2e-3)
    assert found.stress_mpa == pytest.approx(6 * m * 0.003 * 100.0**2 / 2.4**2, rel=2e-3)


@pytest.mark.parametrize(
    ("ratio", "alpha", "beta"), [(1.0, 0.0138, 0.3078), (1.6, 0.0251, 0.4680), (2.0, 0.0277, 0.4974)]
)
def test_clamped_rectangle(ratio: float, alpha: float, beta: float) -> None:
    """Roark, 7th ed., table 11.4 case 8a, nu = 0.3: alpha q b^4 / (E t^3), beta q b^2 / t^2 (from memory)."""
    found = ring.clamped_rectangle(0.003, (80.0 * ratio, 80.0), 2.0, 2000.0, 0.3)
    assert found.deflection_mm == pytest.approx(alpha * 0.003 * 80.0**4 / (2000.0 * 2.0**3), rel=0.01)
    assert found.stress_mpa == pytest.approx(beta * 0.003 * 80.0**2 / 2.0**2, rel=0.01)


def test_a_long_clamped_wall_is_a_beam_held_at_both_ends() -> None:
    """q a^2 / 12 at the edges: 6 / 12 q (a / t)^2; w = q a^4 / (384 D)."""
    found = ring.clamped_rectangle(0.003, (60.0, 900.0), 2.4, 2000.0)
    assert found.stress_mpa == pytest.approx(0.5 * 0.003 * (60 / 2.4) ** 2)
    assert found.deflection_mm == pytest.approx(0.003 * 60.0**4 / (384 * ring.plate_n_mm(2000.0, 2.4)))
