"""docs/materials.md: its tables are those of the tables, its worked example is the shed's profile."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.report.materials_page import FLAT, SAG_KG, SAGS_MM, STANDING, with_tables
from fitwright.spec.grammar.own_materials import read_material_profile

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "materials.md"


def test_the_committed_tables_are_the_generated_ones() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert page == with_tables(page), "write it again: python -m fitwright.report.materials_page"
    assert set(re.findall(r"<!-- (\w+) -->", page)) == {*"values warmth notes places motors worked end".split()}


def test_the_worked_example_is_the_sheds_filament() -> None:
    """E = F L^3 / (48 E I); kink: F L / 4 over b h^2 / 4; snap: F L / 4 over b h^2 / 6; g = 9.80665."""
    g = 9.80665
    shed = read_material_profile(ROOT / "configs" / "materials" / "birch_lane_petg.yaml")
    second_moment = FLAT.wide * FLAT.high**3 / 12
    modulus = SAG_KG * g * FLAT.span**3 / (48 * second_moment * sum(SAGS_MM) / len(SAGS_MM))
    kink = (FLAT.kg_at_last * g * FLAT.span / 4) / (FLAT.wide * FLAT.high**2 / 4)
    snap = (STANDING.kg_at_last * g * STANDING.span / 4) / (STANDING.wide * STANDING.high**2 / 6)
    assert shed.modulus_mpa == pytest.approx(modulus, rel=0.005)
    assert shed.strength_mpa == pytest.approx(kink, abs=0.5)
    assert shed.strength_across_mpa == pytest.approx(snap, abs=0.5)
    page = PAGE.read_text(encoding="utf-8")
    assert f"= {modulus:.0f} MPa" in page and f"= {kink:.1f} MPa" in page and f"= {snap:.1f} MPa" in page
