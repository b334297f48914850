"""A row of hangers: how far the hose sags in each span, and what each hanger feels of both its spans.

Lengths in mm, forces in N (right, away, up), weight in N/mm.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.frame import Vec
from fitwright.physics.carried import FLEXIBLE_ADC, FLEXIBLE_SMACNA, SPACING_M, SupportRule, permitted_sag_mm
from fitwright.physics.hose_bend import turned
from fitwright.physics.hose_piece import Piece, together
from fitwright.physics.hose_span import hung_with_pull, hung_with_sag, spacing_for_sag_mm

RULE, LOOSEST = FLEXIBLE_ADC, FLEXIBLE_SMACNA
ROUNDED_M = 0.0005
"""The rules' feet are written down to a millimetre: 4 ft are 1219.2 mm, and are permitted."""
DRAWN_MM = hung_with_sag(1000.0 * SPACING_M, 0.0, permitted_sag_mm(SPACING_M)).parameter_mm
"""Pull over weight where nobody says how tight a hose is drawn: so that 1.2 m sag just as far as the rule allows."""


@dataclass(frozen=True)
class SpanJudged:
    """One span against the rules: how far it may sag, and at what pull over weight it would not sag further."""

    piece: Piece
    permitted_mm: float
    parameter_for_rule_mm: float

    @property
    def sags_too_far(self) -> bool:
        """More than the rule, a tenth of a millimetre left aside."""
        return self.piece.span.sag_mm > self.permitted_mm + 0.1

    @property
    def too_far_apart(self) -> SupportRule | None:
        """The loosest rule that it breaks by its spacing alone."""
        metres = self.piece.span.level_mm / 1000.0
        return next((one for one in (LOOSEST, RULE) if metres > one.spacing_m + ROUNDED_M), None)


@dataclass(frozen=True)
class Felt:
    """What one hanger, port or head feels: force of the piece before it and after it, None where there is none.

    `turn`: how far [rad] the hose turns over it.
    """

    at: Vec
    before: Vec | None
    after: Vec | None
    turn: float = 0.0

    @property
    def force(self) -> Vec:
        """Both together."""
        return together(*[one for one in (self.before, self.after) if one is not None])

    @property
    def down_n(self) -> float:
        """What hangs on it, for good."""
        return -self.force[2]

    @property
    def level_n(self) -> float:
        """What pulls it sideways or along, level; between two like spans that cancels."""
        return math.hypot(self.force[0], self.force[1])

    @property
    def one_side_n(self) -> float:
        """The greater level pull of one side: what it feels when the other side is taken off."""
        return max((math.hypot(one[0], one[1]) for one in (self.before, self.after) if one is not None), default=0.0)


def judged_span(piece: Piece) -> SpanJudged:
    """The sag rule counts level distance."""
    level, rise = piece.span.level_mm, piece.span.rise_mm
    permitted = permitted_sag_mm(level / 1000.0, RULE)
    return SpanJudged(piece, permitted, hung_with_sag(level, rise, permitted).parameter_mm)


def felt(pieces: Sequence[Piece], weight_n_mm: float) -> tuple[Felt, ...]:
    """What each end of the pieces feels, in their order: one more than there are pieces."""
    found = [Felt(pieces[0].start, None, pieces[0].force(weight_n_mm, end=False))]
    for before, after in itertools.pairwise(pieces):
        turn = turned(before.way(end=True), after.way(end=False))
        found.append(Felt(after.start, before.force(weight_n_mm, end=True), after.force(weight_n_mm, end=False), turn))
    return (*found, Felt(pieces[-1].end, pieces[-1].force(weight_n_mm, end=True), None))


def parts_that_keep(one: SpanJudged) -> int:
    """Into how many like parts a span has to be divided, at its pull, so that each keeps to sag and distance."""
    span = one.piece.span
    least = math.ceil(span.level_mm / (1000.0 * (RULE.spacing_m + ROUNDED_M)))
    return next(
        count
        for count in itertools.count(max(1, least))
        if hung_with_pull(span.level_mm / count, span.rise_mm / count, span.parameter_mm).sag_mm
        <= one.permitted_mm / count + 0.1
    )


def farthest_apart_mm(parameter_mm: float) -> float:
    """How far apart level hangers may stand at this pull over weight: the sag rule, and the rule's own distance."""
    assert RULE.sag_mm_m is not None
    return min(spacing_for_sag_mm(parameter_mm, RULE.sag_mm_m), 1000.0 * RULE.spacing_m)
