"""Every number of a hanger, derived once: bodies, stand-ins, screws, checks and words all read this."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from fitwright.data.fasteners import FastenerRow
from fitwright.hanging import Cradle, Eye, HeldBy, Throat
from fitwright.mechanism import Bought, Fastening
from fitwright.outline import Outline, Point
from fitwright.outline_union import Region
from fitwright.part import RoundSize
from fitwright.parts.hanger.cuts import Cut
from fitwright.parts.hanger.placed import Placed


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
    throat: float = 0.0
    """Clear width of a hook's opening."""

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
    opening. `into`: what has its thread.
    """

    u: float
    y: float
    row: FastenerRow
    hole_d: float
    head_v: float
    kind: str
    into: str
    washer_d: float = 0.0
    washer_h: float = 0.0


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
    facts: dict[str, str] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()
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
    neck: bool = True
    """False: the carrier hangs on a swivel bolt, the base is a body of its own."""


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
