"""Bars in bending against beam theory: a cantilever and a simply supported bar, by the path that every part takes.

S. Timoshenko, Strength of Materials, part 1: P L^3 / 3 E I and P L^3 / 48 E I; the shear adds P L / (k G A) and
P L / (4 k G A), k = 5/6. With a Poisson's ratio of 0 a clamped end keeps no width back and the theory is exact.
"""

from __future__ import annotations

import pytest
from cadquery import Solid, Vector

from fitwright.loads import Support
from tests.reference.elastic import E_MPA, answer, flat, load, the

LONG, WIDE, HIGH, P = 100.0, 20.0, 10.0, 100.0
I_MM4, W_MM3, SHEAR = WIDE * HIGH**3 / 12.0, WIDE * HIGH**2 / 6.0, 5.0 / 6.0
DOWN = (0.0, 0.0, -1.0)


def bar(long: float = LONG) -> Solid:
    return Solid.makeBox(long, WIDE, HIGH, Vector(0, -WIDE / 2, -HIGH / 2))


def end(name: str, x: float, into: float) -> object:
    return flat(name, (x, 0.0, 0.0), (into, 0.0, 0.0), (0.0, 1.0, 0.0), (WIDE / 2, HIGH / 2))


def test_the_numbers_are_those_of_the_handbook() -> None:
    assert P * LONG**3 / (3 * E_MPA * I_MM4) == pytest.approx(10.0)
    assert P * LONG / W_MM3 == pytest.approx(30.0)
    assert P * LONG**3 / (48 * E_MPA * I_MM4) == pytest.approx(0.625)
    assert P * LONG / 4 / W_MM3 == pytest.approx(7.5)


@pytest.mark.parametrize(("poisson", "within"), [(0.0, 0.002), (0.36, 0.02)])
def test_a_cantilever_bends_as_the_handbook_says(poisson: float, within: float) -> None:
    """10.00 mm, and 30.0 MPa at its root, which falls along the bar as the moment does.

    Read along the bar: beside a root that cannot narrow the equivalent stress is less (by 13 % in plane strain).
    """
    faces = end("root", 0.0, 1.0), end("tip", LONG, -1.0)
    case = [load("tip", P, DOWN, ["root"])]
    one = the(answer(bar(), faces, (), case, 5.0, poisson, 1, HIGH, read=(1.0, 0.0, 0.0)))
    sheared = 10.0 + (P * LONG / (SHEAR * E_MPA / 2 * WIDE * HIGH) if not poisson else 0.0)
    assert one.moved_mm == pytest.approx(sheared, rel=within)
    assert one.peak.stress_mpa == pytest.approx(30.0 * (1.0 - one.peak.at[0] / LONG), rel=0.02)
    assert one.peak.at[0] < 0.12 * LONG and abs(one.peak.at[2]) == pytest.approx(HIGH / 2)
    assert one.glued_mm == one.loose_mm == one.moved_mm


def test_a_bar_on_two_ends_bends_as_the_handbook_says() -> None:
    """0.625 mm and 7.5 MPa, with a load on 2 mm of its middle: M = P L / 4 (1 - a / 2 L), and what it shears."""
    a = 2.0
    faces = [end("one end", 0.0, 1.0), end("other end", LONG, -1.0)]
    faces.append(flat("middle", (LONG / 2, 0.0, HIGH / 2), DOWN, (0.0, 1.0, 0.0), (WIDE / 2, a / 2)))
    simple = [Support(name, "washer", 1e-2, 1e7) for name in ("one end", "other end")]
    case = [load("middle", P, DOWN, ["one end", "other end"])]
    one = the(answer(bar(), faces, simple, case, 4.0, 0.0, 1))
    sheared = 0.625 + P * LONG / (4 * SHEAR * E_MPA / 2 * WIDE * HIGH)
    assert one.moved_mm == pytest.approx(sheared, rel=0.02)
    below = the(answer(bar(), faces, simple, case, 4.0, 0.0, 1, read=(1.0, 0.0, 0.0)))
    assert below.peak.stress_mpa == pytest.approx(7.5 * (1.0 - a / (2 * LONG)), rel=0.02)
    assert below.peak.at[2] == pytest.approx(-HIGH / 2) and below.peak.at[0] == pytest.approx(LONG / 2, abs=4.0)
