"""Screws of a plate: worked examples, hand-worked tilting, equilibrium, and an independent minimiser."""

import math

import numpy as np
import pytest
from scipy.optimize import minimize, nnls

from fitwright.physics import batten
from fitwright.physics.batten import Hanging, reactions
from fitwright.physics.fixing import Plate, screw_forces, sphere, worst_of_any_direction

SQUARE = ((-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0))
JOIST = Plate(((-20.0, -45.0), (20.0, -45.0), (20.0, 45.0), (-20.0, 45.0)), ((0.0, 30.0), (0.0, -30.0)))
TRIANGLE = Plate(((-40.0, -30.0), (50.0, -25.0), (10.0, 60.0)), ((-25.0, -20.0), (30.0, -15.0), (8.0, 40.0)))


def block(width, height):
    return tuple((x * width / 2, y * height / 2) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1)))


def test_bracket_of_an_examination():
    """Four bolts at 30 and 40 from the middle, 10 kN at 100: 2.5 kN straight, 5 kN by twist, 7.16 kN together (a
    published question on eccentric bolted brackets)."""
    plate = Plate(block(140, 120), block(80, 60))
    forces = screw_forces(plate, [((0.0, -10e3, 0.0), (100.0, 0.0, 0.0))])
    assert max(forces.shears_n) == pytest.approx(7160, rel=2e-3)
    assert forces.tension_n == pytest.approx((0.0,) * 4)


def test_slanting_force_on_eight_fasteners():
    """A published lecture example: 8 fasteners at +-70 and -150, -25, 50, 125; 225 kN at a slope of 2 in 1, moment
    55342.65 kN mm: 98.867 kN on the critical one."""
    screws = tuple((x, y) for y in (-150.0, -25.0, 50.0, 125.0) for x in (-70.0, 70.0))
    plate = Plate(block(200, 400), screws)
    force = (225.0 / math.sqrt(5), 450.0 / math.sqrt(5), 0.0)
    forces = screw_forces(plate, [(force, (375.0, 200.0, 0.0))])
    assert max(forces.shears_n) == pytest.approx(98.867, rel=1e-4)
    assert int(np.argmax(forces.shears_n)) == 1


def test_bracket_that_tilts_by_the_handbook():
    """W L l2 / 2 (l1^2 + l2^2) for two rows at l1 and l2 from the edge about which it tilts."""
    plate = Plate(block(100, 120), tuple((x, y) for y in (-40.0, 40.0) for x in (-30.0, 30.0)))
    forces = screw_forces(plate, [((0.0, -800.0, 0.0), (0.0, 0.0, 150.0))])
    l1, l2 = 20.0, 100.0
    for tension, arm in zip(forces.tension_n, (l1, l1, l2, l2), strict=True):
        assert tension == pytest.approx(800.0 * 150.0 * arm / (2 * (l1**2 + l2**2)))
    assert forces.pressed_n == pytest.approx(sum(forces.tension_n))
    assert forces.shears_n == pytest.approx((200.0,) * 4)


def test_upwards_it_tilts_about_the_upper_edge():
    down = screw_forces(JOIST, [((0.0, -100.0, 0.0), (0.0, 0.0, 60.0))])
    up = screw_forces(JOIST, [((0.0, 100.0, 0.0), (0.0, 0.0, 60.0))])
    assert up.tension_n == pytest.approx(down.tension_n[::-1])


def test_two_screws_in_a_line_pulled_to_the_side():
    """Tilts about the side edge, 20 mm from both: each bears half of 100 N x 60 mm / 20 mm."""
    forces = screw_forces(JOIST, [((100.0, 0.0, 0.0), (0.0, 0.0, 60.0))])
    assert forces.tension_n == pytest.approx((150.0, 150.0))
    assert forces.pressed_n == pytest.approx(300.0)


def test_pulled_straight_off():
    """In the middle: evenly; beside it, by the straight line F / n + M y / sum y^2 while the plate hangs free."""
    assert screw_forces(JOIST, [((0.0, 0.0, 90.0), (0.0, 0.0, 10.0))]).tension_n == pytest.approx((45.0, 45.0))
    beside = screw_forces(JOIST, [((0.0, 0.0, 90.0), (0.0, 10.0, 10.0))])
    assert beside.tension_n == pytest.approx((60.0, 30.0))
    assert beside.pressed_n == pytest.approx(0.0, abs=1e-9)


def test_pulled_beyond_its_screws_it_pries():
    """90 N at y = 40: the straight line gives 105 and -15; it tips over the lower edge instead: 90 x 85 / (75^2 + 15^2)
    x arm, 97.9 and 24.. by hand: 7650 / 5850 = 1.3077 a millimetre."""
    forces = screw_forces(JOIST, [((0.0, 0.0, 90.0), (0.0, 40.0, 0.0))])
    assert forces.tension_n == pytest.approx((75 * 7650 / 5850, 15 * 7650 / 5850))
    assert forces.pressed_n == pytest.approx(90 * 7650 / 5850 - 90)


def test_pushed_on_the_surface():
    assert screw_forces(TRIANGLE, [((0.0, 0.0, -50.0), (5.0, 5.0, 30.0))]).tension_n == (0.0, 0.0, 0.0)


def test_one_screw():
    """On a corner or an edge: 40 N x 60 mm over 50 mm; a twist is left to friction and said."""
    plate = Plate(SQUARE, ((0.0, 0.0),))
    forces = screw_forces(plate, [((0.0, -40.0, 0.0), (10.0, 0.0, 60.0))])
    assert forces.tension_n == pytest.approx((48.0,))
    assert forces.twist_nmm == pytest.approx(-400.0)
    assert screw_forces(JOIST, [((0.0, -40.0, 0.0), (10.0, 0.0, 60.0))]).twist_nmm == 0.0


def random_loads(seed, count):
    rng = np.random.default_rng(seed)
    for _ in range(count):
        yield tuple(rng.normal(0, 100, 3)), tuple(rng.normal(0, 60, 3))


@pytest.mark.parametrize("plate", [JOIST, TRIANGLE, Plate(SQUARE, block(60, 70))], ids=["joist", "three", "four"])
def test_equilibrium_with_forces_that_only_press(plate):
    """Screws that pull and corners that press (found by non-negative least squares) balance the load wholly."""
    for force, point in random_loads(1, 150):
        found = screw_forces(plate, [(force, point)])
        fx, fy, fz = force
        x, y, z = point
        load = np.array([fz, fz * x - fx * z, fz * y - fy * z])
        holds = sum(t * np.array([1.0, sx, sy]) for t, (sx, sy) in zip(found.tension_n, plate.screws, strict=True))
        corners = np.array([[1.0, cx, cy] for cx, cy in plate.hull]).T
        _, missing = nnls(corners, holds - load)
        assert missing < 1e-5 * np.abs(load).max()
        shear = np.array(found.shear_n)
        assert shear.sum(axis=0) == pytest.approx(force[:2])
        twist = sum(sx * v - sy * u for (sx, sy), (u, v) in zip(plate.screws, found.shear_n, strict=True))
        assert twist == pytest.approx(x * fy - y * fx, abs=1e-6)


@pytest.mark.parametrize("plate", [JOIST, TRIANGLE, Plate(SQUARE, block(60, 70))], ids=["joist", "three", "four"])
def test_least_energy_by_an_independent_minimiser(plate):
    """scipy's SLSQP on sum w^2 / 2 - work, w >= 0 at the corners."""
    gaps = np.array([[1.0, x / 50, y / 50] for x, y in plate.screws])
    corners = np.array([[1.0, x / 50, y / 50] for x, y in plate.hull])
    for force, point in random_loads(2, 25):
        fx, fy, fz = force
        x, y, z = point
        load = np.array([fz, (fz * x - fx * z) / 50, (fz * y - fy * z) / 50]) / 100
        best = minimize(
            lambda q, load=load: 0.5 * ((gaps @ q) ** 2).sum() - load @ q,
            np.array([1.0, 0.0, 0.0]),
            jac=lambda q, load=load: gaps.T @ (gaps @ q) - load,
            constraints={"type": "ineq", "fun": lambda q: corners @ q, "jac": lambda q: corners},
            method="SLSQP",
            options={"ftol": 1e-14, "maxiter": 500},
        )
        found = screw_forces(plate, [(force, point)]).tension_n
        assert found == pytest.approx(tuple(100 * gaps @ best.x), abs=0.05)


def test_more_edge_less_tension():
    """A longer plate below has a longer arm."""
    load = [((0.0, -150.0, 0.0), (0.0, 0.0, 80.0))]
    tensions = [max(screw_forces(Plate(block(40, high), JOIST.screws), load).tension_n) for high in (70, 90, 130)]
    assert tensions == sorted(tensions, reverse=True)


def test_loads_add_up_as_one():
    one = screw_forces(TRIANGLE, [((10.0, -20.0, 5.0), (0.0, -60.0, 40.0)), ((0.0, -30.0, 0.0), (0.0, -60.0, 40.0))])
    assert one == screw_forces(TRIANGLE, [((10.0, -50.0, 5.0), (0.0, -60.0, 40.0))])


def test_sphere_is_even():
    ways = sphere()
    assert len({tuple(way) for way in ways.round(9)}) == 642
    assert np.linalg.norm(ways, axis=1) == pytest.approx(np.ones(642))
    assert ways.sum(axis=0) == pytest.approx(np.zeros(3), abs=1e-9)
    nearest = np.random.default_rng(3).normal(size=(4000, 3))
    nearest /= np.linalg.norm(nearest, axis=1, keepdims=True)
    assert np.degrees(np.arccos((nearest @ ways.T).max(axis=1))).max() < 5.3


@pytest.mark.parametrize("plate", [JOIST, TRIANGLE, Plate(SQUARE, block(60, 70))], ids=["joist", "three", "four"])
@pytest.mark.parametrize("point", [(0.0, -90.0, 70.0), (30.0, 10.0, 40.0)], ids=str)
def test_worst_direction_is_not_beaten(plate, point):
    """500 random directions find nothing worse, and come near."""
    worst = worst_of_any_direction(plate, 150.0, point, 400.0, 300.0)
    ways = np.random.default_rng(5).normal(size=(500, 3))
    ways /= np.linalg.norm(ways, axis=1, keepdims=True)
    found = [screw_forces(plate, [(tuple(150.0 * way), point)]) for way in ways]
    for screw, one in enumerate(worst):
        tension = max(forces.tension_n[screw] for forces in found)
        shear = max(forces.shears_n[screw] for forces in found)
        used = max(forces.tension_n[screw] / 400 + forces.shears_n[screw] / 300 for forces in found)
        assert tension <= one.most_tension_n * (1 + 1e-9)
        assert shear <= one.most_shear_n * (1 + 1e-9)
        assert used <= one.used * (1 + 1e-9)
        assert (tension, shear, used) == pytest.approx((one.most_tension_n, one.most_shear_n, one.used), rel=0.06)
        again = screw_forces(plate, [(tuple(150.0 * c for c in one.direction), point)])
        assert again.tension_n[screw] == pytest.approx(one.tension_n, abs=1e-6)
        assert again.shears_n[screw] == pytest.approx(one.shear_n, abs=1e-6)


def test_worst_direction_with_a_weight_on_it():
    weight = [((0.0, -40.0, 0.0), (0.0, -60.0, 60.0))]
    with_it = worst_of_any_direction(JOIST, 150.0, (0.0, -60.0, 60.0), 400.0, 300.0, weight)
    without = worst_of_any_direction(JOIST, 150.0, (0.0, -60.0, 60.0), 400.0, 300.0)
    for one, other in zip(with_it, without, strict=True):
        assert one.used > other.used


@pytest.mark.parametrize(
    ("outline", "screws", "words"),
    [
        (SQUARE, (), "a plate without screws holds nothing"),
        (SQUARE, ((0.0, 0.0), (0.0, 51.0)), "screw 2 at 0, 51 lies outside the plate"),
        (((0.0, 0.0), (1.0, 1.0), (2.0, 2.0)), ((1.0, 1.0),), "has no area"),
    ],
)
def test_plates_that_are_none(outline, screws, words):
    with pytest.raises(ValueError, match=words):
        Plate(outline, screws)


def test_screws_on_the_pressed_edge_hold_nothing_against_it():
    plate = Plate(SQUARE, ((-30.0, -50.0), (30.0, -50.0)))
    with pytest.raises(ValueError, match="nothing keeps it from turning"):
        screw_forces(plate, [((0.0, -10.0, 0.0), (0.0, 0.0, 50.0))])


def test_batten_between_and_beyond():
    """Simple beam W b / L, W a / L; overhang W a / L up at the far support (any handbook's beam tables)."""
    assert reactions(0.0, 400.0, [Hanging(100.0, 80.0)]) == batten.Reactions(60.0, 20.0)
    beyond = reactions(0.0, 400.0, [Hanging(600.0, 80.0)])
    assert (beyond.first_n, beyond.second_n) == pytest.approx((-40.0, 120.0))
    assert beyond.uplift_n == pytest.approx(40.0)
    assert "the first support is lifted with 40 N" in beyond.words
    assert reactions(0.0, 400.0, [Hanging(200.0, 80.0)]).uplift_n == 0.0
    assert batten.greatest_moment_nmm(0.0, 400.0, [Hanging(600.0, 80.0)]) == pytest.approx(80.0 * 200.0)
    assert batten.greatest_moment_nmm(0.0, 400.0, [Hanging(100.0, 80.0)]) == pytest.approx(80.0 * 100 * 300 / 400)
    with pytest.raises(ValueError, match="stand at one place"):
        reactions(5.0, 5.0, [])


def test_pipe_that_sticks_out_under_a_door():
    """Two brackets half a metre apart, a pipe of 1.5 kg/m and 2.4 m beyond: the inner one is lifted by 4.3 x the
    moment's lever: W (1.2 + 0.5 - 0.5) / 0.5."""
    weight = 1.5 * 9.80665 * 2.4
    held = reactions(0.0, 500.0, [Hanging(500.0 + 1200.0, weight)])
    assert held.first_n == pytest.approx(-weight * 1200 / 500)
    assert held.second_n == pytest.approx(weight * 1700 / 500)
