"""Distances of screws on a joist, by hand; what numbers alone need no numpy."""

import subprocess
import sys

import pytest

from fitwright.physics.wood_edges import WoodFace, shortfalls
from fitwright.physics.wood_shear import distances

JOIST = WoodFace(low_edge_mm=-100.0, high_edge_mm=100.0)
PLAIN, DRILLED = distances(5.0, False, 90.0), distances(5.0, True, 90.0)
DOWN = (0.0, -1.0)


def test_hanger_low_on_a_joist_needs_a_pilot():
    """EN 1995-1-1 table 8.2: 10 d = 50 mm without, 7 d = 35 mm with a pilot."""
    screws = [(0.0, 0.0), (0.0, -60.0)]
    [one] = shortfalls(screws, JOIST, PLAIN, DOWN)
    assert one.words == "screw 2 is 40.0 mm from the edge that the load pushes at; it takes 50.0 mm"
    assert shortfalls(screws, JOIST, DRILLED, DOWN) == ()


def test_away_from_the_load_less_is_enough():
    screws = [(0.0, 70.0)]
    assert shortfalls(screws, JOIST, PLAIN, DOWN) == ()
    assert [one.to for one in shortfalls(screws, JOIST, PLAIN)] == ["the edge of the wood"]
    assert shortfalls(screws, WoodFace(), PLAIN) == ()


def test_screws_in_a_row():
    """5 d = 25 mm along the grain and across it at 90 deg."""
    [one] = shortfalls([(0.0, 0.0), (20.0, 0.0)], JOIST, PLAIN, DOWN)
    assert one.words == "screw 2 is 20.0 mm from screw 1 along the grain; it takes 25.0 mm"
    [two] = shortfalls([(0.0, 0.0), (5.0, 22.0)], JOIST, PLAIN, DOWN)
    assert two.to == "screw 1 across the grain"
    assert shortfalls([(0.0, 0.0), (25.0, 0.0), (0.0, 25.0), (25.0, 25.0)], JOIST, PLAIN, DOWN) == ()


def test_end_of_a_joist_and_a_screw_beside_the_wood():
    near = WoodFace(near_end_mm=0.0)
    [one] = shortfalls([(40.0, 0.0)], near, distances(5.0, False, 0.0), (-1.0, 0.0))
    assert (one.has_mm, one.needs_mm) == (40.0, 75.0)
    [out] = shortfalls([(0.0, -120.0)], JOIST, PLAIN, DOWN)
    assert out.has_mm == pytest.approx(-20.0)


def test_the_worst_comes_first():
    found = shortfalls([(0.0, -60.0), (0.0, -80.0)], JOIST, PLAIN, DOWN)
    assert [one.has_mm - one.needs_mm for one in found] == sorted(one.has_mm - one.needs_mm for one in found)
    assert found[0].screw == 2


def test_numbers_alone_load_no_numpy():
    """The YAML may be validated with all but `fixing`."""
    names = "wood wood_shear wood_edges wood_joint machine_screws batten carried arm"
    lines = [f"import fitwright.physics.{name}" for name in names.split()]
    lines += ["import fitwright.data.woods, fitwright.data.carried, fitwright.data.channel_nuts, sys"]
    lines += ["assert 'numpy' not in sys.modules"]
    subprocess.run([sys.executable, "-c", "\n".join(lines)], check=True, timeout=60)
