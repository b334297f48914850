"""How each face gives way at which a hanger is held: seats only press, washers are springs of what they are under."""

from __future__ import annotations

import math
from collections.abc import Mapping

from fitwright.data.woods import wood
from fitwright.errors import DataError
from fitwright.loads import LoadFace, Support
from fitwright.mechanism import Fastening
from fitwright.parts.hanger.base_tie import UNDER_MM
from fitwright.parts.hanger.clamp_band import GROOVE_MM
from fitwright.parts.hanger.declared import CAP
from fitwright.parts.hanger.held_faces import BACK, BED, TURNS
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.physics.fixing_springs import NYLON_MPA, Springs, steel_bolt, strap_round, wood_screw
from fitwright.physics.hose_band import BAND_THICK_MM
from fitwright.physics.steel import STEEL_MPA
from fitwright.spec.hanger import HoseHangerSpec

FRICTION_SHARE = 0.3
"""A tie or band holds aside by friction: its spring over that along its pull (common practice, no source)."""
GRAVITY_UNKNOWN = 0.38
"""Of a wood that the tables do not know: spruce of the low class."""


def supports_of(
    plan: HangerPlan, spec: HoseHangerSpec, faces: tuple[LoadFace, ...], screws: tuple[Fastening, ...]
) -> tuple[Support, ...]:
    """One for each face that something is held at; all others, where a case holds them, are fixed."""
    named = {one.name: one for one in screws}
    return tuple(made for face in faces if (made := _support(face, plan, spec, named)) is not None)


def _support(face: LoadFace, plan: HangerPlan, spec: HoseHangerSpec, screws: Mapping[str, Fastening]) -> Support | None:
    name = face.name
    if name.startswith((BACK, BED)) or name in (TURNS, "rod head") or _on_pipe(face, spec):
        return Support(name, "seat")
    springs = _springs(face, plan, spec, screws)
    return None if springs is None else Support(name, "washer", springs.axial_n_mm, springs.lateral_n_mm)


def _on_pipe(face: LoadFace, spec: HoseHangerSpec) -> bool:
    """The bore of a cap, whose screw is turned tight; a band's squeeze holds it by friction too, as if fixed."""
    return face.body.startswith(CAP) and face.name == face.body and spec.clamp.kind == "screws"


def _springs(face: LoadFace, plan: HangerPlan, spec: HoseHangerSpec, screws: Mapping[str, Fastening]) -> Springs | None:
    name = face.name
    if name.startswith("fixing"):
        return _fixing(plan.base.points[int(name.split()[1]) - 1], spec)
    if name.startswith("tie"):
        return _tie(spec)
    if face.body.startswith(CAP) and name.endswith("band seat"):
        return _band(plan, spec)
    if name in ("rod nut", "swivel bolt nut") or (face.body.startswith(CAP) and name.endswith("head")):
        screw = screws[name.rsplit(" ", 1)[0]]
        return steel_bolt(screw.d_mm, screw.pitch_mm, screw.grip_mm)
    return None


def _fixing(p: FixingPoint, spec: HoseHangerSpec) -> Springs:
    """A screw in wood, or a bolt between its head and where the thread begins that it goes into."""
    if p.into == "wood":
        return wood_screw(_gravity(spec), p.row.major_mm, p.tip_mm)
    return steel_bolt(p.row.major_mm, p.row.pitch_mm or 1.0, p.head_v + p.begins_mm + p.row.major_mm / 2)


def _gravity(spec: HoseHangerSpec) -> float:
    try:
        return wood(spec.mount.wood.name).gravity
    except DataError:
        return GRAVITY_UNKNOWN


def _tie(spec: HoseHangerSpec) -> Springs:
    """Of nylon, round bar and tunnel floor."""
    mount = spec.mount
    round_mm = math.pi * ((mount.bar_mm or 0.0) + 2 * UNDER_MM)
    axial = strap_round(NYLON_MPA, mount.tie_wide_mm * mount.tie_thick_mm, round_mm)
    return Springs(axial, FRICTION_SHARE * axial)


def _band(plan: HangerPlan, spec: HoseHangerSpec) -> Springs:
    """Round both halves; along the pipe it holds by friction and by its groove."""
    round_mm = 2 * math.pi * (plan.sizes.out_r - GROOVE_MM)
    across = strap_round(STEEL_MPA, spec.clamp.band_mm * BAND_THICK_MM, round_mm)
    return Springs(FRICTION_SHARE * across, across)
