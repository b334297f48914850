"""What is parted into halves, and what comes of it: plain records that the steps of the work hand on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

from cadquery import Shape, Solid

from fitwright.frame import Frame, Vec
from fitwright.part import Body, Feature, HoleFit, Pair, StandIn
from fitwright.parts.assembly import PlacedEnd
from fitwright.spec.models import AdapterSpec, Halves, HalvesBolts, HalvesLap

LIP_MM = 4.0
"""Each half's lip is this thick or as the wall, whichever is more (common practice, no source)."""
EDGE_OF_HOLE = 1.5
"""Hole centre to edge in hole diameters (common practice, no source: 1.5 in a print)."""
GLUE_GAP_MM = 0.2
"""Gap of a glued lap all round: room for the glue; both halves come from one printer, so its scatter cancels."""
WITHIN = 0.5
"""Lips begin at this share of the wall below the skin: no face of theirs lies in a face of the part, which the kernel's
booleans do not bear well. At the top of a lip along it a tube of radius R has come in by t^2 / 2R, which is less."""
PEG_SLACK_MM = 0.2
"""A peg's hole is this much wider than the peg."""


@dataclass(frozen=True)
class Centreline:
    """The line through the middle of the passage, from end_a's mouth to end_b's.

    `at(distance_mm)` gives a point and the heading there; `across` is the direction, square to end_a's axis, of the one
    plane that the line lies in (None: it is straight along end_a's axis, and any plane through that will do).
    """

    at: Callable[[float], tuple[Vec, Vec]]
    length_mm: float
    across: Vec | None
    in_a_plane: bool = True
    """False where the line winds through space: it cannot be parted along."""


@dataclass(frozen=True)
class Whole:
    """A finished body that is to be parted, with all that decides where and how."""

    body: Body
    spec: AdapterSpec
    halves: Halves
    ends: tuple[PlacedEnd, PlacedEnd]
    line: Centreline

    @property
    def joint(self) -> HalvesBolts | HalvesLap:
        """What joins the halves."""
        return self.halves.joint

    @property
    def wall_mm(self) -> float:
        """The part's wall."""
        return self.body.wall_mm

    @property
    def lip_mm(self) -> float:
        """Thickness of one half's lip."""
        return max(LIP_MM, self.wall_mm)

    @property
    def stack_mm(self) -> float:
        """From the seam to the top of what stands on a lip: nuts and heads; the lip alone where it is glued."""
        joint = self.joint
        if isinstance(joint, HalvesLap):
            return self.lip_mm
        return self.lip_mm + joint.washer_h_mm + max(joint.head_k_mm, joint.nut_m_mm + 2 * joint.pitch_mm)

    @cached_property
    def cuts(self) -> tuple[Shape, ...]:
        """All that was cut away: what is added for the joint must not fill it again."""
        return tuple(f.tool for f in self.body.features if f.kind == "cut")

    @cached_property
    def reach_mm(self) -> float:
        """A half space this large holds the part wherever its plane lies in it."""
        return 3.0 * float(self.body.solid.BoundingBox().DiagonalLength) + 200.0


@dataclass(frozen=True)
class Side:
    """What one half has besides its share of the whole."""

    solid: Solid
    features: tuple[Feature, ...] = ()
    holes: tuple[HoleFit, ...] = ()


@dataclass(frozen=True)
class Parted:
    """Both halves, joined as asked. `frame` is the plane, its normal from the first half to the second."""

    frame: Frame
    sides: tuple[Side, Side]
    added_mm3: float
    pairs: tuple[Pair, ...] = ()
    stand_ins: tuple[StandIn, ...] = ()
    facts: dict[str, str] = field(default_factory=dict)
    lap_mm: float = 0.0
    gap_mm: float = 0.0
    straight: bool = True
    """False where an outline had to be taken as a polygon."""
