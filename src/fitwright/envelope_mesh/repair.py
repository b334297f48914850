"""Mending a broken mesh, where that was asked: each step does one thing, and says how often it did it."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from fitwright.envelope_mesh.edges import closed, edges, groups
from fitwright.envelope_mesh.holes import CRACK_MM, Filled, filled
from fitwright.envelope_mesh.pieces import holders, pieces
from fitwright.envelope_mesh.soundness import in_turn
from fitwright.envelope_mesh.triangles import Indices, Triangles

NEAR_MM = 0.01
"""Corners on rims that are closer than this are joined: half of what gaps are good to."""


@dataclass(frozen=True)
class Mended:
    """What was done to a mesh; volumes in mm3 (that of an open mesh is only about right)."""

    joined: int = 0
    dropped: int = 0
    flipped: int = 0
    turned: int = 0
    filled: Filled = field(default_factory=Filled)
    before_mm3: float = 0.0
    after_mm3: float = 0.0

    @property
    def done(self) -> bool:
        """False where nothing was needed."""
        return bool(self.told_steps())

    def told_steps(self) -> list[str]:
        """Each thing that was done, in words."""
        holes = self.filled
        steps = [
            (self.joined, f"joined {self.joined} corners closer than {NEAR_MM:g} mm"),
            (self.dropped, f"dropped {self.dropped} double or flattened triangles"),
            (self.flipped, f"turned {self.flipped} triangles to face as their neighbours do"),
            (holes.cracks, f"closed {holes.cracks} cracks no wider than {CRACK_MM:g} mm"),
            (holes.holes, f"filled {holes.holes} holes, the largest {holes.largest_mm:.2f} mm across"),
            (self.turned, f"turned {self.turned} pieces right side out"),
        ]
        return [text for count, text in steps if count]

    def told(self) -> str:
        """All of it in one line."""
        steps = ", ".join(self.told_steps()) or "nothing could be mended"
        return f"{steps}; volume {self.before_mm3:.6g} -> {self.after_mm3:.6g} mm3"


def mended(mesh: Triangles) -> tuple[Triangles, Mended]:
    """The mesh with what can be mended mended: whether it is sound now is for the caller to judge."""
    before = float(mesh.volumes().sum())
    count = len(mesh.faces)
    mesh, joined = _near_joined(mesh)
    mesh = _without_doubles(mesh)
    dropped = count - len(mesh.faces)
    mesh, flipped = _one_way(mesh)
    mesh, patches = filled(mesh)
    mesh, turned = _right_side_out(mesh)
    return mesh, Mended(joined, dropped, flipped, turned, patches, before, float(mesh.volumes().sum()))


def _near_joined(mesh: Triangles) -> tuple[Triangles, int]:
    """Corners on rims that are all but one; what is closed is not touched."""
    found = edges(mesh)
    rim = np.unique(found.ends[found.open])
    if len(rim) == 0:
        return mesh, 0
    pairs = cKDTree(mesh.vertices[rim]).query_pairs(NEAR_MM, output_type="ndarray")
    _, label = groups(pairs.astype(np.int64), len(rim))
    _, first, number = np.unique(label, return_index=True, return_inverse=True)
    into = np.arange(len(mesh.vertices))
    into[rim] = rim[first[number]]
    faces = into[mesh.faces]
    whole = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return Triangles(mesh.vertices, faces[whole]), len(rim) - len(first)


def _without_doubles(mesh: Triangles) -> Triangles:
    """One triangle for each three corners; two that face each other stay where they are part of a closed sheet."""
    _, first = np.unique(in_turn(mesh), axis=0, return_index=True)
    faces = mesh.faces[np.sort(first)]
    while True:
        found = edges(Triangles(mesh.vertices, faces))
        even = ((found.count % 2 == 0) & (found.surplus == 0))[found.of_side].reshape(-1, 3).all(axis=1)
        _, first, number = np.unique(np.sort(faces, axis=1), axis=0, return_index=True, return_inverse=True)
        keep = even | (np.arange(len(faces)) == first[number.reshape(-1)])
        if keep.all():
            return Triangles(mesh.vertices, faces)
        faces = faces[keep]


def _one_way(mesh: Triangles) -> tuple[Triangles, int]:
    """Triangles turned so that neighbours agree, as few as will do; a strip with a half twist stays as it is.

    Every triangle is looked at twice, as it is and turned; what hangs together then is one way of facing.
    """
    m = len(mesh.faces)
    one, other, agree = _neighbours(mesh)
    same = np.concatenate([np.column_stack([one, other]), np.column_stack([one + m, other + m])])[np.tile(agree, 2)]
    cross = np.concatenate([np.column_stack([one, other + m]), np.column_stack([one + m, other])])[np.tile(~agree, 2)]
    count, label = groups(np.concatenate([same, cross]), 2 * m)
    upright = np.bincount(label[:m], minlength=count)
    mirror = np.zeros(count, dtype=np.int64)
    mirror[label[:m]] = label[m:]
    mirror[label[m:]] = label[:m]
    number = np.arange(count)
    better = upright[mirror] > upright
    turn = (better | ((upright[mirror] == upright) & (mirror < number)))[label[:m]]
    faces = np.where(turn[:, None], mesh.faces[:, ::-1], mesh.faces)
    return Triangles(mesh.vertices, faces), int(turn.sum())


def _neighbours(mesh: Triangles) -> tuple[Indices, Indices, NDArray[np.bool_]]:
    """Pairs of triangles that share an edge with no third, and whether the two face the same way there."""
    found = edges(mesh)
    side = np.flatnonzero(found.count[found.of_side] == 2)
    side = side[np.argsort(found.of_side[side], kind="stable")]
    left, right = side[0::2], side[1::2]
    return left // 3, right // 3, found.ahead[left] != found.ahead[right]


def _right_side_out(mesh: Triangles) -> tuple[Triangles, int]:
    """All turned round where the whole is inside out, then each piece that faces inwards and lies in no other."""
    if not closed(mesh):
        return mesh, 0
    found, turned = pieces(mesh), 0
    if found.volume_mm3.sum() < 0.0:
        mesh = Triangles(mesh.vertices, mesh.faces[:, ::-1])
        turned, found = len(found.volume_mm3), pieces(mesh)
    lone = [int(k) for k in found.hollow if not holders(mesh, found, int(k), found.solid)]
    flip = np.isin(found.of_face, lone)
    return Triangles(mesh.vertices, np.where(flip[:, None], mesh.faces[:, ::-1], mesh.faces)), turned + len(lone)
