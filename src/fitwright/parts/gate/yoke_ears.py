"""The yoke's ears on the body's faces: where they lie, and how they keep clear of what stands proud of the body.

An ear's `core` (along x) carries its screw: it stays whole. What is beyond the core gives way to an obstacle; below the
core a low obstacle gets a relief that runs out at the ear's tip (so that it prints), if it leaves the ear's face
whole round the screw and enough above it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import RefusalError
from fitwright.parts.compensation import placed
from fitwright.parts.gate.blocks import Block, Point, Span
from fitwright.parts.gate.frame_plan import EAR_EDGE, EAR_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

EAR_SPARE_MM = 3.0
"""An ear is so much wider, each side of its core; obstacles may have it."""
WASHER_EDGE_MM = 1.0
CLEAR_MM = 1.0
"""Between ears and what stands proud of the body."""
SEAT_MM = 2.0
"""The ear's face stays whole so far round its screw's hole."""
EAR_LEAST_MM = 4.0
"""Of an ear, above a relief."""
TALLEST_MM = 16.0
"""An ear is no thicker than this on account of a relief."""
OVERLAP_MM = 0.5
LEDGE_MM = 2.0
"""What stands proud may reach so far beyond the body's edge, into the yoke's rear face."""


@dataclass(frozen=True)
class Ear:
    """A footprint on one face of the body: x, from its tip (negative y), its screws (x, y); `core` is along x.

    `reliefs`: (x, y, height above the ear's face) that is cut from below. `thick_mm`: from that face outwards.
    """

    name: str
    x: Span
    tip_y: float
    core: Span
    holes: tuple[Point, ...]
    up: bool
    reliefs: tuple[tuple[Span, Span, float], ...] = ()
    thick_mm: float = EAR_MM
    slot_mm: float = 0.0

    @property
    def relief_mm(self) -> float:
        """The highest relief below it."""
        return max((high for *_, high in self.reliefs), default=0.0)


@dataclass(frozen=True)
class KeepOut:
    """An obstacle with its clearance round it: x, y, height above the face, and its place in the YAML."""

    label: str
    index: int
    x: Span
    y: Span
    high_mm: float
    up: bool


def keep_outs(spec: GateBracketSpec) -> list[KeepOut]:
    """What stands proud of the body, CLEAR_MM wider all round."""
    found = []
    for k, p in enumerate(spec.gate.proud):
        half, middle = p.across_mm / 2 + CLEAR_MM, placed(p.x_mm, spec.printer)
        y = (-p.y_mm - p.along_mm - CLEAR_MM, -p.y_mm + CLEAR_MM)
        found.append(KeepOut(p.label, k, (middle - half, middle + half), y, p.high_mm + CLEAR_MM, p.side == "up"))
    return found


def screw_ears(plan: GatePlan, spec: GateBracketSpec, slot_mm: float, inner: Span) -> list[Ear]:
    """Four ears for the body's two through screws: edge distance, and room for a washer."""
    screws = spec.gate.mount.screws
    assert screws is not None
    row = fastener(screws.size)
    at, half = placed(screws.across_mm / 2, spec.printer), ear_half_mm(row)
    tip = -screws.from_edge_mm - slot_mm - EAR_EDGE * row.major_mm
    found = []
    for side, up in ((side, up) for up in (True, False) for side in (-1.0, 1.0)):
        x = side * at
        wide = (x - half - EAR_SPARE_MM, x + half + EAR_SPARE_MM)
        ear = Ear(
            ear_name(up, side), wide, tip, (x - half, x + half), ((x, -screws.from_edge_mm),), up, slot_mm=slot_mm
        )
        ear = beside_stub(ear, spec, "gate.screws.from_edge")
        found.append(_beside_coupling(ear, plan, spec, inner))
    return found


def ear_half_mm(row: FastenerRow) -> float:
    """From a screw's axis to the edge of its ear's core: edge distance, or a washer with a rim."""
    return max(EAR_EDGE * row.major_mm, (row.washer_d2_mm or row.head_d_mm) / 2 + WASHER_EDGE_MM)


def relieved(ear: Ear, keep: Sequence[KeepOut], spec: GateBracketSpec) -> Ear:
    """The ear beside or above all obstacles; RefusalError where neither can be."""
    for obstacle in keep:
        if obstacle.y[1] > LEDGE_MM + CLEAR_MM:
            raise _over_edge(obstacle, spec)
        if obstacle.up != ear.up or not _meet(obstacle.x, ear.x) or obstacle.y[1] <= ear.tip_y:
            continue
        if not _meet(obstacle.x, ear.core):
            ear = replace(ear, x=_without(ear.x, obstacle.x))
        else:
            ear = _over(ear, obstacle, spec)
    return ear


def _over(ear: Ear, obstacle: KeepOut, spec: GateBracketSpec) -> Ear:
    """The ear with a relief over the obstacle that runs out at its tip and at its sides."""
    mount = spec.gate.mount
    hole_mm = fastener(mount.screws.size if mount.screws is not None else mount.size).hole_medium_mm
    seat = hole_mm / 2 + max(SEAT_MM, spec.wall_mm + OVERLAP_MM)
    behind = min(y for _, y in ear.holes) - ear.slot_mm - seat >= obstacle.y[1]
    beside = all(not _meet(obstacle.x, (x - seat, x + seat)) for x, _ in ear.holes)
    if not (behind or beside) or obstacle.high_mm + EAR_LEAST_MM > TALLEST_MM:
        raise _in_the_way(ear, obstacle, spec)
    x = _to_the_edge(obstacle.x, ear.x)
    return replace(ear, reliefs=(*ear.reliefs, (x, (ear.tip_y - OVERLAP_MM, obstacle.y[1]), obstacle.high_mm)))


def _over_edge(obstacle: KeepOut, spec: GateBracketSpec) -> RefusalError:
    out = format_length(obstacle.y[1] - CLEAR_MM, spec.units)
    return RefusalError(
        f"gate.proud[{obstacle.index + 1}]",
        f"{obstacle.label}, {out} beyond the body's edge",
        f"no more than {format_length(LEDGE_MM, spec.units)} beyond it, or taken off",
        "the yoke lies along that edge",
    )


def _in_the_way(ear: Ear, obstacle: KeepOut, spec: GateBracketSpec) -> RefusalError:
    kind, say = spec.gate.mount.kind, partial(format_length, units=spec.units)
    other = "clamp or saddle in place of screws" if kind == "screws" else "screws or saddle in place of clamp"
    where = f"from {say(ear.core[0])} to {say(ear.core[1])} across the blade"
    high = f"no higher than {say(TALLEST_MM - EAR_LEAST_MM - CLEAR_MM)} and beside the screw"
    return RefusalError(
        f"gate.proud[{obstacle.index + 1}]",
        f"{obstacle.label}, {say(obstacle.high_mm - CLEAR_MM)} high, where the {ear.name} ear sits ({where})",
        f"{high}, taken off, or {other}; a head of the screw itself is left out: the screw is replaced",
        "it stands in the way of an ear and the ear would lose its hold",
    )


def beside_stub(ear: Ear, spec: GateBracketSpec, key: str) -> Ear:
    """The ear beside the round stub on the body's face."""
    port = spec.gate.port
    if port.stub_outside_mm is None:
        return ear
    r, far = port.stub_outside_mm / 2 + CLEAR_MM, port.to_edge_mm + ear.tip_y
    half = (max(0.0, r * r - far * far)) ** 0.5 if far < r else 0.0
    if half <= 0.0 or not _meet((-half, half), ear.x):
        return ear
    if _meet((-half, half), ear.core):
        raise RefusalError(
            key,
            f"an ear that reaches {format_length(-ear.tip_y, spec.units)} over the body",
            "saddle in place of it",
            "the pipe stub stands where the ear would lie",
        )
    return replace(ear, x=_without(ear.x, (-half, half)))


def _beside_coupling(ear: Ear, plan: GatePlan, spec: GateBracketSpec, inner: Span) -> Ear:
    """An ear lower than the window's edge fills the window there: it keeps clear of the coupling."""
    face = inner[1] if ear.up else -inner[0]
    clear = plan.coupling.wide_mm / 2 + 2 * CLEAR_MM
    if face >= plan.frame.window_high / 2 or not _meet((-clear, clear), ear.x):
        return ear
    if _meet((-clear, clear), ear.core):
        need = 2 * (clear + (ear.core[1] - ear.core[0]) / 2)
        raise RefusalError(
            "gate.screws.across",
            format_length(2 * abs(ear.holes[0][0]), spec.units),
            f"{format_length(need, spec.units)} or more",
            "the ears would stand where the coupling goes through",
        )
    return replace(ear, x=_without(ear.x, (-clear, clear)))


def ear_name(up: bool, side: float) -> str:
    return f"{'upper' if up else 'lower'} {'right' if side > 0 else 'left'}"


def mirrored(span: Span, side: float) -> Span:
    return span if side > 0 else (-span[1], -span[0])


def _meet(a: Span, b: Span) -> bool:
    return a[0] < b[1] and b[0] < a[1]


def _without(whole: Span, taken: Span) -> Span:
    """What is left of `whole` beside `taken`, the longer side."""
    left, right = (whole[0], min(whole[1], taken[0])), (max(whole[0], taken[1]), whole[1])
    return left if left[1] - left[0] >= right[1] - right[0] else right


def _to_the_edge(taken: Span, whole: Span) -> Span:
    """`taken`, carried beyond the edge of `whole` where less than EAR_LEAST_MM would be left there."""
    low = whole[0] - OVERLAP_MM if taken[0] < whole[0] + EAR_LEAST_MM else taken[0]
    high = whole[1] + OVERLAP_MM if taken[1] > whole[1] - EAR_LEAST_MM else taken[1]
    return low, high


def relief_block(ear: Ear, relief: tuple[Span, Span, float], inner: Span) -> Block:
    """A relief as the box that is cut away, from within the body to its height."""
    x, y, high = relief
    if ear.up:
        return Block(x, y, (inner[1] - OVERLAP_MM, inner[1] + high))
    return Block(x, y, (inner[0] - high, inner[0] + OVERLAP_MM))
