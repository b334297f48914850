"""Displacements of second order on a mesh, and the stresses that follow, as numpy arrays.

The functions are hierarchical: one a vertex (1 there, 0 at the others) and one an edge (a bump between its ends), three
components each. So a rigid or linear field is all in the vertices, and sums over vertices give resultants exactly.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.meshed import FLAT, curve, shapes

Array = NDArray[np.float64]
Numbers = NDArray[np.int64]
CORNERS = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 0.0)]
"""Of the reference tetrahedron, in the order of an element's vertices."""


class Space:
    """Displacements on one state of the mesh.

    `points` (n, 3): where each scalar function sits, vertices first (`vertices` of them), then middles of edges.
    `place` (n, 3): the place as a field: vertices' own, and how far edges bulge. `corners` (elements, 4): vertices of
    each element; `volumes` (elements,) in mm3, `longest` edges (elements,) in mm, `solid` (1: regular, 0: flat);
    `there`: which elements have a volume.
    """

    def __init__(self, mesh: Any, order: int = 2) -> None:
        import ngsolve

        self.mesh = mesh
        self.bent = curve(mesh)
        self.displacement = ngsolve.VectorH1(mesh, order=order)
        self.scalar = ngsolve.H1(mesh, order=order)
        self.vertices = int(mesh.nv)
        corners = np.array(mesh.ngmesh.Coordinates(), dtype=np.float64)
        self.corners = np.array(mesh.ngmesh.Elements3D().NumPy()["nodes"][:, :4], dtype=np.int64) - 1
        self.points = corners if order == 1 else np.vstack([corners, self._middles(corners)])
        self._at = mesh.MapToAllElements(ngsolve.IntegrationRule(points=CORNERS, weights=[1.0 / 24.0] * 4), ngsolve.VOL)
        self.volumes = np.array(ngsolve.Integrate(ngsolve.CF(1.0), mesh, element_wise=True))
        self._field = ngsolve.GridFunction(self.displacement)
        self.place = self._place()
        self.solid, self.longest = shapes(mesh)
        self.there = ngsolve.BitArray((self.solid > FLAT).tolist())
        self.trust = np.where(self.solid > FLAT, self.volumes * np.minimum(self.solid, 1.0) ** 2, 0.0)
        self._mean = self._means()

    @property
    def unknowns(self) -> int:
        """How many numbers one displacement has."""
        return int(self.displacement.ndof)

    def by_component(self, values: Array) -> Array:
        """A displacement or force vector as (3, n): component after component."""
        return np.asarray(values.reshape(3, -1))

    def weights(self, indicator: Any) -> Array:
        """Integral of each scalar function over the part of the boundary where the indicator is 1 [mm2], (n,)."""
        import ngsolve

        form = ngsolve.LinearForm(self.scalar)
        form += indicator * self.scalar.TestFunction() * ngsolve.ds(bonus_intorder=4)
        form.Assemble()
        found: Array = np.array(form.vec.FV().NumPy())
        return found

    def free(self) -> Any:
        """The unknowns that an element with a volume has: all others stay 0."""
        import ngsolve

        made = self.displacement.FreeDofs()
        if all(self.there):
            return made
        used = np.zeros(int(self.scalar.ndof), dtype=bool)
        for number in np.flatnonzero(np.array(list(self.there))):
            used[list(self.scalar.GetDofNrs(ngsolve.ElementId(ngsolve.VOL, int(number))))] = True
        return made & ngsolve.BitArray(np.tile(used, 3).tolist())

    def strain(self, displacement: Array, elements: Numbers | None = None) -> Array:
        """Small strain at the corners of each element, or of some, (elements, 4, 3, 3)."""
        import ngsolve

        self._field.vec.FV().NumPy()[:] = displacement
        at = self._at if elements is None else self._at.reshape(-1, 4)[elements].ravel()
        gradient = np.nan_to_num(ngsolve.Grad(self._field)(at), posinf=0.0, neginf=0.0).reshape(-1, 4, 3, 3)
        return np.asarray(0.5 * (gradient + gradient.transpose(0, 1, 3, 2)))

    def averaged(self, values: Array) -> Array:
        """Values at elements' corners (elements, 4, ...) as means at the vertices, weighed by volume and shape.

        A flat sliver's stress is a small difference of movements over a smaller height: it counts next to nothing.
        """
        made = self._mean @ values.reshape(len(self.corners) * 4, -1)
        return np.asarray(made.reshape(self.vertices, *values.shape[2:]))

    def _means(self) -> Any:
        """The matrix that takes corners of elements to vertices."""
        from scipy.sparse import csr_matrix

        weight = np.repeat(self.trust, 4)
        whole = np.bincount(self.corners.ravel(), weight, self.vertices)
        share = weight / np.maximum(whole, 1e-300)[self.corners.ravel()]
        there = self.corners.ravel(), np.arange(self.corners.size)
        return csr_matrix((share, there), shape=(self.vertices, self.corners.size))

    def _place(self) -> Array:
        import ngsolve

        field, made = ngsolve.GridFunction(self.scalar), []
        for coordinate in (ngsolve.x, ngsolve.y, ngsolve.z):
            field.Set(coordinate)
            made.append(np.array(field.vec.FV().NumPy()))
        return np.stack(made, axis=1)

    def _middles(self, corners: Array) -> Array:
        """Middle of the edge of each function beyond the vertices'; a refined mesh also lists edges that are gone."""
        import ngsolve

        ends = np.array([[v.nr for v in edge.vertices] for edge in self.mesh.edges], dtype=np.int64)
        owned = [self.scalar.GetDofNrs(ngsolve.NodeId(ngsolve.EDGE, k)) for k in range(len(ends))]
        there = np.array([len(one) == 1 and one[0] >= 0 for one in owned])
        numbers = np.array([one[0] for one, is_there in zip(owned, there, strict=True) if is_there])
        made = np.full((int(self.scalar.ndof) - self.vertices, 3), np.nan)
        made[numbers - self.vertices] = (corners[ends[there, 0]] + corners[ends[there, 1]]) / 2.0
        assert np.isfinite(made).all()
        return np.asarray(made)


def stress(strain: Array, modulus_mpa: float, poisson: float) -> Array:
    """Hooke's law for (..., 3, 3)."""
    mu = modulus_mpa / (2.0 * (1.0 + poisson))
    lam = modulus_mpa * poisson / ((1.0 + poisson) * (1.0 - 2.0 * poisson))
    trace = np.trace(strain, axis1=-2, axis2=-1)
    return np.asarray(2.0 * mu * strain + lam * trace[..., None, None] * np.eye(3))
