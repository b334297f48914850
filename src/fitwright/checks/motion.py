"""Check `motion`: does the cylinder shut and open the gate fully, without binding, bending, jamming or pinching?

The chain of lengths is measured on the finished meshes; where the blade comes to stand follows from that, not from what
was meant.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.checks.motion_around import around
from fitwright.checks.motion_axis import axes
from fitwright.checks.motion_blade import line
from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_ends import ends
from fitwright.checks.motion_force import forces
from fitwright.checks.motion_guide import guided
from fitwright.checks.motion_load import load
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.part_base import PartBase

CODE = "motion"


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """All findings on the movement of a gate bracket; none for other parts.

    Raises
    ------
    BuildError
        A face or hole that the movement hangs on was not found on the finished bodies.
    """
    if not isinstance(spec, GateBracketSpec):
        return []
    at = driven(part, meshes, spec)
    on, placed = load(part, meshes, spec, at), axes(part, meshes, spec)
    return [
        *ends(at, spec),
        *line(placed, at, on, spec),
        *forces(on, spec),
        *guided(part, on, placed.play_mm),
        *around(at, part, meshes, spec),
    ]
