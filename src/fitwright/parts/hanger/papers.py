"""The 1:1 template of a hanger's base on its surface, and the slice that is printed first."""

from __future__ import annotations

from cadquery import Solid, Vector

from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.drawing.sheet import Point
from fitwright.part import Body, TryPiece
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.spec.hanger import Side
from fitwright.spec.models import HoseHangerSpec

SLICE_MM = 2.4
"""A slice so thick shows whether hose and arm fit, in minutes (common practice, no source)."""
BESIDE_MM = 5.0
"""Left free round a slice on the bed."""
_LOOKS: dict[Side, tuple[str, str]] = {
    "up": ("as you stand before it and look up at the surface", "towards you"),
    "down": ("as you stand before it and look down at the surface", "away from you"),
    "left": ("as you look at the surface on your left", "up"),
    "right": ("as you look at the surface on your right", "up"),
}


def hanger_templates(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Face, ...]:
    """The base's outline and holes, as seen by who looks at the surface; nothing where it has no hole in a surface."""
    if not plan.base.points:
        return ()
    scale, wide = spec.printer.scale_xy, plan.sizes.wide
    side = plan.placed.side

    def seen(u: float, y: float) -> Point:
        u, y = u * scale, (y - wide / 2) * scale
        return {"up": (u, -y), "down": (u, y), "left": (y, u), "right": (-y, u)}[side]

    (low, high), (front_y, back_y) = _on_surface(plan)
    corners = [seen(u, y) for u, y in ((low, front_y), (high, front_y), (high, back_y), (low, back_y))]
    lines = [FaceLine("base", points=tuple(corners))]
    r = spec.carried.size.nominal_mm / 2
    for u in plan.sizes.axes_u:
        band = [seen(a, y) for a, y in ((u - r, 0.0), (u + r, 0.0), (u + r, wide), (u - r, wide))]
        lines.append(FaceLine(spec.carried.kind, points=tuple(band), style="hidden"))
    holes = tuple(FaceHole(seen(p.u, p.y), p.row.hole_mm(), p.row.name) for p in plan.base.points)
    front, upwards = _LOOKS[side]
    says = (f"The {spec.carried.kind} runs where the dashed lines are.", "Mark the holes, then take the paper off.")
    back = "as seen from behind the surface"
    return (Face("base", "base on its surface", tuple(lines), holes, says, front, back, True, upwards),)


def _on_surface(plan: HangerPlan) -> tuple[tuple[float, float], tuple[float, float]]:
    """What lies on the surface, along u and along the hose [mm]: of a swivel the base of its own."""
    base = plan.base
    if base.swivel is None:
        return base.u, base.y or (0.0, plan.sizes.wide)
    left, _, right, _ = base.swivel.profile.outer.bounds_mm
    return (left, right), (base.swivel.y0, base.swivel.y1)


def slice_of(plan: HangerPlan, body: Body, bed_mm: tuple[float, float]) -> TryPiece:
    """The first millimetres of the profile, to hold against hose and surface; as much of it as the bed takes."""
    box = body.solid.BoundingBox()
    x, z = (box.xmin - 1.0, box.xmax + 1.0), (box.zmin - 1.0, box.zmax + 1.0)
    if not _lies(box.xlen, box.zlen, bed_mm):
        u = _one_of(plan, bed_mm)
        ends = [plan.placed.xz(one, 0.0) for one in u]
        if plan.placed.side in ("up", "down"):
            x = ends[0][0], ends[1][0]
        else:
            z = ends[0][1], ends[1][1]
    tool = Solid.makeBox(x[1] - x[0], min(SLICE_MM, plan.sizes.wide) + 1.0, z[1] - z[0], Vector(x[0], -1.0, z[0]))
    return TryPiece(f"{body.name} slice", tool, (0.0, -1.0, 0.0))


def _lies(long: float, high: float, bed_mm: tuple[float, float]) -> bool:
    """Whether a slice lies straight on the bed, either way round."""
    x, y = (one - 2 * BESIDE_MM for one in bed_mm)
    return (long <= x and high <= y) or (long <= y and high <= x)


def _one_of(plan: HangerPlan, bed_mm: tuple[float, float]) -> tuple[float, float]:
    """From the first screw to past the first hose along u; without the screw where that is still too long."""
    u, one = plan.sizes.axes_u[0], plan.carrier[0]
    low, high = u + one.reach_u[0] - 1.0, u + one.reach_u[1] + 1.0
    if plan.sizes.apart:
        high = min(high, u + plan.sizes.apart / 2)
    first = plan.base.u[0] - 1.0
    return (first, high) if high - first <= max(bed_mm) - 2 * BESIDE_MM else (low, high)
