"""Findings on the second fixing: is there an eye where it hangs above people, is it as large and as strong as meant."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import trimesh

from fitwright.checks.hanger_rays import swept
from fitwright.checks.hanger_say import Of, say
from fitwright.finding import Finding
from fitwright.hanging import Eye, Hanging
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.printed import as_printed
from fitwright.tolerances import TOLERANCES

EDGE_D = 1.5
"""From an eye's middle to the nearest edge, in its diameters (common practice, no source)."""
STEP_MM, STEP_DEG, IN_MM = 0.5, 5.0, 1.0
LEAST_MM = 5.0
"""A line of 4 mm goes through, doubled at its knot outside."""


def second_fixing(hanging: Hanging, meshes: dict[str, trimesh.Trimesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """All findings on it."""
    if hanging.overhead and not hanging.eyes:
        yield _missing(spec)
    for eye in hanging.eyes:
        yield from _eye(eye, hanging, meshes, spec)


def _missing(spec: HoseHangerSpec) -> Finding:
    of = Of("second_fixing")
    asked = "Delete `second_fixing: no`" if spec.second_fixing is False else "Say `second_fixing: yes`"
    advice = f"{asked}: it gets an eye for a line to a point of its own."
    if spec.above == "people":
        message = "it hangs above people and has no eye for a line: nothing holds it when a screw or the print gives"
        return say("second_fixing", "fail", of, message, advice)
    if spec.above == "nothing":
        return say("second_fixing", "pass", of, "no second fixing: nothing and nobody is below, as `above` says")
    below = "above a cutter" if spec.above == "cutter" else "and `above` does not say what is below"
    return say("second_fixing", "warn", of, f"it hangs {below}, without an eye for a second fixing", advice)


def _eye(eye: Eye, hanging: Hanging, meshes: dict[str, trimesh.Trimesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """Its hole and the material round it, on the mesh."""
    carriers = {one.body for one in hanging.cradles}
    if hanging.free_to_turn and eye.body not in carriers:
        message = f"the eye is on the {eye.body}: when the swivel's bolt gives, the hose falls all the same"
        yield say("second_fixing", "fail", Of(eye.name, eye.body), message, "The line must go to what holds the hose.")
    mesh = meshes[eye.body]
    s_mm = np.arange(IN_MM, eye.long_mm - IN_MM + 1e-9, STEP_MM)
    rays = swept(mesh, eye.frame, s_mm, np.arange(0.0, 360.0, STEP_DEG))
    if not (np.abs(rays.first - eye.d_mm / 2) < eye.d_mm / 4).all():
        of = Of(eye.name, eye.body)
        yield say("second_fixing", "fail", of, "its hole was not found", "This is a fault of the build: report it.")
        return
    d, edge = 2.0 * float(np.median(rays.first)), float(rays.second.min())
    printed = as_printed(d, "hole", spec.printer)
    if abs(printed - eye.d_mm) > 2 * TOLERANCES.fit_mm and abs(d - eye.d_mm) > 2 * TOLERANCES.fit_mm:
        message = f"its hole measures {printed:.1f} mm, {eye.d_mm:.1f} mm was meant"
        of = Of(eye.name, eye.body, printed, eye.d_mm)
        yield say("second_fixing", "fail", of, message, "This is a fault of the build: report it.")
    of = Of(eye.name, eye.body, edge, EDGE_D * d)
    if edge < EDGE_D * d - TOLERANCES.fit_mm:
        message = f"from the middle of its {d:.1f} mm hole to the nearest edge are {edge:.1f} mm: it tears out"
        yield say("second_fixing", "fail", of, message, "This is a fault of the build: report it.")
        return
    message = f"a hole of {printed:.1f} mm for the line, {edge:.1f} mm from its middle to the nearest edge"
    yield say("second_fixing", "pass", of, f"{message}; tie the line to a point that does not hold the hanger")
