"""From a flange in the YAML to plain sizes: outline, washer seats, gussets, gasket groove, and whether they fit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.outline import Outline
from fitwright.parts.compensation import as_printed, modelled, placed, small_hole
from fitwright.section import Section
from fitwright.shapes.flange import (
    GUSSET_EDGE_MM,
    NECK_CHAMFER_MM,
    SEAT_DEPTH_MM,
    BoltSizes,
    FlangeSizes,
    gusset_tip,
    outline_reach,
)
from fitwright.shapes.forms import Form
from fitwright.shapes.profile import Point
from fitwright.spec.models import Flange, Holes, Printer, Rectangle, Round

EDGE_OWN = 2.0
"""Default outline: hole centre to edge, in hole diameters (brittle sheet wants 2, a print 1.5; common practice)."""
GUSSET_FROM_MM = 20.0
"""A flange that overhangs its neck by more than this gets gussets."""
GUSSET_MAX_MM = 20.0
FOOT_MM = 1.0
"""Plate left beyond the neck's foot, at the least."""
GROOVE_WIDTH, GROOVE_DEPTH = 1.25, 0.75
"""Gasket groove in cord diameters: the cord is squeezed by a quarter and keeps room to the sides."""


def flange_sizes(
    joint: Flange, key: str, wall: float, root_wall: float, opening_d: float, printer: Printer, form: Form
) -> FlangeSizes:
    """Sizes of a flange [mm]; RefusalError names the key when holes, seats, groove and outline collide."""
    bolts = _bolts(joint, printer)
    opening = modelled(joint.opening_mm, "hole", printer) if joint.opening_mm else opening_d
    outline = _outline(joint, bolts, form, opening, wall, printer)
    sizes = FlangeSizes(opening, joint.thickness_mm, wall, root_wall, bolts, *outline)
    if isinstance(joint.outline, Outline):
        sizes = replace(sizes, outline=joint.outline.mapped(placed(1.0, printer)))
    sizes = _covering(sizes, joint, key, form, printer)
    if joint.holes:
        _check_room(sizes, key, joint.holes, form, printer)
    sizes = _with_gussets(sizes, joint) if form.base is None else sizes
    return _with_groove(sizes, joint, key, form)


def _covering(sizes: FlangeSizes, joint: Flange, key: str, form: Form, printer: Printer) -> FlangeSizes:
    """The sizes with a round outline large enough for what is covered, where the outline is ours to choose.

    RefusalError where an outline of the user's own does not reach round the neck.
    """
    foot = sizes.neck_r + NECK_CHAMFER_MM + FOOT_MM
    if joint.covers and joint.outline is None:
        neck = form.at(foot).reach_mm
        need = max(modelled(2 * (joint.covers.reach_mm + joint.margin_mm), "outside", printer) / 2, neck)
        return replace(sizes, round_d=max(sizes.round_d, 2 * need), width=0.0, height=0.0, corner=0.0)
    if sizes.outline is None:
        return sizes
    room = sizes.outline.inside_by_mm((0.0, 0.0))
    if form.base is not None:
        beside = [sizes.outline.inside_by_mm((float(x), float(y))) for x, y in form.at(foot).polygon(0.5)]
        room = foot + min(beside)
    if room < foot:
        raise RefusalError(
            f"{key}.flange.points",
            f"an outline that comes within {room:.1f} mm of the axis",
            f"{foot:.1f} mm or more, or a smaller opening",
            "the tube's foot would stand beside the plate",
        )
    return sizes


def _bolts(joint: Flange, printer: Printer) -> BoltSizes:
    holes = joint.holes
    if holes is None:
        return BoltSizes((), 0.0)
    return BoltSizes(
        tuple((placed(p.right_mm, printer), placed(p.up_mm, printer)) for p in holes.points),
        small_hole(holes.hole_d_mm, printer),
        modelled(holes.washer_d_mm + 1.0, "hole", printer) if joint.washers and not joint.nut_pockets else 0.0,
        modelled(holes.nut_af_mm, "hole", printer) if joint.nut_pockets else 0.0,
        holes.nut_m_mm + 0.5 if joint.nut_pockets else 0.0,
    )


def _outline(
    joint: Flange, bolts: BoltSizes, form: Form, opening: float, wall: float, printer: Printer
) -> tuple[float, float, float, float]:
    """(round diameter, width, height, corner)."""
    if isinstance(joint.outline, Round):
        return modelled(joint.outline.d_mm, "outside", printer), 0.0, 0.0, 0.0
    if isinstance(joint.outline, Rectangle):
        box = joint.outline
        width, height = (modelled(side, "outside", printer) for side in (box.width_mm, box.height_mm))
        return 0.0, width, height, placed(box.corner_mm, printer)
    if isinstance(joint.outline, Outline) or (not bolts.points and form.base is None):
        return 0.0, 0.0, 0.0, 0.0
    edge = max(EDGE_OWN * bolts.hole_d, bolts.seat_d / 2 + wall)
    if form.base is not None:
        return _round_opening(form.at(opening / 2 + wall + NECK_CHAMFER_MM), bolts.points, edge)
    return 2 * (max(math.hypot(*p) for p in bolts.points) + edge), 0.0, 0.0, 0.0


def _check_room(sizes: FlangeSizes, key: str, holes: Holes, form: Form, printer: Printer) -> None:
    """Bolt heads clear the neck, holes keep their edge distance, pockets keep a floor."""
    b = sizes.bolts
    reach = max(b.seat_d, b.nut_af * 2 / math.sqrt(3), holes.washer_d_mm) / 2
    nearest = min(form.r_of(p) for p in b.points)
    if nearest - reach < sizes.neck_r:
        _refuse_near(nearest, sizes, reach, key, form)
    _check_edge(sizes, key, holes, printer)
    floor = sizes.thickness - max(b.nut_depth, SEAT_DEPTH_MM if b.seat_d else 0.0)
    if floor < sizes.wall:
        need = sizes.thickness - floor + sizes.wall
        found, allowed = f"{sizes.thickness:.1f} mm", f"{need:.1f} mm or more"
        raise RefusalError(f"{key}.flange.thickness", found, allowed, "too little is left under the nuts or washers")


def _round_opening(neck: Section, points: Sequence[Point], edge: float) -> tuple[float, float, float, float]:
    """A rectangle that holds the bolts with their edge distance, and the neck's foot."""
    reach = [max((abs(p[k]) for p in points), default=0.0) + (edge if points else 0.0) for k in (0, 1)]
    width = 2 * max(reach[0], neck.support(0.0) + 1.0, neck.support(math.pi) + 1.0)
    height = 2 * max(reach[1], neck.support(math.pi / 2) + 1.0, neck.support(-math.pi / 2) + 1.0)
    return 0.0, width, height, min(edge, 0.25 * min(width, height))


def _covered_r(joint: Flange, form: Form) -> float:
    """The r of the outline that lies outside all that is covered; 0 where nothing is."""
    if joint.covers is None:
        return 0.0
    if form.base is None:
        return joint.covers.reach_mm
    return max(form.r_of(p) for p in joint.covers.polyline(0.2))


def _refuse_near(nearest: float, sizes: FlangeSizes, reach: float, key: str, form: Form) -> None:
    """A hole whose washer would run into the neck, told from the axis, or from an opening that is not round."""
    need = sizes.neck_r + reach
    found = f"a hole centre {nearest:.1f} mm from the axis"
    allowed = f"{need:.1f} mm or more (a bolt circle of {2 * need:.1f} mm), or a smaller opening"
    if form.base is not None:
        found = f"a hole centre {nearest - sizes.opening_d / 2:.1f} mm from the opening"
        allowed = f"{sizes.wall + reach:.1f} mm or more, or a smaller opening"
    raise RefusalError(f"{key}.flange.holes", found, allowed, "the washers would run into the neck")


def _check_edge(sizes: FlangeSizes, key: str, holes: Holes, printer: Printer) -> None:
    """Holes keep their distance from the edge, and washer seats leave a whole wall between them and it."""
    edge, seat = least_edge_mm(sizes), sizes.bolts.seat_d / 2 + sizes.wall
    printed = as_printed(2 * edge, "outside", printer) / 2
    found, least = f"a hole centre {printed:.1f} mm from the edge", 1.5 * holes.hole_d_mm
    if printed < least - 1e-9:
        allowed = f"{least:.1f} mm or more (1.5 hole diameters; 2 in brittle sheet): a larger outline"
        raise RefusalError(f"{key}.flange", found, allowed, "the plate would split at its holes")
    if sizes.bolts.seat_d and edge < seat - 1e-9:
        allowed = f"{math.ceil(10 * seat - 1e-6) / 10:.1f} mm or more: a larger outline, or washers: no"
        raise RefusalError(f"{key}.flange", found, allowed, "the washers' seats would leave too thin a rim")


def least_edge_mm(sizes: FlangeSizes) -> float:
    """The least distance [mm] of a hole's centre from the outline."""
    return min(_edge_distance(sizes, x, y) for x, y in sizes.bolts.points)


def _edge_distance(sizes: FlangeSizes, x: float, y: float) -> float:
    if sizes.round_d:
        return sizes.round_d / 2 - math.hypot(x, y)
    if sizes.outline:
        return sizes.outline.inside_by_mm((x, y))
    return min(sizes.width / 2 - abs(x), sizes.height / 2 - abs(y))


def _clock(point: Point) -> float:
    return math.degrees(math.atan2(point[0], point[1])) % 360.0


def _with_gussets(sizes: FlangeSizes, joint: Flange) -> FlangeSizes:
    """One gusset midway between neighbouring holes, or `gussets` of them evenly, left out where a washer sits."""
    angles = sorted(_clock(p) for p in sizes.bolts.points) or [0.0, 90.0, 180.0, 270.0]
    between = [
        (a + ((b - a) % 360.0 or 360.0) / 2) % 360.0 for a, b in zip(angles, angles[1:] + angles[:1], strict=True)
    ]
    overhang = min(gusset_tip(sizes, a) + GUSSET_EDGE_MM for a in between) - sizes.neck_r
    if joint.gussets == 0 or (joint.gussets is None and overhang <= GUSSET_FROM_MM):
        return sizes
    wanted = between
    if joint.gussets is not None and joint.gussets != len(between):
        wanted = [(between[0] + 360.0 * k / joint.gussets) % 360.0 for k in range(joint.gussets)]
    clear = tuple(a for a in wanted if _clear_of_seats(sizes, a))
    height = max(0.0, min(GUSSET_MAX_MM, overhang - 2.0, *(gusset_tip(sizes, a) - sizes.neck_r for a in clear)))
    return replace(sizes, gusset_deg=clear, gusset_mm=height) if clear and height > 3.0 else sizes


def _clear_of_seats(sizes: FlangeSizes, deg: float) -> bool:
    b = sizes.bolts
    need = max(b.seat_d, b.hole_d, b.nut_af * 1.16) / 2 + 0.75 * sizes.wall + 0.5
    for x, y in b.points:
        a = math.radians(deg - _clock((x, y)))
        r = math.hypot(x, y)
        if (abs(r * math.sin(a)) if math.cos(a) > 0 else r) < need:
            return False
    return True


def _with_groove(sizes: FlangeSizes, joint: Flange, key: str, form: Form) -> FlangeSizes:
    """A gasket groove midway between the opening and the bolt holes."""
    if not joint.gasket_cord_mm:
        return sizes
    cord = joint.gasket_cord_mm
    width, depth = GROOVE_WIDTH * cord, GROOVE_DEPTH * cord
    inner = max(sizes.opening_d / 2, _covered_r(joint, form))
    outer = min((form.r_of(p) for p in sizes.bolts.points), default=math.inf) - sizes.bolts.hole_d / 2
    rim = (outline_reach(sizes, float(deg)) for deg in range(0, 360, 5))
    turns = (math.radians(float(deg)) for deg in range(0, 360, 5))
    outer = min(outer, *(form.r_of((r * math.sin(a), r * math.cos(a))) for r, a in zip(rim, turns, strict=True)))
    if outer - inner < width + 2 * sizes.wall:
        allowed = f"{max(0.0, (outer - inner - 2 * sizes.wall) / GROOVE_WIDTH):.1f} mm or less"
        raise RefusalError(
            f"{key}.flange.cord", f"{cord:.1f} mm", allowed, "no room between opening, bolt holes and outline"
        )
    if sizes.thickness - depth < sizes.wall:
        allowed = f"{(sizes.thickness - sizes.wall) / GROOVE_DEPTH:.1f} mm or less, or a thicker flange"
        raise RefusalError(f"{key}.flange.cord", f"{cord:.1f} mm", allowed, "too little is left under the groove")
    return replace(sizes, groove_d=inner + outer, groove_w=width, groove_depth=depth)
