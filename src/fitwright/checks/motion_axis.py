"""Axes and play of a gate bracket, measured: where rod and cylinder stand beside the blade's middle."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import shapely
import trimesh

from fitwright.checks.motion_chain import pin_d_mm
from fitwright.checks.motion_faces import BESIDE_MM, crossings, face_y_mm, fork, seat_of
from fitwright.checks.passage import section_loops
from fitwright.errors import BuildError
from fitwright.frame import Frame
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.printed import as_printed

ROUND = 0.922
"""4 pi A / P^2 of a loop that counts as round: circle 1, with a roof at 45 deg 0.936, hexagon 0.907, square 0.785."""
INSIDE_MM = 2.0


@dataclass(frozen=True)
class Hole:
    """A round hole in a section square to the movement: centre and diameter [mm]."""

    x_mm: float
    z_mm: float
    d_mm: float


@dataclass(frozen=True)
class Axes:
    """Where things stand square to the movement [mm]: cylinder and rod from holes, the blade's plane from the fork.

    `play_mm`: how far the pin may go to either side across the blade (0 where it is clamped).
    """

    cylinder: Hole
    rod: Hole
    fork_z_mm: float
    play_mm: float

    @property
    def across_mm(self) -> float:
        """Rod's hole beside the cylinder's axis, across the blade."""
        return self.rod.x_mm - self.cylinder.x_mm

    @property
    def square_mm(self) -> float:
        """Blade's plane above the cylinder's axis."""
        return self.fork_z_mm - self.cylinder.z_mm


def round_holes(mesh: trimesh.Trimesh, y_mm: float) -> list[Hole]:
    """The round holes in a body's section at this y, largest first."""
    loops = section_loops(mesh, Frame((0.0, y_mm, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)))
    shapes = [shapely.Polygon(loop) for loop in loops]
    inner = [p for p in shapes if any(one.area > p.area and one.contains(p.centroid) for one in shapes)]
    found = [
        _hole(*p.bounds) for p in inner if len(p.exterior.coords) > 9 and 4.0 * math.pi * p.area / p.length**2 >= ROUND
    ]
    return sorted(found, key=lambda hole: -hole.d_mm)


def _hole(left: float, bottom: float, right: float, top: float) -> Hole:
    """From its lower half, which is round whatever its roof."""
    return Hole((left + right) / 2, bottom + (right - left) / 2, right - left)


def axes(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> Axes:
    """All axes; BuildError where a hole is not found."""
    nose, back = seat_of(part, "nose face"), seat_of(part, "coupling back")
    assert nose is not None and back is not None
    nose_y, back_y = face_y_mm(part, meshes, "nose face"), face_y_mm(part, meshes, "coupling back")
    cylinder = _largest(meshes[nose.body].mesh, nose_y - math.copysign(INSIDE_MM, nose.out[1]), "nose")
    near = round_holes(meshes[back.body].mesh, back_y - math.copysign(1.0, back.out[1]))
    if not near:
        raise BuildError("not checked: the coupling has no hole for the rod")
    rod = min(near, key=lambda hole: math.hypot(hole.x_mm - cylinder.x_mm, hole.z_mm - cylinder.z_mm))
    middle, play = _fork(part, meshes, spec)
    return Axes(cylinder, rod, middle, play)


def _largest(mesh: trimesh.Trimesh, y_mm: float, what: str) -> Hole:
    holes = round_holes(mesh, y_mm)
    if not holes:
        raise BuildError(f"not checked: no round hole for the cylinder's {what} was found")
    return holes[0]


def _fork(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> tuple[float, float]:
    """Middle of the fork's slot, and the pin's play to either side."""
    seat = seat_of(part, "fork floor")
    assert seat is not None
    found = fork(part, meshes, face_y_mm(part, meshes, "fork floor"))
    upper = found.upper_z_mm
    pin = pin_d_mm(spec.gate.blade)
    if pin is None or found.hole is None:
        return upper - found.slot_mm / 2, 0.0
    low, high = found.hole
    at = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2 + BESIDE_MM[0], low[2])
    line = crossings(meshes[seat.body].mesh, at, (1.0, 0.0, 0.0))
    right, left = line.at_mm[line.enters & (line.at_mm > 0.0)], line.at_mm[~line.enters & (line.at_mm < 0.0)]
    wide = float(right[0] - left[-1]) if len(right) and len(left) else pin
    return upper - found.slot_mm / 2, max(0.0, (as_printed(wide, "hole", spec.printer) - pin) / 2)
