"""All the room that a solid passes through on a straight way, as one exact solid.

A point that the moving solid passes lies in it where it starts, or in the prism that one of the faces that look ahead
sweeps. So the room is the solid and one prism for each patch of such faces: no positions on the way, nothing slips
between them. Its facets stray from the true surface no further than the solid's own.
"""

from __future__ import annotations

import manifold3d
import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from fitwright.errors import BuildError
from fitwright.frame import Vec

Points = NDArray[np.float64]
Faces = NDArray[np.int64]

FLAT_MM2 = 1e-9
"""A facet with a smaller shadow sweeps nothing to speak of."""
SAME_REL = 1e-6
"""The shadow of a patch against the sum of its facets' shadows: less means that the patch covers itself."""


def swept(solid: manifold3d.Manifold, by: Vec) -> manifold3d.Manifold:
    """The room that `solid` passes through when it moves by `by` [mm]; BuildError where that cannot be made.

    Its volume is that of the solid and, where no part of it shadows another, the way times its shadow.
    """
    way = np.asarray(by, dtype=np.float64)
    if not np.any(way):
        return solid
    mesh = solid.to_mesh64()
    points = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    faces = np.asarray(mesh.tri_verts, dtype=np.int64)
    prisms = [prism for patch in _patches(points, faces, way) for prism in _prisms(points, patch, way)]
    whole = manifold3d.Manifold.batch_boolean([solid, *prisms], manifold3d.OpType.Add)
    if whole.status() != manifold3d.Error.NoError or whole.volume() < solid.volume():
        raise BuildError(f"not checked: the way of what moves gave no solid ({whole.status().name})")
    return whole


def _shadows(points: Points, faces: Faces, way: Points) -> Points:
    """Area of each facet as seen along the way [mm2], positive where it looks ahead."""
    a, b, c = (points[faces[:, k]] for k in range(3))
    shadow: Points = np.cross(b - a, c - a) @ (way / np.linalg.norm(way)) / 2.0
    return shadow


def _patches(points: Points, faces: Faces, way: Points) -> list[Faces]:
    """The facets that look ahead, in groups that hang together by their edges."""
    ahead = faces[_shadows(points, faces, way) > FLAT_MM2]
    if len(ahead) == 0:
        return []
    edges = np.sort(np.concatenate([ahead[:, [0, 1]], ahead[:, [1, 2]], ahead[:, [2, 0]]]), axis=1)
    owner = np.tile(np.arange(len(ahead)), 3)
    _, which = np.unique(edges, axis=0, return_inverse=True)
    order = np.argsort(which.ravel(), kind="stable")
    same = which.ravel()[order][1:] == which.ravel()[order][:-1]
    one, other = owner[order][:-1][same], owner[order][1:][same]
    graph = coo_matrix((np.ones(len(one)), (one, other)), shape=(len(ahead), len(ahead)))
    count, label = connected_components(graph, directed=False)
    return [ahead[label == number] for number in range(count)]


def _prisms(points: Points, patch: Faces, way: Points) -> list[manifold3d.Manifold]:
    """The prism of a patch; one a facet where the patch covers itself or meets itself in a corner."""
    if len(patch) == 1 or _covers_itself(points, patch, way):
        return [_prism(points, patch[k : k + 1], way) for k in range(len(patch))]
    whole = _prism(points, patch, way)
    if whole.status() == manifold3d.Error.NoError:
        return [whole]
    return [_prism(points, patch[k : k + 1], way) for k in range(len(patch))]


def _covers_itself(points: Points, patch: Faces, way: Points) -> bool:
    across, up = _square_to(way)
    flat = np.stack([points @ across, points @ up], axis=1)
    if _convex_or_flat(points, patch):
        return False
    shadow = manifold3d.CrossSection([flat[face] for face in patch], manifold3d.FillRule.Positive).area()
    return bool(shadow < (1.0 - SAME_REL) * float(_shadows(points, patch, way).sum()))


def _convex_or_flat(points: Points, patch: Faces) -> bool:
    """Quick: a patch in one plane covers nothing of itself."""
    a, b, c = (points[patch[:, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    normal /= np.linalg.norm(normal, axis=1)[:, None]
    return bool((normal @ normal[0] > 1.0 - 1e-12).all())


def _square_to(way: Points) -> tuple[Points, Points]:
    """Two directions square to the way, so that what looks ahead is seen counter-clockwise."""
    ahead = way / np.linalg.norm(way)
    other = np.eye(3)[int(np.argmin(np.abs(ahead)))]
    across = np.cross(other, ahead)
    across /= np.linalg.norm(across)
    return across, np.cross(ahead, across)


def _prism(points: Points, patch: Faces, way: Points) -> manifold3d.Manifold:
    used, low = np.unique(patch, return_inverse=True)
    low = low.reshape(patch.shape)
    high = low + len(used)
    a, b = np.concatenate([low[:, [0, 1]], low[:, [1, 2]], low[:, [2, 0]]]).T
    count = len(used)
    rim = ~np.isin(a * count + b, b * count + a)
    a, b = a[rim], b[rim]
    walls = np.concatenate([np.stack([a, b, b + count], axis=1), np.stack([a, b + count, a + count], axis=1)])
    corners = np.concatenate([points[used], points[used] + way])
    triangles = np.concatenate([low[:, ::-1], high, walls]).astype(np.uint64)
    return manifold3d.Manifold(manifold3d.Mesh64(vert_properties=corners, tri_verts=triangles))
