"""A bracket on a board in numbers: gate foot, nose foot, the board's outline and holes.

The gate foot is the yoke on two legs beside its window; from below a screw goes through the board into a nut that is
caught in each leg, two a leg. (A flange would have to stand out to the sides, and a 6 in foot would leave the bed.) The
nose foot is the nose plate carried down to the board, a wing on both sides with two slots for coach bolts, and a gusset
along the thrust between plate and wing. Part coordinates, mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.fasteners import FastenerRow
from fitwright.data.spanners import spanner
from fitwright.errors import RefusalError
from fitwright.parts.compensation import modelled, placed, small_hole
from fitwright.parts.gate.blocks import Block, Point, Span
from fitwright.parts.gate.board_sizes import BOARD_EDGE, PRINT_EDGE, board_screw, leg_screws_y, leg_wide_mm
from fitwright.parts.gate.nose_hold import PRELOAD_MPA
from fitwright.parts.gate.nose_plan import thrust_n
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_ears import OVERLAP_MM
from fitwright.parts.gate.yoke_plan import NUT_PLAY_MM, YokePlan
from fitwright.parts.gate.yoke_strength import yoke_plan
from fitwright.spec.models import GateBracketSpec

BAR_DEEP_MM = 14.0
"""The yoke's bars above and below the window, along y: behind them dust falls straight down."""
LEAST_LEG_MM = 8.0
"""A leg is at least so long below the yoke."""
FLOOR_MM = 8.0
"""Print between the board and a caught nut; thickness of the nose foot's wings."""
NUT_ROOM_MM = 0.4
PAST_NUT_MM = 8.0
"""A leg's hole goes on so far beyond its nut: screws are sold in steps of 5 mm."""
GUSSET_MM = 8.0
GUSSET_UP = 0.6
"""Behind the plate a gusset reaches up to this share of the height of the thrust line: fittings have room above it."""
GUSSET_TOP_MM = 14.0
"""Before the plate it reaches up to the thrust line, and there is so long."""
BIG_WASHER_MM, BIG_WASHER_HIGH_MM = 18.0, 1.6
"""Outside and thickness of a large washer M6 (ISO 7093-1, from memory): it bridges a slot."""
COACH_HEAD_D_MM = 16.55
"""Head of a coach bolt M6, its greatest (ISO 8677, from memory)."""
DRILL_MM, COACH_DRILL_MM = 7.0, 6.5
"""Holes in the board: for a screw by hand; for a coach bolt, whose square neck is pulled into the wood (common
practice, no source)."""
STEP_MM = 5.0
"""A board is sawn to whole steps of this."""


@dataclass(frozen=True)
class NoseFoot:
    """`middle_y`, `half_y`: the wings' middle and half length; `wing_x`: from the gusset to the wing's end, right side.

    `bolt_x`, `bolt_apart`: a slot's middle, and how far from `middle_y`; `slot_mm` either way along y. `gusset`: its
    outline in (y, z).
    """

    tower_x: float
    middle_y: float
    half_y: float
    wing_x: Span
    bolt_x: float
    bolt_apart: float
    slot_mm: float
    hole_d_mm: float
    gusset: tuple[Point, ...]

    @property
    def bolts(self) -> tuple[Point, ...]:
        """The slots' middles, left to right, inner before outer."""
        ys = (self.middle_y - self.bolt_apart, self.middle_y + self.bolt_apart)
        return tuple((x, y) for x in (-self.bolt_x, self.bolt_x) for y in ys)


@dataclass(frozen=True)
class GateFoot:
    """The yoke on its legs; `screws`: axes as modelled; `pocket_x`: a pocket's inner end and the leg's outside, right.

    `bottom_z` as modelled; `floor_z`: where the nuts lie.
    """

    yoke: YokePlan
    bottom_z: float
    floor_z: float
    screws: tuple[Point, ...]
    hole_d_mm: float
    pocket_af_mm: float
    pocket_high_mm: float
    pocket_x: Span


@dataclass(frozen=True)
class BoardPlan:
    """The board from `near_y` to `far_y`, `wide_mm` wide, its top `up_mm` below the thrust line."""

    up_mm: float
    thick_mm: float
    near_y: float
    far_y: float
    wide_mm: float
    screw: FastenerRow
    gate: GateFoot
    nose: NoseFoot
    gate_holes: tuple[Point, ...]
    """In the board, true sizes; as `nose_holes`."""
    nose_holes: tuple[Point, ...]

    @property
    def long_mm(self) -> float:
        """Along y."""
        return self.far_y - self.near_y

    @property
    def top_z(self) -> float:
        """The board's upper face."""
        return -self.up_mm

    @property
    def grip_mm(self) -> float:
        """Of all its screws: board and print."""
        return self.thick_mm + FLOOR_MM


def board_plan(plan: GatePlan, spec: GateBracketSpec, far_y: float = 0.0) -> BoardPlan:
    """The board as narrow as both feet let it be; `far_y`: how far it has to reach at least.

    RefusalError where its screws could not hold the thrust.
    """
    _held(plan, spec)
    gate, nose = _gate_foot(plan, spec), _nose_foot(plan, spec)
    near, screw = plan.frame.yoke_y0, board_screw()
    reach = max(far_y, nose.middle_y + nose.half_y + nose.slot_mm + STEP_MM)
    edge = BOARD_EDGE * screw.major_mm
    half = max(gate.yoke.plate.x[1], nose.wing_x[1], gate.screws[-1][0] + edge) + 1.0
    printer = spec.printer
    return BoardPlan(
        up_mm=plan.frame.board_up,
        thick_mm=spec.board_thick_mm,
        near_y=near,
        far_y=near + _stepped(reach - near),
        wide_mm=_stepped(2 * half),
        screw=screw,
        gate=gate,
        nose=nose,
        gate_holes=tuple((x * printer.scale_xy, y) for x, y in gate.screws),
        nose_holes=tuple((x * printer.scale_xy, y) for x, y in nose.bolts),
    )


def wider(board: BoardPlan, by_mm: float) -> BoardPlan:
    """The same on a wider board."""
    return replace(board, wide_mm=board.wide_mm + by_mm)


def gate_yoke(plan: GatePlan, spec: GateBracketSpec) -> YokePlan:
    """The yoke of a gate foot: its bars as strong as the shallow ones that are left of it, its ends as wide as legs.

    RefusalError where it would not hold, or would reach down to the board.
    """
    frame, up = plan.frame, plan.frame.board_up
    shallow = replace(frame, yoke_y1=min(frame.yoke_y1, frame.yoke_y0 + BAR_DEEP_MM))
    low = replace(plan, frame=shallow)
    yoke = yoke_plan(low, spec, rods=False)
    if yoke.half_high_mm > up - LEAST_LEG_MM:
        raise _too_low(low, spec)
    wide = max(yoke.plate.x[1], yoke.window.x[1] + leg_wide_mm())
    y = (frame.yoke_y0, frame.yoke_y1)
    plate = Block((-wide, wide), y, yoke.plate.z)
    window = Block(yoke.window.x, (y[0] - OVERLAP_MM, y[1] + OVERLAP_MM), yoke.window.z)
    return replace(yoke, plate=plate, window=window)


def _too_low(plan: GatePlan, spec: GateBracketSpec) -> RefusalError:
    """Names the highest pressure, in steps of half a bar, whose yoke leaves room for legs."""
    found = f"{spec.pressure_mpa * 10:.1f} bar"
    why = "the yoke that this thrust asks for would reach down to the board"
    for bar in (k / 2 for k in range(math.ceil(spec.pressure_mpa * 20) - 1, 1, -1)):
        less = spec.model_copy(update={"pressure_mpa": bar / 10})
        if yoke_plan(plan, less, rods=False).half_high_mm <= plan.frame.board_up - LEAST_LEG_MM:
            return RefusalError("pressure", found, f"{bar:.1f} bar or less, or frame: rods", why)
    return RefusalError("frame", "board", "rods", why)


def _gate_foot(plan: GatePlan, spec: GateBracketSpec) -> GateFoot:
    printer, screw = spec.printer, board_screw()
    yoke, bottom = gate_yoke(plan, spec), -placed(plan.frame.board_up, spec.printer)
    (y0, y1), half = yoke.plate.y, yoke.half_high_mm
    inner, outer = yoke.window.x[1], yoke.plate.x[1]
    bars = Block(yoke.window.x, (y0 - 0.5, y1 - BAR_DEEP_MM), (-half - 0.5, half + 0.5))
    recessed = yoke.saddle is None and bars.y[1] > y0
    legs = tuple(Block(x, (y0, y1), (bottom, -half)) for x in ((-outer, -inner), (inner, outer)))
    af = modelled((screw.nut_af_mm or 2 * screw.major_mm) + NUT_PLAY_MM, "hole", printer)
    x = outer - max(PRINT_EDGE * screw.major_mm + 0.5, (outer - inner) / 2)
    return GateFoot(
        yoke=replace(yoke, recesses=(bars,) if recessed else (), feet=legs),
        bottom_z=bottom,
        floor_z=bottom + FLOOR_MM,
        screws=tuple((side * x, y) for side in (-1.0, 1.0) for y in leg_screws_y(y0, y1)),
        hole_d_mm=small_hole(screw.hole_medium_mm, printer),
        pocket_af_mm=af,
        pocket_high_mm=(screw.nut_m_mm or screw.major_mm) + NUT_ROOM_MM,
        pocket_x=(x - af / math.sqrt(3.0), outer),
    )


def _nose_foot(plan: GatePlan, spec: GateBracketSpec) -> NoseFoot:
    nose, screw, up = plan.frame.nose, board_screw(), plan.frame.board_up
    middle, setting = plan.nose_face_mm - nose.deep / 2, spec.setting_mm
    hole = small_hole(screw.hole_medium_mm, spec.printer)
    apart = max(setting + hole / 2 + 3.0, BIG_WASHER_MM / 2 + 1.0, nose.deep / 2)
    half = max(nose.deep / 2 + GUSSET_TOP_MM + 2.0, apart + setting + BIG_WASHER_MM / 2 + 1.0)
    tower = nose.ends.outer_x
    head = spanner(screw.nut_af_mm or 2 * screw.major_mm).head_greatest_mm / 2
    bolt = tower + GUSSET_MM + max(head, BIG_WASHER_MM / 2) + 1.0
    top, wing = -(1.0 - GUSSET_UP) * up, -up + FLOOR_MM
    low, high = plan.nose_face_mm - nose.deep, plan.nose_face_mm
    before = ((low - GUSSET_TOP_MM, 0.0), (middle - half, wing), (middle - half, -up))
    behind = ((middle + half, -up), (middle + half, wing), (high, top), (high, 0.0))
    return NoseFoot(
        tower_x=tower,
        middle_y=middle,
        half_y=half,
        wing_x=(tower + GUSSET_MM, bolt + BIG_WASHER_MM / 2 + 1.0),
        bolt_x=placed(bolt, spec.printer),
        bolt_apart=apart,
        slot_mm=setting,
        hole_d_mm=hole,
        gusset=(*before, *behind),
    )


def _held(plan: GatePlan, spec: GateBracketSpec) -> None:
    """The gate foot's screws hold what the stalled thrust at full pressure turns it by: F h, over both legs.

    A leg turns about its rear edge (push) or its front edge (pull); its screws share by their distance from it. What a
    caught nut may press on the print for good: PRELOAD_MPA under its hexagon.
    """
    screw = board_screw()
    af = screw.nut_af_mm or 2 * screw.major_mm
    pull = nut_pull_n(plan, thrust_n(spec))
    may = PRELOAD_MPA * (math.sqrt(3.0) / 2 * af**2 - math.pi / 4 * screw.hole_medium_mm**2)
    if pull > may:
        most = spec.pressure_mpa * 10 * may / pull
        why = f"a stalled cylinder would pull the {screw.name} nuts out of the gate foot"
        allowed = f"{math.floor(10 * most) / 10:.1f} bar or less, or frame: rods"
        raise RefusalError("pressure", f"{spec.pressure_mpa * 10:.1f} bar", allowed, why)


def nut_pull_n(plan: GatePlan, thrust_n: float) -> float:
    """What this thrust pulls on the most loaded nut of a leg."""
    y0, y1 = plan.frame.yoke_y0, plan.frame.yoke_y1
    ways = ([y - y0 for y in leg_screws_y(y0, y1)], [y1 - y for y in leg_screws_y(y0, y1)])
    worst = max(max(arms) / sum(arm**2 for arm in arms) for arms in ways)
    return thrust_n * plan.frame.board_up / 2 * worst


def _stepped(mm: float) -> float:
    return STEP_MM * math.ceil(mm / STEP_MM - 1e-6)
