"""Two joints and what links them, made into one checked-for-volume body with all its declarations."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cadquery import Solid

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.part import Body, Feature, HoleFit, Pose, TryPiece, WallZone
from fitwright.parts.ends import EndPlan
from fitwright.parts.fit_faces import fit_surface
from fitwright.shapes.joint import OVERSHOOT_MM, JointShape
from fitwright.shapes.profile import Polyline, volume_mm3
from fitwright.shapes.solids import cut, cylinder, fused, revolve
from fitwright.spec.models import Flange
from fitwright.tolerances import TOLERANCES

TRY_RING_MM = 10.0
TRY_SKIN_MM = 2.0
FOOTPRINT_REACH_MM = 700.0
"""Wider than any flange of ours; the slab is too thin to meet anything else."""


@dataclass(frozen=True)
class Skin:
    """Solids that together fill the outside (or the passage), with their closed-form volume [mm3]."""

    solids: tuple[Solid, ...]
    volume_mm3: float


@dataclass(frozen=True)
class PlacedEnd:
    """A joint in its place."""

    plan: EndPlan
    shape: JointShape
    frame: Frame


def revolved(line: Polyline, frame: Frame) -> Skin:
    """A half-profile turned about its frame's axis."""
    return Skin((revolve(line, frame),), volume_mm3(line))


def together(skins: Sequence[Skin]) -> Skin:
    """Skins that touch at whole faces and overlap nowhere: volumes add."""
    return Skin(tuple(s for k in skins for s in k.solids), sum(k.volume_mm3 for k in skins))


def opened(line: Polyline, at_start: bool = True, at_end: bool = False) -> Polyline:
    """An inner half-profile drawn out past its mouths, so that the cut leaves no skin."""
    out = line
    if at_start:
        out = ((out[0][0] - OVERSHOOT_MM, out[0][1]), *out)
    if at_end:
        out = (*out, (out[-1][0] + OVERSHOOT_MM, out[-1][1]))
    return out


def adapter_body(name: str, outer: Skin, inner: Skin, ends: tuple[PlacedEnd, PlacedEnd], wall_mm: float) -> Body:
    """Outside less passage less cuts, with features, zones, fits, holes, try-pieces and poses declared."""
    hull, passage = _filled(outer, "outside"), _filled(inner, "passage")
    bosses = [t.solid for e in ends for t in e.shape.bosses]
    hull = fused([hull, *bosses], "flange and gussets") if bosses else hull
    tools = [t for e in ends for t in (*e.shape.cuts, *(h.tool() for h in e.shape.holes))]
    solid = cut(hull, [passage, *(t.solid for t in tools)], name)
    past_mouths = sum(OVERSHOOT_MM * math.pi * e.shape.inner[0][1] ** 2 for e in ends)
    plain = not tools and not bosses
    return Body(
        name=name,
        solid=solid,
        genus=1 + sum(len(e.shape.holes) for e in ends),
        wall_mm=wall_mm,
        poses=tuple(Pose(f"{e.plan.key} down", _away(e.frame.inward)) for e in ends),
        features=(Feature("passage", "cut", passage), *(f for e in ends for f in _features(e))),
        wall_zones=tuple(z for e in ends for z in _zones(e)),
        fits=tuple(f for e in ends if (f := fit_surface(e.plan, e.shape, e.frame))),
        holes=tuple(h for e in ends for h in _holes(e)),
        tries=tuple(t for e in ends if (t := _try_piece(e))),
        volume_mm3=outer.volume_mm3 - inner.volume_mm3 + past_mouths if plain else None,
    )


def _filled(skin: Skin, what: str) -> Solid:
    """One solid out of the skin's, compared with its closed form."""
    solid = fused(skin.solids, what)
    found = solid.Volume()
    if abs(found - skin.volume_mm3) > TOLERANCES.volume_rel * skin.volume_mm3:
        raise BuildError(f"{what}: volume {found:.3f} mm3 where the closed form gives {skin.volume_mm3:.3f}")
    return solid


def _away(v: Vec) -> Vec:
    return (-v[0], -v[1], -v[2])


def _features(end: PlacedEnd) -> list[Feature]:
    cuts = [*end.shape.ring_cuts, *end.shape.cuts, *(h.tool() for h in end.shape.holes)]
    through = [t.solid for t in (*end.shape.cuts, *(h.tool() for h in end.shape.holes))]
    found = [Feature(t.name, "cut", t.solid) for t in cuts]
    for boss in end.shape.ring_bosses:
        left = boss.solid.cut(*through) if through else boss.solid
        found.append(Feature(boss.name, "boss", left))
    return found


def _zones(end: PlacedEnd) -> list[WallZone]:
    return [WallZone(z.name, end.frame, z.s0_mm, z.s1_mm, z.r0_mm, z.r1_mm, z.limit_mm) for z in end.shape.zones]


def _holes(end: PlacedEnd) -> list[HoleFit]:
    key = f"{end.plan.key}.{end.plan.end.kind}." + ("holes" if isinstance(end.plan.end.joint, Flange) else "screws")
    return [HoleFit(h.name, h.start, h.direction, h.length_mm, h.d_mm, key) for h in end.shape.holes]


def _try_piece(end: PlacedEnd) -> TryPiece | None:
    """A 10 mm ring where the joint is tightest, or a 2 mm skin of a flange's footprint; nothing for a plain end."""
    joint, shape = end.plan.end.joint, end.shape
    down = _away(end.frame.inward)
    if isinstance(joint, Flange):
        return TryPiece(f"{end.plan.key} footprint", cylinder(end.frame, FOOTPRINT_REACH_MM, -0.1, TRY_SKIN_MM), down)
    if shape.fit is None:
        return None
    _, d0, s1, d1 = shape.fit
    tight_at_root = (d1 < d0) == (end.plan.end.kind == "socket") and abs(d1 - d0) > 1e-6
    at = max(0.0, s1 - TRY_RING_MM) if tight_at_root else -0.1
    reach = max(r for _, r in shape.outer) + 2.0
    return TryPiece(f"{end.plan.key} ring", cylinder(end.frame, reach, at, at + TRY_RING_MM), down)
