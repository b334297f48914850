"""The chain of lengths and who stops it, by sums in the test: no source but addition.

Blade edge + coupling = rod's shoulder; nose face less rod stub = shoulder, rod in; less the stroke besides, rod out. In
line the rod points to the gate (rod out is shut), alongside away from it (rod out is open).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.physics.slide.chain import (
    Chain,
    Layout,
    Stop,
    choose_stop,
    ends,
    engaged_mm,
    least_engaged_mm,
    sleeve_mm,
    stroke_to_buy,
)

IN_LINE = Chain(shut_mm=20, open_mm=126, coupling_mm=20, rod_stub_mm=22, nose_mm=18, stroke_mm=125)
BESIDE = replace(IN_LINE, layout="alongside")


def shoulders(chain: Chain, nose_face: float, sleeve: float) -> tuple[float, float]:
    """y of the rod's shoulder, rod out and rod in; the rod in is held off by a sleeve between nose and shoulder."""
    way = 1.0 if chain.layout == "in_line" else -1.0
    rod_in = max(chain.rod_stub_mm, chain.nose_mm + sleeve) if sleeve else chain.rod_stub_mm
    return nose_face - way * (chain.rod_stub_mm + chain.stroke_mm), nose_face - way * rod_in


@pytest.mark.parametrize("layout", ["in_line", "alongside"])
@pytest.mark.parametrize(
    ("stop", "stroke", "beyond_shut", "beyond_open"),
    [("exact", 106, 0, 0), ("sleeve", 125, 0, 0), ("over_shut", 125, 19, 0), ("over_open", 125, 0, 19)],
)
def test_the_blade_stands_where_rod_and_coupling_put_it(
    layout: Layout, stop: Stop, stroke: float, beyond_shut: float, beyond_open: float
) -> None:
    chain = replace(IN_LINE, layout=layout, stroke_mm=stroke)
    at = ends(chain, stop)
    out, drawn_in = (y - chain.coupling_mm for y in shoulders(chain, at.nose_face_mm, at.sleeve_mm))
    shut, opened = (out, drawn_in) if layout == "in_line" else (drawn_in, out)
    assert (at.blade_shut_mm, at.blade_open_mm) == pytest.approx((shut, opened))
    assert (shut, opened) == pytest.approx((20 - beyond_shut, 126 + beyond_open))
    assert at.moved_mm == pytest.approx(opened - shut)


@pytest.mark.parametrize(("layout", "shut", "opened"), [("in_line", 20, 145), ("alongside", 1, 126)])
def test_without_a_stop_the_excess_is_spent_where_the_rod_is_in(layout: Layout, shut: float, opened: float) -> None:
    at = ends(replace(IN_LINE, layout=layout), "none")
    assert (at.blade_shut_mm, at.blade_open_mm) == (shut, opened)
    assert at.sleeve_mm == 0.0


@pytest.mark.parametrize("layout", ["in_line", "alongside"])
@pytest.mark.parametrize(("stroke", "opened"), [(105.6, 125.6), (106.0, 126.0), (106.4, 126.4)])
def test_an_exact_stroke_moves_by_the_stroke(layout: Layout, stroke: float, opened: float) -> None:
    """What it is short of lacks at open; what it is longer is spent where the rod is in."""
    at = ends(replace(IN_LINE, layout=layout, stroke_mm=stroke), "exact")
    assert at.moved_mm == pytest.approx(stroke)
    assert at.blade_open_mm == pytest.approx(opened if layout == "in_line" else min(opened, 126.0))


def test_a_short_stroke_lacks_at_open() -> None:
    at = ends(replace(IN_LINE, stroke_mm=104), "short")
    assert (at.blade_shut_mm, at.blade_open_mm) == (20, 124)


def test_the_sleeve_stops_the_end_at_which_the_rod_is_in() -> None:
    line, beside = ends(IN_LINE, "sleeve"), ends(BESIDE, "sleeve")
    assert "sleeve" in line.stopped_open_by and "own end" in line.stopped_shut_by
    assert "sleeve" in beside.stopped_shut_by and "own end" in beside.stopped_open_by
    assert sleeve_mm(IN_LINE) == 125 - 106 + 22 - 18


def test_a_sleeve_comes_first_and_takes_up_half_the_stroke_at_most() -> None:
    assert choose_stop(IN_LINE, far_end_open=True, engaged_open_mm=200, room_mm=200) == "sleeve"
    long = replace(IN_LINE, stroke_mm=212)  # excess 106: just half of it
    assert choose_stop(long, far_end_open=False, engaged_open_mm=0) == "sleeve"
    assert choose_stop(replace(long, stroke_mm=213), far_end_open=False, engaged_open_mm=0) is None


def test_a_shoulder_inside_the_nose_leaves_no_place_for_a_sleeve() -> None:
    """Then the excess is spent beyond shut where the slot has that much room, else beyond open, else not at all."""
    inside = replace(IN_LINE, rod_stub_mm=17)
    assert choose_stop(inside, far_end_open=True, engaged_open_mm=0, room_mm=19) == "over_shut"
    assert choose_stop(inside, far_end_open=True, engaged_open_mm=0, room_mm=18.9) is None
    assert choose_stop(inside, far_end_open=False, engaged_open_mm=0, room_mm=40) is None
    assert choose_stop(inside, far_end_open=False, engaged_open_mm=19 + 15) == "over_open"
    assert choose_stop(inside, far_end_open=False, engaged_open_mm=19 + 14.9) is None


def test_within_half_a_millimetre_it_is_exact_and_three_may_lack() -> None:
    for stroke, stop in ((106.5, "exact"), (106.6, "sleeve"), (105.5, "exact"), (105.4, "short"), (103, "short")):
        assert choose_stop(replace(IN_LINE, stroke_mm=stroke), False, 0.0) == stop
    assert choose_stop(replace(IN_LINE, stroke_mm=102.9), True, 500.0, 500.0) is None


def test_what_stays_in_the_guides() -> None:
    assert engaged_mm(148, 126) == 22 and engaged_mm(148, 20, body_long_mm=100) == 100
    assert least_engaged_mm(106) == 15 and least_engaged_mm(200) == 20


def test_the_stroke_to_buy_is_the_shortest_that_is_long_enough() -> None:
    sold = (160.0, 80.0, 125.0, 100.0)
    assert stroke_to_buy(100.5, sold) == 100 and stroke_to_buy(100.6, sold) == 125
    assert stroke_to_buy(99.6, sold) == 100
    assert stroke_to_buy(161, sold) is None
