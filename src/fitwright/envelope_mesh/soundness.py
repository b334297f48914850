"""What is wrong with a mesh, in words with counts and places; nothing is changed."""

from __future__ import annotations

import numpy as np

from fitwright.envelope_mesh.edges import Edges, closed, edges, gapes
from fitwright.envelope_mesh.pieces import Pieces, holders
from fitwright.envelope_mesh.triangles import Indices, Points, Triangles

NOTHING_MM3 = 1e-6
"""Less than this is rounding."""
NAMED = 3
"""So many places are named; more are counted."""


def open_or_against(mesh: Triangles) -> str:
    """What keeps a mesh from being closed and facing one way; empty where nothing does."""
    if closed(mesh):
        return ""
    found = edges(mesh)
    told = [text for text in (_open(mesh, found), _against(mesh, found)) if text]
    double = doubles(mesh)
    if double:
        told.append(f"{double} triangles lie twice on one spot")
    return "; ".join(told)


def _open(mesh: Triangles, found: Edges) -> str:
    count = int(found.open.sum())
    if count == 0:
        return ""
    rims = gapes(mesh, found)
    shown = zip(rims.middle[:NAMED], rims.across_mm[:NAMED], strict=True)
    each = [f"{across:.3g} mm across at {spot(middle)} of the file" for middle, across in shown]
    more = f", and {len(rims.across_mm) - NAMED} smaller ones" if len(rims.across_mm) > NAMED else ""
    crowded = int((found.count[found.open] > 2).sum())
    crowd = f", {crowded} of them where more than two triangles meet" if crowded else ""
    rim = "hole or gap" if len(rims.across_mm) == 1 else f"{len(rims.across_mm)} holes or gaps, the largest first"
    return f"is not closed: {count} edges lack a triangle on one side{crowd}; {rim}: {', '.join(each)}{more}"


def _against(mesh: Triangles, found: Edges) -> str:
    count = int(found.against.sum())
    if count == 0:
        return ""
    first = mesh.vertices[found.ends[np.argmax(found.against)]].mean(axis=0)
    return f"has triangles that face different ways: along {count} edges, the first at {spot(first)} of the file"


def doubles(mesh: Triangles) -> int:
    """How many triangles have the same three corners, in the same order, as an earlier one."""
    return len(mesh.faces) - len(np.unique(in_turn(mesh), axis=0))


def in_turn(mesh: Triangles) -> Indices:
    """The triangles, each from its least corner on, round the same way."""
    least = np.argmin(mesh.faces, axis=1)[:, None]
    return np.asarray(np.take_along_axis(mesh.faces, (least + np.arange(3)) % 3, axis=1))


def inside_out(mesh: Triangles, found: Pieces) -> str:
    """What is wrong with the volume that a closed mesh encloses; empty where nothing is."""
    volume = float(found.volume_mm3.sum())
    if abs(volume) <= NOTHING_MM3:
        return "encloses no volume: its triangles lie in one plane or cancel each other"
    if volume < 0.0:
        return f"is inside out: its triangles face inwards (volume {volume:.6g} mm3)"
    lone = [int(k) for k in found.hollow if not holders(mesh, found, int(k), found.solid)]
    if lone:
        middle = (found.low[lone[0]] + found.high[lone[0]]) / 2.0
        many = "a piece that is" if len(lone) == 1 else f"{len(lone)} pieces that are"
        return f"has {many} inside out and lies inside no other: the first round {spot(middle)} of the file"
    return ""


def spot(point: Points) -> str:
    """A place in the file's own coordinates, told in mm."""
    return "x {:.1f} mm, y {:.1f} mm, z {:.1f} mm".format(*(round(float(c), 1) + 0.0 for c in point))
