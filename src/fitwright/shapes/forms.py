"""What a half-profile is carried round: a circle, or the outline of a rectangular, oval or given section.

A half-profile's `r` is a radius on round joints. On others it is half the shorter side: the outline at `r` is the
base outline grown by `r - base_r_mm`, so that every wall, gap and slope is the same all round.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.section import Section, circle, loft_volume_mm3
from fitwright.shapes import solids
from fitwright.shapes.profile import Point, volume_mm3
from fitwright.shapes.skins import profile_solid


@dataclass(frozen=True)
class Form:
    """Round (`base` None), or the outline that a profile follows at r = `base_r_mm`."""

    base: Section | None = None
    base_r_mm: float = 0.0
    breaks: tuple[float, ...] = ()
    """Angles [rad] at which every outline is cut besides its own, so that pieces meet corner to corner."""

    def at(self, r: float) -> Section:
        """The outline at this r; raises SectionError where nothing is left of it."""
        return circle(2 * r) if self.base is None else self.base.grown(r - self.base_r_mm)

    def r_of(self, point: tuple[float, float]) -> float:
        """The r of the outline that runs through a point (right, up) [mm]."""
        if self.base is None:
            return math.hypot(*point)
        return self.base_r_mm + float(self.base.distance([point])[0])

    def ring(self, line: Sequence[Point], frame: Frame) -> Solid:
        """A closed (s, r) polygon, clear of the axis, carried once round."""
        if self.base is None:
            return solids.ring(line, frame)
        return profile_solid(list(line), [self.at(r) for _, r in line], frame, "ring", self.breaks)

    def full(self, line: Sequence[Point], frame: Frame) -> Solid:
        """The solid between a half-profile and its axis."""
        if self.base is None:
            return solids.revolve(line, frame)
        points = [(line[0][0], 0.0), *line, (line[-1][0], 0.0)]
        return profile_solid(points, [None, *(self.at(r) for _, r in line), None], frame, "passage", self.breaks)

    def volume_mm3(self, line: Sequence[Point]) -> float:
        """Closed-form volume of `full(line)`."""
        if self.base is None:
            return volume_mm3(line)
        runs = [(a, b) for a, b in itertools.pairwise(line) if b[0] - a[0] > 1e-9]
        return sum(loft_volume_mm3(self.at(a[1]), self.at(b[1]), b[0] - a[0]) for a, b in runs)


ROUND = Form()
