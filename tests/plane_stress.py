"""Plane stress by finite elements on a square grid, to judge plates seen from above: numpy and scipy alone.

Bilinear squares with incompatible modes (E. L. Wilson et al., Incompatible displacement models, 1973), which bend
without locking; each cell has a thickness and a modulus of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import scipy.sparse as sparse
from numpy.typing import NDArray
from scipy.sparse.linalg import spsolve

Grid = NDArray[np.float64]


@dataclass(frozen=True)
class Plate:
    """Cells (nx, ny) of side `side_mm`: `thick_mm` (0: nothing there) and `modulus_mpa`."""

    side_mm: float
    thick_mm: Grid
    modulus_mpa: Grid


def moved(plate: Plate, forces: dict[tuple[int, int, int], float], held: set[tuple[int, int, int]]) -> Grid:
    """Displacements (nx + 1, ny + 1, 2) under forces on (node x, node y, direction); `held` stay where they are."""
    nx, ny = plate.thick_mm.shape
    number = np.arange(2 * (nx + 1) * (ny + 1)).reshape(nx + 1, ny + 1, 2)
    there = np.argwhere(plate.thick_mm > 0.0)
    corners = [number[there[:, 0] + a, there[:, 1] + b] for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]
    cells = np.concatenate(corners, axis=1)
    weight = (plate.thick_mm * plate.modulus_mpa)[plate.thick_mm > 0.0]
    values = weight[:, None, None] * _square(0.36)
    rows, columns = np.repeat(cells, 8, axis=1).ravel(), np.tile(cells, (1, 8)).ravel()
    stiff = sparse.csr_matrix((values.ravel(), (rows, columns)), shape=(number.size, number.size))
    free = np.zeros(number.size, dtype=np.bool_)
    free[cells.ravel()] = True
    free[[number[h] for h in held]] = False
    load = np.zeros(number.size)
    for where, force in forces.items():
        load[number[where]] = force
    found = np.zeros(number.size)
    at = np.flatnonzero(free)
    found[at] = spsolve(stiff[at][:, at].tocsc(), load[at])
    return found[number]


def _square(poisson: float) -> Grid:
    """Stiffness (8, 8) of a square of unit thickness and modulus (it does not depend on its size)."""
    law = np.array([[1.0, poisson, 0.0], [poisson, 1.0, 0.0], [0.0, 0.0, (1.0 - poisson) / 2.0]]) / (1.0 - poisson**2)
    own, mixed, inner, g = np.zeros((8, 8)), np.zeros((8, 4)), np.zeros((4, 4)), 3.0**-0.5
    for a, b in ((-g, -g), (-g, g), (g, -g), (g, g)):
        dx, dy = np.array([b - 1, 1 - b, 1 + b, -1 - b]) / 2, np.array([a - 1, -1 - a, 1 + a, 1 - a]) / 2
        strain, extra = np.zeros((3, 8)), np.zeros((3, 4))
        strain[0, ::2], strain[1, 1::2], strain[2, ::2], strain[2, 1::2] = dx, dy, dy, dx
        extra[0, 0], extra[1, 3], extra[2, 1], extra[2, 2] = -4 * a, -4 * b, -4 * a, -4 * b
        own += strain.T @ law @ strain / 4
        mixed += strain.T @ law @ extra / 4
        inner += extra.T @ law @ extra / 4
    return np.asarray(own - mixed @ np.linalg.solve(inner, mixed.T))
