"""What a second support and the guard bear."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace, Support
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.gate.blocks import Block
from fitwright.parts.gate.guard import guarded
from fitwright.parts.gate.guard_plan import GuardPlan, guard_pieces
from fitwright.parts.gate.load_cases import Bears, Hung, hand, hung
from fitwright.parts.gate.load_faces import OUT, RIGHT, UP, bore, disc, minus, patch
from fitwright.parts.gate.load_springs import HARD_N_MM, SLIDES_N_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import WASHER_OF, WING_MM, SupportPlan, support_plan
from fitwright.spec.models import GateBracketSpec

HAND_MM = 20.0
"""A hand presses over so much (common practice, no source)."""


def support_bears(plan: GatePlan, spec: GateBracketSpec, falls: tuple[Vec, ...]) -> Bears:
    """The saddle under a heavy cylinder: its share of the weight, knocks, a hand on the cylinder."""
    at = support_plan(plan, spec)
    if at is None:
        return Bears()
    groove, body = _groove(at, spec), "support"
    x = placed(at.bolt_x, spec.printer)
    washer = fastener(WASHER_OF)
    d = washer.washer_d2_mm or at.screw.head_d_mm
    sole = patch("support sole", body, UP, at.foot_z, (at.axis_x - at.wing_x, at.axis_x + at.wing_x), at.y)
    washers = [
        disc(f"{name} support washer", body, (at.axis_x + side * x, at.middle_y, at.foot_z + WING_MM), minus(UP), d)
        for name, side in (("left", -1.0), ("right", 1.0))
    ]
    held = (sole.name, *(one.name for one in washers))
    share = min(1.0, spec.cylinder.long_mm / 2 / abs(at.middle_y - plan.nose_face_mm))
    lies = Hung(share * spec.cylinder.mass_kg, (at.axis_x, at.middle_y, 0.0), _aside(falls))
    cases = [*hung(lies, groove, held)] if lies.falls else []
    ways: tuple[Vec, ...] = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, -1.0))
    cases.append(hand(groove, held, "a hand that leans on the cylinder", ways, lies.at, key="support"))
    return Bears(
        (groove, sole, *washers),
        (Support(sole.name, "seat"), *(Support(one.name, "washer") for one in washers)),
        tuple(cases),
    )


def _aside(falls: tuple[Vec, ...]) -> tuple[Vec, ...]:
    """A saddle carries across the cylinder only."""
    return tuple(one for one in falls if abs(one[1]) < 0.5)


def _groove(at: SupportPlan, spec: GateBracketSpec) -> LoadFace:
    half = modelled(2 * at.half_mm, "hole", spec.printer) / 2
    if not at.round:
        return patch("barrel groove", "support", minus(UP), -half, (at.axis_x - half, at.axis_x + half), at.y)
    frame = Frame((at.axis_x, at.y[0], 0.0), OUT, RIGHT)
    return bore("barrel groove", "support", frame, half, (0.0, at.y[1] - at.y[0]), (91.0, 269.0))


def guard_bears(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bears]:
    """A hand that presses on the middle of each plate."""
    if not guarded(plan, spec):
        return
    pieces = guard_pieces(plan, spec)
    for name, sign in (("guard_up", 1.0), ("guard_down", -1.0)):
        for number, piece in enumerate(pieces, start=1):
            yield _plate(name + (f"_{number}" if len(pieces) > 1 else ""), piece, sign, plan)


def _plate(body: str, numbers: GuardPlan, sign: float, plan: GatePlan) -> Bears:
    down, plate = (0.0, 0.0, -sign), numbers.plate
    half_x, half_y = (min(HAND_MM / 2, (hi - lo) / 2) for lo, hi in (plate.x, plate.y))
    x, y = (sum(plate.x) / 2, sum(plate.y) / 2)
    top = patch(f"{body} middle", body, down, sign * plate.z[1], (x - half_x, x + half_x), (y - half_y, y + half_y))
    rests = [
        patch(f"{body} rest {k}", body, minus(down), sign * block.z[0], block.x, block.y)
        for k, block in enumerate(_rests(numbers, plan), start=1)
    ]
    supports = tuple(Support(one.name, "washer", HARD_N_MM, SLIDES_N_MM) for one in rests)
    case = hand(top, tuple(one.name for one in rests), "a hand that presses on the guard")
    return Bears((top, *rests), supports, (case,))


def _rests(numbers: GuardPlan, plan: GatePlan) -> list[Block]:
    """Side walls on the rods; without them strips of the plate over the rails, or its outer edges."""
    z0 = numbers.plate.z[0]
    walls = [one for one in numbers.walls if _beside(one, plan)]
    if walls:
        return walls
    half = plan.frame.rail_wide / 2
    y = numbers.plate.y
    return [Block((x - half, x + half), y, (z0, z0)) for x in (-plan.frame.rail_x, plan.frame.rail_x)]


def _beside(wall: Block, plan: GatePlan) -> bool:
    """A side wall: about a rod's axis."""
    return wall.x[0] <= plan.frame.rail_x <= wall.x[1] or wall.x[0] <= -plan.frame.rail_x <= wall.x[1]
