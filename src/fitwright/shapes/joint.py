"""What every joint hands to the family that builds the part: half-profiles, tools, holes, zones."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame, Vec
from fitwright.section import Section
from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.profile import Point, Polyline
from fitwright.shapes.ridge import RidgeSizes
from fitwright.shapes.solids import bar

OVERSHOOT_MM = 0.5
"""Cutters go this far beyond the face that they pierce (0.1 mm is the least that leaves no skin)."""
SKIN_MM = 0.02
"""Points this far above the plain skin belong to what is raised on it."""
FLUSH_MM = 0.01
"""Points this far above a round face are on its ridge: more than its facets stray (0.008), so that it stays out."""
SHORTEST_SLOPE_MM = 0.5
"""A step of a few microns would leave a face that cannot be meshed; it is drawn out over this length."""
ROOT_RUN = 0.6
"""Straight run of a root in walls: the nearest point of a 30 deg cone lies sin(30 deg) = 0.5 walls further on."""
LEAD_IN_DEG = 15.0
"""Slope of a lead-in against the axis (common practice, no source: 10-20 deg finds its way by hand)."""


@dataclass(frozen=True)
class Tool:
    """A named solid that is cut away or must stand."""

    name: str
    solid: Solid


@dataclass(frozen=True)
class Hole:
    """A round hole of `d_mm` from `start` along `direction`, `length_mm` long, and its cutter."""

    name: str
    start: Vec
    direction: Vec
    length_mm: float
    d_mm: float

    def tool(self) -> Tool:
        """The hole's cutter."""
        return Tool(self.name, bar(self.start, self.direction, self.d_mm / 2, self.length_mm))


@dataclass(frozen=True)
class Zone:
    """A ring about the joint's axis with a wall limit of its own; `skirt_mm`: see part.WallZone."""

    name: str
    s0_mm: float
    s1_mm: float
    r0_mm: float
    r1_mm: float
    limit_mm: float
    skirt_mm: float = 0.0


@dataclass(frozen=True)
class JointShape:
    """A joint in its own frame: s = 0 at the mouth face, `root_mm` where the passage goes on.

    Both half-profiles end at `root_mm`: the inner at the passage's radius, the outer at that plus the root's wall.
    `ring_cuts` and `ring_bosses` already are in the half-profiles and are declared for the features check;
    `cuts`, `holes` (through) and `blind` holes are still to be cut, `bosses` and the `ridge` still to be fused. `fit`
    is the round face that meets the bought part, (s0, d0, s1, d1) without lead-ins; None for a flange or a plain end.
    """

    inner: Polyline
    outer: Polyline
    root_mm: float
    engaged_mm: float
    fit: tuple[float, float, float, float] | None = None
    ring_cuts: tuple[Tool, ...] = ()
    ring_bosses: tuple[Tool, ...] = ()
    bosses: tuple[Tool, ...] = ()
    cuts: tuple[Tool, ...] = ()
    holes: tuple[Hole, ...] = ()
    blind: tuple[Hole, ...] = ()
    ridge: RidgeSizes | None = None
    zones: tuple[Zone, ...] = ()
    cord_groove_depth_mm: float = 0.0
    form: Form = ROUND

    @property
    def passage_r_mm(self) -> float:
        """Radius of the passage at the root (half its shorter side where it is not round)."""
        return self.inner[-1][1]

    def breaks(self) -> tuple[float, ...]:
        """Angles [rad] at which an arc of any of its outlines ends; none for a round joint."""
        if self.form.base is None:
            return ()
        outlines = [self.form.at(r) for r in {r for _, r in (*self.inner, *self.outer)}]
        return tuple(b for outline in outlines for b in outline.breaks())

    @property
    def outside(self) -> Section:
        """The outside's section at the root, as seen by who looks into this mouth."""
        return self.form.at(self.outer[-1][1])

    @property
    def passage(self) -> Section:
        """The passage's section at the root, as seen by who looks into this mouth."""
        return self.form.at(self.passage_r_mm)


@dataclass(frozen=True)
class RadialScrews:
    """`count` pilot holes through the wall at `s_mm`, the first at `first_deg` from up."""

    count: int
    pilot_d_mm: float
    s_mm: float
    first_deg: float = 0.0


def crest_zone(name: str, line: Polyline, wall_mm: float) -> Zone:
    """The zone of a raised ring's crest, which is thinner along the axis than a wall: its own width is the limit."""
    (s0, foot), (s1, top), (s2, _), (s3, _) = line
    return Zone(f"{name} crest", s0, s3, min(foot, top) + SKIN_MM, top + 0.5, min(wall_mm, s2 - s1))


def ridge_zone(ridge: RidgeSizes, name: str, wall_mm: float) -> Zone:
    """The zone of a helical ridge's crest."""
    half, low, high = ridge.section.foot_mm / 2, *sorted((ridge.radius_mm, ridge.crest_r_mm))
    r0, r1 = (low + FLUSH_MM, high + 0.5) if ridge.side > 0 else (low - 0.5, high - FLUSH_MM)
    s0, s1 = ridge.s0_mm - half, ridge.s1_mm + half
    return Zone(f"{name} ridge", s0, s1, r0, r1, min(wall_mm, ridge.section.crest_mm), skirt_mm=3 * FLUSH_MM)


def lead_run(radial_mm: float) -> float:
    """Axial length of a lead-in that opens by `radial_mm`."""
    return radial_mm / math.tan(math.radians(LEAD_IN_DEG))


def clock_direction(frame: Frame, deg: float) -> Vec:
    """Unit vector square to the axis, `deg` clockwise from up as seen by who looks into the mouth."""
    a = math.radians(deg)
    r, u = frame.right, frame.up
    x, y = math.sin(a), math.cos(a)
    return (x * r[0] + y * u[0], x * r[1] + y * u[1], x * r[2] + y * u[2])


def radial_holes(
    frame: Frame, screws: RadialScrews, r_in: float, r_out: float, name: str, form: Form = ROUND
) -> tuple[Hole, ...]:
    """Pilot holes square to the axis, from just inside the bore to just outside the wall."""
    if form.base is not None:
        return _side_holes(frame, screws, form.at(r_in), r_out - r_in, name)
    holes = []
    for k in range(screws.count):
        deg = screws.first_deg + 360.0 * k / screws.count
        d = clock_direction(frame, deg)
        base = frame.point(0.0, screws.s_mm, 0.0)
        r0 = r_in - 2 * OVERSHOOT_MM
        start = (base[0] + r0 * d[0], base[1] + r0 * d[1], base[2] + r0 * d[2])
        holes.append(Hole(f"{name} {k + 1}", start, d, r_out - r_in + 4 * OVERSHOOT_MM, screws.pilot_d_mm))
    return tuple(holes)


def _side_holes(frame: Frame, screws: RadialScrews, bore: Section, wall: float, name: str) -> tuple[Hole, ...]:
    """Pilot holes square to the flat sides, shared out among them by length, each set evenly along its side."""
    sides = sorted(bore.straights(), key=lambda side: -math.dist(side[0], side[1]))
    shares = [0] * len(sides)
    for _ in range(screws.count):
        best = max(range(len(sides)), key=lambda k: math.dist(sides[k][0], sides[k][1]) / (shares[k] + 1))
        shares[best] += 1
    holes: list[Hole] = []
    for (p, q, angle), share in zip(sides, shares, strict=True):
        x, y = math.cos(angle), math.sin(angle)
        outwards = tuple(x * frame.right[i] + y * frame.up[i] for i in range(3))
        for k in range(share):
            t = (k + 0.5) / share
            at = (p[0] + t * (q[0] - p[0]) - 2 * OVERSHOOT_MM * x, p[1] + t * (q[1] - p[1]) - 2 * OVERSHOOT_MM * y)
            start, d = frame.point(at[0], screws.s_mm, at[1]), (outwards[0], outwards[1], outwards[2])
            long = wall + 4 * OVERSHOOT_MM
            holes.append(Hole(f"{name} {len(holes) + 1}", start, d, long, screws.pilot_d_mm))
    return tuple(holes)


def to_root(outer_r: float, from_s: float, root_r: float, wall_mm: float) -> tuple[float, Polyline]:
    """A 45 deg slope from `outer_r` at `from_s` to the root's outer radius, up or down, and where the root is.

    Returns (s of the root, polyline); 45 deg prints whichever end is down. Where the root is the thicker of the two, it
    goes straight on for as long as a cone of up to 30 deg behind it could come closer than the wall to the thin part.
    """
    run = abs(outer_r - root_r)
    run = max(run, SHORTEST_SLOPE_MM) if run > 1e-9 else 0.0
    level = ROOT_RUN * wall_mm if root_r > outer_r + 1e-9 else 0.0
    line = ((from_s, outer_r), (from_s + run, root_r), (from_s + run + level, root_r))
    return from_s + run + level, line if level else line[:2]


def corner_run(wall_mm: float) -> float:
    """How far a straight outside must go on past an inner edge before a 45 deg slope keeps `wall_mm` from that edge."""
    return wall_mm * (math.sqrt(2.0) - 1.0)


def groove(s_mid: float, floor_w: float, depth: float, sign: float, radius: Callable[[float], float]) -> Polyline:
    """A groove with flanks of exactly 45 deg, which print either way up; sign +1 cuts outwards, -1 inwards.

    `radius(s)` is the cone that it is cut into; the flanks end on it.
    """
    low, high = s_mid - floor_w / 2, s_mid + floor_w / 2
    floor, slope = radius(s_mid) + sign * depth, radius(1.0) - radius(0.0)
    rise = sign * (floor - radius(0.0))
    first, last = (low - rise) / (1 - sign * slope), (high + rise) / (1 + sign * slope)
    return (first, radius(first)), (low, floor), (high, floor), (last, radius(last))


def closed(line: Polyline, at_r: float) -> list[Point]:
    """A polyline closed to a polygon by a run along radius `at_r` (for a ring's tool)."""
    return [(line[0][0], at_r), *line, (line[-1][0], at_r)] if abs(line[0][1] - at_r) > 1e-9 else list(line)
