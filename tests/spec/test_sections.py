"""Sections that are not round, as YAML: what is read; what is refused, with its line, key, found and allowed."""

from __future__ import annotations

import math

import numpy as np
import pytest
from yaml_cases import end_a, loaded, only, refused

from fitwright.errors import RefusalError, SpecError
from fitwright.parts import BUILDERS
from fitwright.section import Section
from fitwright.spec.outline import Outline, Side
from fitwright.spec.section_of import section_of

FLAT = "{rectangle: {width: 200, height: %s}}"
POINTS = "{socket: {over: {points: [%s]}}}"


def section(text: str) -> Section:
    """The section of end_a."""
    found = loaded(end_a(text)).end_a.joint.size.outline  # type: ignore[union-attr]
    assert isinstance(found, Section)
    return found


# what is read


def test_a_rectangle() -> None:
    """150 x 60 with corners of 6: area w h - (4 - pi) r^2."""
    made = section("{socket: {over: {rectangle: {width: 150, height: 60, corner: 6}}}}")
    assert made.area_mm2 == pytest.approx(150 * 60 - (4 - math.pi) * 36)
    assert (made.width_mm, made.height_mm) == pytest.approx((150, 60))


def test_an_oval_in_inches() -> None:
    made = section("{spigot: {into: {oval: {width: 6 in, height: 3 in}}}}")
    assert made.area_mm2 == pytest.approx((math.pi * 9 / 4 + 3 * 3) * 25.4**2)


def test_several_readings_of_a_side_are_averaged_and_their_spread_is_the_fits() -> None:
    size = loaded(end_a("{socket: {over: {rectangle: {width: [150.2, 149.8], height: 60}}}}")).end_a.joint.size  # type: ignore[union-attr]
    assert size.outline is not None and size.outline.width_mm == pytest.approx(150.0)
    assert size.greatest_mm - size.least_mm >= 0.4


D_PORT = "{left: 40, down: 30}, {right: 20, down: 30}, {right: 20, up: 30, via: {right: %s, up: 0}}, {left: 40, up: 30}"


@pytest.mark.parametrize("via", [50.0, 49.6, 50.4])
def test_a_d_shaped_port_whose_arc_all_but_runs_into_its_sides(via: float) -> None:
    """The arc over 60 mm is a half circle at via 50; read 0.4 mm off it makes kinks of 1.5 deg, inwards or outwards."""
    made = section(POINTS % (D_PORT % via))
    exact = 60 * 60 + math.pi * 30 * 30 / 2
    assert made.area_mm2 == pytest.approx(exact, rel=0.005)


def test_a_side_read_at_three_places_may_be_a_little_hollow() -> None:
    sides = "{left: 60, down: 30}, {right: 0, down: %s}, {right: 60, down: 30}, {right: 60, up: 30}, {left: 60, up: 30}"
    assert section(POINTS % (sides % 29.7)).area_mm2 == pytest.approx(120 * 60)
    problem = only(end_a(POINTS % (sides % 29.3)))
    assert problem.key == "end_a.socket.over.points" and "turns inwards" in problem.found


def test_places_make_the_hull_of_their_sides() -> None:
    """Random convex outlines come back as they are: each corner stays, straights stay straight."""
    for seed in range(60):
        rng = np.random.default_rng(seed)
        turns = np.sort(rng.uniform(0, math.tau, 9))
        if np.diff(turns, append=turns[0] + math.tau).max() > 2.5:
            continue
        points = [(round(80 * math.cos(t), 2), round(50 * math.sin(t), 2)) for t in turns]
        sides = tuple(Side(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True))
        outline = Outline(sides)
        made = section_of(outline)
        assert made.area_mm2 == pytest.approx(outline.signed_area_mm2, rel=2e-3)
        assert float(np.abs(made.distance(np.array(points))).max()) < 0.05


# what is refused

SQUARE = "{left: 40, down: 40}, {right: 40, down: 40}, {right: 40, up: 40}, {left: 40, up: 40}"
HOLLOW = "{left: 50, down: 30}, {right: 50, down: 30}, {right: 20, up: 0}, {right: 50, up: 30}, {left: 50, up: 30}"
CROSSED = "{left: 50, down: 30}, {right: 50, up: 30}, {right: 50, down: 30}, {left: 50, up: 30}"
SHARP = "{left: 50, down: 30}, {right: 50, down: 30}, {right: 0, up: 80}"
ASIDE = "{right: 10, down: 40}, {right: 90, down: 40}, {right: 90, up: 40}, {right: 10, up: 40}"


@pytest.mark.parametrize(
    ("joint", "key", "found", "allowed"),
    [
        ("{spigot: {into: %s}}" % (FLAT % 11), "spigot.wall", "a passage of 5.96 mm", "10 mm or more"),
        ("{socket: {over: %s, stop: 4}}" % (FLAT % 15), "socket.stop", "a passage of 7 mm", "10 mm or more"),
        (POINTS % HOLLOW, "socket.over.points", "turns inwards", "bulges outwards"),
        (POINTS % CROSSED, "socket.over.points[4]", "meets the side", "at their ends only"),
        (POINTS % SHARP, "socket.over.points", "a corner of 66 deg", "80 deg or more"),
        (POINTS % ASIDE, "socket.over.points", "centre of the mouth lies outside", "round the centre"),
        ("{socket: {over: %s, fit: press}}" % (FLAT % 60), "socket.fit", "press", "slide | snug | glue"),
        ("{socket: {over: %s, taper: 0.5 deg}}" % (FLAT % 60), "socket.taper", "a taper", "none"),
        (
            "{socket: {over: %s, clamp: {slits: 4, band: 13}}}" % (FLAT % 60),
            "socket.clamp",
            "a clamp",
            "screws, or glue",
        ),
        ("{hose_tail: {hose_inside: %s}}" % (FLAT % 60), "hose_tail.hose_inside", "rectangle", "107.1"),
        ("{plain: {inside: {rectangle: {width: 200, height: 60, corner: 31}}}}", "rectangle.corner", "31 mm", "30 mm"),
        ("{plain: {inside: {oval: {width: 60, height: 60}}}}", "oval.height", "as high as it is wide", "two different"),
        ("{plain: {inside: {rectangle: {width: 200}}}}", "rectangle.height", "nothing", "add `height:`"),
        ("{plain: {inside: {rectangle: {width: 200, height: 6}}}}", "rectangle.height", "6", "10"),
        ("{plain: {inside: {rectangle: {width: [200, 150], height: 60}}}}", "rectangle.width[1]", "200", "10 %"),
        ("{plain: {inside: {rectangle: {width: 200, length: 60}}}}", "length", "length", "height"),
    ],
)
def test_what_no_section_can_be(joint: str, key: str, found: str, allowed: str) -> None:
    problems = refused(end_a(joint))
    (problem, *_) = [p for p in problems if key in p.key] or problems
    assert key in problem.key, problem
    assert problem.line == 2 and problem.key.startswith("end_a.")
    assert found in problem.found and allowed in f"{problem.allowed} {problem.hint}", problem


def test_a_nested_sleeve_is_for_round_ends() -> None:
    ends = f"end_a: {{socket: {{over: 60}}}}\nend_b: {{spigot: {{into: {FLAT % 70}}}}}\n"
    text = f"part: reducer\nline: nested\n{ends}"
    problem = only(text)
    assert (problem.line, problem.key) == (2, "line") and "not round" in problem.found


@pytest.mark.parametrize(
    ("more", "key", "found"),
    [
        ("length: 60\nend_b: {plain: {inside: 60}}", "length", "60.0 mm"),
        ("half_angle: 40\nend_b: {plain: {inside: 60}}", "half_angle", "40"),
        ("end_b: {flange: {holes: {count: 4, circle: 90, size: M5}}}", "holes", "opening"),
    ],
)
def test_a_step_or_holes_in_the_opening(more: str, key: str, found: str) -> None:
    """Steeper than 30 deg is a step; a flange that takes over a wide opening has its bolts in it."""
    text = f"part: reducer\nend_a: {{plain: {{inside: {FLAT % 60}}}}}\n{more}\n"
    with pytest.raises((SpecError, RefusalError)) as raised:
        BUILDERS["reducer"](loaded(text))
    said = str(raised.value)
    assert key in said and found in said


def test_walls_that_fill_a_section() -> None:
    """A square on its corner, 28 mm high, is only 19.8 mm across its sides: 8.5 mm walls leave 2.8 mm of it."""
    points = "{right: 14, up: 0}, {up: 14, right: 0}, {left: 14, up: 0}, {down: 14, right: 0}"
    problem = only(end_a(f"{{spigot: {{into: {{points: [{points}]}}, wall: 8.5}}}}"))
    assert problem.key == "end_a.spigot.wall" and "a passage of 2.8 mm" in problem.found
    assert "nothing" not in problem.found and problem.allowed.startswith("10 mm")


def test_a_collar_cord_and_wall_that_fill_a_section() -> None:
    """What the YAML's reader cannot see yet, the build refuses: an 8 mm wall and a cord's groove in a flat spigot."""
    text = (
        "part: reducer\nend_a: {spigot: {into: {rectangle: {width: 200, height: 27}}, wall: 8, cord: 12, depth: 60}}\n"
    )
    with pytest.raises(RefusalError) as raised:
        BUILDERS["reducer"](loaded(text + "end_b: {plain: {inside: 60}}\n"))
    assert raised.value.key.startswith("end_a.spigot") and raised.value.found and raised.value.allowed


@pytest.mark.parametrize("kind", ["socket", "spigot"])
def test_more_screws_than_flat_sides_hold(kind: str) -> None:
    """An oval of 60 x 58 has flat sides of 2 mm."""
    face = "over" if kind == "socket" else "into"
    joint = f"{{{kind}: {{{face}: {{oval: {{width: 60, height: 58}}}}, screws: {{count: 3, size: No. 8}}}}}}"
    with pytest.raises(RefusalError) as raised:
        BUILDERS["reducer"](loaded(end_a(joint)))
    assert raised.value.key == f"end_a.{kind}.screws" and "flat sides" in str(raised.value)
