"""The helical ridge alone: its volume by Pappus, its hand, its faces."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from fitwright.frame import Frame
from fitwright.mesh import mesh_shape
from fitwright.physics.ridge_room import least_pitch_mm, ridge_section, run_mm, turns_in
from fitwright.shapes.ridge import SINK_MM, RidgeSizes, Trapezoid, ridge_solid, ridge_volume_mm3
from fitwright.shapes.solids import fused, ring
from fitwright.shapes.volume import exact_volume_mm3

FRAME = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
SIZES = RidgeSizes(49.75, Trapezoid(1.5, 1.0), 12.0, "right", 4.0, 6.0)


def wall_for(sizes: RidgeSizes) -> list[tuple[float, float]]:
    inner, outer = sorted((sizes.radius_mm, sizes.radius_mm - 3.2 * sizes.side))
    long = sizes.s1_mm + 6.0
    return [(0.0, outer), (long, outer), (long, inner), (0.0, inner)]


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("hand", ["left", "right"])
def test_it_adds_what_pappus_says(side: int, hand: str) -> None:
    # closed form: the helix of the section's centroid, its length times the area square to it. The area square to a
    # helix of lead angle a is the area in the axis' plane times cos a, the length a turn is 2 pi r / cos a.
    sizes = replace(SIZES, side=side, hand=hand)
    tube = ring(wall_for(sizes), FRAME)
    solid = fused([tube, ridge_solid(sizes, FRAME, "ridge")], "ridge")
    h, c, r = 1.5, 1.0, 49.75
    area = c * h + h * h
    centroid = r + side * (c * h * h / 2 + h**3 / 3) / area
    lead = math.atan(12.0 / (2 * math.pi * centroid))
    helix = 2 * math.pi * centroid / math.cos(lead)
    ramp = (h + SINK_MM / 2) / math.tan(math.radians(20)) / r  # rising from inside the wall, at 20 deg
    above = ramp * h / (h + SINK_MM / 2)
    turns = 4.0 - 2 * ramp / (2 * math.pi)
    full = area * math.cos(lead) * helix * turns
    ramps = 2 * above * r * (c * h / 2 + h * h / 3)  # a wedge's mean section, at the wall's radius
    added = exact_volume_mm3(solid) - exact_volume_mm3(tube)
    assert added == pytest.approx(full + ramps, rel=1e-3)
    assert ridge_volume_mm3(sizes) == pytest.approx(full + ramps, rel=1e-3)
    assert solid.isValid()


def test_the_kernels_quick_rule_would_be_wrong() -> None:
    """Why exact_volume_mm3 is there: on a land that winds the quick rule loses 1.4 % of the ridge."""
    sizes = RidgeSizes(96.5, Trapezoid(2.05, 1.4), 18.5, "right", 4.44, 6.0, 4.0)
    tube = ring(wall_for(sizes), FRAME)
    solid = fused([tube, ridge_solid(sizes, FRAME, "ridge")], "ridge")
    assert abs((solid.Volume() - tube.Volume()) / ridge_volume_mm3(sizes) - 1.0) > 0.005
    assert exact_volume_mm3(solid) - tube.Volume() == pytest.approx(ridge_volume_mm3(sizes), rel=2e-5)
    assert exact_volume_mm3(tube) == tube.Volume()


def test_every_point_lies_on_the_trapezoid_that_was_meant() -> None:
    mesh = mesh_shape(ridge_solid(SIZES, FRAME, "ridge"), 0.008, 0.2)
    right, s, up = np.asarray(mesh.vertices).T
    r, turn = np.hypot(right, up), np.arctan2(right, up)  # clockwise from up, looking along inward
    aside = (s - 6.0 - 12.0 * turn / (2 * math.pi) + 6.0) % 12.0 - 6.0
    assert float((np.abs(aside) - (0.5 + 1.5 - (r - 49.75))).max()) < 1e-4  # flanks of 45 deg
    assert r.max() == pytest.approx(51.25, abs=1e-6)


def test_a_right_hand_helix_rises_to_the_right_in_front() -> None:
    """Axis upright, seen from in front (away = into the picture): the text-book picture of a right-hand thread."""
    upright = Frame((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    for flipped in (upright, Frame((0.0, 0.0, 60.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))):  # whichever end is up
        for hand, sign in (("right", 1), ("left", -1)):
            sizes = replace(SIZES, hand=hand, s0_mm=3.0)
            mesh = mesh_shape(ridge_solid(sizes, flipped, "ridge"), 0.008, 0.2)
            x, y, z = np.asarray(mesh.vertices).T
            front = (y < -49.0) & (np.hypot(x, y) > 51.2)  # right is +x for who looks along +y
            slope = [np.polyfit(x[one], z[one], 1)[0] for one in strands(z, front)]
            assert len(slope) >= 3
            assert all(np.sign(k) == sign for k in slope)
            # on the axis' nearest line dz / dx = pitch / (2 pi r)
            assert np.abs(slope) == pytest.approx(12.0 / (2 * math.pi * 51.25), rel=0.05)


def strands(z: np.ndarray, chosen: np.ndarray) -> list[np.ndarray]:
    """Indices of each strand of the crest among the chosen points, told apart by gaps along the axis."""
    found = np.flatnonzero(chosen)
    found = found[np.argsort(z[found])]
    parts = np.split(found, np.flatnonzero(np.diff(z[found]) > 4.0) + 1)
    return [part for part in parts if len(part) > 6]


def test_room_for_ridge_and_rib() -> None:
    # rib 3: half as high, crest 1, foot 1 + 2 x 1.5 = 4; beside a rib of 3 and half a millimetre of play: 7.5
    section = ridge_section(3.0)
    assert (section.height_mm, section.crest_mm, section.foot_mm) == (1.5, 1.0, 4.0)
    assert least_pitch_mm(section, 3.0) == 7.5
    assert run_mm(section, 12.0, 1.5) == 18.0 + 4.0 + 1.0
    assert turns_in(section, 12.0, run_mm(section, 12.0, 2.5)) == pytest.approx(2.5)
    assert turns_in(section, 12.0, 3.0) < 0.0
