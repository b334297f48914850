"""What an adapter bears: hands, the hose's pull, the band's squeeze, suction; on which faces, held at which.

A soft part is left out: it gives way instead of breaking (what it stretches is judged with its fit), and small strains,
which the strength check reckons with, are not what happens to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from fitwright.loads import LoadCase, LoadFace
from fitwright.part import Part
from fitwright.parts.adapter_load_cases import pushed, squeezed, sucked
from fitwright.parts.adapter_load_faces import Bearing, bearing
from fitwright.parts.adapter_load_halves import halves
from fitwright.parts.adapter_load_walls import Length, flat_walls
from fitwright.parts.assembly import PlacedEnd
from fitwright.spec.air_run import suction_of
from fitwright.spec.models import AdapterSpec, ReducerSpec
from fitwright.spec.suction import Suction
from fitwright.units import Units


def loaded(part: Part, spec: AdapterSpec, ends: tuple[PlacedEnd, PlacedEnd], lengths: Sequence[Length] = ()) -> Part:
    """The part with its faces, cases and supports declared; none where it is soft.

    `lengths`: the passage, length by length, for its flat walls.
    """
    if spec.material.soft:
        why = f"not reckoned: {spec.material.name} is soft and gives way; what it stretches is judged with its fit"
        return replace(part, facts={**part.facts, "strength": why})
    if part.seams:
        return halves(part, spec, ends, lengths)
    body = part.bodies[0].name
    sides = bearing(ends[0], body), bearing(ends[1], body)
    pull = suction_of(spec)
    walls = flat_walls(lengths, body, pull.shut_pa)
    faces = tuple(face for side in sides for face in side.faces) + walls
    cases = (*_cases(sides, _backed(spec)), *_suction(walls, sides, pull, spec.units))
    return replace(part, load_faces=faces, loads=cases, supports=tuple(s for side in sides for s in side.supports))


def _backed(spec: AdapterSpec) -> bool:
    """Whether a pipe stands in the sleeve under its band, or a slit lets it close: the band presses on that."""
    return isinstance(spec, ReducerSpec) and (spec.line == "nested" or spec.slit is not None)


def _holding(sides: Sequence[Bearing]) -> list[int]:
    """The ends that may hold the part: a hose holds nothing, unless there are hoses at both."""
    stiff = [k for k, side in enumerate(sides) if not side.hose]
    return stiff or [0, 1]


def _cases(sides: tuple[Bearing, Bearing], backed: bool) -> Iterator[LoadCase]:
    for holding in _holding(sides):
        yield from pushed(sides[1 - holding], sides[holding].held)
    if not backed:
        for k, side in enumerate(sides):
            yield from squeezed(side, sides[1 - k].held)


def _suction(
    walls: Sequence[LoadFace], sides: tuple[Bearing, Bearing], pull: Suction, units: Units
) -> Iterator[LoadCase]:
    held = sides[_holding(sides)[0]].held
    for wall in walls:
        yield from sucked(wall, held, pull, units)
