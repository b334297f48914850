"""Bodies of a bracket made by hand from boxes, so that its clearance is tried without the real ones."""

from __future__ import annotations

import cadquery as cq

from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Motion, Part, Pose, StandIn
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import GatePlan

UPRIGHT = (Pose("upright", (0.0, 0.0, -1.0)),)


def body(name: str, solid: cq.Shape, moving: bool = False) -> Body:
    """A body of whatever this solid is."""
    return Body(name, solid.Solids()[0], 0, 2.4, UPRIGHT, moving=moving)


def hole_y(x: float, y: float, d: float, long: float, z: float = 0.0) -> cq.Solid:
    """A cutter along y."""
    return cq.Solid.makeCylinder(d / 2, long, cq.Vector(x, y, z), cq.Vector(0, 1, 0))


def yoke(plan: GatePlan) -> cq.Shape:
    """A plate with a window that is wide enough for pin and coupling, holes for the rods."""
    at = plan.frame
    plate = box((-at.yoke_wide / 2, at.yoke_wide / 2), (at.yoke_y0, at.yoke_y1), (-40.0, 40.0))
    window = box((-at.window_wide / 2, at.window_wide / 2), (at.yoke_y0 - 1, at.yoke_y1 + 1), (-30.0, 30.0))
    rods = [hole_y(x, -5.0, at.rod_d_mm + 0.5, 40.0) for x in (-at.rail_x, at.rail_x)]
    pockets = [hole_y(x, at.yoke_y0 - 1.0, 15.6, at.rod_nut_m_mm + 1.5) for x in (-at.rail_x, at.rail_x)]
    return plate.cut(window, *rods, *pockets)


def nose_plate(plan: GatePlan, nose_d: float = 16.5) -> cq.Shape:
    """A plain plate at the cylinder's face, holes for its nose and the rods."""
    at, face = plan.frame, plan.nose_face_mm
    plate = box((-at.nose_wide / 2, at.nose_wide / 2), (face - at.web, face), (-30.0, 30.0))
    holes = [hole_y(x, face - at.web - 1, at.rod_d_mm + 0.5, at.web + 2) for x in (-at.rail_x, at.rail_x)]
    return plate.cut(hole_y(0.0, face - at.web - 1, nose_d, at.web + 2), *holes)


def coupling(plan: GatePlan) -> cq.Shape:
    """A block with a fork over the blade, a pocket for nut and rod, a hole for the pin."""
    at = plan.coupling
    block = box((-at.wide_mm / 2, at.wide_mm / 2), (at.tip_y, at.back_y), (-at.high_mm / 2, at.high_mm / 2))
    fork = box((-at.wide_mm, at.wide_mm), (at.tip_y - 1, at.floor_y), (-at.slot_mm / 2, at.slot_mm / 2))
    pin = cq.Solid.makeCylinder(at.pin_d_mm / 2 + 0.2, 60.0, cq.Vector(0, at.pin_y, -30.0))
    pocket = hole_y(0.0, at.nut_y0, at.nut_af_mm + 2.0, at.nut_y1 - at.nut_y0)
    return block.cut(fork, pin, pocket, hole_y(0.0, at.nut_y0, at.rod_hole_mm, 60.0))


def bracket(
    plan: GatePlan, stand_ins: tuple[StandIn, ...], more: tuple[Body, ...] = (), peg: cq.Shape | None = None
) -> tuple[Part, dict[str, BodyMesh]]:
    """Yoke, nose plate and coupling with these stand-ins; `peg` is added to the yoke."""
    foot = yoke(plan) if peg is None else yoke(plan).fuse(peg)
    bodies = (
        body("yoke", foot),
        body("nose_plate", nose_plate(plan)),
        body("coupling", coupling(plan), moving=True),
        *more,
    )
    part = Part("gate", "gate_bracket", bodies, stand_ins, motion=Motion((0.0, 1.0, 0.0), plan.moved_mm))
    return part, {one.name: mesh_body(one) for one in bodies}
