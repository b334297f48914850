"""The hole that a blank flange covers, and a flange's own outline against it, as the YAML says them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.outline import Outline, Point, circle, rectangle
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.outline import OutlineValue
from fitwright.spec.grammar.values import Context, Length
from fitwright.units import format_length

MARGIN_MM = 5.0
"""A flange overlaps what it covers by this much all round (common practice, no source)."""
CHORD_MM, SHARES = 0.02, 12
"""How closely points are taken along an outline: arcs by the chord, every side in so many parts."""
_SIDE = Length(10.0, 600.0)


class CoveredRectangle(Grammar):
    """A rectangular hole."""

    example: ClassVar[str] = "{width: 60, height: 40, corner: 5}"
    width: Annotated[float, _SIDE] = Field(description="Left to right, in the file's units.")
    height: Annotated[float, _SIDE] = Field(description="Bottom to top, in the file's units.")
    corner: Annotated[float, Length(0.0, 150.0)] = Field(
        0.0, description="Radius of the corners, in the file's units; 0 if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        most = min(self.width, self.height) / 2
        if self.corner > most:
            found, allowed = (format_length(x, context.units) for x in (self.corner, most))
            yield Fault(("corner",), found, f"at most {allowed}, half the shorter side")


class CoversKeys(Grammar):
    """The hole or port that the flange must cover, round the mouth's centre: round, a rectangle, or points."""

    example: ClassVar[str] = "{round: 62}"
    meant: ClassVar[Mapping[str, str]] = {
        "margin": "margin stands beside covers, one level further out",
        **dict.fromkeys(("diameter", "circle", "d"), "write round: the diameter"),
        **dict.fromkeys(("width", "height"), "write rectangle: {width: , height: }"),
    }
    round: Annotated[float | None, _SIDE] = Field(None, description="Diameter of a round hole, in the file's units.")
    rectangle: CoveredRectangle | None = Field(None, description="A rectangular hole; a map, in the file's units.")
    points: OutlineValue | None = Field(
        None, description="Any closed outline: its corners as places in order, in the file's units; arcs by `via`."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [key for key in ("round", "rectangle", "points") if getattr(self, key) is not None]
        if len(given) != 1:
            found = " and ".join(given) or "nothing"
            yield Fault(
                (given[1],) if given else (), found, "one of round, rectangle, points", f"such as {self.example}"
            )

    def outline(self) -> Outline:
        """What is covered."""
        if self.points is not None:
            return self.points
        if self.rectangle is not None:
            return rectangle(self.rectangle.width, self.rectangle.height, self.rectangle.corner)
        return circle(self.round or 0.0)


def least_cover(outer: Outline, covered: Outline) -> tuple[float, Point]:
    """By how much `outer` overlaps `covered` where it does so least [mm] (negative: it does not), and where."""
    found = [(outer.inside_by_mm(p), p) for p in _along(covered)]
    found += [(-covered.inside_by_mm(p), p) for p in _along(outer)]
    return min(found)


def _along(outline: Outline) -> list[Point]:
    """Corners, and points along the sides."""
    return outline.polyline(CHORD_MM) + [side.at(k / SHARES) for side in outline.sides for k in range(1, SHARES)]
