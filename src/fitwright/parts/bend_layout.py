"""Length, offset and centreline of an offset adapter, or a refusal that names what would work."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.parts.bend_room import Room, least
from fitwright.place import direction
from fitwright.shapes.space_path import SpacePath
from fitwright.spec.models import OffsetAdapterSpec

WHERE_STEEP = "shortest with bends of one diameter or more"
WHERE_UPRIGHT = "shortest that prints at 45 deg with bends of one diameter or more"


@dataclass(frozen=True)
class Layout:
    """The room with its offset settled, the length [mm] mouth to mouth, the centreline, and why they are so."""

    room: Room
    length: float
    path: SpacePath
    why_length: str
    why_radius: str = "the largest that the length leaves"


def laid_out(spec: OffsetAdapterSpec, room: Room, steepest_rad: float) -> Layout:
    """Length and centreline; RefusalError names the key and the value that works."""
    bend = spec.bend_radius_mm
    if bend is not None and bend < room.tightest:
        found, allowed = f"{bend:.1f} mm", f"{room.tightest:.1f} mm or more"
        raise RefusalError("bend_radius", found, allowed, "a tighter bend folds into itself")
    if spec.offset is None and room.angle > 0:
        return _elbow(spec, room)
    if room.offset < 1e-9 and room.angle < 1e-9:
        raise RefusalError("offset", "no offset and no angle", "an offset, or part: reducer", "nothing is offset here")
    length, why = (spec.length_mm, "") if spec.length_mm is not None else _auto_length(room, steepest_rad, bend)
    path = room.path(length, bend)
    if path is None or not room.is_sound(path, length):
        raise _refused(room, length, path, bend)
    return Layout(room, length, path, why)


def _auto_length(room: Room, steepest_rad: float, bend: float | None) -> tuple[float, str]:
    """The shortest length that prints upright, or where none does the shortest whose bends are gentle."""
    radius = room.gentle if bend is None else min(room.gentle, bend)
    if room.angle <= steepest_rad + 1e-9:
        length = room.shortest(radius, steepest_rad, bend)
        if length is not None:
            return length, WHERE_UPRIGHT
    length = room.shortest(radius, math.pi, bend)
    if length is None:
        raise _no_length(room, "auto")
    return length, WHERE_STEEP


def _refused(room: Room, length: float, path: SpacePath | None, bend: float | None) -> RefusalError:
    shortest = room.shortest(room.tightest, math.pi, bend)
    if shortest is None:
        return _no_length(room, f"{length:.1f} mm")
    why = _too_tight(path, room.tightest)
    if shortest < length:  # there are lengths that work, below and above this one
        onward = least(lambda x: _works(room, x, bend), length)
        shortest = onward if onward is not None else shortest
    return RefusalError("length", f"{length:.1f} mm", f"{shortest + 0.05:.1f} mm or more, or auto", why)


def _works(room: Room, length: float, bend: float | None) -> bool:
    path = room.path(length, bend, quick=True)
    return path is not None and room.is_sound(path, length)


def _no_length(room: Room, length: str) -> RefusalError:
    """No length will do: the offset or the angle must change."""
    elbow, _, _ = room.elbow(room.gentle)
    found = f"{room.offset:.1f} mm with length {length}"
    allowed = f"auto (a plain elbow: {elbow.offset:.1f} mm {direction(room.turns)}), or a smaller angle"
    return RefusalError("offset", found, allowed, "no smooth line joins the two mouths, whatever the length")


def _too_tight(path: SpacePath | None, tightest: float) -> str:
    if path is None:
        return "no smooth line joins the two mouths in this length"
    if path.radius_mm < tightest:
        return (
            f"the bend would have a radius of {path.radius_mm:.1f} mm, and under {tightest:.1f} mm it folds into itself"
        )
    return "the bend would run into itself or into a joint"


def _elbow(spec: OffsetAdapterSpec, room: Room) -> Layout:
    """One arc; a length that is asked for is made up by a straight at end_a."""
    bend = spec.bend_radius_mm

    def works(radius: float) -> bool:
        made, length, path = room.elbow(radius)
        return not made.is_folded(path, length)

    radius = room.gentle if bend is None else bend
    if not works(radius):
        needed = least(works, radius)
        if needed is None:
            raise RefusalError(
                "angle", f"{spec.angle_deg:g} deg", "a smaller angle", "the two ends run into each other"
            )
        if bend is not None:
            found, allowed = f"{bend:.1f} mm", f"{needed + 0.05:.1f} mm or more, or auto"
            raise RefusalError("bend_radius", found, allowed, "the two ends run into each other")
        radius = needed + 0.05
    made, length, path = room.elbow(radius)
    if spec.length_mm is not None:
        if spec.length_mm < length - 1e-6:
            found, allowed = f"{spec.length_mm:.1f} mm", f"{length + 0.05:.1f} mm or more, or auto"
            raise RefusalError("length", found, allowed, f"the elbow's bend of radius {radius:.1f} mm needs more")
        made, length, path = room.elbow(radius, spec.length_mm - length)
    diameter = "one diameter of the passage" if radius <= room.gentle + 1e-9 else "as the ends need to clear each other"
    return Layout(made, length, path, "what one bend gives", diameter)
