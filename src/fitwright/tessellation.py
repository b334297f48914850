"""Shape -> triangles, by numpy and the kernel alone: the picture is drawn from them while heavier libraries load.

The kernel keeps a triangulation on the shape it meshed and hands it out again whatever deflection is asked for later
(CadQuery issue 1432), and its bounding box then grows (CadQuery issue 798). So we mesh a copy and throw the copy away.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Compound
from OCP.TopTools import TopTools_IndexedMapOfShape

from fitwright.cut_faces import mended
from fitwright.edge_points import divided
from fitwright.errors import BuildError
from fitwright.place import words
from fitwright.rims import Deflection, Rim, round_rim
from fitwright.round_faces import RoundFace, round_face, triangles
from fitwright.ruled_faces import RuledFace, ruled_face, strip
from fitwright.settled import settled
from fitwright.tolerances import TOLERANCES
from fitwright.turned_faces import TurnedFace, rows, steps, turned_faces

if TYPE_CHECKING:
    from cadquery import Shape

    from fitwright.part import Body

Points = NDArray[np.float64]
Indices = NDArray[np.int64]


@dataclass(frozen=True)
class Facets:
    """Corners (n, 3) [mm] and triangles (m, 3) that count them; the triangles face out of the material."""

    vertices: Points
    faces: Indices


def body_facets(body: Body) -> Facets:
    """The triangles of a body, with the one deflection that all checks and files share.

    Raises
    ------
    BuildError
        A face has no triangles, or there are more than TOLERANCES.max_triangles.
    """
    fine, bend = TOLERANCES.mesh_chord_mm, TOLERANCES.bend_chord_mm
    return facets(body.solid, fine, TOLERANCES.mesh_angle_rad, bend)


def facets(shape: Shape, chord_mm: float, angle_rad: float, bend_mm: float | None = None) -> Facets:
    """Mesh any shape within `chord_mm` of its true surface and `angle_rad` between neighbouring facets of a curve.

    Along bends `bend_mm` is allowed in its place, where given. Vertices closer than TOLERANCES.weld_mm are one; facets
    point out of the material where the shape is sound. The same shape gives the same bytes.

    Raises
    ------
    BuildError
        As for `body_facets`.
    """
    faces = [face.wrapped for face in settled(shape).Faces()]
    known = [round_face(face) or ruled_face(face) for face in faces]
    rounds = [found for found in known if found]
    rest = [face for face, found in zip(faces, known, strict=True) if not found]
    bent = turned_faces(rest, [found.face for found in rounds])
    others = [face for number, face in enumerate(rest) if number not in bent]
    _meshed_flat(others, chord_mm, angle_rad)
    pieces = [_pull(*found, chord_mm) for found in _triangulations(others)]
    pieces += _rounds(rounds, list(bent.values()), others, Deflection(chord_mm, bend_mm or chord_mm, angle_rad))
    if not pieces:
        return Facets(np.empty((0, 3)), np.empty((0, 3), dtype=np.int64))
    _refuse_flood(sum(len(own) for _, own in pieces))
    first = np.cumsum([0, *(len(points) for points, _ in pieces)])
    corners = np.concatenate([points for points, _ in pieces])
    picks = np.concatenate([own + start for (_, own), start in zip(pieces, first[:-1], strict=True)])
    return Facets(*_weld(corners, picks))


def _meshed_flat(faces: list[Any], chord_mm: float, angle_rad: float) -> None:
    """Let the kernel mesh some faces of a shape, all at once so that they agree along their edges."""
    if not faces:
        return
    compound, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(compound)
    for face in faces:
        builder.Add(compound, face)
    BRepMesh_IncrementalMesh(compound, chord_mm, False, angle_rad, True)


def _rounds(
    rounds: list[RoundFace | RuledFace],
    bent: list[tuple[TurnedFace, int]],
    others: list[Any],
    deflection: Deflection,
) -> Iterator[tuple[Points, Indices]]:
    """Corners and triangles of the faces that are laid in rows, their edges divided as the neighbours' are."""
    edges, neighbours = TopTools_IndexedMapOfShape(), {}
    for face in others:
        explorer = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
        while explorer.More():
            neighbours[edges.Add(explorer.Current())] = face
            explorer.Next()
    known: dict[int, tuple[Points, Points]] = {}

    def points(edge: Any) -> tuple[Points, Points]:
        number = edges.Add(edge)
        if number not in known:
            known[number] = divided(edge, deflection, neighbours.get(number))
        return known[number]

    def rim(found: Rim) -> Points:
        return round_rim(found, [points(edge)[0] for edge in found.edges])

    for face in rounds:
        if isinstance(face, RuledFace):
            yield strip(face, points)
        else:
            yield triangles(face, (rim(face.rims[0]), rim(face.rims[1])), deflection)
    for turned, bend in bent:
        yield rows(turned, steps([f for f, b in bent if b == bend], deflection), points)


def _triangulations(faces: list[Any]) -> list[tuple[Any, Any, TopLoc_Location]]:
    """Each face with its triangulation and where that lies; refuses gaps and floods before a point is read."""
    found = []
    for face in faces:
        location = TopLoc_Location()
        triangulation = BRep_Tool.Triangulation_s(face, location)
        if triangulation is None:
            surface = BRepAdaptor_Surface(face)
            u, v = surface.FirstUParameter(), surface.FirstVParameter()
            raise BuildError(f"a face at {words(surface.Value(u, v).Coord())} could not be meshed")
        found.append((face, triangulation, location))
    _refuse_flood(sum(triangulation.NbTriangles() for _, triangulation, _ in found))
    return found


def _refuse_flood(total: int) -> None:
    if total > TOLERANCES.max_triangles:
        raise BuildError(f"the mesh has {total} triangles, more than {TOLERANCES.max_triangles}")


def _pull(face: Any, triangulation: Any, location: TopLoc_Location, chord_mm: float) -> tuple[Points, Indices]:
    """Corner points and triangles (counted from 0) of one face, facing out of the material."""
    nodes = map(triangulation.Node, range(1, triangulation.NbNodes() + 1))
    points = np.array([p.Coord() for p in nodes], dtype=np.float64)
    if not location.IsIdentity():
        move = location.Transformation()
        matrix = np.array([[move.Value(i, j) for j in (1, 2, 3, 4)] for i in (1, 2, 3)])
        points = points @ matrix[:, :3].T + matrix[:, 3]
    picks = map(triangulation.Triangle, range(1, triangulation.NbTriangles() + 1))
    found = np.array([t.Get() for t in picks], dtype=np.int64) - 1
    points, found = mended(face, triangulation, points, found, chord_mm)
    return points, found[:, ::-1] if face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED else found


def _weld(points: Points, faces: Indices) -> tuple[Points, Indices]:
    """Join points within TOLERANCES.weld_mm and drop triangles that collapse."""
    group = _joined_to(points)
    kept, number = np.unique(group, return_inverse=True)
    joined = number[faces]
    whole = (joined[:, 0] != joined[:, 1]) & (joined[:, 1] != joined[:, 2]) & (joined[:, 2] != joined[:, 0])
    return points[kept], joined[whole]


def _joined_to(points: Points) -> Indices:
    """For each point the first one that it is joined to, over others if need be.

    One grid of cells would part some neighbours; of eight grids, half a cell apart each way, one holds any two points
    that are closer than half a cell in the same cell.
    """
    cell = 2.0 * TOLERANCES.weld_mm
    near, far = [], []
    for shift in itertools.product((0.0, 0.5), repeat=3):
        place = np.floor(points / cell + np.array(shift)).astype(np.int64)
        order = np.lexsort(place.T)
        begins = np.ones(len(order), dtype=np.bool_)
        begins[1:] = (np.diff(place[order], axis=0) != 0).any(axis=1)
        first = order[np.maximum.accumulate(np.where(begins, np.arange(len(order)), 0))]
        close = np.linalg.norm(points[order] - points[first], axis=1) <= TOLERANCES.weld_mm
        near.append(first[close & ~begins])
        far.append(order[close & ~begins])
    one, other = np.concatenate(near), np.concatenate(far)
    joined = np.arange(len(points))
    while (joined[one] != joined[other]).any():
        least = np.minimum(joined[one], joined[other])
        np.minimum.at(joined, one, least)
        np.minimum.at(joined, other, least)
    return joined
