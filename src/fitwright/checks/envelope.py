"""The space declared round a part: what it must keep clear of, and what it must stay inside of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

import manifold3d
import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree
from trimesh import Trimesh

from fitwright.checks.clearance_words import ADAPTER, Words
from fitwright.checks.housings import Housings
from fitwright.checks.positions import worst_share
from fitwright.checks.things import Thing, finding, finer, in_words
from fitwright.envelope_mesh.housing import Housing
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh_distance import Gap, between, common, outside_of, surface_points
from fitwright.place import direction, words
from fitwright.shapes.obstacles import Box, Frustum
from fitwright.spec.envelope import BarObstacle, BoxObstacle, ConeObstacle, MeshObstacle, Obstacle, PlaneObstacle

Points = NDArray[np.float64]

GOOD_TO_MM = 0.02
"""Distances on meshes are good to this; a gap that is short of its limit by less passes."""
PITCH_MM = 3.0
"""Places are told from points so far apart."""
SEARCH_MM = 3.0
"""Gaps are looked for this far beyond the limit; larger ones are reported as `at least`."""
CLEAR = "is clear of"
FURTHER_MM = 1e-3
"""Past a distance that is known to be there, so that it is found."""


@dataclass(frozen=True)
class _Near:
    """How near a thing comes to an obstacle: the gap, where on the thing, and which way leads away."""

    gap: Gap
    at: Points
    away: Points


@dataclass(frozen=True)
class _Target:
    """An obstacle as a closed mesh, as the shape that knows its nearest points, and the file it came from, if any."""

    solid: manifold3d.Manifold
    shape: Box | Frustum | Trimesh
    housing: Housing | None = None

    @property
    def chord_mm(self) -> float:
        return self.housing.chord_mm if self.housing else 0.0

    def finer(self) -> _Target:
        """The same from finer facets, where a file's curved faces leave a doubt."""
        if self.housing is None or self.chord_mm == 0.0:
            return self
        return _of_file(self.housing.finer())


def keep_clear(obstacle: Obstacle, things: list[Thing], housings: Housings, ways: Words = ADAPTER) -> list[Finding]:
    """Bodies and stand-ins against one thing that they must keep clear of: all that come too near, or one pass.

    What moves is judged by all the room that it passes through; the position where it is worst is named.
    """
    try:
        target = _target(obstacle, housings)
    except BuildError as error:
        return [_not_checked(obstacle, error)]
    nears = []
    for thing in things:
        near = _near(obstacle, target, thing)
        if _short(near, obstacle) and (thing.source is not None or (target and target.chord_mm)):
            thing, target = finer(thing), target and target.finer()
            near = _near(obstacle, target, thing)
        nears.append((near, thing))
    bad = [(near, thing) for near, thing in nears if _short(near, obstacle)]
    if bad:
        worst = [_at_its_worst(obstacle, target, near, thing) for near, thing in bad]
        return [_too_near(obstacle, near, thing, "keep clear of", ways) for near, thing in worst]
    return _clear(obstacle, nears, CLEAR, target)


def _at_its_worst(obstacle: Obstacle, target: _Target | None, near: _Near, thing: Thing) -> tuple[_Near, Thing]:
    """A moving thing in the position in which it comes nearest, or has most in common; others as they are."""
    if thing.motion is None:
        return near, thing

    def badness(share: float) -> float:
        gap = _near(obstacle, target, thing.at(share)).gap
        return gap.common_mm3 if gap.common_mm3 > 0.0 else -gap.gap_mm

    there = thing.at(worst_share(badness))
    found = _near(obstacle, target, there)
    if near.gap.common_mm3 > 0.0:
        return (found, there) if found.gap.common_mm3 > 0.0 else (near, thing)
    return replace(found, gap=near.gap), there


def _target(obstacle: Obstacle, housings: Housings) -> _Target | None:
    """None for a plane."""
    if isinstance(obstacle, PlaneObstacle):
        return None
    if isinstance(obstacle, MeshObstacle):
        return _of_file(housings.of(obstacle))
    shape = _shape(obstacle)
    return _Target(shape.solid(), shape)


def _of_file(housing: Housing) -> _Target:
    return _Target(housing.solid, housing.trimesh, housing)


def _shape(obstacle: BoxObstacle | BarObstacle | ConeObstacle) -> Box | Frustum:
    if isinstance(obstacle, BoxObstacle):
        return Box(obstacle.low, obstacle.high)
    if isinstance(obstacle, BarObstacle):
        return Frustum(obstacle.start, obstacle.end, obstacle.d_mm / 2, obstacle.d_mm / 2)
    return Frustum(obstacle.start, obstacle.end, obstacle.d_start_mm / 2, obstacle.d_end_mm / 2)


def _near(obstacle: Obstacle, target: _Target | None, thing: Thing) -> _Near:
    if isinstance(obstacle, PlaneObstacle):
        return _near_plane(obstacle, thing)
    assert target is not None
    gap = _measured(thing, target.solid, obstacle.clearance_mm, target.housing)
    if gap.clash is not None:
        whole = common(thing.solid, target.housing.joined) if target.housing else None
        return _clashing(whole or gap, thing)
    return _placed(gap, obstacle, thing, target.shape)


def _measured(thing: Thing, solid: manifold3d.Manifold, clearance_mm: float, housing: Housing | None = None) -> Gap:
    """The gap with the chord errors of both taken off."""
    chord_mm = thing.chord_mm + (housing.chord_mm if housing else 0.0)
    search = clearance_mm + SEARCH_MM + chord_mm
    if housing:
        search = min(search, housing.no_further_mm(_spread(thing.mesh)) + FURTHER_MM)
    gap = between(thing.solid, solid, search)
    return replace(gap, gap_mm=round(max(gap.gap_mm - chord_mm, 0.0), 9))


def _placed(gap: Gap, obstacle: Obstacle, thing: Thing, shape: Box | Frustum | Trimesh) -> _Near:
    """With the place where the two are nearest, if that will be asked."""
    near = _Near(gap, np.zeros(3), np.zeros(3))
    if not _short(near, obstacle):
        return near
    at, other = _nearest_pair(thing.mesh, shape, gap.gap_mm)
    return _Near(gap, at, at - other)


def _near_plane(obstacle: PlaneObstacle, thing: Thing) -> _Near:
    normal = np.array(obstacle.normal) / np.linalg.norm(obstacle.normal)
    heights = (thing.points - np.array(obstacle.point)) @ normal
    lowest = int(np.argmin(heights))
    return _Near(Gap(float(heights[lowest]) - thing.chord_mm), thing.points[lowest], normal)


def _clashing(gap: Gap, thing: Thing) -> _Near:
    """Out along the shortest side of the common volume, to the side where most of the thing is."""
    assert gap.clash is not None
    low, high = np.array(gap.clash[0]), np.array(gap.clash[1])
    middle, size = (low + high) / 2, high - low
    axis = int(np.argmin(size))
    away = np.zeros(3)
    away[axis] = size[axis] if thing.points[:, axis].mean() >= middle[axis] else -size[axis]
    return _Near(gap, middle, away)


def _nearest_pair(mesh: Trimesh, shape: Box | Frustum | Trimesh, gap_mm: float) -> tuple[Points, Points]:
    """About where the thing comes nearest, and the obstacle's point there: for words, not for the gap."""
    points = _spread(mesh)
    if isinstance(shape, Trimesh):
        points, others = _facing_each_other(points, _spread(shape), gap_mm + PITCH_MM)
        distance, which = cKDTree(others).query(points)
        best = int(np.argmin(distance))
        return points[best], others[which[best]]
    others = shape.nearest(points)
    best = int(np.argmin(np.linalg.norm(points - others, axis=1)))
    return points[best], others[best]


def _spread(mesh: Trimesh) -> Points:
    return surface_points(np.asarray(mesh.vertices), np.asarray(mesh.faces), PITCH_MM, 20_000)


def _facing_each_other(one: Points, other: Points, within_mm: float) -> tuple[Points, Points]:
    """The points of each that are near the other's box; all of them where that leaves none."""
    cut = []
    for points, others in ((one, other), (other, one)):
        low, high = others.min(axis=0) - within_mm, others.max(axis=0) + within_mm
        near = points[((points >= low) & (points <= high)).all(axis=1)]
        cut.append(near if len(near) else points)
    return cut[0], cut[1]


def _short(near: _Near, obstacle: Obstacle) -> bool:
    if near.gap.common_mm3 > 0.0:
        return True
    return not near.gap.at_least and near.gap.gap_mm < obstacle.clearance_mm - GOOD_TO_MM


def about_mm(obstacle: Obstacle, mesh: Trimesh) -> float | None:
    """About how near a body comes to an obstacle, between points a few mm apart; None for one that is in a file."""
    if isinstance(obstacle, MeshObstacle):
        return None
    points = _spread(mesh)
    if isinstance(obstacle, PlaneObstacle):
        normal = np.array(obstacle.normal) / np.linalg.norm(obstacle.normal)
        return max(0.0, float(((points - np.array(obstacle.point)) @ normal).min()))
    return float(np.linalg.norm(points - _shape(obstacle).nearest(points), axis=1).min())


def stay_inside(obstacle: Obstacle, bodies: list[Thing], housings: Housings, ways: Words = ADAPTER) -> list[Finding]:
    """Bodies against one thing that they must stay inside of."""
    try:
        nears = [(_within(obstacle, body, housings), body) for body in bodies]
    except BuildError as error:
        return [_not_checked(obstacle, error)]
    bad = [(near, body) for near, body in nears if _short(near, obstacle)]
    if bad:
        return [_too_near(obstacle, near, body, "stay inside", ways) for near, body in bad]
    return _clear(obstacle, nears, "stays inside")


def _within(obstacle: Obstacle, body: Thing, housings: Housings) -> _Near:
    if isinstance(obstacle, PlaneObstacle):
        return _near_plane(obstacle, body)
    if isinstance(obstacle, MeshObstacle):
        housing = housings.of(obstacle)
        near = _within_mesh(obstacle, body, housing)
        doubt = housing.chord_mm > 0.0 and _short(near, obstacle)
        return _within_mesh(obstacle, body, housing.finer()) if doubt else near
    shape = _shape(obstacle)
    depth = shape.depth(body.points)
    least = int(np.argmin(depth))
    return _Near(Gap(float(depth[least]) - body.chord_mm), body.points[least], shape.facing(body.points[least]))


def _within_mesh(obstacle: MeshObstacle, body: Thing, housing: Housing) -> _Near:
    """Inside its material, or inside the cavity that the body stands in: never across the wall between."""
    room = housing.cavity(body.points) or housing.joined
    reach = obstacle.clearance_mm + SEARCH_MM + body.chord_mm + housing.chord_mm
    gap = _measured(body, outside_of(room, body.solid, reach), obstacle.clearance_mm, housing)
    if gap.clash is not None:
        return _clashing(gap, body)
    return _placed(gap, obstacle, body, housing.trimesh)


def called(obstacle: Obstacle) -> str:
    """The obstacle in the user's word, or else in ours."""
    if obstacle.label:
        return obstacle.label
    if isinstance(obstacle, PlaneObstacle):
        facing = direction([-n for n in obstacle.normal])
        distance = -sum(p * n for p, n in zip(obstacle.point, obstacle.normal, strict=True))
        square = max(abs(n) for n in obstacle.normal) > 1 - 1e-9
        return f"the wall {facing} at {distance:g} mm" if square else "the slanting wall"
    if isinstance(obstacle, MeshObstacle):
        return Path(obstacle.path).name
    return {BoxObstacle: "the box", BarObstacle: "the round bar", ConeObstacle: "the cone"}[type(obstacle)]


def _too_near(obstacle: Obstacle, near: _Near, thing: Thing, must: str, ways: Words) -> Finding:
    gap, limit = near.gap, obstacle.clearance_mm
    who = thing.called
    place = f"{called(obstacle)} ({obstacle.key}), at {words(near.at.tolist())}"
    lacking = limit - gap.gap_mm
    if gap.common_mm3 > 0.0:
        message = f"{who} must {must} {called(obstacle)} but clashes: {in_words(gap.common_mm3)} too much"
        lacking = limit + float(np.abs(near.away).max())
        by = f"about {lacking:.1f}"
        if _wholly_outside(obstacle, near, thing, must):
            return _outside(obstacle, near, thing, place)
    elif gap.gap_mm < 0.0:
        message = f"{who} must {must} {called(obstacle)} but goes {-gap.gap_mm:.2f} mm beyond"
        by = f"{lacking:.2f}"
    else:
        message = f"{who} must {must} {called(obstacle)} by {limit:g} mm; {gap.gap_mm:.2f} mm are left"
        by = f"{lacking:.2f}"
    way = direction(near.away.tolist())
    advice = ways.too_near.format(by=by, way=way, key=obstacle.key)
    name = thing.name if thing.source is None else ""
    return finding("warn" if thing.room_only else "fail", name, gap.gap_mm, limit, place, message, advice)


def _wholly_outside(obstacle: Obstacle, near: _Near, thing: Thing, must: str) -> bool:
    whole = isinstance(obstacle, MeshObstacle) and must == "stay inside"
    return whole and near.gap.common_mm3 >= 0.999 * float(thing.solid.volume())


def _outside(obstacle: Obstacle, near: _Near, thing: Thing, place: str) -> Finding:
    """A housing that is open somewhere has no inside: its free room is meant."""
    message = f"{thing.called} must stay inside {called(obstacle)} but lies wholly outside of its material"
    advice = f"Give {obstacle.key} a file of the free room as a solid (and see `at`), or list it under keep_clear."
    return finding("fail", "", near.gap.gap_mm, obstacle.clearance_mm, place, message, advice)


def _clear(
    obstacle: Obstacle, nears: Iterable[tuple[_Near, Thing]], verb: str, target: _Target | None = None
) -> list[Finding]:
    nears = list(nears)
    if not nears:
        return []
    near, thing = min(nears, key=lambda pair: pair[0].gap.gap_mm)
    if not near.gap.at_least and verb == CLEAR:
        near, thing = _at_its_worst(obstacle, target, near, thing)
    at_least = "at least " if near.gap.at_least else ""
    message = f"{verb} {called(obstacle)}: {at_least}{near.gap.gap_mm:.2f} mm ({thing.called} is nearest)"
    place = f"{called(obstacle)} ({obstacle.key})"
    return [finding("pass", "", near.gap.gap_mm, obstacle.clearance_mm, place, message)]


def _not_checked(obstacle: Obstacle, error: BuildError) -> Finding:
    text = str(error).removeprefix("not checked: ")
    place = f"{called(obstacle)} ({obstacle.key})"
    advice = f"Correct the file, or take {obstacle.key} out of the envelope."
    return finding("fail", "", None, obstacle.clearance_mm, place, f"not checked: {text}", advice)
