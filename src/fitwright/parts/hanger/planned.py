"""From the spec to the plan of a hanger: sizes, what is round each hose, the base, and the profile of all."""

from __future__ import annotations

from dataclasses import replace

from fitwright.errors import BuildError
from fitwright.outline import Outline
from fitwright.outline_union import Region, difference
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.hanger.cuts import Cut, Drilled, Window
from fitwright.parts.hanger.mount import base_of, mount_axis_mm, mount_wide_mm
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Base, Carrier, HangerPlan, Sizes
from fitwright.parts.hanger.saddle import saddle
from fitwright.parts.hanger.shapes_uv import box_uv, disc_uv
from fitwright.spec.hanger import HoseHangerSpec

ARM_MM = 8.0
SLACK_MM = 1.0
"""A saddle's or hook's bore is so much wider than the hose (common practice, no source)."""
OPENS_DEG = {"up": 180.0, "down": 0.0, "left": 0.0, "right": 0.0}
"""A saddle opens upwards; under a ceiling it opens downwards, and its strap carries."""


def hanger_plan(spec: HoseHangerSpec) -> HangerPlan:
    """The plan; RefusalError names the key that has to change."""
    side = Placed(spec.mount.side, 0.0)
    sizes = _sizes(spec, side)
    sizes = replace(sizes, wide=mount_wide_mm(spec, sizes))
    trial = [_carrier(sizes, spec, 0.0, 0.0, "")]
    axis = mount_axis_mm(spec, sizes, tuple(trial) * len(sizes.axes_u))
    at = Placed(spec.mount.side, axis)
    carriers = tuple(_carrier(sizes, spec, u, axis, _number(spec, k)) for k, u in enumerate(sizes.axes_u, start=1))
    base = base_of(spec, sizes, carriers, at)
    cuts = (*(cut for one in carriers for cut in one.cuts), *base.cuts)
    return HangerPlan(at, sizes, carriers, base, _profile(sizes, carriers, base, axis), cuts, _holes(cuts))


def _number(spec: HoseHangerSpec, k: int) -> str:
    return "" if spec.count == 1 else f"{k} "


def _sizes(spec: HoseHangerSpec, side: Placed) -> Sizes:
    printed = spec.carried.size.greatest_mm + SLACK_MM
    bore = modelled(printed, "hole", spec.printer) / 2
    opens = side.uv_of_turn(OPENS_DEG[spec.mount.side] if spec.opens_deg is None else spec.opens_deg)
    arm = ARM_MM if spec.arm_mm is None else spec.arm_mm
    one = Sizes(bore, printed, arm, spec.width_mm, 90.0, opens, (0.0,))
    apart = spec.apart_mm or _apart(one, spec)
    axes = tuple(placed((k - (spec.count - 1) / 2) * apart, spec.printer) for k in range(spec.count))
    return Sizes(bore, printed, arm, spec.width_mm, 90.0, opens, axes)


def _apart(one: Sizes, spec: HoseHangerSpec) -> float:
    """Side by side as near as they come in: past the lip of the next one, or with their ears next to each other."""
    carrier = _carrier(one, spec, 0.0, 0.0, "")
    if abs(one.opens[0]) > 0.7:
        return one.out_r + 2 * one.bore_r + 4.0
    return carrier.reach_u[1] - carrier.reach_u[0] + 2.0


def _carrier(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    return saddle(sizes, spec, u, v, number)


def _profile(sizes: Sizes, carriers: tuple[Carrier, ...], base: Base, axis: float) -> Region:
    adds: list[Outline] = list(base.adds)
    takes: list[Outline] = list(base.takes)
    for u, one in zip(sizes.axes_u, carriers, strict=True):
        adds += one.adds
        takes += one.takes
        low, high = _neck(one, base)
        begin = base.thick / 2 if base.neck_v is None else base.neck_v
        if high > low:
            adds.append(box_uv((u + low, u + high), (begin, axis)))
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


def _holes(cuts: tuple[Cut, ...]) -> int:
    drilled = sum(1 for one in cuts if isinstance(one, Drilled) and (one.fit or one.pierces))
    return drilled + sum(one.through for one in cuts if isinstance(one, Window))
