"""What the YAML of a hose run means: places in the room (right, away, up) in mm, forces in N, weight in N/mm."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fitwright.frame import Vec
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.hose_head import Way
from fitwright.physics.hose_travel import Box
from fitwright.physics.hose_trolley import Rail
from fitwright.units import Units

JERK = 2.0
"""A head that starts and stops pulls more than the hose that hangs still: what holds it is to bear twice that (common
practice, no source)."""


@dataclass(frozen=True)
class RunHose:
    """The hose: outside, inside and least radius of its centreline [mm], weight empty and half full [N/mm].

    `stiff_n_mm2`: E I of the softest and the stiffest that it may be; `stiff_known`: it was measured.
    """

    over_mm: float
    inside_mm: float
    radius_mm: float
    empty_n_mm: float
    full_n_mm: float
    stiff_n_mm2: tuple[float, float]
    stiff_known: bool
    words: str
    """Kind and filling in words."""
    radius_words: str = ""
    """How the least radius is known."""


@dataclass(frozen=True)
class Station:
    """What holds the hose: the wall port, a connection, a hanger. `at`: on the hose's axis.

    `way`: the direction in which the hose goes through it (away from the port). `length_mm`: hose from the station
    before; `sag_mm`: of the span after it. `rail`: a trolley that rolls along it.
    """

    label: str
    at: Vec
    key: str
    is_hanger: bool = True
    way: Way = "free"
    length_mm: float | None = None
    sag_mm: float | None = None
    rail: Rail | None = None


@dataclass(frozen=True)
class MovingHead:
    """The head's port: where it goes, how the hose comes in, and what its holder bears along the hose [N]."""

    label: str
    box: Box
    arrives: Way
    holds_n: float | None = None

    @property
    def most_pull_n(self) -> float:
        """What the still hose may pull."""
        return HAND_N if self.holds_n is None else self.holds_n / JERK


@dataclass(frozen=True)
class Within:
    """What all of the hose must stay inside of; inf where a side is open."""

    low: Vec
    high: Vec


@dataclass(frozen=True)
class RunSpec:
    """A run. `head` None: a row of fixed hangers. `parameter_mm`: pull over weight of the spans that are drawn tight.

    `length_mm`: hose from port to head as it is, where it is there already. `keep_above_mm`: no part of it lower.
    `assumed`: key -> what was taken for it. `places`: dotted key -> line and column.
    """

    name: str
    kind: Literal["row", "moving_head"]
    units: Units
    source_file: str
    hose: RunHose
    stations: tuple[Station, ...]
    parameter_mm: float
    head: MovingHead | None = None
    length_mm: float | None = None
    keep_above_mm: float | None = None
    ceiling_mm: float | None = None
    within: Within | None = None
    assumed: dict[str, str] = field(default_factory=dict)

    @property
    def hangers(self) -> tuple[Station, ...]:
        """The stations that are hangers, in order: hanger 1 is the first of them."""
        return tuple(one for one in self.stations if one.is_hanger)
