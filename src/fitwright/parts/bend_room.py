"""What the joints of an offset adapter leave for the bend, and the centrelines and lengths that go into it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from fitwright.frame import Frame, Vec
from fitwright.parts.pair import FRAME_A
from fitwright.shapes.fold import Disc, folded, tube_discs, turned_discs
from fitwright.shapes.joint import JointShape
from fitwright.shapes.profile import Polyline
from fitwright.shapes.space_path import Run, SpacePath, ways_in_space

BEND_MARGIN_MM = 2.0
"""The centreline's radius stays this much above the outside radius: a tighter bend folds into itself."""
GAP_MM = 1.0
"""Air between a bend and what it passes, less than BEND_MARGIN_MM: a smaller gap would print shut."""
LONGEST_MM = 3000.0
AWAY: Vec = (0.0, 1.0, 0.0)


def clocked(x: float, z: float, clock_deg: float) -> Vec:
    """A direction square to away, turned by `clock_deg` clockwise as seen by who looks into end_a."""
    c, s = math.cos(math.radians(clock_deg)), math.sin(math.radians(clock_deg))
    return (x * c + z * s, 0.0, z * c - x * s)


@dataclass(frozen=True)
class Room:
    """What the joints leave for the bend, in mm and rad.

    `toward` and `turns` are unit vectors square to away: where end_b is offset, and where its axis turns by `angle`.
    `outlines` are the corners (s, r) of what each joint takes up about its axis.
    """

    root_a: float
    root_b: float
    cone: float
    cone_at_a: bool
    r_a: float
    r_b: float
    root_wall: float
    offset: float
    toward: Vec
    angle: float
    turns: Vec
    outlines: tuple[Polyline, Polyline]
    gentle_of_d: float = 1.0
    """Bends of this many diameters of the passage are gentle enough."""

    @property
    def r_bend(self) -> float:
        """Passage radius in the bends: the smaller of the two."""
        return min(self.r_a, self.r_b)

    @property
    def from_a(self) -> float:
        """From end_a's mouth to where the bend may begin."""
        return self.root_a + (self.cone if self.cone_at_a else 0.0)

    @property
    def from_b(self) -> float:
        """From end_b's mouth to where the bend may end."""
        return self.root_b + (0.0 if self.cone_at_a else self.cone)

    @property
    def tightest(self) -> float:
        """The least radius of the centreline: a tighter bend folds into itself."""
        return self.r_bend + self.root_wall + BEND_MARGIN_MM

    @property
    def gentle(self) -> float:
        """The radius that is large enough: one diameter of the passage, or as many as were chosen."""
        return max(2 * self.r_bend * self.gentle_of_d, self.tightest)

    @property
    def out_b(self) -> Vec:
        """The direction in which the air leaves through end_b."""
        s, c = math.sin(self.angle), math.cos(self.angle)
        return (s * self.turns[0], c, s * self.turns[2])

    @property
    def is_flat(self) -> bool:
        """Whether end_b's axis stays in the plane of the offset."""
        across = self.toward[0] * self.turns[2] - self.toward[2] * self.turns[0]
        return self.angle < 1e-9 or self.offset < 1e-9 or abs(across) < 1e-9

    @property
    def is_plain(self) -> bool:
        """Whether end_b turns towards the offset by 45 deg at most: two arcs in a plane, in closed form, are enough."""
        along = self.toward[0] * self.turns[0] + self.toward[2] * self.turns[2]
        return self.angle < 1e-9 or (self.angle <= math.radians(45.0) + 1e-9 and along > 1 - 1e-9)

    def frame_b(self, length: float) -> Frame:
        """end_b's frame: looking into it, up stays up where the angle allows (it turns about one level line only)."""
        s, c = math.sin(self.angle), math.cos(self.angle)
        ux, uz = self.turns[0], self.turns[2]
        inward = (-s * ux, -c, -s * uz)
        # -x turned with the axis: its share along the turning direction tips back, its share across stays
        right = (-ux * c * ux - uz * uz, ux * s, -ux * c * uz + uz * ux)
        return Frame((self.offset * self.toward[0], length, self.offset * self.toward[2]), inward, right)

    def paths(self, length: float, radius: float | None = None, quick: bool = False) -> tuple[SpacePath, ...]:
        """Centrelines between the joints for this length mouth to mouth, the one to take first."""
        end = self.frame_b(length).point(0.0, self.from_b, 0.0)
        start = (0.0, self.from_a, 0.0)
        return ways_in_space((start, AWAY), (end, self.out_b), radius, self.gentle, quick, self.is_plain)

    def path(self, length: float, radius: float | None = None, quick: bool = False) -> SpacePath | None:
        """The first centreline that is neither too tight nor folded; else the first there is; else None."""
        found = self.paths(length, radius, quick)
        return next((p for p in found if self.is_sound(p, length)), next(iter(found), None))

    def is_sound(self, path: SpacePath, length: float) -> bool:
        """Whether a tube along it folds neither into itself nor into the joints."""
        return path.radius_mm >= self.tightest - 1e-9 and not self.is_folded(path, length)

    def is_folded(self, path: SpacePath, length: float) -> bool:
        """Whether the tube along this centreline runs into itself or into a joint."""
        return folded(self._discs(path, length))

    def _discs(self, path: SpacePath, length: float) -> list[Disc]:
        tube = tube_discs(path, self.r_bend + self.root_wall + GAP_MM)
        return [
            *turned_discs(self.outlines[0], FRAME_A),
            *tube,
            *turned_discs(self.outlines[1], self.frame_b(length)),
        ]

    def box_mm(self, path: SpacePath, length: float) -> Vec:
        """What the part measures right, away and up, gussets and flanges as discs."""
        discs = self._discs(path, length)
        reach = [[d.radius_mm * math.sqrt(max(0.0, 1.0 - n * n)) for n in d.normal] for d in discs]
        low, high = (
            [
                sign * max(sign * (d.centre[i] + sign * r[i]) for d, r in zip(discs, reach, strict=True))
                for i in range(3)
            ]
            for sign in (-1.0, 1.0)
        )
        return (high[0] - low[0], high[1] - low[1], high[2] - low[2])

    def shortest(self, radius: float, steepest_rad: float, bend: float | None = None) -> float | None:
        """The shortest length [mm] whose bends are no tighter than `radius` and no steeper than `steepest_rad`."""

        def works(length: float) -> bool:
            path = self.path(length, bend, quick=True)
            gentle = path is not None and path.radius_mm >= radius - 1e-9 and path.steepest_rad <= steepest_rad + 1e-9
            return path is not None and gentle and not self.is_folded(path, length)

        return least(works, max(self.from_a - self.from_b, 0.0) if self.angle > math.pi / 4 else self.from_a)

    def elbow(self, radius: float, straight: float = 0.0) -> tuple[Room, float, SpacePath]:
        """The plain elbow: the room with the offset that one arc of this radius gives, its length, its centreline.

        `straight` [mm] is put between end_a and the arc.
        """
        s, c = math.sin(self.angle), math.cos(self.angle)
        offset = radius * (1 - c) + self.from_b * s
        length = self.from_a + straight + radius * s + self.from_b * c
        start, bend = (0.0, self.from_a, 0.0), (0.0, self.from_a + straight, 0.0)
        runs = [Run(start, AWAY, straight, self.turns)] if straight > 1e-6 else []
        runs.append(Run(bend if runs else start, AWAY, radius * self.angle, self.turns, self.angle))
        return replace(self, offset=offset, toward=self.turns), length, SpacePath(tuple(runs))


def outline(shape: JointShape, angle: float | None = None) -> Polyline:
    """Corners (s, r) of a joint in its own frame (built at FRAME_A), its flange and gussets as discs that hold them.

    Where it is not round, r is how far it reaches: anywhere, or in the plane of `angle` [rad] where that is given.
    """

    def reach(r: float) -> float:
        section = shape.form.at(r)
        if angle is None or section.is_round:
            return section.reach_mm
        return max(section.support(angle), section.support(angle + math.pi))

    bosses = [(v.Y, math.hypot(v.X, v.Z)) for boss in shape.bosses for v in boss.solid.Vertices()]
    return (*((s, reach(r)) for s, r in shape.outer), *bosses)


def least(works: Callable[[float], bool], low: float, longest: float = LONGEST_MM) -> float | None:
    """The least number above `low` from which on `works` says yes, as far as growing steps and halving find it."""
    step = 1.0
    while not works(low + step):
        low, step = low + step, step * 1.3
        if low > longest:
            return None
    high = low + step
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if works(middle) else (middle, high)
    return high
