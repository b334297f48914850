"""Every number of a hanger, derived once: bodies, stand-ins, screws, checks and words all read this."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from fitwright.data.fasteners import FastenerRow
from fitwright.hanging import Cradle, Eye, HeldBy, Throat
from fitwright.mechanism import Bought, Fastening
from fitwright.outline import Outline, Point
from fitwright.outline_union import Region, difference
from fitwright.part import RoundSize, StandIn
from fitwright.parts.hanger.cuts import Cut
from fitwright.parts.hanger.fixing import Fixing
from fitwright.parts.hanger.placed import Placed

Into = Literal["wood", "channel", "slot", "rod", "thread", "tie"]


@dataclass(frozen=True)
class Sizes:
    """Sizes of what is round the hose [mm], as modelled; `lip_deg`: half the angle that the opening takes."""

    bore_r: float
    bore_printed_d: float
    arm: float
    wide: float
    lip_deg: float
    opens: Point
    """Direction in which it opens, in (u, v)."""
    axes_u: tuple[float, ...]
    """Where the hoses' axes lie along u."""
    neck: float = 0.0
    """Width of the neck along u; 0: as wide as the ring lets it."""
    throat: float = 0.0
    """Clear width of a hook's opening, as modelled."""
    throat_printed: float = 0.0
    """The same as it is to measure."""
    snaps_mm: float = 0.0
    """How far a hook's arms open at the filament's strain limit."""

    @property
    def apart(self) -> float:
        """From axis to axis of neighbours; 0 where there is one hose."""
        return self.axes_u[1] - self.axes_u[0] if len(self.axes_u) > 1 else 0.0

    @property
    def mid_r(self) -> float:
        """Radius of the arms' middle line."""
        return self.bore_r + self.arm / 2

    @property
    def out_r(self) -> float:
        """Radius outside the arms."""
        return self.bore_r + self.arm

    @property
    def opens_deg(self) -> float:
        """The opening's direction, anticlockwise from +u [deg]."""
        return math.degrees(math.atan2(self.opens[1], self.opens[0]))


@dataclass(frozen=True)
class FixingPoint:
    """One screw, bolt or stud of the mount at (u, y): its axis runs along v, its head bears at `head_v`.

    `beside`: its head lies on the base, beside the hose; `through`: in a recess under the hose, reached through the
    opening; `turned`: on the base of a swivel, reached with what turns on it turned away. `into`: what has its thread,
    which begins `begins_mm` behind the surface and is to be had down to `deep_mm` behind it. `long_mm`: the screw under
    its head; 0 where it is what is there already.
    """

    u: float
    y: float
    row: FastenerRow
    hole_d: float
    head_v: float
    kind: str
    into: Into
    washer_d: float = 0.0
    washer_h: float = 0.0
    fixing: Fixing | None = None
    long_mm: float = 0.0
    begins_mm: float = 0.0
    deep_mm: float = 0.0
    edge_mm: float = 0.0
    """From its axis to the nearest edge of the wood; 0: not known."""

    @property
    def tip_mm(self) -> float:
        """How far behind the surface its end lies [mm]."""
        return self.long_mm - self.head_v - self.washer_h


@dataclass(frozen=True)
class SwivelBase:
    """The base of a swivel, a body of its own: its profile in (u, v), extruded from y0 to y1, and what is cut."""

    profile: Region
    y0: float
    y1: float
    cuts: tuple[Cut, ...]
    genus: int
    thick: float
    gap: float
    head_v: float
    """Where the bolt's washer bears in it, from the surface."""
    bolt_u: float
    bolt_y: float
    nut_v: float
    """Where the nut's washer bears in the carrier, from the surface."""
    row: FastenerRow
    long_mm: float


@dataclass(frozen=True)
class Lug:
    """A lug of its own thickness at the front face: outlines in (u, v), fused to the body; its eye along y at `at`."""

    name: str
    drawn: tuple[Outline, ...]
    at: Point
    hole_d: float
    long_mm: float

    def added_mm3(self, profile: Region) -> float:
        """What it adds to the profile's body [mm3], its hole taken off; the hole lies outside the profile."""
        loops = [profile.outer]
        outside = math.fsum(left.area_mm2 for left in difference(list(self.drawn), loops))
        return (outside - math.pi * self.hole_d**2 / 4) * self.long_mm


@dataclass(frozen=True)
class Carrier:
    """What is round one hose: outlines in (u, v) to add and to take away, cuts, and how far it reaches along u."""

    adds: tuple[Outline, ...]
    takes: tuple[Outline, ...]
    cuts: tuple[Cut, ...] = ()
    reach_u: tuple[float, float] = (0.0, 0.0)
    """How far it reaches below and above the axis along u (low, high) [mm]: screws beside it stand further out."""
    base_v: float = 0.0
    """From its axis to the base's inner face [mm], at the least."""
    neck_u: tuple[float, float] = (0.0, 0.0)
    """Between these, counted from its axis, it may be joined to the base (low, high) [mm]."""
    cap: Outline | None = None
    """The other half of a split clamp, a body of its own."""
    cap_cuts: tuple[Cut, ...] = ()
    rounds: tuple[RoundSize, ...] = ()
    """The bore, as a round face of a known size."""
    cap_rounds: tuple[RoundSize, ...] = ()
    lugs: tuple[Lug, ...] = ()
    stands: tuple[Outline, ...] = ()
    """What else stands there, or needs room: caps, ears, screws and their drivers."""
    cradles: tuple[Cradle, ...] = ()
    throats: tuple[Throat, ...] = ()
    eyes: tuple[Eye, ...] = ()
    fastenings: tuple[Fastening, ...] = ()
    bought: tuple[Bought, ...] = ()


@dataclass(frozen=True)
class Base:
    """What lies on the mounting surface: outlines to add and to take away, cuts, and the fixing points."""

    thick: float
    u: tuple[float, float]
    adds: tuple[Outline, ...]
    takes: tuple[Outline, ...] = ()
    cuts: tuple[Cut, ...] = ()
    points: tuple[FixingPoint, ...] = ()
    facts: dict[str, str] = field(default_factory=dict)
    held: tuple[HeldBy, ...] = ()
    fastenings: tuple[Fastening, ...] = ()
    bought: tuple[Bought, ...] = ()
    neck_v: float | None = None
    """Where the neck to the carriers begins; None: half way in the base."""
    neck_half: float | None = None
    """It is no wider than this on either side of a hose's axis."""
    swivel: SwivelBase | None = None
    """The carrier turns on this, a body of its own."""
    kind: str = "plate"
    """What it is called in words."""
    y: tuple[float, float] | None = None
    """What presses on the surface, along the hose; None: all of the width."""
    assumed: dict[str, str] = field(default_factory=dict)
    reactions: tuple[float, ...] = ()
    """Of a batten: what its near and its far fixing point carry of each newton on the hanger, up positive [N/N]."""
    things: Callable[[HangerPlan], Iterator[StandIn]] | None = None
    """Stand-ins of its own."""


@dataclass(frozen=True)
class HangerPlan:
    """The hanger as it will be built."""

    placed: Placed
    sizes: Sizes
    carrier: tuple[Carrier, ...]
    base: Base
    profile: Region
    cuts: tuple[Cut, ...]
    holes: int
    """Through holes of the body: its genus."""
