"""Whether a part makes sense as a whole: an open passage, room for both joints, holes clear of the opening."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from fitwright.section import SectionError
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.parts import AdapterKeys, OffsetAdapterKeys, ReducerKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.joints import End, Flange, Holes, HoseTail, Plain, Socket, Spigot
from fitwright.spec.size import Size
from fitwright.units import format_length

PASSAGE_MM = 10.0
"""The narrowest passage that still is one."""
LEAST_SLEEVE_MM = 0.8
LIP_OF_WALL = 0.5
"""A lead-in may take this much of the wall at the mouth."""


def part_faults(keys: AdapterKeys, ends: Mapping[str, End], wall_mm: float, context: Context) -> Iterator[Fault]:
    """What is wrong although each value by itself is well."""
    for name, end in ends.items():
        for fault in _end_faults(end, wall_mm, context):
            yield fault.under(name, end.kind)
    yield from _length_faults(keys, ends, context)
    if isinstance(keys, ReducerKeys) and keys.line == "nested":
        yield from _sleeve_faults(ends, context)


def _end_faults(end: End, wall_mm: float, context: Context) -> Iterator[Fault]:
    joint = end.joint
    if isinstance(joint, Flange):
        yield from _flange_faults(joint, wall_mm, context)
        return
    key, left = _passage(joint, wall_mm)
    if left < PASSAGE_MM:
        found = f"walls that leave a passage of {format_length(left, context.units)}"
        yield Fault(
            (key,), found, f"{format_length(PASSAGE_MM, context.units)} or more", THINNER.get(key, "a thinner wall")
        )
    if isinstance(joint, Socket | Spigot):
        lip = joint.wall_mm if isinstance(joint, Spigot) and joint.wall_mm else wall_mm
        lip += joint.flare_mm / LIP_OF_WALL if isinstance(joint, Socket) else 0.0
        if joint.lead_in_mm > LIP_OF_WALL * lip + 1e-9:
            most = format_length(LIP_OF_WALL * lip, context.units)
            found = format_length(joint.lead_in_mm, context.units)
            yield Fault(("lead_in",), found, f"at most {most}, half the wall", "a smaller lead_in or a thicker wall")


THINNER = {"bond": "a thinner wire or wall: the tail's wall grows by the depth of the wire's channel"}


def _passage(joint: Socket | Spigot | HoseTail | Plain, wall_mm: float) -> tuple[str, float]:
    """The key to change, and the narrowest passage [mm] that this joint leaves."""
    size = joint.size
    if isinstance(joint, Spigot):
        return "wall", _left_within(size, joint.wall_mm or wall_mm)
    if isinstance(joint, HoseTail):
        return "bond" if joint.bond else "wall", _left_within(
            size, joint.allowance_mm / 2 + max(joint.wall_mm, wall_mm)
        )
    if isinstance(joint, Socket):
        return "stop", _left_within(size, joint.stop_mm)
    return "inside", _left_within(size, 0.0)


def _left_within(size: Size, by_mm: float) -> float:
    """The narrowest that is left of a size [mm] this far further in all round."""
    if size.outline is None:
        narrowest = size.nominal_mm if size.further_mm is None else min(size.nominal_mm, size.further_mm)
        return narrowest - 2 * by_mm
    try:
        return size.outline.grown(-by_mm).least_width_mm if by_mm else size.outline.least_width_mm
    except SectionError:
        return 0.0


def _flange_faults(flange: Flange, wall_mm: float, context: Context) -> Iterator[Fault]:
    """Bolt holes clear the opening by a wall at least."""
    holes = flange.holes
    if holes is None:
        return
    if flange.opening is not None:
        yield from _beside_section(flange, holes, wall_mm, context)
        return
    nearest = min(math.hypot(p.right_mm, p.up_mm) for p in holes.points) - holes.hole_d_mm / 2
    need = (flange.opening_mm or 0.0) / 2 + wall_mm
    if flange.opening_mm is not None and nearest < need:
        key = "circle" if holes.circle_mm is not None else "points"
        found = f"a hole whose edge is {format_length(nearest, context.units)} from the centre"
        allowed = f"{format_length(need, context.units)} or more: half the opening and a wall"
        yield Fault(("holes", key), found, allowed, "holes further out, or a smaller opening")


def _beside_section(flange: Flange, holes: Holes, wall_mm: float, context: Context) -> Iterator[Fault]:
    assert flange.opening is not None
    away = flange.opening.distance([(p.right_mm, p.up_mm) for p in holes.points]) - holes.hole_d_mm / 2
    if float(away.min()) < wall_mm:
        found = f"hole {int(away.argmin()) + 1}, {format_length(float(away.min()), context.units)} from the opening"
        allowed = f"{format_length(wall_mm, context.units)} or more, a wall"
        key = "circle" if holes.circle_mm is not None else "points"
        yield Fault(("holes", key), found, allowed, "holes further out, or a smaller opening")


def _length_faults(keys: AdapterKeys, ends: Mapping[str, End], context: Context) -> Iterator[Fault]:
    if keys.length is None or (isinstance(keys, ReducerKeys) and keys.line == "nested"):
        return
    turn = math.cos(math.radians(keys.angle)) if isinstance(keys, OffsetAdapterKeys) else 1.0
    need = _reach(ends["end_a"]) + turn * _reach(ends["end_b"])
    if keys.length < need:
        found = format_length(keys.length, context.units)
        allowed = f"more than {format_length(need, context.units)}, or auto"
        yield Fault(("length",), found, allowed, "both joints must find room between the mouth faces")


def _reach(end: End) -> float:
    joint = end.joint
    if isinstance(joint, Flange):
        return joint.thickness_mm
    return joint.length_mm if isinstance(joint, Plain) else joint.depth_mm


def _sleeve_faults(ends: Mapping[str, End], context: Context) -> Iterator[Fault]:
    bore, outside = ends["end_a"].joint, ends["end_b"].joint
    if any(getattr(getattr(joint, "size", None), "outline", None) is not None for joint in (bore, outside)):
        hint = "coaxial or level lead one section over to another"
        yield Fault(("line",), "nested with an end that is not round", "nested between two round ends", hint)
    elif isinstance(bore, Socket) and isinstance(outside, Spigot | HoseTail):
        left = (outside.size.nominal_mm - bore.size.nominal_mm) / 2
        if left < LEAST_SLEEVE_MM:
            sizes = " and ".join(format_length(j.size.nominal_mm, context.units) for j in (bore, outside))
            found = f"{sizes}, which leave a sleeve of {format_length(left, context.units)}"
            allowed = f"{format_length(LEAST_SLEEVE_MM, context.units)} or more between bore and outside"
            yield Fault(("end_a", "socket"), found, allowed, "end_b must be larger than end_a by two walls")
