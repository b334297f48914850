"""Outlines of straights and arcs against closed forms and an independent geometry library (shapely)."""

from __future__ import annotations

import math
import random

import pytest
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from fitwright.spec.faults import FaultError
from fitwright.spec.grammar.outline import read_outline
from fitwright.spec.grammar.values import Context
from fitwright.spec.outline import Outline, Side, circle, rectangle, through


def lobes(count: int, pitch_mm: float, lobe_mm: float) -> Outline:
    """`count` lobes: arcs of radius `lobe_mm` about centres `pitch_mm` from the axis, corners where they cross."""
    half = math.pi / count
    # the arcs' ends lie on the rays midway between the centres
    r = pitch_mm * math.cos(half) + math.sqrt(lobe_mm**2 - (pitch_mm * math.sin(half)) ** 2)
    ends = [(r * math.cos(2 * half * k - half), r * math.sin(2 * half * k - half)) for k in range(count)]
    far = pitch_mm + lobe_mm
    tops = [(far * math.cos(2 * half * k), far * math.sin(2 * half * k)) for k in range(count)]
    return through(ends, [tops[k - 1] for k in range(count)])


def test_area_of_a_circle_rectangle_and_stadium() -> None:
    assert circle(50.0).area_mm2 == pytest.approx(math.pi * 625.0, rel=1e-12)
    assert circle(50.0).length_mm == pytest.approx(math.pi * 50.0, rel=1e-12)
    # a rectangle with corners of radius c lacks (4 - pi) c^2
    assert rectangle(80, 50, 6).area_mm2 == pytest.approx(80 * 50 - (4 - math.pi) * 36, rel=1e-12)
    assert rectangle(80, 50).area_mm2 == pytest.approx(4000.0, rel=1e-12)
    # corners of half the height: a stadium
    stadium = rectangle(80, 50, 25)
    assert stadium.area_mm2 == pytest.approx(math.pi * 625 + 30 * 50, rel=1e-12)
    assert rectangle(50, 50, 25).area_mm2 == pytest.approx(math.pi * 625, rel=1e-12)
    assert stadium.is_convex() and not lobes(3, 14.0, 13.0).is_convex()


def test_area_of_three_lobes_by_its_parts() -> None:
    # three circular sectors seen from their own centres, and three kites between centre and corners
    pitch, lobe = 14.0, 13.0
    made = lobes(3, pitch, lobe)
    r = math.hypot(*made.corners[0])
    chord = 2 * r * math.sin(math.pi / 3)
    assert chord < 2 * lobe
    to_chord = r * math.cos(math.pi / 3) - pitch  # along the lobe's axis, from its centre to the chord
    half_turn = math.acos(to_chord / lobe)
    segment = lobe**2 * (half_turn - math.sin(half_turn) * math.cos(half_turn))
    triangle = 3 * 0.5 * r * r * math.sin(2 * math.pi / 3)
    assert made.area_mm2 == pytest.approx(triangle + 3 * segment, rel=1e-12)
    assert made.reach_mm == pytest.approx(pitch + lobe, rel=1e-12)


def random_outline(seed: int) -> Outline:
    rng = random.Random(seed)
    count = rng.randint(3, 9)
    turns = sorted(rng.uniform(0, math.tau) for _ in range(count))
    corners = [(r * math.cos(t), r * math.sin(t)) for t in turns for r in [rng.uniform(20, 60)]]
    via = []
    for k in range(count):
        (ax, ay), (bx, by) = corners[k - 1], corners[k]
        bulge = rng.uniform(-0.6, 0.9)
        middle = (ax + bx) / 2 + bulge * (by - ay) / 2, (ay + by) / 2 - bulge * (bx - ax) / 2
        via.append(middle if rng.random() < 0.6 and abs(bulge) > 0.05 else None)
    return through(corners, via)


@pytest.mark.parametrize("seed", range(40))
def test_an_independent_library_agrees(seed: int) -> None:
    made = random_outline(seed)
    fine = Polygon(made.polyline(1e-4))
    sound = made.fault() is None
    assert fine.is_valid or not sound
    if not sound:
        return
    assert made.area_mm2 == pytest.approx(fine.area, rel=1e-5)
    assert made.length_mm == pytest.approx(fine.exterior.length, rel=1e-5)
    assert made.bounds_mm == pytest.approx(fine.bounds, abs=1e-3)
    assert made.reach_mm == pytest.approx(max(math.hypot(*p) for p in fine.exterior.coords), abs=1e-3)
    assert made.is_convex() == (fine.convex_hull.area - fine.area < 1e-4 * fine.area)
    rng = random.Random(seed)
    for _ in range(50):
        point = rng.uniform(-80, 80), rng.uniform(-80, 80)
        away = fine.exterior.distance(ShapelyPoint(point))
        assert made.contains(point) == fine.contains(ShapelyPoint(point)) or away < 1e-3
        assert abs(made.inside_by_mm(point)) == pytest.approx(away, abs=1e-3)


def test_what_the_library_calls_invalid_is_found_and_nothing_else_but_spikes() -> None:
    valid = invalid = 0
    for made in map(random_outline, range(400)):
        fault = made.fault()
        if not Polygon(made.polyline(1e-3)).is_valid:
            assert fault is not None
            invalid += 1
        elif fault is not None:  # a corner so sharp that nothing is left to print in it
            one, other = made.sides[fault[0]], made.sides[fault[1]]
            assert fault[2] == other.start or fault[2] == one.start
            (ax, ay), (bx, by) = one.heading(1.0), other.heading(0.0)
            assert ax * bx + ay * by < -math.cos(math.radians(2.1))
        else:
            valid += 1
    assert valid > 40 and invalid > 40


def test_bow_tie_and_spike_and_touch() -> None:
    bow_tie = through([(0, 0), (10, 10), (10, 0), (0, 10)], [None] * 4)
    assert bow_tie.fault() == (0, 2, pytest.approx((5.0, 5.0)))
    spike = through([(0, 0), (10, 0), (20, 0), (10, 0.01), (0, 10)], [None] * 5)
    assert spike.fault() is not None
    touch = through([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)], [None] * 5)
    assert touch.fault() is not None
    back = through([(0, 0), (20, 0), (10, 0), (10, 10)], [None] * 4)
    assert back.fault() is not None
    assert circle(30.0).fault() is None and rectangle(30, 20, 4).fault() is None


def test_an_arc_of_more_than_half_a_turn() -> None:
    side = Side((0.0, -1.0), (1.0, 0.0), (-math.sqrt(0.5), math.sqrt(0.5)))
    assert side.sweep_rad == pytest.approx(-1.5 * math.pi)
    assert side.radius_mm == pytest.approx(1.0)
    assert side.length_mm == pytest.approx(1.5 * math.pi)
    assert side.distance_mm((2.0, -2.0)) == pytest.approx(math.sqrt(5.0))
    assert side.distance_mm((0.0, 3.0)) == pytest.approx(2.0)


def test_points_on_the_chord_of_an_arc() -> None:
    for x in (-24.9, -10.0, 0.0, 10.0, 24.9):
        assert circle(50.0).contains((x, 0.0))
        assert circle(50.0).inside_by_mm((x, 0.0)) == pytest.approx(25.0 - abs(x))
    assert not circle(50.0).contains((25.1, 0.0)) and not circle(50.0).contains((-80.0, 0.0))


def test_mapping_scales_and_shifts() -> None:
    made = lobes(3, 14.0, 13.0)
    moved = made.mapped(2.0, (5.0, -3.0))
    assert moved.area_mm2 == pytest.approx(4 * made.area_mm2)
    assert moved.bounds_mm[0] == pytest.approx(2 * made.bounds_mm[0] + 5.0)
    assert made.anticlockwise().signed_area_mm2 == pytest.approx(made.area_mm2)
    assert made.reach_at_mm(90.0) == pytest.approx(27.0)


READ = [
    {"right": "-20", "up": "0"},
    {"right": "20", "up": "0", "via": {"up": "20"}},
    {"right": "0", "down": "30"},
]


def test_yaml_reads() -> None:
    made = read_outline(READ, Context())
    # half a disc of radius 20 on a triangle 40 wide and 30 high
    assert made.area_mm2 == pytest.approx(math.pi * 200.0 + 600.0, rel=1e-12)


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("round", "a list of places"),
        ([{"right": "0"}, {"right": "10"}], "3 to 60 points"),
        ([*READ, {"left": "20", "up": "0"}], "leave the repeated first point out"),
        ([READ[0], {"right": "20", "up": "0", "via": {"right": "0", "up": "0"}}, READ[2]], "straight line"),
        (
            [{"right": "0", "up": "0"}, {"right": "9", "up": "9"}, {"right": "9"}, {"up": "9"}],
            "from point 3 to point 4",
        ),
        ([*READ[:2], {"rigth": "3"}], "rigth"),
    ],
)
def test_yaml_refused_with_names(value: object, says: str) -> None:
    with pytest.raises(FaultError) as caught:
        read_outline(value, Context())
    text = " ".join(f"{f.path} {f.found} {f.allowed} {f.hint}" for f in caught.value.faults)
    assert says in text
