"""Faces that run all round between two circles, as triangles: cylinders, cones, oblique cones, bends, round beads.

The kernel's mesher fills cones and bends with points that nobody needs and takes most of a build's time for it. Such a
face is known by its rims: rings of points, one after another, are joined by triangles. Everything else (flat faces, and
faces that something was cut into) stays with the kernel, and the rims shared with it are taken as it divided them.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TopAbs import TopAbs_Orientation

from fitwright.rims import Deflection, Numbers, Points, Rim, Ring, across, are_level, rims_of
from fitwright.torus import Torus

Indices = NDArray[np.int64]

ROLL_STATIONS = 24
ROLL_RAD = 1e-5
"""A spline whose normal turns less than this along its straight lines, at so many of them, is an oblique cone."""

_STRAIGHT = (GeomAbs_SurfaceType.GeomAbs_Cylinder, GeomAbs_SurfaceType.GeomAbs_Cone)
_SPLINE = GeomAbs_SurfaceType.GeomAbs_BSplineSurface
_TORUS = GeomAbs_SurfaceType.GeomAbs_Torus


@dataclass(frozen=True)
class RoundFace:
    """A face between two rims; `surface` is the kernel's."""

    face: Any
    surface: Any
    rims: tuple[Rim, Rim]


def round_face(face: Any) -> RoundFace | None:
    """The face (the kernel's) as one between two rims, or None where it is something else."""
    surface = BRepAdaptor_Surface(face)
    kind = surface.GetType()
    if kind not in (*_STRAIGHT, _SPLINE, _TORUS):
        return None
    rims = rims_of(face)
    if rims is None:
        return None
    found = RoundFace(face, surface, rims)
    if kind == _TORUS:
        return found if Torus.of(surface, rims).is_part_of_a_turn else None
    return found if are_level(rims) and (kind != _SPLINE or _is_oblique_cone(surface)) else None


def triangles(face: RoundFace, rims: tuple[Points, Points], deflection: Deflection) -> tuple[Points, Indices]:
    """Corners and triangles of a face whose rims are divided as given; they face out of the material."""
    torus = Torus.of(face.surface, face.rims) if face.surface.GetType() == _TORUS else None
    rings = torus.rings(rims, deflection) if torus else _level_rings(face.rims, rims)
    first = np.cumsum([0, *(len(ring.points) for ring in rings)])
    strips = [strip(a.angles, b.angles, int(first[n])) for n, (a, b) in enumerate(itertools.pairwise(rings))]
    points, found = np.concatenate([ring.points for ring in rings]), np.concatenate(strips)
    middles = torus.tube_middles if torus else partial(_level_middles, face.rims)
    return points, found if _faces_out(face, points[found], middles) else found[:, ::-1]


def strip(near: Numbers, far: Numbers, first: int) -> Indices:
    """Triangles between two rings, the points of `near` counted from `first` and those of `far` after them.

    The next triangle always takes the next point of the ring that lies behind, so that no edge runs further askew than
    half a step.
    """
    a, b = np.argsort(near, kind="stable"), np.argsort(far, kind="stable")
    start = near[a[0]]
    ahead = (far[b] - start + np.pi) % (2.0 * np.pi) - np.pi
    b = np.roll(b, -int(np.abs(ahead).argmin()))
    a_turns = near[a] - start
    b_turns = np.unwrap((far[b] - start + np.pi) % (2.0 * np.pi) - np.pi)
    keys = np.concatenate([_halfway(a_turns), _halfway(b_turns)])
    order = np.argsort(keys, kind="stable")
    on_near = order < len(a)
    i: Indices = np.cumsum(on_near) - on_near
    j: Indices = np.cumsum(~on_near) - ~on_near
    a_here, b_here = a[i % len(a)] + first, b[j % len(b)] + first + len(a)
    a_next, b_next = a[(i + 1) % len(a)] + first, b[(j + 1) % len(b)] + first + len(a)
    return np.column_stack([a_here, np.where(on_near, a_next, b_next), b_here])


def _halfway(turns: Numbers) -> Numbers:
    """The angles halfway to the next point of a ring."""
    halfway: Numbers = (turns + np.append(turns[1:], turns[0] + 2.0 * np.pi)) / 2.0
    return halfway


def _level_rings(rims: tuple[Rim, Rim], points: tuple[Points, Points]) -> list[Ring]:
    """Two rings of a cylinder or cone, each with its angles about its own centre."""
    axis = rims[0].axis
    right, up = across(axis)
    offsets = [(ring, ring - rim.centre) for rim, ring in zip(rims, points, strict=True)]
    return [Ring(ring, np.arctan2(offset @ up, offset @ right)) for ring, offset in offsets]


def _level_middles(rims: tuple[Rim, Rim], points: Points) -> Points:
    """For each point the middle of the section at its height."""
    base, run = rims[0].centre, rims[1].centre - rims[0].centre
    share = (points - base) @ rims[0].axis / float(run @ rims[0].axis)
    middles: Points = base + share[:, None] * run
    return middles


def _faces_out(face: RoundFace, corners: Points, middles: Callable[[Points], Points]) -> bool:
    """Whether triangles turn the same way as the face does, both seen from the middle of the sections."""
    centroids = corners.mean(axis=1)
    areas = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    outwards = float(np.einsum("ij,ij->", areas, centroids - middles(centroids))) > 0.0
    surface = face.surface
    u = (surface.FirstUParameter() + surface.LastUParameter()) / 2.0
    v = (surface.FirstVParameter() + surface.LastVParameter()) / 2.0
    whole_tube = surface.GetType() == _TORUS and surface.LastVParameter() - surface.FirstVParameter() > 6.28
    point, normal = _normal(surface, u, 0.0 if whole_tube else v)  # the outside of a bend, clear of its axis
    natural = float(normal @ (point - middles(point[None])[0])) > 0.0
    turned = bool(face.face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED)
    return outwards == (natural != turned)


def _is_oblique_cone(surface: Any) -> bool:
    """Whether a spline is straight one way, with one and the same normal all along each of those lines."""
    spline = surface.BSpline()
    if (spline.VDegree(), spline.NbVPoles()) != (1, 2):
        return False
    near, far = surface.FirstVParameter(), surface.LastVParameter()
    for u in np.linspace(surface.FirstUParameter(), surface.LastUParameter(), ROLL_STATIONS):
        (_, one), (_, other) = _normal(surface, float(u), near), _normal(surface, float(u), far)
        if float(np.linalg.norm(np.cross(one, other))) > ROLL_RAD:
            return False
    return True


def _normal(surface: Any, u: float, v: float) -> tuple[Points, Points]:
    """A point of a surface and its unit normal there; zero where it has none."""
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(u, v, point, along_u, along_v)
    across = np.array(along_u.Crossed(along_v).Coord())
    return np.array(point.Coord()), across / max(float(np.linalg.norm(across)), 1e-12)
