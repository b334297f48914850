"""The seat that only presses: against closed forms, between its two bounds, and reactions that carry the load."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from cadquery import Solid, Vector

from fitwright.loads import LoadCase, Support
from fitwright.physics.elastic.seat import glued, pressing
from tests.reference.elastic import BODY, Solved, answer, flat, load, task_of, unit

X, Y, Z, DOWN = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2, 0.3, 0.4])
def test_a_stiff_footing_with_its_load_off_the_middle(share: float) -> None:
    """Beyond the middle third it lifts off: a triangle of pressure, p_max = 2 F / (3 b (h / 2 - e)); within it a
    trapezium, F / (b h) (1 + 6 e / h) (any textbook of foundations or of masonry). On 400 strips of springs.
    """
    force, b, h, k = 1000.0, 20.0, 60.0, 50.0
    strips, e = 400, share * h
    x = (np.arange(strips) + 0.5) * h / strips - h / 2
    area = b * h / strips
    # a rigid block that gives way by 1 / soft along and about its middle, and whose answer to a push is therefore known
    soft = 1e-4
    compliance = (1.0 + np.outer(x, x) / h**2) / (soft * force)
    into = (force + force * e * x / h**2) / (soft * force)
    pushed = pressing(compliance, np.full(strips, k * area), into) / area
    expected = 2 * force / (3 * b * (h / 2 - e)) if e > h / 6 else force / (b * h) * (1 + 6 * e / h)
    assert pushed.max() == pytest.approx(expected, rel=0.01)
    assert pushed.sum() * area == pytest.approx(force, rel=1e-3)
    width = 3 * (h / 2 - e) if e > h / 6 else h
    assert (pushed > 0).sum() * h / strips == pytest.approx(width, rel=0.02)
    both = glued(compliance, np.full(strips, k * area), into) / area
    assert both.max() == pytest.approx(force / (b * h) * (1 + 6 * e / h), rel=0.01)


def test_no_patch_ever_pulls_and_none_that_is_pressed_stays_free() -> None:
    """The conditions of Karush, Kuhn and Tucker, on a hundred random seats."""
    rng = np.random.default_rng(11)
    for _ in range(100):
        n = int(rng.integers(2, 30))
        root = rng.normal(size=(n, n))
        compliance, springs, into = root @ root.T / n, rng.uniform(0.5, 20.0, n), rng.normal(size=n)
        force = pressing(compliance, springs, into)
        left = into - (compliance + np.diag(1 / springs)) @ force
        assert (force >= 0).all() and (left < 1e-8).all() and np.abs(left * force).max() < 1e-8


def bracket() -> Solid:
    """An L: a plate of 60 x 40 x 6 on the seat (z = 0), an upright of 6 x 40 x 50 at its middle; two holes of 5."""
    made = Solid.makeBox(60, 40, 6).fuse(Solid.makeBox(6, 40, 50, Vector(27, 0, 0)))
    for x in (10.0, 50.0):
        made = made.cut(Solid.makeCylinder(2.5, 8, Vector(x, 20, -1)))
    return made.Solids()[0]


FACES = (
    flat("back", (30.0, 20.0, 0.0), Z, X, (30.0, 20.0)),
    flat("one washer", (10.0, 20.0, 6.0), DOWN, X, (5.0, 5.0), 10.0),
    flat("other washer", (50.0, 20.0, 6.0), DOWN, X, (5.0, 5.0), 10.0),
    flat("end", (30.0, 20.0, 50.0), DOWN, X, (3.0, 20.0)),
)
HELD = ("back", "one washer", "other washer")
SUPPORTS = (Support("back", "seat"), *(Support(name, "washer", 4000.0, 2000.0) for name in HELD[1:]))


@cache
def solved_bracket() -> Solved:
    """One mesh and one factorisation for 26 directions."""
    ways = tuple(unit(*(a - 1.0 for a in v)) for v in np.ndindex(3, 3, 3) if v != (1, 1, 1))
    case = LoadCase("pull", BODY, "end", 100.0, ways, HELD)
    return Solved(task_of(bracket(), FACES, SUPPORTS, [case], 5.0, 0.36))


@pytest.mark.slow
def test_a_bracket_moves_less_than_without_a_seat_and_more_than_glued_to_it() -> None:
    """The potential energies are nested, so the movement along the load lies between the bounds, from 26 directions."""
    between = lifted = 0
    for way in solved_bracket().ways:
        low, middle, high = (way.moved(u) for u in (way.seated.glued, way.seated.pressing, way.seated.loose))
        assert low <= middle * (1 + 1e-9) and middle <= high * (1 + 1e-9), way.direction
        between += low < 0.98 * middle and middle < 0.98 * high
        lifted += middle > 1.02 * low
    assert between >= 4 and lifted >= 8


@pytest.mark.slow
def test_what_holds_a_bracket_carries_its_load() -> None:
    """Sum of the springs' and the seat's forces = load to 1e-8, as seated by pressing patches."""
    solved = solved_bracket()
    space, patches = solved.model.space, solved.model.patches
    for way in solved.ways:
        for moved, sign in ((way.seated.pressing, True), (way.seated.loose, False)):
            u = space.by_component(moved)
            reaction = np.zeros(3)
            for name in HELD[1:]:
                patch = patches[name]
                mean = np.array([patch.along(u, axis) for axis in np.eye(3)])
                reaction -= mean * (2000.0, 2000.0, 4000.0)
            load_n = 100.0 * np.array(way.direction)
            off = load_n + reaction
            if sign:  # what is left is the seat's, and it only pushes up
                assert abs(off[0]) < 1e-6 and abs(off[1]) < 1e-6 and off[2] < 1e-6
            else:
                assert np.linalg.norm(off) < 1e-6


def test_what_is_pressed_onto_its_seat_feels_no_washer() -> None:
    """A block of 40 x 40 x 20 pressed down in its middle: the seat carries nearly all; it sinks by F / (k A)."""
    block = Solid.makeBox(40, 40, 20, Vector(-20, -20, 0))
    faces = (
        flat("back", (0.0, 0.0, 0.0), Z, X, (20.0, 20.0)),
        flat("washer", (0.0, 0.0, 20.0), DOWN, X, (5.0, 5.0), 10.0),
        flat("top", (0.0, 0.0, 20.0), DOWN, X, (20.0, 20.0)),
    )
    supports = Support("back", "seat"), Support("washer", "washer", 10.0, 10.0)
    case = [load("top", 400.0, DOWN, ["back", "washer"])]
    k = 20.0
    found = answer(block, faces, supports, case, 8.0, 0.0, seat_n_mm3=k, modulus_mpa=2e5)
    (one,) = found.cases
    assert one.moved_mm == pytest.approx(400.0 / (k * 1600.0 + 10.0), rel=0.02)
    assert one.glued_mm == pytest.approx(one.moved_mm, rel=1e-6)
    assert one.loose_mm == pytest.approx(400.0 / 10.0, rel=0.02)
    (up,) = answer(block, faces, supports, [load("top", 400.0, Z, ["back", "washer"])], 8.0, 0.0, modulus_mpa=2e5).cases
    assert up.moved_mm == pytest.approx(up.loose_mm, rel=1e-9)
    assert math.isclose(up.moved_mm, 400.0 / 10.0, rel_tol=0.02)
