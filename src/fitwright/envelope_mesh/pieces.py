"""The separate pieces of a mesh: which are solid, which are cavities, and all of them as one solid."""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray

from fitwright.envelope_mesh.edges import groups
from fitwright.envelope_mesh.triangles import Indices, Points, Triangles
from fitwright.errors import BuildError


@dataclass(frozen=True)
class Pieces:
    """Pieces that share no corner: the piece of each triangle, and volume [mm3] and box of each piece."""

    of_face: Indices
    volume_mm3: Points
    low: Points
    high: Points

    @property
    def solid(self) -> Indices:
        """Those that face outwards."""
        return np.flatnonzero(self.volume_mm3 > 0.0)

    @property
    def hollow(self) -> Indices:
        """Those that face inwards: cavities, where another piece is round them."""
        return np.flatnonzero(self.volume_mm3 < 0.0)

    def overlap(self) -> bool:
        """True where the boxes of two solid pieces overlap, so that they may share room."""
        low, high = self.low[self.solid], self.high[self.solid]
        order = np.argsort(low[:, 0])
        low, high = low[order], high[order]
        for k in range(len(low) - 1):
            stop = int(np.searchsorted(low[:, 0], high[k, 0], side="right"))
            if ((low[k + 1 : stop] <= high[k]) & (high[k + 1 : stop] >= low[k])).all(axis=1).any():
                return True
        return False


def pieces(mesh: Triangles) -> Pieces:
    """The pieces of a mesh."""
    links = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]]])
    _, label = groups(links, len(mesh.vertices))
    _, of_face = np.unique(label[mesh.faces[:, 0]], return_inverse=True)
    volume = np.asarray(np.bincount(of_face, mesh.volumes()), dtype=np.float64)
    low, high = np.full((len(volume), 3), np.inf), np.full((len(volume), 3), -np.inf)
    if len(volume) == 1:
        low[0], high[0] = mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)
    else:
        corners = mesh.corners
        np.minimum.at(low, of_face, corners.min(axis=1))
        np.maximum.at(high, of_face, corners.max(axis=1))
    return Pieces(np.asarray(of_face, dtype=np.int64), volume, low, high)


def turns_round(mesh: Triangles, point: Points) -> int:
    """How many times a closed mesh goes round a point: 1 inside, 0 outside, -1 inside one turned inside out.

    The sum of the solid angles of its triangles, each by the formula of A. van Oosterom and J. Strackee, "The solid
    angle of a plane triangle", IEEE Trans. Biomed. Eng. 30 (1983) 125.
    """
    corners = mesh.corners - point
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    r, s, t = (np.linalg.norm(one, axis=1) for one in (a, b, c))
    top = np.einsum("nd,nd->n", a, np.cross(b, c))
    under = r * s * t + (a * b).sum(axis=1) * t + (b * c).sum(axis=1) * r + (c * a).sum(axis=1) * s
    return round(float(np.arctan2(top, under).sum()) / (2.0 * math.pi))


def holders(mesh: Triangles, found: Pieces, piece: int, among: Indices) -> list[int]:
    """Those of the pieces `among` that lie round `piece`, the smallest first."""
    boxed = (found.low[among] <= found.low[piece]) & (found.high[among] >= found.high[piece])
    candidates = [int(k) for k in among[boxed.all(axis=1)] if k != piece]
    if not candidates:
        return []
    point = mesh.vertices[mesh.faces[np.argmax(found.of_face == piece), 0]]
    inside = [k for k in candidates if turns_round(mesh.only(found.of_face == k), point) != 0]
    return sorted(inside, key=lambda k: abs(float(found.volume_mm3[k])))


def as_solid(mesh: Triangles) -> manifold3d.Manifold:
    """A sound mesh for booleans and least gaps.

    Raises
    ------
    BuildError
        The library does not take it: it would answer any question about distance with "far away".
    """
    corners = np.ascontiguousarray(mesh.vertices)
    made = manifold3d.Manifold(manifold3d.Mesh64(vert_properties=corners, tri_verts=mesh.faces.astype(np.uint64)))
    if made.status() != manifold3d.Error.NoError:
        raise BuildError(f"is not closed and consistent ({made.status().name})")
    if made.is_empty() or made.volume() <= 0.0:
        raise BuildError(f"encloses no volume ({made.volume():.3g} mm3)")
    return made


def joined(mesh: Triangles, found: Pieces) -> manifold3d.Manifold:
    """All pieces as one solid: what two of them share counts once, a cavity stays one in its own piece only."""
    cavities: dict[int, list[int]] = {}
    for hollow in found.hollow:
        cavities.setdefault(holders(mesh, found, int(hollow), found.solid)[0], []).append(int(hollow))
    each = [as_solid(mesh.only(np.isin(found.of_face, [k, *cavities.get(k, [])]))) for k in map(int, found.solid)]
    return each[0] if len(each) == 1 else manifold3d.Manifold.batch_boolean(each, manifold3d.OpType.Add)


def cavity(mesh: Triangles, found: Pieces, points: NDArray[np.float64]) -> tuple[manifold3d.Manifold, bool] | None:
    """The smallest cavity whose box meets that of `points` (n, 3) and that holds the first of them, as a solid.

    Second: whether another piece may stand in it.
    """
    low, high = points.min(axis=0), points.max(axis=0)
    for k in sorted(map(int, found.hollow), key=lambda k: -float(found.volume_mm3[k])):
        if (found.low[k] <= high).all() and (found.high[k] >= low).all():
            room = mesh.only(found.of_face == k)
            if turns_round(room, points[0]) != 0:
                within = (found.low[found.solid] >= found.low[k]) & (found.high[found.solid] <= found.high[k])
                return as_solid(Triangles(room.vertices, room.faces[:, ::-1])), bool(within.all(axis=1).any())
    return None
