"""A closed outline as the YAML says it: a list of places, each reached by a straight or by an arc through a point."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, gather, under
from fitwright.spec.grammar.places import PlaceKeys, PlaceValue
from fitwright.spec.grammar.values import Context
from fitwright.spec.outline import LEAST_SAGITTA_MM, Outline, Point, Side, through
from fitwright.units import format_length

LEAST_SIDE_MM = 0.1
"""Two corners nearer than this are a slip of the keys."""
MOST_POINTS = 60


class OutlinePoint(PlaceKeys):
    """A corner of an outline, and how the side to it runs."""

    example: ClassVar[str] = "{right: 20, up: 10, via: {right: 26, up: 0}}"
    via: PlaceValue | None = Field(
        None,
        description="A point on the arc that leads here, as a place, in the file's units; a straight if absent.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.model_fields_set == {"via"}:
            yield Fault((), "via without a place", f"a place and via, such as {self.example}")
        yield from super().sense(context)


def read_outline(value: object, context: Context) -> Outline:
    """The outline through a list of corners; FaultError where a side is none, or two cross."""
    if not isinstance(value, list):
        raise FaultError([Fault((), shown(value), f"a list of places such as {OutlinePoint.example}")])
    points: list[OutlinePoint] = gather(
        [under((k,), partial(OutlinePoint.read, one, context)) for k, one in enumerate(value)]
    )
    arcs = sum(p.via is not None for p in points)
    if len(points) > MOST_POINTS or len(points) < (2 if arcs else 3):
        allowed = f"3 to {MOST_POINTS} points, or 2 with an arc between them"
        raise FaultError([Fault((), f"{len(points)} points", allowed)])
    outline = through([_at(p) for p in points], [_via(p) for p in points])
    _check_sides(outline, context)
    _check_crossing(outline, context)
    return outline


def side_name(outline: Outline, index: int) -> str:
    """A side in the words of the YAML: `the side from point 2 to point 3`."""
    return f"the side from point {index + 1} to point {(index + 1) % len(outline.sides) + 1}"


def _at(point: OutlinePoint) -> Point:
    place = point.place()
    return place.right_mm, place.up_mm


def _via(point: OutlinePoint) -> Point | None:
    return (point.via.right_mm, point.via.up_mm) if point.via is not None else None


def _check_sides(outline: Outline, context: Context) -> None:
    """Every side has a length, every arc leaves its chord."""
    faults = []
    for k, side in enumerate(outline.sides):
        at = (k + 1) % len(outline.sides)
        if math.dist(side.start, side.end) < LEAST_SIDE_MM:
            least = format_length(LEAST_SIDE_MM, context.units)
            hint = "the outline closes by itself: leave the repeated first point out" if at == 0 else "delete one"
            faults.append(Fault((at,), f"the same place as point {k + 1}", f"places {least} apart or more", hint))
        elif side.via is not None and (wrong := _flat(side)):
            faults.append(Fault((at, "via"), wrong, "a point beside that line", "without via the side is straight"))
    if faults:
        raise FaultError(faults)


def _flat(side: Side) -> str:
    """What is wrong with an arc's middle point, or nothing."""
    assert side.via is not None
    if min(math.dist(side.via, side.start), math.dist(side.via, side.end)) < LEAST_SAGITTA_MM:
        return "an end of the arc itself"
    return "a point on the straight line between its ends" if abs(side.sagitta_mm) < LEAST_SAGITTA_MM else ""


def _check_crossing(outline: Outline, context: Context) -> None:
    found = outline.fault()
    if found is None:
        return
    i, j, (right, up) = found
    one, other = side_name(outline, i), side_name(outline, j)
    where = f"right {format_length(right, context.units)}, up {format_length(up, context.units)}"
    path = ((j + 1) % len(outline.sides),)
    hint = "list the points in the order in which you meet them, going round once"
    raise FaultError([Fault(path, f"{one} meets {other} at {where}", "sides that meet at their ends only", hint)])


OutlineValue = Annotated[Outline, Forms(read_outline, list[OutlinePoint])]
