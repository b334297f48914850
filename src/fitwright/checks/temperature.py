"""Check `temperature`: does the material stay stiff in the place it is meant for, and under what it bears for good?

It only warns: whether a part that gets soft is of any harm, its maker knows best.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.checks.envelope import about_mm, called
from fitwright.data.profiles import materials
from fitwright.data.warm_places import WarmPlace, warm_places
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.filament import SAGS_K
from fitwright.physics.motor_heat import beside_c
from fitwright.spec.envelope import MeshObstacle, Obstacle
from fitwright.spec.joints import HoseTail, Socket, Spigot

if TYPE_CHECKING:
    from fitwright.spec.models import Material, PartBase

CODE, BESIDE, LASTING = "temperature", "temperature.beside", "temperature.lasting"
UNKNOWN_MM = 50.0
"""How near a thing is taken to be whose shape is in a file."""
FAR_MM = 150.0
"""Beyond this nothing of its heat is felt."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """A finding a printed body on the place's temperature; then hot neighbours, and loads that stay."""
    found = [_judge(body.name, spec) for body in part.printed]
    if found and spec.near_heat_c is None:
        for obstacle in spec.envelope.keep_clear:
            found += _beside(obstacle, part, meshes, spec)
    if found:
        found += _lasting(part, spec)
    return found


def _judge(name: str, spec: PartBase) -> Finding:
    material, near = spec.material, spec.near_heat_c
    limit = float(material.service_c)
    if near is None:
        message = f"{material.name} is for places up to {limit:g} C; no hotter place is named (near_heat)"
        return Finding(CODE, "pass", name, None, limit, "C", "near_heat", message)
    there = f"it is {near:.0f} C there{_said(spec)}"
    if near <= limit:
        message = f"{material.name} stands {limit:g} C; {there}{_left(material, near)}"
        return Finding(CODE, "pass", name, float(near), limit, "C", "near_heat", message)
    message = f"{material.name} {_softens(material, near)}; {there}"
    return Finding(CODE, "warn", name, float(near), limit, "C", "near_heat", message, _advice(near, spec))


def _said(spec: PartBase) -> str:
    return f" ({spec.near_heat_said})" if spec.near_heat_said else ""


def _left(material: Material, near_c: float) -> str:
    """What is left of a filament that stands the place, where that is less than all."""
    stiff, strong = material.modulus_share(near_c), material.strength_share(near_c)
    if strong > 0.99:
        return ""
    return f", where {100 * stiff:.0f} % of its stiffness and {100 * strong:.0f} % of its strength are left"


def _softens(material: Material, near_c: float) -> str:
    """What becomes of a filament in a place that is too hot for it."""
    if near_c <= material.softening_c:
        return f"softens and creeps above {material.service_c:g} C"
    own = " under its own weight" if near_c >= material.softening_c + SAGS_K else ""
    return f"softens at {material.softening_c:g} C and will sag{own}"


def _advice(near_c: float, spec: PartBase) -> str:
    rows = [row for row in materials().values() if row.soft == spec.material.soft]
    stand = sorted((row.service_c, row.name) for row in rows if row.service_c >= near_c)
    if not stand:
        return "No filament that we know stands that: keep the part away from the heat, or make it of sheet metal."
    names = ", ".join(name for _, name in stand)
    return f"Print it in {names} (material), or keep it away from the heat."


def _beside(obstacle: Obstacle, part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> Iterator[Finding]:
    """A motor or heater that the envelope names, where the YAML does not say how warm it gets."""
    hot = _hot(obstacle)
    if hot is None:
        return
    gaps = [about_mm(obstacle, meshes[body.name].mesh) for body in part.printed]
    known = [gap for gap in gaps if gap is not None]
    gap = min(known, default=UNKNOWN_MM)
    if gap > FAR_MM:
        return
    warm, limit, name = beside_c(gap, hot.temperature_c), spec.material.service_c, spec.material.name
    near = f"{gap:.0f} mm" if known else "nobody said how many mm"
    message = f"{called(obstacle)} is {near} away: about {warm:.0f} C when it is hot; {name} stands {limit:g} C"
    numbers = (float(warm), float(limit), "C", f"{called(obstacle)} ({obstacle.key})")
    if warm <= limit:
        yield Finding(BESIDE, "pass", "", *numbers, message)
        return
    advice = f"{_advice(warm, spec)} If it stays cooler there, say how warm it gets: near_heat."
    yield Finding(BESIDE, "warn", "", *numbers, message, advice)


def _hot(obstacle: Obstacle) -> WarmPlace | None:
    """What gets hot, by the word that the obstacle is called; None for all that does not."""
    file = Path(obstacle.path).stem if isinstance(obstacle, MeshObstacle) else ""
    words = f"{obstacle.label or file}".casefold().replace("_", " ").replace("-", " ").split()
    for place in (warm_places()["motor"], warm_places()["radiator"]):
        if any(word.removesuffix("s") in (place.name, *place.also) for word in words):
            return place
    return None


def _lasting(part: Part, spec: PartBase) -> Iterator[Finding]:
    """A filament that creeps in a cool room too, where something presses or pulls for good."""
    if not spec.material.creeps:
        return
    reasons = [*dict.fromkeys(case.name for case in part.loads if case.lasting), *_grips(spec)]
    if not reasons:
        return
    message = f"{spec.material.name} creeps under loads that stay, in a cool room too: {', '.join(reasons)}"
    warm = max(spec.near_heat_c or 0.0, spec.material.service_c)
    rows = sorted(materials().values(), key=lambda row: row.service_c)
    names = ", ".join(row.name for row in rows if not row.creeps and not row.soft and row.service_c >= warm)
    advice = f"Print it in {names} (material)." if names else "Keep it away from the heat."
    advice += " Or look after it: tighten again after a day and a month, and renew it in time."
    yield Finding(LASTING, "warn", "", None, None, "", "material", message, advice)


def _grips(spec: PartBase) -> Iterator[str]:
    """The ends that hold by a grip that stays."""
    for key, end in spec.ends.items():
        joint = end.joint
        if isinstance(joint, HoseTail) and joint.band_mm:
            yield f"the band on {key}'s tail"
        elif isinstance(joint, Socket) and joint.clamp is not None:
            yield f"the band on {key}"
        elif isinstance(joint, Socket | Spigot) and joint.fit in ("snug", "press"):
            yield f"the {joint.fit} fit of {key}"
