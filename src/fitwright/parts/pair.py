"""The two ends of an adapter as plans, before they have a place."""

from __future__ import annotations

from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.ends import EndPlan, end_shape
from fitwright.shapes.joint import JointShape
from fitwright.spec.models import AdapterSpec, End, Flange, ReducerSpec

FRAME_A = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
"""end_a: its mouth at the origin, inward = away."""


def plans(spec: AdapterSpec, wall: float, root_wall: float) -> tuple[EndPlan, EndPlan]:
    """Both ends, a flange without an opening of its own taking over the other end's passage."""
    slit = spec.slit if isinstance(spec, ReducerSpec) else None
    a, b = (
        EndPlan(
            end,
            key,
            wall,
            root_wall,
            spec.printer,
            lead_in_auto=f"{key}.{end.kind}.lead_in" in spec.defaulted,
            slit=slit,
        )
        for key, end in (("end_a", spec.end_a), ("end_b", spec.end_b))
    )
    open_a, open_b = _needs_opening(spec.end_a), _needs_opening(spec.end_b)
    if open_a and open_b:
        why = "two flanges cannot both take their opening from the other end"
        raise RefusalError("end_a.flange.opening", "none", "a diameter", why)
    if open_a:
        a = _with_opening(a, end_shape(b, FRAME_A))
    if open_b:
        b = _with_opening(b, end_shape(a, FRAME_A))
    return a, b


def _needs_opening(end: End) -> bool:
    return isinstance(end.joint, Flange) and end.joint.opening_mm is None


def _with_opening(plan: EndPlan, other: JointShape) -> EndPlan:
    passage = other.passage
    return replace(plan, opening_d=2 * other.passage_r_mm, opening=None if passage.is_round else passage.mirrored())


def placed(plan: EndPlan, frame: Frame) -> PlacedEnd:
    """The end's shape at its place."""
    return PlacedEnd(plan, end_shape(plan, frame), frame)
