"""What a helical ridge means for the declared features: its own tool, and the passage that goes on inside it."""

from __future__ import annotations

from collections.abc import Sequence

from cadquery import Shape, Solid

from fitwright.errors import BuildError
from fitwright.frame import Frame
from fitwright.shapes.ridge import INSET_MM, RidgeSizes, ridge_core
from fitwright.shapes.solids import boxes_meet, cut, ring


def ridge_feature(ridge: RidgeSizes, frame: Frame, name: str, cuts: Sequence[Shape]) -> Shape:
    """The ridge's tool for the features check, less what is cut through it; BuildError where nothing is left."""
    core = ridge_core(ridge, frame, name)
    met = [tool for tool in cuts if boxes_meet(core, tool)]
    if not met:
        return core
    left = core.cut(*met)
    if not left.Solids():
        raise BuildError(f"{name}: nothing is left of the ridge")
    return left


def without_ridge(passage: Solid, ridge: RidgeSizes | None, frame: Frame) -> Solid:
    """The passage's cutter without the room round an inner ridge, in which the ridge stands."""
    if ridge is None or ridge.side > 0:
        return passage
    half = ridge.section.foot_mm / 2
    s0, s1 = ridge.s0_mm - half, ridge.s1_mm + half
    low, high = ridge.crest_r_mm - INSET_MM, ridge.radius_mm + 1.0
    return cut(passage, [ring([(s0, low), (s0, high), (s1, high), (s1, low)], frame)], "passage inside the ridge")
