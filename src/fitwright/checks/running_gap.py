"""The least gap beside printed bodies that move past printed bodies that stand still."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

import manifold3d
import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from fitwright.checks.positions import worst_share
from fitwright.checks.swept import swept
from fitwright.checks.things import Thing, finding, position
from fitwright.finding import Finding, Severity
from fitwright.mesh_distance import between, surface_points
from fitwright.part import Motion
from fitwright.place import words

Points = NDArray[np.float64]

LEAST_MM = 0.8
"""Two printed bodies pass each other with so much on every side: both scatter by 0.2 and the blade's play is taken up
(common practice, no source)."""
TOUCH_MM = 0.4
"""With less they may touch: each may come out 0.2 mm larger than drawn."""
SEARCH_MM = 6.0
STRETCH = 50.0
"""Along the motion a distance counts so many times: what lies ahead or behind is not beside."""
END_MM = 0.2
"""Where two bodies meet as stops they touch: so much of either end of the way is left out."""


@dataclass(frozen=True)
class _Beside:
    gap_mm: float
    at_least: bool
    mover: Thing
    still: Thing


def running_gaps(fixed: Sequence[Thing], movers: Sequence[Thing], motion: Motion) -> list[Finding]:
    """The least gap beside each printed body that moves: too little fails or warns, else the least of all passes."""
    if motion.travel_mm <= 2 * END_MM:
        return []
    pairs = itertools.product((t for t in movers if t.source is None), (t for t in fixed if t.source is None))
    found = [one for mover, still in pairs if (one := _beside(mover, still, motion))]
    short = [one for one in found if not one.at_least and one.gap_mm < LEAST_MM - 0.02]
    told = short or sorted(found, key=lambda one: one.gap_mm)[:1]
    return [_told(one, motion) for one in told]


def _stretched(solid: manifold3d.Manifold, motion: Motion) -> manifold3d.Manifold:
    way = np.array(motion.direction)
    matrix = np.eye(3) + (STRETCH - 1.0) * np.outer(way, way)
    return solid.transform(np.hstack([matrix, np.zeros((3, 1))]))


def _inner(mover: Thing, motion: Motion) -> manifold3d.Manifold:
    """Its way without both very ends."""
    start = motion.shift(END_MM / motion.travel_mm)
    return swept(mover.solid.translate(start), motion.shift(1.0 - 2 * END_MM / motion.travel_mm))


def _beside(mover: Thing, still: Thing, motion: Motion) -> _Beside | None:
    """None where they share volume, which is a clash and told as one."""
    gap = between(_stretched(_inner(mover, motion), motion), _stretched(still.solid, motion), SEARCH_MM)
    if gap.common_mm3 > 0.0:
        return None
    mm = max(gap.gap_mm - mover.chord_mm - still.chord_mm, 0.0)
    return _Beside(min(mm, SEARCH_MM), gap.at_least, mover, still)


def _told(one: _Beside, motion: Motion) -> Finding:
    names = f"{one.mover.called} and {one.still.called}"
    if one.at_least:
        message = f"what moves passes what stands still with at least {SEARCH_MM:g} mm beside it"
        return finding("pass", "", SEARCH_MM, LEAST_MM, "whole part", message)
    share = worst_share(lambda share: -_gap_at(one, motion, share))
    place = f"{position(motion, share)}, at {words(_middle(one, motion, share))}"
    severity: Severity = "pass" if one.gap_mm >= LEAST_MM - 0.02 else ("warn" if one.gap_mm >= TOUCH_MM else "fail")
    if severity == "pass":
        message = f"what moves runs free: {one.gap_mm:.2f} mm between {names} are the least"
        return finding("pass", "", one.gap_mm, LEAST_MM, place, message)
    touch = "may touch as they come off the printer" if severity == "warn" else "will rub"
    message = f"only {one.gap_mm:.2f} mm are left between {names}, which {touch}"
    advice = f"{LEAST_MM:g} mm on each side let them pass. Measure blade, body and rod again, or choose another frame."
    return finding(severity, one.mover.name, one.gap_mm, LEAST_MM, place, message, advice)


def _gap_at(one: _Beside, motion: Motion, share: float) -> float:
    mover = replace(one.mover, motion=motion).at(share)
    return between(_stretched(mover.solid, motion), _stretched(one.still.solid, motion), SEARCH_MM).gap_mm


def _middle(one: _Beside, motion: Motion, share: float) -> list[float]:
    """About where the two are nearest, for words."""
    mover = replace(one.mover, motion=motion).at(share)
    way = np.array(motion.direction)
    stretch = np.eye(3) + (STRETCH - 1.0) * np.outer(way, way)
    ours, theirs = _spread(mover), _spread(one.still)
    distance, which = cKDTree(theirs @ stretch).query(ours @ stretch)
    best = int(np.argmin(distance))
    middle: list[float] = ((ours[best] + theirs[which[best]]) / 2).tolist()
    return middle


def _spread(thing: Thing) -> Points:
    return surface_points(np.asarray(thing.mesh.vertices), np.asarray(thing.mesh.faces), 1.5, 30_000)
