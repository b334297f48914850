"""The try-print's pieces, cut from real parts: what decides the fit is on them, in one piece, and little else."""

from __future__ import annotations

import math

import cadquery as cq
import numpy as np
import pytest
import trimesh
from tests.whole import body_of, loops_of

from fitwright.mesh import mesh_shape
from fitwright.part import TryPiece

M6_MM = 6.6 + 0.2
"""ISO 273:1979, medium series, M6: 6.6 mm; the default printer's small holes are opened by 0.2 mm."""
M10_MM = 11.0
"""ISO 273:1979, medium series, M10: 11 mm, which is no small hole (10 mm and more print true)."""
TUBE = "end_b: {plain: {inside: 90}}}"


def cut_out(text: str, name: str) -> tuple[cq.Shape, trimesh.Trimesh, TryPiece]:
    """The piece of that name as it is cut from the part: exact, as a mesh, and as declared."""
    body = body_of(text)
    (piece,) = (one for one in body.tries if one.name == name)
    shape = body.solid.intersect(piece.tool)
    return shape, mesh_shape(shape, 0.005, 0.1), piece


def round_loops(mesh: trimesh.Trimesh, y: float) -> list[tuple[float, float, float]]:
    """(right, up, diameter) [mm] of the round loops in the section at y: corners all as far from their middle."""
    found = []
    for ring in loops_of(mesh, y):
        middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
        radii = np.linalg.norm(ring - middle, axis=1)
        if np.ptp(radii) < 0.03:
            found.append((float(middle[0]), float(middle[1]), 2 * float(radii.mean())))
    return found


def bore_mm(mesh: trimesh.Trimesh, y: float, outside: bool = False) -> float:
    """Diameter [mm] of the inner (or outer) loop about the axis in the section at y."""
    found = [d for x, z, d in round_loops(mesh, y) if math.hypot(x, z) < 0.05]
    return max(found) if outside else min(found)


CORDED = "{opening: 60, cord: 4, rectangle: "
SQUARE = [(60, 45), (-60, 45), (-60, -45), (60, -45)]
AT = "[" + ", ".join(f"{{right: {x}, up: {z}}}" for x, z in SQUARE) + "]"
PLATE = f"{{width: 150, height: 120}}, holes: {{points: {AT}, size: M6}}}}"
LUGS = "{width: 95, height: 150}, holes: {count: 2, circle: 120, size: M6}}"
WIDE = "{width: 120, height: 120}, holes: {count: 4, circle: 127.3, first_at: 45 deg, size: M6}}"
FOOTPRINTS = {
    "a circle of bolts": ("{opening: 98, holes: {count: 4, circle: 150, size: M6}}", 4, M6_MM),
    "many bolts": ("{opening: 98, holes: {count: 12, circle: 150, size: M6}}", 12, M6_MM),
    "corners of a plate": ("{opening: 60, rectangle: " + PLATE, 4, M6_MM),
    "corners, with a cord": (CORDED + PLATE, 4, M6_MM),
    "a circle too large for the plate": ("{opening: 60, rectangle: " + WIDE, 4, M6_MM),
    "two lugs": ("{opening: 60, rectangle: " + LUGS, 2, M6_MM),
    "two lugs, with a cord": (CORDED + LUGS, 2, M6_MM),
    "thick bolts by a thin cord": ("{opening: 60, cord: 3, holes: {count: 4, circle: 98, size: M10}}", 4, M10_MM),
}


@pytest.mark.parametrize(("flange", "count", "hole"), FOOTPRINTS.values(), ids=FOOTPRINTS)
def test_a_footprint_holds_every_bolt_hole_in_one_piece(flange: str, count: int, hole: float) -> None:
    text = f"{{part: reducer, end_a: {{flange: {flange}}}, end_b: {{plain: {{inside: 60}}}}}}"
    shape, mesh, piece = cut_out(text, "end_a footprint")
    assert len(shape.Solids()) == 1 and shape.isValid() and mesh.is_volume
    assert piece.down == (0.0, -1.0, 0.0)
    meant = {(round(h.start[0], 2), round(h.start[2], 2)) for h in body_of(text).holes}
    found = [(x, z) for x, z, d in round_loops(mesh, mesh.bounds[0][1] + 0.1) if d == pytest.approx(hole, abs=0.02)]
    assert len(found) == len(meant) == count
    for x, z in found:
        assert min(math.dist((x, z), point) for point in meant) < 0.02


def test_a_footprints_holes_stand_where_the_yaml_says() -> None:
    flange = FOOTPRINTS["corners of a plate"][0]
    _, mesh, _ = cut_out(f"{{part: reducer, end_a: {{flange: {flange}}}, {TUBE}", "end_a footprint")
    found = sorted((round(x), round(z)) for x, z, d in round_loops(mesh, 0.6) if d < 10)
    assert found == sorted(SQUARE)


def test_a_footprint_is_a_strip_and_not_the_plate() -> None:
    text = f"{{part: reducer, end_a: {{flange: {FOOTPRINTS['a circle of bolts'][0]}}}, {TUBE}"
    shape, mesh, _ = cut_out(text, "end_a footprint")
    # a ring round the bolt circle with a whole hole's width either side at the most, 1.5 mm thick at the most
    assert shape.Volume() < math.pi * 150 * (3 * M6_MM) * 1.5
    assert shape.Volume() < 0.1 * body_of(text).solid.Volume()
    inner, outer = bore_mm(mesh, 0.6), bore_mm(mesh, 0.6, outside=True)
    assert 98 < inner < 150 - 1.5 * M6_MM and outer > 150 + 1.5 * M6_MM


def test_a_plain_sockets_ring_is_six_millimetres_of_tube() -> None:
    # over 100, allowance 0.6, wall 3, no lead-in, no taper: a tube 100.6 inside and 106.6 outside
    socket = "{over: 100, allowance: 0.6, lead_in: 0, taper: 0 deg}"
    text = f"{{part: reducer, wall: 3, end_a: {{socket: {socket}}}, {TUBE}"
    shape, mesh, _ = cut_out(text, "end_a ring")
    assert shape.Volume() == pytest.approx(math.pi / 4 * (106.6**2 - 100.6**2) * 6.0, rel=1e-6)
    assert mesh.bounds[:, 1] == pytest.approx([0.0, 6.0], abs=1e-6)
    assert shape.Volume() < 0.15 * body_of(text).solid.Volume()


TAPER = 2 * math.tan(math.radians(0.5))
"""What a taper of 0.5 deg takes from a diameter, per mm."""
RINGS = {
    # default taper 0.5 deg, met at 0.6 of the depth: the bottom of 40 mm is narrower than the pipe by 16 mm of taper
    "a socket": ("{socket: {over: 100, depth: 40}}", (34.0, 40.0), 100 - 16 * TAPER, False),
    # a spigot grows towards its bottom by as much
    "a spigot": ("{spigot: {into: 100, depth: 40}}", (34.0, 40.0), 100 + 16 * TAPER, True),
    # a port that grows by 0.06 mm a mm away from its end: its bore closes (worked out in test_ends.py)
    "a socket over a cone": (
        "{socket: {over: {end: 58.4, further: 60.2, apart: 30}, depth: 30, taper: 0 deg}}", (24.0, 30.0), 58.083, False
    ),
    # one that shrinks away from its end by 0.06 mm a mm: the bore opens as it goes in, and is tightest at its mouth
    "a socket over a cone that shrinks": (
        "{socket: {over: {end: 60.2, further: 58.4, apart: 30}, allowance: 0.4, depth: 30, lead_in: 0, taper: 0 deg}}",
        (0.0, 6.0), 60.2 - 1.8 + 0.4, False,
    ),
}  # fmt: skip


@pytest.mark.parametrize(("end", "reach", "tight", "outside"), RINGS.values(), ids=RINGS)
def test_a_ring_sits_at_the_tight_end_of_a_taper(
    end: str, reach: tuple[float, float], tight: float, outside: bool
) -> None:
    shape, mesh, _ = cut_out(f"{{part: reducer, end_a: {end}, end_b: {{plain: {{inside: 55}}}}}}", "end_a ring")
    assert len(shape.Solids()) == 1 and mesh.is_volume
    assert mesh.bounds[:, 1] == pytest.approx(reach, abs=0.01)
    at = 0.05 if reach[0] == 0.0 else reach[1] - 0.05
    assert bore_mm(mesh, at, outside) == pytest.approx(tight, abs=0.02)


@pytest.mark.parametrize(
    "joint",
    [
        "{over: 110, clamp: {slits: 4, band: 13}}",
        "{over: 110, clamp: {slits: 12, band: 20}, depth: 50}",
        "{over: 60, clamp: {slits: 2, band: 9}, screws: {count: 6, size: No. 8}}",
        "{over: 110, cord: 5, screws: {count: 3, size: No. 8}}",
    ],
)
def test_a_ring_hangs_together_whatever_is_cut_into_the_socket(joint: str) -> None:
    """Slits run from the mouth: a ring cut there would fall into as many arcs."""
    shape, mesh, _ = cut_out(f"{{part: reducer, end_a: {{socket: {joint}}}, {TUBE}", "end_a ring")
    assert len(shape.Solids()) == 1 and shape.isValid() and mesh.is_volume
    assert 2.0 < np.ptp(mesh.bounds[:, 1]) < 6.01


def test_a_hose_tails_piece_reaches_behind_its_bead() -> None:
    # hose 100, allowance 0.5: a land of 99.5; the bead stands 1 mm above it all round
    text = "{part: reducer, end_a: {hose_tail: {hose_inside: 100, bead: 1}}, end_b: {plain: {inside: 90}}}"
    shape, mesh, _ = cut_out(text, "end_a ring")
    low, high = mesh.bounds[:, 1]
    widest = max(bore_mm(mesh, float(y), outside=True) for y in np.linspace(low + 0.1, high - 0.1, 30))
    assert len(shape.Solids()) == 1
    assert widest == pytest.approx(99.5 + 2.0, abs=0.05)
    assert bore_mm(mesh, high - 0.5, outside=True) == pytest.approx(99.5, abs=0.02)


def test_a_plain_end_needs_no_try_piece() -> None:
    tube = "{part: reducer, end_a: {plain: {inside: 60}}, end_b: {plain: {inside: 90}}}"
    assert body_of(tube).tries == ()
