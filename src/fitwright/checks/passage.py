"""Check `passage`: is the passage as wide all along as was meant, and nowhere narrower than its narrower end?

The finished mesh is cut square to the centreline at each declared station; the hole round the centreline is measured.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from weakref import WeakKeyDictionary

import numpy as np
import shapely
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Frame, Part, Station
from fitwright.place import words

Points = NDArray[np.float64]

CODE = "passage"
CHOKES = 0.98
"""Less than this share of the narrower end's area chokes the passage: more than rounding and chords take away."""
MEANT = 0.02
"""Share by which a section may differ from the one that was meant."""
SAME_MM = 1e-5
SEAM_MM = 0.05
"""Halves that stand no further apart than this close the passage between them."""
_MEASURED: WeakKeyDictionary[trimesh.Trimesh, dict[tuple[Station, int], float | None]] = WeakKeyDictionary()
"""Sections that were cut before, by their first mesh (a mesh that was changed since is another one)."""
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """One finding for the narrowest section; more where sections are not what was meant. None without stations."""
    if not part.stations:
        return []
    found = [(station, measured_mm2(meshes, station)) for station in part.stations]
    name = part.bodies[0].name
    wrong = [(s, a) for s, a in found if a is None or abs(a / s.area_mm2 - 1.0) > MEANT]
    findings = [_not_as_meant(name, s, a) for s, a in wrong[:3]]
    open_ones = [(s, a) for s, a in found if a is not None]
    if not open_ones:
        return findings
    station, area = min(open_ones, key=lambda pair: pair[1])
    return [*findings, _narrowest(name, station, area, part.narrower_end_mm2)]


def _narrowest(name: str, station: Station, area: float, end_mm2: float) -> Finding:
    share = area / end_mm2
    message = f"narrowest section {area:.0f} mm2, {100 * share:.0f} % of the narrower end's"
    place = words(station.frame.origin)
    if share < CHOKES:
        advice = "A longer part, or a larger section there; chips plug a narrow place."
        return Finding(CODE, "fail", name, area, end_mm2, "mm2", place, f"the passage chokes: {message}", advice)
    return Finding(CODE, "pass", name, area, end_mm2, "mm2", place, message)


def _not_as_meant(name: str, station: Station, area: float | None) -> Finding:
    place = words(station.frame.origin)
    if area is None:
        message = "the passage is not closed all round, or not there"
    else:
        message = f"the passage's section is {area:.0f} mm2 where {station.area_mm2:.0f} mm2 were meant"
    return Finding(CODE, "fail", name, area, station.area_mm2, "mm2", place, message, REBUILD)


def measured_mm2(meshes: Mapping[str, BodyMesh], station: Station) -> float | None:
    """`area_mm2` of all bodies, cut once for all checks."""
    first, *others = (body.mesh for body in meshes.values())
    known = _MEASURED.setdefault(first, {})
    key = station, hash(tuple(hash(mesh) for mesh in others))
    if key not in known:
        known[key] = area_mm2(meshes.values(), station)
    return known[key]


def area_mm2(meshes: Iterable[BodyMesh], station: Station) -> float | None:
    """Area [mm2] of the hole round a station's centre in the section of all bodies there; None where there is none.

    What stands free in the hole (a bridge cut across) takes from it.
    """
    material = [area for m in meshes for area in _material(m.mesh, station.frame)]
    whole = shapely.union_all(material).buffer(SEAM_MM, join_style="mitre").buffer(-SEAM_MM, join_style="mitre")
    centre = shapely.Point(0.0, 0.0)
    parts = whole.geoms if isinstance(whole, shapely.MultiPolygon) else [whole]
    holes = [shapely.Polygon(ring) for p in parts if isinstance(p, shapely.Polygon) for ring in p.interiors]
    return min((hole.difference(whole).area for hole in holes if hole.contains(centre)), default=None)


def _material(mesh: trimesh.Trimesh, frame: Frame) -> list[shapely.Polygon]:
    """What of a mesh lies in the plane square to a frame's axis, as polygons in its right and up."""
    loops = sorted((shapely.Polygon(loop) for loop in section_loops(mesh, frame)), key=lambda p: -p.area)
    filled = shapely.Polygon()
    for loop in loops:
        filled = filled.symmetric_difference(loop if loop.is_valid else loop.buffer(0.0))
    return [filled]


def section_loops(mesh: trimesh.Trimesh, frame: Frame) -> list[Points]:
    """The closed loops of a mesh's section, each as points in order."""
    segments = trimesh.intersections.mesh_plane(mesh, np.array(frame.inward), np.array(frame.origin))
    if len(segments) == 0:
        return []
    axes = np.column_stack([frame.right, frame.up])
    flat = (np.asarray(segments).reshape(-1, 3) - np.array(frame.origin)) @ axes
    at = _same(len(flat), cKDTree(flat).query_pairs(SAME_MM, output_type="ndarray"))
    corners, ends = np.zeros((at.max() + 1, 2)), at.reshape(-1, 2)
    corners[at] = flat
    ends = ends[ends[:, 0] != ends[:, 1]]
    of = _same(len(corners), ends)
    count = int(of.max()) + 1
    return [corners[order] for k in range(count) if len(order := _walk(ends[of[ends[:, 0]] == k])) > 2]


def _same(number: int, pairs: NDArray[np.int64]) -> NDArray[np.int64]:
    """For each of `number` things the group that pairs (n, 2) join it to."""
    joined = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(number, number))
    return np.asarray(connected_components(joined, directed=False)[1], dtype=np.int64)


def _walk(ends: NDArray[np.int64]) -> list[int]:
    """The corners of one loop in the order in which its segments (n, 2) join them."""
    neighbours: dict[int, list[int]] = {}
    for a, b in ends.tolist():
        neighbours.setdefault(a, []).append(b)
        neighbours.setdefault(b, []).append(a)
    if not neighbours:
        return []
    first = next(iter(neighbours))
    order, before, here = [first], -1, first
    while True:
        onward = next((n for n in neighbours[here] if n != before), first)
        if onward == first or len(order) > len(neighbours):
            return order
        order.append(onward)
        before, here = here, onward
