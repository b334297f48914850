"""A plane frame by direct stiffness, written for the tests alone: the independent answer to the closed forms.

Textbook matrices (Przemieniecki, Theory of Matrix Structural Analysis): bar and bending with shear, and the geometric
stiffness of an axial force for buckling. Each node has u (x), v (y) and its turn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from scipy.linalg import eigh


@dataclass
class Frame:
    """Nodes and beams; solve for loads, or for the factor at which given axial forces buckle it."""

    nodes: list[tuple[float, float]] = field(default_factory=list)
    parts: list[tuple[int, int, float, float, float, float]] = field(default_factory=list)

    def beam(
        self, start: Sequence[float], end: Sequence[float], ea: float, ei: float, kga: float = np.inf, pieces: int = 8
    ) -> list[int]:
        """A straight run of elements; nodes that coincide are shared. Returns its nodes in order."""
        points = [np.asarray(start) + (np.asarray(end) - np.asarray(start)) * k / pieces for k in range(pieces + 1)]
        numbers = [self.node(float(x), float(y)) for x, y in points]
        self.parts += [(a, b, ea, ei, kga, 0.0) for a, b in pairwise(numbers)]
        return numbers

    def node(self, x: float, y: float) -> int:
        """The number of the node that stands there."""
        for number, (a, b) in enumerate(self.nodes):
            if abs(a - x) + abs(b - y) < 1e-9:
                return number
        self.nodes.append((x, y))
        return len(self.nodes) - 1

    def stiffness(self) -> np.ndarray:
        """All elements together."""
        whole = np.zeros((3 * len(self.nodes), 3 * len(self.nodes)))
        for a, b, ea, ei, kga, _ in self.parts:
            length, turn = self._along(a, b)
            shear = 12.0 * ei / (kga * length**2)
            k = ei / (length**3 * (1.0 + shear))
            local = np.zeros((6, 6))
            local[np.ix_([0, 3], [0, 3])] = ea / length * np.array([[1, -1], [-1, 1]])
            local[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = k * np.array(
                [
                    [12, 6 * length, -12, 6 * length],
                    [6 * length, (4 + shear) * length**2, -6 * length, (2 - shear) * length**2],
                    [-12, -6 * length, 12, -6 * length],
                    [6 * length, (2 - shear) * length**2, -6 * length, (4 + shear) * length**2],
                ]
            )
            places = [3 * a, 3 * a + 1, 3 * a + 2, 3 * b, 3 * b + 1, 3 * b + 2]
            whole[np.ix_(places, places)] += turn.T @ local @ turn
        return whole

    def geometric(self) -> np.ndarray:
        """Geometric stiffness of 1 N of thrust in every beam."""
        whole = np.zeros((3 * len(self.nodes), 3 * len(self.nodes)))
        for a, b, *_ in self.parts:
            length, turn = self._along(a, b)
            local = np.zeros((6, 6))
            local[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = np.array(
                [
                    [36, 3 * length, -36, 3 * length],
                    [3 * length, 4 * length**2, -3 * length, -(length**2)],
                    [-36, -3 * length, 36, -3 * length],
                    [3 * length, -(length**2), -3 * length, 4 * length**2],
                ]
            ) / (30.0 * length)
            places = [3 * a, 3 * a + 1, 3 * a + 2, 3 * b, 3 * b + 1, 3 * b + 2]
            whole[np.ix_(places, places)] += turn.T @ local @ turn
        return whole

    def solve(self, held: Sequence[int], loads: dict[int, float]) -> np.ndarray:
        """Movements of all freedoms (3 a node) under loads on freedoms, the `held` ones at 0."""
        free = np.setdiff1d(np.arange(3 * len(self.nodes)), np.asarray(held))
        force = np.zeros(3 * len(self.nodes))
        for place, value in loads.items():
            force[place] += value
        moved = np.zeros_like(force)
        moved[free] = np.linalg.solve(self.stiffness()[np.ix_(free, free)], force[free])
        return moved

    def critical(self, held: Sequence[int], pushed_aside: dict[int, float] | None = None) -> float:
        """The least thrust that buckles it; `pushed_aside`: what 1 N of thrust pushes a freedom aside per mm."""
        free = np.setdiff1d(np.arange(3 * len(self.nodes)), np.asarray(held))
        loss = self.geometric()
        for place, value in (pushed_aside or {}).items():
            loss[place, place] += value
        # the loss may be indefinite, the stiffness is not: 1 / P are the eigenvalues of loss against stiffness
        inverse = eigh(loss[np.ix_(free, free)], self.stiffness()[np.ix_(free, free)], eigvals_only=True)
        return float(1.0 / inverse.max())

    def _along(self, a: int, b: int) -> tuple[float, np.ndarray]:
        along = np.subtract(self.nodes[b], self.nodes[a])
        length = float(np.hypot(*along))
        c, s = along / length
        small = np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]])
        turn = np.zeros((6, 6))
        turn[:3, :3] = turn[3:, 3:] = small
        return length, turn
