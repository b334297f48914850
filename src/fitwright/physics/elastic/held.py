"""A body held at some faces: one factorisation, and the displacements that any forces cause."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.fill import Fill
from fitwright.physics.elastic.meshed import NotAnalysedError
from fitwright.physics.elastic.space import Space

Array = NDArray[np.float64]
RESIDUAL = 1e-6
"""An answer whose forces miss the load's by more than this share is no answer: the model floats."""


@dataclass(frozen=True)
class Spring:
    """Springs spread over the boundary where `indicator` is 1: stiffness [N/mm3] along x, y, z, or along an axis.

    With `axis`, `stiffness` is (along it, across it); without, one for all directions or one each for x, y, z.
    """

    indicator: Any
    stiffness: tuple[float, ...]
    axis: tuple[float, float, float] | None = None


class Held:
    """Stiffness of a body with its springs, factored once."""

    def __init__(
        self, space: Space, springs: Sequence[Spring], modulus_mpa: float, poisson: float, fill: Fill | None = None
    ) -> None:
        import ngsolve

        self.space = space
        u, v = space.displacement.TnT()
        form = ngsolve.BilinearForm(space.displacement, symmetric=True)
        whole = _energy(u, v, modulus_mpa, poisson)
        form += (
            whole * ngsolve.dx(definedonelements=space.there)
            if fill is None
            else fill.share * whole * ngsolve.dx(definedonelements=space.there, intrules=fill.rules)
        )
        for spring in springs:
            form += _spring(spring, u, v) * ngsolve.ds(bonus_intorder=4)
        form.Assemble()
        self._matrix = form.mat
        try:
            self._inverse = form.mat.Inverse(space.free(), inverse="sparsecholesky")
        except Exception as error:
            raise NotAnalysedError(f"its equations could not be solved ({error})") from error

    def moved(self, forces: Array) -> Array:
        """Displacements (columns, unknowns) of forces (columns, unknowns).

        Raises
        ------
        NotAnalysedError
            It is not held, or hardly: the answer does not carry the load.
        """
        right, found = self._matrix.CreateColVector(), self._matrix.CreateColVector()
        rest = self._matrix.CreateColVector()
        made = np.empty_like(forces)
        for k, column in enumerate(forces):
            right.FV().NumPy()[:] = column
            found.data = self._inverse * right
            rest.data = right - self._matrix * found
            size = float(np.linalg.norm(column))
            if not np.linalg.norm(rest.FV().NumPy()) <= RESIDUAL * max(size, 1e-300):
                raise NotAnalysedError("it is not held well enough to bear its load")
            made[k] = found.FV().NumPy()
        return made

    def energy(self, displacement: Array) -> float:
        """Twice the energy [N mm] of body and springs in a displacement."""
        one, other = self._matrix.CreateColVector(), self._matrix.CreateColVector()
        one.FV().NumPy()[:] = displacement
        other.data = self._matrix * one
        return float(displacement @ other.FV().NumPy())


def _energy(u: Any, v: Any, modulus_mpa: float, poisson: float) -> Any:
    import ngsolve

    mu = modulus_mpa / (2.0 * (1.0 + poisson))
    lam = modulus_mpa * poisson / ((1.0 + poisson) * (1.0 - 2.0 * poisson))
    one, other = (0.5 * (ngsolve.Grad(w) + ngsolve.Grad(w).trans) for w in (u, v))
    return 2.0 * mu * ngsolve.InnerProduct(one, other) + lam * ngsolve.Trace(one) * ngsolve.Trace(other)


def _spring(spring: Spring, u: Any, v: Any) -> Any:
    import ngsolve

    k = spring.stiffness
    if spring.axis is not None:
        axis = ngsolve.CF(tuple(spring.axis))
        normal = ngsolve.InnerProduct(u, axis) * ngsolve.InnerProduct(v, axis)
        return spring.indicator * (k[1] * ngsolve.InnerProduct(u, v) + (k[0] - k[1]) * normal)
    if len(k) == 1:
        return spring.indicator * k[0] * ngsolve.InnerProduct(u, v)
    return spring.indicator * sum(k[i] * u[i] * v[i] for i in range(3))
