"""A plate on a joist: depths by hand, and that each way of giving is in the answer."""

import pytest

from fitwright.physics.wood import Screw, Timber, withdrawal_n
from fitwright.physics.wood_joint import Depth, PlateAtScrew, depth, hold_in_wood, least_length_mm

SCREW = Screw("wood", 5.0, 3.1, 600.0, 550.0)
PLATE = PlateAtScrew(8.0, 5.5, 15.0, 20.0, 1.0)
JOIST = Timber(0.42)


@pytest.mark.parametrize(
    ("asked", "inside", "thread", "behind"),
    [
        ((60.0, 8.0), 52.0, 40.0, 0.0),
        ((30.0, 12.0), 18.0, 18.0, 0.0),
        ((60.0, 8.0, 2.0, 5.0), 50.0, 35.0, 0.0),
        ((60.0, 8.0, 0.0, 0.0, 38.0), 38.0, 26.0, 14.0),
        ((60.0, 8.0, 0.0, 5.0, 38.0), 38.0, 26.0, 14.0),
        ((8.0, 10.0), 0.0, 0.0, 0.0),
    ],
)
def test_depth(asked, inside, thread, behind):
    """Two thirds of its length are thread; a third of 60 is 20, of which 8 are in the plate."""
    found = depth(*asked)
    assert (found.in_wood_mm, found.thread_mm, found.out_behind_mm) == pytest.approx((inside, thread, behind))


def test_least_length_is_six_diameters_in():
    assert depth(least_length_mm(5.0, 8.0, 1.0), 8.0, 1.0).in_wood_mm == pytest.approx(30.0)


def test_pulled_out_of_timber_or_head_through_the_print():
    hold = hold_in_wood(SCREW, JOIST, depth(60.0, 8.0, 1.0), PLATE)
    assert hold.withdrawal_n == pytest.approx(withdrawal_n("wood", 0.42, 5.0, 40.0))
    assert hold.head_n == pytest.approx(20.0 * 0.5 * 3.14159 * 15.0 * 8.0, rel=0.3)
    assert hold.gives_first == "head pulled through"
    washer = hold_in_wood(SCREW, JOIST, depth(60.0, 8.0, 1.0), PlateAtScrew(8.0, 5.5, 24.0, 20.0, 1.0))
    assert washer.gives_first == "pulled out"


def test_end_grain_and_board_edges_hold_nothing():
    deep = depth(60.0, 8.0)
    for timber in (JOIST, Timber(0.42, 0.7), Timber(0.6, 1.0, True)):
        hold = hold_in_wood(SCREW, timber, deep, PLATE, grain="end")
        assert (hold.withdrawal_n, hold.tension_n) == (0.0, 0.0)
        assert hold.used(1.0, 0.0) == float("inf")
        side = hold_in_wood(SCREW, timber, deep, PLATE)
        assert hold.side_n == pytest.approx(0.67 * side.side_n)


def test_no_wood_no_hold():
    hold = hold_in_wood(SCREW, JOIST, Depth(0.0, 0.0, 0.0), PLATE)
    assert (hold.tension_n, hold.shear_n) == (0.0, 0.0)


def test_thicker_boards_and_denser_woods_hold_more():
    boards = [hold_in_wood(SCREW, JOIST, depth(60.0, 8.0, wood_mm=thick), PLATE) for thick in (12.0, 18.0, 38.0)]
    assert [one.withdrawal_n for one in boards] == sorted(one.withdrawal_n for one in boards)
    woods = [hold_in_wood(SCREW, Timber(g), depth(60.0, 8.0), PLATE).side_n for g in (0.35, 0.42, 0.55, 0.67)]
    assert woods == sorted(woods)


def test_chipboard_holds_less_than_timber_as_thick():
    deep = depth(35.0, 8.0, wood_mm=18.0)
    assert hold_in_wood(SCREW, Timber(0.6, 1.0, True), deep, PLATE).withdrawal_n < 0.85 * (
        hold_in_wood(SCREW, Timber(0.55), deep, PLATE).withdrawal_n
    )
