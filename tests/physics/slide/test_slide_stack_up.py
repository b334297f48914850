"""Stack-ups: the sensitivities by moving each size of a plain chain, the root sum square by drawing at random."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.physics.slide.stack_up import (
    SENSITIVITY,
    Arrangement,
    Contribution,
    Position,
    Sizes,
    StackUp,
    Stop,
    largest,
    position_stack,
    stroke_more_mm,
    travel_stack,
)

FOUR_INCH = Sizes(frame_mm=187.0, stroke_mm=125.0, sleeve_mm=23.4)


def edge_at(arrangement: Arrangement, position: Position, stop: Stop, sizes: dict[str, float]) -> float:
    """Where the blade's edge stands, by walking from the nose face along the rod."""
    out = 1.0 if arrangement == "alongside" else -1.0
    rod_is_out = (position == "open") == (arrangement == "alongside")
    if stop == "sleeve":
        reach = sizes["nose_len"] + sizes["sleeve"]
    else:
        reach = sizes["rod_stub"] + (sizes["stroke"] if rod_is_out else 0.0)
    return sizes["nose_face"] + out * reach - sizes["coupling"]


@pytest.mark.parametrize(("arrangement", "position", "stop"), list(SENSITIVITY))
def test_sensitivities_by_moving_each_size(arrangement: Arrangement, position: Position, stop: Stop) -> None:
    sizes = {"nose_face": 187.0, "rod_stub": 22.0, "stroke": 125.0, "coupling": 20.0, "nose_len": 18.0, "sleeve": 23.4}
    base = edge_at(arrangement, position, stop, sizes)
    for name in sizes:
        moved = edge_at(arrangement, position, stop, {**sizes, name: sizes[name] + 1.0}) - base
        assert SENSITIVITY[arrangement, position, stop].get(name, 0) == pytest.approx(moved), name


def test_the_4_in_chain() -> None:
    # in line: blade 20, shoulder 40, nose face 187 shut; on the sleeve 19.4 + 22 - 18 = 23.4 long the blade is at 125.6
    sizes = {"nose_face": 187.0, "rod_stub": 22.0, "stroke": 125.0, "coupling": 20.0, "nose_len": 18.0, "sleeve": 23.4}
    assert edge_at("in_line", "shut", "cylinder", sizes) == pytest.approx(20.0)
    assert edge_at("in_line", "open", "sleeve", sizes) == pytest.approx(125.6)
    assert edge_at("in_line", "open", "cylinder", sizes) == pytest.approx(145.0)


def test_what_it_comes_to() -> None:
    # tape 0.5, foot 0.2, play 0.25, frame 0.002 x 187 + 0.1 = 0.474, rod stub 1.4, stroke 0 to 2: +1 +-1, thread 0.25
    shut = position_stack("in_line", "shut", "cylinder", FOUR_INCH)
    halves = [0.5, 0.2, 0.25, 0.474, 1.4, 1.0, 0.25]
    assert shut.worst_mm == pytest.approx(sum(halves))
    assert shut.root_sum_square_mm == pytest.approx(math.sqrt(sum(half**2 for half in halves)))
    assert shut.middle_mm == pytest.approx(-1.0)
    assert largest(shut.contributions).name == "rod stub"
    # 4.1 and 1.9, not 3.6 and 1.4: no root sum square is less than its greatest member, 1.4 for the rod stub alone
    assert (round(shut.worst_mm, 1), round(shut.root_sum_square_mm, 1)) == (4.1, 1.9)


def test_the_setting_takes_it_up_where_the_stub_is_read_or_the_stroke_centred() -> None:
    shut = position_stack("in_line", "shut", "cylinder", FOUR_INCH)
    assert shut.range_mm == pytest.approx((-5.074, 3.074))
    assert not shut.fits(5.0)
    assert StackUp(tuple(Contribution(one.name, one.half_mm) for one in shut.contributions)).fits(5.0)
    read = Sizes(frame_mm=187.0, stroke_mm=125.0, sleeve_mm=23.4, wf_half_mm=0.1)
    assert position_stack("in_line", "shut", "cylinder", read).fits(5.0)


def test_root_sum_square_is_what_chance_gives() -> None:
    dice = np.random.default_rng(3)
    stack = travel_stack("sleeve", FOUR_INCH)
    # halves as two standard deviations of normal errors: the sum's two standard deviations
    drawn = sum(
        one.sensitivity * (one.middle_mm + one.half_mm / 2 * dice.standard_normal(200_000))
        for one in stack.contributions
    )
    assert 2 * drawn.std() == pytest.approx(stack.root_sum_square_mm, rel=0.01)
    assert drawn.mean() == pytest.approx(stack.middle_mm, abs=0.01)


def test_what_setting_one_end_leaves_at_the_other() -> None:
    # two readings 0.5, stroke +1 +-1, stub 1.4, nose thread 0.3, sleeve 0.002 x 23.4 + 0.1
    stack = travel_stack("sleeve", FOUR_INCH)
    assert stack.worst_mm == pytest.approx(0.5 + 0.5 + 1.0 + 1.4 + 0.3 + 0.1468)
    assert travel_stack("cylinder", FOUR_INCH).worst_mm == pytest.approx(2.0)


def test_stroke_tolerance() -> None:
    assert [stroke_more_mm(stroke) for stroke in (25, 100, 101, 320)] == [1.5, 1.5, 2.0, 2.0]
