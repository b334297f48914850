"""What the bodies bear where the cylinder lies beside the gate: the yoke with its arm, the bridge, the bush.

The piston rod only pushes; the guide rod keeps the bridge from turning. On the yoke the couple of the guide rod and
the thrust beside the gate come to the thrust through the blade's middle. So the yoke is looked at twice: with the
thrust at the nose alone (what the arm bears), and with it where the guide rod leaves the yoke, through the middle
(what the yoke bears from there on).

At both ends of the travel the cylinder itself and the sleeve take the thrust up. Bridge and guide rod bear for good
what the blade's drag asks for; the stalled thrust, a blade that is stuck, comes once.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from fitwright.data.fasteners import fastener
from fitwright.frame import Frame, Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.gate.alongside_bolt import BOLT
from fitwright.parts.gate.alongside_bridge_plan import BridgePlan
from fitwright.parts.gate.alongside_guide import GuidePlan
from fitwright.parts.gate.alongside_plan import SEAT_WALL_MM, AlongsidePlan
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.load_cases import Bears, Thrust, stalled, thrusts
from fitwright.parts.gate.load_faces import OUT, RIGHT, bore, disc, minus, patch
from fitwright.parts.gate.load_nose import ROOF_DEG, nose_faces, on_nose
from fitwright.parts.gate.load_springs import SLIDES_N_MM, axial_n_mm
from fitwright.parts.gate.load_yoke import grip, held_names
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.steel import STEEL_MPA
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

END_MM = 5.0
"""A bush is pressed over so much of either end (common practice, no source)."""


def arm_bears(
    plan: GatePlan, spec: GateBracketSpec, load: Load, beside: AlongsidePlan, falls: tuple[Vec, ...], limit_mm: float
) -> Bears:
    """The yoke with its arm."""
    faces, held_by = nose_faces(plan, spec, "yoke"), grip(beside.arm.yoke, spec, "yoke")
    held = held_names(held_by)
    cases = [*held_by.cases, *on_nose(plan, spec, load, faces, held, falls, limit_mm)]
    roots: tuple[LoadFace, ...] = ()
    if beside.guide is not None:
        roots = (_guide_root(beside.guide, beside),)
        middle: Vec = (0.0, roots[0].frame.origin[1], 0.0)
        for one in _couples(load, beside, plan):
            cases += stalled(one, roots[0], held, middle)
    return Bears((*held_by.faces, *faces.all, *roots), held_by.supports, tuple(cases))


def _couples(load: Load, beside: AlongsidePlan, plan: GatePlan) -> Iterator[Thrust]:
    """Both thrusts; what lasts of them is the drag with what the guide's friction makes of it."""
    for one in thrusts(load, plan.way):
        yield replace(one, running_n=min(one.running_n, beside.statics.thrust_n), dragged=True)


def _guide_root(guide: GuidePlan, beside: AlongsidePlan) -> LoadFace:
    """The yoke's front round the guide rod, as far as the seat's walls go."""
    plate, half = beside.arm.yoke.plate, max(abs(x - guide.x_mm) for x, _ in guide.seat) + SEAT_WALL_MM
    x = guide.x_mm - half, guide.x_mm + half
    return patch("guide rod's root", "yoke", minus(OUT), plate.y[1], x, plate.z)


def bridge_bears(plan: GatePlan, spec: GateBracketSpec, load: Load, beside: AlongsidePlan) -> Bears:
    """Pushed by the rod, held by the blade's bolt; with a second guide by its bush, which slides along."""
    bridge, x = beside.bridge, plan.axis_x_mm
    jam = disc("bridge jam nut", "bridge", (x, bridge.near_y, 0.0), OUT, bridge.nut.af_mm)
    caught_at: Vec = (x, bridge.near_y + bridge.wall_mm, 0.0)
    caught = disc("bridge rod nut", "bridge", caught_at, minus(OUT), bridge.nut.af_mm)
    row = fastener(BOLT)
    head = disc(
        "coupling bolt head", "bridge", (0.0, bridge.outer_y, 0.0), minus(OUT), row.washer_d2_mm or row.head_d_mm
    )
    back = patch("coupling seat", "bridge", OUT, bridge.head.y[0], bridge.head.x, bridge.head.z)
    long = bridge.outer_y - (plan.coupling.nut_y1 + coupling_shift_mm(plan))
    steel = axial_n_mm(row, long)
    supports = [Support(head.name, "washer", steel, steel / 4), Support(back.name, "seat")]
    faces = [jam, caught, head, back]
    if beside.guide is not None:
        faces.append(_bush_bore(bridge, beside.guide))
        supports.append(Support("bush in the bridge", "washer", SLIDES_N_MM, _guide_n_mm(beside.guide, plan)))
    held = tuple(one.face for one in supports)
    cases: list[LoadCase] = []
    for one, face in zip(_couples(load, beside, plan), (jam, caught), strict=True):
        rod_way = replace(one, frame_way=minus(one.frame_way))
        cases += stalled(rod_way, face, held, (x, face.frame.origin[1], 0.0), key="material")
    return Bears(tuple(faces), tuple(supports), tuple(cases))


def _bush_bore(bridge: BridgePlan, guide: GuidePlan) -> LoadFace:
    """Where the bush is glued in: housing and arm."""
    assert bridge.housing is not None
    y0, y1 = bridge.housing.y[0], max(bridge.housing.y[1], bridge.outer_y)
    frame = Frame((guide.x_mm, y0, 0.0), OUT, RIGHT)
    return bore(
        "bush in the bridge", "bridge", frame, guide.bore_mm / 2, (0.0, y1 - y0), (ROOF_DEG + 1.0, 359.0 - ROOF_DEG)
    )


def _guide_n_mm(guide: GuidePlan, plan: GatePlan) -> float:
    """The bush's couple bends the bar, open, by E I / L; spread over the bush's length B that is 12 E I / L B^2."""
    bending = STEEL_MPA * math.pi * guide.d_mm**4 / 64.0
    return 12.0 * bending / (guide.free_mm(plan.moved_mm) * guide.bush_mm**2)


def bush_bears(plan: GatePlan, beside: AlongsidePlan, load: Load) -> Bears:
    """The couple of the guide rod presses on both its ends: F e / (B - 2 mu g), on each."""
    guide = beside.guide
    if guide is None:
        return Bears()
    frame = Frame((guide.x_mm, guide.bush_y[0], 0.0), OUT, RIGHT)
    inside = bore("bush end", "bush", frame, guide.bush_in_mm / 2, (0.0, END_MM))
    outside = bore("bush outside", "bush", frame, guide.bush_out_mm / 2, (0.0, guide.bush_mm))
    return Bears(
        (inside, outside),
        (Support(outside.name, "fixed"),),
        tuple(_bush_pressed(inside, outside, beside, load)),
    )


def _bush_pressed(inside: LoadFace, outside: LoadFace, beside: AlongsidePlan, load: Load) -> Iterator[LoadCase]:
    guide, bridge = beside.guide, beside.statics.bridge
    if guide is None or bridge is None:
        return
    ways: tuple[Vec, ...] = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
    stall = max(one.most_n for one in thrusts(load, -1.0))
    for word, force, lasting in (
        ("drag", beside.statics.drag_n, True),
        ("stall", bridge.stuck_drag_n(stall), False),
    ):
        side = bridge.couple_nmm(force) / guide.bush_mm
        why = f"the guide rod, which keeps the bridge from turning, at {word}"
        yield LoadCase(
            f"guide rod on {inside.name}, {word}",
            "bush",
            inside.name,
            side,
            ways,
            (outside.name,),
            lasting=lasting,
            why=why,
            key="second_guide",
        )
