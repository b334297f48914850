"""Where heads and washers bear on a hanger, measured by rays from the mounting surface outwards, and findings on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.hanger_say import Of, say
from fitwright.checks.hardware_rays import two_hits
from fitwright.finding import Finding
from fitwright.hanging import Hanging, HeldBy

Numbers = NDArray[np.float64]

AROUND, RINGS = 48, 4
IN_MM = 0.15
"""Rays start so far inside the print, seen from the mounting surface."""
BESIDE_HOLE_MM, WITHIN_RIM_MM = 0.3, 0.1
FLAT_MM = 0.2
"""A seat is flat where no part of the ring lies further from its middle depth than this."""
BEARS = 0.8
"""Share of a washer's ring that must rest on the print."""
CONE_MM = 0.3
"""A seat that rises by so much from its hole to its rim is a countersink."""
SPLITS = "a countersunk head wedges its hole open and splits the print between its layers"


@dataclass(frozen=True)
class SeatFound:
    """Of one screw: thickness of print under its head [mm], share of the ring that rests, rise from hole to rim [mm].

    `thick_mm` 0: no print was found round its hole.
    """

    thick_mm: float
    rests: float
    rise_mm: float


def seat_found(one: HeldBy, meshes: dict[str, trimesh.Trimesh]) -> SeatFound:
    """What the washer (or head) of a screw rests on; the body is the one that lies round its hole."""
    found = [_on(one, mesh) for mesh in meshes.values()]
    return max(found, key=lambda seat: seat.rests, default=SeatFound(0.0, 0.0, 0.0))


def _on(one: HeldBy, mesh: trimesh.Trimesh) -> SeatFound:
    out = -np.array(one.direction, dtype=float)
    across = np.cross(out, np.eye(3)[int(np.argmin(np.abs(out)))])
    across /= np.linalg.norm(across)
    other = np.cross(out, across)
    hole = (one.hole_d_mm or one.d_mm) / 2 + BESIDE_HOLE_MM
    radii = np.linspace(hole, max(hole + 0.2, one.washer_d_mm / 2 - WITHIN_RIM_MM), RINGS)
    turn = np.arange(AROUND) * 2 * np.pi / AROUND + 0.0071
    rim = np.cos(turn)[:, None] * across + np.sin(turn)[:, None] * other
    starts = (np.array(one.at) + IN_MM * out + radii[:, None, None] * rim[None]).reshape(-1, 3)
    inside = mesh.contains(starts)
    if inside.mean() < 0.5:
        return SeatFound(0.0, 0.0, 0.0)
    first, _ = two_hits(mesh, starts, np.tile(out, (len(starts), 1)))
    high = np.where(inside, first + IN_MM, np.nan).reshape(RINGS, AROUND)
    middle = float(np.nanmedian(high))
    rests = float((np.abs(high - middle) <= FLAT_MM).mean())
    by_ring = np.nanmedian(high, axis=1)
    return SeatFound(middle, rests, float(by_ring[-1] - by_ring[0]))


def heads(hanging: Hanging, seats: dict[str, SeatFound]) -> Iterator[Finding]:
    """Each head on a flat seat: a countersink fails, whoever asked for it."""
    sound = []
    for one in hanging.held:
        if one.into == "tie":
            continue
        found = seats[one.name]
        of = Of(one.name, "", found.rests, BEARS, "of the ring")
        if one.head == "countersunk" or abs(found.rise_mm) > CONE_MM:
            message = f"{SPLITS}: its seat rises {found.rise_mm:.1f} mm from hole to rim"
            if one.head == "countersunk":
                message = f"the {one.size} screw is countersunk: {SPLITS}"
            advice = f"A pan or washer head on a flat seat, with a washer under it ({one.key})."
            yield say("head", "fail", of, message, advice)
        elif found.thick_mm <= 0.0:
            message = "no print was found round its hole at the mounting surface: not checked"
            yield say("head", "fail", of, message, "This is a fault of the build: report it.")
        elif found.rests < BEARS:
            message = f"the washer of {one.washer_d_mm:.1f} mm rests on the print with {found.rests:.0%} of its ring"
            yield say("head", "fail", of, message, f"Give it a flat face ({one.key}).")
        else:
            sound.append(f"{one.name} on {found.thick_mm:.1f} mm of print")
    if sound:
        yield say("head", "pass", Of("mount"), f"heads and washers lie flat: {', '.join(sound)}")
