"""Stand-ins of what the frame and the coupling are put together with: pin, nuts, threaded rods, room for spanners."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.spanners import spanner
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError
from fitwright.frame import Frame
from fitwright.part import StandIn
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import (
    PAST_NUT_MM,
    along_y,
    along_z,
    corners_mm,
    nut,
    nut_on_washer,
    screw_through,
    spanner_swing,
)
from fitwright.shapes.solids import cylinder
from fitwright.spec.models import GateBracketSpec


def coupling_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """What the coupling holds: the pin with head, washers and nut, the captive nut, the jam nut. All of it moves."""
    at = plan.coupling
    late, d = plan.ends.blade_shut_mm - at.edge_y, thread_named(at.rod_thread).major_mm
    if at.pin is not None:
        axis = along_z(0.0, at.pin_y + late, at.high_mm / 2, -1.0)
        pin = screw_through(axis, fastener(at.pin), at.high_mm)
        yield StandIn("coupling pin", pin, "coupling", None, moving=True)
    rod = along_y(plan.axis_x_mm, late)
    spare = (at.nut_y1 - at.nut_y0 - at.nut_m_mm) / 2
    captive = nut(rod, at.nut_af_mm, d, at.nut_y0 + spare, at.nut_m_mm)
    yield StandIn("coupling nut", captive, "coupling", None, moving=True)
    jam_y = at.shoulder_y - at.jam_m_mm
    jam = nut(rod, corners_mm(at.nut_af_mm), d, jam_y, at.jam_m_mm)
    yield StandIn("coupling jam nut", jam, "coupling", None, moving=True)
    axis = along_y(plan.axis_x_mm, jam_y + late)
    yield from _spanner("coupling jam nut", axis, at.nut_af_mm, at.jam_m_mm, moving=True)


def frame_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """Threaded rods with their nuts and washers: one nut caught in the yoke, one before it, two at the nose plate."""
    if plan.frame.kind != "rods" or spec.layout != "in_line":
        return
    row, at = fastener(plan.frame.rod), plan.frame
    for side, x in (("left", -at.rail_x), ("right", at.rail_x)):
        s1 = plan.nose_face_mm + (row.washer_h_mm or 0.0) + at.rod_nut_m_mm + PAST_NUT_MM + spec.setting_mm
        yield StandIn(f"frame rod {side}", cylinder(along_y(x, 0.0), at.rod_d_mm / 2, at.yoke_y0, s1), "frame", None)
        caught = nut(along_y(x, 0.0), at.rod_nut_af_mm, at.rod_d_mm, at.yoke_y0 + 0.25, at.rod_nut_m_mm)
        yield StandIn(f"frame nut in the yoke {side}", caught, "frame", None)
        for name, frame in _seats(plan, x):
            yield from _nut(f"frame nut {name} {side}", frame, row)


def _seats(plan: GatePlan, x: float) -> tuple[tuple[str, Frame], ...]:
    """Where the open nuts bear: on the yoke's outer face, and on both faces of the nose plate's web."""
    at, face = plan.frame, plan.nose_face_mm
    return (
        ("before the yoke", along_y(x, at.yoke_y1)),
        ("inside the nose plate", along_y(x, face - at.web, -1.0)),
        ("outside the nose plate", along_y(x, face)),
    )


def _nut(name: str, frame: Frame, row: FastenerRow) -> Iterator[StandIn]:
    solid, _ = nut_on_washer(frame, row, 0.0)
    yield StandIn(name, solid, "frame", None)
    high = row.washer_h_mm or 0.0
    axis = Frame(frame.point(0.0, high, 0.0), frame.inward, frame.right)
    yield from _spanner(name, axis, row.nut_af_mm or 0.0, row.nut_m_mm or 0.0)


def _spanner(name: str, axis: Frame, af_mm: float, nut_m_mm: float, moving: bool = False) -> Iterator[StandIn]:
    """Room for one stroke of a spanner no thicker than the nut is high; none where no spanner fits."""
    try:
        row = spanner(af_mm)
    except DataError:
        return
    swing = spanner_swing(axis, row, min(row.head_thick_mm, nut_m_mm), 0.0)
    yield StandIn(f"{name} spanner", swing, name.split()[0], None, moving=moving, turns_about=axis)
