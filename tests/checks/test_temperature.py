"""Temperature: material against place."""

from __future__ import annotations

import pytest
from tests.handmade import part, spec

from fitwright.checks.temperature import check
from fitwright.finding import Finding


def one(near_heat_c: float | None, **material: object) -> Finding:
    made, meshes = part()
    (finding,) = check(made, meshes, spec(near_heat_c=near_heat_c, material=material))
    return finding


def test_pla_near_60_degrees_warns():
    # A project of PLA sagged in a garage in summer; PLA is soft at 55 to 65 C (users' reports).
    finding = one(60.0, name="PLA", service_c=45.0)
    assert (finding.severity, finding.value, finding.limit, finding.unit) == ("warn", 60.0, 45.0, "C")
    assert "PETG" in finding.advice and "PLA," not in finding.advice


@pytest.mark.parametrize(("near", "severity"), [(None, "pass"), (20.0, "pass"), (65.0, "pass"), (65.1, "warn")])
def test_the_limit_is_the_materials(near, severity):
    assert one(near, service_c=65.0).severity == severity


def test_nothing_stands_that():
    assert "keep the part away" in one(400.0).advice
