"""Air, velocity and friction against closed forms and published values."""

from __future__ import annotations

import math

import pytest

from fitwright.errors import DataError
from fitwright.physics.duct import Air, friction_factor, reynolds, velocity_m_s, velocity_pressure_pa


def test_standard_air() -> None:
    """An ideal gas at 20 C and 101.325 kPa, R 287.05 J/(kg K); Sutherland's law, 1.458e-6 T^1.5 / (T + 110.4)."""
    kelvin = 293.15
    assert Air().density_kg_m3 == pytest.approx(101325.0 / (287.05 * kelvin), rel=3e-4)
    assert Air().viscosity_pa_s == pytest.approx(1.458e-6 * kelvin**1.5 / (kelvin + 110.4), rel=5e-3)


def test_velocity_and_pressure() -> None:
    """1 m3/s through 1 m2 is 1 m/s; 1/2 rho v^2."""
    assert velocity_m_s(1.0, 1e6) == pytest.approx(1.0)
    assert velocity_pressure_pa(20.0, 1.2) == pytest.approx(240.0)
    assert reynolds(20.0, 100.0, Air(1.2, 1.8e-5)) == pytest.approx(1.2 * 20.0 * 0.1 / 1.8e-5)


def test_smooth_friction_as_measured() -> None:
    """McKeon, Swanson, Zagarola, Donnelly & Smits, J. Fluid Mech. 511 (2004), the readings that `fluids` carries.

    Colebrook's smooth end (Prandtl, fitted to Nikuradse) lies within 5 % of every one from Re 5000 to 1e6 (all but one
    within 3.3 %).
    """
    from fluids.friction import oregon_smooth_data

    turbulent = [(number, f) for number, f in zip(*oregon_smooth_data, strict=True) if 5e3 < number < 1e6]
    assert len(turbulent) > 10
    for number, measured in turbulent:
        assert friction_factor(number, 0.0, 100.0) == pytest.approx(measured, rel=0.05), number


@pytest.mark.parametrize(("number", "relative"), [(5e4, 1e-3), (1.3e5, 3e-3), (1e6, 0.02)])
def test_friction_solves_colebrook(number: float, relative: float) -> None:
    """1/sqrt f = -2 log10(e/3.7 + 2.51 / (Re sqrt f)): put in, it holds."""
    f = friction_factor(number, relative * 100.0, 100.0)
    right = -2.0 * math.log10(relative / 3.7 + 2.51 / (number * math.sqrt(f)))
    assert 1.0 / math.sqrt(f) == pytest.approx(right, rel=1e-9)


def test_laminar_friction() -> None:
    """Hagen-Poiseuille: 64 / Re."""
    assert friction_factor(1000.0, 0.1, 100.0) == pytest.approx(0.064)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: velocity_m_s(-0.1, 100.0), "a flow of -0.1 m3/s; allowed: 0 or more"),
        (lambda: velocity_m_s(float("inf"), 100.0), "a flow of inf"),
        (lambda: velocity_m_s(0.1, 0.0), "an area of 0 mm2; allowed: above 0"),
        (lambda: Air(density_kg_m3=0.0), "density of 0 kg/m3"),
        (lambda: Air(viscosity_pa_s=float("nan")), "viscosity of nan"),
        (lambda: friction_factor(0.0, 0.1, 100.0), "Reynolds number of 0"),
        (lambda: friction_factor(1e5, 20.0, 100.0), "roughness of 20 mm in 100 mm; allowed: 0 to a tenth"),
    ],
)
def test_nonsense_is_refused(call, message: str) -> None:
    with pytest.raises(DataError, match=message):
        call()
