"""Parts built from YAML for the tests that look at the whole: one text in, spec, part, mesh and findings out."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

import numpy as np
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from fitwright import pipeline
from fitwright.begun import Begun
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Part
from fitwright.parts import BUILDERS
from fitwright.report.model import Result
from fitwright.spec.load import load_text
from fitwright.tessellation import Facets, body_facets

Points = NDArray[np.float64]


@cache
def spec_of(text: str) -> Any:
    """The one spec that the YAML describes."""
    (spec,) = load_text(text, "whole.yaml")
    return spec


@cache
def part_of(text: str) -> Part:
    """The part, built and not yet checked."""
    spec = spec_of(text)
    return BUILDERS[spec.part](spec)


@cache
def facets_of(text: str) -> dict[str, Facets]:
    """The triangles of each body."""
    return {body.name: body_facets(body) for body in part_of(text).bodies}


@cache
def meshes_of(text: str) -> Mapping[str, BodyMesh]:
    """The one mesh of each body."""
    return {body.name: mesh_body(body, facets_of(text)[body.name]) for body in part_of(text).bodies}


@cache
def result_of(text: str) -> Result:
    """What `fitwright check` answers, of the part that is built here once for all tests."""
    return pipeline.finish(Begun(spec_of(text), part_of(text), facets_of(text)))


def body_of(text: str) -> Body:
    """The one body of the part."""
    (body,) = part_of(text).bodies
    return body


def mesh_of(text: str) -> trimesh.Trimesh:
    """The one mesh of the part."""
    (mesh,) = meshes_of(text).values()
    return mesh.mesh


def findings(text: str, code: str, severity: str | None = None) -> list[Finding]:
    """All findings of a check, or those of one severity."""
    found = [f for f in result_of(text).findings if f.code == code]
    return [f for f in found if severity in (None, f.severity)]


def blocking(found: Any) -> set[str]:
    """The codes of what blocks."""
    return {f.code for f in found if f.blocks}


def fact(text: str, start: str) -> str:
    """The one line of the report whose heading begins so."""
    (words,) = (value for key, value in result_of(text).report.facts.items() if key.startswith(start))
    return words


def loops(text: str, away_mm: float) -> list[Points]:
    """The corners (right, up) [mm] of each closed loop of the finished mesh's section at `away_mm`."""
    return loops_of(mesh_of(text), away_mm)


def loops_of(mesh: trimesh.Trimesh, away_mm: float) -> list[Points]:
    """The same of any mesh."""
    cut = trimesh.intersections.mesh_plane(mesh, (0.0, 1.0, 0.0), (0.0, away_mm, 0.0))
    points = np.asarray(cut)[:, :, [0, 2]].reshape(-1, 2)
    corners, at = np.unique(np.round(points, 5), axis=0, return_inverse=True)
    ends = at.reshape(-1, 2)
    joined = coo_matrix((np.ones(len(ends)), (ends[:, 0], ends[:, 1])), shape=(len(corners),) * 2)
    count, loop = connected_components(joined, directed=False)
    return [corners[loop == k] for k in range(count)]


def circles(text: str, away_mm: float) -> list[tuple[float, float, float]]:
    """(right, up, diameter) [mm] of every loop of the section at `away_mm`, each taken for a circle."""
    boxes = [(loop.min(axis=0), loop.max(axis=0)) for loop in loops(text, away_mm)]
    return [(float(a[0] + b[0]) / 2, float(a[1] + b[1]) / 2, float(b[0] - a[0])) for a, b in boxes]


def bore_mm(text: str, away_mm: float, outside: bool = False) -> float:
    """Mean diameter [mm] of the innermost (or outermost) loop about end_a's axis in the section at `away_mm`."""
    radii = [float(np.hypot(loop[:, 0], loop[:, 1]).mean()) for loop in loops(text, away_mm)]
    return 2.0 * (max(radii) if outside else min(radii))
