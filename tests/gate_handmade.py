"""Brackets with something added by hand, so that a check has something to find."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import cadquery as cq

from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Part, Pose, StandIn
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.models import GateBracketSpec
from tests.gate_specs import gate_4in

UPRIGHT = (Pose("upright", (0.0, 0.0, -1.0)),)


def body(name: str, solid: cq.Shape, moving: bool = False) -> Body:
    """A body of whatever this solid is."""
    return Body(name, solid.Solids()[0], 0, 2.4, UPRIGHT, moving=moving)


@cache
def _built() -> tuple[Part, dict[str, BodyMesh]]:
    part = build_gate_bracket(gate_4in(frame="rods", guard="no"))
    return part, {one.name: mesh_body(one) for one in part.bodies}


def bracket(
    more: tuple[Body, ...] = (), stand_ins: tuple[StandIn, ...] = (), peg: cq.Shape | None = None
) -> tuple[Part, dict[str, BodyMesh]]:
    """The 4 in bracket on rods with these bodies and stand-ins added; `peg` is grown on its yoke."""
    part, meshes = _built()
    bodies = tuple(
        body("yoke", one.solid.fuse(peg)) if peg is not None and one.name == "yoke" else one for one in part.bodies
    )
    changed = [one for one in (*bodies, *more) if one.name not in meshes or one not in part.bodies]
    made = replace(part, bodies=(*bodies, *more), stand_ins=(*part.stand_ins, *stand_ins))
    return made, {**meshes, **{one.name: mesh_body(one) for one in changed}}


def built(spec: GateBracketSpec) -> tuple[Part, dict[str, BodyMesh]]:
    """Any bracket with its meshes."""
    part = build_gate_bracket(spec)
    return part, {one.name: mesh_body(one) for one in part.bodies}
