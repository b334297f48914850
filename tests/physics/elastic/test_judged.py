"""What is judged and what is not: shear between layers, places beside washers, cases that need no finer mesh."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest
from cadquery import Solid, Vector
from tests.reference.elastic import BODY, Solved, flat, load, task_of

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.physics.elastic.counted import counted_at
from fitwright.physics.elastic.model import _forces
from fitwright.physics.elastic.refined import EASY, MINOR, hard
from fitwright.physics.elastic.use import across_layers
from fitwright.physics.elasticity import _answers, _bearing

X, Y, Z, DOWN = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
WALL = 4.0


def test_shear_between_layers_counts_as_von_mises_has_it() -> None:
    """Pure shear of 5 MPa: sqrt(3) x 5 (R. von Mises, 1913); with a pull of 2: sqrt(4 + 75); pressing is free."""
    sheared = np.array([[0.0, 0.0, 5.0], [0.0, 0.0, 0.0], [5.0, 0.0, 0.0]])
    assert float(across_layers(sheared, Z)) == pytest.approx(5.0 * math.sqrt(3.0))
    assert float(across_layers(sheared, X)) == pytest.approx(5.0 * math.sqrt(3.0))
    assert float(across_layers(sheared, Y)) == pytest.approx(0.0, abs=1e-12)
    for along, expected in ((2.0, math.sqrt(79.0)), (-2.0, 5.0 * math.sqrt(3.0))):
        assert float(across_layers(sheared + np.diag([0.0, 0.0, along]), Z)) == pytest.approx(expected)


def plate_faces() -> tuple[LoadFace, ...]:
    return (
        flat("washer", (10.0, 15.0, WALL), DOWN, X, (5.0, 5.0), 10.0),
        flat("other washer", (50.0, 15.0, WALL), DOWN, X, (5.0, 5.0), 10.0),
        flat("end", (60.0, 15.0, WALL / 2), (-1.0, 0.0, 0.0), Y, (15.0, 2.0)),
    )


@cache
def plate() -> Solved:
    """60 x 30 x 4, under two washers, pulled at its end."""
    supports = Support("washer", "washer", 4000.0, 2000.0), Support("other washer", "washer", 1000.0, 2000.0)
    ways: tuple[Vec, ...] = (X, Z, DOWN, Y)
    case = LoadCase("pull", BODY, "end", 100.0, ways, ("washer", "other washer"))
    return Solved(task_of(Solid.makeBox(60, 30, WALL), plate_faces(), supports, [case], 6.0, 0.36, wall_mm=WALL))


def test_what_lies_further_than_a_wall_from_a_washer_counts() -> None:
    """Hidden: within 5 + 4 mm of a washer's middle and less than 4 mm deep; the underside is judged, right below it."""
    one = plate()
    task, space = one.model.task, one.model.space
    faces = {face.name: face for face in task.faces}
    counted = counted_at(space, task, task.supports, faces, one.model.patches)
    away = np.min([np.hypot(one.at[:, 0] - x, one.at[:, 1] - 15.0) for x in (10.0, 50.0)], axis=0)
    below = one.at[:, 2] < 1e-6
    assert counted[(away > 9.0 + 1e-6) | below].all() and not counted[(away < 9.0 - 1e-6) & ~below].any()
    for way in one.ways:
        x, y, z = way.peak.at
        assert z < 1e-6 or min(math.hypot(x - middle, y - 15.0) for middle in (10.0, 50.0)) > 9.0 - 1e-6


def test_the_washer_that_is_pressed_hardest_is_found_whichever_way_governs_the_stress() -> None:
    """Were the level pull the worst, the washers would still be held against the lift; they carry it (statics)."""
    one = plate()
    ((_, found),) = _answers(one.model, one.ways)
    each = {way.direction: _bearing(one.model, way) for way in one.ways}
    assert found.bearing[1] == max(pressure for _, pressure in each.values())
    ((_, level),) = _answers(one.model, [replace(one.ways[0], demand=1e9), *one.ways[1:]])
    assert level.direction == X and level.bearing == found.bearing and found.bearing[0].endswith("washer")
    space = one.model.space
    up = next(way for way in one.ways if way.direction == Z)
    moved = space.by_component(up.seated.pressing)
    forces = [
        k * one.model.patches[name].along(moved, np.array(Z))
        for name, k in (("washer", 4000.0), ("other washer", 1000.0))
    ]
    assert sum(forces) == pytest.approx(100.0, rel=1e-6)
    area = one.model.patches[each[Z][0]].area_mm2
    assert each[Z][1] == pytest.approx(max(abs(f) for f in forces) / area, rel=1e-6)


def test_a_force_presses_on_the_side_that_it_is_pulled_to() -> None:
    """A ring pulled along x by what lies in it: nothing on the far half, cosine on the near one, all of the force."""
    ring = Solid.makeCylinder(15, 6).cut(Solid.makeCylinder(10, 8, Vector(0, 0, -1))).Solids()[0]
    faces = (
        LoadFace("bore", BODY, "round", Frame((0.0, 0.0, 0.0), Z, X), r_mm=10.0, s_mm=(0.0, 6.0)),
        flat("foot", (0.0, 0.0, 0.0), Z, X, (15.0, 15.0)),
    )
    one = Solved(task_of(ring, faces, (), [load("bore", 80.0, X, ["foot"])], 2.0))
    patch, space = one.model.patches["bore"], one.model.space
    ((_, made),) = _forces(one.ways[0].case, patch)
    at_vertices = made.reshape(3, -1)[:, : space.vertices]
    assert at_vertices.sum(axis=1) == pytest.approx((80.0, 0.0, 0.0), abs=1e-9)
    assert (at_vertices[0][one.at[:, 0] < -1e-6] == 0.0).all()
    cosine = patch.pressed_along(X).middle[0]  # of a pressure p cos on half a circle: r pi / 4 from its axis
    assert cosine == pytest.approx(10.0 * math.pi / 4, rel=0.02)


@pytest.mark.parametrize("way", [X, DOWN, (0.6, 0.0, 0.8)])
def test_a_force_through_a_point_off_the_face_has_its_moment(way: Vec) -> None:
    """Force and moment about the origin are those of one force at `at`, on a bar's end."""
    at: Vec = (90.0, 25.0, -12.0)
    faces = (
        flat("root", (0.0, 0.0, 0.0), X, Y, (10.0, 5.0)),
        flat("tip", (50.0, 0.0, 0.0), (-1.0, 0.0, 0.0), Y, (10, 5)),
    )
    bar = Solid.makeBox(50, 20, 10, Vector(0, -10, -5))
    one = Solved(task_of(bar, faces, (), [load("tip", 30.0, way, ["root"], at=at)], 8.0))
    ((_, made),) = _forces(one.ways[0].case, one.model.patches["tip"])
    forces, space = made.reshape(3, -1), one.model.space
    force = 30.0 * np.array(way)
    assert forces[:, : space.vertices].sum(axis=1) == pytest.approx(force, abs=1e-9)
    assert np.cross(space.place, forces.T).sum(axis=0) == pytest.approx(np.cross(at, force), abs=1e-6)


@dataclass(frozen=True)
class Asked:
    """As much of a solved way as is looked at."""

    case: LoadCase
    demand: float


def asked(name: str, demand: float, limit_mm: float = 0.0) -> Asked:
    return Asked(LoadCase(name, BODY, "face", 1.0, (X,), ("foot",), limit_mm=limit_mm), demand)


def test_no_case_that_could_govern_keeps_its_first_mesh() -> None:
    """What is left out stays below the worst if its first mesh missed its peak by a factor of two, and passes (1.5)."""
    ways = [asked(f"case {k}", k / 40.0) for k in range(1, 41)] + [asked("moves", 0.01, 0.5)]
    kept = {way.case.name for way in hard(ways)}  # type: ignore[arg-type]
    assert "moves" in kept and len(kept) > 2
    left = [way.demand for way in ways if way.case.name not in kept]
    assert left and 2.0 * max(left) <= max(way.demand for way in ways)
    alone = [asked("case", 0.3), asked("case", 0.05)]
    assert hard(alone) == alone  # type: ignore[arg-type, comparison-overlap]
    assert hard([asked("case", 0.19)]) == []  # type: ignore[list-item]
    assert 2.0 * EASY < 1.0 / 1.5 and 2.0 * MINOR <= 1.0
