"""Transitions between two sections in parallel planes, their wall by its true normal.

The passage is the developable surface that a sheet-metal worker would fold: points whose outward normals agree are
joined by straights, so corners become parts of oblique cones and sides stay flat. Along each of those straights the
surface has one and the same normal; so a wall of constant thickness is developable too, and is laid out exactly: its
outline in either end plane is where the straights of the shifted surface come through.

Beside the joints the wall is a little thicker all round (`root_wall`), as theirs is; it thins down over BLEND_MM.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from cadquery import Face, Solid
from numpy.typing import NDArray

from fitwright.arcs import Point
from fitwright.frame import Frame
from fitwright.section import Section, Span, loft_volume_mm3, spans
from fitwright.shapes.skins import Loop, arc_loop, closed, curve_loop, flat, skin

BLEND_MM = 3.0
EVEN = 1.01
"""A wall that would differ by less than this all round is made the same all round."""
CURVE_POINTS = 25
AREA_POINTS = 400
Curve = NDArray[np.float64]


@dataclass(frozen=True)
class Transition:
    """From section `a` at the frame's origin to `b`, `length_mm` along its axis, both in the frame's right and up."""

    a: Section
    b: Section
    length_mm: float
    breaks: tuple[float, ...] = ()
    """Angles [rad] at which it is cut besides, so that it meets its neighbours corner to corner."""

    @property
    def marks(self) -> list[Span]:
        """The turn, cut where an arc of either ends."""
        return spans(self.a, self.b, also=self.breaks)

    def slope(self, angle: float) -> float:
        """How far the side that faces this way leans outwards, as a tangent."""
        return (self.b.support(angle) - self.a.support(angle)) / self.length_mm

    def slopes(self) -> list[float]:
        """The slopes all round, at every flat side and along every corner."""
        return [self.slope(float(t)) for span in self.marks for t in np.linspace(*span, 33)]

    @property
    def steepest(self) -> float:
        """Tangent of the steepest side's angle to the axis."""
        return max(map(abs, self.slopes()))

    @property
    def flattest(self) -> float:
        """Tangent of the least steep side's angle to the axis."""
        return min(map(abs, self.slopes()))

    @property
    def passage_mm3(self) -> float:
        """Volume of the passage."""
        return loft_volume_mm3(self.a, self.b, self.length_mm)


def root_wall_mm(transition: Transition, wall_mm: float) -> float:
    """Wall in the section planes that is `wall_mm` by its normal on the steepest side."""
    return wall_mm * math.hypot(1.0, transition.steepest)


def passage(transition: Transition, frame: Frame) -> Solid:
    """The passage, solid."""
    near, far = _ends(transition, frame)
    return closed([*skin(near, far), flat(near), flat(far)], "transition's passage")


def tube(
    transition: Transition, frame: Frame, wall_mm: float, outsides: tuple[Section, Section]
) -> tuple[Solid, float]:
    """The transition's wall as one solid, and its volume [mm3] by integrating its sections.

    `wall_mm` thick by its normal; `outsides` are the outlines of the outside at both ends, which lie `root_wall_mm` or
    more out from the passage everywhere.
    """
    layers = _outside(transition, frame, wall_mm, outsides)
    inner = _ends(transition, frame)
    outer = [loop for loop, _ in layers]
    faces: list[Face] = [*skin(*inner), flat(outer[0], inner[0]), flat(outer[-1], inner[1])]
    for near, far in itertools.pairwise(outer):
        faces += skin(near, far)
    volume = _volume([curve for _, curve in layers], _stations(transition, len(layers)))
    return closed(faces, "transition"), volume - transition.passage_mm3


def _ends(transition: Transition, frame: Frame) -> tuple[Loop, Loop]:
    marks = transition.marks
    near = arc_loop(transition.a, marks, frame, 0.0)
    return near, arc_loop(transition.b, marks, frame, transition.length_mm)


def _stations(transition: Transition, count: int) -> list[float]:
    length = transition.length_mm
    return [0.0, length] if count == 2 else [0.0, BLEND_MM, length - BLEND_MM, length]


def _outside(
    transition: Transition, frame: Frame, wall_mm: float, outsides: tuple[Section, Section]
) -> list[tuple[Loop, list[Curve]]]:
    """The outside's outlines in space, from near to far, each with its curves as points."""
    marks, length = transition.marks, transition.length_mm
    ends = [
        (arc_loop(section, marks, frame, s), _dense(section, marks))
        for section, s in zip(outsides, (0.0, length), strict=True)
    ]
    root_mm = max(outsides[0].support(t) - transition.a.support(t) for span in marks for t in span)
    even = root_mm / (wall_mm * math.hypot(1.0, transition.flattest)) < EVEN
    if even or length < 3 * BLEND_MM:
        return ends
    middle = []
    for s in (BLEND_MM, length - BLEND_MM):
        loop = curve_loop(_walled(transition, wall_mm, s, CURVE_POINTS), frame, s)
        middle.append((loop, [np.array(c) for c in _walled(transition, wall_mm, s, AREA_POINTS)]))
    return [ends[0], *middle, ends[1]]


def _dense(section: Section, marks: Sequence[Span]) -> list[Curve]:
    return [np.array([section.arc_between(*m).at(float(t)) for t in np.linspace(*m, AREA_POINTS)]) for m in marks]


def _walled(transition: Transition, wall_mm: float, s_mm: float, count: int) -> list[list[Point]]:
    """Where the wall's outside comes through the plane at `s_mm`: a curve for each span."""
    curves = []
    for mark in transition.marks:
        a, b = transition.a.arc_between(*mark), transition.b.arc_between(*mark)
        angles = np.linspace(*mark, count)
        normal = np.column_stack([np.cos(angles), np.sin(angles)])
        near = np.array([a.x, a.y]) + a.radius_mm * normal
        run = (np.array([b.x, b.y]) + b.radius_mm * normal - near) / transition.length_mm
        slope = (run * normal).sum(axis=1)
        stretch = np.sqrt(1.0 + slope**2)
        # a point of the outside is a + wall x (normal - slope along the axis) / stretch; it is followed along its
        # straight (run, 1) to the plane
        outside = near + wall_mm * normal / stretch[:, None]
        depth = -wall_mm * slope / stretch
        at = outside + (s_mm - depth)[:, None] * run
        curves.append([(float(x), float(y)) for x, y in at])
    return curves


def _volume(layers: Sequence[Sequence[Curve]], stations: Sequence[float]) -> float:
    """Volume [mm3] between outlines in parallel planes, matching points joined by straights (prismoidal formula)."""
    rows = [np.concatenate(layer) for layer in layers]
    total = 0.0
    for near, far, s0, s1 in zip(rows, rows[1:], stations, stations[1:], strict=False):
        areas = [_area(near), _area((near + far) / 2), _area(far)]
        total += (s1 - s0) * (areas[0] + 4 * areas[1] + areas[2]) / 6
    return total


def _area(points: Curve) -> float:
    x, y = points[:, 0], points[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
