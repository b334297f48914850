"""Sizes left to us follow the air: what loses least of what fits; without air nothing moves."""

from __future__ import annotations

import math

import pytest
from tests.whole import part_of

from fitwright.airway import along
from fitwright.spec.air_run import lost

WIDE = "end_a: {plain: {inside: 140}}\nend_b: {plain: {inside: 100}}\n"
OUT, IN = "air: {flow: 900 m^3/h, from: end_b}\n", "air: {flow: 900 m^3/h, from: end_a}\n"
FLOW = 0.25


def cone_deg(text: str) -> float:
    """Half angle of the one cone."""
    (cone,) = (leg for leg in part_of(text).airway if leg.kind == "cone")
    return cone.half_angle_deg


def pa(text: str, end: str = "end_b") -> float:
    return lost(along(part_of(text).airway, end), FLOW).middle


def test_without_air_a_cone_has_ten_degrees() -> None:
    assert cone_deg(f"part: reducer\n{WIDE}") == pytest.approx(10, abs=1e-6)


def test_where_air_widens_the_cone_gets_gentler_and_loses_least() -> None:
    text = f"part: reducer\n{WIDE}{OUT}"
    others = [f"part: reducer\nhalf_angle: {deg}\n{WIDE}{OUT}" for deg in (7, 8.5, 10, 12, 15)]
    assert cone_deg(text) == pytest.approx(7, abs=1e-6)
    assert pa(text) <= min(map(pa, others)) * (1 + 1e-6)
    said = part_of(text).assumed["half_angle"]
    assert said.startswith("7.0 deg (least loss that fits") and "where 10 deg would lose" in said


def test_where_air_narrows_nothing_is_gained_and_ten_degrees_stay() -> None:
    text = f"part: reducer\n{WIDE}{IN}"
    assert cone_deg(text) == pytest.approx(10, abs=1e-6)
    assert "no other in reach loses noticeably less" in part_of(text).assumed["half_angle"]


def test_what_the_user_says_stays() -> None:
    for own in ("half_angle: 12\n", "length: 200\n"):
        part = part_of(f"part: reducer\n{own}{WIDE}{OUT}")
        same = part_of(f"part: reducer\n{own}{WIDE}")
        assert part.airway == same.airway and part.assumed.get("half_angle") == same.assumed.get("half_angle")


def test_a_gentler_cone_still_fits_the_printer() -> None:
    """80 mm of change in 7 deg is 326 mm long: more than the 240 mm of the printer."""
    text = f"part: reducer\nend_a: {{plain: {{inside: 180}}}}\nend_b: {{plain: {{inside: 100}}}}\n{OUT}"
    assert part_of(text).bodies[0].solid.BoundingBox().ylen <= 240.0 + 1e-6
    assert 7 < cone_deg(text) < 11


def test_a_declared_neighbour_keeps_the_usual_size() -> None:
    text = f"part: reducer\n{WIDE}{OUT}envelope: {{keep_clear: [{{wall: up, at: 120}}]}}\n"
    assert cone_deg(text) == pytest.approx(10, abs=1e-6)


BEND = "part: offset_adapter\noffset: {up: 40}\nend_a: {plain: {inside: 60}}\nend_b: {plain: {inside: 60}}\n"


def radius_mm(text: str) -> float:
    return min(leg.radius_mm for leg in part_of(text).airway if leg.kind == "bend")


def test_bends_get_gentler_where_the_air_gains_by_it() -> None:
    still, moved = radius_mm(BEND), radius_mm(BEND + OUT.replace("900", "300"))
    assert moved > 1.2 * still
    said = part_of(BEND + OUT.replace("900", "300")).assumed["bend_radius"]
    assert "least loss that fits" in said and "where 1 D would lose" in said
    assert pa(BEND + OUT.replace("900", "300")) < pa(BEND)


def test_a_bend_radius_and_a_length_of_the_users_stay() -> None:
    for own in ("bend_radius: 70\n", "length: 180\n"):
        assert radius_mm(BEND + own + OUT) == pytest.approx(radius_mm(BEND + own))


def test_an_elbow_grows_no_further_than_the_bed() -> None:
    """A quarter bend of 1.25 D for 107 mm pipe measures more than 220 mm: one diameter stays."""
    text = "part: offset_adapter\nangle: 90\nend_a: {socket: {over: 107.1}}\nend_b: {socket: {over: 107.1}}\n"
    assert radius_mm(text + OUT) == pytest.approx(radius_mm(text))
    large = "printer: {name: large, bed_x: 400, bed_y: 400, bed_z: 400}\n"
    (leg,) = (leg for leg in part_of(text + OUT + large).airway if leg.kind == "bend")
    assert leg.radius_mm > 1.2 * leg.hydraulic_mm[0]
    assert leg.length_mm == pytest.approx(leg.radius_mm * math.pi / 2, rel=1e-9)
