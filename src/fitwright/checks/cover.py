"""Check `cover`: does the finished plate cover the hole that it is for, with the margin asked for, all round?

The finished mesh is cut just behind the mouth face; the outermost line of that section is what lies on the machine.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import trimesh
from numpy.typing import NDArray
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import polygonize, unary_union

from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Cover, Part
from fitwright.tolerances import TOLERANCES
from fitwright.units import format_number

CODE = "cover"
BEHIND_MM = 0.05
"""The section is taken this far behind the mouth face: nothing of a plate is thinner."""
CHORD_MM = 0.005
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """One finding for each plate that covers something, and one more where its opening reaches beyond that."""
    findings = []
    for body in part.bodies:
        finished = meshes.get(body.name)
        for cover in body.covers:
            findings += _judge(body, cover, finished.mesh if finished else None)
    return findings


def _judge(body: Body, cover: Cover, mesh: trimesh.Trimesh | None) -> list[Finding]:
    faces = _faces(mesh, cover) if mesh is not None else []
    if not faces:
        message = f"{cover.name}: not checked: the finished part has no face at its mouth"
        return [Finding(CODE, "fail", body.name, None, None, "mm", cover.key, message, REBUILD)]
    covered = Polygon(cover.outline.polyline(CHORD_MM))
    plate = max((Polygon(face.exterior) for face in faces), key=lambda p: p.area)
    overlap, place = least_overlap(plate, covered)
    found = [_finding(body, cover, overlap, place)]
    opening = next(
        (Polygon(hole) for face in faces for hole in face.interiors if Polygon(hole).covers(Point(0, 0))), None
    )
    if opening is not None and not covered.buffer(TOLERANCES.fit_mm).contains(opening):
        beyond = float(max(covered.distance(Point(p)) for p in opening.exterior.coords))
        message = (
            f"{cover.name}: its opening reaches {format_number(beyond, 2)} mm beyond the hole that it covers: the air "
            "meets a step there, and only the rest of the rim seals"
        )
        found.append(Finding(CODE, "pass", body.name, beyond, None, "mm", cover.key, message))
    return found


def least_overlap(plate: Polygon, covered: Polygon) -> tuple[float, tuple[float, float]]:
    """By how much the plate reaches beyond what is covered where it does so least [mm], and where; negative: short."""
    if plate.contains(covered):
        rim = plate.exterior
        nearest = min(covered.exterior.coords, key=lambda p: rim.distance(Point(p)))
        corner = min(rim.coords, key=lambda p: covered.distance(Point(p)))
        place = nearest if rim.distance(Point(nearest)) <= covered.distance(Point(corner)) else corner
        return float(rim.distance(covered.exterior)), (float(place[0]), float(place[1]))
    bare = [p for p in covered.exterior.segmentize(0.5).coords if not plate.contains(Point(p))]
    worst = max(bare, key=lambda p: plate.distance(Point(p)), default=covered.exterior.coords[0])
    short = max(plate.distance(Point(worst)), covered.difference(plate).area / max(covered.length, 1e-9))
    return -float(short), (float(worst[0]), float(worst[1]))


def _finding(body: Body, cover: Cover, overlap: float, place: tuple[float, float]) -> Finding:
    limit, (right, up) = cover.margin_mm, place
    where = f"at right {format_number(right, 1)} mm, up {format_number(up, 1)} mm"
    if overlap < limit - TOLERANCES.fit_mm:
        how = f"overlaps the hole by {overlap:.2f} mm" if overlap >= 0 else f"leaves {-overlap:.2f} mm of the hole open"
        message = f"{cover.name} {how} {where}, {limit:.2f} mm asked"
        return Finding(CODE, "fail", body.name, overlap, limit, "mm", cover.key, message, REBUILD)
    message = f"{cover.name} overlaps the hole by {overlap:.2f} mm or more all round, {limit:.2f} mm asked"
    return Finding(CODE, "pass", body.name, overlap, limit, "mm", cover.key, message)


def _faces(mesh: trimesh.Trimesh, cover: Cover) -> list[Polygon]:
    """The section just behind the mouth face as polygons with holes, in (right, up) about the axis."""
    frame = cover.frame
    at = np.array(frame.point(0.0, BEHIND_MM, 0.0))
    segments = np.asarray(trimesh.intersections.mesh_plane(mesh, np.array(frame.inward), at))
    if not len(segments):
        return []
    axes = np.array([frame.right, frame.up]).T
    flat: NDArray[np.float64] = np.round((segments - at) @ axes, 6)
    lines = unary_union([LineString(pair) for pair in flat if not np.array_equal(pair[0], pair[1])])
    rings = [Polygon(p.exterior) for p in polygonize(lines)]
    return _with_holes(rings)


def _with_holes(rings: list[Polygon]) -> list[Polygon]:
    """Rings sorted into outsides and the holes in them, by how many others each lies in."""
    depth = [
        sum(other.contains(ring.representative_point()) for other in rings if other.area > ring.area) for ring in rings
    ]
    faces = []
    for ring, level in zip(rings, depth, strict=True):
        if level % 2:
            continue
        inside = [r for r, k in zip(rings, depth, strict=True) if k == level + 1 and ring.contains(r)]
        faces.append(Polygon(ring.exterior, [r.exterior for r in inside]))
    return faces
