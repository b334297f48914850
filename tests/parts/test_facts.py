"""What the report says beside the findings, against numbers worked out by hand."""

from __future__ import annotations

import math

import pytest
from tests.whole import fact, part_of

from fitwright.errors import FitwrightError

FLANGE = "{part: reducer, end_a: {flange: {opening: 98, %s}}, end_b: {plain: {inside: 90}}}"
M6_MM = 6.6
"""ISO 273:1979, medium series, M6; brittle sheet wants 2 of it from a hole's centre to the edge, a print 1.5 (common
practice, no source)."""


@pytest.mark.parametrize(
    ("outline", "told"),
    [
        ("round: 174", "1.82 hole diameters"),  # (174 - 150) / 2 = 12.0 = 1.82 x 6.6
        ("round: 176.2", "1.98 hole diameters"),  # 13.1 = 1.98 x 6.6
        ("round: 176.4", None),  # 13.2 = 2 x 6.6
        ("round: 200", None),
        ("rectangle: {width: 200, height: 170}", "1.52 hole diameters"),  # the holes at up and down: 10 = 1.52 x 6.6
        ("rectangle: {width: 176.4, height: 176.4}", None),
        ("cord: 4", None),  # an outline of our own leaves 2 or more
    ],
)
def test_holes_near_the_edge_are_told(outline: str, told: str | None) -> None:
    words = fact(FLANGE % f"{outline}, holes: {{count: 4, circle: 150, size: M6}}", "end_a holds and seals")
    assert words.startswith("4 x M6")
    assert (f"its holes stand {told} from the edge" in words) if told else ("from the edge" not in words)


def test_holes_nearer_than_a_print_bears_are_refused_with_what_works() -> None:
    holes = "holes: {points: [{up: 75}, {right: 75}, {down: 75}, {left: 75}], size: M6}"
    near, far = (FLANGE % f"round: {150 + 2 * 1.5 * M6_MM + more}, {holes}" for more in (-0.2, 0.0))
    with pytest.raises(FitwrightError, match=r"9\.9 mm or more \(1\.5 hole diameters"):
        part_of(near)
    assert part_of(far).bodies


def test_a_washers_seat_near_the_edge_is_refused_with_what_works() -> None:
    # a plain washer for 1/4 in is 5/8 in across (ASME B18.21.1 type A, narrow), its seat 1 mm more; a wall of 3 mm
    least = (0.625 * 25.4 + 1.0) / 2 + 3.0
    with pytest.raises(FitwrightError, match="the washers' seats would leave too thin a rim") as caught:
        part_of(QUARTER % f"round: {150 + 2 * least - 0.2}")
    assert f"{math.ceil(10 * least) / 10:.1f} mm or more" in str(caught.value)
    assert part_of(QUARTER % f"round: {150 + 2 * least + 0.01}").bodies
    assert part_of(QUARTER % f"washers: no, round: {150 + 2 * least - 0.2}").bodies


QUARTER = (
    "{part: reducer, wall: 3, end_b: {plain: {inside: 90}},"
    " end_a: {flange: {opening: 98, %s, holes: {count: 4, circle: 150, size: 1/4 in}}}}"
)


WALL = "{part: reducer, wall: %s, %send_a: {plain: {inside: 60}}, end_b: {plain: {inside: 60}}}"


@pytest.mark.parametrize(
    ("wall", "printer", "told"),
    [
        # lines of 0.42 mm: 7 are 2.94 mm, 8 are 3.36 mm
        ("3", "", "3.00 mm is 7.1 lines of 0.42 mm; 2.94 mm or 3.36 mm would be whole lines"),
        # 6 are 2.52 mm, 5 are 2.10 mm
        ("2.3", "", "2.30 mm is 5.5 lines of 0.42 mm; 2.10 mm or 2.52 mm would be whole lines"),
        ("2.52", "", None),
        ("2.525", "", None),  # 0.005 mm over six lines is no gap
        # lines of 0.6 mm: 5 are 3 mm; 4 are 2.4 mm
        ("3", "printer: {name: generic_220, line: 0.6, nozzle: 0.6}, ", None),
        (
            "2.8",
            "printer: {name: generic_220, line: 0.6, nozzle: 0.6}, ",
            "2.80 mm is 4.7 lines of 0.6 mm; 2.40 mm or 3.00 mm would be whole lines",
        ),
    ],
)
def test_a_wall_of_broken_lines_is_told_with_whole_ones(wall: str, printer: str, told: str | None) -> None:
    assert part_of(WALL % (wall, printer)).facts.get("wall") == told


JOINTS = {
    # what is left to do: nothing where screws, band or cord hold and seal
    "{socket: {over: 100}}": "by friction only: add screws where it is pulled or shaken; tape the seam",
    "{socket: {over: 100, screws: {count: 3, size: No. 8}}}": None,
    "{socket: {over: 100, clamp: {slits: 4, band: 13}}}": None,
    "{socket: {over: 100, fit: glue}}": None,
    "{socket: {over: 100, fit: slide}}": "nothing but a tight fit holds it: add screws, a clamp or tape; tape the seam",
    "{spigot: {into: 100, cord: 5, screws: {count: 3, size: No. 8}}}": None,
    "{spigot: {into: 100, cord: 5}}": "nothing but a tight fit holds it",
    "{hose_tail: {hose_inside: 100}}": "clamp it on the land behind the bead",
    "{flange: {opening: 98, holes: {count: 4, circle: 150, size: M6}}}": None,
    "{plain: {inside: 100}}": None,
}


@pytest.mark.parametrize(("joint", "told"), JOINTS.items(), ids=JOINTS)
def test_what_is_left_to_do_at_the_bench(joint: str, told: str | None) -> None:
    facts = part_of(f"{{part: reducer, end_a: {joint}, end_b: {{plain: {{inside: 90}}}}}}").facts
    assert facts["end_a holds and seals"]
    words = facts.get("end_a at the bench")
    assert (words is None) if told is None else (words is not None and words.startswith(told))
