"""Which pieces a gauge is made of, and where each lies on the bed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import MultiPoint, Point
from shapely.affinity import translate

from fitwright.errors import RefusalError
from fitwright.packing import GAP_MM, Plan, pack
from fitwright.parts.gauge_pieces import Draft, draft_plug, draft_ring, draft_set, draft_stepped
from fitwright.parts.gauge_sizes import GaugeSizes
from fitwright.spec.models import FitGaugeSpec

_QUARTER = 16
_LEAST_ROOM_MM = 5.0


@dataclass(frozen=True)
class Laid:
    """A piece and where its axis stands [mm]; the first at the origin."""

    draft: Draft
    at: tuple[float, float]


def laid_out(spec: FitGaugeSpec, sizes: GaugeSizes) -> list[Laid]:
    """Separate pieces side by side where one bed holds them all, else all steps in one piece.

    Raises
    ------
    RefusalError
        Separate pieces are asked for, or needed, and one bed does not hold them.
    """
    if spec.form == "stepped":
        return [Laid(draft_stepped(spec, sizes, "steps"), (0.0, 0.0))]
    make = {"rings": draft_ring, "plugs": draft_plug, "sizes": draft_set}[spec.kind]
    word = "plug" if spec.kind == "plugs" else "ring"
    drafts = [make(spec, sizes, step, f"{word}_{k + 1}") for k, step in enumerate(spec.steps)]
    plans = [_plan(draft) for draft in drafts]
    beds, too_large = pack(plans, (spec.printer.bed_x_mm, spec.printer.bed_y_mm))
    if len(beds) == 1 and not too_large:
        places = [_axis(plans[k], drafts[k], beds[0][k]) for k in range(len(drafts))]
        first = places[0]
        return [Laid(d, (p[0] - first[0], p[1] - first[1])) for d, p in zip(drafts, places, strict=True)]
    if spec.form is None:
        return [Laid(draft_stepped(spec, sizes, "steps"), (0.0, 0.0))]
    raise _refusal(spec, len(beds))


def _refusal(spec: FitGaugeSpec, beds: int) -> RefusalError:
    bed = f"one bed of {spec.printer.bed_x_mm:g} x {spec.printer.bed_y_mm:g} mm"
    count = len(spec.steps)
    if spec.calibrates:
        found = f"{count} rings up to {spec.steps[-1].outside_mm:g} mm"
        allowed = f"fewer or smaller ones, that {bed} holds"
        return RefusalError("sizes", found, allowed, "they are printed in one go, 5 mm apart")
    found = f"separate, {count} pieces up to {spec.steps[-1].printed_mm:.0f} mm, which take {max(beds, 2)} beds"
    return RefusalError("form", found, "auto, stepped, or fewer steps", f"all are to go on {bed}, 5 mm apart")


def _outline(draft: Draft) -> MultiPoint:
    """Points round the piece, seen from above, its axis at (0, 0); the circle's lie outside it."""
    r = draft.reach_mm / math.cos(math.pi / (4 * _QUARTER))
    turns = [k * math.tau / (4 * _QUARTER) for k in range(4 * _QUARTER)]
    points = [(r * math.cos(a), r * math.sin(a)) for a in turns]
    for mark in draft.marks:
        if mark.tab is not None:
            c, s = math.cos(mark.tab.turn_rad), math.sin(mark.tab.turn_rad)
            corners = [(x, y) for x in (0.0, mark.tab.reach_mm) for y in (-mark.tab.half_mm, mark.tab.half_mm)]
            points += [(x * c - y * s, x * s + y * c) for x, y in corners]
    return MultiPoint(points)


def _plan(draft: Draft) -> Plan:
    around = _outline(draft).convex_hull
    x, y, _, _ = around.bounds
    room = draft.least_r_mm - GAP_MM
    hole = Point(0.0, 0.0).buffer(room, quad_segs=_QUARTER) if room >= _LEAST_ROOM_MM and draft.bars is None else None
    return Plan(translate(around, -x, -y), (translate(hole, -x, -y),) if hole else ())


def _axis(plan: Plan, draft: Draft, corner: tuple[float, float]) -> tuple[float, float]:
    x, y, _, _ = _outline(draft).convex_hull.bounds
    return corner[0] - x, corner[1] - y
