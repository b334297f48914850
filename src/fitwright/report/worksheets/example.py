"""A real part to draw on a worksheet: built from YAML, its mesh and its bought parts cut by a plane."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from fitwright.drawing.hatch import Outline
from fitwright.report.surface import cut_loops
from fitwright.spec.load import load_text

if TYPE_CHECKING:
    from cadquery import Shape

    from fitwright.part import FitSurface, Part
    from fitwright.tessellation import Facets

CHORD_MM, ANGLE_RAD = 0.05, 0.2
"""Bought parts are meshed this finely: 0.02 mm on paper."""


@dataclass(frozen=True)
class Example:
    """A built part. `section` lies in the upright plane through end_a's axis: (away, up) [mm], seen from the right."""

    part: Part

    @cached_property
    def _facets(self) -> Facets:
        from fitwright.tessellation import body_facets

        return body_facets(self.part.bodies[0])

    @cached_property
    def section(self) -> list[Outline]:
        """The outlines of the part's cut."""
        return _cut(self._facets, (1.0, 0.0, 0.0), 0.0)

    def face(self, at_mm: float) -> list[Outline]:
        """The outlines of the part cut square to end_a's axis, so far [mm] from its mouth: (right, up)."""
        return _cut(self._facets, (0.0, 1.0, 0.0), at_mm)

    def bought(self, name: str) -> list[Outline]:
        """The cut of a bought part by its name (`end_a pipe`)."""
        return _cut(_meshed(self._stand_in(name)), (1.0, 0.0, 0.0), 0.0)

    def bought_face(self, name: str, at_mm: float) -> list[Outline]:
        """A bought part cut square to end_a's axis."""
        return _cut(_meshed(self._stand_in(name)), (0.0, 1.0, 0.0), at_mm)

    def fit(self, end: str) -> FitSurface:
        """The face of this end that meets something bought."""
        return next(fit for fit in self.part.bodies[0].fits if fit.joint == end)

    def _stand_in(self, name: str) -> Shape:
        return next(one.solid for one in self.part.stand_ins if one.name == name)


def built(text: str) -> Example:
    """The part that this YAML describes."""
    from fitwright.parts import BUILDERS

    (spec,) = load_text(text)
    return Example(BUILDERS[spec.part](spec))


def span(outlines: list[Outline], axis: int) -> tuple[float, float]:
    """Least and greatest coordinate [mm] of some outlines: axis 0 is across the paper, 1 up it."""
    values = [p[axis] for line in outlines for p in line]
    return min(values), max(values)


def reach(outlines: list[Outline], at: float) -> float:
    """How high [mm] the outlines reach at this place along the paper."""
    found = []
    for line in outlines:
        for (x0, y0), (x1, y1) in zip(line, (*line[1:], line[0]), strict=True):
            if min(x0, x1) <= at <= max(x0, x1):
                found.append(max(y0, y1) if x0 == x1 else y0 + (y1 - y0) * (at - x0) / (x1 - x0))
    return max(found)


def _meshed(solid: Shape) -> Facets:
    from fitwright.tessellation import facets

    return facets(solid, CHORD_MM, ANGLE_RAD)


def _cut(mesh: Facets, normal: tuple[float, float, float], at_mm: float) -> list[Outline]:
    """The outlines in the plane's own coordinates: (away, up) or (right, up)."""
    plane = np.array(normal)
    loops = cut_loops(np.asarray(mesh.vertices, dtype=np.float64), np.asarray(mesh.faces), plane, at_mm)
    axes = (1, 2) if normal[0] else (0, 2)
    found = [tuple((float(p[axes[0]]), float(p[axes[1]])) for p in loop) for loop in loops]
    return sorted(found, key=lambda line: (min(line), len(line)))
