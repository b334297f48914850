"""Lengths for a moving head: by plain geometry, against dense searches and an independent solver."""

from __future__ import annotations

import itertools
import math
import random
from functools import cache

import pytest
from scipy import optimize

from fitwright.frame import Vec
from fitwright.physics.hose_head import Limits, Reach, Stand, Way
from fitwright.physics.hose_travel import Box, Window, window, worst_place
from fitwright.physics.hose_trolley import Rail, Rolling

W = 8.354e-3
DOWN: Vec = (0.0, 0.0, -1.0)
BOX = Box((0.0, 0.0, 1150.0), (1200.0, 800.0, 1270.0))
HOOK = (600.0, 400.0, 2400.0)


def stander(hook: Vec, leaves: Way = "free", arrives: Way = "free", radius: float = 1.0, weight: float = W):  # type: ignore[no-untyped-def]
    @cache
    def reach(at: Vec) -> Reach:
        return Reach(hook, leaves, at, arrives, radius, weight)

    return (lambda at, mm: reach(at).stand(mm)), (lambda at: reach(at).least_mm)


def of(hook: Vec, limits: Limits, box: Box = BOX, **ends: object) -> Window:
    stand, least = stander(hook, **ends)  # type: ignore[arg-type]
    return window(box, [hook], stand, least, limits)


def test_corners_and_the_place_below_the_hook_by_hand() -> None:
    """Free ends. Farthest: a low corner, sqrt(600^2 + 400^2 + 1250^2) = 1443.1. Lowest: right below the hook, where
    the slack hangs doubled: 1250 and twice what may hang below the head, 1150 - 1000 = 150."""
    found = of(HOOK, Limits(1.0, 5000.0, 1000.0))
    assert found.shortest is not None
    assert found.shortest.length_mm == pytest.approx(math.sqrt(600**2 + 400**2 + 1250**2), rel=1e-4)
    assert found.shortest.at in BOX.corners() and found.shortest.at[2] == 1150.0
    assert found.drags.length_mm == pytest.approx(1250.0 + 2 * 150.0, abs=0.1)
    assert found.drags.at == pytest.approx((600.0, 400.0, 1150.0))
    assert found.works and found.why_not_longer == "drags"


def test_ends_that_have_to_be_met_take_more_hose() -> None:
    """Level out of the hook and down into the port, R 105. By hand in the upright plane of a low corner, 721.1 across
    and 1250 down: straight at b below level, 721.1 = 105 sin b + L cos b + 105 (1 - sin b), and so on."""
    across, down, r = math.hypot(600, 400), 1250.0, 105.0

    def off(b: float) -> float:
        straight = (across - r * math.sin(b) - r * (1 - math.sin(b))) / math.cos(b)
        return r * (1 - math.cos(b)) + straight * math.sin(b) + r * math.cos(b) - down

    b = optimize.brentq(off, 0.5, 1.5)
    straight = (across - r) / math.cos(b)
    reach = Reach(HOOK, "follows", (0.0, 0.0, 1150.0), DOWN, r, W)
    assert reach.bent is not None
    assert reach.least_mm == pytest.approx(r * math.pi / 2 + straight, abs=1e-5)
    assert reach.bent.start_turn + reach.bent.end_turn == pytest.approx(math.pi / 2, abs=1e-6)


def test_the_pull_limit_by_another_solver() -> None:
    """20 N at the head, free ends: T at the lower end = w (a + height above the lowest point), solved by brentq."""
    found = of(HOOK, Limits(1.0, 20.0, 0.0))
    d, h = math.hypot(600, 400), -1250.0

    def pull(a: float) -> float:
        x0 = d / 2 - a * math.asinh(h / (2 * a * math.sinh(d / 2 / a)))
        return W * a * math.cosh((d - x0) / a) - 20.0

    a = optimize.brentq(pull, 500.0, 20_000.0)
    length = math.hypot(h, 2 * a * math.sinh(d / 2 / a))
    assert found.shortest is not None and found.shortest.length_mm == pytest.approx(length, rel=1e-6)


def test_a_limp_loop_below_two_ends_at_one_height_folds() -> None:
    """Ends 200 apart and a metre of hose: a loop of 100 radius at best, quite limp much tighter (a = 24.6)."""
    stand = Reach((0.0, 0.0, 0.0), "free", (200.0, 0.0, 0.0), "free", 105.0, W).stand(1000.0)
    a = optimize.brentq(lambda x: 2 * x * math.sinh(100.0 / x) - 1000.0, 5.0, 100.0)
    assert stand.roundest_mm == pytest.approx(100.0) and stand.limp_mm == pytest.approx(a)
    assert "folds" in stand.faults(Limits(105.0, 1e9, -1e9))
    assert "folds" not in stand.faults(Limits(95.0, 1e9, -1e9)) and stand.may_fold(Limits(95.0, 1e9, -1e9))


def random_case(seed: int) -> tuple[Box, Vec, Limits]:
    rng = random.Random(seed)
    low = (rng.uniform(-500, 500), rng.uniform(-500, 500), rng.uniform(800, 1300))
    high = (low[0] + rng.uniform(100, 2000), low[1] + rng.uniform(0, 1500), low[2] + rng.uniform(0, 300))
    hook = (rng.uniform(-1000, 2500), rng.uniform(-1000, 2000), rng.uniform(1500, 3200))
    return Box(low, high), hook, Limits(rng.uniform(50, 200), rng.uniform(10, 80), low[2] - rng.uniform(20, 400))


def working_case(seed: int) -> tuple[Box, Vec, Limits]:
    """A hook high above the travel, not quite in its middle."""
    box, _, limits = random_case(seed)
    rng = random.Random(seed)
    middle = [(lo + hi) / 2 for lo, hi in zip(box.low, box.high, strict=True)]
    wide = math.hypot(box.high[0] - box.low[0], box.high[1] - box.low[1])
    hook = (middle[0] + rng.uniform(-0.1, 0.1) * wide, middle[1], box.high[2] + rng.uniform(1.2, 2.0) * wide)
    return box, hook, Limits(min(limits.radius_mm, 0.1 * wide), 60.0, box.low[2] - 0.6 * wide)


@pytest.mark.parametrize("seed", range(10))
def test_no_place_of_a_dense_grid_is_worse(seed: int) -> None:
    """A length in the window is good at every place of 13 x 13 x 4; outside of it some place is bad."""
    box, hook, limits = working_case(seed)
    stand, least = stander(hook, "follows", DOWN, limits.radius_mm)
    found = window(box, [hook], stand, least, limits)
    assert found.works and found.shortest is not None
    top = found.longest.length_mm
    steps = [
        [lo + (hi - lo) * k / (n - 1) for k in range(n)]
        for lo, hi, n in zip(box.low, box.high, (13, 13, 4), strict=True)
    ]
    places = list(itertools.product(*steps))
    for length in (found.shortest.length_mm * (1 + 1e-6), min(top, 3 * found.shortest.length_mm) * (1 - 1e-6)):
        for at in places:
            assert not stand(at, length).faults(limits), (at, length)
    assert {"pulls", "short"} & set(stand(found.shortest.at, found.shortest.length_mm * 0.999).faults(limits))
    if math.isfinite(top):
        assert stand(found.longest.at, top * 1.001).faults(limits)


@pytest.mark.parametrize("seed", range(200))
def test_the_straight_distance_is_greatest_in_a_corner(seed: int) -> None:
    """It is convex: its greatest value over a box is in a corner (so corners suffice for reach)."""
    box, hook, _ = random_case(seed)
    rng = random.Random(seed + 1)
    most = max(math.dist(hook, one) for one in box.corners())
    for _ in range(50):
        at = tuple(rng.uniform(lo, hi) for lo, hi in zip(box.low, box.high, strict=True))
        assert math.dist(hook, at) <= most + 1e-9
    stand, _ = stander(hook)
    assert worst_place(box, [hook], lambda at: stand(at, 1.0).short_mm) in box.corners()


@pytest.mark.parametrize("seed", range(200))
def test_more_hose_hangs_lower_and_pulls_less(seed: int) -> None:
    box, hook, _ = random_case(seed)
    rng = random.Random(seed)
    at = box.corners()[rng.randrange(len(box.corners()))]
    reach = Reach(hook, "free", at, "free", 100.0, W)
    stands: list[Stand] = [reach.stand(reach.straight_mm * (1 + slack)) for slack in (1e-4, 1e-3, 1e-2, 0.1, 0.5)]
    for tight, loose in itertools.pairwise(stands):
        assert loose.lowest_mm <= tight.lowest_mm + 1e-9
        assert loose.slack.span.level_n(W) < tight.slack.span.level_n(W)
        assert loose.roundest_mm <= tight.roundest_mm * (1 + 1e-9)
        assert loose.limp_mm <= tight.limp_mm * (1 + 1e-9)
        assert loose.roundest_mm >= loose.limp_mm


def test_a_trolley_between_two_like_pieces_stands_in_the_middle() -> None:
    rail = Rail((0.0, 0.0, 2400.0), (2000.0, 0.0, 2400.0))
    rolling = Rolling((0.0, 0.0, 1500.0), "free", 1500.0, rail, "free", 1.0, W)
    assert rolling.stand((2000.0, 0.0, 1500.0), 1500.0).trolley[0] == pytest.approx(1000.0, abs=1e-3)


@pytest.mark.parametrize("seed", range(40))
def test_a_trolley_rests_where_both_sides_pull_alike(seed: int) -> None:
    rng = random.Random(seed)
    rail = Rail((0.0, 0.0, 2400.0), (rng.uniform(1000, 3000), rng.uniform(-500, 500), 2400.0))
    rolling = Rolling((-200.0, 0.0, 1800.0), "free", rng.uniform(1500, 3500), rail, "free", 1.0, W)
    head = (rng.uniform(0, 3000), rng.uniform(-800, 800), rng.uniform(900, 1300))
    one = rolling.stand(head, 1.3 * math.dist(rail.nearest(head), head))
    if one.short_mm > 0.0 or one.before.slack.span.taut:
        pytest.skip("too short")
    run = [b - a for a, b in zip(rail.start, rail.end, strict=True)]
    pulls = [
        sum(f * r for f, r in zip(force, run, strict=True)) / math.hypot(*run)
        for force in (one.before.slack.force(W, end=True), one.slack.force(W, end=False))
    ]
    at_stop = min(math.dist(one.trolley, end) for end in (rail.start, rail.end)) < 1.0
    assert at_stop or sum(pulls) == pytest.approx(0.0, abs=1e-4 * max(map(abs, pulls)))
    if at_stop:
        assert (sum(pulls) < 0.0) == (math.dist(one.trolley, rail.start) < 1.0)
