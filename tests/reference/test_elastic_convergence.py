"""Order of convergence, patch test and rigid motions of the elements, springs and averaging of every part."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
import pytest
from cadquery import Solid, Vector

from fitwright.physics.elastic.held import Held, Spring
from fitwright.physics.elastic.meshed import mesh_of
from fitwright.physics.elastic.space import Space, stress
from fitwright.physics.elastic.use import von_mises
from tests.reference.elastic import brep

E_MPA, POISSON, SPRING = 2000.0, 0.3, 50.0
MU = E_MPA / 2 / (1 + POISSON)
LAM = E_MPA * POISSON / (1 + POISSON) / (1 - 2 * POISSON)


def pierced() -> Solid:
    """A block with a round hole: straight and curved elements."""
    block = Solid.makeBox(20, 16, 8)
    return block.cut(Solid.makeCylinder(4, 10, Vector(9, 8, -1))).Solids()[0]


def space_of(solid: Solid, size: float, halvings: int = 0) -> Space:
    import ngsolve

    mesh = mesh_of(brep(solid), 1.0, size, [], solid.Volume())
    for _ in range(halvings):
        mesh.ngmesh.Refine()  # every edge in two
        mesh = ngsolve.Mesh(mesh.ngmesh)
        mesh.Curve(2)
    return Space(mesh)


def solved(space: Space, exact: Any, traction: Any) -> tuple[np.ndarray, np.ndarray]:
    """Forces and displacement where tractions act on springs all round: an exact solution that holds itself."""
    import ngsolve

    form = ngsolve.LinearForm(space.displacement)
    form += (traction + SPRING * exact) * space.displacement.TestFunction() * ngsolve.ds(bonus_intorder=8)
    form.Assemble()
    forces = np.array(form.vec.FV().NumPy())
    held = Held(space, [Spring(ngsolve.CF(1.0), (SPRING,))], E_MPA, POISSON)
    return forces, held.moved(forces[None, :])[0]


@cache
def of_harmonic(halvings: int) -> tuple[float, float]:
    """Squared error in energy, and error of the work, for u = grad f, f = exp(a x) sin(b y) cos(c z), a^2 = b^2 + c^2.

    Its divergence is nil and so is that of its stress 2 mu grad grad f: it needs no body force.
    """
    import ngsolve

    b, c = 0.15, 0.1
    a = math.hypot(b, c)
    x, y, z = ngsolve.x, ngsolve.y, ngsolve.z
    e, sb, cb, sc, cc = (
        ngsolve.exp(a * (x - 8)),
        ngsolve.sin(b * y),
        ngsolve.cos(b * y),
        ngsolve.sin(c * z),
        ngsolve.cos(c * z),
    )
    exact = ngsolve.CF((a * e * sb * cc, b * e * cb * cc, -c * e * sb * sc))
    xy, xz, yz = a * b * e * cb * cc, -a * c * e * sb * sc, -b * c * e * cb * sc
    strain = ngsolve.CF(
        (a * a * e * sb * cc, xy, xz, xy, -b * b * e * sb * cc, yz, xz, yz, -c * c * e * sb * cc), dims=(3, 3)
    )
    space = space_of(Solid.makeBox(10, 8, 6), 5.0, halvings)
    traction = 2 * MU * strain * ngsolve.specialcf.normal(3)
    forces, moved = solved(space, exact, traction)
    field = ngsolve.GridFunction(space.displacement)
    field.vec.FV().NumPy()[:] = moved
    off = 0.5 * (ngsolve.Grad(field) + ngsolve.Grad(field).trans) - strain
    energy = 2 * MU * ngsolve.InnerProduct(off, off) + LAM * ngsolve.Trace(off) ** 2
    work = ngsolve.Integrate((traction + SPRING * exact) * exact, space.mesh, ngsolve.BND, order=12)
    return float(ngsolve.Integrate(energy, space.mesh, order=10)), float(work - forces @ moved)


@pytest.mark.slow
def test_energy_and_work_converge_as_the_theory_of_second_order_elements_says() -> None:
    """Halving every edge divides the squared error in energy by 2^4, and so the error of the work of the loads (G.
    Strang and G. J. Fix, An Analysis of the Finite Element Method, 1973, ch. 3: h^(2k), k = 2).
    """
    errors = np.array([of_harmonic(k) for k in range(3)])
    slopes = np.log2(errors[:-1] / errors[1:])
    assert slopes[-1] == pytest.approx(4.0, rel=0.15), slopes
    assert slopes[0] == pytest.approx(4.0, rel=0.25), slopes


@pytest.mark.parametrize(("solid", "within"), [(Solid.makeBox(20, 16, 8), 1e-9), (pierced(), 1e-3)])
def test_a_linear_displacement_gives_the_same_stress_everywhere(solid: Solid, within: float) -> None:
    """The patch test (B. M. Irons, 1965), solved for and averaged: exact on straight elements.

    On curved ones the integrals are exact to what the rule of quadrature is: three elements round a quarter of a hole.
    """
    import ngsolve

    gradient = np.array([[1.0, 0.4, -0.2], [0.1, -0.7, 0.3], [0.6, -0.5, 0.2]]) * 1e-3
    even = (gradient + gradient.T) / 2
    expected = 2 * MU * even + LAM * np.trace(even) * np.eye(3)
    space = space_of(solid, 5.0)
    place = ngsolve.CF((ngsolve.x, ngsolve.y, ngsolve.z))
    exact = ngsolve.CF(tuple(gradient.ravel()), dims=(3, 3)) * place
    traction = ngsolve.CF(tuple(expected.ravel()), dims=(3, 3)) * ngsolve.specialcf.normal(3)
    _, moved = solved(space, exact, traction)
    found = stress(space.strain(moved), E_MPA, POISSON)
    assert np.abs(found - expected).max() < within * np.abs(expected).max()
    assert np.abs(space.averaged(found) - expected).max() < within * np.abs(expected).max()


def test_rigid_motions_give_no_stress() -> None:
    import ngsolve

    space = space_of(pierced(), 5.0)
    field = ngsolve.GridFunction(space.displacement)
    x, y, z = ngsolve.x, ngsolve.y, ngsolve.z
    for motion in ((1.0, 2.0, -3.0), (0.0, -z, y), (z, 0.0, -x), (-y, x, 0.0)):
        field.Set(ngsolve.CF(motion))
        found = stress(space.strain(np.array(field.vec.FV().NumPy())), E_MPA, POISSON)
        assert np.abs(found).max() < 1e-9 * E_MPA


def test_averaging_weighs_by_volume_and_shape_and_keeps_what_is_constant() -> None:
    space = space_of(pierced(), 6.0)
    constant = np.ones((len(space.corners), 4, 3, 3)) * 7.0
    assert space.averaged(constant) == pytest.approx(7.0 * np.ones((space.vertices, 3, 3)), abs=1e-12)
    single = np.zeros((len(space.corners), 4))
    single[0] = 1.0
    mean = space.averaged(single)
    for corner in space.corners[0]:
        share = space.trust[0] / space.trust[(space.corners == corner).any(axis=1)].sum()
        assert mean[corner] == pytest.approx(share)


def test_the_equivalent_stress_is_that_of_the_textbook() -> None:
    """Pure shear: sqrt(3) tau (R. von Mises, 1913; any textbook); equal pressure from all sides: none."""
    shear = np.array([[0.0, 5.0, 0.0], [5.0, 0.0, 0.0], [0.0, 0.0, 0.0]])
    assert float(von_mises(shear)) == pytest.approx(5.0 * math.sqrt(3.0))
    assert float(von_mises(-8.0 * np.eye(3))) == pytest.approx(0.0, abs=1e-12)
