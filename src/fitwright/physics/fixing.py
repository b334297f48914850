"""What each screw of a flat plate feels when the plate is pulled about: shear, and tension as it tilts on its edge.

Frame of the plate: x right, y up on it, z out of the surface that it is screwed to; the plate lies on z = 0. Lengths in
mm, forces in N, moments in N mm. A module for parts and checks (it needs numpy); nothing in spec may import it.

**Shear** by the elastic centroid: every screw alike, the force shared evenly, the moment about the middle of the screws
by distance (J. E. Shigley, Mechanical Engineering Design, "Shear joints with eccentric loading"; from memory).

**Tension** of a rigid plate on a rigid surface, the screws as equal springs that only pull, without preload, the
outline pressing but never pulling. With w(x, y) = a + b x + c y the gap under the plate, the energy
sum w_i^2 / 2 - (F_z w + moments) is least under w >= 0 at every corner of the outline: the plate hangs free, or tips
over a corner or over an edge, or lies pressed flat. That is found exactly, by trying each; where it tips over an edge
it is the handbooks' rule T_i = M l_i / sum l^2 about the pressed edge (Shigley; R. S. Khurmi, Machine Design, "Bracket
with bolts in tension"; from memory). The surface is taken as hard: on soft wood the pressed edge sinks in and the arm
shrinks by some percent, so give an outline that is smaller by that if it matters. Friction under the plate is not
counted; neither is the pull of a tightened screw, which the lasting load of a plastic plate uses up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Vec2 = tuple[float, float]
Vec3 = tuple[float, float, float]
Load = tuple[Vec3, Vec3]
"""A force [N] and the point [mm] on which it acts."""
Array = NDArray[np.float64]

_LEVELS = 3
"""Halvings of the icosahedron's edges: 642 directions, at most 4.6 deg from any."""
_NARROWING_DEG = (5.0, 1.2, 0.3, 0.08)
_PEAKS, _APART_DEG = 6, 12.0
_FAULT = 1e-6
"""How much of the load may be left over where a way of standing is accepted."""


@dataclass(frozen=True)
class Plate:
    """A flat plate: the corners of its outline (its convex hull counts) and its screws, all within it [mm].

    ValueError where a screw lies outside, there is none, or the outline has no area.
    """

    outline: tuple[Vec2, ...]
    screws: tuple[Vec2, ...]

    def __post_init__(self) -> None:
        if not self.screws:
            raise ValueError("a plate without screws holds nothing")
        hull = self.hull
        if len(hull) < 3:
            raise ValueError("the plate's outline has no area")
        for number, (x, y) in enumerate(self.screws, start=1):
            if min(_inward(hull) @ (1.0, x, y)) < -1e-9 * _size(hull):
                raise ValueError(f"screw {number} at {x:g}, {y:g} lies outside the plate")

    @property
    def hull(self) -> Array:
        """Corners of the convex hull, anticlockwise (Andrew's monotone chain)."""
        points = sorted(set(self.outline))
        return np.array([*_chain(points), *_chain(points[::-1])], dtype=float).reshape(-1, 2)


@dataclass(frozen=True)
class ScrewForces:
    """Each screw's tension [N] and shear [N, N], and what presses on the surface [N]; in the order of the screws.

    `twist_nmm`: what turns the plate about its only screw [N mm], which nothing but friction holds; 0 with two or more.
    """

    tension_n: tuple[float, ...]
    shear_n: tuple[Vec2, ...]
    pressed_n: float
    twist_nmm: float = 0.0

    @property
    def shears_n(self) -> tuple[float, ...]:
        """Shear of each screw, without its direction."""
        return tuple(math.hypot(*shear) for shear in self.shear_n)


@dataclass(frozen=True)
class WorstScrew:
    """The worst that a force from anywhere does to a screw.

    `used`: tension / permitted + shear / permitted, greatest, with the unit vector `direction` of the force at which it
    is and what the screw feels then; `most_tension_n`, `most_shear_n`: the greatest of each from any direction (the
    shear exactly where nothing else acts, the tension to 0.1 %).
    """

    used: float
    direction: Vec3
    tension_n: float
    shear_n: float
    most_tension_n: float
    most_shear_n: float


def screw_forces(plate: Plate, loads: Sequence[Load]) -> ScrewForces:
    """What every screw feels under loads that act together.

    >>> plate = Plate(((-20, -40), (20, -40), (20, 40), (-20, 40)), ((0, 30), (0, -30)))
    >>> [round(t, 2) for t in screw_forces(plate, [((0.0, -100.0, 0.0), (0.0, 0.0, 60.0))]).tension_n]
    [84.0, 12.0]
    """
    wrench = _wrench(loads)
    tension, shear, pressed = _solve(plate, wrench[None, :])
    shears = tuple((float(x), float(y)) for x, y in shear[0])
    (x, y), one = plate.screws[0], len(plate.screws) == 1
    twist = float(wrench[2] - x * wrench[1] + y * wrench[0]) if one else 0.0
    return ScrewForces(tuple(float(t) for t in tension[0]), shears, float(pressed[0]), twist)


def worst_of_any_direction(
    plate: Plate,
    force_n: float,
    point: Vec3,
    permitted_tension_n: float,
    permitted_shear_n: float,
    together: Sequence[Load] = (),
) -> tuple[WorstScrew, ...]:
    """The worst case of every screw for a force at `point` that may come from any direction, `together` with loads.

    642 directions over the sphere, then narrowed round the worst of each screw.
    """
    rest = _wrench(together)
    permitted = (permitted_tension_n, permitted_shear_n)
    first = _Found(plate, force_n, point, rest, permitted, sphere())
    worst = []
    for screw in range(len(plate.screws)):
        tries, ways = [first.best(screw)], first.peaks(screw)
        for spread in _NARROWING_DEG:
            near = np.concatenate([_cone(way, spread) for way in ways])
            tries.append(_Found(plate, force_n, point, rest, permitted, near).best(screw))
            ways = list(tries[-1].ways)
        worst.append(_summed(tries))
    if together:
        return tuple(worst)
    exact = force_n * _greatest_shears(plate, point)
    return tuple(
        WorstScrew(one.used, one.direction, one.tension_n, one.shear_n, one.most_tension_n, float(most))
        for one, most in zip(worst, exact, strict=True)
    )


def sphere(levels: int = _LEVELS) -> Array:
    """Unit vectors spread over the sphere: an icosahedron, each edge halved `levels` times (12, 42, 162, 642).

    >>> sphere().shape
    (642, 3)
    """
    golden = (1.0 + math.sqrt(5.0)) / 2.0
    corners = [(0.0, a, b * golden) for a in (-1.0, 1.0) for b in (-1.0, 1.0)]
    points = np.array([p[k:] + p[:k] for p in corners for k in range(3)])
    edge = 2.0
    for _ in range(levels):
        apart = np.linalg.norm(points[:, None] - points[None, :], axis=2)
        one, other = np.nonzero(np.triu((apart > 1e-9) & (apart < 1.25 * edge)))
        middles = points[one] + points[other]
        radius = float(np.linalg.norm(points[0]))
        middles *= radius / np.linalg.norm(middles, axis=1, keepdims=True)
        points, edge = np.concatenate([points, middles]), edge / 2.0
    return np.asarray(points / np.linalg.norm(points, axis=1, keepdims=True))


@dataclass(frozen=True)
class _Best:
    used: WorstScrew
    ways: tuple[Array, Array]


class _Found:
    """What all screws feel for a number of directions."""

    def __init__(
        self, plate: Plate, force_n: float, point: Vec3, rest: Array, permitted: tuple[float, float], ways: Array
    ) -> None:
        self.ways, self.permitted = ways, permitted
        wrenches = force_n * ways @ _unit_wrenches(point) + rest
        self.tension, shear, _ = _solve(plate, wrenches)
        self.shear = np.linalg.norm(shear, axis=2)
        self.used = self.tension / permitted[0] + self.shear / permitted[1]

    def best(self, screw: int) -> _Best:
        worst, most = int(np.argmax(self.used[:, screw])), int(np.argmax(self.tension[:, screw]))
        x, y, z = (float(value) for value in self.ways[worst])
        found = WorstScrew(
            float(self.used[worst, screw]),
            (x, y, z),
            float(self.tension[worst, screw]),
            float(self.shear[worst, screw]),
            float(self.tension[most, screw]),
            float(self.shear[:, screw].max()),
        )
        return _Best(found, (self.ways[worst], self.ways[most]))

    def peaks(self, screw: int) -> list[Array]:
        """The worst directions that are not each other's neighbours: peaks that the narrowing may start from."""
        found: list[Array] = []
        for values in (self.used[:, screw], self.tension[:, screw]):
            order = np.argsort(values)[::-1]
            for _ in range(_PEAKS):
                if not len(order):
                    break
                found.append(self.ways[order[0]])
                order = order[self.ways[order] @ found[-1] < math.cos(math.radians(_APART_DEG))]
        return found


def _summed(tries: list[_Best]) -> WorstScrew:
    top = max((one.used for one in tries), key=lambda one: one.used)
    tension = max(one.used.most_tension_n for one in tries)
    shear = max(one.used.most_shear_n for one in tries)
    return WorstScrew(top.used, top.direction, top.tension_n, top.shear_n, tension, shear)


def _cone(way: Array, spread_deg: float) -> Array:
    """Directions within `spread_deg` of `way`: itself and three rings."""
    aside = np.cross(way, (1.0, 0.0, 0.0) if abs(way[0]) < 0.7 else (0.0, 1.0, 0.0))
    aside /= np.linalg.norm(aside)
    other = np.cross(way, aside)
    turn = np.radians(np.arange(0, 360, 20))
    ring = np.cos(turn)[:, None] * aside + np.sin(turn)[:, None] * other
    rings = [math.cos(a) * way + math.sin(a) * ring for a in np.radians(spread_deg) * np.array([1 / 3, 2 / 3, 1.0])]
    return np.concatenate([way[None, :], *rings])


def _unit_wrenches(point: Vec3) -> Array:
    """Rows: the wrench of a unit force along x, y, z at the point: F_x, F_y, M_z, and F_z with its two moments."""
    x, y, z = point
    return np.array([[1, 0, -y, 0, -z, 0], [0, 1, x, 0, 0, -z], [0, 0, 0, 1, x, y]], dtype=float)


def _wrench(loads: Sequence[Load]) -> Array:
    total = np.zeros(6)
    for force, point in loads:
        total += np.array(force, dtype=float) @ _unit_wrenches(point)
    return total


def _solve(plate: Plate, wrenches: Array) -> tuple[Array, Array, Array]:
    """Tension (directions, screws), shear (directions, screws, 2), what presses (directions)."""
    screws = np.array(plate.screws, dtype=float)
    shear = _shear(screws, wrenches)
    tension = _tension(plate.hull, screws, wrenches[:, 3:])
    return tension, shear, tension.sum(axis=1) - wrenches[:, 3]


def _shear(screws: Array, wrenches: Array) -> Array:
    middle = screws.mean(axis=0)
    away = screws - middle
    polar = float((away**2).sum())
    moment = wrenches[:, 2] - (middle[0] * wrenches[:, 1] - middle[1] * wrenches[:, 0])
    turn = moment / polar if polar > 1e-9 else np.zeros(len(wrenches))
    across = np.stack([-away[:, 1], away[:, 0]], axis=1)
    return np.asarray(wrenches[:, None, :2] / len(screws) + turn[:, None, None] * across[None, :, :])


def _greatest_shears(plate: Plate, point: Vec3) -> Array:
    """Exactly, for a unit force from anywhere: the largest singular value of force -> shear of each screw."""
    shear = _shear(np.array(plate.screws, dtype=float), _unit_wrenches(point))
    return np.array([np.linalg.norm(shear[:, screw, :], ord=2) for screw in range(shear.shape[1])])


def _tension(hull: Array, screws: Array, pull: Array) -> Array:
    """`pull`: F_z, F_z x - ..., F_z y - ... a row. Every way of standing is tried for all rows at once."""
    size = _size(hull)
    middle = screws.mean(axis=0)
    corner, at = (hull - middle) / size, (screws - middle) / size
    load = np.stack([pull[:, 0], *((pull[:, 1 + k] - middle[k] * pull[:, 0]) / size for k in (0, 1))], axis=1)
    gaps, corners = (np.column_stack([np.ones(len(p)), p]) for p in (at, corner))
    inward = _inward(corner)
    flat = np.maximum(0.0, (load @ inward.T).max(axis=1))
    ways = [np.zeros_like(load)]
    faults = [flat]
    for basis, pressed in _ways_of_standing(corners, inward):
        moved, fault = _stands(gaps, corners, basis, pressed, load)
        ways.append(moved)
        faults.append(fault)
    fault, moved = np.stack(faults), np.stack(ways)
    chosen = fault.argmin(axis=0)
    rows = np.arange(len(load))
    scale = np.abs(load).max(axis=1) + 1e-12
    if (fault[chosen, rows] > _FAULT * scale).any():
        raise ValueError("the screws cannot hold the plate: nothing keeps it from turning")
    return np.asarray(np.maximum(0.0, moved[chosen, rows] @ gaps.T))


def _ways_of_standing(corners: Array, inward: Array) -> list[tuple[Array, list[int]]]:
    """Free; on each corner; on each edge: what movements are left (columns), and which corners press."""
    count = len(corners)
    found: list[tuple[Array, list[int]]] = [(np.eye(3), [])]
    for k, (_, x, y) in enumerate(corners):
        found.append((np.array([[-x, -y], [1.0, 0.0], [0.0, 1.0]]), [k]))
    for k in range(count):
        found.append((inward[k][:, None], [k, (k + 1) % count]))
    return found


def _stands(gaps: Array, corners: Array, basis: Array, pressed: list[int], load: Array) -> tuple[Array, Array]:
    """How the plate moves so (a, b, c a row), and by how much that breaks a rule [N]."""
    stiff = gaps.T @ gaps
    left = basis.T @ stiff @ basis
    moved = load @ basis @ np.linalg.pinv(left, rcond=1e-10) @ basis.T
    over = moved @ stiff - load
    fault = np.abs(over @ basis).max(axis=1)
    fault = np.maximum(fault, -(moved @ corners.T).min(axis=1))
    if pressed:
        presses = over @ np.linalg.pinv(corners[pressed])
        fault = np.maximum(fault, -presses.min(axis=1))
    return moved, np.maximum(0.0, fault)


def _inward(hull: Array) -> Array:
    """A row an edge: (c, nx, ny) with c + nx x + ny y the distance inwards."""
    along = np.roll(hull, -1, axis=0) - hull
    normal = np.stack([-along[:, 1], along[:, 0]], axis=1) / np.linalg.norm(along, axis=1, keepdims=True)
    return np.column_stack([-(normal * hull).sum(axis=1), normal])


def _size(hull: Array) -> float:
    return float(np.ptp(hull, axis=0).max())


def _chain(points: list[Vec2]) -> list[Vec2]:
    """Half of the convex hull, without its last point."""
    chain: list[Vec2] = []
    for x, y in points:
        while len(chain) > 1:
            (x0, y0), (x1, y1) = chain[-2:]
            if (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > 1e-12:
                break
            chain.pop()
        chain.append((x, y))
    return chain[:-1]
