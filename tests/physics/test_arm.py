"""A hook's arm against textbook cases, numerical integration, the exact elastic solution and the snap-fit handbooks."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from fitwright.physics import arm as arms
from fitwright.physics.arm import (
    Arm,
    RoundInThroat,
    curve_factor,
    least_thickness_mm,
    push_in_n,
    straight_strain,
    throat,
)


@pytest.mark.parametrize(
    ("sweep", "direction", "gives"),
    [
        (90.0, 0.0, math.pi / 4),
        (90.0, 90.0, 3 * math.pi / 4 - 2),
        (180.0, 0.0, math.pi / 2),
        (180.0, 90.0, 3 * math.pi / 2),
    ],
)
def test_textbook_arcs(sweep, direction, gives):
    """Timoshenko, Strength of Materials, deflection of curved bars; Roark, circular arcs (from memory)."""
    assert Arm(50.0, 4.0, 40.0, sweep, direction).gives == pytest.approx(gives)


@pytest.mark.parametrize("sweep", [10.0, 75.0, 160.0, 200.0, 330.0])
@pytest.mark.parametrize("direction", [-60.0, 0.0, 30.0, 45.0, 80.0, 120.0, 250.0])
def test_castigliano_by_numbers(sweep, direction):
    """The integral of M^2 and the greatest M, with M from the vectors of force and arm, not from the closed form."""
    one = Arm(53.0, 6.0, 40.0, sweep, direction)
    a = math.radians(direction)
    tip, force = np.array([1.0, 0.0]), np.array([math.cos(a), math.sin(a)])  # the root lies anticlockwise from the tip

    def moment(beta):
        aside = tip - np.array([math.cos(beta), math.sin(beta)])
        return aside[0] * force[1] - aside[1] * force[0]

    whole, _ = quad(lambda beta: moment(beta) ** 2, 0.0, math.radians(sweep))
    assert one.gives == pytest.approx(whole, rel=1e-7)
    betas = np.linspace(0.0, math.radians(sweep), 20001)
    greatest = np.abs(math.sin(a) + np.sin(betas - a)).max()
    assert one.lever_mm == pytest.approx(53.0 * greatest, rel=1e-6)
    assert abs(moment(betas[-1])) == pytest.approx(abs(math.sin(a) + math.sin(betas[-1] - a)), rel=1e-9)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2])
@pytest.mark.parametrize("sweep", [90.0, 150.0, 200.0])
@pytest.mark.parametrize("direction", [0.0, 45.0, 90.0])
def test_thickness_adds_little(share, sweep, direction):
    """Full energy of a thick curved bar: M^2 / 2AeE + R N^2 / 2AE - M N / AE + 1.2 R V^2 / 2AG (Shigley, "Deflection of
    curved members"), nu 0.36."""
    radius, modulus, width = 50.0, 2000.0, 40.0
    thick = share * radius
    one = Arm(radius, thick, width, sweep, direction)
    a, area = math.radians(direction), width * thick
    eccentric = radius - thick / math.log((radius + thick / 2) / (radius - thick / 2))
    shear = modulus / 2.72

    def energy(beta):
        m = radius * (math.sin(a) + math.sin(beta - a))
        n = math.cos(a) * math.sin(beta) - math.sin(a) * math.cos(beta)
        v = math.cos(a) * math.cos(beta) + math.sin(a) * math.sin(beta)
        bend = m * m / (area * eccentric * modulus) - 2 * m * n / (area * modulus)
        return bend + radius * n * n / (area * modulus) + 1.2 * radius * v * v / (area * shear)

    full, _ = quad(energy, 0.0, math.radians(sweep))
    ours = 1.0 / one.force_n(1.0, modulus)
    assert ours == pytest.approx(full, rel=0.03 if sweep > 90.0 or direction < 90.0 else 0.15)


def test_straight_cantilever_is_the_limit():
    """Snap-fit handbooks: strain 1.5 t y / L^2, P = 3 E I y / L^3."""
    for sweep in (0.5, 0.1):
        radius = 30.0 / math.radians(sweep)
        one = Arm(radius, 3.0, 10.0, sweep, 0.0)
        assert one.strain(2.0) == pytest.approx(straight_strain(2.0, 3.0, 30.0), rel=2e-3)
        assert one.force_n(2.0, 2000.0) == pytest.approx(3 * 2000.0 * 10 * 27 / 12 * 2.0 / 30.0**3, rel=2e-3)
    assert straight_strain(1.0, 2.0, 15.0) == pytest.approx(0.01333, abs=1e-5)


def test_hook_of_a_textbook():
    """Shigley, curved beams, example of a rectangular hook (from memory): 0.75 x 4 in, radii 2 and 6, 5000 lbf:
    neutral axis 3.641, eccentricity 0.359, 16.9 kpsi inside."""
    one = Arm(4.0, 4.0, 0.75, 90.0)
    assert one.thickness_mm / math.log(3.0) == pytest.approx(3.641, abs=1e-3)
    assert curve_factor(4.0, 4.0) * 6 * 20000 / (0.75 * 16) + 5000 / 3 == pytest.approx(16.9e3, rel=3e-3)


def golovin(inner, outer):
    """Greatest stress for a unit moment and width, exactly (Timoshenko & Goodier, pure bending of curved bars)."""
    a, b, log = inner, outer, math.log(outer / inner)
    n = (b * b - a * a) ** 2 - 4 * a * a * b * b * log * log
    return 4 / n * (2 * b * b * log - (b * b - a * a))


@pytest.mark.parametrize(("share", "near"), [(0.05, 0.002), (0.2, 0.004), (0.5, 0.01)])
def test_winkler_is_near_the_exact_solution(share, near):
    thick = 50.0 * share
    exact = golovin(50.0 - thick / 2, 50.0 + thick / 2) * thick**2 / 6
    assert curve_factor(50.0, thick) == pytest.approx(exact, rel=near)


@pytest.mark.parametrize("sweep", [60.0, 120.0, 200.0, 280.0])
def test_snag_from_the_worst_direction(sweep):
    """Every direction and every place along the arc by numbers: bending by Winkler on the inside, and the pull."""
    one, force = Arm(53.0, 6.0, 40.0, sweep), 150.0
    k = curve_factor(53.0, 6.0) * 6 / (40.0 * 36)
    a = np.radians(np.arange(0.0, 360.0, 0.5))[:, None]
    beta = np.radians(np.linspace(0.0, sweep, 801))[None, :]
    moment = force * 53.0 * (np.sin(a) + np.sin(beta - a))
    pull = force * (np.cos(a) * np.sin(beta) - np.sin(a) * np.cos(beta))
    greatest = float((k * moment + pull / 240.0).max())
    assert one.snag_mpa(force) == pytest.approx(greatest, rel=1e-4)
    furthest = 2 * 53.0 * math.sin(math.radians(min(sweep, 180.0)) / 2)
    assert one.snag_mpa(force) >= force * furthest * 6 / (40.0 * 36)


def test_sideways_by_hand():
    """A quarter: at its root bending and twist are both P R; twist of a thin strip 3 T / W t^2."""
    one = Arm(50.0, 2.0, 200.0, 90.0)
    sigma, tau = 6 * 50.0 / (2.0 * 200.0**2), 3 * 50.0 / (200.0 * 4.0) * (1 + 0.6 * 0.01)
    assert one.sideways_mpa(1.0) == pytest.approx(math.hypot(sigma, math.sqrt(3) * tau), rel=1e-9)
    assert Arm(50.0, 2.0, 200.0, 200.0).sideways_mpa(1.0) > 1.9 * one.sideways_mpa(1.0)


def test_energy_is_work():
    one = Arm(53.0, 6.0, 40.0, 200.0)
    steps = np.linspace(0.0, 8.0, 401)
    work = np.trapezoid([one.force_n(float(y), 2000.0) for y in steps], steps)
    assert one.energy_nmm(8.0, 2000.0) == pytest.approx(work)


def test_strain_is_stress_over_modulus():
    one = Arm(53.0, 6.0, 40.0, 200.0, 20.0)
    force = one.force_n(5.0, 2000.0)
    stress = curve_factor(53.0, 6.0) * 6 * force * one.lever_mm / (40.0 * 36.0)
    assert one.strain(5.0) == pytest.approx(stress / 2000.0)
    assert one.strain(one.opens_mm(0.005)) == pytest.approx(0.005)


def test_push_in():
    """Snap-fit handbooks; as a wedge with the angle of friction: P tan(a + rho)."""
    for lip in (5.0, 20.0, 45.0, 60.0):
        assert push_in_n(10.0, lip, 0.4) == pytest.approx(10.0 * math.tan(math.radians(lip) + math.atan(0.4)))
    assert push_in_n(10.0, 70.0, 0.4) == math.inf
    assert push_in_n(10.0, 90.0, 0.0) == math.inf


def test_throat():
    """Case by case: a rigid pipe in a stiff hook has no throat; a hose has."""
    assert not throat(110.0, 1.0, 0.0).possible
    one = throat(110.0, 8.0, 0.0)
    assert (one.least_mm, one.greatest_mm) == pytest.approx((102.0, 104.5))
    assert throat(110.0, 0.0).least_mm == pytest.approx(99.0)
    assert throat(110.0, 0.0, 0.2).least_mm == pytest.approx(88.0)
    assert throat(10.0, 50.0).least_mm == 0.0


@pytest.mark.parametrize("count", [1, 2])
def test_work_of_pushing_in_is_what_the_arms_store(count):
    """Without friction, along the way of the round thing's centre: y = sqrt(r^2 - (w / 2)^2)."""
    one = Arm(58.0, 6.0, 40.0, 200.0, 50.0)
    pipe = RoundInThroat(one, 2000.0, 110.0, 102.0, count, friction=0.0)
    shares = np.linspace(0.0, 1.0, 4001)
    way = np.sqrt(np.maximum(0.0, 55.0**2 - ((102.0 + 8.0 * shares) / 2) ** 2))
    forces = np.array([pipe.force_n(float(share)) for share in shares])
    work = float(np.trapezoid(forces, -way))
    assert work == pytest.approx(count * one.energy_nmm(8.0 / count, 2000.0), rel=1e-3)


def test_friction_holds_and_a_wide_throat_does_not():
    one = Arm(58.0, 6.0, 40.0, 200.0, 50.0)
    rough, smooth = (RoundInThroat(one, 2000.0, 110.0, 102.0, 1, mu).greatest_n for mu in (0.4, 0.0))
    assert rough > smooth > 0.0
    assert RoundInThroat(one, 2000.0, 110.0, 110.0).greatest_n == 0.0
    assert RoundInThroat(one, 2000.0, 110.0, 120.0).greatest_n == 0.0
    assert RoundInThroat(one, 2000.0, 110.0, 30.0).greatest_n == math.inf


def test_thickness_for_a_snag():
    thick = least_thickness_mm(150.0, 15.0, 50.0, 40.0, 200.0)
    assert Arm(50.0 + thick / 2, thick, 40.0, 200.0).snag_mpa(150.0) == pytest.approx(15.0, rel=1e-6)
    assert least_thickness_mm(150.0, 15.0, 50.0, 40.0, 200.0, sideways=True) >= thick
    assert least_thickness_mm(1e5, 15.0, 50.0, 40.0, 200.0) == math.inf
    wider = least_thickness_mm(150.0, 15.0, 50.0, 80.0, 200.0)
    assert wider < thick


@pytest.mark.parametrize("wrong", [(50.0, 4.0, 40.0, 0.0), (50.0, 4.0, 40.0, 331.0), (50.0, 100.0, 40.0, 90.0)])
def test_arms_that_are_none(wrong):
    with pytest.raises(ValueError, match="an arm"):
        Arm(*wrong)


def test_friction_and_shares_are_marked():
    assert (arms.SQUEEZED_SHARE, arms.HELD_SHARE, arms.FRICTION) == (0.10, 0.05, 0.4)
