"""Joints that meet a tapered port, worked out by hand and measured on the finished mesh."""

from __future__ import annotations

import numpy as np
import pytest
from tests.whole import bore_mm, mesh_of, spec_of

from fitwright.spec.models import Socket, Spigot
from fitwright.spec.printed import is_wedge

PART = "{part: reducer, end_a: %s, end_b: {plain: {inside: 40}}}"
NOZZLE = "{socket: {over: {end: 58.4, further: 60.2, apart: 30}, depth: 30, %s}}"


def joint(end: str) -> Socket | Spigot:
    found = spec_of(PART % end).end_a.joint
    assert isinstance(found, Socket | Spigot)
    return found


@pytest.mark.parametrize(
    ("end", "closes"),
    [
        # a nozzle that grows away from its end jams in a bore that follows it
        ("{socket: {over: {end: 58.4, further: 60.2, apart: 30}, depth: 30}}", True),
        # one that shrinks away from its end falls through its own bore
        ("{socket: {over: {end: 60.2, further: 58.4, apart: 30}, depth: 30}}", False),
        # a port that a spigot goes into jams it where it narrows inwards
        ("{spigot: {into: {end: 60.2, further: 58.4, apart: 30}, depth: 30}}", True),
        ("{spigot: {into: {end: 58.4, further: 60.2, apart: 30}, depth: 30}}", False),
        ("{socket: {over: 58.4, depth: 30}}", False),
        ("{spigot: {into: 58.4, depth: 30}}", False),
    ],
)
def test_a_port_is_a_wedge_where_it_closes_as_it_goes_in(end: str, closes: bool) -> None:
    assert is_wedge(joint(end)) is closes


SLOPE = (60.2 - 58.4) / 30
"""0.06 mm of diameter a mm."""
SCATTER_MM = 0.002 * 58.4 + 0.1
"""What the default printer's diameters scatter by, either way: 0.2 % and 0.1 mm: 0.2168 mm."""
SPREAD_MM = 0.1
"""One reading by caliper is good to 0.1 mm either way (common practice, no source)."""
STAND_OFF_MM = (SCATTER_MM + SPREAD_MM) / SLOPE
"""So far before the stop, 5.28 mm, they meet if both are as meant; the loosest pair of all just reaches the stop."""


def test_the_hand_case() -> None:
    assert STAND_OFF_MM == pytest.approx(5.28, abs=0.01)
    # at the bottom the port's own end, smaller by the slope over the stand-off; at the mouth 30 mm of slope more
    assert 58.4 - SLOPE * STAND_OFF_MM == pytest.approx(58.083, abs=0.001)
    assert 60.2 - SLOPE * STAND_OFF_MM == pytest.approx(59.883, abs=0.001)


@pytest.mark.parametrize("lead_in", ["", "lead_in: 0"], ids=["with a lead-in", "without"])
def test_a_nozzles_bore_has_its_slope_and_grips_before_the_stop(lead_in: str) -> None:
    text = PART % (NOZZLE % lead_in)
    if lead_in:
        assert bore_mm(text, 0.02) == pytest.approx(59.883, abs=0.02)
    else:
        # the lead-in opens the mouth; behind it the bore is a straight line, which is drawn on to the mouth here
        assert bore_mm(text, 0.02) > 60.2
        at = np.linspace(8.0, 29.0, 8)
        slope, mouth = np.polyfit(at, [bore_mm(text, float(s)) for s in at], 1)
        assert mouth == pytest.approx(59.883, abs=0.02) and slope == pytest.approx(-SLOPE, abs=0.001)
    assert bore_mm(text, 29.98) == pytest.approx(58.083, abs=0.02)


def test_a_wedge_grips_whatever_print_and_port_measure() -> None:
    """The loosest pair that the spreads allow still touches before the stop: that is what the stand-off is for."""
    text = PART % (NOZZLE % "lead_in: 0")
    bottom = bore_mm(text, 29.98)
    largest_bore, smallest_port = bottom + SCATTER_MM, 58.4 - SPREAD_MM
    assert largest_bore <= smallest_port + 0.02


def test_a_spigot_into_a_port_that_narrows_mirrors_it() -> None:
    # the port's end 60.2, at 30 mm inside 58.4: the spigot's tip meets 58.4 and is larger by the stand-off's slope
    text = PART % "{spigot: {into: {end: 60.2, further: 58.4, apart: 30}, depth: 30, lead_in: 0}}"
    more = 0.002 * 60.2 + 0.1 + SPREAD_MM
    assert bore_mm(text, 0.02, outside=True) == pytest.approx(58.4 + more, abs=0.02)


def test_a_gentle_wedge_stands_off_a_third_of_its_depth_at_the_most() -> None:
    # 0.4 mm over 30: the stand-off would be (0.2168 + 0.1) / 0.01333 = 23.8 of 30 mm; 0.35 x 30 = 10.5 is the most
    text = PART % "{socket: {over: {end: 58.4, further: 58.8, apart: 30}, depth: 30, lead_in: 0}}"
    assert bore_mm(text, 29.98) == pytest.approx(58.4 - 0.4 / 30 * 10.5, abs=0.02)


def test_an_allowance_that_is_given_is_kept() -> None:
    text = PART % (NOZZLE % "lead_in: 0, allowance: 0.5, taper: 0 deg")
    assert bore_mm(text, 29.98) == pytest.approx(58.4 + 0.5, abs=0.02)
    assert bore_mm(text, 0.02) == pytest.approx(60.2 + 0.5, abs=0.02)


def test_a_tapered_socket_is_one_tube() -> None:
    mesh = mesh_of(PART % (NOZZLE % "lead_in: 0"))
    assert mesh.is_volume
    assert mesh.euler_number == 0  # one through hole
