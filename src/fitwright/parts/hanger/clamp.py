"""A split clamp: a half on the base and a cap, parted through the axis, closed by two screws or by a band."""

from __future__ import annotations

import math
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.parts.hanger.clamp_band import banded
from fitwright.parts.hanger.clamp_screws import cap_of, screwed
from fitwright.parts.hanger.cuts import rims
from fitwright.parts.hanger.declared import CAP, bore, cradle
from fitwright.parts.hanger.necks import neck_span
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import segment_uv
from fitwright.spec.hanger import HoseHangerSpec


def clamp(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """The clamp round the axis at (u, v); its cap lies away from the surface."""
    _gap_takes_up(spec, sizes)
    ring = _ring(sizes, spec, u, v, number)
    return (
        screwed(ring, sizes, spec, (u, v), number)
        if spec.clamp.kind == "screws"
        else banded(ring, sizes, spec, (u, v), number)
    )


def _gap_takes_up(spec: HoseHangerSpec, sizes: Sizes) -> None:
    """The halves must still pull on the thinnest pipe in the widest print."""
    printer, size = spec.printer, spec.carried.size
    widest = size.nominal_mm * (1.0 + printer.scatter_rel) + printer.scatter_abs_mm
    need = widest - size.least_mm
    if spec.clamp.gap_mm < need:
        why = "the halves meet before they hold the thinnest pipe that this may be"
        raise RefusalError("clamp.gap", f"{spec.clamp.gap_mm:g}", f"{math.ceil(need * 2) / 2:g} mm or more", why)
    if spec.clamp.gap_mm > sizes.bore_r / 2:
        why = "the halves would leave too much of the pipe bare"
        raise RefusalError("clamp.gap", f"{spec.clamp.gap_mm:g}", f"{sizes.bore_r / 2:.1f} mm or less", why)


def _ring(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """Both halves without what closes them."""
    at, gap, key = Placed(spec.mount.side, v), spec.clamp.gap_mm / 2, spec.carried.key
    turned = math.degrees(math.asin(gap / sizes.bore_r))
    sweep = 180.0 - 2 * turned
    below, above = (180.0 + turned, sweep), (turned, sweep)
    cap, name = f"{CAP} {number}".strip(), f"half {number}".strip()
    flares = [*rims(u, v, sizes.bore_r, sizes.wide, (180.0, 180.0), f"rim {number}".strip())]
    over = [*rims(u, v, sizes.bore_r, sizes.wide, (0.0, 180.0), f"{cap} rim")]
    below_cuts, above_cuts = (tuple(replace(one, bare_mm=gap) for one in some) for some in (flares, over))
    return Carrier(
        (segment_uv((u, v), sizes.out_r, -gap),),
        (),
        below_cuts,
        (-sizes.out_r, sizes.out_r),
        sizes.out_r,
        neck_span(sizes),
        cap_of([segment_uv((u, v), sizes.out_r, gap)], sizes, (u, v)),
        above_cuts,
        (bore(at, sizes, u, below, name, key),),
        (bore(at, sizes, u, above, cap, key),),
        cradles=(cradle(at, sizes, u, below, name, key), cradle(at, sizes, u, above, cap, key, cap)),
    )
