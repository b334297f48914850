"""Finding on the bolt that a hanger turns about: what pulls at it, against its washers in the print and its steel."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitwright.checks.hanger_say import Of, say
from fitwright.data.fasteners import fastener
from fitwright.finding import Finding
from fitwright.hanging import Hanging
from fitwright.loads import LoadFace
from fitwright.mechanism import Fastening
from fitwright.part import Part
from fitwright.physics.machine_screws import HeadOnPrint, rod_tension_n, stress_area_mm2
from fitwright.physics.wood import ONCE_SHARE, PERMITTED_SHARE
from fitwright.spec.hanger import HoseHangerSpec

CLASS = "4.8"
"""Of a bolt of which nothing is known (ISO 898-1)."""


def swivels(part: Part, spec: HoseHangerSpec) -> Iterator[Finding]:
    """One finding for the weight and one for a snag; none where nothing turns."""
    bolt = next((one for one in part.fastenings if one.name == "swivel bolt"), None)
    face = next((one for one in part.load_faces if one.name == "turning face"), None)
    if bolt is None or face is None or part.hanging is None:
        return
    web = _web_mm(bolt, face)
    row = fastener(bolt.size)
    washer = HeadOnPrint(bolt.washer_d_mm, row.hole_mm(), web).pulls_through_n(spec.material.strength_across_mpa)
    steel = rod_tension_n(stress_area_mm2(row.major_mm, row.pitch_mm or 0.2 * row.major_mm), CLASS)
    bears = min(washer, steel)
    first = "its washer goes through the print" if washer < steel else f"steel of class {CLASS} tears"
    weight, snag = pull_n(part.hanging, bolt, face)
    for code, words, pull, share in (
        ("fixing", "the weight", weight, PERMITTED_SHARE),
        ("snag", f"weight and a snag of {part.hanging.snag_n:.0f} N", snag, ONCE_SHARE),
    ):
        permitted = bears * share
        message = f"{words}: the swivel's bolt is pulled with {pull:.0f} N; {first} at {bears:.0f} N ({web:.1f} mm of "
        message += f"print under the washer), permitted {permitted:.0f} N (factor {1.0 / share:g})"
        fails = pull > permitted
        advice = "A thicker bolt with a wider washer (mount.bolt), or a hanger that does not turn." if fails else ""
        yield say(code, "fail" if fails else "pass", Of("swivel", "", permitted / pull, 1.0, "times"), message, advice)


def pull_n(hanging: Hanging, bolt: Fastening, face: LoadFace) -> tuple[float, float]:
    """Pull on the bolt [N] by the weight, and by weight and a snag: it pulls down, or tips the foot about its edge.

    Square to the bolt: T = F lever / (bolt to the foot's nearest edge). F has one
    direction: the worst between both.
    """
    way, head = np.array(bolt.direction, dtype=float), np.array(bolt.head, dtype=float)
    weight = hanging.lasting_n * len(hanging.load_at)
    away = head - np.array(face.frame.origin, dtype=float)
    right, up = float(away @ np.array(face.frame.right)), float(away @ np.array(face.frame.up))
    edge = min(right - face.right_mm[0], face.right_mm[1] - right, up - face.up_mm[0], face.up_mm[1] - up)
    least = float(min(abs((np.array(p) - np.array(face.frame.origin)) @ way) for p in hanging.load_at))
    tipped = float(np.hypot(1.0, least / edge))  # the worst direction between along and square to the bolt
    return weight, weight + hanging.snag_n * tipped


def _web_mm(bolt: Fastening, face: LoadFace) -> float:
    """What lies under the washer on the thinner side: of the base, or of what turns."""
    to_face = float((np.array(face.frame.origin) - np.array(bolt.head)) @ np.array(bolt.direction))
    return min(to_face, bolt.grip_mm - to_face)
