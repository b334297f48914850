"""A bracket for a printer whose holes come out too wide or too narrow, and on every size of threaded rod."""

from __future__ import annotations

import pytest
from tests.gate_whole import RODS, judged

CHECKS = ("motion", "hardware", "clearance", "wall")


@pytest.mark.parametrize("offset_mm", [-0.5, 0.3])
def test_a_printers_holes_are_undone_and_the_checks_know_it(offset_mm: float) -> None:
    """Fork, pin's slot and nut pockets are modelled off by the offset: as printed they are what was meant."""
    found = judged(f"{RODS}printer: {{name: generic_220, hole_offset: {offset_mm}}}\n", *CHECKS)
    assert [f for f in found if f.severity == "fail"] == []
    [slot] = [f for f in found if f.code == "motion.slot"]
    [play] = [f for f in found if f.code == "motion.play"]
    assert slot.severity == "pass" and slot.value == pytest.approx(3.4, abs=0.01)
    assert play.value == pytest.approx(0.4, abs=0.02)


@pytest.mark.parametrize("size", ["M6", "M12", "5/16 in", "3/8 in", "1/2 in"])
def test_every_threaded_rod_has_its_edge_distance(size: str) -> None:
    found = judged(f"{RODS}rods: {size}\n", "hardware", "wall")
    assert [f for f in found if f.severity == "fail"] == []
