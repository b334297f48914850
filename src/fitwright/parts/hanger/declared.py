"""What is round a hose, declared in part coordinates: cradles, throats, bores as round faces."""

from __future__ import annotations

import math

from fitwright.frame import Frame, Vec
from fitwright.hanging import Cradle, Throat
from fitwright.outline import Point
from fitwright.part import RoundSize
from fitwright.parts.hanger.cuts import FLARE_DEG, FLARE_R_MM
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Sizes
from fitwright.parts.hanger.shapes_uv import polar

FLARE_DEEP_MM = FLARE_R_MM * math.sin(math.radians(FLARE_DEG))
BODY, CAP = "hanger", "cap"


def along_hose(at: Placed, u: float, v: float) -> Frame:
    """The frame of a line along the hose at (u, v): right = x, up = z."""
    return Frame(at.point(u, 0.0, v), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))


def turn_of(at: Placed, deg: float) -> float:
    """An angle of (u, v), anticlockwise from +u, as one clockwise from up seen along the hose."""
    x, _, z = at.direction(*polar((0.0, 0.0), 1.0, deg))
    return math.degrees(math.atan2(x, z))


def cradle(
    at: Placed, sizes: Sizes, u: float, sector: tuple[float, float], name: str, key: str, body: str = BODY
) -> Cradle:
    """The sector (from, sweep) [deg] of the bore that the hose lies on."""
    frame = along_hose(at, u, at.axis_mm)
    return Cradle(name, body, frame, sizes.bore_printed_d / 2, turns_of(at, sector), sizes.wide, key)


def turns_of(at: Placed, sector: tuple[float, float]) -> tuple[float, float]:
    """A sector (from, sweep) [deg] of (u, v) as (from, to), clockwise from up seen along the hose."""
    middle, half = turn_of(at, sector[0] + sector[1] / 2), sector[1] / 2
    return middle - half, middle + half


def bore(at: Placed, sizes: Sizes, u: float, sector: tuple[float, float], name: str, key: str) -> RoundSize:
    """The bore between its rims, as modelled, over a sector (from, sweep) [deg]."""
    frame, deep = along_hose(at, u, at.axis_mm), FLARE_DEEP_MM
    return RoundSize(name, frame, "hole", deep, sizes.wide - deep, 2 * sizes.bore_r, key, turns_of(at, sector))


def throat(
    at: Placed, sizes: Sizes, u: float, along_mm: float, printed: tuple[float, float], arm_deg: tuple[float, float]
) -> Throat:
    """The opening of a hook; `along_mm`: from the axis out to its narrowest; `printed`: its width, what it holds."""
    a = sizes.opens_deg
    out, side = polar((0.0, 0.0), 1.0, a), polar((0.0, 0.0), 1.0, a + 90.0)
    middle: Point = (u + along_mm * out[0], at.axis_mm + along_mm * out[1])
    here: Vec = at.point(middle[0], sizes.wide / 2, middle[1])
    ways = at.direction(*side), at.direction(*out)
    return Throat("throat", BODY, here, *ways, *printed, sizes.arm, arm_deg, sizes.mid_r)
