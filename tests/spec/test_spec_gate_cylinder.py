"""A gate bracket's cylinder: by name, by name with readings beside it, by readings alone; what is only remembered."""

from __future__ import annotations

import pytest
from yaml_cases import loaded, only

from fitwright.data.cylinders import cylinder_row
from fitwright.spec.gate import Cylinder, GateBracketSpec

GATE = """
part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body: {width: 150, thickness: 22}
  screws: {across: 132, from_edge: 12}
"""
READ = """
cylinder:
  bore: 20
  stroke: 125
  rod: 8
  rod_thread: M8 x 1.25
  rod_thread_length: 20
  rod_stub: 24
  body: {square: 25}
  length: 198
"""


def part(text: str) -> GateBracketSpec:
    found = loaded(GATE + text)
    assert isinstance(found, GateBracketSpec)
    return found


def cylinder(text: str) -> Cylinder:
    return part(text).cylinder


@pytest.mark.parametrize(
    "words", ["ISO 6432 16 x 125", "iso6432 16x125", "ISO 6432, 16 x 125", "round cylinder 16 x 125", "ISO 6432 16/125"]
)
def test_a_name_however_it_is_written(words: str) -> None:
    made = cylinder(f"cylinder: {words!r}")
    assert (made.name, made.standard, made.bore_mm, made.stroke_mm) == ("ISO 6432 16 x 125", "ISO 6432", 16.0, 125.0)


def test_what_a_table_only_remembers_is_known_by_its_keys() -> None:
    """So that a check can say once what to measure."""
    made = cylinder("cylinder: ISO 6432 16 x 125")
    assert {"rod_stub", "rod_thread_length", "nose.length", "nose.nut", "length"} <= set(made.remembered_keys)
    assert not {"bore", "rod", "rod_thread", "nose.thread"} & set(made.remembered_keys)  # read in public tables
    profile = cylinder("cylinder: ISO 15552 32 x 125")
    assert "square.apart" not in profile.remembered_keys and "square.deep" in profile.remembered_keys
    assert {"rod_stub_mm", "nose_mm", "length_0_mm"} <= set(made.remembered)  # fields, as the checks ask for them
    assert "boss.length" in profile.remembered_keys and "nose.length" not in profile.remembered_keys
    assert "square.apart" in cylinder("cylinder: ISO 15552 80 x 125").remembered_keys


def test_a_reading_beside_it_counts_and_is_no_longer_remembered() -> None:
    made = cylinder("cylinder: {code: ISO 6432 16 x 125, rod_stub: [21.6, 21.8], ports: left}")
    assert made.rod_stub_mm == 21.7 and "rod_stub" not in made.remembered_keys and made.ports_face == "left"
    assert made.rod_thread_long_mm == 16.0 and "rod_thread_length" in made.remembered_keys


def test_with_all_readings_nothing_is_remembered() -> None:
    made = cylinder(
        "cylinder: {code: ISO 6432 16 x 125, rod_stub: 22, rod_thread_length: 16, rod_flats: 5, length: 194,"
        " nose: {thread: M16 x 1.5, length: 18, nut: {across_flats: 22, height: 6}}}"
    )
    assert made.remembered == ()
    assert (made.nose_nut_af_mm, made.nose_nut_m_mm, made.length_0_mm) == (22.0, 6.0, 69.0)


def test_a_nose_without_its_nut_takes_the_tables() -> None:
    made = cylinder("cylinder: {code: ISO 6432 16 x 125, nose: {thread: M16 x 1.5, length: 17.5}}")
    assert made.nose_mm == 17.5 and made.nose_nut_af_mm == cylinder_row("ISO 6432 16").nose_nut_af_mm
    assert "nose.nut" in made.remembered_keys and "nose.length" not in made.remembered_keys


def test_the_length_is_that_of_this_stroke() -> None:
    """From the mounting face to the rear end, rod in: without the stroke it is the standard's length at stroke 0."""
    made = cylinder("cylinder: {code: ISO 6432 16 x 125, length: 200}")
    assert made.length_0_mm == 75.0 and made.long_mm == 200.0
    assert cylinder("cylinder: {code: ISO 6432 16 x 125, length: 200, stroke: 124}").length_0_mm == 76.0


def test_another_body_replaces_the_tables() -> None:
    made = cylinder("cylinder: {code: ISO 6432 16 x 125, body: {square: 20}}")
    assert (made.body_round_mm, made.body_square_mm, made.body_mm) == (None, 20.0, 20.0)


def test_a_boss_in_place_of_the_nose() -> None:
    made = part("cylinder: {code: ISO 6432 16 x 125, boss: {diameter: 16, length: 6}, rod_stub: 22}")
    assert made.cylinder.nose_thread is None and made.cylinder.boss_d_mm == 16.0 and made.hold == "clamp"


def test_readings_alone() -> None:
    made = part(READ)
    assert made.cylinder.name == "bore 20 x 125, as measured" and made.cylinder.remembered == ()
    assert made.cylinder.length_0_mm == 73.0 and made.cylinder.nose_mm == 0.0 and made.hold == "clamp"
    assert {"cylinder.mass", "cylinder.port"} <= set(made.defaulted)
    assert made.cylinder.mass_kg == pytest.approx(cylinder_row("ISO 6432 20").mass_kg(125.0), abs=1e-3)
    squared = part(READ + "  square: {apart: 22, screw: M5, deep: 12}\n  mass: 10 oz\n  port: G1/8\n")
    assert squared.hold == "front_square" and squared.cylinder.square_screw == "M5"
    assert squared.cylinder.mass_kg == pytest.approx(10 * 0.028349523125) and squared.cylinder.port == "G 1/8"


@pytest.mark.parametrize(
    "key", ["bore", "stroke", "rod", "rod_thread", "rod_thread_length", "rod_stub", "body", "length"]
)
def test_readings_alone_must_be_whole(key: str) -> None:
    text = "\n".join(line for line in READ.splitlines() if not line.startswith(f"  {key}:"))
    problem = only(GATE + text)
    assert (problem.key, problem.found) == (f"cylinder.{key}", "nothing") and f"add `{key}:`" in problem.hint


def test_a_spring_makes_it_single_acting() -> None:
    made = cylinder(
        "cylinder: {code: ISO 6432 16 x 50, spring: {drives: in, least: 8 N, greatest: [20 N, 21 N]}}"
    ).spring
    assert made is not None and (made.drives, made.least_n, made.greatest_n) == ("in", 8.0, 20.5)


def test_a_standard_of_memory_alone_is_refused_without_readings() -> None:
    for said in ("cylinder: ISO 21287 32 x 125", "cylinder: {code: ISO 21287 32 x 125, rod_stub: 7}"):
        problem = only(GATE + said)
        assert (
            "only remembered" in problem.found and "rod_thread_length" in problem.allowed and "length" in problem.hint
        )
        assert ("rod_stub" in problem.allowed) == ("rod_stub" not in said)
    made = cylinder(
        "cylinder: {code: ISO 21287 32 x 125, rod: 12, rod_thread: M10 x 1.25, rod_thread_length: 19, rod_stub: 7,"
        " rod_flats: 10, square: {apart: 32.5, screw: M6, deep: 14}, body: {square: 47}, length: 169, port: G 1/8}"
    )
    assert made.standard == "ISO 21287" and made.remembered == () and made.square_deep_mm == 14.0
