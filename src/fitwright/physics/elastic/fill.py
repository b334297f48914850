"""Which of the material is wall lines and which is infill: how deep it lies below the surface."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.space import Space
from fitwright.physics.elastic.task import Infill

Array = NDArray[np.float64]
FINER = 6
"""A triangle of the surface is looked at in so many rows."""
ORDER = 6
"""Of the integration inside an element, which part of the skin may cross."""


@dataclass(frozen=True)
class Fill:
    """Share of the modulus at the points of integration, as the library keeps them."""

    share: Any
    rules: Any


def filled(space: Space, infill: Infill) -> Fill | None:
    """Where it is fill and where walls; None where all is solid.

    What lies deeper than the skin below the nearest point of the surface is fill. Stresses are judged as of the solid
    filament: fill is weaker by the same share as it is softer.
    """
    if infill.share >= 1.0:
        return None
    import ngsolve
    from scipy.spatial import cKDTree

    points = ngsolve.comp.IntegrationRuleSpace(space.mesh, order=ORDER)
    place = [ngsolve.GridFunction(points) for _ in range(3)]
    for one, coordinate in zip(place, (ngsolve.x, ngsolve.y, ngsolve.z), strict=True):
        one.Interpolate(coordinate)
    there = np.stack([one.vec.FV().NumPy() for one in place], axis=1)
    near, _ = cKDTree(_surface(space)).query(there, distance_upper_bound=infill.skin_mm)  # inf: none so near
    share = ngsolve.GridFunction(points)
    share.vec.FV().NumPy()[:] = np.where(np.isfinite(near), 1.0, infill.knock_down)
    return Fill(share, points.GetIntegrationRules())


def _surface(space: Space) -> Array:
    """Points on the boundary triangles."""
    nodes = np.array(space.mesh.ngmesh.Elements2D().NumPy()["nodes"][:, :3], dtype=np.int64) - 1
    corners = space.points[nodes]
    shares = [(i / FINER, j / FINER, 1 - (i + j) / FINER) for i in range(FINER + 1) for j in range(FINER + 1 - i)]
    return np.asarray(np.concatenate([np.tensordot(s, corners, axes=(0, 1)) for s in shares]))
