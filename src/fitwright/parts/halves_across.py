"""Parted square to the passage: a bolted lip all round, or a glued lap."""

from __future__ import annotations

import math

from cadquery import Compound, Shape, Solid

from fitwright.errors import RefusalError
from fitwright.frame import Frame, Vec
from fitwright.part import Feature
from fitwright.parts import seam_bolts as bolts
from fitwright.parts.compensation import gap_between
from fitwright.parts.parting import GLUE_GAP_MM, WITHIN, Parted, Side, Whole
from fitwright.parts.stand_ins import DRIVER_MM
from fitwright.shapes.lips import Skin, footed, half_space, joined, pared, parted, rib, skirt, volume_mm3, without
from fitwright.shapes.outline import Outline, section
from fitwright.shapes.solids import cut
from fitwright.spec.models import HalvesBolts, HalvesLap

LEAST_BOLTS = 3
SHRINKS_MM = 0.02
"""An outside that changes by less than this over a lap is straight."""
RIB_MM, WIDE = 8.0, 1.6
"""Width of a locating rib, and how much wider one of them is."""
RIB_SLACK_MM = 0.4
"""A notch is this much wider and deeper than its rib."""
RIB_FROM, RIB_LEAST_MM = 0.2, 0.8
"""A rib begins at this share of the lap."""


def bolted(whole: Whole, joint: HalvesBolts, frame: Frame) -> Parted:
    """A lip all round both halves, with bolts through it."""
    t, stack = whole.lip_mm, whole.stack_mm
    skin = outside(whole, frame)
    beyond = max(0.0, skin.excess_mm([o for s in (-stack, -t, t, stack) for o in section(whole.body.solid, frame, s)]))
    axis = beyond + bolts.axis_from_skin_mm(joint)
    line, outline = skin.grown(axis), skin.grown(axis + bolts.edge_mm(whole, joint))
    count = max(LEAST_BOLTS, math.ceil(line.polygon.exterior.length / joint.spacing_mm - 1e-6))
    places = [place for place, _ in line.along(count, 0.5)]
    _refuse_crowd(whole, joint, line, count)
    lip = Compound.makeCompound(
        skirt(Skin(whole.body.solid, frame), outline, -t, t, WITHIN * whole.wall_mm, whole.cuts)
    )
    tools = bolts.holes(whole, joint, frame, places)
    solid = cut(joined(whole.body.solid, [lip], "halves with their lips"), tools, "bolt holes")
    first, second = parted(solid, frame, whole.reach_mm, "halves")
    added = volume_mm3(lip.cut(whole.body.solid)) - count * math.pi / 4 * bolts.hole_d_mm(whole, joint) ** 2 * 2 * t
    heads = _heads(whole, frame, skin)
    sides = tuple(_side(whole, joint, frame, places, half, side, lip) for half, side in ((first, -1), (second, 1)))
    return Parted(
        frame,
        (sides[0], sides[1]),
        added,
        bolts.pairs(whole, joint, places),
        tuple(bolts.stand_ins(whole, joint, frame, places, heads)),
        {
            "halves joint": f"{bolts.bought(whole, joint, count)}; lips {t:.1f} mm thick each, "
            f"{2 * outline.reach_mm:.0f} mm over all",
            "halves seal": "a bead of sealant, or a flat gasket of at most 0.5 mm cut round the lip's face",
        },
        straight=outline.exact,
    )


def outside(whole: Whole, frame: Frame) -> Outline:
    """The outline of the outside in the seam; the part must be met once only."""
    found = section(whole.body.solid, frame)
    if len(found) != 1:
        where = "the plane meets the part more than once there"
        raise RefusalError("halves.across", f"{len(found)} sections", "another place, or auto", where)
    return found[0]


def _refuse_crowd(whole: Whole, joint: HalvesBolts, line: Outline, count: int) -> None:
    """Washers side by side need room."""
    step, need = line.polygon.exterior.length / count, 2 * bolts.washer_r_mm(joint) + 1.0
    if step < need:
        allowed = f"a smaller bolt, or spacing: {need:.0f} mm or more"
        found = f"{count} x {joint.size}, {step:.1f} mm apart"
        raise RefusalError("halves.joint.bolts", found, allowed, "the washers would lie on each other")


def _heads(whole: Whole, frame: Frame, skin: Outline) -> int:
    """The side on which the skin leaves the driver more room."""
    far = whole.stack_mm + DRIVER_MM / 2
    rise = [skin.excess_mm(section(whole.body.solid, frame, side * far)) for side in (-1, 1)]
    return -1 if rise[0] < rise[1] else 1


def _side(
    whole: Whole, joint: HalvesBolts, frame: Frame, places: list[Vec], half: Solid, side: int, lip: Shape
) -> Side:
    features, fits = bolts.declared(whole, joint, frame, places, side)
    mine = _on_side(without(lip, bolts.holes(whole, joint, frame, places), "lip"), frame, side, whole)
    return Side(half, (Feature("halves lip", "boss", mine), *features), tuple(fits))


def _on_side(shape: Shape, frame: Frame, side: int, whole: Whole) -> Shape:
    return shape.intersect(half_space(frame, side, whole.reach_mm))


def lapped(whole: Whole, joint: HalvesLap, frame: Frame) -> Parted:
    """One half's collar goes over the other, with a gap for glue; RefusalError where the section there is not round."""
    if any(outline.circle is None for outline in section(whole.body.solid, frame)):
        why = "a collar fits all round on round sections only"
        raise RefusalError("halves.joint.lap", "a lap across a section that is not round", "bolts, or along", why)
    side = _inner_side(whole, joint, frame)
    if side < 0:  # work with the normal pointing at the half that goes inside
        n = frame.inward
        flipped = Frame(frame.origin, (-n[0], -n[1], -n[2]), frame.right)
        turned = _lap(whole, joint, flipped)
        first, second = turned.sides
        return Parted(
            frame, (second, first), turned.added_mm3, (), (), turned.facts, -joint.length_mm, turned.gap_mm,
            turned.straight,
        )  # fmt: skip
    return _lap(whole, joint, frame)


def _inner_side(whole: Whole, joint: HalvesLap, frame: Frame) -> int:
    """The half that does not narrow away from the seam goes inside: +1 where the normal points at it."""
    skin = outside(whole, frame)
    rise = [skin.excess_mm(section(whole.body.solid, frame, side * joint.length_mm)) for side in (-1, 1)]
    return 1 if rise[1] >= rise[0] - 1e-6 else -1


def _lap(whole: Whole, joint: HalvesLap, frame: Frame) -> Parted:
    """The first half carries the collar, the second goes inside; the normal points at the second."""
    long, wall, gap = joint.length_mm, whole.wall_mm, gap_between(GLUE_GAP_MM, whole.spec.printer)
    skin, solid = outside(whole, frame), whole.body.solid
    shares = (0.25, 0.5, 0.75, 1.0)
    beyond = skin.excess_mm([o for k in shares for o in section(solid, frame, k * long)])
    inner, under, mid = skin.grown(max(0.0, beyond)), Skin(solid, frame), WITHIN * wall
    bore, collar = inner.grown(gap), inner.grown(gap + wall)
    ribs, notches = _keys(whole, joint, inner)
    foot_mm = _fall(whole, frame, skin, max(0.0, beyond) + gap + wall)
    lip = footed(under, collar, -wall - foot_mm, -wall, long + 1.0, mid)
    foot: list[Shape] = []
    if not lip:
        lip = skirt(under, collar, -wall, long + 1.0, mid, whole.cuts)
        foot = skirt(under, collar, -wall, -wall - foot_mm, mid, whole.cuts, foot_mm)
    hollow = [_beyond(whole, frame, long), bore.prism(0.0, long + 2.0), *notches]
    outer = pared(joined(solid, [*lip, *foot], "half with the collar"), hollow, "half with the collar")
    sleeve = skirt(under, inner, -1.0, long + 1.0, mid, whole.cuts) if beyond > SHRINKS_MM else []
    inside = joined(joined(solid, sleeve, "half with its sleeve"), ribs, "half with its ribs")
    body = cut(inside, [half_space(frame, -1, whole.reach_mm)], "half with its ribs")
    ring = [without(one, hollow, "collar") for one in lip]
    sleeve = [one.intersect(half_space(frame, 1, whole.reach_mm)) for one in sleeve]
    more = [*ring, *foot, *sleeve, *(without(one, sleeve, "rib") for one in ribs)]
    added = sum(volume_mm3(one.cut(solid)) for one in more)
    features = [Feature(f"halves notch {k}", "cut", one) for k, one in enumerate(notches, start=1)]
    stand = [Feature(f"halves rib {k}", "boss", one) for k, one in enumerate(ribs, start=1)]
    stand += [Feature("halves sleeve", "boss", Compound.makeCompound(sleeve))] if sleeve else []
    keys = f", {len(ribs)} ribs in notches, one of them wider: it goes together one way only" if ribs else ""
    return Parted(
        frame,
        (
            Side(outer, (Feature("halves collar", "boss", Compound.makeCompound([*ring, *foot])), *features)),
            Side(body, tuple(stand)),
        ),
        added,
        facts={
            "halves joint": f"glue in a lap {long:.1f} mm long, gap {GLUE_GAP_MM:.1f} mm all round{keys}",
            "halves seal": "the glue seals: fill the lap all round (a gap-filling glue for the filament), and the butt",
        },
        lap_mm=long,
        gap_mm=gap,
        straight=collar.exact,
    )


def _beyond(whole: Whole, frame: Frame, at_mm: float) -> Solid:
    """All that lies further along the normal than this."""
    there = Frame(frame.point(0.0, at_mm, 0.0), frame.inward, frame.right)
    return half_space(there, 1, whole.reach_mm)


def _fall(whole: Whole, frame: Frame, skin: Outline, stands: float) -> float:
    """Height of the 45 deg foot under a collar that stands out so far: it ends in the skin even where that falls."""
    base = whole.wall_mm
    back = [section(whole.body.solid, frame, -(base + k * stands)) for k in (0.0, 2.0)]
    falls = [-max(one.excess_mm([skin]) for one in found) for found in back]
    per_mm = min(0.7, max(0.0, (falls[0] - falls[1]) / (2.0 * stands)))
    return (stands - min(falls[0], 0.0) + 0.25 * whole.wall_mm) / (1.0 - per_mm)


def _keys(whole: Whole, joint: HalvesLap, inner: Outline) -> tuple[list[Solid], list[Solid]]:
    """Ribs on the inner half with ends of 45 deg, and the notches that they go into."""
    if joint.keys == 0:
        return [], []
    long, high, frame = joint.length_mm, GLUE_GAP_MM + whole.wall_mm, inner.frame
    width = min(RIB_MM, inner.polygon.exterior.length / (3.0 * joint.keys * WIDE))
    begin, deep = RIB_FROM * long, -0.5 * whole.wall_mm
    high = min(
        high, (long - begin - whole.wall_mm - RIB_SLACK_MM) / 2
    )  # its crest is a wall wide, its slopes end in time
    if high < RIB_LEAST_MM:
        need = (whole.wall_mm + RIB_SLACK_MM + 2 * RIB_LEAST_MM) / (1.0 - RIB_FROM)
        allowed, why = f"{math.ceil(need):d} mm or more, or keys: 0", "the ribs find no room on so short a lap"
        raise RefusalError("halves.joint.lap.length", f"{long:.1f} mm", allowed, why)
    end = long - high - 0.5 * RIB_SLACK_MM
    out_mm = GLUE_GAP_MM + whole.wall_mm + 1.0
    slack = 2 * gap_between(RIB_SLACK_MM / 2, whole.spec.printer)
    ribs, notches = [], []
    for number, (at, out) in enumerate(inner.along(joint.keys, 0.5)):
        wide = width * (WIDE if number == 0 else 1.0)
        profile = [
            (deep, begin),
            (0.0, begin),
            (high, begin + high),
            (high, end),
            (0.0, end + high),
            (deep, end + high),
        ]
        low = begin - RIB_SLACK_MM
        window = [(deep, low), (out_mm, low), (out_mm, long + 1.0), (deep, long + 1.0)]
        ribs.append(rib(at, out, frame.inward, profile, wide))
        notches.append(rib(at, out, frame.inward, window, wide + slack))
    return ribs, notches
