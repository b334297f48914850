"""The yoke's saddle: on each face an arm from the plate to a half ring on the pipe stub, held by a hose clamp's band.

The band goes round the stub's far half and through a slit between half ring and arm. Lying on its front face the arm
carries the half ring up to where its outside rises at 45 deg; the slit's roof is a bridge as wide as the band. Below
the slit the arm is two walls held together by ribs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.part import Feature
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.blocks import Span
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_ears import OVERLAP_MM, keep_outs
from fitwright.shapes.solids import cut, cylinder, fused
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

ALLOWANCE_MM = 0.4
"""The half ring's inside over the stub, on diameter: the band draws it together (common practice, no source)."""
RING_MM, RIM_MM, LIP_MM = 5.0, 2.0, 3.0
"""Wall under the band, rims beside it, and what is left beside the slit."""
BAND_ROOM_MM, SLIT_MM = 0.5, 4.0
FACE_MM = 0.3
"""Half ring to the body's face."""
ARM = 0.72
"""The arm's half width over the rim's radius: a little more than sin 45 deg."""
RIB_MM, LEAST_PIT_MM = 4.0, 4.0
"""The ribs' thickness; shallower pits are left full."""
OVER = 0.5


@dataclass(frozen=True)
class Saddle:
    """As modelled [mm]. `z0` (lower, upper face): where arm and half ring begin, each from the blade's plane.

    `r_in`, `r_band`, `r_rim`: inside, under the band, over the rims; `half_wide` the arm's; the stub's axis is at
    `centre_y`.
    """

    centre_y: float
    r_in: float
    r_band: float
    r_rim: float
    half_wide: float
    band_wide: float
    lip: float
    z0: tuple[float, float]
    end_z: float
    """Where half rings and arms end, the same above and below."""
    pit_y: float
    """The pits' floor: the plate's rear face."""

    @property
    def pits(self) -> tuple[Span, Span] | tuple[()]:
        """The pits between the ribs, along x; none where they would be shallow."""
        inner, outer = RIB_MM / 2, self.half_wide - RIB_MM
        shallow = self.pit_y - self.centre_y - math.sqrt(self.slit_r**2 - inner**2)
        return () if shallow < LEAST_PIT_MM or outer - inner < LEAST_PIT_MM else ((-outer, -inner), (inner, outer))

    @property
    def slit_r(self) -> float:
        """The slit's floor."""
        return self.r_band + SLIT_MM

    def frame(self, up: bool) -> Frame:
        """About the stub's axis, away from the blade."""
        way = 1.0 if up else -1.0
        return Frame((0.0, self.centre_y, 0.0), (0.0, 0.0, way), (1.0, 0.0, 0.0))


def saddle_numbers(plan: GatePlan, spec: GateBracketSpec, window_z: float, inner: Span, wider_mm: float) -> Saddle:
    """The saddle, its arms `wider_mm` wider each way than the half ring asks for.

    RefusalError where the stub is missing, too short, or too near the edge for the band.
    """
    port, printer = spec.gate.port, spec.printer
    if port.stub_outside_mm is None or port.stub_long_mm is None:
        raise RefusalError("gate.saddle", "a saddle and no stub", "port: {stub: {outside: ..., long: ...}}", _NO_STUB)
    r_in = modelled(port.stub_outside_mm + ALLOWANCE_MM, "hole", printer) / 2
    r_band = r_in + max(RING_MM, 2 * spec.wall_mm)
    rim = r_band + RIM_MM
    band, lip = spec.gate.mount.band_mm + BAND_ROOM_MM, max(LIP_MM, spec.wall_mm + OVERLAP_MM)
    z0 = (_begin(spec, False, -inner[0], window_z), _begin(spec, True, inner[1], window_z))
    saddle = Saddle(
        centre_y=-port.to_edge_mm,
        r_in=r_in,
        r_band=r_band,
        r_rim=rim,
        half_wide=min(ARM * rim + wider_mm, r_in - 1.0),
        band_wide=band,
        lip=lip,
        z0=z0,
        end_z=max(z0) + 2 * lip + band,
        pit_y=plan.frame.yoke_y0,
    )
    _room(saddle, plan, spec)
    return saddle


_NO_STUB = "the saddle sits on the pipe stub"


def _begin(spec: GateBracketSpec, up: bool, face: float, window_z: float) -> float:
    """Clear of the body's face, of the window, and above all that stands proud in front of the stub."""
    port = spec.gate.port
    near = (port.stub_outside_mm or 0.0) / 2 + RING_MM + RIM_MM + SLIT_MM
    hit = [k for k in keep_outs(spec) if k.up == up and k.y[1] > -port.to_edge_mm and k.x[0] < near and k.x[1] > -near]
    lift = max((k.high_mm for k in hit), default=0.0)
    return max(face + max(FACE_MM, lift), window_z)


def _room(saddle: Saddle, plan: GatePlan, spec: GateBracketSpec) -> None:
    """Band between stub and yoke; half rings not longer than the stubs."""
    port = spec.gate.port
    edge = saddle.centre_y + saddle.slit_r
    if edge > plan.frame.yoke_y0:
        need = port.to_edge_mm + edge - plan.frame.yoke_y0
        raise RefusalError(
            "gate.port.to_edge",
            format_length(port.to_edge_mm, spec.units),
            f"{format_length(need, spec.units)} or more for a saddle, or screws or clamp",
            "the hose clamp's band would not pass between stub and yoke",
        )
    z1 = saddle.end_z
    longest = max(z1 + plan.body_z_mm[0], z1 - plan.body_z_mm[1])
    if longest > (port.stub_long_mm or 0.0):
        raise RefusalError(
            "gate.port.stub.long",
            format_length(port.stub_long_mm or 0.0, spec.units),
            f"{format_length(longest, spec.units)} or more, a narrower band (saddle: band), or screws or clamp",
            "the half ring, clear of the coupling and of what stands proud, is longer than the stub",
        )


def saddle_solids(saddle: Saddle, plate_y: Span) -> list[Solid]:
    """Lower and upper: arm and half ring, from the plate's front face; slit and pits are not yet cut."""
    return [_side(saddle, plate_y, up) for up in (False, True)]


def _side(saddle: Saddle, plate_y: Span, up: bool) -> Solid:
    z0, z1 = saddle.z0[up], saddle.end_z
    z = (z0, z1) if up else (-z1, -z0)
    arm = box((-saddle.half_wide, saddle.half_wide), (saddle.centre_y, plate_y[1]), z)
    frame = saddle.frame(up)
    far = saddle.r_rim + OVER
    behind = box((-far, far), (saddle.centre_y - far, saddle.centre_y), (z[0] - OVER, z[1] + OVER))
    rim = cut(cylinder(frame, saddle.r_rim, z0, z1), [behind], "saddle")
    return cut(fused([arm, rim], "saddle"), [_stub(saddle, up)], "saddle")


def saddle_tools(saddle: Saddle) -> list[Feature]:
    """What is still to be cut: the band's slit, and the pits below it."""
    found = []
    for up, name in ((False, "lower"), (True, "upper")):
        found.append(Feature(f"{name} band slit", "cut", _slit(saddle, up)))
        found += [Feature(f"{name} pit {k + 1}", "cut", _pit(saddle, up, x)) for k, x in enumerate(saddle.pits)]
    return found


def saddle_bores(saddle: Saddle) -> list[Feature]:
    """The stub's room: cut already, before the sides were fused to the plate."""
    return [
        Feature(f"{name} saddle bore", "cut", _stub(saddle, up)) for up, name in ((False, "lower"), (True, "upper"))
    ]


def _stub(saddle: Saddle, up: bool) -> Solid:
    return cylinder(saddle.frame(up), saddle.r_in, saddle.z0[up] - OVER, saddle.end_z + OVER)


def _slit(saddle: Saddle, up: bool) -> Solid:
    """All round, though there is material on the near half only."""
    frame, (z0, z1) = saddle.frame(up), slit_z(saddle, up)
    return cut(cylinder(frame, saddle.slit_r, z0, z1), [cylinder(frame, saddle.r_band, z0 - OVER, z1 + OVER)], "slit")


def _pit(saddle: Saddle, up: bool, x: Span) -> Solid:
    """From the plate's rear face up into the slit."""
    z0, z1 = slit_z(saddle, up)
    z = (z0, z1) if up else (-z1, -z0)
    middle = (saddle.r_band + saddle.slit_r) / 2
    over = cylinder(saddle.frame(up), middle, z0 - OVER, z1 + OVER)
    return cut(box(x, (saddle.centre_y, saddle.pit_y), z), [over], "pit")


def slit_z(saddle: Saddle, up: bool) -> Span:
    """Where the slit begins and ends, from the blade's plane."""
    begin = saddle.z0[up] + saddle.lip
    return begin, begin + saddle.band_wide


def added_mm3(saddle: Saddle, plate_y: Span, half_high: float) -> float:
    """What both sides add to the plate: circles cut by straight lines, times heights; and arms beyond its edges."""
    x, wide = saddle.half_wide, saddle.band_wide
    arm = 2 * x * (plate_y[0] - saddle.centre_y) - _under(saddle.r_in, x)
    horns = _beyond(saddle.r_rim, x) - _beyond(saddle.r_in, x)
    slit = _under(saddle.slit_r, x) - _under(saddle.r_band, x) + _beyond(saddle.r_rim, x) - _beyond(saddle.r_band, x)
    pits = math.fsum(
        (b - a) * (saddle.pit_y - saddle.centre_y) - (_under(saddle.slit_r, b) - _under(saddle.slit_r, a)) / 2
        for a, b in saddle.pits[1:]
    )
    beyond = 2 * x * (plate_y[1] - plate_y[0])
    return math.fsum(
        (arm + horns) * (saddle.end_z - z0)
        - (slit + 2 * pits) * wide
        + beyond * max(0.0, saddle.end_z - max(z0, half_high))
        for z0 in saddle.z0
    )


def _under(r: float, x: float) -> float:
    """Area of a half disc within x either side of its middle."""
    return x * math.sqrt(r * r - x * x) + r * r * math.asin(x / r)


def _beyond(r: float, x: float) -> float:
    """Area of a half disc beyond that."""
    return math.pi * r * r / 2 - _under(r, x)
