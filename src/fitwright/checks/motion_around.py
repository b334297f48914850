"""Findings on what is round the movement: gaps that pinch, the cylinder's weight, sizes that are only remembered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
import trimesh

from fitwright.checks.motion_chain import Driven
from fitwright.checks.motion_faces import BESIDE_MM, crossings
from fitwright.checks.motion_say import Measured, mm, say
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.frames import gate_moment_nm
from fitwright.physics.slide.gaps import FINGER_MM, TIP_MM, Gap
from fitwright.spec.gate import GateBracketSpec

HEAVY_KG, HEAVY_NM = 0.3, 1.0
"""A cylinder over one of these wants a second support (common practice, no source)."""
BESIDE_MOVING_MM = 12.0
"""What stands so near beside the moving body's path takes part in a pinch: a finger's thickness (from memory)."""
LINES = 13


def around(at: Driven, part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> Iterator[Finding]:
    """All findings on what is round the movement."""
    yield _pinch(at, part, meshes, spec)
    yield _heavy(at, part, spec)
    yield from _remembered(spec)


def gaps(at: Driven, part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> list[Gap]:
    """Gaps along the movement between what moves and what stands still, on the meshes; the sleeve's end too."""
    moving = [body.name for body in part.bodies if body.moving and not body.name.startswith("sleeve")]
    still = [body.name for body in part.bodies if not body.moving and not body.name.startswith("guard")]
    found = [
        gap
        for one in moving
        for other in still
        for gap in _between(f"{one} to {other}", meshes[one].mesh, meshes[other].mesh, at.moved_mm)
    ]
    reach = spec.cylinder.rod_stub_mm - spec.cylinder.nose_mm
    closed = max(0.0, reach) if at.sleeve_mm == 0.0 else 0.0
    name = "sleeve to the cylinder's nose" if at.sleeve_mm else "rod's nut to the cylinder's nose"
    shut, opened = (closed + at.moved_mm, closed) if spec.layout == "in_line" else (closed, closed + at.moved_mm)
    return [*found, Gap(name, shut, opened)]


def _between(name: str, mesh: trimesh.Trimesh, other: trimesh.Trimesh, moved_mm: float) -> list[Gap]:
    """Along lines over the moving body's outline and a little beside it: to the next face outwards, and inwards."""
    low, high = mesh.bounds
    outwards, inwards = np.inf, np.inf
    for x in np.linspace(low[0] - BESIDE_MOVING_MM, high[0] + BESIDE_MOVING_MM, LINES) + BESIDE_MM[0]:
        for z in np.linspace(low[2] - BESIDE_MOVING_MM, high[2] + BESIDE_MOVING_MM, LINES) + BESIDE_MM[1]:
            met = crossings(other, (float(x), 0.0, float(z)), (0.0, 1.0, 0.0))
            ahead = met.at_mm[met.enters & (met.at_mm >= high[1])]
            behind = met.at_mm[~met.enters & (met.at_mm <= low[1] + moved_mm)]
            outwards = min(outwards, float(ahead[0] - high[1]) if len(ahead) else np.inf)
            inwards = min(inwards, float(low[1] + moved_mm - behind[-1]) if len(behind) else np.inf)
    found = [Gap(name, outwards, outwards - moved_mm)] if np.isfinite(outwards) else []
    return [*found, Gap(name, inwards - moved_mm, inwards)] if np.isfinite(inwards) else found


def _pinch(at: Driven, part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec) -> Finding:
    """A gap that passes between 4 and 25 mm catches a finger, unless a guard covers it."""
    pinching = [gap for gap in gaps(at, part, meshes, spec) if gap.pinches]
    if not pinching:
        words = f"no gap passes between {mm(TIP_MM, 0)} and {mm(FINGER_MM, 0)} as the gate moves"
        return say("pinch", "pass", words, of=Measured(None, None, "guard"))
    named = ", ".join(
        f"{gap.name} ({mm(max(0.0, gap.shut_mm))} shut, {mm(max(0.0, gap.open_mm))} open)" for gap in pinching
    )
    if any(body.name.startswith("guard") for body in part.bodies):
        return say("pinch", "pass", f"a guard covers what would pinch: {named}", of=Measured(None, None, "guard"))
    least = min(max(0.0, min(gap.shut_mm, gap.open_mm)) for gap in pinching)
    printed = spec.layout == "in_line" and not any(body.name == "gate_foot" for body in part.bodies)
    cure = "Print its guard (guard: auto)" if printed else "Cover it with wire mesh or a board"
    advice = f"{cure}, or mount it out of reach: a finger is caught in a gap between 4 and 25 mm."
    return say("pinch", "warn", f"a finger can be caught: {named}", advice, of=Measured(least, FINGER_MM, "guard"))


def _heavy(at: Driven, part: Part, spec: GateBracketSpec) -> Finding:
    """The cylinder's weight at the gate's edge."""
    cylinder, way = spec.cylinder, 1.0 if spec.layout == "in_line" else -1.0
    arm = abs(at.nose_face_mm + way * cylinder.long_mm / 2)
    moment = gate_moment_nm(cylinder.mass_kg, arm)
    words = f"the cylinder weighs {cylinder.mass_kg:.2f} kg and loads the gate's edge with {moment:.2f} N m"
    numbers = Measured(moment, HEAVY_NM, "cylinder", "N m")
    held = spec.support_down_mm is not None or any(body.name.startswith("support") for body in part.bodies)
    if spec.frame == "board":
        return say("weight", "pass", f"{words}; the board carries it", of=numbers)
    if held:
        return say("weight", "pass", f"{words}; a second support carries it", of=numbers)
    if cylinder.mass_kg > HEAVY_KG or moment > HEAVY_NM:
        advice = f"Give it a second support (support); {HEAVY_KG:g} kg and {HEAVY_NM:g} N m go without."
        return say("weight", "warn", words, advice, of=numbers)
    return say("weight", "pass", words, of=numbers)


def _remembered(spec: GateBracketSpec) -> Iterator[Finding]:
    """Sizes of the cylinder that nobody has read from its standard: once, all together."""
    if spec.cylinder.remembered:
        names = ", ".join(spec.cylinder.remembered_keys)
        message = f"only remembered, not read from {spec.cylinder.standard}: {names}"
        yield say(
            "cylinder",
            "warn",
            message,
            "Measure them, and write the readings beside the name (cylinder).",
            of=Measured(None, None, "cylinder"),
        )
