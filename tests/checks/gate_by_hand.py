"""A gate bracket of plain boxes and tubes at the plan's numbers: the checks are tried without its real bodies."""

from __future__ import annotations

from functools import cache
from typing import Any

import cadquery as cq

from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Motion, Part, Pose, Seat
from fitwright.parts.gate.plan import GatePlan, gate_plan
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.gate_coupling import JAM_ROOM_MM

Y = cq.Vector(0, 1, 0)
DOWN = (Pose("as it is", (0.0, 0.0, -1.0)),)


def box(x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]) -> cq.Solid:
    return cq.Solid.makeBox(x[1] - x[0], y[1] - y[0], z[1] - z[0], cq.Vector(x[0], y[0], z[0]))


def rod(d: float, y: tuple[float, float], x: float = 0.0, z: float = 0.0) -> cq.Solid:
    return cq.Solid.makeCylinder(d / 2, y[1] - y[0], cq.Vector(x, y[0], z), Y)


def coupling(plan: GatePlan, spec: GateBracketSpec, slot_mm: float | None = None, wander_mm: float = 1.5) -> cq.Solid:
    """A block with a slot for the blade, a slotted hole for the pin and a hole for the rod."""
    c = plan.coupling
    half, slot = c.wide_mm / 2, (slot_mm or c.slot_mm) / 2
    block = box((-half, half), (c.tip_y, c.back_y), (-c.high_mm / 2, c.high_mm / 2))
    made = block.cut(box((-half - 1, half + 1), (c.tip_y - 1, c.floor_y), (-slot, slot)))
    made = made.cut(rod(c.rod_hole_mm, (c.floor_y - 0.1, c.back_y + 1)))
    if c.pin:
        pin = cq.Solid.makeCylinder(
            c.pin_d_mm / 2, c.high_mm + 2, cq.Vector(0, c.pin_y, -c.high_mm / 2 - 1), cq.Vector(0, 0, 1)
        )
        w = wander_mm / 2
        r = c.pin_d_mm / 2
        made = made.cut(pin.translate(cq.Vector(w, 0, 0)), pin.translate(cq.Vector(-w, 0, 0)))
        made = made.cut(box((-w, w), (c.pin_y - r, c.pin_y + r), (-c.high_mm / 2 - 1, c.high_mm / 2 + 1)))
    return made.Solids()[0]


def sleeve(plan: GatePlan, spec: GateBracketSpec, long_mm: float | None = None) -> cq.Solid:
    """A tube on the rod, from the jam nut on."""
    c, long = plan.coupling, plan.ends.sleeve_mm + JAM_ROOM_MM if long_mm is None else long_mm
    start = c.back_y + c.jam_m_mm + c.washer_h_mm
    d = spec.cylinder.rod_mm
    return rod(d + 8, (start, start + long)).cut(rod(d + 0.4, (start - 1, start + long + 1))).Solids()[0]


@cache
def nose(plan: GatePlan, rods: bool, nose_d: float = 16.5, x_mm: float = 0.0) -> cq.Solid:
    """A web with ribs at top and bottom, the cylinder's hole, and rod holes."""
    f, y = plan.frame, plan.nose_face_mm
    half, high = f.nose_wide / 2, f.nose_high / 2
    made = box((-half, half), (y - f.web, y), (-high, high))
    for side in (-1.0, 1.0):
        z = sorted((side * high, side * (high - f.rib)))
        made = made.fuse(box((-half, half), (y - f.nose.deep, y), (z[0], z[1])))
    made = made.cut(rod(nose_d, (y - 40, y + 1), x_mm))
    if rods:
        ends = [rod(f.rod_d_mm + 1.0, (y - 40, y + 1), side * f.rail_x) for side in (-1, 1)]
        made = made.cut(*ends)
    return made.Solids()[0]


@cache
def yoke(plan: GatePlan, rods: bool = True) -> cq.Solid:
    """A plate with a window."""
    f = plan.frame
    made = box((-f.yoke_wide / 2, f.yoke_wide / 2), (f.yoke_y0, f.yoke_y1), (-f.yoke_high / 2, f.yoke_high / 2))
    window = box(
        (-f.window_wide / 2, f.window_wide / 2), (f.yoke_y0 - 1, f.yoke_y1 + 1), (-f.window_high / 2, f.window_high / 2)
    )
    made = made.cut(window)
    if rods:
        made = made.cut(*[rod(f.rod_d_mm + 1.0, (f.yoke_y0 - 1, f.yoke_y1 + 1), side * f.rail_x) for side in (-1, 1)])
    return made.Solids()[0]


def body(name: str, solid: cq.Solid, moving: bool = False) -> Body:
    return Body(name, solid, 0, 2.0, DOWN, moving=moving)


def seats(plan: GatePlan, spec: GateBracketSpec, frame: str = "nose") -> tuple[Seat, ...]:
    """The faces as they were meant."""
    c, y = plan.coupling, plan.nose_face_mm
    aside = c.rod_hole_mm / 2 + 0.4
    start = c.back_y + c.jam_m_mm + c.washer_h_mm
    bore = spec.cylinder.rod_mm / 2 + 1.5
    found = [
        Seat("fork floor", "coupling", (aside, c.floor_y, 0.0), (0.0, -1.0, 0.0)),
        Seat("coupling back", "coupling", (aside, c.back_y, 0.0), (0.0, 1.0, 0.0)),
        Seat("nose face", frame, (24.0, y, 0.0), (0.0, 1.0, 0.0)),
    ]
    if plan.ends.sleeve_mm:
        found += [
            Seat("sleeve begin", "sleeve", (bore, start, 0.0), (0.0, -1.0, 0.0)),
            Seat("sleeve end", "sleeve", (bore, start + plan.ends.sleeve_mm + JAM_ROOM_MM, 0.0), (0.0, 1.0, 0.0)),
        ]
    return tuple(found)


def hand_made(spec: GateBracketSpec, **solids: Any) -> Part:
    """The bracket on two rods; `solids` puts others in a body's place, None leaves a body out."""
    plan = gate_plan(spec)
    nose_d = 16.5 if spec.cylinder.bore_mm <= 16 else 22.5
    made: dict[str, Any] = {"yoke": yoke(plan), "nose": nose(plan, True, nose_d), "coupling": coupling(plan, spec)}
    if plan.ends.sleeve_mm:
        made["sleeve"] = sleeve(plan, spec)
    made.update(solids)
    bodies = tuple(
        body(name, solid, name in ("coupling", "sleeve")) for name, solid in made.items() if solid is not None
    )
    kept = tuple(seat for seat in seats(plan, spec) if made.get(seat.body) is not None)
    return Part("gate", "gate_bracket", bodies, motion=Motion((0.0, 1.0, 0.0), plan.moved_mm), seats=kept)


_MESHES: dict[cq.Solid, BodyMesh] = {}


def meshes_of(part: Part) -> dict[str, BodyMesh]:
    """Each solid is meshed once, however many tests ask for it."""
    for one in part.bodies:
        if one.solid not in _MESHES:
            _MESHES[one.solid] = mesh_body(one)
    return {one.name: _MESHES[one.solid] for one in part.bodies}


def the(found: list[Finding], code: str) -> Finding:
    """The one finding of this code; of several the worst."""
    order = {"fail": 0, "warn": 1, "pass": 2}
    matching = sorted((f for f in found if f.code == code), key=lambda f: order[f.severity])
    assert matching, sorted({f.code for f in found})
    return matching[0]
