"""What the report says of a hanger beside the findings: what it holds, how it is printed, what is not claimed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.frame import Vec
from fitwright.part import Dimension
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.things import named
from fitwright.spec.models import HoseHangerSpec

CAUTIONS = (
    "No safe load is claimed: hang the real load on it once, and pull at it, before anybody stands below.",
    "Fine wood dust is combustible and plastic pipe and hose charge up: bond the hose's wire and metal parts where "
    "local rules ask for it.",
)
OVERHEAD = (
    "It hangs: fix the {what} a second time, by a line through the eye to a screw of its own, wherever people pass "
    "below. Local building rules come first."
)
NO_EYE = "It has no eye for a second fixing: hang it only where nobody stands or walks below."
CUTTER = "A cutter runs below: only screws and nuts hold here, and the locking nuts are looked at before each job."
DROPPED_IN = "The {what} is laid in from above and only gravity holds it: a pull upwards lifts it out."
HEAT = "This filament creeps under a lasting load: print a hanger in PETG, ASA or ABS."
SURFACE = {"up": "above it", "down": "below it", "left": "on its left", "right": "on its right"}


def hanger_facts(plan: HangerPlan, spec: HoseHangerSpec) -> Mapping[str, str]:
    """Lines for the report, lengths in mm."""
    return {**dict(_facts(plan, spec)), **plan.base.facts}


def _facts(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[tuple[str, str]]:
    what, sizes = spec.carried.kind, plan.sizes
    count = f"{spec.count} x " if spec.count > 1 else ""
    yield "holds", f"{count}{what} {spec.carried.size.words} mm outside, in a {spec.style}"
    yield "bore", f"{sizes.bore_printed_d:.1f} mm printed, {sizes.wide:.1f} mm wide along the {what}"
    if spec.count > 1:
        apart = (sizes.axes_u[1] - sizes.axes_u[0]) * spec.printer.scale_xy
        yield "apart", f"{apart:.1f} mm from axis to axis"
    yield "surface", f"{SURFACE[plan.placed.side]}, {plan.placed.axis_mm:.1f} mm from the {what}'s axis"
    yield (
        "printing",
        "lying on its side, the front face (towards you) down: the layers run round the "
        f"{what}, the way the load bends the arms; standing up it would split between two layers",
    )


def hanger_assumed(plan: HangerPlan, spec: HoseHangerSpec) -> Mapping[str, str]:
    """YAML keys that were filled in, with value and reason."""
    said: dict[str, str] = {}
    if spec.arm_mm is None:
        said["arm"] = f"{plan.sizes.arm:.1f} mm: for a snag of 150 N at the lip"
    if spec.apart_mm is None and spec.count > 1:
        said["apart"] = "as near as each can still be put in"
    if spec.mount.axis_mm is None:
        said["mount"] = f"the {spec.carried.kind}'s axis {plan.placed.axis_mm:.1f} mm from the surface: as near as fits"
    if "spacing" in spec.defaulted:
        said["spacing"] = f"{spec.spacing_mm:.0f} mm to the next hanger, half of it on each side"
    return said


def hanger_cautions(spec: HoseHangerSpec) -> tuple[str, ...]:
    """Short, and only what concerns this one."""
    said = list(CAUTIONS)
    if spec.overhead:
        said.insert(0, OVERHEAD.format(what=spec.carried.kind) if spec.eye else NO_EYE)
    if spec.throat_mm is not None and spec.throat_mm >= spec.carried.size.nominal_mm:
        said.append(DROPPED_IN.format(what=spec.carried.kind))
    if spec.above == "cutter":
        said.append(CUTTER)
    if spec.material.creeps:
        said.append(HEAT)
    return tuple(said)


def hanger_dimensions(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Dimension, ...]:
    """Main dimensions, in the section across the hose."""
    at, sizes = plan.placed, plan.sizes
    u = sizes.axes_u[0]
    x, y, z = at.point(u, sizes.wide / 2, at.axis_mm)
    r = sizes.bore_r
    made = [Dimension("bore", (x - r, y, z), (x + r, y, z), sizes.bore_printed_d)]
    low, high = plan.base.u
    ends = at.point(low, y, 0.0), at.point(high, y, 0.0)
    made.append(Dimension("base", *ends, (high - low) * spec.printer.scale_xy))
    made.append(Dimension("to the axis", at.point(u, y, 0.0), (x, y, z), at.axis_mm * spec.printer.scale_xy))
    if len(sizes.axes_u) > 1:
        other = at.point(sizes.axes_u[1], y, at.axis_mm)
        made.append(Dimension("apart", (x, y, z), other, (sizes.axes_u[1] - u) * spec.printer.scale_xy))
    return tuple(made)


def hanger_labels(plan: HangerPlan, spec: HoseHangerSpec) -> Mapping[str, Vec]:
    """Words for the picture and the point that each names."""
    at, y = plan.placed, plan.sizes.wide / 2
    said = {named(spec, k): at.point(u, y, at.axis_mm) for k, u in enumerate(plan.sizes.axes_u, start=1)}
    low, high = plan.base.u
    said["surface"] = at.point(low + 0.3 * (high - low), y, 0.0)
    return said
