"""Whether all of a hose to a moving head stays inside of a box, in every position, and how far it may bow aside."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from fitwright.finding import Finding
from fitwright.frame import Vec
from fitwright.physics.hose_bow import Reaches, arc_reaches, most_reaches
from fitwright.physics.hose_fixed import Fixed
from fitwright.physics.hose_trolley import Rolled
from fitwright.report.hose_run.say import Say, finding
from fitwright.spec.run import RunSpec
from fitwright.spec.run_solved import MovingSolved

SIDES = (("left", "right"), ("toward", "away"), ("low", "up"))
Out = tuple[str, float]
"""A side of the box, and by how much the hose stands out there; negative: stays inside."""
HOW = "counted in plan by straight lines from place to place"


def findings(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    """Blocks where it stands out drawn straight in plan; warns where its slack, bowed aside, stands out."""
    if run.within is None:
        return
    side, out = max(_straight(run, solved), key=_by)
    bowed, most = (max(_bowed(run, solved, reaches), key=_by) for reaches in (arc_reaches, most_reaches))
    if out > 1e-6:
        words = f"stands out of stay_within by {say.mm(out)} {side} in some position, {HOW}"
        advice = "Move port or hanger inwards, or less hose."
        yield finding("hose.within", "fail", "stay_within", words, advice, -out, 0.0)
    elif bowed[1] > 1e-6:
        words = f"{_inside(out, say)}, {HOW}; its slack bowed aside, as one arc, stands out by {say.mm(bowed[1])}"
        words += f" {bowed[0]}, swung or pushed by up to {say.mm(most[1])} {most[0]}"
        advice = "Look at it with the head in every corner; less hose bows less, and a strap at the side keeps it in."
        yield finding("hose.within", "warn", "stay_within", words, advice, -bowed[1], 0.0)
    elif math.isfinite(out):
        words = f"{_inside(out, say)}, {HOW}"
        if math.isfinite(bowed[1]):
            words += f"; its slack bowed aside, as one arc, {_inside(bowed[1], say)}"
            words += f", swung or pushed {_inside(most[1], say) if most[1] <= 0.0 else _outside(most, say)}"
        yield finding("hose.within", "pass", "stay_within", words, value=-out, limit=0.0)


def _inside(by_mm: float, say: Say) -> str:
    return f"stays inside with {say.mm(-by_mm)} to spare"


def _outside(one: Out, say: Say) -> str:
    return f"it may come out by {say.mm(one[1])} {one[0]}"


def _by(one: Out) -> float:
    return one[1]


def _straight(run: RunSpec, solved: MovingSolved) -> Iterator[Out]:
    """All sides: the places, the lowest that it hangs, and how the pieces that stand still leave their ends."""
    assert run.head is not None and run.within is not None
    half, box = run.hose.over_mm / 2, run.head.box
    points = [*(s.at for s in run.stations), box.low, box.high]
    points += [run.stations[-1].rail.end] if run.stations[-1].rail else []
    stands = [one.stand for one in (*solved.corners, *solved.worst.values())]
    lowest = min(p.lowest_mm for p in (*(one.piece for one in solved.fixed), *stands))
    for k, (low, high) in enumerate(SIDES):
        still = [_still(one, k) for one in solved.fixed]
        least = min([p[k] for p in points] + [one[0] for one in still]) if k < 2 else lowest
        most = max([p[k] for p in points] + [one[1] for one in still])
        yield low, run.within.low[k] - (least - half)
        yield high, most + half - run.within.high[k]


def _still(one: Fixed, axis: int) -> tuple[float, float]:
    """How far it reaches for certain, soft or stiff."""
    shapes: Sequence[Sequence[Vec]] = [rod.points for rod in one.rods] or [[one.piece.start, one.piece.end]]
    lows = [min(p[axis] for p in points) for points in shapes]
    return max(lows), min(max(p[axis] for p in points) for points in shapes)


def _bowed(run: RunSpec, solved: MovingSolved, reaches: Callable[[Vec, Vec, float, int], Reaches]) -> Iterator[Out]:
    """The sides in plan, the slack of each piece aside as far as it goes."""
    assert run.within is not None
    half = run.hose.over_mm / 2
    for start, end, length in _pieces(solved):
        for k, (low, high) in enumerate(SIDES[:2]):
            least, most = reaches(start, end, length, k)
            yield low, run.within.low[k] - (least - half)
            yield high, most + half - run.within.high[k]


def _pieces(solved: MovingSolved) -> Iterator[tuple[Vec, Vec, float]]:
    """Ends and length of all pieces, the head at the corners, the nearest places and on a grid."""
    moving = solved.moving
    for one in solved.fixed:
        yield one.piece.start, one.piece.end, one.length_mm
    for at in moving.head.box.places(moving.anchors):
        stand = moving.stand(at, solved.moving_mm)
        for piece in (stand.before.slack, stand.after.slack) if isinstance(stand, Rolled) else (stand.slack,):
            yield piece.start, piece.end, piece.span.length_mm
