"""Temperature: material against place, hot neighbours, loads that stay."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from tests.handmade import box, part, spec

from fitwright.checks.temperature import check
from fitwright.finding import Finding
from fitwright.loads import LoadCase
from fitwright.spec.envelope import BarObstacle, BoxObstacle, MeshObstacle, Obstacle, PlaneObstacle

PLA = {"name": "PLA", "service_c": 45.0, "softening_c": 55.0, "creeps": True}


def one(near_heat_c: float | None, **material: object) -> Finding:
    made, meshes = part()
    (finding,) = check(made, meshes, spec(near_heat_c=near_heat_c, material=material))
    return finding


def test_pla_near_60_degrees_warns():
    # A project of PLA sagged in a garage in summer; PLA is soft at 55 to 65 C (users' reports).
    finding = one(60.0, **PLA)
    assert (finding.severity, finding.value, finding.limit, finding.unit) == ("warn", 60.0, 45.0, "C")
    assert "PETG" in finding.advice and "PLA," not in finding.advice and "TPU" not in finding.advice


@pytest.mark.parametrize(
    ("near", "severity", "words"),
    [
        (None, "pass", "up to 65 C"),
        (20.0, "pass", "PETG stands 65 C; it is 20 C there"),
        (65.0, "pass", "70 % of its stiffness and 60 % of its strength are left"),  # the model's own default shares
        (65.1, "warn", "softens and creeps above 65 C"),
        (75.1, "warn", "softens at 75 C and will sag; "),
        (90.0, "warn", "will sag under its own weight"),
    ],
)
def test_the_limit_is_the_materials(near: float | None, severity: str, words: str) -> None:
    finding = one(near, service_c=65.0)
    assert finding.severity == severity and words in finding.message


def test_nothing_stands_that():
    assert "keep the part away" in one(400.0).advice


def test_a_soft_part_is_answered_with_soft_filaments():
    advice = one(55.0, name="TPU 85A", soft=True, service_c=50.0).advice
    assert "TPU" in advice and "PETG" not in advice


def test_the_place_is_told_in_its_own_words():
    made, meshes = part()
    (finding,) = check(made, meshes, spec(near_heat_c=60.0, near_heat_said="under the tiles", material=PLA))
    assert "it is 60 C there (under the tiles)" in finding.message


def beside(obstacle: Obstacle, material: dict[str, Any], near_heat_c: float | None = None) -> list[Finding]:
    """Of a 10 mm cube about the origin."""
    made, meshes = part(box((-5, -5, -5), (5, 5, 5)))
    envelope = SimpleNamespace(keep_clear=(obstacle,), stay_inside=())
    found = check(made, meshes, spec(material=material, envelope=envelope, near_heat_c=near_heat_c))
    return [one for one in found if one.code == "temperature.beside"]


def motor(gap_mm: float, label: str | None = "fan motor") -> BoxObstacle:
    return BoxObstacle((5 + gap_mm, -50, -50), (90 + gap_mm, 50, 50), "envelope.keep_clear[1]", label=label)


@pytest.mark.parametrize(("gap", "warm"), [(1.0, 80), (30.0, 60), (100.0, 45)])
def test_a_motor_beside_it_is_felt_by_its_distance(gap: float, warm: int) -> None:
    """A housing of 80 C (class B rise, 40 K less), a room of 30 C: all, 60 % and 30 % of the difference."""
    (finding,) = beside(motor(gap), PLA)
    assert finding.value == pytest.approx(warm) and f"{gap:.0f} mm away" in finding.message
    assert finding.severity == ("warn" if warm > 45 else "pass")
    assert finding.severity == "pass" or ("PETG" in finding.advice) == (warm <= 65)


def test_a_motor_in_every_form_and_only_a_motor():
    bar = BarObstacle((0, 0, 30), (0, 60, 30), 40.0, "k", label="Motor")
    wall = PlaneObstacle((0, 0, -25), (0, 0, 1), "k", label="motors behind it")
    file = MeshObstacle("things/fan_motor.step", (0, 0, 0), "k")
    for obstacle, words in ((bar, "5 mm away"), (wall, "20 mm away"), (file, "nobody said how many mm away")):
        (finding,) = beside(obstacle, PLA)
        assert (finding.severity, finding.value) == ("warn", 60.0) and words in finding.message
    assert beside(motor(30.0, "hot water radiator"), PLA)[0].value == pytest.approx(30 + 0.6 * (70 - 30))
    for label in (None, "shelf", "motorway picture"):
        assert beside(motor(30.0, label), PLA) == []
    assert beside(motor(151.0), PLA) == []
    assert beside(motor(1.0), PLA, near_heat_c=40.0) == []  # who says how warm it gets is believed


def lasting(material: dict[str, Any], loads: tuple[LoadCase, ...] = (), **ends: Any) -> list[Finding]:
    made, meshes = part()
    found = check(replace(made, loads=loads), meshes, spec(material=material, ends=ends))
    return [one for one in found if one.code == "temperature.lasting"]


def test_what_creeps_is_not_for_loads_that_stay():
    """Creep far below the glass transition: Fischbach and Weinberg, arXiv 2302.11240."""
    weight = LoadCase("weight on hose", "body", "seat", 20.0, ((0.0, 0.0, -1.0),), (), lasting=True)
    (finding,) = lasting(PLA, (weight, replace(weight, name="snag", lasting=False)))
    assert finding.severity == "warn" and "weight on hose" in finding.message and "snag" not in finding.message
    assert "PETG, ABS, ASA, PA" in finding.advice and not finding.blocks
    assert lasting({}, (weight,)) == [] and lasting(PLA) == []
