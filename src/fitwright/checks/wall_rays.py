"""Wall thickness by rays through the material, from everywhere on the surface, then again round the thinnest places.

A ray leaves a point against the surface's normal, and again along the normal of the face it met: on a slanted wall the
first is too long, the second is the distance to that face. From a re-entrant edge, whose nearest opposite point may lie
in any direction between the two faces' normals, a fan of rays leaves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.patches import Patches, along, find_patches, shared_ridge_mm
from fitwright.checks.piercing import ray_start_mm

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]
Random = np.random.Generator

SAMPLES = 16_000
SEEDS_PER_PATCH = 60
CORNER_RAD = 0.25
"""Re-entrant edges sharper than this send a fan; facets of small bores meet at up to 0.2."""
CORNER_STEP_MM = 1.0
MOST_CORNERS = 2_500
FAN = 7
GRAZING_COS = 0.1
"""A face met more flatly than this is passed along, not opposite."""
SAME_SIDE_COS = 0.25
"""Faces whose normals lie within 75 deg look the same way: between them is no wall (45 deg flanks that meet at a square
corner lie 60 deg apart, a flank and the nose of an acute corner 65); what is thin has normals further apart than 90."""
CANDIDATES, ROUNDS, JITTERED, SHRINK = 8, 4, 60, 0.3


@dataclass(frozen=True)
class Rays:
    """Starts on the surface: point, unit direction into the material, and the two facets that the point lies on."""

    start: Points
    into: Points
    facets: Indices
    on_corner: NDArray[np.bool_]

    def pick(self, chosen: Indices | NDArray[np.bool_]) -> Rays:
        """Some of the rays."""
        return Rays(self.start[chosen], self.into[chosen], self.facets[chosen], self.on_corner[chosen])


@dataclass(frozen=True)
class Walls:
    """Walls found: the ray, the point it came out at, the facet there, and the thickness [mm]."""

    rays: Rays
    out: Points
    facet: Indices
    wall_mm: Numbers

    def pick(self, chosen: Indices | NDArray[np.bool_]) -> Walls:
        """Some of the walls."""
        return Walls(self.rays.pick(chosen), self.out[chosen], self.facet[chosen], self.wall_mm[chosen])


@dataclass(frozen=True)
class Probe:
    """A mesh made ready for rays."""

    mesh: trimesh.Trimesh
    patches: Patches
    start_mm: float


def make_probe(mesh: trimesh.Trimesh) -> Probe:
    """Find the patches of a mesh once, for any number of rays."""
    return Probe(mesh, find_patches(mesh, CORNER_RAD), ray_start_mm(mesh))


def joined(parts: list[Walls]) -> Walls:
    """Several lots of walls as one."""
    rays = rays_joined([w.rays for w in parts])
    out, facet = np.concatenate([w.out for w in parts]), np.concatenate([w.facet for w in parts])
    return Walls(rays, out, facet, np.concatenate([w.wall_mm for w in parts]))


def rays_joined(parts: list[Rays]) -> Rays:
    """Several lots of rays as one."""
    return Rays(
        np.concatenate([r.start for r in parts]),
        np.concatenate([r.into for r in parts]),
        np.concatenate([r.facets for r in parts]),
        np.concatenate([r.on_corner for r in parts]),
    )


def everywhere(probe: Probe, random: Random) -> Rays:
    """Rays from an area sample, from at least SEEDS_PER_PATCH points of each patch, and from re-entrant edges."""
    mesh, of_facet = probe.mesh, probe.patches.of_facet
    area = np.asarray(mesh.area_faces)
    facets = _draw(area, SAMPLES, random)
    seen = np.bincount(of_facet[facets], minlength=probe.patches.count)
    for patch in np.flatnonzero(seen < SEEDS_PER_PATCH):
        own = np.flatnonzero(of_facet == patch)
        if area[own].sum() > 0.0:
            facets = np.concatenate([facets, own[_draw(area[own], SEEDS_PER_PATCH, random)]])
    return rays_joined([from_facets(mesh, facets, random), _fans(probe)])


def from_facets(mesh: trimesh.Trimesh, facets: Indices, random: Random) -> Rays:
    """A ray from a random point of each facet."""
    u, v = random.random((2, len(facets), 1))
    u, v = np.where(u + v > 1.0, 1.0 - u, u), np.where(u + v > 1.0, 1.0 - v, v)
    corners = np.asarray(mesh.triangles)[facets]
    points = corners[:, 0] + u * (corners[:, 1] - corners[:, 0]) + v * (corners[:, 2] - corners[:, 0])
    return on_facets(mesh, points, facets)


def on_facets(mesh: trimesh.Trimesh, points: Points, facets: Indices) -> Rays:
    """A ray against the normal from each point, which lies on the facet given."""
    into = -np.asarray(mesh.face_normals)[facets]
    return Rays(points, into, np.column_stack([facets, facets]), np.zeros(len(facets), dtype=np.bool_))


def first_hit(probe: Probe, start: Points, into: Points) -> tuple[Indices, Points, Numbers, Numbers]:
    """Facet first met (-1: none), the point, its distance, and the cosine between ray and the facet's normal."""
    facet = np.asarray(probe.mesh.ray.intersects_first(start + into * probe.start_mm, into), dtype=np.int64)
    normal = np.asarray(probe.mesh.face_normals)[facet]
    cosine = np.einsum("ij,ij->i", normal, into)
    height = np.einsum("ij,ij->i", normal, np.asarray(probe.mesh.triangles)[facet, 0] - start)
    met = (facet >= 0) & (np.abs(cosine) > 1e-6)
    distance = np.divide(height, cosine, out=np.full(len(start), np.inf), where=met)
    point = start + into * np.where(met, distance, 0.0)[:, None]
    return np.where(met, facet, -1), point, distance, cosine


def measure(probe: Probe, rays: Rays) -> Walls:
    """The walls that rays meet, each both ways, without pairs that are only the flanks of a sharp edge."""
    facet, out, distance, cosine = first_hit(probe, rays.start, rays.into)
    met = np.flatnonzero((facet >= 0) & (cosine > GRAZING_COS) & (distance > 0.0) & _opposite(probe, rays, facet))
    straight = Walls(rays.pick(met), out[met], facet[met], distance[met])
    straight = straight.pick(~_edge_flanks(probe, straight, straight.wall_mm))
    return joined([straight, _slanted(probe, straight)])


def _opposite(probe: Probe, rays: Rays, facet: Indices) -> NDArray[np.bool_]:
    """Whether the facet met looks another way than one that it left: a ray from a corner may graze its own side."""
    normal = np.asarray(probe.mesh.face_normals)
    alike = np.einsum("ijk,ik->ij", normal[rays.facets], normal[facet])
    found: NDArray[np.bool_] = alike.min(axis=1) < SAME_SIDE_COS
    return found


def _slanted(probe: Probe, walls: Walls) -> Walls:
    """The same starts again, now along the normal of the face that was met."""
    normal = np.asarray(probe.mesh.face_normals)[walls.facet]
    cosine = np.einsum("ij,ij->i", normal, walls.rays.into)
    tilted = np.flatnonzero((cosine < 0.9999) & ~walls.rays.on_corner)
    walls, normal = walls.pick(tilted), normal[tilted]
    facet, out, distance, met_cosine = first_hit(probe, walls.rays.start, normal)
    shorter = (distance > 0.0) & (distance < walls.wall_mm)
    better = np.flatnonzero((facet >= 0) & (met_cosine > GRAZING_COS) & shorter & _opposite(probe, walls.rays, facet))
    rays = Rays(walls.rays.start, normal, walls.rays.facets, walls.rays.on_corner).pick(better)
    found = Walls(rays, out[better], facet[better], distance[better])
    return found.pick(~_edge_flanks(probe, found, walls.wall_mm[better]))


def _edge_flanks(probe: Probe, walls: Walls, measured_mm: Numbers) -> NDArray[np.bool_]:
    """Pairs that share a sharp convex edge nearer than twice the distance measured: an edge, not a wall."""
    of_facet = probe.patches.of_facet
    beyond = of_facet[walls.facet]
    flanks = np.zeros(len(beyond), dtype=np.bool_)
    for side in (0, 1):
        here = of_facet[walls.rays.facets[:, side]]
        flanks |= shared_ridge_mm(probe.patches, here, beyond, walls.rays.start) < 2.0 * measured_mm
    return flanks


def nearer(probe: Probe, thinnest: Walls, radius_mm: float, random: Random) -> Walls:
    """New walls close to the given ones, from both their sides; `radius_mm` says how close."""
    back = on_facets(probe.mesh, thinnest.out, thinnest.facet)
    both = rays_joined([thinnest.rays, back])
    wall = np.tile(thinnest.wall_mm, 2)
    again = np.repeat(np.arange(len(wall)), JITTERED)
    rays, depth = both.pick(again), np.minimum(wall[again] / 2.0, radius_mm)
    swing = random.standard_normal((len(again), 3)) * 0.5
    swing[::JITTERED] = 0.0
    turned = rays.into + swing * np.minimum(1.0, radius_mm / wall[again])[:, None]
    turned /= np.linalg.norm(turned, axis=1)[:, None]
    fan = Rays(rays.start, turned, rays.facets, rays.on_corner).pick(rays.on_corner)
    inside = rays.start + rays.into * depth[:, None] + swing * radius_mm
    facet, point, distance, cosine = first_hit(probe, inside, -rays.into)
    fresh = np.flatnonzero((facet >= 0) & (cosine > GRAZING_COS) & (distance < 2.0 * (radius_mm + depth)))
    return measure(probe, rays_joined([on_facets(probe.mesh, point[fresh], facet[fresh]), fan]))


def thinnest(walls: Walls, apart_mm: float) -> Walls:
    """Up to CANDIDATES of the thinnest walls that lie `apart_mm` from each other."""
    order = np.argsort(walls.wall_mm, kind="stable")[:2000]
    chosen: list[int] = []
    while len(order) and len(chosen) < CANDIDATES:
        best = order[0]
        chosen.append(int(best))
        order = order[np.linalg.norm(walls.rays.start[order] - walls.rays.start[best], axis=1) > apart_mm]
    return walls.pick(np.array(chosen, dtype=np.int64))


def _fans(probe: Probe) -> Rays:
    """Rays from points along re-entrant edges, in FAN directions between the two faces' inward normals."""
    corners = probe.patches.corners
    if len(corners.a) == 0:
        return on_facets(probe.mesh, np.empty((0, 3)), np.empty(0, dtype=np.int64))
    points, which = along(corners, CORNER_STEP_MM)
    if len(points) > MOST_CORNERS:
        kept = np.linspace(0, len(points) - 1, MOST_CORNERS).astype(np.int64)
        points, which = points[kept], which[kept]
    normals = np.asarray(probe.mesh.face_normals)[corners.facets[which]]
    shares = np.linspace(0.0, 1.0, FAN)[None, :, None]
    into = -(normals[:, None, 0] * (1.0 - shares) + normals[:, None, 1] * shares).reshape(-1, 3)
    into /= np.linalg.norm(into, axis=1)[:, None]
    facets = np.repeat(corners.facets[which], FAN, axis=0)
    return Rays(np.repeat(points, FAN, axis=0), into, facets, np.ones(len(into), dtype=np.bool_))


def _draw(area: Numbers, number: int, random: Random) -> Indices:
    """Facets drawn at random, as often as their area asks."""
    total = np.cumsum(area)
    drawn: Indices = np.searchsorted(total, random.random(number) * total[-1]).clip(max=len(area) - 1)
    return drawn
