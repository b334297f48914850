"""Check `halves`: do two halves add up to the part that was parted, and do they go together as meant?

Measured on the finished meshes of both, as they stand beside each other in part coordinates.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np
import shapely
import trimesh
from numpy.typing import NDArray

from fitwright.checks.rounds import Cone, sections
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, to_manifold
from fitwright.part import Frame, HoleFit, Pair, Part, Seam, Vec
from fitwright.place import words

Points = NDArray[np.float64]

CODE = "halves"
VOLUME_REL = 1e-3
"""Facets of bends and bores against exact volumes; a lip is some percent of a part."""
COMMON_MM3 = 1e-3
FACE_MM = 1e-3
"""Mating faces are flat in one plane to this."""
AREA_REL = 2e-3
COAXIAL_MM = GAP_MM = 0.05
FLAT_COS = 0.9999
NEAR_MM = 0.5
"""A face within this of the plane is meant to lie in it."""
LAP_AT = 0.1
"""Where along a lap its gap is measured: before the ribs begin."""
DEPTHS = (0.3, 0.5, 0.7)
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """All that is wrong with each seam, or one pass finding for it; nothing for a part in one piece."""
    findings = []
    for seam in part.seams:
        both = [meshes.get(name) for name in seam.bodies]
        if any(mesh is None or len(mesh.mesh.faces) == 0 for mesh in both):
            findings.append(_fail("not checked: a half has no mesh"))
            continue
        first, second = (mesh.mesh for mesh in both if mesh is not None)
        try:
            found = list(_faults(part, seam, first, second))
        except BuildError as error:
            found = [_fail(str(error))]
        findings += found or [_pass(seam)]
    return findings


def _faults(part: Part, seam: Seam, first: trimesh.Trimesh, second: trimesh.Trimesh) -> Iterator[Finding]:
    yield from _volumes(seam, first, second)
    yield from _faces(seam, first, second)
    for pair in seam.pairs:
        yield from _pair(seam, pair, first, second)
    if seam.lap_mm:
        yield from _lap(seam, first, second)
    names = {pair.name for pair in seam.pairs}
    holes = {hole.name: hole for body in part.bodies for hole in body.holes if hole.name not in names}
    for hole in holes.values():
        yield from _hole(seam, hole)


def _volumes(seam: Seam, first: trimesh.Trimesh, second: trimesh.Trimesh) -> Iterator[Finding]:
    """Together they have the whole's volume and what was added for the joint, and they share none."""
    one, other = to_manifold(first), to_manifold(second)
    meant, found = seam.whole_mm3 + seam.added_mm3, float(one.volume() + other.volume())
    if abs(found / meant - 1.0) > VOLUME_REL:
        message = f"the halves have {found:.0f} mm3 together where {meant:.0f} mm3 were meant"
        yield _fail(message, found, meant, "mm3")
    common = one ^ other
    if float(common.volume()) > COMMON_MM3:
        low = np.array(common.bounding_box())
        place = words((low[:3] + low[3:]) / 2)
        message = f"the halves take the same room: {float(common.volume()):.3g} mm3 in common"
        yield _fail(message, float(common.volume()), COMMON_MM3, "mm3", place)


def _faces(seam: Seam, first: trimesh.Trimesh, second: trimesh.Trimesh) -> Iterator[Finding]:
    """The mating faces lie in the plane, and on each other."""
    areas = []
    for mesh, side in ((first, 1.0), (second, -1.0)):
        area, off = _mating(mesh, seam.frame, side)
        areas.append(area)
        if off > FACE_MM:
            yield _fail(f"a mating face is {off:.3f} mm off the plane of the seam", off, FACE_MM, "mm")
    apart = sum(_area(p.second_d_mm, "hole") - _area(p.first_d_mm, p.first) for p in seam.pairs)
    lacking = abs(areas[0] - areas[1] - apart)
    if min(areas) <= 0.0 or (not seam.lap_mm and lacking > AREA_REL * max(areas)):
        message = f"the mating faces do not cover each other: {areas[0]:.0f} and {areas[1]:.0f} mm2"
        yield _fail(message, lacking, AREA_REL * max(areas), "mm2")


def _area(d_mm: float, kind: str) -> float:
    """What a round hole or a square peg takes from a mating face [mm2]."""
    return math.pi / 4 * d_mm**2 if kind == "hole" else d_mm**2 / 2


def _mating(mesh: trimesh.Trimesh, frame: Frame, side: float) -> tuple[float, float]:
    """Area of the facets that look across the seam, and how far off its plane they lie at most."""
    n = np.array(frame.inward)
    height = (np.asarray(mesh.triangles) - np.array(frame.origin)) @ n
    flat = np.asarray(mesh.face_normals) @ n * side > FLAT_COS
    chosen = flat & (np.abs(height) < NEAR_MM).all(axis=1)
    if not chosen.any():
        return 0.0, math.inf
    return float(np.asarray(mesh.area_faces)[chosen].sum()), float(np.abs(height[chosen]).max())


def _pair(seam: Seam, pair: Pair, first: trimesh.Trimesh, second: trimesh.Trimesh) -> Iterator[Finding]:
    """A bolt's two holes, or a peg and its hole: there, of their size, about one axis."""
    n = seam.frame.inward
    back: Vec = (-n[0], -n[1], -n[2])
    one = _peg(first, seam, pair) if pair.first == "peg" else _round(first, pair, back, seam, pair.first_d_mm)
    two = _round(second, pair, n, seam, pair.second_d_mm)
    place = f"{pair.name}, near {words(pair.at)}"
    if one is None or two is None:
        lacking = seam.bodies[0 if one is None else 1]
        yield _fail(f"{pair.name}: nothing of it was found in {lacking}", place=place)
        return
    apart = float(np.linalg.norm(one[0] - two[0]))
    if apart > COAXIAL_MM:
        yield _fail(f"{pair.name}: its two sides are {apart:.3f} mm out of line", apart, COAXIAL_MM, "mm", place)
    for found, meant in ((one[1], pair.first_d_mm), (two[1], pair.second_d_mm)):
        if abs(found - meant) > COAXIAL_MM:
            yield _fail(
                f"{pair.name} measures {found:.2f} mm where {meant:.2f} mm was meant", found, meant, "mm", place
            )


def _round(mesh: trimesh.Trimesh, pair: Pair, inward: Vec, seam: Seam, d_mm: float) -> tuple[Points, float] | None:
    """Middle and diameter of a hole, from sections that show it all round."""
    frame = Frame(pair.at, inward, seam.frame.right)
    cone = Cone(frame, "hole", 0.0, pair.depth_mm, d_mm, d_mm)
    found = [s for s in sections(mesh, cone, [k * pair.depth_mm for k in DEPTHS]) if s and s.coverage > 0.9]
    if len(found) < len(DEPTHS):
        return None
    worst = max(found, key=lambda s: math.hypot(s.right_mm, s.up_mm))
    return np.array(frame.point(worst.right_mm, 0.0, worst.up_mm)), worst.d_mm


def _peg(mesh: trimesh.Trimesh, seam: Seam, pair: Pair) -> tuple[Points, float] | None:
    """Middle and width over corners of a peg, from the corners of its end."""
    offset = np.asarray(mesh.vertices) - np.array(pair.at)
    height = offset @ np.array(seam.frame.inward)
    flat = offset - np.outer(height, seam.frame.inward)
    tip = (height > 0.5 * pair.depth_mm) & (np.linalg.norm(flat, axis=1) < pair.first_d_mm)
    if tip.sum() < 3:
        return None
    middle = flat[tip].mean(axis=0)
    return np.array(pair.at) + middle, 2.0 * float(np.linalg.norm(flat[tip] - middle, axis=1).max())


def _lap(seam: Seam, first: trimesh.Trimesh, second: trimesh.Trimesh) -> Iterator[Finding]:
    """The gap between a collar's bore and what goes into it."""
    collar, inner = (first, second) if seam.lap_mm > 0 else (second, first)
    at = LAP_AT * seam.lap_mm
    rings, skins = _loops(collar, seam.frame, at), _loops(inner, seam.frame, at)
    if len(rings) < 2 or not skins:
        yield _fail(f"the lap was not found {abs(at):.1f} mm from the seam")
        return
    bore = rings[1].exterior
    gaps = shapely.distance(shapely.points(np.array(skins[0].exterior.coords)), bore)
    for gap in (float(gaps.min()), float(gaps.max())):
        if abs(gap - seam.gap_mm) > GAP_MM or not rings[1].covers(skins[0]):
            message = f"the lap's gap is {gap:.2f} mm where {seam.gap_mm:.2f} mm was meant"
            yield _fail(message, gap, seam.gap_mm, "mm")
            return


def _loops(mesh: trimesh.Trimesh, frame: Frame, at_mm: float) -> list[shapely.Polygon]:
    """The outlines of a plane section as filled areas, the largest first."""
    axes = np.array([frame.right, frame.up, frame.inward])
    move = np.column_stack([axes, -axes @ np.array(frame.origin)])
    loops = to_manifold(mesh).transform(move).slice(at_mm).to_polygons()
    return sorted((shapely.Polygon(loop) for loop in loops if len(loop) > 2), key=lambda one: -one.area)


def _hole(seam: Seam, hole: HoleFit) -> Iterator[Finding]:
    """A screw hole lies wholly on one side of the plane."""
    n, d = np.array(seam.frame.inward), np.array(hole.direction)
    start = float((np.array(hole.start) - np.array(seam.frame.origin)) @ n)
    end = start + hole.length_mm * float(d @ n)
    reach = hole.d_mm / 2 * math.sqrt(max(0.0, 1.0 - float(d @ n) ** 2))
    clear = min(abs(start), abs(end)) - reach if start * end > 0 else -reach
    if clear < 0.0:
        place = f"{hole.name}, near {words(hole.start)}"
        yield _fail(f"the seam runs through {hole.name}", clear, 0.0, "mm", place)


def _pass(seam: Seam) -> Finding:
    held = f"{len(seam.pairs)} holes in line" if seam.pairs else "mating faces flat"
    if seam.pairs and seam.pairs[0].first == "peg":
        held = f"{len(seam.pairs)} pegs in line with their holes"
    lap = f", lap gap {seam.gap_mm:.1f} mm" if seam.lap_mm else ""
    message = f"both halves add up to the whole and share no room; {held}{lap}"
    return Finding(CODE, "pass", seam.bodies[0], None, None, "", "seam", message)


def _fail(
    message: str, value: float | None = None, limit: float | None = None, unit: str = "", place: str = "seam"
) -> Finding:
    """A fault of a seam blocks both halves: it names neither."""
    return Finding(CODE, "fail", "", value, limit, unit, place, message, REBUILD)
