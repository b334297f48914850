"""How far the yoke of a cylinder beside its gate turns, from sections of the body (physics/slide/beside.py)."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.motion_axis import Hole
from fitwright.checks.motion_faces import seat_of
from fitwright.checks.stiffness_sections import across_x, cut
from fitwright.errors import BuildError
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.frames import Movement
from fitwright.spec.gate import GateBracketSpec

SLICES = 60
BEFORE_BODY = (0.0, -1e4, 1e4, 1e4)
"""What stands before the gate's body: ears do not bend with the beam."""
Numbers = NDArray[np.float64]


def beside(
    part: Part,
    meshes: Mapping[str, BodyMesh],
    spec: GateBracketSpec,
    axis: Hole,
    push: tuple[float, float, float],
) -> Movement:
    """Along and tilt at the nose; `push`: the blade's drag, the thrust that moves it [N], modulus [MPa].

    On two screws at +-s the moment is D |x| from the screw outwards (the drag pulls in the middle of the same gate),
    from the guide rod on that of the thrust alone, and falls to nothing at the other screw. Sections by slices.
    """
    drag, thrust, modulus = push
    seat = seat_of(part, "nose face")
    assert seat is not None
    grip, nose = _grip_mm(part, spec), -axis.x_mm
    guide = nose - part.guide.apart_mm if part.guide is not None else nose
    mesh = meshes[seat.body].mesh
    x = np.linspace(-grip, grip, SLICES + 1)
    far = np.linspace(grip, nose, SLICES + 1)
    inner, outer = (x[:-1] + x[1:]) / 2, (far[:-1] + far[1:]) / 2
    turned = drag * (grip - inner) ** 2 / (4.0 * grip**2) * 2.0 * grip / (2.0 * modulus * _second(mesh, -inner))
    angle = float(np.sum(turned) * (x[1] - x[0]))
    moment = np.where(outer <= guide, drag * outer, -thrust * (nose - outer))
    step = float(far[1] - far[0])
    bent = np.cumsum(moment / (modulus * _second(mesh, outer, axis)) * step)
    tilt = angle + float(bent[-1])
    along = angle * (nose - grip) + float(np.sum(bent) * step)
    return Movement(abs(along), 0.0, math.degrees(abs(tilt)))


def _second(mesh: trimesh.Trimesh, beside_mm: Numbers, axis: Hole | None = None) -> Numbers:
    """Second moments at x = -beside, bending in the plane of the blade: each connected piece about its own centroid.

    At the nose's own hole the section beside it counts: nut and cylinder hold the web stiff there.
    """
    found = []
    for one in beside_mm:
        if axis is not None and abs(one + axis.x_mm) < axis.d_mm / 2:
            one = -axis.x_mm - axis.d_mm / 2
        section = cut(mesh, across_x(-float(one)), BEFORE_BODY)
        if not section.pieces:
            raise BuildError("not checked: the yoke does not reach to the cylinder")
        found.append(section.right_mm4)
    return np.array(found)


def _grip_mm(part: Part, spec: GateBracketSpec) -> float:
    """Where the gate holds it: its screws, or the body's edges."""
    if spec.gate.mount.kind != "screws":
        return spec.gate.body.width_mm / 2
    found = [abs(one.head[0]) for one in part.fastenings if one.name.startswith("gate screw")]
    if not found:
        raise BuildError("not checked: the yoke names no screws on the gate")
    return max(found)
