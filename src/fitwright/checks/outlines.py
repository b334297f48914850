"""Faces that follow an outline other than a circle, on the finished mesh: each section against the outline meant."""

from __future__ import annotations

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.rounds import RADIAL_COS, WINDOW_MM, Cone, Section, cut
from fitwright.part import FitSurface
from fitwright.section import Section as Outline

Points = NDArray[np.float64]

STEP_MM = 0.01


def outline_at(fit: FitSurface, d_mm: float) -> Outline:
    """The outline that was meant where the shorter side is `d_mm`."""
    assert fit.about is not None
    return fit.about.grown((d_mm - fit.about_d_mm) / 2.0)


def sections(mesh: trimesh.Trimesh, fit: FitSurface, cone: Cone, depths_mm: list[float]) -> list[Section | None]:
    """The section of a face at each depth, its size told as the shorter side; None where it is not found.

    `out_of_round_mm` is how far the section strays from its outline at the most, less how far at the least.
    """
    facets = _facets(mesh, fit, cone)
    return [_section(facets, s, fit, cone.d_mm(s)) for s in depths_mm]


def _facets(mesh: trimesh.Trimesh, fit: FitSurface, cone: Cone) -> Points:
    """Corners (n, 3, 3) as (right, s, up) of the facets within the face's depth that look the way the face does."""
    axes = np.array([cone.frame.right, cone.frame.inward, cone.frame.up], dtype=np.float64).T
    points = (np.asarray(mesh.vertices) - np.array(cone.frame.origin)) @ axes
    depth = points[:, 1][mesh.faces]
    near = (depth.max(axis=1) >= cone.s0_mm) & (depth.min(axis=1) <= cone.s1_mm)
    corners = points[np.asarray(mesh.faces)[near]]
    normals = (np.asarray(mesh.face_normals)[near] @ axes)[:, (0, 2)]
    outwards = np.einsum("ij,ij->i", normals, _outwards(fit, corners.mean(axis=1)[:, (0, 2)]))
    chosen: Points = corners[outwards > RADIAL_COS if cone.kind == "shaft" else outwards < -RADIAL_COS]
    return chosen


def _outwards(fit: FitSurface, points: Points) -> Points:
    """The way out of the outline at each point (n, 2): how its distance grows."""
    assert fit.about is not None
    here = fit.about.distance(points)
    steps = [fit.about.distance(points + np.array(step)) - here for step in ((STEP_MM, 0.0), (0.0, STEP_MM))]
    return np.column_stack(steps) / STEP_MM


def _section(facets: Points, s_mm: float, fit: FitSurface, d_mm: float) -> Section | None:
    starts, ends = cut(facets, s_mm)
    outline = outline_at(fit, d_mm)
    astray = outline.distance((starts + ends) / 2.0)
    near = np.abs(astray) < WINDOW_MM
    if near.sum() < 3:
        return None
    starts, ends = starts[near], ends[near]
    astray = outline.distance(np.concatenate([starts, ends]))
    length = np.linalg.norm(ends - starts, axis=1)
    weight = np.tile(length, 2)
    mean = float((astray * weight).sum() / max(weight.sum(), 1e-12))
    coverage = min(1.0, float(length.sum()) / outline.perimeter_mm)
    return Section(s_mm, d_mm + 2.0 * mean, 0.0, 0.0, float(np.ptp(astray)), coverage)
