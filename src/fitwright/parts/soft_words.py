"""What the report says of a soft joint that grips by its own stretch."""

from __future__ import annotations

from fitwright.parts.ends import PlacedEnd
from fitwright.physics.stretch import RELAXED, grip_n
from fitwright.spec.models import AdapterSpec, Socket, Spigot
from fitwright.spec.printed import excess_mm
from fitwright.units import format_force, format_length


def stretch_words(end: PlacedEnd, spec: AdapterSpec) -> str:
    """How much tighter it is made, what it holds, and how to put it on."""
    joint = end.plan.end.joint
    assert end.shape.fit is not None and isinstance(joint, Socket | Spigot)
    s0, d0, s1, d1 = end.shape.fit
    tighter = -((joint.allowance_mm or 0.0) + excess_mm(joint, spec.printer))
    share = tighter / min(d0, d1)
    wall = (joint.wall_mm if isinstance(joint, Spigot) else None) or end.plan.wall_mm
    new = grip_n(share, spec.material.modulus_mpa, wall, s1 - s0)
    word = "larger than what it goes into" if isinstance(joint, Spigot) else "smaller than what it goes over"
    push, hold = (format_force(float(f"{force:.2g}"), spec.units) for force in (new, RELAXED * new))
    return (
        f"by its own stretch: made {format_length(tighter, spec.units)} ({100 * share:.1f} %) {word}; roughly {push} "
        f"push it on, less wet with soapy water, and in time it holds roughly {hold}"
    )
