"""The airway that adapters declare: against closed forms, and against the finished mesh wherever it can be cut."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest
from tests.whole import meshes_of, part_of

from fitwright.airway import Leg, against, along
from fitwright.checks import passage

CONFIGS = Path(__file__).parents[2] / "configs"
WHOLE = 0.005
"""Share by which a leg's area may differ from the mesh: chords take away 0.1 % at the most."""


def legs(text: str) -> dict[str, Leg]:
    """The legs of a part by name."""
    return {leg.name: leg for leg in part_of(text).airway}


def circle(d: float) -> float:
    return math.pi / 4 * d * d


def test_a_tail_stands_its_wall_and_half_the_allowance_into_the_hose() -> None:
    """Hose 100, tail 99.5, wall 3.2: bore 93.1, so that an edge of 3.45 mm faces air that comes out of the hose."""
    edge = legs("part: reducer\nend_a: {hose_tail: {hose_inside: 100}}\nend_b: {plain: {inside: 90}}")[
        "end_a tail's edge"
    ]
    assert edge.area_mm2 == pytest.approx((circle(100), circle(93.1)), rel=1e-9)
    assert edge.edge_mm == pytest.approx(3.45) and edge.facing


def test_a_pipe_from_the_table_brings_its_wall() -> None:
    """EN 1401-1 DN 110 SN 4: 110 outside (110.3 at the most), wall 3.2: 103.75 inside at the middle of its spread."""
    found = legs("part: reducer\nend_a: {socket: {pipe: EN 1401 DN 110}}\nend_b: {plain: {inside: 100}}")
    edge = found["end_a pipe's edge"]
    assert edge.hydraulic_mm[0] == pytest.approx(110.15 - 6.4, abs=0.01) and not edge.taken
    assert not edge.facing  # the pipe's edge faces what comes the other way


def test_a_wall_that_nobody_told_is_said_to_be_taken() -> None:
    edge = legs("part: reducer\nend_a: {socket: {over: 107.1}}\nend_b: {plain: {inside: 100}}")["end_a pipe's edge"]
    assert "3.2 mm is taken" in edge.taken and edge.hydraulic_mm[0] == pytest.approx(107.1 - 6.4)


def test_a_cone_is_as_long_as_its_half_angle_says() -> None:
    text = "part: reducer\nhalf_angle: 8\nend_a: {plain: {inside: 120}}\nend_b: {plain: {inside: 80}}"
    cone = legs(text)["cone"]
    assert cone.length_mm == pytest.approx(20 / math.tan(math.radians(8)), rel=1e-6)
    assert cone.half_angle_deg == pytest.approx(8, abs=1e-6)
    assert cone.area_mm2 == pytest.approx((circle(120), circle(80)), rel=1e-6)


def test_a_level_cone_tells_its_steepest_line() -> None:
    """With the bottoms level the roof falls by the whole difference: 40 mm over the length."""
    text = "part: reducer\nline: level\nend_a: {plain: {inside: 120}}\nend_b: {plain: {inside: 80}}"
    cone = legs(text)["cone"]
    assert cone.half_angle_deg == pytest.approx(math.degrees(math.atan(40 / cone.length_mm)), abs=1e-6)


def test_two_bends_of_an_offset() -> None:
    """Offset 60 by two arcs of radius R that turn by a and back: 60 = 2 R (1 - cos a), no straight between them."""
    text = "part: offset_adapter\noffset: {up: 60}\nend_a: {plain: {inside: 80}}\nend_b: {plain: {inside: 80}}"
    one, two = (leg for leg in part_of(text).airway if leg.kind == "bend")
    assert 2 * one.radius_mm * (1 - math.cos(math.radians(one.angle_deg))) == pytest.approx(60, abs=1e-6)
    assert one.follows_mm is None and two.follows_mm == pytest.approx(0.0, abs=1e-6)
    assert one.length_mm == pytest.approx(one.radius_mm * math.radians(one.angle_deg), rel=1e-9)


def test_the_passage_goes_on_where_the_leg_before_ended() -> None:
    for text in map(Path.read_text, (CONFIGS / f"{n}.yaml" for n in ("offset_inlet", "space_offset", "flat_duct"))):
        found = part_of(text).airway
        for before, after in itertools.pairwise(found):
            assert before.area_mm2[1] == pytest.approx(after.area_mm2[0], rel=1e-9)


def test_the_other_way_round_and_back_is_the_same() -> None:
    text = (CONFIGS / "space_offset.yaml").read_text()
    found = part_of(text).airway
    turned = along(found, "end_b")
    assert [leg.name for leg in turned] == [leg.name for leg in reversed(found)]
    assert against(turned) == found and along(found, "end_a") == found
    second = next(leg for leg in turned if leg.kind == "bend" and leg.follows_mm is not None)
    assert second.name == "bend 1" and second.follows_mm == pytest.approx(30.84, abs=0.01)


@pytest.mark.parametrize(
    "name",
    [
        "blank_flange", "clocked_inlet", "drain_to_hose", "elbow_90", "flat_duct", "hood", "hose_to_hose",
        "level_reducer", "offset_inlet", "oval_port", "pipe_to_hose", "ridged", "sleeve", "soft_cuff", "space_offset",
        "split_hood", "split_offset", "split_reducer",
    ],
)  # fmt: skip
def test_each_leg_agrees_with_the_finished_mesh(name: str) -> None:
    path = CONFIGS / f"{name}.yaml"
    text = path.read_text() if path.exists() else RIDGED
    stations = [s for leg in part_of(text).airway for s in leg.sections]
    assert stations
    for station in stations:
        found = passage.area_mm2(meshes_of(text).values(), station)
        assert found == pytest.approx(station.area_mm2, rel=WHOLE), station


RIDGED = """part: reducer
end_a: {spigot: {into: 90, screws: {count: 3, size: No. 8}}}
end_b: {hose_tail: {hose_inside: 100, ridge: {pitch: 12, hand: left, wire: 2.5}}}
"""
