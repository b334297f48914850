"""Where a clamp's screw is turned, against geometry by hand and against distances that trimesh measures on meshes.

The hose has a radius of 50 mm throughout and the clamp sits 20 mm from the mouth, so the housing's place at up is
(0, 20, 50), at right (50, 20, 0), at an angle between (35.4, 20, 35.4).
"""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
import trimesh
from tests.whole import fact

from fitwright.frame import Frame
from fitwright.parts.clamp_turn import clamp_turn
from fitwright.spec.models import BarObstacle, BoxObstacle, ConeObstacle, Envelope, Obstacle, PlaneObstacle

HERE = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
THERE = Frame((0.0, 200.0, 0.0), (0.0, -1.0, 0.0), (-1.0, 0.0, 0.0))
"""The far end: who looks into its mouth sees the part's right on the left."""
ROOM_MM = 80.0
"""A housing and a driver need no more, so that up is taken wherever up has as much."""


def turn(*obstacles: Obstacle, frame: Frame = HERE) -> tuple[float, str]:
    return clamp_turn(frame, 20.0, 50.0, Envelope(keep_clear=obstacles))


def wall(x: float, z: float, at: float) -> PlaneObstacle:
    """A wall that stands at `at` mm from the axis in the direction (right, up)."""
    size = math.hypot(x, z)
    return PlaneObstacle((x / size * at, 0.0, z / size * at), (-x / size, 0.0, -z / size), "wall")


@pytest.mark.parametrize(
    ("obstacle", "deg", "words"),
    [
        # 70 over the axis: right has 70, down and right 70 + 35.4: enough
        (wall(0, 1, 70), 135.0, "down and right"),
        (wall(0, -1, 70), 0.0, "up"),
        # 100 from the axis: the left has 150, but up and right has 100 - 35.4 = 64.6 and up exactly 100: enough
        (wall(1, 0, 100), 0.0, "up"),
        # 60 from the axis: up has 60 only, up and left 60 + 35.4: enough, and the nearest to up that has
        (wall(1, 0, 60), 315.0, "up and left"),
        (wall(-1, 0, 60), 45.0, "up and right"),
        # up and left 55 away: up has 55 - 35.4, right and down have 55 + 35.4: enough; right is nearer to up
        (wall(-1, 1, 55), 90.0, "right"),
        (wall(1, 1, 55), 270.0, "left"),
        # a shelf above, its edge 40 to the right: as a box
        (BoxObstacle((-300.0, -300.0, 60.0), (40.0, 300.0, 80.0), "box"), 135.0, "down and right"),
        # a pipe beside the hose, above it and to the right: up has sqrt(60^2 + 10^2) - 15 = 45.8, up and left
        # sqrt(95.4^2 + 24.6^2) - 15 = 83.5: enough
        (BarObstacle((60.0, -500.0, 60.0), (60.0, 500.0, 60.0), 30.0, "bar"), 315.0, "up and left"),
        # twice as thick: up and left has 68.5 only, left sqrt(110^2 + 60^2) - 30 = 95.3
        (BarObstacle((60.0, -500.0, 60.0), (60.0, 500.0, 60.0), 60.0, "bar"), 270.0, "left"),
    ],
)
def test_the_screw_turns_away_from_what_is_near(obstacle: Obstacle, deg: float, words: str) -> None:
    assert turn(obstacle) == (deg, words)


def test_with_nothing_near_or_the_same_all_round_it_is_up() -> None:
    assert turn() == (0.0, "up")
    assert turn(wall(1, 0, 400), wall(0, 1, 400)) == (0.0, "up")
    assert turn(wall(1, 0, 60), wall(-1, 0, 60)) == (0.0, "up")  # up and down have 60 each
    box = [wall(x, z, 60) for x, z in ((1, 0), (-1, 0), (0, -1))]
    assert turn(*box) == (0.0, "up")


def test_of_equal_turns_the_one_nearest_to_up_is_taken() -> None:
    # two pipes, up and right and down and left: up and left and down and right have the same room
    pipes = [BarObstacle((x, -500.0, x), (x, 500.0, x), 20.0, "bar") for x in (55.0, -55.0)]
    assert turn(*pipes) == (315.0, "up and left")


def test_seen_from_the_other_end_left_and_right_change_places() -> None:
    assert turn(wall(1, 0, 60), frame=HERE)[1] == "up and left"
    assert turn(wall(1, 0, 60), frame=THERE)[1] == "up and right"
    assert turn(wall(0, 1, 40), wall(1, 0, 70), wall(-1, 0, 70), frame=THERE)[1] == "down"


def test_a_fat_bar_is_near_at_its_flat_end_only_by_its_length() -> None:
    # a motor 200 across whose flat end stands 30 mm right of the hose, and a wall 120 left of the axis: up is 80 from
    # the motor's end (100 high, so beside up) and 120 from the wall; left is 130 from the motor and 70 from the wall
    motor = BarObstacle((80.0, 20.0, 0.0), (180.0, 20.0, 0.0), 200.0, "motor")
    assert turn(motor, wall(-1, 0, 120)) == (0.0, "up")


def test_a_cones_thin_end_is_thin() -> None:
    # a funnel over the hose, 10 across where it ends at z = 120: 70 over up, sqrt(84.6^2 + 30.4^2) = 89.9 from up and
    # right; a floor 90 below the axis: 40 under down. Up and right is the first that has 80
    funnel = ConeObstacle((0.0, 20.0, 120.0), (0.0, 20.0, 220.0), 10.0, 300.0, "funnel")
    assert turn(funnel, wall(0, -1, 90)) == (45.0, "up and right")


def test_the_words_match_the_direction() -> None:
    """Each way once: a bay of walls, open towards that way only."""
    names = ["up", "up and right", "right", "down and right", "down", "down and left", "left", "up and left"]
    for k, name in enumerate(names):
        a = math.radians(45 * k)
        x, z = math.sin(a), math.cos(a)
        # a wall 20 behind, one 70 to each side: that way there is 70, 45 deg off it 70 - 35.4, beside 20
        assert turn(wall(-x, -z, 20), wall(z, -x, 70), wall(-z, x, 70)) == (45.0 * k, name)


def solid(obstacle: Obstacle) -> trimesh.Trimesh:
    """The obstacle as a mesh, by trimesh."""
    if isinstance(obstacle, BoxObstacle):
        return trimesh.creation.box(bounds=[obstacle.low, obstacle.high])
    assert isinstance(obstacle, BarObstacle | ConeObstacle)
    start, end = np.array(obstacle.start), np.array(obstacle.end)
    long = float(np.linalg.norm(end - start))
    near, far = (
        (obstacle.d_mm, obstacle.d_mm)
        if isinstance(obstacle, BarObstacle)
        else (obstacle.d_start_mm, obstacle.d_end_mm)
    )
    profile = np.array([[0.0, 0.0], [near / 2, 0.0], [far / 2, long], [0.0, long]])
    mesh = trimesh.creation.revolve(profile, sections=256)
    mesh.apply_transform(trimesh.geometry.align_vectors([0, 0, 1], (end - start) / long))
    mesh.apply_translation(start)
    return mesh


def scene(chance: random.Random) -> list[Obstacle]:
    """One to three things round the hose, none of which reaches into it."""
    found: list[Obstacle] = []
    for _ in range(chance.randint(1, 3)):
        a, off = math.radians(chance.uniform(0, 360)), chance.uniform(75, 160)
        x, z = off * math.sin(a), off * math.cos(a)
        kind = chance.choice(["box", "bar", "cone"])
        if kind == "box":
            size = [chance.uniform(5, 30) for _ in range(3)]
            low, high = ((x - size[0], -size[1], z - size[2]), (x + size[0], size[1], z + size[2]))
            found.append(BoxObstacle(low, high, "box"))
            continue
        out = chance.uniform(60, 300) / off
        start, end = (x, chance.uniform(-40, 60), z), (x * (1 + out), chance.uniform(-40, 60), z * (1 + out))
        wide, wider = chance.uniform(5, 40), chance.uniform(5, 300)
        found.append(
            BarObstacle(start, end, wide, kind) if kind == "bar" else ConeObstacle(start, end, wide, wider, kind)
        )
    return found


@pytest.mark.parametrize("seed", range(40))
def test_no_other_turn_has_more_room_by_trimeshs_measure(seed: int) -> None:
    obstacles = scene(random.Random(seed))
    places = [(50 * math.sin(math.radians(45 * k)), 20.0, 50 * math.cos(math.radians(45 * k))) for k in range(8)]
    room = np.full(8, ROOM_MM)
    for mesh in map(solid, obstacles):
        assert mesh.is_volume
        _, far, _ = trimesh.proximity.closest_point_naive(mesh, np.array(places))
        room = np.minimum(room, np.where(mesh.contains(places), 0.0, far))
    deg, _ = turn(*obstacles)
    assert room[int(deg / 45)] >= room.max() - 0.05  # the meshes are polygons of 256 corners


HOSE = (
    "{part: reducer, end_a: {hose_tail: {hose_inside: 100}}, end_b: {plain: {inside: 90}},"
    " envelope: {keep_clear: [%s]}}"
)


def test_the_report_says_it_where_something_stands_near() -> None:
    assert "turn its screw down and right, looking into end_a" in fact(
        HOSE % "{wall: up, at: 70}", "end_a at the bench"
    )
    assert "turn its screw up and left" in fact(HOSE % "{wall: right, at: 65}", "end_a at the bench")
    free = HOSE.replace(", envelope: {keep_clear: [%s]}", "")
    assert fact(free, "end_a at the bench") == "clamp it on the land behind the bead"
