"""Which elements are walls and which are infill: how deep each lies below the surface."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.space import Space
from fitwright.physics.elastic.task import Infill

Array = NDArray[np.float64]


def shares(space: Space, infill: Infill) -> tuple[Array | None, Array | None]:
    """Share of modulus and strength of each element and at each vertex; None where all is solid.

    An element is fill where its middle lies deeper than the skin below the nearest point of the surface.
    """
    if infill.share >= 1.0:
        return None, None
    from scipy.spatial import cKDTree

    surface = cKDTree(_surface(space))
    middles = space.points[space.corners].mean(axis=1)
    deep, _ = surface.query(middles)
    inner, _ = surface.query(space.points[: space.vertices])
    low = infill.knock_down
    return np.where(deep > infill.skin_mm, low, 1.0), np.where(inner > infill.skin_mm, low, 1.0)


def _surface(space: Space) -> Array:
    """Corners, middles of edges and of faces of the boundary triangles, and a finer set between them."""
    nodes = np.array(space.mesh.ngmesh.Elements2D().NumPy()["nodes"][:, :3], dtype=np.int64) - 1
    corners = space.points[nodes]
    steps = 6
    shares = [(i / steps, j / steps, 1 - (i + j) / steps) for i in range(steps + 1) for j in range(steps + 1 - i)]
    return np.asarray(np.concatenate([np.tensordot(s, corners, axes=(0, 1)) for s in shares]))
