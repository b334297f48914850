"""The airway between the joints of an offset adapter: what leads over, straights and bends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.airway import Leg, Station, against
from fitwright.parts.airway import airway, cone, straight
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.bend_section import STATIONS, BendSection
from fitwright.section import Section
from fitwright.shapes.space_path import SpacePath


@dataclass(frozen=True)
class Lead:
    """What leads over between a joint's section and the bend's: its length [mm], 0 for none, and steepest slope."""

    length_mm: float
    half_angle_rad: float

    def leg(self, key: str, sizes: tuple[Section, Section], at: tuple[Station, ...]) -> Leg:
        """From the joint's root to the bend."""
        return cone(f"cone at {key}", sizes, self.length_mm, math.tan(self.half_angle_rad), at)


def bent_airway(
    ends: tuple[PlacedEnd, PlacedEnd], lead: Lead, path: SpacePath, bend: BendSection, stations: Sequence[Station]
) -> tuple[Leg, ...]:
    """All legs from end_a to end_b; `stations` are the part's own, in order."""
    a, b = ends
    return airway(a, between((a.shape.passage, b.shape.passage), lead, path, bend, stations), b)


def between(
    passages: tuple[Section, Section],
    lead: Lead,
    path: SpacePath,
    bend: BendSection,
    stations: Sequence[Station] = (),
) -> tuple[Leg, ...]:
    """The legs from root to root, between these passages of the two joints."""
    has_lead = lead.length_mm > 1e-9
    groups = _groups(stations, len(path.runs) + has_lead)
    if not has_lead:
        return tuple(_runs(path, bend, groups))
    if bend.of_a:
        led = lead.leg("end_b", (passages[1], bend.passage), groups[-1][::-1])
        return (*_runs(path, bend, groups[:-1]), *against([led]))
    return (lead.leg("end_a", (passages[0], bend.passage), groups[0]), *_runs(path, bend, groups[1:]))


def _groups(stations: Sequence[Station], count: int) -> list[tuple[Station, ...]]:
    """The stations of each leg; none where the part is not built yet."""
    return [tuple(stations[k * STATIONS : (k + 1) * STATIONS]) for k in range(count)]


def _runs(path: SpacePath, bend: BendSection, groups: Sequence[tuple[Station, ...]]) -> Iterator[Leg]:
    passage = bend.passage
    area, diameter = passage.area_mm2, passage.hydraulic_d_mm
    number, since = 0, None
    for run, at in zip(path.runs, groups, strict=True):
        if not run.turn_rad:
            yield straight("straight", passage, run.length_mm, at)
            since = None if since is None else since + run.length_mm
            continue
        number += 1
        yield Leg(
            f"bend {number}",
            "bend",
            (area, area),
            (diameter, diameter),
            length_mm=run.length_mm,
            angle_deg=math.degrees(run.turn_rad),
            radius_mm=run.radius_mm,
            follows_mm=since,
            sections=at,
        )
        since = 0.0
