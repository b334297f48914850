"""From the spec to the plan of a hanger: sizes, what is round each hose, the base, and the profile of all."""

from __future__ import annotations

from fitwright.errors import BuildError
from fitwright.outline import Outline
from fitwright.outline_union import Region, difference
from fitwright.parts.hanger.base_plate import PLATE_MM, beside
from fitwright.parts.hanger.cuts import through_holes
from fitwright.parts.hanger.necks import neck_uv
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Base, Carrier, HangerPlan, Sizes
from fitwright.parts.hanger.shapes_uv import disc_uv
from fitwright.parts.hanger.styles import carrier_of, sizes_of
from fitwright.spec.hanger import HoseHangerSpec


def hanger_plan(spec: HoseHangerSpec) -> HangerPlan:
    """The plan; RefusalError names the key that has to change."""
    side = Placed(spec.mount.side, 0.0)
    sizes = sizes_of(spec, side)
    trial = [carrier_of(sizes, spec, 0.0, 0.0, "")]
    axis = max(one.base_v for one in trial) + PLATE_MM
    axis = max(axis, spec.mount.axis_mm or 0.0)
    at = Placed(spec.mount.side, axis)
    carriers = tuple(carrier_of(sizes, spec, u, axis, _number(spec, k)) for k, u in enumerate(sizes.axes_u, start=1))
    base = _base(spec, sizes, carriers)
    cuts = (*(cut for one in carriers for cut in one.cuts), *base.cuts)
    return HangerPlan(at, sizes, carriers, base, _profile(sizes, carriers, base, axis), cuts, through_holes(cuts))


def _number(spec: HoseHangerSpec, k: int) -> str:
    return "" if spec.count == 1 else f"{k} "


def _base(spec: HoseHangerSpec, sizes: Sizes, carriers: tuple[Carrier, ...]) -> Base:
    low = min(u + one.reach_u[0] for u, one in zip(sizes.axes_u, carriers, strict=True))
    high = max(u + one.reach_u[1] for u, one in zip(sizes.axes_u, carriers, strict=True))
    return beside(spec, (low, high), sizes.wide)


def _profile(sizes: Sizes, carriers: tuple[Carrier, ...], base: Base, axis: float) -> Region:
    adds: list[Outline] = list(base.adds)
    takes: list[Outline] = list(base.takes)
    for u, one in zip(sizes.axes_u, carriers, strict=True):
        adds += one.adds
        takes += one.takes
        adds.append(neck_uv((u, axis), sizes, one.neck_u, base.thick / 2))
        takes.append(disc_uv((u, axis), sizes.bore_r))
    regions = difference(adds, takes)
    if len(regions) != 1:
        raise BuildError(f"the hanger's profile fell into {len(regions)} pieces")
    return regions[0]
