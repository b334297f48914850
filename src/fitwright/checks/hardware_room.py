"""Room for nuts and spanners: solids moved and turned against the finished meshes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import manifold3d
import numpy as np
from numpy.typing import NDArray

from fitwright.checks.things import Thing
from fitwright.data.spanners import spanner
from fitwright.errors import DataError
from fitwright.mesh_distance import box_gap_mm, common
from fitwright.part import Fastening, Turned

Points = NDArray[np.float64]

STEP_DEG = 5.0
SHRUNK_MM = 0.02
"""The nut and the spanner are taken this much smaller, so that what only touches does not count."""
OFF_FACE_MM = 0.2
"""The spanner lies so far off the face beside the hexagon."""
GUARD = "guard"
"""A guard goes on last, and comes off before anything is turned."""
HANDLE_WIDE = 0.9
"""A spanner's handle is about as wide as its size (common practice)."""


def pocket_faults(body: Thing, one: Fastening, across_mm: float) -> Iterator[tuple[str, str]]:
    """What is wrong with a nut's pocket: it cannot come in, or it turns in it.

    `across_mm`: over its flats, off its size by as much as the pocket is modelled off its own.
    """
    assert one.pocket is not None
    nut = _hexagon(across_mm - SHRUNK_MM, one.nut_m_mm - SHRUNK_MM)
    middle = one.grip_mm + one.nut_m_mm / 2
    seat = _placed(nut, one, middle)
    turn = _pocket_turn(body, one, seat, middle, nut)
    if turn is None:
        yield f"the {one.size} nut does not fit into its pocket", "Widen the pocket: this is a fault of the build."
        return
    seat = _placed(nut, one, middle, turn)
    way = -np.array(one.pocket.way)
    steps = np.arange(1.0, one.pocket.from_mm + 0.5, 1.0)
    if any(common(body.solid, seat.translate(list(way * step))) is not None for step in steps):
        yield f"the {one.size} nut cannot be brought into its pocket", "Open the pocket to one side."
    spun = _placed(nut, one, middle, turn + math.radians(30.0))
    if common(body.solid, spun) is None:
        yield f"the {one.size} nut turns in its pocket", "Make the pocket narrower: this is a fault of the build."


def _pocket_turn(
    body: Thing, one: Fastening, seat: manifold3d.Manifold, middle: float, nut: manifold3d.Manifold
) -> float | None:
    """The turn [rad] at which the nut goes into its pocket, in steps of 5 degrees; None where at none."""
    for turn in np.radians(np.arange(0.0, 60.0, STEP_DEG)):
        if common(body.solid, _placed(nut, one, middle, float(turn))) is None:
            return float(turn)
    return None


def swing_deg(one: Fastening, turned: Turned, things: Sequence[Thing], most_thick_mm: float = math.inf) -> float:
    """The longest free swing [deg] of an open spanner on a hexagon; `most_thick_mm`: of a thin one.

    Every 5 degrees the spanner (head, handle) is held against everything but the hexagon itself: what lies within the
    jaws' mouth is not met. 360 where nothing is in the way anywhere; 0 where no spanner is sold for it.
    """
    try:
        row = spanner(turned.af_mm)
    except DataError:
        return 0.0
    thick = min(row.head_thick_mm, most_thick_mm)
    shape = _spanner(turned.af_mm, row.head_usual_mm, thick, row.length_mm)
    angles = np.arange(0.0, 360.0, STEP_DEG)
    free, middle = [], turned.from_mm + turned.way * (thick / 2 + OFF_FACE_MM)
    reach = _placed(manifold3d.Manifold.cylinder(thick, row.length_mm, -1.0, 24, True), one, middle)
    met = [thing for thing in things if not thing.name.startswith((GUARD, *turned.without))]
    met = [thing for thing in met if box_gap_mm(thing.solid, reach) == 0.0 and not (thing.solid ^ reach).is_empty()]
    for angle in angles:
        tool = _placed(shape, one, middle, math.radians(float(angle)))
        free.append(all(common(thing.solid, tool) is None for thing in met))
    return _longest_run(free) * STEP_DEG


def _longest_run(free: Sequence[bool]) -> float:
    """Longest run of free steps round the circle, as the number of steps between its first and last place."""
    if all(free):
        return len(free)
    best = run = 0
    for one in [*free, *free]:
        run = run + 1 if one else 0
        best = max(best, run)
    return max(0, best - 1)


def _spanner(af: float, head: float, thick: float, long: float) -> manifold3d.Manifold:
    """An open spanner about z: a round head with its mouth cut out (room for the whole hexagon), and a handle."""
    disc = manifold3d.Manifold.cylinder(thick - SHRUNK_MM, head / 2, head / 2, 48, True)
    hexagon = manifold3d.Manifold.cylinder(thick * 2, af / math.sqrt(3.0) + 0.3, -1.0, 48, True)
    mouth = manifold3d.Manifold.cube([head, af + 0.3, thick * 2], True).translate([-head / 2, 0.0, 0.0])
    handle = manifold3d.Manifold.cube([long - head / 2, HANDLE_WIDE * af, 0.8 * thick], True)
    handle = handle.translate([(long - head / 2) / 2 + head / 4, 0.0, 0.0])
    return (disc + handle) - hexagon - mouth


def _hexagon(af: float, high: float) -> manifold3d.Manifold:
    return manifold3d.Manifold.cylinder(high, af / math.sqrt(3.0), -1.0, 6, True)


def _placed(shape: manifold3d.Manifold, one: Fastening, at_mm: float, turn_rad: float = 0.0) -> manifold3d.Manifold:
    """A shape about z at z = 0, put about the fastening's axis `at_mm` along it and turned."""
    z = np.array(one.direction, dtype=float)
    x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
    x /= np.linalg.norm(x)
    y = np.cross(z, x)
    c, s = math.cos(turn_rad), math.sin(turn_rad)
    origin = np.array(one.head) + at_mm * z
    return shape.transform(np.column_stack([c * x + s * y, -s * x + c * y, z, origin]))
