"""A hose run worked out: how every span hangs, which lengths serve the travel, what each hanger feels.

Lengths in mm, forces in N with the hose half full.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from fitwright.frame import Vec
from fitwright.physics.hose_fixed import Fixed, with_room_mm
from fitwright.physics.hose_head import Limits, Reach, Way
from fitwright.physics.hose_piece import Piece, piece_with_pull, piece_with_sag
from fitwright.physics.hose_row import Felt, SpanJudged, felt, judged_span
from fitwright.physics.hose_travel import Box, Stands, Window, window, worst_place
from fitwright.physics.hose_trolley import Rolling
from fitwright.spec.run import MovingHead, RunSpec, Station
from fitwright.spec.run_felt import moving_felt

STEEP = 0.3
"""A fixed piece that goes less than this share of its straight line sideways is not drawn tight, but given slack."""
GIVEN_SLACK = 1.02
TROLLEY_SLACK = 1.03
"""So much more than the straight line, where nobody says (common practice, no source)."""
SPARE = 1.02
"""What is cut is a fiftieth longer than the shortest that reaches, where there is room (common practice, no source)."""
CUT_MM = 10.0
"""Cut to the next whole centimetre."""


@dataclass(frozen=True)
class RowSolved:
    """Spans in their order, what each place feels, and all of the hose."""

    spans: tuple[SpanJudged, ...]
    felt: tuple[Felt, ...]

    @property
    def length_mm(self) -> float:
        """From the first place to the last."""
        return math.fsum(one.piece.span.length_mm for one in self.spans)


def solved_row(run: RunSpec) -> RowSolved:
    """All spans of a row."""
    pieces = [_row_piece(a, b, run.parameter_mm) for a, b in zip(run.stations, run.stations[1:], strict=False)]
    return RowSolved(tuple(judged_span(one) for one in pieces), felt(pieces, run.hose.full_n_mm))


def _row_piece(start: Station, end: Station, parameter_mm: float) -> Piece:
    if start.sag_mm is not None:
        return piece_with_sag(start.at, end.at, start.sag_mm)
    return piece_with_pull(start.at, end.at, parameter_mm)


@dataclass(frozen=True)
class HeadAt:
    """The head at one place: its name, where, and how the hose stands."""

    name: str
    at: Vec
    stand: Stands


@dataclass(frozen=True)
class Moving:
    """The last piece, that moves, as functions of the head's place: from a fixed anchor or a trolley."""

    head: MovingHead
    anchors: tuple[Vec, ...]
    stand: Callable[[Vec, float], Stands]
    least_mm: Callable[[Vec], float]
    limits: Limits
    grid: int

    def window(self) -> Window:
        """The lengths that serve the travel."""
        return window(self.head.box, self.anchors, self.stand, self.least_mm, self.limits, self.grid)

    def serves_all(self, grid: int = 1) -> bool:
        """Whether some length serves all corners and the nearest places: the shortest that reaches is tried."""
        places = self.head.box.places(self.anchors, grid)
        found = window(self.head.box, self.anchors, self.stand, self.least_mm, self.limits, grid).shortest
        return found is not None and all(not self.stand(at, found.length_mm).faults(self.limits) for at in places)

    def worst(self, length_mm: float, worth: Callable[[Stands], float]) -> Vec:
        """The place where `worth` is greatest with so much hose."""
        return worst_place(self.head.box, self.anchors, lambda at: worth(self.stand(at, length_mm)), self.grid)


@dataclass(frozen=True)
class MovingSolved:
    """Fixed pieces, the window of the moving one, the length taken for it, and how it stands at all places shown."""

    fixed: tuple[Fixed, ...]
    before_trolley_mm: float
    window: Window
    moving: Moving
    moving_mm: float
    corners: tuple[HeadAt, ...]
    worst: dict[str, HeadAt]
    """pulls, drags, folds, turns, limp -> the place where that is worst."""
    felt: tuple[Felt, ...]
    """Of every station but the head; of the last one with the head where it pulls most."""

    @property
    def fixed_mm(self) -> float:
        """Hose before the moving piece."""
        return math.fsum(one.length_mm for one in self.fixed) + self.before_trolley_mm

    @property
    def length_mm(self) -> float:
        """From port to head."""
        return self.fixed_mm + self.moving_mm


def limits_of(run: RunSpec) -> Limits:
    """What hose and head bear; the hose's lowest axis is its outside above what it keeps above."""
    assert run.head is not None
    lowest = -math.inf if run.keep_above_mm is None else run.keep_above_mm + run.hose.over_mm / 2
    return Limits(run.hose.radius_mm, run.head.most_pull_n, lowest)


def solved_moving(run: RunSpec) -> MovingSolved:
    """All of a run with a moving head."""
    fixed, before = _fixed(run), _before_trolley_mm(run)
    moving = moving_piece(run, before)
    found = moving.window()
    used = math.fsum(one.length_mm for one in fixed) + before
    length = _taken_mm(found, moving) if run.length_mm is None else max(run.length_mm - used, 1.0)
    corners = tuple(_corners(moving, length))
    worst = dict(_worst(moving, length))
    felts = moving_felt(run, fixed, [one.stand for one in (*corners, *worst.values())])
    return MovingSolved(fixed, before, found, moving, length, corners, worst, felts)


def moving_piece(run: RunSpec, before_trolley_mm: float, shift: Vec = (0.0, 0.0, 0.0)) -> Moving:
    """The moving piece, its anchor shifted by so much (to try other places of the last hanger)."""
    assert run.head is not None
    head, last, hose = run.head, run.stations[-1], run.hose
    if last.rail is not None:
        before = run.stations[-2]
        rail = last.rail.shifted(shift)
        rolling = Rolling(before.at, before.way, before_trolley_mm, rail, head.arrives, hose.radius_mm, hose.full_n_mm)
        anchors = (rail.start, rail.end, rail.at(0.5))
        return Moving(head, anchors, rolling.stand, rolling.least_mm, limits_of(run), 2)
    anchor = (last.at[0] + shift[0], last.at[1] + shift[1], last.at[2] + shift[2])

    @lru_cache(maxsize=4000)
    def reach(at: Vec) -> Reach:
        return Reach(anchor, last.way, at, head.arrives, hose.radius_mm, hose.full_n_mm)

    return Moving(head, (anchor,), lambda at, mm: reach(at).stand(mm), lambda at: reach(at).least_mm, limits_of(run), 3)


def _fixed(run: RunSpec) -> tuple[Fixed, ...]:
    """The pieces between port and last hanger; not the one to a trolley."""
    pairs = [p for p in zip(run.stations, run.stations[1:], strict=False) if p[1].rail is None]
    return tuple(_fixed_piece(a, b, run) for a, b in pairs)


def _fixed_piece(start: Station, end: Station, run: RunSpec) -> Fixed:
    hose = run.hose
    reach = Reach(start.at, start.way, end.at, _into(end), hose.radius_mm, hose.full_n_mm)
    length = with_room_mm(reach, _drawn_mm(reach, run), hose.stiff_n_mm2) if end.length_mm is None else end.length_mm
    return Fixed(reach, length, hose.stiff_n_mm2)


def _drawn_mm(reach: Reach, run: RunSpec) -> float:
    """Limp, drawn as a row is; a steep piece with a little slack."""
    chord = reach.straight_mm
    if math.dist(reach.anchor[:2], reach.head[:2]) <= STEEP * chord:
        return GIVEN_SLACK * chord
    return piece_with_pull(reach.anchor, reach.head, run.parameter_mm).span.length_mm


def _into(end: Station) -> Way:
    """A hanger that turns, turns for what comes to it as well."""
    return "free" if isinstance(end.way, str) else end.way


def _before_trolley_mm(run: RunSpec) -> float:
    """Hose from the last fixed place to the trolley, so that it reaches both ends of the rail."""
    last = run.stations[-1]
    if last.rail is None:
        return 0.0
    if last.length_mm is not None:
        return last.length_mm
    before = run.stations[-2]
    least = [
        Reach(before.at, before.way, end, "free", run.hose.radius_mm, run.hose.full_n_mm).least_mm
        for end in (last.rail.start, last.rail.end)
    ]
    return math.ceil(TROLLEY_SLACK * max(one for one in (*least, CUT_MM) if math.isfinite(one)))


def _taken_mm(found: Window, moving: Moving) -> float:
    """What is cut where nobody says: a little more than the shortest, in whole centimetres where that still serves."""
    if found.shortest is None:
        finite = [one for at in moving.head.box.corners() if math.isfinite(one := moving.least_mm(at))]
        return SPARE * max(finite, default=1.0)
    shortest = found.shortest.length_mm
    if not found.works:
        return shortest
    wanted = min(SPARE * shortest, (shortest + found.longest.length_mm) / 2)
    whole = math.ceil(wanted / CUT_MM) * CUT_MM
    return whole if whole <= found.longest.length_mm else wanted


def _corners(moving: Moving, length_mm: float) -> Iterator[HeadAt]:
    box = moving.head.box
    for at in box.corners():
        yield HeadAt(corner_name(at, box), at, moving.stand(at, length_mm))


def corner_name(at: Vec, box: Box) -> str:
    """`left near low` and so on, of the directions in which it moves; empty where it is no corner."""
    words = (("left", "right"), ("near", "far"), ("low", "high"))
    found = []
    for k, pair in enumerate(words):
        if box.low[k] == box.high[k]:
            continue
        if at[k] not in (box.low[k], box.high[k]):
            return ""
        found.append(pair[at[k] == box.high[k]])
    return " ".join(found)


def _worst(moving: Moving, length_mm: float) -> Iterator[tuple[str, HeadAt]]:
    worths: dict[str, Callable[[Stands], float]] = {
        "pulls": lambda one: one.short_mm if one.short_mm > 0.0 else -1.0 / max(one.pull_n, 1e-9),
        "drags": lambda one: -one.lowest_mm,
        "folds": lambda one: -one.roundest_mm,
        "turns": lambda one: -one.best_leaves_mm,
        "limp": lambda one: -one.limp_mm,
    }
    for name, worth in worths.items():
        at = moving.worst(length_mm, worth)
        yield name, HeadAt(corner_name(at, moving.head.box) or "within", at, moving.stand(at, length_mm))
