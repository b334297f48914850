"""Offset adapters in any position, built from YAML, against closed forms that stand here."""

from __future__ import annotations

import math
import re

import pytest

from fitwright.errors import RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.parts.clocking import steps_in_words, turns_onto_itself
from fitwright.pose import choose_pose
from fitwright.spec.load import load_text
from fitwright.spec.models import OffsetAdapterSpec

ENDS = "end_a: {plain: {inside: 60}}, end_b: {plain: {inside: 60}}"


def build(text: str) -> Part:
    spec = load_text(text, "test.yaml")[0]
    return BUILDERS[spec.part](spec)


def refusal(text: str) -> RefusalError:
    with pytest.raises(RefusalError) as raised:
        build(text)
    return raised.value


def number(text: str) -> float:
    found = re.search(r"[0-9]+\.?[0-9]*", text)
    assert found
    return float(found.group())


def ring(r: float, t: float = 3.0) -> float:
    return math.pi * ((r + t) ** 2 - r**2)


def along(part: Part) -> float:
    """Length along the bend as the report says it [mm], to 0.01."""
    return float(part.facts["length, mouth to mouth"].split("which ")[1].split(" mm")[0])


@pytest.mark.parametrize("angle", [30, 60, 90])
def test_a_plain_elbow_is_one_torus(angle: int) -> None:
    # Pappus: the ring's area x the way of its middle; ends 10 long; radius one diameter of the passage
    part = build(f"{{part: offset_adapter, wall: 3, angle: {angle} deg, {ENDS}}}")
    (body,), a = part.bodies, math.radians(angle)
    assert body.solid.isValid()
    assert body.solid.Volume() == pytest.approx(ring(30) * (20 + 60 * a), rel=1e-9)
    x, y, z = part.labels["end_b"]
    assert (x, y, z) == pytest.approx(
        (0, 10 + 60 * math.sin(a) + 10 * math.cos(a), 60 * (1 - math.cos(a)) + 10 * math.sin(a))
    )
    assert "turns" in part.assumed and "offset" in part.assumed


def test_an_elbow_takes_its_radius_its_length_and_its_direction() -> None:
    text = f"{{part: offset_adapter, wall: 3, angle: 90 deg, turns: left, bend_radius: 80, length: 140, {ENDS}}}"
    part = build(text)
    assert part.labels["end_b"] == pytest.approx((-90.0, 140.0, 0.0), abs=1e-9)
    assert part.bodies[0].solid.Volume() == pytest.approx(ring(30) * (20 + 50 + 40 * math.pi), rel=1e-9)
    error = refusal(text.replace("length: 140", "length: 80"))
    assert error.key == "length"
    build(text.replace("length: 140", f"length: {number(error.allowed)}"))


@pytest.mark.parametrize(
    ("turns", "way"),
    [
        ("right", (1, 0)),
        ("left", (-1, 0)),
        ("up", (0, 1)),
        ("down", (0, -1)),
        ("{right: 2, down: 2}", (0.7071068, -0.7071068)),
    ],
)
def test_end_b_looks_where_it_is_told(turns: str, way: tuple[float, float]) -> None:
    part = build(
        f"{{part: offset_adapter, wall: 3, offset: {{right: 40, up: 30}}, angle: 40 deg, turns: {turns}, {ENDS}}}"
    )
    s, c = math.sin(math.radians(40)), math.cos(math.radians(40))
    (down,) = (pose.down for pose in part.bodies[0].poses if pose.name == "end_b down")
    assert down == pytest.approx((s * way[0], c, s * way[1]), abs=1e-6)
    assert part.labels["end_b"][0::2] == pytest.approx((40.0, 30.0))
    assert part.bodies[0].solid.isValid()
    assert part.bodies[0].solid.Volume() == pytest.approx(ring(30) * (20 + along(part)), rel=1e-4)


def test_clock_turns_offset_and_direction_together() -> None:
    text = (
        "{{part: offset_adapter, wall: 3, length: 260, offset: {{up: 40}}, angle: 30 deg, turns: left,"
        " clock: {clock}, {ends}}}"
    )
    plain, turned = (build(text.format(clock=c, ends=ENDS)) for c in (0, 90))
    assert turned.labels["end_b"] == pytest.approx((40.0, 260.0, 0.0), abs=1e-9)
    assert plain.bodies[0].solid.Volume() == pytest.approx(turned.bodies[0].solid.Volume(), rel=1e-9)
    down = [next(p.down for p in part.bodies[0].poses if p.name == "end_b down") for part in (plain, turned)]
    assert (down[1][0], down[1][2]) == pytest.approx((down[0][2], -down[0][0]), abs=1e-9)


def test_a_mirrored_spec_in_space_is_the_mirrored_part() -> None:
    text = (
        "{{part: offset_adapter, length: 230, angle: 35 deg, turns: {turns}, offset: {{right: {right}, up: 30}},"
        " end_a: {{socket: {{over: 70}}}}, end_b: {{plain: {{inside: 60}}}}}}"
    )
    one, other = (build(text.format(right=r, turns=t)).bodies[0].solid for r, t in ((30, "left"), (-30, "right")))
    flipped = one.mirror("YZ")
    assert flipped.intersect(other).Volume() == pytest.approx(other.Volume(), rel=1e-6)


@pytest.mark.parametrize(
    "rest",
    [
        "length: 90, offset: {right: 40, up: 30}, angle: 40 deg, turns: left",
        "length: 40, offset: {right: 60}, angle: 90 deg",
        "length: 60, offset: {up: 20}, angle: 70 deg, turns: right",
    ],
)
def test_too_short_names_a_length_that_builds(rest: str) -> None:
    text = f"{{part: offset_adapter, wall: 3, {rest}, {ENDS}}}"
    error = refusal(text)
    assert error.key == "length", error
    part = build(re.sub("length: [0-9]+", f"length: {number(error.allowed)}", text))
    assert part.bodies[0].solid.isValid()


def test_a_tight_radius_is_refused_with_one_that_builds() -> None:
    text = "{{part: offset_adapter, wall: 3, angle: 90 deg, bend_radius: {r}, {ends}}}"
    error = refusal(text.format(r=20, ends=ENDS))
    assert error.key == "bend_radius"
    build(text.format(r=number(error.allowed), ends=ENDS))


def test_flanges_that_would_meet_push_the_elbow_out() -> None:
    flange = "{flange: {opening: 60, holes: {count: 4, circle: 200, size: M6}}}"
    part = build(f"{{part: offset_adapter, wall: 3, angle: 90 deg, end_a: {flange}, end_b: {flange}}}")
    reach = float(part.labels["end_b"][1])
    assert reach > 100.0  # end_b's flange is wider than that and must clear end_a's
    assert "clear each other" in part.assumed["bend_radius"]
    assert part.bodies[0].solid.isValid()


@pytest.mark.parametrize(
    ("rest", "key"),
    [
        ("turns: up, offset: {up: 20}", "turns"),
        ("angle: 30 deg, turns: sideways", "turns"),
        ("angle: 30 deg, turns: {right: 0}", "turns"),
        ("angle: 91 deg", "angle"),
        ("length: 200", "offset"),
        ("offset: auto", "offset"),
    ],
)
def test_what_makes_no_sense_is_refused(rest: str, key: str) -> None:
    with pytest.raises(SpecError) as raised:
        build(f"{{part: offset_adapter, {rest}, {ENDS}}}")
    assert [p.key for p in raised.value.problems] == [key]


def test_a_steep_bend_may_lie_on_its_side() -> None:
    part = build(f"{{part: offset_adapter, angle: 90 deg, turns: right, {ENDS}}}")
    (body,) = part.bodies
    assert {p.name for p in body.poses} == {
        "end_a down",
        "end_b down",
        "lying on its upper side",
        "lying on its lower side",
    }
    spec = load_text(f"{{part: offset_adapter, angle: 90 deg, turns: right, {ENDS}}}", "x.yaml")[0]
    assert isinstance(spec, OffsetAdapterSpec)
    assert choose_pose(body, mesh_body(body), spec.printer).name in {p.name for p in body.poses}
    assert "support inside" in part.facts["printing the bend"]
    upright = build(f"{{part: offset_adapter, offset: {{up: 20}}, {ENDS}}}")
    assert [p.name for p in upright.bodies[0].poses] == ["end_a down", "end_b down"]


def on_circle(angles: list[float], r: float = 65.0) -> list[tuple[float, float]]:
    return [(r * math.sin(math.radians(a)), r * math.cos(math.radians(a))) for a in angles]


@pytest.mark.parametrize(
    ("points", "n"),
    [
        (on_circle([45, 135, 225, 315]), 4),
        (on_circle([0, 60, 120, 180, 240, 300]), 6),
        (on_circle([0, 120, 240]), 3),
        ([(40, 30), (-40, 30), (-40, -30), (40, -30)], 2),
        (on_circle([0, 90, 180, 270.5]), 1),  # 0.57 mm out: more than 0.05 mm
        ([(40, 30), (-40, 32), (-38, -30)], 1),
        ([(40, 0), (-40, 0)], 2),
        ([*on_circle([0, 120, 240]), *on_circle([10, 130, 250], 80.0)], 3),
    ],
)
def test_how_often_a_pattern_goes_onto_itself(points: list[tuple[float, float]], n: int) -> None:
    assert turns_onto_itself(points) == n
    said = steps_in_words(points)
    assert said == {1: "goes on one way only", 2: "goes on two ways, half a turn apart"}.get(
        n, f"turns on its bolts in steps of {360 // n} deg"
    )


CLOCKED = (
    "{{part: offset_adapter, angle: 45 deg, turns: up, clock: {clock}, end_b: {{socket: {{over: 80.2}}}},"
    " end_a: {{flange: {{opening: 78, holes: {{count: 4, circle: 130, size: M5, first_at: 45}}}}}}}}"
)


def test_a_screw_under_the_bend_is_told_with_the_clocks_that_are_free() -> None:
    told = build(CLOCKED.format(clock=45)).facts
    assert told["end_a pattern"] == "turns on its bolts in steps of 90 deg"
    said = told["end_a screws and the bend"]
    free = [tuple(map(int, s)) for s in re.findall(r"(\d+) to (\d+)", said)]
    assert len(free) == 4  # the pattern repeats every quarter turn
    for low, high in free:
        middle = (low + ((high - low) % 360) / 2) % 360
        assert abs((middle % 90) - 0) < 1e-9  # half way between two screws
        assert "end_a screws and the bend" not in build(CLOCKED.format(clock=middle)).facts
