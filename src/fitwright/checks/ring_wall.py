"""The wall of a tube on the finished mesh: one plane section, seen from the axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.rounds import cut
from fitwright.part import Frame

RAYS = 180
LEAST_SEEN = 0.9
"""A ring counts where this share of the rays from its axis go through a wall."""
RUNNING = 5
"""The least wall is the least mean over so many neighbouring rays: a ring bears by more than one spot."""
Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class RingWall:
    """A ring: outside radius and wall at the median, the least wall [mm]; `round_share`: least radius over greatest.

    The median knows nothing of lips, lugs and channels, which take few of the rays.
    """

    outer_mm: float
    wall_mm: float
    least_mm: float
    round_share: float


def ring_wall(mesh: trimesh.Trimesh, at: Frame, turn_share: float = 1.0) -> RingWall | None:
    """The wall round the frame's origin in the plane square to its axis; None where there is no ring.

    `turn_share`: 0.5 for one half of a ring. From the axis outwards the first stretch of material counts: what stands
    on the outside beyond a gap does not.
    """
    axes = np.array([at.right, at.inward, at.up], dtype=np.float64).T
    points = (np.asarray(mesh.vertices) - np.array(at.origin)) @ axes
    starts, ends = cut(points[np.asarray(mesh.faces)], 0.0)
    walls, outer = [], []
    for turn in np.linspace(0.0, 2.0 * np.pi, RAYS, endpoint=False) + 1e-4:
        crossed = _crossings(starts, ends, float(turn))
        if len(crossed) >= 2:
            walls.append(crossed[1] - crossed[0])
            outer.append(crossed[1])
    if len(walls) < LEAST_SEEN * turn_share * RAYS:
        return None
    found, reach = np.array(walls), np.array(outer)
    padded = np.concatenate([found, found[: RUNNING - 1]])
    running = np.convolve(padded, np.ones(RUNNING) / RUNNING, mode="valid")
    share = float(reach.min() / reach.max())
    return RingWall(float(np.median(reach)), float(np.median(found)), float(running.min()), share)


def _crossings(starts: Numbers, ends: Numbers, turn: float) -> Numbers:
    """Radii at which a ray from the axis crosses the section's segments, rising; twice the same counts once."""
    c, s = np.cos(turn), np.sin(turn)
    a, b = starts[:, 1] * c - starts[:, 0] * s, ends[:, 1] * c - ends[:, 0] * s
    hit = (a > 0.0) != (b > 0.0)
    share = a[hit] / (a[hit] - b[hit])
    along = starts[hit] @ np.array([c, s]), ends[hit] @ np.array([c, s])
    r = np.sort(along[0] + share * (along[1] - along[0]))
    r = r[r > 0.0]
    return np.asarray(r[np.concatenate([[True], np.diff(r) > 1e-6])] if len(r) else r)
