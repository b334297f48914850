"""Round faces on the finished mesh: which facets belong to one, and the circle through each of its sections."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.part import Frame

Points = NDArray[np.float64]

WINDOW_MM = 1.0
"""A face further than this from its intended radius is another face."""
END_DEG = 0.01
"""A corner at the end of a sector belongs to it."""
RADIAL_COS = 0.97
"""Facets count whose normal is within 14 deg of the radius: tapers are below 5; slit flanks and floors are not."""


@dataclass(frozen=True)
class Cone:
    """A round face as it was meant: diameters run linearly from `d0_mm` at `s0_mm` to `d1_mm` at `s1_mm`.

    What lies further than `window_mm` from its radius is another face (the crest of a ridge on it).
    """

    frame: Frame
    kind: Literal["hole", "shaft"]
    s0_mm: float
    s1_mm: float
    d0_mm: float
    d1_mm: float
    window_mm: float = WINDOW_MM
    turn_deg: tuple[float, float] | None = None
    """The sector that is there (from, to, clockwise from `up` seen along `inward`); None: the full turn."""

    @property
    def turn_share(self) -> float:
        """Share of the full turn that is there."""
        return 1.0 if self.turn_deg is None else (self.turn_deg[1] - self.turn_deg[0]) / 360.0

    @property
    def growth(self) -> float:
        """Change of diameter per mm of depth."""
        return (self.d1_mm - self.d0_mm) / max(self.s1_mm - self.s0_mm, 1e-9)

    def d_mm(self, s_mm: float) -> float:
        """The diameter that was meant at depth s."""
        return self.d0_mm + self.growth * (s_mm - self.s0_mm)


@dataclass(frozen=True)
class Section:
    """The circle through one section at depth `s_mm`; `coverage` is the part of the circle that is there, 0 to 1."""

    s_mm: float
    d_mm: float
    right_mm: float
    up_mm: float
    out_of_round_mm: float
    coverage: float


def sections(mesh: trimesh.Trimesh, cone: Cone, depths_mm: list[float]) -> list[Section | None]:
    """The section of a face at each depth; None where less than three points are near the intended circle."""
    facets = _facets(mesh, cone)
    return [_section(facets, s, cone) for s in depths_mm]


def _facets(mesh: trimesh.Trimesh, cone: Cone) -> Points:
    """Corners (n, 3, 3) as (right, s, up) of the facets near a cone that face its axis (`hole`) or away (`shaft`)."""
    axes = np.array([cone.frame.right, cone.frame.inward, cone.frame.up], dtype=np.float64).T
    points = (np.asarray(mesh.vertices) - np.array(cone.frame.origin)) @ axes
    depth = points[:, 1][mesh.faces]
    near = (depth.max(axis=1) >= cone.s0_mm) & (depth.min(axis=1) <= cone.s1_mm)
    corners = points[np.asarray(mesh.faces)[near]]
    normals = (np.asarray(mesh.face_normals)[near] @ axes)[:, (0, 2)]
    middle = corners.mean(axis=1)[:, (0, 2)]
    outwards = np.einsum("ij,ij->i", normals, middle) / np.maximum(np.hypot(*middle.T), 1e-9)
    chosen: Points = corners[outwards > RADIAL_COS if cone.kind == "shaft" else outwards < -RADIAL_COS]
    return chosen


def _section(facets: Points, s_mm: float, cone: Cone) -> Section | None:
    """The least-squares circle through the plane section at depth s, from what lies near the intended one."""
    starts, ends = cut(facets, s_mm)
    middles = (starts + ends) / 2.0
    near = np.abs(np.hypot(*middles.T) - cone.d_mm(s_mm) / 2.0) < cone.window_mm
    if cone.turn_deg is not None:
        near &= _within(starts, cone.turn_deg) & _within(ends, cone.turn_deg)
    starts, ends = starts[near], ends[near]
    points = np.concatenate([starts, ends, middles[near]])
    if len(points) < 3:
        return None
    centre, radius = _circle(points)
    reach = np.hypot(*(points - centre).T)
    out_of_round = float(reach.max() - reach.min())
    return Section(s_mm, 2.0 * radius, float(centre[0]), float(centre[1]), out_of_round, _coverage(starts, ends))


def _within(points: Points, turn_deg: tuple[float, float]) -> NDArray[np.bool_]:
    """Which points lie in a sector, clockwise from up."""
    turn = np.degrees(np.arctan2(points[:, 0], points[:, 1]))
    inside: NDArray[np.bool_] = (turn - turn_deg[0] + END_DEG) % 360.0 <= turn_deg[1] - turn_deg[0] + 2 * END_DEG
    return inside


def cut(facets: Points, s_mm: float) -> tuple[Points, Points]:
    """Segments in which the plane at depth s cuts the facets: starts and ends (m, 2) as (right, up)."""
    height = facets[:, :, 1] - s_mm
    height = np.where(height == 0.0, 1e-12, height)
    above = height > 0.0
    crossed = above.any(axis=1) & ~above.all(axis=1)
    facets, height, above = facets[crossed], height[crossed], above[crossed]
    lone = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
    rows = np.arange(len(facets))
    ends = []
    for step in (1, 2):
        other = (lone + step) % 3
        share = height[rows, lone] / (height[rows, lone] - height[rows, other])
        corner, next_corner = facets[rows, lone], facets[rows, other]
        ends.append((corner + (next_corner - corner) * share[:, None])[:, (0, 2)])
    return ends[0], ends[1]


def _circle(points: Points) -> tuple[Points, float]:
    """Least-squares circle (I. Kasa, IEEE Trans. Instrum. Meas. 25 (1976) 8-14); sound where half or more is there."""
    matrix = np.column_stack([2.0 * points, np.ones(len(points))])
    solved, *_ = np.linalg.lstsq(matrix, (points**2).sum(axis=1), rcond=None)
    centre = solved[:2]
    return centre, float(np.sqrt(max(0.0, solved[2] + centre @ centre)))


def _coverage(starts: Points, ends: Points) -> float:
    """Share of the full turn that the segments span, seen from the axis."""
    first, last = np.arctan2(starts[:, 1], starts[:, 0]), np.arctan2(ends[:, 1], ends[:, 0])
    return float(np.abs((last - first + np.pi) % (2.0 * np.pi) - np.pi).sum() / (2.0 * np.pi))
