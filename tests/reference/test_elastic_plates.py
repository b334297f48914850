"""Plate with a hole, clamped disc, thick ring against their closed forms, by the path that every part takes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from cadquery import Solid, Vector

from fitwright.frame import Frame
from fitwright.loads import LoadFace, Support
from fitwright.physics.elastic.use import von_mises
from tests.reference.elastic import BODY, E_MPA, Solved, answer, flat, floating, load, pressure, task_of, the

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
WIDE, LONG, THICK = 40.0, 100.0, 3.0
KT = {0.1: 2.722, 0.2: 2.508, 0.3: 2.349, 0.4: 2.236, 0.5: 2.159}
"""Stress beside the hole over that of the net section: Kt = 3 - 3.13 x + 3.66 x^2 - 1.53 x^3, x = d / W (W. C. Young,
Roark's Formulas for Stress and Strain, table 17.1; after R. E. Peterson's curves, which have R. C. J. Howland's)."""


@pytest.mark.parametrize("x", KT)
def test_the_table_is_that_of_the_formula(x: float) -> None:
    assert 3 - 3.13 * x + 3.66 * x**2 - 1.53 * x**3 == pytest.approx(KT[x], abs=1e-3)


@pytest.mark.slow
@pytest.mark.parametrize("x", KT)
def test_a_hole_in_a_plate_that_is_pulled(x: float) -> None:
    d = x * WIDE
    plate = Solid.makeBox(LONG, WIDE, THICK, Vector(-LONG / 2, -WIDE / 2, 0))
    plate = plate.cut(Solid.makeCylinder(d / 2, THICK + 2, Vector(0, 0, -1))).Solids()[0]
    half = (WIDE / 2, THICK / 2)
    faces = (
        flat("held", (-LONG / 2, 0.0, THICK / 2), X, Y, half),
        flat("pulled", (LONG / 2, 0.0, THICK / 2), (-1.0, 0.0, 0.0), Y, half),
    )
    mean_mpa = 1.0
    pull = load("pulled", mean_mpa * (WIDE - d) * THICK, X, ["held"])
    roller = Support("held", "washer", 1e7, 1.0)
    rim = [(x, y, z) for x, y in around(d / 2) for z in (0.0, THICK)]
    one = Solved(task_of(plate, faces, [roller], [pull], 8.0), [(at, min(d / 14, 0.9)) for at in rim])
    equivalent = von_mises(one.stress)
    k = int(equivalent.argmax())
    assert equivalent[k] == pytest.approx(KT[x] * mean_mpa, rel=0.02)
    assert math.hypot(one.at[k, 0], abs(one.at[k, 1]) - d / 2) < 0.15 * d


def around(r: float, count: int = 40) -> list[tuple[float, float]]:
    """Points of a circle."""
    return [(r * math.cos(k * math.tau / count), r * math.sin(k * math.tau / count)) for k in range(count)]


def test_a_clamped_disc_under_suction() -> None:
    """0.159 mm in its middle, 1.17 MPa at its rim: q a^4 / 64 D and 0.75 q (a / t)^2 (S. Timoshenko and S.
    Woinowsky-Krieger, Theory of Plates and Shells, art. 16). The mean over the disc is a third of the middle's.
    """
    q, a, t, nu = 2.5e-3, 50.0, 2.0, 0.36
    stiff = E_MPA * t**3 / 12 / (1 - nu**2)
    assert q * a**4 / 64 / stiff == pytest.approx(0.159, abs=5e-4) and 0.75 * q * (a / t) ** 2 == pytest.approx(
        1.17, abs=5e-3
    )
    disc = Solid.makeCylinder(a, t)
    rim = LoadFace("rim", BODY, "round", Frame((0.0, 0.0, 0.0), Z, X), r_mm=a, s_mm=(0.0, t))
    face = flat("face", (0.0, 0.0, 0.0), Z, X, (a, a))
    cases = [pressure("face", -q, ["rim"])]
    one = Solved(task_of(disc, (rim, face), (), cases, 2.3, nu))
    middle = one.nearest((0.0, 0.0, 0.0))
    assert np.linalg.norm(one.at[middle]) < 2.5
    assert abs(one.moved[middle, 2]) == pytest.approx(q * a**4 / 64 / stiff, rel=0.02)
    r, turn = np.hypot(one.at[:, 0], one.at[:, 1]), np.arctan2(one.at[:, 1], one.at[:, 0])
    out = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    radial = np.einsum("vi,vij,vj->v", out, one.stress, out)
    on = (np.abs(one.at[:, 2] - t) < 1e-6) & (r < 0.9 * a)
    quadratic, middle_mpa = np.polyfit(r[on] ** 2, radial[on], 1)
    assert abs(quadratic * a**2 + middle_mpa) == pytest.approx(1.17, rel=0.02)
    assert abs(middle_mpa) == pytest.approx(3 * q / (8 * t**2) * (1 + nu) * a**2, rel=0.02)


def test_a_thick_ring_under_pressure_from_within() -> None:
    """1.667 p round the bore where the outside is twice it: (ro^2 + ri^2) / (ro^2 - ri^2) (G. Lame; S. Timoshenko,
    Strength of Materials, part 2). Its bore grows by p ri / E (1.667 + nu).
    """
    ri, ro, high, p, nu = 20.0, 40.0, 5.0, 1.0, 0.3
    ring = Solid.makeCylinder(ro, high).cut(Solid.makeCylinder(ri, high + 2, Vector(0, 0, -1))).Solids()[0]
    axis = Frame((0.0, 0.0, 0.0), Z, X)
    face = LoadFace("bore", BODY, "round", axis, r_mm=ri, s_mm=(0.0, high))
    spots = [
        flat(f"spot {k}", (36.0 * math.cos(w), 36.0 * math.sin(w), 0.0), Z, X, (2.0, 2.0), 3.0)
        for k, w in enumerate((0.0, 2.1, 4.2))
    ]
    held, soft = [one.name for one in spots], [floating(one.name) for one in spots]
    case = [pressure("bore", p, held)]
    fine = [((x, y, z), 1.2) for x, y in around(ri) for z in (0.0, high)]
    one = Solved(task_of(ring, (face, *spots), soft, case, 4.0, nu), fine)
    r = np.hypot(one.at[:, 0], one.at[:, 1])
    bore = np.flatnonzero(r < ri + 1e-3)
    grown = np.einsum("vi,vi->v", one.moved[bore, :2], one.at[bore, :2]).mean() / ri
    assert grown == pytest.approx(p * ri / E_MPA * (5.0 / 3.0 + nu), rel=0.02)
    for k in bore:
        along = np.array([-one.at[k, 1], one.at[k, 0], 0.0]) / ri
        assert along @ one.stress[k] @ along == pytest.approx(5.0 / 3.0 * p, rel=0.02)
    both = the(answer(ring, (face, *spots), soft, case, 2.5, nu, 1))
    assert both.peak.stress_mpa == pytest.approx(p * math.sqrt((5 / 3) ** 2 + 1 + 5 / 3), rel=0.02)
