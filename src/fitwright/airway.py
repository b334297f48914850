"""What the air goes through in a part, leg by leg: plain numbers, no kernel."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from fitwright.frame import Frame

Kind = Literal["straight", "cone", "bend", "step", "mitre", "hose", "entry", "start"]


@dataclass(frozen=True)
class Station:
    """A place along the passage: `frame` has its origin on the centreline and its axis along it."""

    frame: Frame
    area_mm2: float
    """Area of the passage that was meant there."""


@dataclass(frozen=True)
class Leg:
    """One leg of the passage, in the order from end_a to end_b.

    Areas [mm2] and hydraulic diameters (4 A / perimeter) [mm] at its beginning and end. `cone`: a gradual change over
    `length_mm` whose steepest line makes `half_angle_deg` with the axis. `step`: sudden (`facing` True: an edge
    faces the flow when it goes from end_a to end_b). `bend`: `angle_deg` at the centreline's `radius_mm`; `mitre`: the
    same angle without a radius. `hose`: `length_mm` long, its kind in `row`. `entry`: where the run's air comes in from
    the room, by what is in `row`; `start`: it is brought from rest to its speed. `follows_mm`: how far the bend before
    it lies.
    """

    name: str
    kind: Kind
    area_mm2: tuple[float, float]
    hydraulic_mm: tuple[float, float]
    length_mm: float = 0.0
    half_angle_deg: float = 0.0
    angle_deg: float = 0.0
    radius_mm: float = 0.0
    facing: bool = False
    follows_mm: float | None = None
    sections: tuple[Station, ...] = ()
    """Where the finished part is cut to measure this leg, and the area that was meant there; none outside the part."""
    bought: int | None = None
    """Which side of a step is the bought part's: 0 where the air comes out of it, 1 where it goes in."""
    row: str = ""
    """The name of its row in the table of hoses or of entries; empty: the usual hose."""
    taken: str = ""
    """What was taken for granted of it, in words, where the YAML does not say it."""

    @property
    def edge_mm(self) -> float:
        """Height of a step: by how much it moves the passage's side [mm]; 0 of what is no step."""
        return abs(self.hydraulic_mm[0] - self.hydraulic_mm[1]) / 2 if self.kind == "step" else 0.0

    @property
    def least_mm2(self) -> float:
        """Area of its narrower end [mm2]."""
        return min(self.area_mm2)


def along(legs: Sequence[Leg], from_end: str) -> tuple[Leg, ...]:
    """The legs in the order in which the air meets them when it comes in at `from_end` (`end_a` or `end_b`)."""
    return tuple(legs) if from_end == "end_a" else against(legs)


def against(legs: Sequence[Leg]) -> tuple[Leg, ...]:
    """The same passage for air that goes from end_b to end_a."""
    bends = [k for k, leg in enumerate(legs) if leg.kind in ("bend", "mitre")]
    before = {k: legs[following].follows_mm for k, following in itertools.pairwise(bends)}
    return tuple(_turned(legs[k], before.get(k)) for k in reversed(range(len(legs))))


def _turned(leg: Leg, follows_mm: float | None) -> Leg:
    (a0, a1), (d0, d1) = leg.area_mm2, leg.hydraulic_mm
    return replace(
        leg,
        area_mm2=(a1, a0),
        hydraulic_mm=(d1, d0),
        facing=leg.kind == "step" and a0 < a1,
        follows_mm=follows_mm,
        bought=None if leg.bought is None else 1 - leg.bought,
        sections=tuple(reversed(leg.sections)),
    )
