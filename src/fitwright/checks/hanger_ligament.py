"""Findings on the material round a bore: between it and holes, slots, recesses, the back of the base, the outside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import trimesh

from fitwright.checks.hanger_rays import Swept, swept
from fitwright.checks.hanger_saddle import BEARS_MM, FOUND_MM
from fitwright.checks.hanger_say import Of, say, where
from fitwright.finding import Finding
from fitwright.hanging import Cradle, Hanging
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.tolerances import TOLERANCES

STEP_MM, STEP_DEG = 1.0, 0.4
SLACK_MM = 0.05


def ligaments(hanging: Hanging, meshes: dict[str, trimesh.Trimesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """The least material round each bore, rays from its axis over all of it: the nearest thing lies along one."""
    arms = {one.body: one.arm_mm for one in hanging.throats}
    for cradle in hanging.cradles:
        snaps = cradle.body in arms
        limit = arms[cradle.body] if snaps else spec.wall_mm
        found = _least(cradle, meshes[cradle.body], limit)
        if found is None:
            continue
        least, place = found
        of = Of(cradle.name, cradle.body, least, limit)
        if least >= limit * (1.0 - TOLERANCES.wall_rel) - SLACK_MM:
            message = f"{least:.1f} mm of material or more round the bore, least {place}"
            yield say("ligament", "pass", of, message)
        elif snaps:
            message = f"only {least:.1f} mm of material beside the bore {place}; its arms are {limit:.1f} mm: it snaps"
            message += " there when the hose is pushed in"
            advice = "Move it away from the surface (to_axis of the mount), or what is cut there; a larger `arm` needs "
            advice += "more room."
            yield say("ligament", "fail", of, message, advice)
        else:
            message = f"only {least:.1f} mm of material beside the bore {place}"
            yield say("ligament", "fail", of, message, "Move what is cut there, or make `arm` larger.")


def arm_mm(cradle: Cradle, mesh: trimesh.Trimesh) -> float | None:
    """Thickness [mm] of the arms of a hook: what most of the thinner half of its bore has behind it."""
    found = _behind(cradle, mesh, 0.0)
    if found is None:
        return None
    by_angle = np.median(found.second - found.first, axis=0)
    return float(np.percentile(by_angle, 25.0))


def _least(cradle: Cradle, mesh: trimesh.Trimesh, arm: float) -> tuple[float, str] | None:
    """Least thickness [mm] behind the bore's face, and where; the lips' rounded tips are left out."""
    found = _behind(cradle, mesh, float(np.degrees(arm / 2 / cradle.r_mm)))
    if found is None:
        return None
    thick = found.second - found.first
    row, column = np.unravel_index(int(thick.argmin()), thick.shape)
    return float(thick[row, column]), where(float(found.deg[column]), float(found.s_mm[row]))


def _behind(cradle: Cradle, mesh: trimesh.Trimesh, tip_deg: float) -> Swept | None:
    """Rays over the bore but for its tips; where a ray does not leave the bore's own face its second is infinite."""
    low, high = cradle.turn_deg
    tip = tip_deg if high - low < 359.0 else 0.0
    deg = np.arange(low + tip, high - tip, STEP_DEG)
    rays = swept(mesh, cradle.frame, np.arange(STEP_MM / 2, cradle.wide_mm, STEP_MM), deg)
    near = np.abs(rays.first - cradle.r_mm) <= FOUND_MM
    if not near.any():
        return None
    on = (np.abs(rays.first - np.median(rays.first[near])) <= BEARS_MM) & np.isfinite(rays.second)
    return replace(rays, first=np.where(on, rays.first, 0.0), second=np.where(on, rays.second, np.inf))
