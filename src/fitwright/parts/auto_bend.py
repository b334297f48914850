"""Half angle and bend radius of an offset adapter by the air, where both are left to us and the larger part fits."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from functools import cache

from fitwright.airway import Leg
from fitwright.errors import RefusalError
from fitwright.parts.auto_air import HALF_ANGLES_DEG, Choice, chosen, is_ours
from fitwright.parts.bend_layout import Layout
from fitwright.spec.models import OffsetAdapterSpec, Printer

RADII_OF_D = (1.25, 1.5, 2.0)
"""Bend radii beside the usual one diameter of the passage: beyond two, tables of elbows gain next to nothing."""
STEEPEST_DEG = 45.0
Tried = Callable[[float, float], tuple[Layout, tuple[Leg, ...]]]
"""Half angle [rad] and gentle radius [diameters] -> how it is laid out, and its legs between the joints."""


def sizes_by_air(spec: OffsetAdapterSpec, usual_deg: float, tried: Tried) -> tuple[float, float, dict[str, str]]:
    """Half angle [rad], gentle radius [diameters], and for the report why they were taken (empty without air)."""
    angle = math.radians(spec.half_angle_deg or usual_deg)
    if not is_ours(spec):
        return angle, 1.0, {}
    legs = _legs(spec, tried)
    first = legs(angle, 1.0)
    if first is None:
        return angle, 1.0, {}
    assert spec.air is not None
    why: dict[str, str] = {}
    of_d, told = 1.0, spec.length_mm is not None and spec.offset is not None
    if spec.bend_radius_mm is None and not told:
        radius = chosen(spec.air, 1.0, RADII_OF_D, lambda d: legs(angle, d))
        of_d, why["bend_radius"] = radius.value, radius.words("D", spec.units)
    if spec.half_angle_deg is None and any(leg.kind == "cone" for leg in first):
        slope = chosen(spec.air, usual_deg, HALF_ANGLES_DEG, lambda deg: legs(math.radians(deg), of_d))
        angle, why["half_angle"] = math.radians(slope.value), _angle_words(slope, spec)
    return angle, of_d, why


def _angle_words(slope: Choice, spec: OffsetAdapterSpec) -> str:
    return f"{slope.value:g} deg ({slope.words('deg', spec.units)})"


def _legs(spec: OffsetAdapterSpec, tried: Tried) -> Callable[[float, float], tuple[Leg, ...] | None]:
    """The legs that two sizes make; None where they are refused or the part no longer fits the printer."""

    @cache
    def legs(angle: float, of_d: float) -> tuple[Leg, ...] | None:
        try:
            layout, made = tried(angle, of_d)
        except RefusalError:
            return None
        return made if _fits(layout, spec.printer) else None

    return legs


def _fits(layout: Layout, printer: Printer) -> bool:
    """Whether it stands on the bed, or lies on it where it cannot stand without support."""
    right, away, up = layout.room.box_mm(layout.path, layout.length)
    bed = printer.bed_x_mm, printer.bed_y_mm, printer.bed_z_mm
    steepest = max(layout.room.angle, layout.path.steepest_rad)
    stands = steepest <= math.radians(STEEPEST_DEG) + 1e-9
    ways = ((right, up, away), (up, right, away)) if stands else tuple(itertools.permutations((right, away, up)))
    return any(all(size <= room for size, room in zip(way, bed, strict=True)) for way in ways)
