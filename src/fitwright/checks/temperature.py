"""Check `temperature`: does the material stay stiff in the place it is meant for?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from fitwright.data.profiles import materials
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

CODE = "temperature"


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """One finding a printed body: the place's temperature against the filament's."""
    return [_judge(body.name, spec) for body in part.printed]


def _judge(name: str, spec: PartBase) -> Finding:
    material, near = spec.material, spec.near_heat_c
    limit = float(material.service_c)
    if near is None:
        message = f"{material.name} is for places up to {limit:g} C; no hotter place is named (near_heat)"
        return Finding(CODE, "pass", name, None, limit, "C", "near_heat", message)
    if near <= limit:
        message = f"{material.name} stands {limit:g} C; it is {near:g} C there"
        return Finding(CODE, "pass", name, float(near), limit, "C", "near_heat", message)
    message = f"{material.name} softens and creeps above {limit:g} C, and it is {near:g} C there"
    return Finding(CODE, "warn", name, float(near), limit, "C", "near_heat", message, _advice(near))


def _advice(near_c: float) -> str:
    stand = sorted((row.service_c, row.name) for row in materials().values() if row.service_c >= near_c)
    if not stand:
        return "No filament that we know stands that: keep the part away from the heat."
    names = ", ".join(name for _, name in stand)
    return f"Print it in {names} (material), or keep it away from the heat."
