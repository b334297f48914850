"""Findings on how it is printed: on its side, so that the layers run along the hoop and not across the arms."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from fitwright.checks.hanger_say import Of, say, way
from fitwright.finding import Finding, Severity
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.pose import choose_pose
from fitwright.spec.hanger import HoseHangerSpec

ALONG = 0.9
"""Cosine between the layers' normal and the bore's axis from which on the layers run along the hoop (26 deg)."""
FACES = {"towards you": "front face", "away": "back face", "up": "upper face", "down": "under side"}


def poses(part: Part, meshes: Mapping[str, BodyMesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """One finding for each body that has a bore."""
    assert part.hanging is not None
    snaps = {one.body for one in part.hanging.throats}
    for body in part.bodies:
        axes = {one.frame.inward for one in part.hanging.cradles if one.body == body.name}
        if not axes or body.stock is not None:
            continue
        chosen = choose_pose(body, meshes[body.name], spec.printer).pose
        least = min(abs(sum(a * b for a, b in zip(chosen.down, axis, strict=True))) for axis in axes)
        of = Of("pose", body.name, math.degrees(math.acos(min(1.0, least))), math.degrees(math.acos(ALONG)), "deg")
        side = way(chosen.down)
        face = FACES.get(side, f"face that looks {side}")
        if least >= ALONG:
            message = f"print it on its side, {face} down: the layers run along the hoop, as the load does"
            yield say("pose", "pass", of, message)
            continue
        strength = spec.material.strength_across_mpa, spec.material.strength_mpa
        message = f"printed {chosen.name} ({face} down) its layers lie across the arms: "
        message += f"{spec.material.name} bears {strength[0]:.0f} MPa there, not {strength[1]:.0f}, and arms snap"
        severity: Severity = "fail" if body.name in snaps else "warn"
        yield say("pose", severity, of, message, "Print it on its side, front face down.")
