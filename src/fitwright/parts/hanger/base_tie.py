"""Tied to a round bar by two cable ties: a bed for the bar, and a tunnel for each tie. It holds by friction alone."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from fitwright.errors import RefusalError
from fitwright.hanging import HeldBy
from fitwright.outline import Outline
from fitwright.part import Bought, StandIn
from fitwright.parts.compensation import modelled
from fitwright.parts.hanger.base_through import plate_ends
from fitwright.parts.hanger.cuts import Cut, Window
from fitwright.parts.hanger.groove import Groove
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.outline_solids import along_u, along_y
from fitwright.parts.hanger.plan import Base, HangerPlan
from fitwright.parts.hanger.shapes_uv import box_uv, disc_uv
from fitwright.parts.hanger.site import Site
from fitwright.spec.hanger import HoseHangerSpec

SLACK_MM = 0.6
"""The bed is so much wider than the bar (common practice, no source)."""
BED_DEG = 45.0
"""The bar lies in so much of a circle on either side: a bed across the hose then prints without support."""
LIP_MM = 4.0
UNDER_MM = 4.0
"""Between the bar and a tie's tunnel, and beyond the tunnel."""
TUNNEL_MM = 1.0
"""A tunnel is so much wider and higher than its tie (common practice, no source)."""
AROUND_MM = 5.0
"""Round a tunnel."""
PAST_MM = 1.0
TAIL_MM = 40.0
"""What a tie needs beyond the way round, to be pulled by."""
SOLD_MM = (100, 140, 150, 200, 250, 300, 370, 450, 550, 750, 1000)
BAR_LONG_MM = 200.0


def tie_thick_mm(spec: HoseHangerSpec) -> float:
    """From the bar's near side to the base's inner face."""
    return 2 * UNDER_MM + spec.mount.tie_thick_mm + TUNNEL_MM


def tie_wide_mm(spec: HoseHangerSpec) -> float:
    """The width that two ties side by side, or the bed of a bar across, need."""
    if spec.mount.along:
        return 2 * (spec.mount.tie_wide_mm + TUNNEL_MM) + 3 * AROUND_MM
    return 2 * (bed_r_mm(spec) * math.sin(math.radians(BED_DEG)) + LIP_MM)


def tied(site: Site) -> Base:
    """The base on its bar."""
    spec = site.spec
    if spec.mount.bar_mm is None:
        raise RefusalError(key_of(spec, "bar"), "nothing", "its diameter", "how thick the bar is is not said")
    if spec.above == "cutter":
        why = "a tie holds by friction alone and lets go in time; above a cutter that must not be"
        raise RefusalError("mount", "cable_tie", "a mount with screws or bolts: holes, t_slot, joist_underside", why)
    return _along(site) if spec.mount.along else _across(site)


def bed_r_mm(spec: HoseHangerSpec) -> float:
    """Radius of the bed that the bar lies in, as modelled [mm]."""
    return modelled((spec.mount.bar_mm or 0.0) + SLACK_MM, "hole", spec.printer) / 2


def _bed_deep(spec: HoseHangerSpec) -> float:
    return bed_r_mm(spec) * (1.0 - math.cos(math.radians(BED_DEG)))


def _tunnel_v(spec: HoseHangerSpec) -> tuple[float, float]:
    return UNDER_MM, UNDER_MM + spec.mount.tie_thick_mm + TUNNEL_MM


def _along(site: Site) -> Base:
    """The bar runs as the hose does: its bed is in the profile, the tunnels go through from side to side."""
    spec, u = site.spec, (site.sizes.axes_u[0] + site.sizes.axes_u[-1]) / 2
    r, deep, thick = bed_r_mm(spec), _bed_deep(spec), tie_thick_mm(spec)
    half = max(r * math.sin(math.radians(BED_DEG)) + LIP_MM, 2 * LIP_MM)
    _reached(site, (u - half, u + half))
    slot, wide = spec.mount.tie_wide_mm + TUNNEL_MM, site.sizes.wide
    ys = (AROUND_MM, wide - AROUND_MM - slot)
    drawn = box_uv((u - half - PAST_MM, u + half + PAST_MM), _tunnel_v(spec))
    cuts = tuple(Window(f"tie tunnel {k}", drawn, y, y + slot, "mount") for k, y in enumerate(ys, start=1))
    adds = (box_uv((u - half, u + half), (-deep, thick)),)
    return _made(site, adds, (disc_uv((u, -r), r),), cuts, (u - half, u + half), [(u, y + slot / 2) for y in ys])


def _across(site: Site) -> Base:
    """The bar runs across the hose: its bed is cut along u, the tunnels are holes of the profile."""
    spec, wide = site.spec, site.sizes.wide
    deep, thick, slot = _bed_deep(spec), tie_thick_mm(spec), spec.mount.tie_wide_mm + TUNNEL_MM
    u = (site.sizes.axes_u[0] + site.sizes.axes_u[-1]) / 2
    least = slot + 1.5 * AROUND_MM
    ends = plate_ends(site, (u - least, u + least))
    groove = Groove("bed of the bar", wide / 2, 2 * bed_r_mm(spec), deep, ends, key_of(spec, "bar"))
    lows = (ends[0] + AROUND_MM, ends[1] - AROUND_MM - slot)
    takes = tuple(box_uv((low, low + slot), _tunnel_v(spec)) for low in lows)
    adds = (box_uv(ends, (-deep, thick)),)
    return _made(site, adds, takes, (groove,), ends, [(low + slot / 2, wide / 2) for low in lows])


def _reached(site: Site, base: tuple[float, float]) -> None:
    """A base under one hose must meet its neck; under several it lies between them."""
    ends = plate_ends(site, base)
    lows = [at + one.neck_u[0] for at, one in zip(site.sizes.axes_u, site.carriers, strict=True)]
    if len(site.sizes.axes_u) > 1 and (ends[0] < base[0] - 1e-6 or max(lows) > base[1]):
        why = "a bar along several hoses carries only what is right at it"
        raise RefusalError("count", f"{len(site.sizes.axes_u)}", "1, or a bar across the hoses", why)


def _made(
    site: Site,
    adds: tuple[Outline, ...],
    takes: tuple[Outline, ...],
    cuts: tuple[Cut, ...],
    ends: tuple[float, float],
    ties: list[tuple[float, float]],
) -> Base:
    spec, thick = site.spec, tie_thick_mm(site.spec)
    mount = spec.mount
    size = f"{mount.tie_wide_mm:g} x {mount.tie_thick_mm:g} mm"
    held = tuple(_held(site, f"cable tie {k}", size, at) for k, at in enumerate(ties, start=1))
    bought = (Bought(2, f"cable tie {size}", tie_long_mm(spec), note="or longer; a new one every few years"),)
    says = "two ties hold by friction: pull them tight with a tool, and look at them when you pass"
    neck = thick - LIP_MM / 2
    return Base(
        thick,
        ends,
        adds,
        takes,
        cuts,
        facts={"ties": says},
        held=held,
        bought=bought,
        neck_v=neck,
        kind="cable_tie",
        things=_things(spec, sum(ends) / 2, site.sizes.wide / 2),
    )


def tie_long_mm(spec: HoseHangerSpec) -> float:
    """The length to buy [mm]: round the bar and through its tunnel, and a tail."""
    round_mm = math.pi * ((spec.mount.bar_mm or 0.0) + 2 * UNDER_MM) + TAIL_MM
    return float(next((one for one in SOLD_MM if one >= round_mm), math.ceil(round_mm / 10) * 10))


def _held(site: Site, name: str, size: str, at: tuple[float, float]) -> HeldBy:
    placed, mount = site.placed, site.spec.mount
    return HeldBy(
        name=name,
        size=size,
        d_mm=mount.tie_wide_mm,
        at=placed.point(at[0], at[1], 0.0),
        direction=placed.direction(0.0, -1.0),
        into="tie",
        key=key_of(site.spec, "tie"),
        head="tie",
    )


def _things(spec: HoseHangerSpec, u: float, y: float) -> Callable[[HangerPlan], Iterator[StandIn]]:
    """The bar."""
    d, along = spec.mount.bar_mm or 0.0, spec.mount.along

    def made(plan: HangerPlan) -> Iterator[StandIn]:
        bar = along_y if along else along_u
        yield StandIn("bar", bar(plan.placed, (u, y, -d / 2 - 0.01), d, BAR_LONG_MM), "mount", None)

    return made
