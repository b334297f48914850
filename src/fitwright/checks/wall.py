"""Check `wall`: the least thickness of material on the finished mesh, and in each zone with a limit of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.wall_rays import (
    ROUNDS,
    SAMPLES,
    SHRINK,
    Probe,
    Random,
    Rays,
    Walls,
    everywhere,
    first_hit,
    joined,
    make_probe,
    measure,
    nearer,
    on_facets,
    rays_joined,
    thinnest,
)
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Part, WallZone
from fitwright.place import words
from fitwright.tolerances import TOLERANCES

CODE = "wall"
SEED = 20_240
ZONE_POINTS = 150
"""Points drawn in each zone's ring; each looks inwards, outwards and both ways along the axis for the surface."""
THICKEN = "Thicken it: raise `wall`, or move the two faces that it lies between apart."

Points = NDArray[np.float64]


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """One finding with the least wall of each printed body, and one for each of its zones; `flat` judges sheet."""
    findings = []
    for body in part.printed:
        finished = meshes.get(body.name)
        if finished is None or len(finished.mesh.faces) == 0 or not finished.mesh.is_watertight:
            message = "not checked: the mesh is missing or not closed"
            findings.append(Finding(CODE, "fail", body.name, None, body.wall_mm, "mm", "whole body", message))
            continue
        least = least_walls(finished.mesh, body.wall_zones)
        findings.append(_judge(body, least[0], None))
        findings += [_judge(body, wall, zone) for wall, zone in zip(least[1:], body.wall_zones, strict=True)]
    return findings


def least_walls(mesh: trimesh.Trimesh, zones: Sequence[WallZone] = ()) -> list[Walls | None]:
    """The least wall outside all zones, then the least in each zone; None where no wall was met.

    A wall is the distance from a point of the surface to the nearest face opposite, through material. Two faces that
    share a sharp convex edge make no wall with each other nearer to that edge than twice their distance: a 45 deg
    edge is an edge, a 20 deg one is a thin lip.
    """
    probe, random = make_probe(mesh), np.random.default_rng(SEED)
    rays = [everywhere(probe, random), *(_zone_rays(probe, zone, random) for zone in zones)]
    walls = measure(probe, rays_joined(rays))
    radius_mm = 2.0 * float(np.sqrt(mesh.area / SAMPLES))
    for _ in range(ROUNDS):
        seeds = [thinnest(group, radius_mm) for group in _groups(walls, zones) if len(group.wall_mm)]
        if not seeds:
            break
        walls = joined([walls, nearer(probe, joined(seeds), radius_mm, random)])
        radius_mm *= SHRINK
    groups = _groups(walls, zones)
    return [group.pick(np.array([group.wall_mm.argmin()])) if len(group.wall_mm) else None for group in groups]


def _groups(walls: Walls, zones: Sequence[WallZone]) -> list[Walls]:
    """The walls outside all zones, then those in each zone (either end in its ring)."""
    inside = [_in_zone(walls, zone) for zone in zones]
    elsewhere = ~np.any(inside, axis=0) if inside else np.ones(len(walls.wall_mm), dtype=np.bool_)
    return [walls.pick(elsewhere), *(walls.pick(chosen) for chosen in inside)]


def _in_zone(walls: Walls, zone: WallZone) -> NDArray[np.bool_]:
    """Walls with either end in a zone's ring, or both in the ring and its skirt."""
    inside = _in_ring(walls.rays.start, zone) | _in_ring(walls.out, zone)
    if zone.skirt_mm > 0.0:
        wide = replace(zone, r0_mm=zone.r0_mm - zone.skirt_mm, r1_mm=zone.r1_mm + zone.skirt_mm)
        inside |= _in_ring(walls.rays.start, wide) & _in_ring(walls.out, wide)
    return inside


def _in_ring(points: Points, zone: WallZone) -> NDArray[np.bool_]:
    offset = points - np.array(zone.frame.origin)
    depth = offset @ np.array(zone.frame.inward)
    inside: NDArray[np.bool_] = (depth >= zone.s0_mm) & (depth <= zone.s1_mm)
    deep = offset[inside]
    across = np.column_stack([deep @ np.array(zone.frame.right), deep @ np.array(zone.frame.up)])
    radius = np.hypot(*across.T) if zone.about is None else zone.about_r_mm + zone.about.distance(across)
    inside[inside] = (radius >= zone.r0_mm) & (radius <= zone.r1_mm)
    return inside


def _zone_rays(probe: Probe, zone: WallZone, random: Random) -> Rays:
    """Rays from the surface near a zone, which an area sample would hit too seldom: looked for from inside its ring."""
    share, turn = random.random((2, ZONE_POINTS)), random.random(ZONE_POINTS) * 2.0 * np.pi
    depth = zone.s0_mm + share[0] * (zone.s1_mm - zone.s0_mm)
    radius = zone.r0_mm + share[1] * (zone.r1_mm - zone.r0_mm)
    frame = zone.frame
    right, inward, up = (np.array(v, dtype=np.float64) for v in (frame.right, frame.inward, frame.up))
    outwards = np.cos(turn)[:, None] * right + np.sin(turn)[:, None] * up
    starts = np.array(frame.origin) + outwards * radius[:, None] + inward * depth[:, None]
    if zone.about is not None:
        point, normal = zone.about.walked(turn / (2.0 * np.pi))
        place = point + normal * (radius - zone.about_r_mm)[:, None]
        outwards = normal[:, :1] * right + normal[:, 1:] * up
        starts = np.array(frame.origin) + place[:, :1] * right + place[:, 1:] * up + inward * depth[:, None]
    straight = np.broadcast_to(inward, outwards.shape)
    looks = np.concatenate([outwards, -outwards, straight, -straight])
    facet, point, _, _ = first_hit(probe, np.tile(starts, (4, 1)), looks)
    met = np.flatnonzero((facet >= 0) & _in_ring(point, zone))
    return on_facets(probe.mesh, point[met], facet[met])


def _judge(body: Body, wall: Walls | None, zone: WallZone | None) -> Finding:
    """The finding for the least wall of a body (`zone` None) or of one zone."""
    limit = zone.limit_mm if zone else body.wall_mm
    name = zone.name if zone else "whole body"
    if wall is None:
        return Finding(CODE, "fail", body.name, None, limit, "mm", name, f"not checked: no wall was found in {name}")
    found = float(wall.wall_mm[0])
    middle = (wall.rays.start[0] + wall.out[0]) / 2.0
    place = f"{zone.name}, {words(middle)}" if zone else words(middle)
    thin = found < limit * (1.0 - TOLERANCES.wall_rel) - 2.0 * TOLERANCES.mesh_chord_mm
    message = f"least wall {found:.2f} mm, asked {limit:.2f} mm"
    return Finding(CODE, "fail" if thin else "pass", body.name, found, limit, "mm", place, message, THICKEN * thin)
