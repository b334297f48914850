"""The band round a split clamp: a groove all round it, and a tunnel through the neck behind the half on the base."""

from __future__ import annotations

import math
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.mechanism import Bought
from fitwright.outline import Point
from fitwright.parts.hanger.clamp_screws import cap_of
from fitwright.parts.hanger.cuts import Window
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import sector_uv, segment_uv
from fitwright.spec.hanger import HoseHangerSpec

GROOVE_MM, TUNNEL_MM, BAND_SLACK_MM = 0.8, 2.0, 1.0
"""A band's groove, no deeper than a ledge prints; the room behind the ring; how much wider than the band."""
BEHIND_MM = 2.0
"""Between the tunnel and the base."""
LEAST_SIDE_MM = 5.0
"""Of the width, on each side of a band's groove."""
PAST_DEG = 10.0
NECK_OF_R = 0.6
"""Half the neck's width in outside radii: wider, the tunnel leaves sharp edges at its ends."""


def banded(ring: Carrier, sizes: Sizes, spec: HoseHangerSpec, at: Point, number: str) -> Carrier:
    """The ring with room for a band; RefusalError where the width has none."""
    groove = spec.clamp.band_mm + BAND_SLACK_MM
    need = groove + 2 * LEAST_SIDE_MM
    if sizes.wide < need:
        why = f"a band of {spec.clamp.band_mm:g} mm needs {LEAST_SIDE_MM:g} mm beside its groove"
        raise RefusalError("width", f"{sizes.wide:g}", f"{math.ceil(need)} mm or more", why)
    ys = sizes.wide / 2 - groove / 2, sizes.wide / 2 + groove / 2
    bottom, gap = sizes.out_r - GROOVE_MM, spec.clamp.gap_mm / 2
    half = NECK_OF_R * sizes.out_r
    tunnel = sector_uv(at, bottom, sizes.out_r + TUNNEL_MM, 180.0 - PAST_DEG, 180.0 + 2 * PAST_DEG)
    over = sector_uv(at, bottom, sizes.out_r + 1.0, -PAST_DEG, 180.0 + 2 * PAST_DEG)
    return replace(
        ring,
        cuts=(*ring.cuts, Window(f"band tunnel {number}".strip(), tunnel, *ys, "clamp.band")),
        reach_u=(-sizes.out_r - TUNNEL_MM, sizes.out_r + TUNNEL_MM),
        base_v=sizes.out_r + TUNNEL_MM + BEHIND_MM,
        neck_u=(max(ring.neck_u[0], -half), min(ring.neck_u[1], half)),
        cap=(cap := cap_of([segment_uv(at, sizes.out_r, gap)], sizes, at)),
        stands=(cap,),
        cap_cuts=(*ring.cap_cuts, Window(f"band groove {number}".strip(), over, *ys, "clamp.band", 0)),
        bought=(_band(sizes, spec),),
    )


def _band(sizes: Sizes, spec: HoseHangerSpec) -> Bought:
    d = 2 * (sizes.out_r - GROOVE_MM)
    return Bought(1, f"hose clamp or band {spec.clamp.band_mm:g} mm wide", note=f"to close on {d:.0f} mm")
