"""Where the two corners of a centreline in space go so that its fillets have the largest least radius.

The line leaves P0 along T0 for `a` mm, turns at a corner, runs straight, turns at a second corner and arrives at P1
along T1 over the last `b` mm. Fillets of radius R take R tan(turn / 2) of the lines beside them, so that

    1 / R  >=  max(t0 / a, t1 / b, (t0 + t1) / between),    t = tan(turn / 2)

The two free numbers are searched without derivatives (the optimum sits where two or three of these are equal, in a
kink): for each `a` the best `b`, then the best `a`, each narrowed to one step either side until it is known to
rounding. Where all three are equal the line is two arcs of one radius without a straight, and `b` follows from `a` in
closed form.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec

Numbers = NDArray[np.float64]
Most = tuple[float, float]
"""The largest tan(turn / 2) at the first and at the second corner."""

COARSE = 64
FINE = 9
LEVELS, QUICK_LEVELS = 17, 6
"""Steps of a search, and how often it is narrowed: to a rounding error, or to about 1e-4 for a trial."""
NEAREST, FARTHEST = 1e-6, 0.92
"""Where a corner may lie, as a share of (itself + the distance of the ends): up to 11 distances."""
BOTH_RAD = math.radians(225.0)
"""Both bends together turn no further: beyond that the line goes round in a loop and meets itself."""
_LOOP = -math.tan(BOTH_RAD / 2)
TINY_REL = 1e-5
"""Straights shorter than this share of the ends' distance are none: the arcs beside them take them up."""


@dataclass(frozen=True)
class Ends:
    """Two poses in space as the numbers that the search needs; `d` is the vector between them [mm]."""

    t0: Vec
    t1: Vec
    d: Vec

    @property
    def apart_mm(self) -> float:
        """Distance of the ends."""
        return math.hypot(*self.d)

    @cached_property
    def _products(self) -> tuple[float, ...]:
        """d.d, d.t0, d.t1, t0.t1 and of t0 x (d - b t1), (d - a t0) x t1 the squares' coefficients in b and a."""
        d, t0, t1 = np.array(self.d), np.array(self.t0), np.array(self.t1)
        x, y, z = np.cross(t0, d), np.cross(d, t1), np.cross(t0, t1)
        products = (d @ d, d @ t0, d @ t1, t0 @ t1, x @ x, x @ z, y @ y, y @ z, z @ z)
        return tuple(float(value) for value in products)

    def turns(self, a: Numbers, b: Numbers) -> tuple[Numbers, Numbers, Numbers]:
        """tan(half the turn) at both corners, and the distance [mm] between them."""
        dd, d0, d1, c, xx, xz, yy, yz, zz = self._products
        between = np.sqrt(np.maximum(dd + a * (a - 2 * d0 + 2 * c * b) + b * (b - 2 * d1), 1e-30))
        s0 = np.sqrt(np.maximum(xx - b * (2 * xz - zz * b), 0.0))
        s1 = np.sqrt(np.maximum(yy - a * (2 * yz - zz * a), 0.0))
        return _half_tan(s0, d0 - a - b * c, between), _half_tan(s1, d1 - a * c - b, between), between

    def curvature(self, a: Numbers, b: Numbers, most: Most) -> Numbers:
        """1 / R [1/mm] of the largest fillets that fit; infinite where a corner turns by more than tan(turn/2) = most.

        Infinite as well where both corners together turn by more than BOTH_RAD.
        """
        first, second, between = self.turns(a, b)
        found = np.maximum(np.maximum(first / a, second / b), (first + second) / between)
        loop = first + second < _LOOP * (first * second - 1.0)  # tan of the sum of both halves
        return np.where((first > most[0]) | (second > most[1]) | loop, np.inf, found)


def _half_tan(across: Numbers, along: Numbers, size: Numbers) -> Numbers:
    """tan(half the angle) of a vector's parts across and along a direction."""
    return np.where(
        along > 0.0, across / np.maximum(size + along, 1e-150), (size - along) / np.maximum(across, 1e-9 * size)
    )


@dataclass(frozen=True)
class Corners:
    """The two corners: run to the first, run after the second [mm], radius of each fillet [mm]."""

    a_mm: float
    b_mm: float
    radii_mm: tuple[float, float]

    @property
    def radius_mm(self) -> float:
        """The smaller of both."""
        return min(self.radii_mm)


def widest(ends: Ends, most_rad: tuple[float, float], quick: bool = False) -> Corners | None:
    """The corners with the largest least radius, neither turn above its `most_rad`, or None where there are none."""
    most, d = _half_tans(most_rad), ends.apart_mm
    if d < 1e-9:
        return None
    shares = np.linspace(0.0, FARTHEST, COARSE)
    shares[0] = NEAREST
    runs = d * shares / (1.0 - shares)
    rough, _ = _best_b(ends, runs, runs, most, QUICK_LEVELS // 2)
    trials = [(_narrowed(ends, runs, k, most, QUICK_LEVELS), k) for k in _lowest(rough)]
    if not trials:
        return None
    (_, a, b), k = min(trials)
    if not quick:
        _, a, b = _narrowed(ends, runs, k, most, LEVELS)
    return _with_radii(ends, a, b)


def _lowest(values: Numbers) -> list[int]:
    """Places of up to three lowest local minima."""
    padded = np.concatenate([[np.inf], values, [np.inf]])
    low = (values <= padded[:-2]) & (values <= padded[2:]) & np.isfinite(values)
    places = [int(k) for k in np.flatnonzero(low)]
    return sorted(places, key=lambda k: (float(values[k]), k))[:3]


def _best_b(ends: Ends, a: Numbers, runs: Numbers, most: Most, levels: int) -> tuple[Numbers, Numbers]:
    """For each `a` the least curvature over all `b`, and that b."""
    grid = np.broadcast_to(runs, (len(a), len(runs)))
    rows = np.arange(len(a))
    for level in range(levels + 1):
        found = ends.curvature(a[:, None], grid, most)
        k = found.argmin(axis=1)
        best, value = grid[rows, k], found[rows, k]
        if level < levels:
            low, high = grid[rows, np.maximum(k - 1, 0)], grid[rows, np.minimum(k + 1, grid.shape[1] - 1)]
            grid = low[:, None] + (high - low)[:, None] * np.linspace(0.0, 1.0, 2 * FINE)
    return value, best


def _narrowed(ends: Ends, runs: Numbers, k: int, most: Most, levels: int) -> tuple[float, float, float]:
    """(curvature, a, b) of the least curvature about the coarse step k."""
    low, high = float(runs[max(k - 1, 0)]), float(runs[min(k + 1, len(runs) - 1)])
    inner = max(levels * 2 // 3, 4)
    best = (math.inf, 0.0, 0.0)
    for _ in range(levels):
        a = np.linspace(low, high, FINE)
        value, b = _best_b(ends, a, runs, most, inner)
        j = int(value.argmin())
        best = min(best, (float(value[j]), float(a[j]), float(b[j])))
        low, high = float(a[max(j - 1, 0)]), float(a[min(j + 1, FINE - 1)])
    return best


def _with_radii(ends: Ends, a: float, b: float) -> Corners | None:
    """The fillets at these corners, so that no sliver of a straight is left beside them and all lengths add up."""
    t0, t1, between = _turns_at(ends, a, b)
    curvature = max(t0 / a, t1 / b, (t0 + t1) / between)
    if not (0.0 < curvature < math.inf):
        return None
    tiny, radius = TINY_REL * ends.apart_mm, 1.0 / curvature
    used = [run - radius * t < tiny for run, t in ((a, t0), (b, t1), (between, t0 + t1))]
    r0, r1 = a / t0 if used[0] else radius, b / t1 if used[1] else radius
    if all(used):
        return _two_arcs(ends, a) or Corners(a, b, (radius, radius))
    if used[2] and used[0]:  # the second fillet takes exactly what the first leaves
        r1 = (between - a) / t1
    elif used[2] and used[1]:
        r0 = (between - b) / t0
    elif used[2]:
        r0 = r1 = between / (t0 + t1)
    return Corners(a, b, (r0, r1))


def _turns_at(ends: Ends, a: float, b: float) -> tuple[float, float, float]:
    first, second, between = ends.turns(np.array([a]), np.array([b]))
    return float(first[0]), float(second[0]), float(between[0])


def _two_arcs(ends: Ends, a: float) -> Corners | None:
    """The corners of two arcs without a straight near `a`, of one radius where a corner's limit leaves it free.

    |q1 - q0| = a + b holds by the choice of b; Newton's method then makes both radii equal.
    """
    tiny = TINY_REL * ends.apart_mm
    corners = _joined_arcs(ends, a)
    for _ in range(12):
        step = 1e-6 * a
        near, far = _joined_arcs(ends, a - step), _joined_arcs(ends, a + step)
        if corners is None or near is None or far is None:
            return corners
        (r0, r1), slope = corners.radii_mm, (_unequal(far) - _unequal(near)) / (2 * step)
        move = -(r0 - r1) / slope if slope else 0.0
        if abs(r0 - r1) <= 1e-13 * r0 or abs(move) > tiny:  # equal, or held apart by a limit
            return corners
        onward = _joined_arcs(ends, a + move)
        if onward is None or abs(_unequal(onward)) >= abs(r0 - r1):
            return corners
        a, corners = a + move, onward
    return corners


def _unequal(corners: Corners) -> float:
    return corners.radii_mm[0] - corners.radii_mm[1]


def _joined_arcs(ends: Ends, a: float) -> Corners | None:
    """The line whose first arc uses up `a` and whose arcs meet; its b follows from |q1 - q0| = a + b."""
    d, t0, t1 = (np.array(v) for v in (ends.d, ends.t0, ends.t1))
    below = float(2 * (d @ t1) + 2 * a * (1.0 - t0 @ t1))
    b = float(d @ d - 2 * a * (d @ t0)) / below if abs(below) > 1e-12 else -1.0
    if b <= 0.0:
        return None
    first, second, between = _turns_at(ends, a, b)
    met = abs(between - a - b) < 1e-9 * between and first > 0.0 and second > 0.0
    return Corners(a, b, (a / first, b / second)) if met else None


def _half_tans(most_rad: tuple[float, float]) -> Most:
    return math.tan(most_rad[0] / 2), math.tan(most_rad[1] / 2)


def of_radius(ends: Ends, radius_mm: float, most_rad: tuple[float, float]) -> Corners | None:
    """The shortest line with fillets of this radius right at both ends and a straight between, or None.

    a = R t0 and b = R t1 are solved by Newton's method from many starts at once.
    """
    most, d = _half_tans(most_rad), ends.apart_mm
    starts = np.geomspace(0.02 * d, 3.0 * d, 9)
    a, b = (grid.ravel() for grid in np.meshgrid(starts, starts))
    step = 1e-6 * d

    def missing(a: Numbers, b: Numbers) -> tuple[Numbers, Numbers]:
        first, second, _ = ends.turns(a, b)
        return a - radius_mm * first, b - radius_mm * second

    with np.errstate(all="ignore"):
        for _ in range(40):
            f, g = missing(a, b)
            (fa, ga), (fb, gb) = missing(a + step, b), missing(a, b + step)
            faa, gaa, fbb, gbb = (fa - f) / step, (ga - g) / step, (fb - f) / step, (gb - g) / step
            det = faa * gbb - fbb * gaa
            move_a, move_b = (f * gbb - g * fbb) / det, (g * faa - f * gaa) / det
            most_move = np.maximum(np.maximum(np.abs(move_a), np.abs(move_b)) / (0.5 * d), 1.0)
            a, b = np.clip(a - move_a / most_move, 1e-9, 50 * d), np.clip(b - move_b / most_move, 1e-9, 50 * d)
        f, g = missing(a, b)
        first, second, between = ends.turns(a, b)
        straight = between - radius_mm * (first + second)
        fits = (np.hypot(f, g) < 1e-9 * d) & (straight >= 0) & (first <= most[0]) & (second <= most[1])
    if not fits.any():
        return None
    turned = radius_mm * 2 * (np.arctan(first) + np.arctan(second)) + straight
    k = int(np.where(fits, turned, np.inf).argmin())
    return Corners(float(a[k]), float(b[k]), (float(a[k] / first[k]), float(b[k] / second[k])))
