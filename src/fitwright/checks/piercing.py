"""Does a closed mesh run through itself? Every edge is sent as a ray against all triangles that it does not touch.

Two triangles that cross have an edge of one going through the other, so the edges are enough. A closed, consistent
mesh that nowhere crosses itself encloses what it seems to enclose; a folded sweep or overlapping boxes do not, although
their volume, B-rep validity and watertightness look right (own trials; trimesh issues 122, 894, 1974).
"""

from __future__ import annotations

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.tolerances import TOLERANCES

Points = NDArray[np.float64]
Indices = NDArray[np.int64]


def pierced(mesh: trimesh.Trimesh) -> Points:
    """Points [mm] where an edge of the mesh goes through one of its triangles; none for a sound mesh."""
    edges = np.asarray(mesh.edges_unique, dtype=np.int64)
    start, end = mesh.vertices[edges[:, 0]], mesh.vertices[edges[:, 1]]
    length = np.linalg.norm(end - start, axis=1)
    skip = ray_start_mm(mesh)
    long = length > 4.0 * skip
    edges, start, end, length = edges[long], start[long], end[long], length[long]
    along = (end - start) / length[:, None]
    hit = np.asarray(mesh.ray.intersects_first(start + along * skip, along), dtype=np.int64)
    found = np.flatnonzero(hit >= 0)
    found = found[~_touches(mesh.faces[hit[found]], edges[found])]
    return _crossings(mesh, hit[found], start[found], along[found], length[found], skip)


def ray_start_mm(mesh: trimesh.Trimesh) -> float:
    """How far inside the surface a ray starts: rays are traced in single precision, so large parts need more."""
    return max(TOLERANCES.ray_start_mm, 2e-6 * float(mesh.scale))


def _touches(triangles: Indices, edges: Indices) -> NDArray[np.bool_]:
    """Whether each triangle shares a vertex with its edge."""
    shared: NDArray[np.bool_] = (triangles[:, :, None] == edges[:, None, :]).any(axis=(1, 2))
    return shared


def _crossings(
    mesh: trimesh.Trimesh, hit: Indices, start: Points, along: Points, length: NDArray[np.float64], skip: float
) -> Points:
    """Points where the rays meet their triangle's plane well inside the edge, in double precision."""
    normal = mesh.face_normals[hit]
    slope = np.einsum("ij,ij->i", normal, along)
    steep = np.abs(slope) > 1e-6
    corner = mesh.triangles[hit][:, 0]
    height = np.einsum("ij,ij->i", normal, corner - start)
    at = np.divide(height, slope, out=np.full_like(height, -1.0), where=steep)
    # facets of a bore and of a hole through it may cross by the chord error beside their common edge: that is no fold
    slack = max(skip, 2 * TOLERANCES.mesh_chord_mm)
    deep = np.abs(slope) * np.minimum(at, length - at) > TOLERANCES.mesh_chord_mm / 2
    inside = steep & deep & (at > slack) & (at < length - slack)
    crossings: Points = start[inside] + along[inside] * at[inside, None]
    return crossings
