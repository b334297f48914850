"""Whether a plate's outline, openings and holes leave enough between them. Plain numbers, at the finished sizes [mm].

Webs in sheet: as wide as the sheet is thick and 1 mm at least, as who cuts sheet asks for (common practice, no source).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations

from fitwright.flat import FlatHole
from fitwright.outline import Outline, Point
from fitwright.spec.faults import Fault, Path, Step
from fitwright.spec.plate import FlangePlateSpec
from fitwright.spec.plate_holes import hole_ends, pattern_holes
from fitwright.units import format_length

EDGE, BRITTLE_EDGE = 1.5, 2.0
"""Hole centre to edge in hole diameters, at least: prints, metal, tough plastics; what splits at its holes (common
practice, no source)."""
LEAST_WEB_MM = 1.0
GASKET_WEB_MM = 2.0
"""A narrower strip of gasket tears when it is laid on (common practice, no source)."""
CHORD_MM = 0.02
SLACK_MM = 1e-6
Say = Callable[[float], str]


@dataclass(frozen=True)
class _Hole:
    """A hole with the name and key by which it is told of, and the room that its washer takes."""

    hole: FlatHole
    name: str
    key: Path
    washer_mm: float


def least_web_mm(spec: FlangePlateSpec) -> float:
    """What must be left between two cuts [mm]: a wall of a print, of a sheet its thickness, 1 mm at least."""
    if spec.plate == "printed":
        return spec.wall_mm
    thick = spec.sheet.thickness_mm if spec.sheet is not None else 0.0
    return max(LEAST_WEB_MM, thick)


def edge_rule(spec: FlangePlateSpec) -> float:
    """Hole centre to edge in hole diameters, at least; 0 where only a gasket is made, which bears nothing."""
    if spec.plate is None:
        return 0.0
    brittle = spec.sheet is not None and spec.sheet.brittle
    return BRITTLE_EDGE if brittle else EDGE


def plate_faults(spec: FlangePlateSpec, outline: Outline) -> Iterator[Fault]:
    """Everything that stands too near to something else; one fault each opening, hole or pair."""
    say: Say = partial(format_length, units=spec.units)
    holes = list(_holes(spec))
    web = least_web_mm(spec)
    yield from _openings(spec, outline, web, say)
    judged = (_at_edge(one, spec, outline, web, say) or _at_openings(one, spec, web, say) for one in holes)
    yield from _first_each([fault for fault in judged if fault is not None])
    yield from _first_each(list(_pairs(holes, web, say)))


def _first_each(faults: list[Fault]) -> Iterator[Fault]:
    """The first of each pattern, and how many more there are."""
    for path in dict.fromkeys(fault.path for fault in faults):
        of_this = [fault for fault in faults if fault.path == path]
        more = f", and {len(of_this) - 1} more" if len(of_this) > 1 else ""
        yield replace(of_this[0], found=of_this[0].found + more)


def _holes(spec: FlangePlateSpec) -> Iterator[_Hole]:
    several = len(spec.patterns) > 1
    for k, pattern in enumerate(spec.patterns):
        of = f" of pattern {k + 1}" if several else ""
        path: Path = tuple(_steps(pattern.key))
        for n, hole in enumerate(pattern_holes(pattern)):
            washer = pattern.holes.washer_d_mm if spec.plate is not None else 0.0
            yield _Hole(hole, f"hole {n + 1}{of}", path, washer)


def _steps(key: str) -> Iterator[Step]:
    """`openings[2]` as the path that faults carry."""
    for word in key.split("."):
        name, _, index = word.partition("[")
        yield name
        if index:
            yield int(index.rstrip("]")) - 1


def _openings(spec: FlangePlateSpec, outline: Outline, web: float, say: Say) -> Iterator[Fault]:
    for one in spec.openings:
        left = _inside_by(one.outline, outline)
        if left < web - SLACK_MM:
            found = f"{one.words}, {_to_edge(left, say)}"
            hint = "a larger outline, or a smaller opening"
            yield Fault(tuple(_steps(one.key)), found, f"{say(web)} or more left to the edge", hint)
    for a, b in combinations(spec.openings, 2):
        left = gap_mm(a.outline, b.outline)
        if left < web - SLACK_MM:
            found = f"{b.words}, {_apart(left, say)} {a.words}"
            allowed = f"{say(web)} or more between two openings"
            yield Fault(tuple(_steps(b.key)), found, allowed, "move one, or make them one opening")


def _at_edge(one: _Hole, spec: FlangePlateSpec, outline: Outline, web: float, say: Say) -> Fault | None:
    rule, d = edge_rule(spec), one.hole.d_mm
    need = max(rule * d, d / 2 + web)
    edge = min(outline.inside_by_mm(p) for p in hole_ends(one.hole))
    if edge >= need - SLACK_MM:
        return None
    words = f"{rule:g} hole diameters{_splits(spec)}" if rule * d >= d / 2 + web else f"{say(web)} of web"
    side = f"{say(edge)} from its centre to the edge" if edge > 0 else "outside the outline"
    return Fault(one.key, f"{one.name}, {side}", f"{say(need)} or more ({words})", "a larger outline, or holes in")


def _splits(spec: FlangePlateSpec) -> str:
    return f": {spec.sheet.words} splits at its holes" if spec.sheet is not None and spec.sheet.brittle else ""


def _at_openings(one: _Hole, spec: FlangePlateSpec, web: float, say: Say) -> Fault | None:
    d = one.hole.d_mm
    brittle = spec.plate is not None and edge_rule(spec) == BRITTLE_EDGE
    need, words = max(
        (d / 2 + web, f"{say(web)} of web"),
        (one.washer_mm / 2, "room for the washer"),
        (BRITTLE_EDGE * d if brittle else 0.0, f"2 hole diameters{_splits(spec)}"),
    )
    for opening in spec.openings:
        away = min(-opening.outline.inside_by_mm(p) for p in hole_ends(one.hole))
        if away < need - SLACK_MM:
            where = f"{say(away)} from its centre to {opening.words}" if away > 0 else f"in {opening.words}"
            hint = "holes further out, or a smaller opening"
            return Fault(one.key, f"{one.name}, {where}", f"{say(need)} or more ({words})", hint)
    return None


def _pairs(holes: list[_Hole], web: float, say: Say) -> Iterator[Fault]:
    for a, b in combinations(holes, 2):
        need = max((a.hole.d_mm + b.hole.d_mm) / 2 + web, (a.washer_mm + b.washer_mm) / 2)
        apart = min(math.dist(p, q) for p in hole_ends(a.hole) for q in hole_ends(b.hole))
        if apart < need - SLACK_MM:
            found = f"{b.name}, {say(apart)} from {a.name}, centre to centre"
            yield Fault(b.key, found, f"{say(need)} or more: a web and room for both washers", "holes further apart")


def gasket_faults(outline: Outline, openings: tuple[Outline, ...], holes: tuple[FlatHole, ...]) -> Iterator[str]:
    """What the gasket leaves too little of, in words; `openings` and `holes` are the gasket's own, larger ones."""
    for opening in openings:
        if (left := _inside_by(opening, outline)) < GASKET_WEB_MM:
            yield f"{max(left, 0.0):.1f} mm between an opening and the edge"
    for one, other in combinations(openings, 2):
        if (left := gap_mm(one, other)) < GASKET_WEB_MM:
            yield f"{max(left, 0.0):.1f} mm between two openings"
    for hole in holes:
        ends = list(hole_ends(hole))
        to_edge = min(outline.inside_by_mm(p) for p in ends) - hole.d_mm / 2
        beside = [min(-o.inside_by_mm(p) for p in ends) - hole.d_mm / 2 for o in openings]
        if min([to_edge, *beside]) < GASKET_WEB_MM:
            yield f"{max(min([to_edge, *beside]), 0.0):.1f} mm beside a bolt hole"


def gap_mm(a: Outline, b: Outline) -> float:
    """Least distance [mm] of two outlines that lie outside each other; 0 or less where they meet."""
    to_a = min(-a.inside_by_mm(p) for p in _points(b))
    return min(to_a, min(-b.inside_by_mm(p) for p in _points(a)))


def _inside_by(inner: Outline, outer: Outline) -> float:
    """How far an outline stays inside another [mm]; 0 or less where it does not."""
    within = min(outer.inside_by_mm(p) for p in _points(inner))
    return min(within, min(-inner.inside_by_mm(p) for p in _points(outer)))


def _points(outline: Outline) -> list[Point]:
    return outline.polyline(CHORD_MM)


def _to_edge(left: float, say: Say) -> str:
    return f"{say(left)} from the edge" if left > 0 else "which meets the edge or lies outside"


def _apart(left: float, say: Say) -> str:
    return f"{say(left)} from" if left > 0 else "which meets"
