"""The forces of one gate and cylinder, as the finished bodies have it."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.checks.motion_chain import Driven
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.gate_load import PRINTED_KG, gate_load, guide_toll
from fitwright.spec.gate_load import Load as Load


def load(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec, at: Driven) -> Load:
    """All forces, from the spec, the finished bodies' weight and where the blade was found to stand."""
    printed = sum(
        float(meshes[body.name].mesh.volume) * spec.material.density_g_cm3 * 1e-6
        for body in part.bodies
        if body.moving and body.name in meshes
    )
    return gate_load(spec, at.open_mm, at.blade_long_mm, max(printed, PRINTED_KG), guide_toll(part.guide))
