"""Check `hanger`: does it hold the hose without harm, and does what holds it hold?

Faces are measured on the finished meshes; forces are reckoned from where those faces and screws are.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.checks.hanger_eye import second_fixing
from fitwright.checks.hanger_fixing import fixings
from fitwright.checks.hanger_hung import hung
from fitwright.checks.hanger_ligament import ligaments
from fitwright.checks.hanger_pose import poses
from fitwright.checks.hanger_saddle import saddles
from fitwright.checks.hanger_say import Of, say
from fitwright.checks.hanger_seats import heads, seat_found
from fitwright.checks.hanger_swivel import swivels
from fitwright.checks.hanger_throat import throats
from fitwright.checks.hanger_wood import in_wood, rods
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Hanging, Part
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.part_base import PartBase

CODE = "hanger"


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """All findings on a hanger; none for parts that are none."""
    if part.hanging is None or not isinstance(spec, HoseHangerSpec):
        return []
    hanging = part.hanging
    bodies = {name: one.mesh for name, one in meshes.items()}
    if strange := _strange(hanging, bodies):
        return strange
    seats = {one.name: seat_found(one, bodies) for one in hanging.held}
    return [
        *saddles(hanging, bodies, spec),
        *throats(hanging, bodies, spec),
        *ligaments(hanging, bodies, spec),
        *heads(hanging, seats),
        *fixings(hanging, seats, spec),
        *swivels(part, spec),
        *in_wood(hanging, spec),
        *rods(hanging, spec),
        *second_fixing(hanging, bodies, spec),
        *hung(hanging, spec),
        *poses(part, meshes, spec),
    ]


def _strange(hanging: Hanging, bodies: Mapping[str, object]) -> list[Finding]:
    """Faces of bodies that the part does not have: nothing can be measured."""
    named = [(o.name, o.body) for o in hanging.cradles]
    named += [(o.name, o.body) for o in hanging.throats] + [(o.name, o.body) for o in hanging.eyes]
    advice = "This is a fault of the build: report it."
    return [
        say("saddle", "fail", Of(name), f"not checked: the part has no body {body}", advice)
        for name, body in named
        if body not in bodies
    ]
