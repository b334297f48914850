"""A flat piece as it was built, laid beside its drawing: the mesh's lines at half its thickness, faces, volume."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
import trimesh
from numpy.typing import NDArray

from fitwright.checks.flat_lines import CHORD_MM
from fitwright.drawing.dxf_read import Loop
from fitwright.errors import BuildError
from fitwright.mesh import BodyMesh
from fitwright.outline import Point
from fitwright.part import Body, Frame

_SAME_MM = 1e-6


@dataclass(frozen=True)
class Strayed:
    """How far a line of the drawing lies from the mesh's [mm]: its middle, and its worst place."""

    name: str
    middle_mm: float
    line_mm: float
    at: Point


@dataclass(frozen=True)
class Built:
    """The finished piece in numbers: thickness from first to last point, areas by three ways [mm2]."""

    thickness_mm: float
    front_mm: float
    by_volume_mm2: float
    by_mesh_mm2: float
    by_faces_mm2: tuple[float, ...]


def strayed(mesh: BodyMesh, frame: Frame, thickness_mm: float, loops: Sequence[Loop]) -> list[Strayed]:
    """Each line of the drawing against the nearest one of the mesh.

    Raises
    ------
    BuildError
        The mesh has more or fewer lines than the drawing at half its thickness.
    """
    rings = section(mesh.mesh, frame, thickness_mm / 2)
    if len(rings) != len(loops):
        raise BuildError(f"the finished piece has {len(rings)} closed lines, the drawing {len(loops)}")
    drawn = [shapely.LinearRing(loop.line.polyline(CHORD_MM)) for loop in loops]
    apart = np.array([[_apart(line, ring) for ring in rings] for line in drawn])
    found = []
    for number, (loop, line) in enumerate(zip(loops, drawn, strict=True)):
        ring = rings[int(np.argmin(apart[number]))]
        middle = shapely.Polygon(line).centroid
        off = float(middle.distance(shapely.Polygon(ring).centroid))
        found.append(Strayed(loop.name, off, float(shapely.hausdorff_distance(line, ring)), (middle.x, middle.y)))
    return found


def _apart(line: shapely.LinearRing, ring: shapely.LinearRing) -> float:
    """How unlike two lines are, quickly: the greatest difference between the four sides of their boxes."""
    return max(float(abs(a - b)) for a, b in zip(line.bounds, ring.bounds, strict=True))


def section(mesh: trimesh.Trimesh, frame: Frame, deep_mm: float) -> list[shapely.LinearRing]:
    """The closed lines (right, up) [mm] in which a plane `deep_mm` behind the front cuts the mesh."""
    found = trimesh.intersections.mesh_plane(mesh, np.array(frame.inward), np.array(frame.point(0.0, deep_mm, 0.0)))
    ends = np.asarray(found, dtype=np.float64) - np.array(frame.origin)
    flat = np.stack([ends @ np.array(frame.right), ends @ np.array(frame.up)], axis=-1)
    merged = shapely.line_merge(shapely.multilinestrings(list(shapely.linestrings(np.round(flat, 6)))))
    lines = [line for line in getattr(merged, "geoms", [merged]) if len(line.coords) > 3]
    return [shapely.LinearRing(line) for line in lines if line.is_closed]


def built(body: Body, mesh: BodyMesh, frame: Frame) -> Built:
    """Measure thickness and areas on the mesh and on the exact solid."""
    deep = (np.asarray(mesh.mesh.vertices) - np.array(frame.origin)) @ np.array(frame.inward)
    front, thickness = float(deep.min()), float(np.ptp(deep))
    if thickness <= _SAME_MM:
        raise BuildError("the piece has no thickness along its own normal")
    faces = _face_areas(body, frame)
    ends = (faces.get(0.0, 0.0), faces.get(round(thickness, 3), 0.0))
    volume = float(mesh.mesh.volume)
    return Built(thickness, front, mesh.brep_volume_mm3 / thickness, volume / thickness, ends)


def _face_areas(body: Body, frame: Frame) -> Mapping[float, float]:
    """Depth behind the front [mm] -> area of the flat faces there [mm2]."""
    inward, origin = np.array(frame.inward), np.array(frame.origin)
    found: dict[float, float] = {}
    for face in body.solid.Faces():
        if face.geomType() != "PLANE":
            continue
        if abs(float(_vector(face.normalAt()) @ inward)) < math.cos(1e-6):
            continue
        depth = round(float((_vector(face.Center()) - origin) @ inward), 3) + 0.0
        found[depth] = found.get(depth, 0.0) + float(face.Area())
    return found


def _vector(of: Any) -> NDArray[np.float64]:
    return np.array(of.toTuple(), dtype=np.float64)
