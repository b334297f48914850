"""A helical ridge on a round face, outside or inside: the thread that a wire-ribbed hose is screwed onto.

Its trapezoid lies in the plane through the axis and is screwed along: every edge is a helix, every face ruled between
two of them. Turned by an angle the section sweeps its area times the way of its centroid, whatever the pitch (Pappus),
so that the volume is known. At both ends the ridge comes out of the wall at 20 deg, like the front of a bead.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import Any, Literal

from cadquery import Face, Shape, Shell, Solid, Vector, Wire
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_Sewing
from OCP.BRepFill import BRepFill
from OCP.GeomAPI import GeomAPI_Interpolate
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TColgp import TColgp_HArray1OfPnt
from OCP.TColStd import TColStd_HArray1OfReal

from fitwright.errors import BuildError
from fitwright.frame import Frame
from fitwright.shapes.solids import SEW_MM

RAMP_DEG = 20.0
"""Slope of the run-outs in plan: so steep that fit.built takes them for no part of the round face (14 deg), and gentle
enough for a hose to climb."""
SINK_MM = 0.4
"""The foot goes this deep into the wall, so that the two are fused through and not along a face."""
STEP_RAD = math.radians(5.0)
"""Points of a helix this far apart put its spline within R x 1.5e-7 of it."""
PIECES_A_TURN = 2
"""Faces longer than this cross a round face's seam more than once, which booleans stand badly."""
INSET_MM = 0.03
"""The tool that is declared lies this far inside the ridge: more than two meshes stray (0.008 each)."""

Corner = tuple[float, float, float]
"""Turn [rad] clockwise from up as seen by who looks into the mouth, s [mm], r [mm]; all run linearly along an edge."""


@dataclass(frozen=True)
class Trapezoid:
    """The ridge's section [mm]: radial `height_mm`, axial `crest_mm`; flanks of 45 deg."""

    height_mm: float
    crest_mm: float

    @property
    def foot_mm(self) -> float:
        """Its axial width where it stands on the round face."""
        return self.crest_mm + 2.0 * self.height_mm


@dataclass(frozen=True)
class RidgeSizes:
    """`radius_mm` of the round face; its middle runs from `s0_mm` at `first_rad` through `turns` of `pitch_mm`.

    `side` +1: stands out of a shaft, -1: into a hole. `hand` as the ribs wind: a right-hand one goes on inwards as it
    turns clockwise, seen by who looks into the mouth.
    """

    radius_mm: float
    section: Trapezoid
    pitch_mm: float
    hand: Literal["left", "right"]
    turns: float
    s0_mm: float
    first_rad: float = 0.0
    side: int = 1

    @property
    def s1_mm(self) -> float:
        """Where its middle ends."""
        return self.s0_mm + self.turns * self.pitch_mm

    @property
    def sense(self) -> int:
        """+1 where it goes on inwards as it turns clockwise."""
        return 1 if self.hand == "right" else -1

    @property
    def ramp_rad(self) -> float:
        """Turn that a run-out takes, from inside the wall to full height."""
        return (self.section.height_mm + SINK_MM / 2) / (math.tan(math.radians(RAMP_DEG)) * self.radius_mm)

    @property
    def crest_r_mm(self) -> float:
        """Radius of the crest."""
        return self.radius_mm + self.side * self.section.height_mm


def ridge_volume_mm3(sizes: RidgeSizes) -> float:
    """What the ridge adds to the wall [mm3], in closed form: Pappus along the turns, integrated over the run-outs."""
    h, c, r, k = sizes.section.height_mm, sizes.section.crest_mm, sizes.radius_mm, sizes.side
    moment = c * (r * h + k * h**2 / 2) + 2 * (r * h**2 / 2 + k * h**3 / 6)  # area x radius of the centroid
    rising = c * (r * h**2 / 2 + k * h**3 / 6) + 2 * (r * h**3 / 6 + k * h**4 / 24)  # the same, over heights 0 to h
    full = 2 * math.pi * sizes.turns - 2 * sizes.ramp_rad
    return full * moment + 2 * sizes.ramp_rad / (h + SINK_MM / 2) * rising


def ridge_solid(sizes: RidgeSizes, frame: Frame, name: str) -> Solid:
    """The ridge with its foot in the wall; raises BuildError where the kernel gives no closed solid."""
    stations = [_corners(sizes, *at) for at in _stations(sizes)]
    sewing = BRepBuilderAPI_Sewing(SEW_MM)
    for near, far in itertools.pairwise(stations):
        edges = [_edge(a, b, frame) for a, b in zip(near, far, strict=True)]
        for one, other in itertools.pairwise([*edges, edges[0]]):
            sewing.Add(BRepFill.Face_s(one, other))
    for end in (stations[0], stations[-1]):
        wire = Wire.makePolygon([Vector(*_point(corner, frame)) for corner in end], close=True)
        sewing.Add(Face.makeFromWires(wire).wrapped)
    sewing.Perform()
    shell = Shape.cast(sewing.SewedShape())
    if not isinstance(shell, Shell) or sewing.NbFreeEdges():
        raise BuildError(f"{name}: the ridge's faces do not close")
    solid = Solid.makeSolid(shell)
    return solid if solid.Volume() > 0 else Solid.makeSolid(Shell(shell.wrapped.Reversed()))


def ridge_core(sizes: RidgeSizes, frame: Frame, name: str) -> Solid:
    """The ridge drawn in by INSET_MM all round, run-outs left out: what must be there. Its foot stays in the wall."""
    h, c = sizes.section.height_mm, sizes.section.crest_mm
    # flanks of 45 deg go in by INSET_MM along their normal
    section = Trapezoid(h - INSET_MM, c - 2 * INSET_MM * (math.sqrt(2.0) - 1.0))
    out = sizes.ramp_rad + math.radians(1.0)
    inner = replace(
        sizes,
        section=section,
        turns=sizes.turns - out / math.pi,
        s0_mm=sizes.s0_mm + sizes.pitch_mm * out / (2 * math.pi),
        first_rad=sizes.first_rad + sizes.sense * out,
    )
    return ridge_solid(inner, frame, name)


def _stations(sizes: RidgeSizes) -> list[tuple[float, float]]:
    """(turn from its beginning [rad], height above the round face [mm]) at each border between faces."""
    whole, ramp = 2 * math.pi * sizes.turns, sizes.ramp_rad
    count = max(1, math.ceil((whole - 2 * ramp) / (2 * math.pi) * PIECES_A_TURN))
    full = [ramp + (whole - 2 * ramp) * k / count for k in range(count + 1)]
    inside = -SINK_MM / 2
    return [(0.0, inside), *((turn, sizes.section.height_mm) for turn in full), (whole, inside)]


def _corners(sizes: RidgeSizes, turn: float, height: float) -> tuple[Corner, ...]:
    """The trapezoid at one station, from foot to foot; flanks stay at 45 deg while it rises."""
    middle = sizes.s0_mm + sizes.pitch_mm * turn / (2 * math.pi)
    angle = sizes.first_rad + sizes.sense * turn
    half = sizes.section.crest_mm / 2
    wide = half + height + SINK_MM
    foot, crest = sizes.radius_mm - sizes.side * SINK_MM, sizes.radius_mm + sizes.side * height
    around = ((-wide, foot), (-half, crest), (half, crest), (wide, foot))
    return tuple((angle, middle + aside, r) for aside, r in around)


def _point(corner: Corner, frame: Frame) -> tuple[float, float, float]:
    turn, s, r = corner
    return frame.point(r * math.sin(turn), s, r * math.cos(turn))


def _along(a: Corner, b: Corner, at: Corner, frame: Frame) -> gp_Vec:
    """How the place changes on the way from a to b, at `at`, a whole way being 1."""
    turn, ds, dr = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    angle, r = at[0], at[2]
    sine, cosine = math.sin(angle), math.cos(angle)
    here, there = frame.origin, frame.point(dr * sine + r * turn * cosine, ds, dr * cosine - r * turn * sine)
    return gp_Vec(*(q - p for p, q in zip(here, there, strict=True)))


def _edge(a: Corner, b: Corner, frame: Frame) -> Any:
    """The helix (or conical spiral) from a to b, as a spline over 0 to 1: neighbours that share it rule exactly."""
    count = max(4, math.ceil(abs(b[0] - a[0]) / STEP_RAD))
    points, shares = TColgp_HArray1OfPnt(1, count + 1), TColStd_HArray1OfReal(1, count + 1)
    for k in range(count + 1):
        share = k / count
        turn, s, r = (p + (q - p) * share for p, q in zip(a, b, strict=True))
        points.SetValue(k + 1, gp_Pnt(*_point((turn, s, r), frame)))
        shares.SetValue(k + 1, share)
    spline = GeomAPI_Interpolate(points, shares, False, 1e-9)
    spline.Load(_along(a, b, a, frame), _along(a, b, b, frame), False)  # scaled by the kernel they come out too long
    spline.Perform()
    return BRepBuilderAPI_MakeEdge(spline.Curve()).Edge()
