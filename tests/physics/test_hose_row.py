"""What hangers of a row feel: by hand, and what must hold for any row."""

from __future__ import annotations

import itertools
import math
import random

import pytest

from fitwright.frame import Vec
from fitwright.physics.carried import FLEXIBLE_ADC, FLEXIBLE_SMACNA
from fitwright.physics.gravity import GRAVITY
from fitwright.physics.hose_piece import piece_with_pull, piece_with_sag, together
from fitwright.physics.hose_row import DRAWN_MM, farthest_apart_mm, felt, judged_span

W = 1.68 * GRAVITY / 1000.0
"""100 mm hose, half full [N/mm]."""


def row(*places: Vec, a: float = DRAWN_MM) -> list:
    return [piece_with_pull(one, other, a) for one, other in itertools.pairwise(places)]


def test_a_level_row_shares_its_weight_and_its_pulls_cancel() -> None:
    """1.68 kg/m, 1.2 m: 19.8 N a hanger, 60 N along the hose at both ends (w L^2 / 8 f = 59.3)."""
    held = felt(row(*[(1200.0 * k, 0.0, 2000.0) for k in range(4)]), W)
    # the hose itself is 5.5 mm a span longer than the distance
    assert [one.down_n for one in held[1:3]] == pytest.approx([19.86, 19.86], abs=0.03)
    assert held[0].down_n == pytest.approx(held[1].down_n / 2)
    assert [one.level_n for one in held[1:3]] == pytest.approx([0.0, 0.0], abs=1e-9)
    assert held[0].level_n == held[3].level_n == pytest.approx(W * 1200**2 / (8 * 50.0), rel=0.005)
    assert held[1].one_side_n == held[0].level_n
    # by the parabola the slope at a hanger is 4 f / L on each side
    assert held[1].turn == pytest.approx(2 * math.atan(4 * 50 / 1200), rel=0.01)


def test_the_last_span_slopes_down_to_a_machine() -> None:
    """0.9 m on and 0.25 m down. By hand, parabola: the upper end bears w s / 2 + H h / L = 7.7 + 16.5 N."""
    held = felt(row((-1100.0, 0.0, 2150.0), (0.0, 0.0, 2150.0), (900.0, 0.0, 1900.0)), W)
    level = W * DRAWN_MM
    upper = W * 936.3 / 2 + level * 250 / 900
    assert held[1].down_n == pytest.approx(upper + W * 1104.3 / 2, rel=0.01)
    assert held[2].down_n == pytest.approx(W * 936.3 / 2 - level * 250 / 900, rel=0.01)  # it lifts the hood
    assert held[2].down_n < 0.0


def test_spans_drawn_differently_pull_the_hanger_between_them() -> None:
    """50 and 25 mm of sag over 1.2 m: w L^2 / 8 f differs by once the first pull."""
    places = [(1200.0 * k, 0.0, 0.0) for k in range(3)]
    pieces = [piece_with_sag(places[0], places[1], 50.0), piece_with_sag(places[1], places[2], 25.0)]
    held = felt(pieces, W)
    assert held[1].level_n == pytest.approx(W * 1200**2 / (8 * 50.0), rel=0.01)
    assert held[1].one_side_n == pytest.approx(2 * held[1].level_n, rel=0.01)


def test_rules() -> None:
    """Distances by ADC (4 ft) and SMACNA (10 ft); sag at most 1/2 in a foot."""
    near, doubled, far = (judged_span(row((0.0, 0.0, 0.0), (x, 0.0, 0.0))[0]) for x in (1200.0, 2400.0, 3100.0))
    assert not near.sags_too_far and near.too_far_apart is None
    assert doubled.sags_too_far and doubled.too_far_apart == FLEXIBLE_ADC
    assert far.too_far_apart == FLEXIBLE_SMACNA
    assert near.permitted_mm == pytest.approx(1200.0 / 24, rel=1e-3)
    assert doubled.parameter_for_rule_mm == pytest.approx(2 * DRAWN_MM, rel=1e-6)
    assert farthest_apart_mm(DRAWN_MM) == pytest.approx(1200.0, abs=0.1)
    assert farthest_apart_mm(10 * DRAWN_MM) == 1219.0
    # drawn tight, a long span may still break the distance, not the sag
    tight = judged_span(row((0.0, 0.0, 0.0), (2400.0, 0.0, 0.0), a=2.1 * DRAWN_MM)[0])
    assert not tight.sags_too_far and tight.too_far_apart == FLEXIBLE_ADC


@pytest.mark.parametrize("seed", range(60))
def test_any_row_bears_its_weight(seed: int) -> None:
    rng = random.Random(seed)
    places = [(rng.uniform(-50, 50), rng.uniform(-50, 50), rng.uniform(-400, 400))]
    for _ in range(rng.randint(1, 6)):
        x, y, z = places[-1]
        turn = rng.uniform(-1.2, 1.2)
        step = rng.uniform(200, 3000)
        places.append((x + step * math.cos(turn), y + step * math.sin(turn), z + rng.uniform(-0.8, 0.8) * step))
    pieces = row(*places, a=rng.uniform(300, 9000))
    held = felt(pieces, W)
    total = together(*[one.force for one in held])
    weight = W * math.fsum(one.span.length_mm for one in pieces)
    assert total == pytest.approx((0.0, 0.0, -weight), abs=1e-6 * weight + 1e-6 * math.hypot(*held[0].force))
    for one, piece in zip(held, pieces, strict=False):
        assert one.at == piece.start and one.after is not None
        assert math.hypot(*one.after) == pytest.approx(piece.span.tension_n(W, False))
