"""How far each flat underside hangs: as a bridge between two supports, a ledge on one, or a slope of small steps.

Every sample point is given the kindest of the three readings that is true of it, and a place is as good as its worst
point: within 0.8 mm of a wall a long roof is a ledge that prints, in its middle it is a bridge that does not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.frame import Vec
from fitwright.printing.laid import Array, Bools, Ints, Laid
from fitwright.printing.limits import BRIDGE_MM, FLATTEST_RAD, GRADES, LEDGE_MM, RANK, Form, Grade, judge, judge_slope
from fitwright.printing.patch import Patch, patches
from fitwright.printing.rays import Rim

SAMPLES = 300
"""Points spread over a patch, besides those on its rim."""
RIM_SAMPLES = 400
"""At most so many points along a patch's free rim: two on each edge of a ring of 200."""
FLATTEST = 50
"""The middles of so many of the flattest faces are looked at, however small these are."""
INSET = 1e-4
"""Samples on the rim are moved inwards by this share of their triangle, so that rays start inside."""
CHUNK = 32
"""Doubtful points are asked for a bridge so many at a time, worst first."""
FEW = 40
"""Patches with no more rim edges than this are tried for being small."""


@dataclass(frozen=True)
class Overhang:
    """The worst point of one underside: `value` is a span [mm], a reach [mm], or a slope above the horizontal [deg].

    `held` is False where nothing at all holds it: an island, which is reported as such.
    """

    form: Form
    value: float
    grade: Grade
    at: Vec
    height_mm: float
    area_mm2: float
    held: bool


@dataclass(frozen=True)
class Settings:
    """What the printer lays down."""

    layer_mm: float
    line_mm: float


@dataclass(frozen=True)
class _Samples:
    points_mm: Array
    slope_rad: Array


def overhangs(laid: Laid, settings: Settings) -> tuple[Overhang, ...]:
    """Every underside flatter than 45 degrees, worst first."""
    found = [_judge_patch(laid, patch, settings) for patch in patches(laid, settings.layer_mm)]
    return tuple(sorted(found, key=lambda o: (-RANK[o.grade], -o.area_mm2)))


def _judge_patch(laid: Laid, patch: Patch, settings: Settings) -> Overhang:
    rim = Rim(patch.rim_mm[:, :, :2], patch.held)
    if (small := _small(laid, patch, rim)) is not None:
        return small
    samples = _sample(laid, patch)
    reach, towards = rim.reach(samples.points_mm[:, :2])
    ledge = _ranks(reach, LEDGE_MM)
    slope = np.array([RANK[judge_slope(float(s), settings.layer_mm, settings.line_mm)] for s in samples.slope_rad])
    rank = np.minimum(ledge, slope)
    span = np.full(len(rank), math.inf)
    if patch.held.any():
        span = _spans(rim, samples.points_mm[:, :2], towards, reach, rank)
    rank = np.minimum(rank, _ranks(span, BRIDGE_MM))
    return _worst(laid, patch, samples, reach, span, rank, np.asarray(slope == rank.max()))


def _small(laid: Laid, patch: Patch, rim: Rim) -> Overhang | None:
    """A patch of few corners that lies wholly within a clean ledge of one edge: no more is asked of it."""
    if len(patch.held) > FEW:
        return None
    points = laid.points_mm[np.unique(laid.faces[patch.faces])]
    reach = rim.within(points[:, :2])
    if reach > LEDGE_MM[0]:
        return None
    point = points[np.argmax(points[:, 2])]
    return Overhang("ledge", reach, "clean", laid.in_part(point), float(point[2]), _plan_area(laid, patch), True)


def _plan_area(laid: Laid, patch: Patch) -> float:
    return float(-laid.area_vectors_mm2[patch.faces, 2].sum())


def _ranks(values: Array, limits_mm: tuple[float, float]) -> Ints:
    return np.array([RANK[judge(float(v), limits_mm)] for v in values], dtype=np.int64)


def _spans(rim: Rim, points: Array, towards: Array, reach: Array, rank: Ints) -> Array:
    """Bridge spans of the points that could change the verdict, worst first; inf elsewhere.

    A point whose nearest support is further than half the longest bridge is on no bridge. Once some point stays bad,
    those that were no worse to begin with cannot change the answer.
    """
    span = np.full(len(rank), math.inf)
    order = np.lexsort((-reach, -rank))
    level = 0
    for first in range(0, len(order), CHUNK):
        chunk = order[first : first + CHUNK]
        if rank[chunk[0]] <= level:
            break
        near = chunk[(reach[chunk] <= BRIDGE_MM[1] / 2) & (rank[chunk] > 0)]
        span[near] = rim.span(points[near], towards[near])
        level = max(level, int(np.minimum(rank[chunk], _ranks(span[chunk], BRIDGE_MM)).max()))
    return span


def _worst(
    laid: Laid, patch: Patch, samples: _Samples, reach: Array, span: Array, rank: Ints, sloping: Bools
) -> Overhang:
    level = int(rank.max())
    form, value, which = _reading(samples, reach, span, np.asarray(rank == level), sloping)
    point = samples.points_mm[which]
    area = _plan_area(laid, patch)
    return Overhang(form, value, GRADES[level], laid.in_part(point), float(point[2]), area, bool(patch.held.any()))


def _reading(samples: _Samples, reach: Array, span: Array, among: Bools, by_slope: Bools) -> tuple[Form, float, int]:
    """The reading to report: a bridge where the worst points are held on two sides, a slope, or a ledge.

    A slope is named only where it is no worse than the verdict (`by_slope`); else nearness to a wall has saved it.
    """
    bridged = among & np.isfinite(span)
    if bridged.any():
        which = int(np.argmax(np.where(bridged, span, -1.0)))
        return "bridge", float(span[which]), which
    sloping = among & by_slope & (samples.slope_rad > math.radians(5.0)) & (reach > LEDGE_MM[0])
    if sloping.any():
        which = int(np.argmin(np.where(sloping, samples.slope_rad, np.inf)))
        return "slope", math.degrees(float(samples.slope_rad[which])), which
    which = int(np.argmax(np.where(among, reach, -1.0)))
    return "ledge", float(reach[which]), which


def _sample(laid: Laid, patch: Patch) -> _Samples:
    """Points on the free rim, over the area, and in the middle of the flattest faces; each a little inside."""
    vectors = laid.area_vectors_mm2[patch.faces]
    area = np.linalg.norm(vectors, axis=1)
    slope = np.arccos(np.clip(-vectors[:, 2] / np.maximum(area, 1e-12), -1.0, 1.0))
    under = np.flatnonzero((slope < FLATTEST_RAD + 1e-6) & (area > 1e-12))
    corners = laid.points_mm[laid.faces[patch.faces]]
    flattest = under[np.argsort(slope[under], kind="stable")[:FLATTEST]]
    owner, weights = _spread(area[under])
    spread = np.einsum("nk,nkd->nd", weights, corners[under[owner]])
    rim, rim_owner = _rim_points(patch, corners)
    points = np.concatenate([corners[flattest].mean(axis=1), spread, rim])
    owners = np.concatenate([flattest, under[owner], rim_owner])
    return _Samples(points, slope[owners])


def _rim_points(patch: Patch, corners: Array) -> tuple[Array, Ints]:
    """Both ends of each free rim edge, moved a little into its face, and that face's place in the patch."""
    free = np.flatnonzero(~patch.held)
    free = free[:: max(1, math.ceil(2 * len(free) / RIM_SAMPLES))]
    owner = np.tile(np.searchsorted(patch.faces, patch.rim_face[free]), 2)
    ends = patch.rim_mm[free].transpose(1, 0, 2).reshape(-1, 3)
    return ends + INSET * (corners[owner].mean(axis=1) - ends), owner


def _spread(area: Array) -> tuple[Ints, Array]:
    """Evenly spread points in proportion to area: the R2 sequence folded into each triangle (M. Roberts, 2018)."""
    edges = np.concatenate([[0.0], np.cumsum(area)]) / area.sum()
    k = np.arange(SAMPLES)
    owner = np.clip(np.searchsorted(edges, (k + 0.5) / SAMPLES) - 1, 0, len(area) - 1)
    u, v = (0.7548776662466927 * (k + 1)) % 1.0, (0.5698402909980532 * (k + 1)) % 1.0
    fold = u + v > 1.0
    u, v = np.where(fold, 1.0 - u, u), np.where(fold, 1.0 - v, v)
    return owner.astype(np.int64), np.stack([1.0 - u - v, u, v], axis=1)
