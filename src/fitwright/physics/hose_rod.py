"""A hose as a heavy rod: it bends against its stiffness, does not stretch, and is free to twist.

Lengths in mm, forces in N, weight in N/mm, stiffness in N mm2 (E I); points and directions are (right, away, up). The
shape is that of least energy, E I / 2 times the square of the curvature along it and its weight times height, for a
given length between two ends that hold it in a direction or let it turn: the heavy elastica (W. G. Bickley, The heavy
elastica, Philosophical Magazine 17, 1934; without weight Euler's, S. P. Timoshenko and J. M. Gere, Theory of Elastic
Stability, 1961, section 2.7). It is cut into links, short at both ends where it turns most, and the energy is made
least by Newton's method on the directions of the links; that they join both ends is held by three multipliers, which
are the force at the end.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fitwright.frame import Vec
from fitwright.physics.hose_span import LEAST_SLACK

Array = npt.NDArray[np.float64]
LINKS = 96
"""Force and least radius are within 1 % of those with ever more links (found by doubling), nearly taut within 2 %."""
EVEN = 0.3
"""Share of the links' lengths that is spread evenly; the rest is drawn together at the ends (cosine)."""
FOLDED = 2.0
"""Two links that turn so far [rad] from one to the next have folded onto each other: no rest of a hose."""
STIFFER = 30.0
"""Where it comes to no rest at once, a rod so much stiffer is laid first, and let go from there."""
ASIDE = 0.02
"""What hangs straight down begins so much aside."""
BENDS = 0.08
"""Share of the length over which a first guess turns in at an end."""
_ROUNDS, _STEPS = 14, 80
_BAND = 3
_CLOSES = 1e-7
"""How near both ends are met, as a share of the length."""


@dataclass(frozen=True)
class Rod:
    """How it stands: its points, the least radius, and what it does to what holds its start and end."""

    points: tuple[Vec, ...]
    radius_mm: float
    on_start: Vec
    on_end: Vec

    @property
    def lowest_mm(self) -> float:
        """Height of the lowest point of its centreline."""
        return min(one[2] for one in self.points)


@dataclass(frozen=True)
class _Links:
    """The rod in units of its length and of w L + E I / L^2: links, ends, stiffness, weight."""

    long: Array
    span: Array
    stiff: float
    weighs: float
    leaves: Array | None
    arrives: Array | None

    @property
    def joints(self) -> Array:
        """Stiffness of the joint between two links."""
        return self.stiff / ((self.long[1:] + self.long[:-1]) / 2)

    @property
    def lever(self) -> Array:
        """Weight times height, a link's direction up: its own half and all after it."""
        after = np.cumsum(self.long[::-1])[::-1] - self.long / 2
        return self.weighs * self.long * after

    def held(self) -> list[tuple[int, Array, float]]:
        """Link, direction and stiffness of the ends that are held."""
        ends = ((0, self.leaves), (len(self.long) - 1, self.arrives))
        return [(k, way, self.stiff / (self.long[k] / 2)) for k, way in ends if way is not None]


def stood(
    start: Vec,
    leaves: Vec | None,
    end: Vec,
    arrives: Vec | None,
    length_mm: float,
    stiff_n_mm2: float,
    weight: float,
    hangs: bool = True,
) -> Rod | None:
    """How it stands; None where there is no slack, or no rest was found.

    None as a direction: free to turn there. A stiff one may stand in more than one way: it is looked for from an arc
    that hangs down, or one that stands up.
    """
    if length_mm <= math.dist(start, end) * (1.0 + LEAST_SLACK):
        return None
    cuts = _cuts()
    held = [None if way is None else np.asarray(way) for way in (leaves, arrives)]
    span = (np.asarray(end) - np.asarray(start)) / length_mm
    ways = None
    for stiffer in (1.0, STIFFER, 1.0):
        stiff_n = stiffer * stiff_n_mm2 / length_mm**2
        unit_n = weight * length_mm + stiff_n
        links = _Links(np.diff(cuts), span, stiff_n / unit_n, weight * length_mm / unit_n, held[0], held[1])
        arc = _turned_in(links, _begin(span, cuts, -1.0 if hangs else 1.0), cuts)
        found = _rest(links, arc if ways is None else ways)
        if found is not None and max(_curves(links, found[0])[1]) < FOLDED:
            if stiffer == 1.0:
                return _rod(links, found[0], found[1] * unit_n, start, length_mm, weight)
            ways = found[0]
    return None


def _rod(links: _Links, ways: Array, pull_n: Array, start: Vec, length_mm: float, weight: float) -> Rod:
    corners = np.vstack([np.zeros(3), np.cumsum(links.long[:, None] * ways, axis=0)]) * length_mm + np.asarray(start)
    on_start = pull_n - np.array((0.0, 0.0, weight * length_mm))
    most = max(_curves(links, ways)[0])
    return Rod(
        tuple((float(x), float(y), float(z)) for x, y, z in corners),
        length_mm / most if most > 1e-12 else math.inf,
        (float(on_start[0]), float(on_start[1]), float(on_start[2])),
        (-float(pull_n[0]), -float(pull_n[1]), -float(pull_n[2])),
    )


def _cuts() -> Array:
    """Where it is cut, from 0 to 1."""
    even = np.linspace(0.0, 1.0, LINKS + 1)
    return EVEN * even + (1 - EVEN) * (1 - np.cos(math.pi * even)) / 2


def _begin(span: Array, cuts: Array, up: float) -> Array:
    """The links of an arc through both ends, hanging (-1) or standing (1): smooth, nothing is folded to begin with."""
    chord = float(np.linalg.norm(span))
    along = span / chord
    down = np.array((0.0, 0.0, up)) + ASIDE * _across(along[None, :])[0, :, 0]
    down = down - (down @ along) * along
    down = down / np.linalg.norm(down)
    low, high = 0.0, math.pi
    for _ in range(60):
        half = (low + high) / 2
        low, high = (half, high) if math.sin(half) > chord * half else (low, half)
    turn = low * (1.0 - (cuts[1:] + cuts[:-1]))[:, None]
    return np.asarray(np.cos(turn) * along + np.sin(turn) * down)


def _turned_in(links: _Links, ways: Array, cuts: Array) -> Array:
    """The same, turned at both ends into the directions that it is held in, the less the farther from there."""
    middles = (cuts[1:] + cuts[:-1]) / 2
    for way, k, away in ((links.leaves, 0, middles), (links.arrives, -1, 1.0 - middles)):
        if way is None:
            continue
        axis = np.cross(ways[k], way)
        turn = math.atan2(float(np.linalg.norm(axis)), float(ways[k] @ way))
        if np.linalg.norm(axis) < 1e-6:
            axis = _across(ways[k][None, :])[0, :, 0]
        axis = axis / np.linalg.norm(axis)
        by = (turn * np.exp(-away / BENDS))[:, None]
        ways = (
            ways * np.cos(by) + np.cross(axis, ways) * np.sin(by) + axis * (ways @ axis)[:, None] * (1.0 - np.cos(by))
        )
    return ways


def _rest(links: _Links, ways: Array) -> tuple[Array, Array] | None:
    """Directions of the links at rest, and the force that holds the end; None where it does not come to rest.

    The ends are drawn together harder than the rod's buckling load from the first: else it would lie straight.
    """
    slack = 1.0 - float(np.linalg.norm(links.span))
    pull, hard = np.zeros(3), 30.0 * max(1.0, min(20.0 * links.stiff / slack, 1e4))
    off = np.inf
    for _ in range(_ROUNDS):
        ways = _least(links, ways, pull, hard)
        gap = links.long @ ways - links.span
        pull = pull - hard * gap
        before, off = off, float(np.linalg.norm(gap))
        if off < _CLOSES:
            return ways, pull
        if off > 0.1 * before:
            hard *= 8.0
    return None


def _least(links: _Links, ways: Array, pull: Array, hard: float) -> Array:
    """Newton's method with as much damping as keeps the energy falling."""
    energy, damp = _energy(links, ways, pull, hard), 1e-3
    for _ in range(_STEPS):
        slopes = _slopes(links, ways, pull, hard)
        while damp < 1e9:
            step = slopes.step(damp)
            tried = ways + np.einsum("kij,kj->ki", slopes.base, step.reshape(-1, 2))
            tried = tried / np.linalg.norm(tried, axis=1)[:, None]
            found = _energy(links, tried, pull, hard)
            if found <= energy + 1e-15 * abs(energy) and float(step @ slopes.first) < 0.0:
                break
            damp *= 4.0
        else:
            return ways
        moved = float(np.abs(step).max())
        ways, energy, damp = tried, found, max(damp / 10.0, 1e-12)
        if moved < 1e-10:
            break
    return ways


def _energy(links: _Links, ways: Array, pull: Array, hard: float) -> float:
    gap = links.long @ ways - links.span
    bends = 0.5 * float(links.joints @ ((ways[1:] - ways[:-1]) ** 2).sum(axis=1))
    ends = sum(0.5 * stiff * float(((ways[k] - way) ** 2).sum()) for k, way, stiff in links.held())
    return bends + ends + float(links.lever @ ways[:, 2]) - float(pull @ gap) + 0.5 * hard * float(gap @ gap)


@dataclass(frozen=True)
class _Slopes:
    """Derivatives of the energy by turning the links: the second ones are a band and hard x (closes closes')."""

    first: Array
    band: Array
    closes: Array
    hard: float
    base: Array
    """The two directions that each link may turn in."""

    def step(self, damp: float) -> Array:
        """Newton's step, damped; the closing is taken in by the Woodbury identity."""
        band = self.band.copy()
        band[_BAND] += damp * np.abs(band[_BAND] + self.hard * (self.closes**2).sum(axis=1)).mean()
        from scipy.linalg import solve_banded  # slow to import: only where a piece is reckoned

        solved = solve_banded((_BAND, _BAND), band, np.column_stack([self.first, self.closes]), check_finite=False)
        straight, closing = solved[:, 0], solved[:, 1:]
        small = np.eye(3) / self.hard + self.closes.T @ closing
        return np.asarray(closing @ np.linalg.solve(small, self.closes.T @ straight) - straight)


def _slopes(links: _Links, ways: Array, pull: Array, hard: float) -> _Slopes:
    count = len(ways)
    gap = links.long @ ways - links.span
    first = links.long[:, None] * (hard * gap - pull)
    first[:, 2] += links.lever
    diagonal = np.zeros(count)
    differ = links.joints[:, None] * (ways[1:] - ways[:-1])
    first[1:] += differ
    first[:-1] -= differ
    diagonal[1:] += links.joints
    diagonal[:-1] += links.joints
    for k, way, stiff in links.held():
        first[k] += stiff * (ways[k] - way)
        diagonal[k] += stiff
    base = _across(ways)
    turns = diagonal - np.einsum("ka,ka->k", first, ways)
    beside = -np.einsum("kai,kaj->kij", base[:-1], base[1:]) * links.joints[:, None, None]
    closes = (links.long[:, None, None] * base).transpose(0, 2, 1).reshape(2 * count, 3)
    slope = np.einsum("kai,ka->ki", base, first).ravel()
    return _Slopes(slope, _banded(turns, beside), closes, hard, base)


def _banded(turns: Array, beside: Array) -> Array:
    """Diagonal and the blocks beside it, as LAPACK stores a band: row 3 + r - c, column c."""
    band = np.zeros((2 * _BAND + 1, 2 * len(turns)))
    band[_BAND] = np.repeat(turns, 2)
    at = 2 * np.arange(len(turns) - 1)
    for i in (0, 1):
        for j in (0, 1):
            row, column = at + i, at + 2 + j
            band[_BAND + i - 2 - j, column] = beside[:, i, j]
            band[_BAND + 2 + j - i, row] = beside[:, i, j]
    return band


def _across(ways: Array) -> Array:
    """Two directions square to each link and to each other, as columns."""
    aside = np.where(np.abs(ways[:, 2:3]) < 0.9, np.array((0.0, 0.0, 1.0)), np.array((1.0, 0.0, 0.0)))
    one = np.cross(ways, aside)
    one /= np.linalg.norm(one, axis=1)[:, None]
    return np.stack([one, np.cross(ways, one)], axis=2)


def _curves(links: _Links, ways: Array) -> tuple[list[float], list[float]]:
    """Angle turned over length of hose, and the angle [rad], at every joint and at ends that are held."""
    steps = [(float(np.linalg.norm(d)), long) for d, long in zip(np.diff(ways, axis=0), _between(links), strict=True)]
    steps += [(float(np.linalg.norm(ways[k] - way)), float(links.long[k]) / 2) for k, way, _ in links.held()]
    turns = [2.0 * math.asin(min(1.0, chord / 2)) for chord, _ in steps]
    return [turn / long for turn, (_, long) in zip(turns, steps, strict=True)], turns


def _between(links: _Links) -> list[float]:
    return [float(x) for x in (links.long[1:] + links.long[:-1]) / 2]
