"""Rays round a screw's axis: the material between hole and edge, and what a washer rests on."""

from __future__ import annotations

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.part import Fastening

Points = NDArray[np.float64]

AROUND, DEPTH_STEP_MM = 48, 1.0
ON_FACE_MM = 0.3
"""A point of the ring rests on the face where the face is no further than this from where it was meant."""


def edge_mm(mesh: trimesh.Trimesh, one: Fastening) -> float | None:
    """Least distance [mm] from the hole's middle to an outer edge of the body, over its depth and all directions.

    Along the axis, where the wall of the hole is not nearer than 0.8 d (a pocket, a gap) on opposite sides, nothing is
    measured: in a fork's slot the blade's stop may be as near, but on one side alone. None where there is no hole. A
    slot counts from the end of its own wall.
    """
    along, across, up = _axes(one)
    depths = np.arange(DEPTH_STEP_MM / 2, one.grip_mm, DEPTH_STEP_MM)
    angles = np.arange(AROUND) * 2 * np.pi / AROUND
    rim = np.cos(angles)[:, None] * across + np.sin(angles)[:, None] * up
    starts = np.repeat(np.array(one.head) + depths[:, None] * along, AROUND, axis=0)
    ways = np.tile(rim, (len(depths), 1))
    first, second = two_hits(mesh, starts, ways)
    reach = 0.8 * one.d_mm
    near = (first <= reach) & np.isfinite(second)
    sides = near.reshape(len(depths), AROUND)
    per_depth = (sides & np.roll(sides, AROUND // 2, axis=1)).mean(axis=1)
    closed = np.isfinite(second).reshape(len(depths), AROUND).all(axis=1)  # not where a slot for a blade crosses it
    in_hole = np.repeat(_within(closed & (per_depth > 0.2) if one.slotted else per_depth > 0.5), AROUND)
    walls = in_hole & (np.isfinite(second) if one.slotted else near)
    if not walls.any():
        return None
    return float((second[walls] - first[walls]).min()) + float(first[walls].min())


def _within(in_hole: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Without the first and last place of each run of three or more: a chamfer or a slot that flares is no edge."""
    edged = np.concatenate([[False], in_hole, [False]])
    inner = in_hole & edged[:-2] & edged[2:]
    near_inner = np.concatenate([[False], inner, [False]])
    return np.asarray(inner | (in_hole & ~near_inner[:-2] & ~near_inner[2:]))


def two_hits(mesh: trimesh.Trimesh, starts: Points, ways: Points) -> tuple[Points, Points]:
    """Distances of the first two crossings of each ray; infinite where there are fewer."""
    where, ray, _ = mesh.ray.intersects_location(starts, ways, multiple_hits=True)
    far = np.linalg.norm(where - starts[ray], axis=1)
    order = np.lexsort((far, ray))
    ray, far = ray[order], far[order]
    place = np.arange(len(ray)) - np.searchsorted(ray, ray, side="left")
    hits = np.full((len(starts), 2), np.inf)
    early = place < 2
    hits[ray[early], place[early]] = far[early]
    return hits[:, 0], hits[:, 1]


def bearing_share(mesh: trimesh.Trimesh, one: Fastening, at_mm: float, sign: float) -> float:
    """Share of a washer's ring, from the hole's clearance to its rim, that rests on the body `at_mm` along the axis.

    A normal hole is up to 1.29 d wide (No. 6); what is meant by the ring begins beyond it.

    `sign`: +1 where the washer lies before that face (head), -1 where it lies behind it (nut).
    """
    along, across, up = _axes(one)
    radii = np.linspace(0.66 * one.d_mm, one.washer_d_mm / 2 - 0.1, 4)
    angles = np.arange(AROUND) * 2 * np.pi / AROUND
    ring = (np.cos(angles)[:, None] * across + np.sin(angles)[:, None] * up)[None] * radii[:, None, None]
    face = np.array(one.head) + at_mm * along
    starts = (face - sign * along * 1.0 + ring).reshape(-1, 3)
    ways = np.tile(sign * along, (len(starts), 1))
    first, _ = two_hits(mesh, starts, ways)
    return float((np.abs(first - 1.0) <= ON_FACE_MM).mean())


def _axes(one: Fastening) -> tuple[Points, Points, Points]:
    """Unit vectors along the axis and square to it."""
    along = np.array(one.direction, dtype=float)
    across = np.cross(along, np.eye(3)[int(np.argmin(np.abs(along)))])
    across /= np.linalg.norm(across)
    return along, across, np.cross(along, across)
