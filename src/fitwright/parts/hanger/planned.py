"""From the spec to the plan of a hanger: sizes, what is round each hose, the base, and the profile of all."""

from __future__ import annotations

from dataclasses import replace

from fitwright.errors import BuildError
from fitwright.outline import Outline
from fitwright.outline_union import Region, difference
from fitwright.parts.hanger.cuts import through_holes
from fitwright.parts.hanger.mount import base_of, mount_axis_mm, mount_wide_mm, under_wide_mm
from fitwright.parts.hanger.neck_need import STAND_MM
from fitwright.parts.hanger.necks import fillets_uv, neck_uv
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Base, Carrier, HangerPlan, Sizes
from fitwright.parts.hanger.shapes_uv import disc_uv
from fitwright.parts.hanger.styles import carrier_of, sizes_of
from fitwright.spec.hanger import HoseHangerSpec


def hanger_plan(spec: HoseHangerSpec) -> HangerPlan:
    """The plan; RefusalError names the key that has to change."""
    sizes, axis = _found(spec, 0.0)
    if axis > sizes.out_r + STAND_MM:
        sizes, axis = _found(spec, axis)
    at = Placed(spec.mount.side, axis)
    carriers = tuple(carrier_of(sizes, spec, u, axis, _number(spec, k)) for k, u in enumerate(sizes.axes_u, start=1))
    base = base_of(spec, sizes, carriers, at)
    cuts = (*(cut for one in carriers for cut in one.cuts), *base.cuts)
    return HangerPlan(
        at, sizes, carriers, base, _profile(sizes, carriers, base, axis, _is_ring(spec)), cuts, through_holes(cuts)
    )


def _found(spec: HoseHangerSpec, known: float) -> tuple[Sizes, float]:
    """The sizes, and from the surface to the axis; `known`: how far that is, where it was found to be far."""
    sizes = sizes_of(spec, Placed(spec.mount.side, known))
    sizes = replace(sizes, wide=mount_wide_mm(spec, sizes))
    trial = [carrier_of(sizes, spec, 0.0, 0.0, "")]
    wide = under_wide_mm(spec, sizes, tuple(trial) * len(sizes.axes_u))
    if wide > sizes.wide:
        sizes = replace(sizes, wide=wide)
        trial = [carrier_of(sizes, spec, 0.0, 0.0, "")]
    return sizes, mount_axis_mm(spec, sizes, tuple(trial) * len(sizes.axes_u))


def _number(spec: HoseHangerSpec, k: int) -> str:
    return "" if spec.count == 1 else f"{k} "


def _is_ring(spec: HoseHangerSpec) -> bool:
    """Whether what is round the hose neither bends nor lets a band pass: its corners are rounded then."""
    return spec.style == "clamp" and spec.clamp.kind == "screws" and not spec.swivel


def _profile(sizes: Sizes, carriers: tuple[Carrier, ...], base: Base, axis: float, rounded: bool) -> Region:
    adds: list[Outline] = list(base.adds)
    takes: list[Outline] = list(base.takes)
    for u, one in zip(sizes.axes_u, carriers, strict=True):
        adds += one.adds
        takes += one.takes
        begin = base.thick / 2 if base.neck_v is None else base.neck_v
        low, high = _neck(one, base)
        if high > low:
            adds.append(neck_uv((u, axis), sizes, (low, high), begin))
            if rounded:
                adds += fillets_uv((u, axis), sizes, (low, high), base.thick)
        takes.append(disc_uv((u, axis), sizes.bore_r))
    regions = difference(adds, takes)
    if len(regions) != 1:
        raise BuildError(f"the hanger's profile fell into {len(regions)} pieces")
    return regions[0]


def _neck(one: Carrier, base: Base) -> tuple[float, float]:
    """Between these, from its axis, it is joined to the base."""
    low, high = one.neck_u
    if base.neck_half is None:
        return low, high
    return max(low, -base.neck_half), min(high, base.neck_half)
