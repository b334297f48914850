"""Parted by a plane through the passage: lips along both seams, bolted, or pegged and glued."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from cadquery import Compound, Shape, Solid

from fitwright.errors import RefusalError
from fitwright.frame import Frame, Vec
from fitwright.part import Feature, HoleFit, Pair
from fitwright.parts import seam_bolts as bolts
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.parting import EDGE_OF_HOLE, PEG_SLACK_MM, WITHIN, Parted, Side, Whole
from fitwright.shapes.joint import OVERSHOOT_MM
from fitwright.shapes.lips import half_space, joined, parted, slab, volume_mm3, without
from fitwright.shapes.outline import in_plane, section
from fitwright.shapes.profile import radius_at
from fitwright.shapes.solids import cut, cylinder, prism
from fitwright.spec.models import Flange, HalvesBolts, HalvesLap, Socket

PEG_MM = 5.0
PEG_SHORT_MM = 0.4
"""A peg ends this far before its hole does."""
ASIDE = 0.2
"""The first peg stands this share of a step off the even row, so that the halves go together one way only."""
HEAL_MM = 0.01
SHORTEST_MM = 1.0
PLATE_MM = 0.1
"""The skin that lips stand on begins this far behind a plate: no sliver of it may remain."""


@dataclass(frozen=True)
class Lips:
    """The lips in the plane: their areas, and the lines that bolts or pegs stand on, one a seam."""

    area: shapely.Geometry
    lines: tuple[shapely.LineString, ...]


def plane_along(across: Vec) -> Frame:
    """The plane through end_a's axis and a direction; its normal points right where the direction is up."""
    normal: Vec = (across[2], 0.0, -across[0])
    return Frame((0.0, 0.0, 0.0), normal, across)


def bolted(whole: Whole, joint: HalvesBolts, frame: Frame) -> Parted:
    """Lips along both seams with bolts through them."""
    found = lips(whole, frame, bolts.axis_from_skin_mm(joint), bolts.edge_mm(whole, joint))
    least = 2 * bolts.washer_r_mm(joint) + 1.0
    places = [_place(frame, point) for line in found.lines for point in _row(line, joint.spacing_mm, least)]
    solid, lip = _with_lips(whole, frame, found)
    first, second = parted(
        cut(solid, bolts.holes(whole, joint, frame, places), "bolt holes"), frame, whole.reach_mm, ""
    )
    d, t = bolts.hole_d_mm(whole, joint), whole.lip_mm
    sides = []
    for half, side in ((first, -1), (second, 1)):
        features, fits = bolts.declared(whole, joint, frame, places, side)
        mine = without(lip, bolts.holes(whole, joint, frame, places), "lip")
        boss = Feature("halves lips", "boss", mine.intersect(half_space(frame, side, whole.reach_mm)))
        sides.append(Side(half, (boss, *features), tuple(fits)))
    return Parted(
        frame,
        (sides[0], sides[1]),
        volume_mm3(lip.cut(whole.body.solid)) - len(places) * math.pi / 4 * d * d * 2 * t,
        bolts.pairs(whole, joint, places),
        tuple(bolts.stand_ins(whole, joint, frame, places, 1)),
        {
            "halves joint": f"{bolts.bought(whole, joint, len(places))}; lips {t:.1f} mm thick each along both seams",
            "halves seal": f"a bead of sealant along both seams, from mouth to mouth{_loose(whole)}",
        },
    )


def lapped(whole: Whole, joint: HalvesLap, frame: Frame) -> Parted:
    """Flat lips with pegs on the first half and holes in the second, for glue."""
    peg = max(PEG_MM, whole.wall_mm)
    edge = max(EDGE_OF_HOLE * peg, peg / 2 + whole.wall_mm)
    wide = max(joint.length_mm, edge + peg / 2 + 1.0)
    found = lips(whole, frame, wide - edge, edge)
    rows = [_pegs(line, _share(joint.keys, k)) for k, line in enumerate(found.lines)]
    places = [_place(frame, point) for row in rows for point in row]
    solid, lip = _with_lips(whole, frame, found)
    first, second = parted(solid, frame, whole.reach_mm, "halves")
    printer, t = whole.spec.printer, whole.lip_mm
    d_peg, d_hole = modelled(peg, "outside", printer), small_hole(peg + PEG_SLACK_MM, printer)
    n, high = frame.inward, t - PEG_SHORT_MM
    pegs = [_peg(frame, place, d_peg, 0.0, high) for place in places]
    holes = [cylinder(Frame(p, n, frame.right), d_hole / 2, -OVERSHOOT_MM, t + OVERSHOOT_MM) for p in places]
    sunk = [_peg(frame, place, d_peg, -0.5 * t, high) for place in places]
    pegged = joined(first, sunk, "half with pegs")
    bored = cut(second, holes, "peg holes")
    mine = [lip.intersect(half_space(frame, side, whole.reach_mm)) for side in (-1, 1)]
    stand = [Feature(f"halves peg {k}", "boss", one) for k, one in enumerate(pegs, start=1)]
    cuts = [Feature(f"halves peg hole {k}", "cut", one) for k, one in enumerate(holes, start=1)]
    fits = [HoleFit(f.name, p, n, t, d_hole, "halves.joint.lap") for f, p in zip(cuts, places, strict=True)]
    return Parted(
        frame,
        (
            Side(pegged, (Feature("halves lips", "boss", mine[0]), *stand)),
            Side(bored, (Feature("halves lips", "boss", without(mine[1], holes, "lip")), *cuts), tuple(fits)),
        ),
        volume_mm3(lip.cut(whole.body.solid)) + len(places) * (d_peg**2 / 2 * high - math.pi / 4 * d_hole**2 * t),
        tuple(Pair(f.name, p, "peg", d_peg, d_hole, high) for f, p in zip(cuts, places, strict=True)),
        facts={
            "halves joint": f"glue on lips {wide:.1f} mm wide along both seams; {len(places)} pegs of {peg:.1f} mm put "
            "it in its place, one of them off the row: it goes together one way only",
            "halves seal": f"the glue seals, spread to the passage's edge{_loose(whole)}",
        },
    )


def _peg(frame: Frame, place: Vec, d_mm: float, s0: float, s1: float) -> Solid:
    """A square peg that stands on its corner along end_a's axis: its flanks of 45 deg print with a mouth down."""
    r = d_mm / 2
    return prism([(r, 0.0), (0.0, r), (-r, 0.0), (0.0, -r)], Frame(place, frame.inward, frame.right), s0, s1)


def _loose(whole: Whole) -> str:
    """Said where a seam runs through a joint that no lip may hold."""
    bare = [e.plan.key for e in whole.ends if lip_from_mm(e) > 0 and not isinstance(e.plan.end.joint, Flange)]
    return f"; no lip holds the seam in the joint of {' and '.join(bare)}: glue or tape it there" if bare else ""


def lips(whole: Whole, frame: Frame, axis_mm: float, edge_mm: float) -> Lips:
    """The lips' areas and the rows for bolts, clear of both ends' joints."""
    outer, inner = _outer(whole, frame), _inner(whole, frame)
    skin = _largest(outer.difference(_union([_strip(e, frame, _skin_from_mm(e)) for e in whole.ends])))
    off = _union([_kept_off(end, frame) for end in whole.ends])
    area = _largest(skin.buffer(axis_mm + edge_mm, quad_segs=12).difference(off))
    washers = _union([_strip(e, frame, _skin_from_mm(e) + 1.0 + edge_mm) for e in whole.ends if _is_flange(e)])
    row = skin.buffer(axis_mm, quad_segs=24).exterior.difference(off.buffer(edge_mm)).difference(washers)
    merged = shapely.line_merge(row) if row.geom_type == "MultiLineString" else row
    lines = [line for line in getattr(merged, "geoms", [merged]) if line.length > SHORTEST_MM]
    if len(lines) < 2:
        found, allowed = f"{len(lines)} seams with room for a lip", "a longer part (length), or halves: {across: auto}"
        raise RefusalError("halves.along", found, allowed, "between the joints there is no room for lips")
    by_side = tuple(sorted(lines, key=lambda line: line.centroid.x))
    return Lips(shapely.Polygon(area.exterior).difference(inner), by_side)


def _outer(whole: Whole, frame: Frame) -> shapely.Polygon:
    """Everything inside the outside's outline, the passage too."""
    pieces = [one.polygon for solid in (whole.body.solid, *_passages(whole)) for one in section(solid, frame)]
    return shapely.Polygon(_largest(_healed(pieces)).exterior)


def _inner(whole: Whole, frame: Frame) -> shapely.Geometry:
    """The passage and half the wall round it: lips end within the wall, so that no face of theirs lies in its skin."""
    return _healed([one.polygon for tool in _passages(whole) for one in section(tool, frame)]).buffer(
        WITHIN * whole.wall_mm
    )


def _passages(whole: Whole) -> list[Shape]:
    return [f.tool for f in whole.body.features if f.kind == "cut" and f.name.startswith("passage")]


def _healed(pieces: list[shapely.Polygon]) -> shapely.Geometry:
    """Pieces that meet along a line as one."""
    return shapely.unary_union(pieces).buffer(HEAL_MM, join_style="mitre").buffer(-HEAL_MM, join_style="mitre")


def _largest(shape: shapely.Geometry) -> shapely.Polygon:
    """The largest piece of an area."""
    pieces = [p for p in getattr(shape, "geoms", [shape]) if isinstance(p, shapely.Polygon) and p.area > 0.0]
    if not pieces:
        allowed = "a longer part (length), or halves: {across: auto}"
        raise RefusalError("halves.along", "no skin that is free", allowed, "the joints leave no room for lips")
    return max(pieces, key=lambda p: p.area)


def _union(areas: list[shapely.Geometry]) -> shapely.Geometry:
    return shapely.unary_union(areas)


def _is_flange(end: PlacedEnd) -> bool:
    return isinstance(end.plan.end.joint, Flange)


def _skin_from_mm(end: PlacedEnd) -> float:
    """Where along an end's axis the skin begins that lips stand on: behind a flange's plate."""
    joint = end.plan.end.joint
    return joint.thickness_mm + PLATE_MM if isinstance(joint, Flange) else lip_from_mm(end)


def _kept_off(end: PlacedEnd, frame: Frame) -> shapely.Geometry:
    """Where no lip may be: before a mouth, beside what is joined there; behind that it rises at 45 deg."""
    to = lip_from_mm(end)
    strip = _strip(end, frame, to)
    if _is_flange(end) or to <= 0.0:
        return strip
    skin, reach = end.shape.form.at(radius_at(end.shape.outer, to)).reach_mm, end_reach_mm(end)
    wedges = [[(to - 1.0, sign * (skin - 1.0)), (to - 1.0, sign * reach), (to + reach - skin, sign * reach)]
              for sign in (-1.0, 1.0)]  # fmt: skip
    return _union([strip, *(_area(end, frame, wedge) for wedge in wedges)])


def _strip(end: PlacedEnd, frame: Frame, to_mm: float) -> shapely.Polygon:
    """The plane before `to_mm` along an end's axis, as wide as the part is there."""
    reach = end_reach_mm(end)
    return _area(end, frame, [(-200.0, -reach), (-200.0, reach), (to_mm, reach), (to_mm, -reach)])


def _area(end: PlacedEnd, frame: Frame, corners: list[tuple[float, float]]) -> shapely.Polygon:
    """A polygon of (s, r) points about an end's axis, in the plane."""
    origin, tip, side = (np.array(p) for p in (end.frame.origin, end.frame.inward, frame.inward))
    across = np.cross(tip, side)
    points = [origin + s * tip + r * across for s, r in corners]
    return shapely.Polygon(in_plane([(float(x), float(y), float(z)) for x, y, z in points], frame)[:, :2])


def end_reach_mm(end: PlacedEnd) -> float:
    """How far from an end's axis its own lips are looked for: beyond its outside and its plate."""
    boxes = [tool.solid.BoundingBox().DiagonalLength / 2 for tool in end.shape.bosses]
    return float(max([end.shape.form.at(r).reach_mm for _, r in end.shape.outer] + boxes) + 40.0)


def lip_from_mm(end: PlacedEnd) -> float:
    """Where along an end's axis a lip may begin: a hose, a clamp, a pipe that goes over it keep their room."""
    joint, shape = end.plan.end.joint, end.shape
    if isinstance(joint, Flange):
        return 0.5 * joint.thickness_mm
    if isinstance(joint, Socket):
        if not joint.clamp:
            return 0.0
        tools = [*shape.cuts, *(b for b in shape.ring_bosses if "rim" in b.name)]
        return max((depth_mm(end, tool.solid)[1] for tool in tools), default=0.0) + 1.0
    return shape.root_mm


def depth_mm(end: PlacedEnd, solid: Shape) -> tuple[float, float]:
    """Least and greatest distance of a solid from an end's mouth, along its axis."""
    corners = [v.toTuple() for v in solid.tessellate(0.1)[0]]
    depth = (np.array(corners) - np.array(end.frame.origin)) @ np.array(end.frame.inward)
    return float(depth.min()), float(depth.max())


def _with_lips(whole: Whole, frame: Frame, found: Lips) -> tuple[Solid, Shape]:
    plates = [p for p in getattr(found.area, "geoms", [found.area]) if p.area > SHORTEST_MM]
    tools = [f.tool for f in whole.body.features if f.kind == "cut" and not f.name.startswith("passage")]
    lip = without(Compound.makeCompound([slab(p, frame, whole.lip_mm) for p in plates]), tools, "lips")
    return joined(whole.body.solid, [lip], "halves with their lips"), lip


def _row(line: shapely.LineString, spacing_mm: float, least_mm: float) -> list[shapely.Point]:
    """Places along a seam, from its beginning to its end; one where two would be nearer than `least_mm`."""
    if line.length < least_mm:
        return [line.interpolate(0.5, normalized=True)]
    count = max(2, math.ceil(line.length / spacing_mm - 1e-6) + 1)
    return [line.interpolate(line.length * k / (count - 1)) for k in range(count)]


def _share(keys: int, seam: int) -> int:
    """How many of the pegs stand on the first or second seam."""
    return keys - keys // 2 if seam == 0 else keys // 2


def _pegs(line: shapely.LineString, count: int) -> list[shapely.Point]:
    """Pegs along a seam, the first a little off the even row."""
    if count == 0:
        return []
    step = line.length / count
    runs = [step * (k + 0.5) for k in range(count)]
    runs[0] += ASIDE * step * (1.0 if line.centroid.x < 0 else -1.0)
    return [line.interpolate(run) for run in runs]


def _place(frame: Frame, point: shapely.Point) -> Vec:
    return frame.point(point.x, 0.0, point.y)
