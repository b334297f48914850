"""The room that a moving solid passes through, against closed forms."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from fitwright.checks.swept import swept
from fitwright.frame import Vec


@pytest.mark.parametrize("by", [(0.0, 5.0, 0.0), (3.0, -4.0, 5.0), (-0.1, 0.0, 200.0)])
def test_a_box_and_the_way_it_goes(by: Vec) -> None:
    # A convex solid: its volume and the way times its shadow, which for a box is the sum over its three faces.
    a, b, c = 10.0, 20.0, 30.0
    box = manifold3d.Manifold.cube([a, b, c])
    expected = a * b * c + abs(by[0]) * b * c + abs(by[1]) * a * c + abs(by[2]) * a * b
    assert swept(box, by).volume() == pytest.approx(expected, rel=1e-9)


def test_a_ball_becomes_a_rod_with_round_ends() -> None:
    r, far = 10.0, 50.0
    whole = swept(manifold3d.Manifold.sphere(r, 200), (0.0, far, 0.0))
    assert whole.volume() == pytest.approx(4 / 3 * math.pi * r**3 + math.pi * r**2 * far, rel=2e-3)
    assert whole.genus() == 0


def test_a_fork_fills_its_mouth_only_where_it_goes_forward() -> None:
    block = manifold3d.Manifold.cube([30.0, 30.0, 10.0])
    fork = block - manifold3d.Manifold.cube([10.0, 40.0, 12.0]).translate([10.0, 10.0, -1.0])
    # 50 on: all of 30 x 80 but the mouth's last 20, which is still open. 5 on: the mouth's floor comes 5 nearer.
    assert swept(fork, (0.0, 50.0, 0.0)).volume() == pytest.approx(30 * 80 * 10 - 10 * 20 * 10)
    assert swept(fork, (0.0, 5.0, 0.0)).volume() == pytest.approx(30 * 35 * 10 - 10 * 20 * 10)


def test_a_ring_along_its_axis_keeps_its_hole() -> None:
    ring = manifold3d.Manifold.revolve(manifold3d.CrossSection.circle(3.0, 96).translate([10.0, 0.0]), 192)
    whole = swept(ring, (0.0, 0.0, 20.0))
    shadow = math.pi * (13.0**2 - 7.0**2)
    assert whole.volume() == pytest.approx(2 * math.pi**2 * 10 * 9 + 20 * shadow, rel=3e-3)
    assert whole.genus() == 1


def test_a_screw_thread_covers_itself() -> None:
    # Turns that shadow each other along the axis: the way is a plain tube between them, whatever the number of turns.
    helix = manifold3d.CrossSection.square([2.0, 1.0]).translate([4.0, 0.0]).extrude(20.0, 200, 720.0)
    whole = swept(helix, (0.0, 0.0, 10.0))
    assert whole.volume() >= helix.volume() + 10.0 * helix.project().area() - 1e-6
    moved = [helix.translate([0.0, 0.0, z]) for z in np.linspace(0.0, 10.0, 9)]
    assert all((one - whole).volume() < 1e-6 for one in moved)


def test_all_positions_lie_in_the_way_and_it_holds_no_more() -> None:
    rng = np.random.default_rng(7)
    for _ in range(5):
        rods = [
            manifold3d.Manifold.cylinder(float(rng.uniform(5, 20)), 3.0, 2.0, 24)
            .rotate([float(v) for v in rng.uniform(0, 360, 3)])
            .translate([float(v) for v in rng.uniform(-6, 6, 3)])
            for _ in range(4)
        ]
        solid = manifold3d.Manifold.batch_boolean(rods, manifold3d.OpType.Add)
        way = swept(solid, (0.0, 12.0, 0.0))
        union, steps = solid, 1
        while steps < 121:  # every tenth of a millimetre: what is united so far, once more behind itself
            more = min(steps, 121 - steps)
            union, steps = union + union.translate([0.0, 0.1 * more, 0.0]), steps + more
        assert (union - way).volume() < 1e-6
        assert way.volume() == pytest.approx(union.volume(), rel=5e-3)
        assert way.volume() >= union.volume() - 1e-6


def test_standing_still() -> None:
    box = manifold3d.Manifold.cube([1.0, 1.0, 1.0])
    assert swept(box, (0.0, 0.0, 0.0)).volume() == pytest.approx(1.0)
