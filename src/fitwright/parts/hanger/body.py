"""The printed body of a plan: profile extruded, everything cut, compared with its closed-form volume."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point
from fitwright.outline_union import Region
from fitwright.part import Body, Feature, HoleFit, Pose, RoundSize
from fitwright.parts.gate.piece import Piece, body_of
from fitwright.parts.hanger.cuts import Cut, Drilled, frame_of, taken_mm3, through_holes
from fitwright.parts.hanger.declared import CAP, along_hose
from fitwright.parts.hanger.placed import PROFILE, Placed
from fitwright.parts.hanger.plan import HangerPlan, Lug
from fitwright.shapes.solids import cut, cylinder, fused, outline_prism

LYING = Pose("lying on its side, the profile on the bed", (0.0, -1.0, 0.0))


def profile_body(
    name: str,
    profile: Region,
    cuts: tuple[Cut, ...],
    at: Placed,
    wide_mm: float,
    wall_mm: float,
    genus: int,
    rounds: tuple[RoundSize, ...] = (),
    y0: float = 0.0,
    pose: Pose = LYING,
    lugs: tuple[Lug, ...] = (),
) -> Body:
    """The body `name`, extruded over `wide_mm` from `y0`; BuildError where its volume is not the closed form's."""
    drawn = [
        (one, [outline_prism(_sides(at, part), PROFILE, y0, y0 + one.long_mm) for part in one.drawn]) for one in lugs
    ]
    parts = [part for _, some in drawn for part in some]
    whole = fused([outline_prism(_sides(at, profile.outer), PROFILE, y0, y0 + wide_mm), *parts], name)
    inner = [outline_prism(_sides(at, one), PROFILE, y0 - 1.0, y0 + wide_mm + 1.0) for one in profile.inner]
    tools = [one.tool(at) for one in cuts]
    eyes = [cylinder(along_hose(at, *one.at), one.hole_d / 2, y0 - 0.5, y0 + one.long_mm + 0.5) for one in lugs]
    solid = cut(whole, [*inner, *tools, *eyes], name)
    features = tuple(Feature(one.name, "cut", tool) for one, tool in zip(cuts, tools, strict=True))
    features += tuple(Feature(one.name, "cut", tool) for one, tool in zip(lugs, eyes, strict=True))
    features += tuple(
        Feature(f"lug of the {one.name}", "boss", part.cut(eye))
        for (one, some), eye in zip(drawn, eyes, strict=True)
        for part in some
    )
    holes = tuple(_hole(one, at) for one in cuts if isinstance(one, Drilled) and one.fit)
    volume = profile.area_mm2 * wide_mm - taken_mm3(cuts, profile) + math.fsum(one.added_mm3(profile) for one in lugs)
    piece = Piece(name, solid, genus + len(inner) + len(lugs), volume, features, holes, (), rounds)
    return body_of(piece, wall_mm, (pose,))


def caps_of(plan: HangerPlan, wall_mm: float) -> tuple[Body, ...]:
    """The caps of split clamps, each a body of its own."""
    made = []
    for k, one in enumerate(plan.carrier, start=1):
        if one.cap is None:
            continue
        name = CAP if len(plan.carrier) == 1 else f"{CAP} {k}"
        holes = through_holes(one.cap_cuts)
        profile = Region(one.cap.anticlockwise())
        made.append(
            profile_body(name, profile, one.cap_cuts, plan.placed, plan.sizes.wide, wall_mm, holes, one.cap_rounds)
        )
    return tuple(made)


def _sides(at: Placed, drawn: Outline) -> list[tuple[Point, Point | None, Point]]:
    return [(s.start, s.via, s.end) for s in at.outline(drawn).sides]


def _hole(one: Drilled, at: Placed) -> HoleFit:
    frame = frame_of(one, at)
    return HoleFit(one.name, frame.origin, frame.inward, one.v1 - one.v0, one.d_mm, one.key)
