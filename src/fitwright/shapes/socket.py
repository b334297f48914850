"""A socket: a printed ring that goes over a pipe, hose end or machine port."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.joint import (
    OVERSHOOT_MM,
    SKIN_MM,
    Hole,
    JointShape,
    RadialScrews,
    Tool,
    Zone,
    clock_direction,
    corner_run,
    crest_zone,
    groove,
    lead_run,
    radial_holes,
    ridge_zone,
    to_root,
)
from fitwright.shapes.profile import Polyline, clipped, hump, tidy, upper_envelope
from fitwright.shapes.ridge import RidgeSizes
from fitwright.shapes.solids import bar, fused, prism, ring

RIM_MM = 0.8
"""Height of the rims that keep a clamp band in place (a printed ledge of 0.8 needs no support)."""
SLIT_MM = 3.0
"""Width of a clamp slit: enough for the fingers to close by 1 mm on the diameter with 4 slits."""


@dataclass(frozen=True)
class Place:
    """Where a joint is built, what it is called, and what its profile is carried round."""

    frame: Frame
    name: str
    form: Form


@dataclass(frozen=True)
class SocketSizes:
    """All in mm. `mouth_d`, `bottom_d`: bore at s = 0 (without the lead-in) and at `depth`. `stop` is radial."""

    mouth_d: float
    bottom_d: float
    depth: float
    lead_in: float
    stop: float
    wall: float
    root_wall: float
    slits: int = 0
    band: float = 0.0
    cord: float = 0.0
    cord_groove: float = 0.0
    screws: RadialScrews | None = None
    flare: float = 0.0
    """How much the outside swells round the mouth, so that a large lead-in leaves a lip."""
    ridge: RidgeSizes | None = None

    def bore_r(self, s: float) -> float:
        """Bore radius at s, lead-in left out."""
        return (self.mouth_d + (self.bottom_d - self.mouth_d) * s / self.depth) / 2


def socket(sizes: SocketSizes, frame: Frame, name: str, form: Form = ROUND) -> JointShape:
    """The socket's half-profiles, grooves, slits and pilots; the passage goes on behind a 45 deg stop shoulder."""
    lead = lead_run(sizes.lead_in)
    bore = [(0.0, sizes.bore_r(0) + sizes.lead_in), (lead, sizes.bore_r(lead)), (sizes.depth, sizes.bottom_d / 2)]
    fit_from, bore, cuts, humps = _cord(sizes, Place(frame, name, form), lead, bore)
    passage = sizes.bottom_d / 2 - sizes.stop
    skin = max(sizes.bore_r(0.0), sizes.bottom_d / 2) + sizes.wall
    straight_to = sizes.depth + corner_run(sizes.wall)
    rims = _rims(sizes, skin)
    humps += _flare(sizes, skin, lead)
    root_s, slope = to_root(skin, straight_to, passage + sizes.root_wall, sizes.wall)
    root_s = max(root_s, sizes.depth + sizes.stop + 0.5)
    outer = upper_envelope([((0.0, skin), (straight_to, skin)), (*slope, (root_s, slope[-1][1])), *humps, *rims])
    inner = tidy([*bore, (sizes.depth + sizes.stop, passage), (root_s, passage)])
    holes: tuple[Hole, ...] = ()
    if sizes.screws:
        holes = radial_holes(frame, sizes.screws, sizes.bore_r(sizes.screws.s_mm), skin + 3.0, f"{name} screw", form)
    crests = [crest_zone(f"{name} band rim {i + 1}", r, sizes.wall) for i, r in enumerate(rims)]
    ridges = (ridge_zone(sizes.ridge, name, sizes.wall),) if sizes.ridge else ()
    slits = _slits(sizes, frame, name, skin)
    lip = Zone(
        f"{name} mouth lip",
        -0.1,
        lead + 0.2,
        0.0,
        skin + (SKIN_MM if rims else 9.0),
        sizes.wall - sizes.lead_in + sizes.flare,
    )
    return JointShape(
        inner,
        outer,
        root_s,
        sizes.depth,
        fit=(fit_from, 2 * sizes.bore_r(fit_from), sizes.depth, sizes.bottom_d),
        ring_cuts=cuts,
        ring_bosses=(*_shoulder(sizes, Place(frame, name, form)), *_rim_tools(rims, frame, name)),
        cuts=slits,
        holes=holes,
        ridge=sizes.ridge,
        zones=(*((lip,) if sizes.lead_in > 0 else ()), *crests, *ridges),
        cord_groove_depth_mm=sizes.cord_groove,
        form=form,
    )


def _shoulder(sizes: SocketSizes, place: Place) -> tuple[Tool, ...]:
    """The stop shoulder, as the ring of material that it adds inside the bore's own radius."""
    if sizes.stop <= 0:
        return ()
    r, s = sizes.bottom_d / 2, sizes.depth
    line = [(s, r), (s + sizes.stop, r - sizes.stop), (s + sizes.stop, r)]
    return (Tool(f"{place.name} stop shoulder", place.form.ring(line, place.frame)),)


def _rim_tools(rims: list[Polyline], frame: Frame, name: str) -> tuple[Tool, ...]:
    return tuple(Tool(f"{name} band rim {i + 1}", ring(list(r), frame)) for i, r in enumerate(rims))


def _cord(
    sizes: SocketSizes, place: Place, lead: float, bore: list[tuple[float, float]]
) -> tuple[float, list[tuple[float, float]], tuple[Tool, ...], list[Polyline]]:
    """The foam cord's groove near the mouth, and the hump outside that keeps the wall behind it."""
    if sizes.cord <= 0:
        return lead, bore, (), []
    floor_w = 1.2 * sizes.cord
    middle = lead + 2.0 + floor_w / 2 + sizes.cord_groove
    r = sizes.bore_r(middle)
    line = groove(middle, floor_w, sizes.cord_groove, +1, sizes.bore_r)
    top = r + sizes.cord_groove + sizes.wall
    half = floor_w / 2 + corner_run(sizes.wall)
    crest = clipped(hump(middle - half, middle + half, top, sizes.bore_r(0.0)), 0.0, math.inf)
    tool = Tool(f"{place.name} cord groove", place.form.ring(list(line), place.frame))
    return line[3][0], [*bore[:-1], *line, bore[-1]], (tool,), [crest]


def _flare(sizes: SocketSizes, skin: float, lead: float) -> list[Polyline]:
    """A swelling outside over the lead-in, falling to the skin at 45 deg behind it."""
    if sizes.flare <= 0.0:
        return []
    return [((0.0, skin + sizes.flare), (lead, skin + sizes.flare), (lead + sizes.flare, skin))]


def _rims(sizes: SocketSizes, skin: float) -> list[Polyline]:
    """Two rims either side of the clamp band, its middle at 0.4 of the depth."""
    if sizes.band <= 0:
        return []
    middle = _band_middle(sizes)
    a, b = middle - sizes.band / 2, middle + sizes.band / 2
    top = skin + RIM_MM
    return [hump(a - RIM_MM - 1.0, a - RIM_MM, top, skin), hump(b + RIM_MM, b + RIM_MM + 1.0, top, skin)]


def _slits(sizes: SocketSizes, frame: Frame, name: str, skin: float) -> tuple[Tool, ...]:
    """Slits from the mouth past the band, each with a round end so that it does not tear on."""
    if sizes.slits == 0:
        return ()
    length = slit_reach(sizes)
    r_in, r_out = sizes.bore_r(sizes.depth) - 1.5, skin + RIM_MM + 1.0
    return tuple(
        Tool(
            f"{name} slit {k + 1}",
            _slit(frame, first_slit_deg(sizes.slits) + 360.0 * k / sizes.slits, length, r_in, r_out),
        )
        for k in range(sizes.slits)
    )


def _slit(frame: Frame, deg: float, length: float, r_in: float, r_out: float) -> Solid:
    a, half = math.radians(deg), SLIT_MM / 2
    along, across = (math.sin(a), math.cos(a)), (math.cos(a), -math.sin(a))

    def corner(r: float, side: float) -> tuple[float, float]:
        return r * along[0] + side * half * across[0], r * along[1] + side * half * across[1]

    outline = [corner(r_in, -1), corner(r_out, -1), corner(r_out, 1), corner(r_in, 1)]
    box = prism(outline, frame, -OVERSHOOT_MM, length - half)
    base = frame.point(r_in * along[0], length - half, r_in * along[1])
    return fused([box, bar(base, clock_direction(frame, deg), half, r_out - r_in)], "slit")


def first_slit_deg(count: int) -> float:
    """Clock angle of the first slit: a little off up, so that no slit lies in the plane of a section drawing."""
    return 45.0 / count


def slit_reach(sizes: SocketSizes) -> float:
    """How far the slits reach from the mouth [mm]: past the band, or three quarters of the depth; 0 without slits."""
    if sizes.slits == 0:
        return 0.0
    return max(0.75 * sizes.depth, _band_middle(sizes) + sizes.band / 2 + 2.0)


def band_room(sizes: SocketSizes) -> float:
    """The least depth [mm] that has room for the band and its rims; 0 without a band."""
    if sizes.band <= 0:
        return 0.0
    behind = sizes.band / 2 + 2 * RIM_MM + 1.0
    return max(behind / 0.6, sizes.band / 2 + 2 * RIM_MM + 2.2 + behind)


def _band_middle(sizes: SocketSizes) -> float:
    return max(0.4 * sizes.depth, sizes.band / 2 + 2 * RIM_MM + 2.2)
