"""What every station of a run with a moving head feels: of all that its hose may do, the heaviest."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from fitwright.frame import Vec
from fitwright.physics.hose_bend import turned
from fitwright.physics.hose_fixed import Fixed
from fitwright.physics.hose_head import Stand
from fitwright.physics.hose_piece import Piece
from fitwright.physics.hose_row import Felt
from fitwright.physics.hose_travel import Stands
from fitwright.physics.hose_trolley import Rolled
from fitwright.spec.run import RunSpec


def moving_felt(run: RunSpec, fixed: Sequence[Fixed], stands: Sequence[Stands]) -> tuple[Felt, ...]:
    """In the order of the stations, without the head: each with the head where it feels most, of `stands`.

    A fixed piece may be soft or stiff; the moving one is limp, or short of what its bends take.
    """
    weight = run.hose.full_n_mm
    rolled = [one for one in stands if isinstance(one, Rolled)]
    moving = [one for one in stands if isinstance(one, Stand)] or [one.before for one in rolled]
    found = [_between(before, after) for before, after in itertools.pairwise((None, *fixed))]
    found.append(_heaviest(_with_moving(run.stations[len(fixed)].at, fixed[-1] if fixed else None, moving, weight)))
    if rolled:
        found.append(_heaviest(_trolleys(rolled, weight)))
    return tuple(found)


def _between(before: Fixed | None, after: Fixed | None) -> Felt:
    """Between two pieces that stand still, or at the port."""
    assert after is not None
    at, onward = after.reach.anchor, after.forces(end=False)
    if before is None:
        return _heaviest([Felt(at, None, one) for one in onward])
    turn = _turn(before.piece, after.piece)
    return _heaviest([Felt(at, one, other, turn) for one in before.forces(end=True) for other in onward])


def _with_moving(at: Vec, before: Fixed | None, stands: Sequence[Stand], weight: float) -> list[Felt]:
    """At the last fixed place; `before` None: the port."""
    pulls = before.forces(end=True) if before is not None else (None,)
    return [
        Felt(at, pull, piece.force(weight, end=False), _turn(before.piece, piece) if before is not None else 0.0)
        for stand in stands
        for piece in (stand.slack, stand.pulled)
        for pull in pulls
    ]


def _trolleys(rolled: Sequence[Rolled], weight: float) -> list[Felt]:
    return [
        Felt(one.trolley, before.force(weight, end=True), after.force(weight, end=False), _turn(before, after))
        for one in rolled
        for before, after in itertools.product(
            (one.before.slack, one.before.pulled), (one.after.slack, one.after.pulled)
        )
    ]


def _turn(before: Piece, after: Piece) -> float:
    return turned(before.way(end=True), after.way(end=False))


def _heaviest(several: Sequence[Felt]) -> Felt:
    """Of those that are not taut, if there are any."""
    found = [one for one in several if math.isfinite(one.down_n) and math.isfinite(one.level_n)]
    return max(found, key=lambda one: math.hypot(one.down_n, one.level_n), default=several[0])
