"""A part that is larger than the bed, parted by a plane into two halves that are bolted or glued together again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

import numpy as np
import shapely
from cadquery import Shape

from fitwright.errors import BuildError, RefusalError
from fitwright.frame import Frame, Vec
from fitwright.part import Body, Feature, Part, Pose, Seam, TryPiece
from fitwright.parts import halves_across, halves_along
from fitwright.parts.dimensions import main_dimensions
from fitwright.parts.halves_bed import body_points, fits, from_the_middle, halves_fit, lip_ring
from fitwright.parts.halves_place import across_at, frame_across, frame_along, free_across
from fitwright.parts.parting import Parted, Whole
from fitwright.shapes.lips import close_volume_mm3, half_space, parted, volume_mm3
from fitwright.shapes.outline import section
from fitwright.spec.models import HalvesLap
from fitwright.tolerances import TOLERANCES

NAMES = ("half_a", "half_b")
SAME_MM = 0.02
"""A tool that reaches across the plane by less than this belongs to one side."""
Way = Literal["across", "along"]


def parted_part(part: Part, whole: Whole) -> Part:
    """The part as two halves; the part itself where `auto` finds that it fits the bed whole."""
    if whole.halves.way != "auto":
        return _built(part, whole, whole.halves.way)
    printer = whole.spec.printer
    points = body_points(whole.body)
    if fits(points, [pose.down for pose in whole.body.poses], printer):
        bed = f"{printer.bed_x_mm:g} x {printer.bed_y_mm:g} x {printer.bed_z_mm:g} mm"
        return replace(part, facts={**part.facts, "halves": f"not needed: it fits the bed ({bed}) in one piece"})
    for chosen, way in _choices(whole, points):
        return _built(part, chosen, way)
    raise RefusalError(
        "halves",
        "auto",
        f"a larger printer than {printer.name} (printer), or a shorter part (length)",
        "neither across nor along gives two halves that both fit the bed",
    )


def _choices(whole: Whole, points: np.ndarray[tuple[int, int], np.dtype[np.float64]]) -> Iterator[tuple[Whole, Way]]:
    """What would fit: across first (one seam, clear of the joints), then along."""
    printer = whole.spec.printer
    try:
        for at in from_the_middle(*free_across(whole)):
            frame = frame_across(whole, at)
            found = section(whole.body.solid, frame)
            if len(found) != 1:
                continue
            downs = tuple([p.down for p in _poses(whole, frame, "across", side)] for side in (-1, 1))
            if halves_fit(points, lip_ring(whole, frame, found[0].reach_mm), frame, downs, printer):
                yield replace(whole, halves=whole.halves.model_copy(update={"across_mm": at})), "across"
                break
    except RefusalError:
        pass
    try:
        frame, deg = frame_along(whole)
        downs = tuple([p.down for p in _poses(whole, frame, "along", side)] for side in (-1, 1))
        outlines = section(whole.body.solid, frame)
        seam = np.concatenate([_flat_points(one.grown(10.0).polygon, frame, whole.lip_mm) for one in outlines])
        if halves_fit(points, seam, frame, downs, printer):
            yield replace(whole, halves=whole.halves.model_copy(update={"along_deg": deg})), "along"
    except RefusalError:
        pass


def _flat_points(
    polygon: shapely.Polygon, frame: Frame, lip: float
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    corners = np.array(polygon.exterior.coords)
    return np.array([frame.point(x, s, y) for x, y in corners for s in (-lip, lip)])


def _built(part: Part, whole: Whole, way: Way) -> Part:
    if way == "across":
        at = across_at(whole)
        frame = frame_across(whole, at)
        where = f"parted across, {at:.1f} mm along the centreline from end_a's mouth"
        filled = {"halves.across": f"{at:.1f} mm"} if whole.halves.across_mm is None else {}
    else:
        frame, deg = frame_along(whole)
        where = f"parted along the passage, by the plane of end_a's axis and {_heading(deg)}"
        filled = {"halves.along": f"{deg:.0f} deg"} if whole.halves.along_deg is None else {}
    _prove_parting(whole, frame)
    made = _joined(whole, frame, way)
    bodies = tuple(_body(whole, made, way, k) for k in (0, 1))
    rough = {} if made.straight else {"halves outline": "taken as a polygon: the kernel could not offset its curves"}
    across = _seen(whole, frame, way) or part.section_across
    return replace(
        part,
        bodies=bodies,
        stand_ins=(*part.stand_ins, *made.stand_ins),
        facts={**part.facts, "halves": where, **made.facts, **rough},
        assumed={**part.assumed, **filled},
        seams=(_seam(whole, made),),
        section_across=across,
        dimensions=main_dimensions(*whole.ends, across) if across != part.section_across else part.dimensions,
    )


def _joined(whole: Whole, frame: Frame, way: Way) -> Parted:
    """The two halves with what joins them."""
    joint = whole.joint
    if isinstance(joint, HalvesLap):
        return (
            halves_across.lapped(whole, joint, frame) if way == "across" else halves_along.lapped(whole, joint, frame)
        )
    return halves_across.bolted(whole, joint, frame) if way == "across" else halves_along.bolted(whole, joint, frame)


def _heading(deg: float) -> str:
    """Which way the plane cuts, in words."""
    if abs(deg % 180.0) < 0.05 or abs(deg % 180.0 - 180.0) < 0.05:
        return "up: half_a is the left half, half_b the right"
    if abs(deg % 180.0 - 90.0) < 0.05:
        return "right: half_a is the upper half, half_b the lower"
    return f"{deg % 360.0:.0f} deg clockwise from up"


def _seen(whole: Whole, frame: Frame, way: Way) -> Vec | None:
    """The section view runs square to a seam along a straight part, so that both halves show."""
    return frame.inward if way == "along" and whole.line.across is None else None


def _prove_parting(whole: Whole, frame: Frame) -> None:
    """The bare body must part into two solids that add up to it."""
    first, second = parted(whole.body.solid, frame, whole.reach_mm, "halves")
    one = close_volume_mm3(whole.body.solid)
    both = close_volume_mm3(first) + close_volume_mm3(second)
    if abs(both / one - 1.0) > TOLERANCES.parted_volume_rel:
        raise BuildError(f"halves: together {both:.3f} mm3 where the whole has {one:.3f}")


def _seam(whole: Whole, made: Parted) -> Seam:
    return Seam(
        NAMES, made.frame, float(whole.body.solid.Volume()), made.added_mm3, made.pairs, made.lap_mm, made.gap_mm
    )


def _body(whole: Whole, made: Parted, way: Way, number: int) -> Body:
    body, frame, side = whole.body, made.frame, (-1, 1)[number]
    mine = made.sides[number]
    holes = tuple(h for h in body.holes if _side_of(h.start, frame) == side)
    along = way == "along"
    share = 0.5 if along else 1.0
    features = [f for feature in body.features if (f := _clipped(feature, whole, frame, side))]
    return replace(
        body,
        name=NAMES[number],
        solid=mine.solid,
        genus=(0 if along else 1) + len(holes) + len(mine.holes),
        poses=tuple(_poses(whole, frame, way, side)),
        features=(*features, *mine.features),
        wall_zones=tuple(z for z in body.wall_zones if along or _side_of(z.frame.origin, frame) == side),
        fits=tuple(replace(f, turn_share=share) for f in body.fits if along or _side_of(f.frame.origin, frame) == side),
        holes=(*holes, *mine.holes),
        tries=tuple(_tries(whole, frame, along, side)),
        volume_mm3=None,
    )


def _side_of(point: Vec, frame: Frame) -> int:
    """-1 before the plane, 1 behind it."""
    ahead = sum((point[i] - frame.origin[i]) * frame.inward[i] for i in range(3))
    return 1 if ahead > 0 else -1


def _tries(whole: Whole, frame: Frame, along: bool, side: int) -> Iterator[TryPiece]:
    """A joint's ring is tried whole, though it is parted: from the first half's list."""
    for piece in whole.body.tries:
        if along and side < 0:
            yield replace(piece, whole=whole.body.solid)
        centre = piece.tool.BoundingBox().center.toTuple()
        if not along and _side_of(centre, frame) == side:
            yield piece


def _clipped(feature: Feature, whole: Whole, frame: Frame, side: int) -> Feature | None:
    """A feature as far as it concerns one half: cuts stay whole, bosses are clipped; None where it has none of it."""
    ahead = _heights(feature.tool, frame) * side
    if ahead.max() < SAME_MM:
        return None
    if feature.kind == "cut" or ahead.min() > -SAME_MM:
        return feature
    tool = feature.tool.intersect(half_space(frame, side, whole.reach_mm))
    return replace(feature, tool=tool) if volume_mm3(tool) > TOLERANCES.feature_mm3 else None


def _heights(tool: Shape, frame: Frame) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    points = np.array([v.toTuple() for v in tool.tessellate(0.1)[0]])
    found: np.ndarray[tuple[int], np.dtype[np.float64]] = (points - np.array(frame.origin)) @ np.array(frame.inward)
    return found


def _poses(whole: Whole, frame: Frame, way: Way, side: int) -> Iterator[Pose]:
    """Cut face down, mouths down."""
    n = frame.inward
    yield Pose("cut face down", (-side * n[0], -side * n[1], -side * n[2]))
    for end, pose in zip(whole.ends, whole.body.poses, strict=False):
        if way == "along" or _side_of(end.frame.origin, frame) == side:
            yield pose
    if way == "along":
        yield Pose("cut face up", (side * n[0], side * n[1], side * n[2]))
