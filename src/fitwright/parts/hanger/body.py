"""The printed body of a plan: profile extruded, everything cut, compared with its closed-form volume."""

from __future__ import annotations

from fitwright.outline_union import Region
from fitwright.part import Body, Feature, HoleFit, Pose, RoundSize
from fitwright.parts.gate.piece import Piece, body_of
from fitwright.parts.hanger.cuts import Cut, Drilled, frame_of, taken_mm3, through_holes
from fitwright.parts.hanger.declared import CAP
from fitwright.parts.hanger.placed import PROFILE, Placed
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.shapes.solids import cut, outline_prism

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
) -> Body:
    """The body `name`, extruded over `wide_mm` from `y0`; BuildError where its volume is not the closed form's."""
    sides = [(s.start, s.via, s.end) for s in at.outline(profile.outer).sides]
    whole = outline_prism(sides, PROFILE, y0, y0 + wide_mm)
    inner = [
        outline_prism([(s.start, s.via, s.end) for s in at.outline(one).sides], PROFILE, y0 - 1.0, y0 + wide_mm + 1.0)
        for one in profile.inner
    ]
    tools = [one.tool(at) for one in cuts]
    solid = cut(whole, [*inner, *tools], name)
    features = tuple(Feature(one.name, "cut", tool) for one, tool in zip(cuts, tools, strict=True))
    holes = tuple(_hole(one, at) for one in cuts if isinstance(one, Drilled) and one.fit)
    volume = profile.area_mm2 * wide_mm - taken_mm3(cuts, profile)
    piece = Piece(name, solid, genus + len(inner), volume, features, holes, (), rounds)
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


def _hole(one: Drilled, at: Placed) -> HoleFit:
    frame = frame_of(one, at)
    return HoleFit(one.name, frame.origin, frame.inward, one.v1 - one.v0, one.d_mm, one.key)
