"""The gate yoke in numbers: a plate in front of the gate's body edge, ears on the body's faces, holes, pockets.

Everything here is as modelled (the printer's errors undone), in part coordinates. The ears go through to the plate's
front face, so that a yoke lying on it grows without overhang.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from fitwright.data.fasteners import fastener
from fitwright.parts.compensation import modelled, placed, small_hole
from fitwright.parts.gate.blocks import Block, Point, Span, Step, hexagon
from fitwright.parts.gate.frame_plan import BAR_MM, EAR_MM, FLOOR_MM, RAIL_WIDE_MM, RODS_EDGE
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_clamp import clamp_ears
from fitwright.parts.gate.yoke_ears import (
    EAR_LEAST_MM,
    OVERLAP_MM,
    WASHER_EDGE_MM,
    Ear,
    keep_outs,
    relief_block,
    relieved,
    screw_ears,
)
from fitwright.parts.gate.yoke_saddle import Saddle, saddle_numbers
from fitwright.spec.models import GateBracketSpec

SLIP_MM = 0.2
"""Between each face of the body and the ear on it, so that the yoke goes on (common practice, no source)."""
NUT_PLAY_MM = 0.3
"""A captive nut's pocket is so much wider across flats (common practice, no source)."""
FLUSH_MM = 2.5
"""An ear that would end by less than this below the plate's edge is made flush."""
OUTSIDE_MM = 3.5
"""Beyond a nut's pocket, at the yoke's ends."""


@dataclass(frozen=True)
class RodHole:
    """A threaded rod's hole along y, its captive nut in a pocket from behind that ends at `floor_y`."""

    name: str
    x_mm: float
    d_mm: float
    pocket_af_mm: float
    floor_y: float

    @property
    def outline(self) -> list[Point]:
        """The pocket's hexagon in (x, z), corners along x."""
        return hexagon((self.x_mm, 0.0), self.pocket_af_mm)


@dataclass(frozen=True)
class YokePlan:
    """All in mm, as modelled. `window` is cut from `plate`, the ears then added, `reliefs` cut away.

    `hole_d_mm`, `slot_mm`: the screws' holes, and how far a slot goes either way along y (0: round). `faces_z`: the
    ears' inner faces.
    """

    mount: Literal["screws", "clamp", "saddle"]
    plate: Block
    window: Block
    ears: tuple[Ear, ...]
    rods: tuple[RodHole, ...]
    reliefs: tuple[Block, ...]
    screw: str
    screw_d_mm: float
    hole_d_mm: float
    slot_mm: float
    faces_z: Span
    saddle: Saddle | None = None
    recesses: tuple[Block, ...] = ()
    """What is cut from the plate with the window, before the ears are added."""
    feet: tuple[Block, ...] = ()
    """What is added below the plate."""

    @property
    def gap_mm(self) -> float:
        """Between the ears, over the body."""
        return self.faces_z[1] - self.faces_z[0]

    @property
    def half_high_mm(self) -> float:
        """Of plate and ears."""
        return self.plate.z[1]

    @property
    def top_mm(self) -> float:
        """Half its height, a saddle's arms counted."""
        return max(self.half_high_mm, self.saddle.end_z if self.saddle else 0.0)

    @property
    def bar_mm(self) -> float:
        """Height of each bar, above and below the window."""
        return self.half_high_mm - self.window.z[1]

    @property
    def deep_mm(self) -> float:
        """Of the plate, along y."""
        return self.plate.y[1] - self.plate.y[0]

    def ear_block(self, ear: Ear) -> Block:
        """The ear with its root, from its tip to the plate's front."""
        return Block(ear.x, (ear.tip_y, self.plate.y[1]), self.ear_z(ear))

    def ear_z(self, ear: Ear) -> Span:
        """From the body's face outwards: low and high."""
        low, high = self.faces_z
        return (high, high + ear.thick_mm) if ear.up else (low - ear.thick_mm, low)

    @property
    def screws(self) -> list[tuple[float, float, float, float]]:
        """x and y of each screw through the ears, and z of what its head and its nut bear on: high, low."""
        found = []
        for up, low in ((a, b) for a in self.ears if a.up for b in self.ears if not b.up and b.holes == a.holes):
            found += [(x, y, self.ear_z(up)[1], self.ear_z(low)[0]) for x, y in up.holes]
        return sorted(found)

    @property
    def steps(self) -> list[Step]:
        """The boxes that make it, in order."""
        ears = [(self.ear_block(ear), True) for ear in self.ears]
        plate = [(self.plate, True), *((b, False) for b in (self.window, *self.recesses))]
        return [*plate, *ears, *((f, True) for f in self.feet), *((r, False) for r in self.reliefs)]


def yoke_numbers(
    plan: GatePlan, spec: GateBracketSpec, rods: bool, taller_mm: float = 0.0, clamp_screws: int = 1
) -> YokePlan:
    """The yoke, its bars and ears `taller_mm` more than window, body and nuts ask for.

    Its strength is not looked at here. RefusalError where something that stands proud of the body leaves no room.
    """
    mount, frame, inner = spec.gate.mount, plan.frame, faces_z(spec)
    screw = fastener(mount.screws.size if mount.screws is not None else mount.size)
    round_holes = rods or mount.kind != "screws" or (frame.kind == "board" and spec.layout == "in_line")
    slot = 0.0 if round_holes else spec.setting_mm
    holes, window = rod_holes(plan, spec) if rods else (), _window(plan, spec)
    sketched = _sketched(plan, spec, slot, inner, holes, taller_mm, clamp_screws)
    saddle = saddle_numbers(plan, spec, window.z[1], inner, 2 * taller_mm) if mount.kind == "saddle" else None
    high = max(frame.yoke_high / 2, _half_high_mm(window, sketched, holes, inner))
    if saddle:
        high = max(high, max(saddle.z0) + BAR_MM) + taller_mm / 4
    ears = tuple(_as_thick(ear, high, inner, window, spec, rods) for ear in sketched)
    wide = max([_ends_mm(plan, spec, holes), *(abs(x) for ear in ears for x in ear.x)])
    plate = Block((-wide, wide), (frame.yoke_y0, frame.yoke_y1), (-high, high))
    return YokePlan(
        mount=mount.kind,
        plate=plate,
        window=window,
        ears=ears,
        rods=holes,
        reliefs=tuple(relief_block(ear, r, inner) for ear in ears for r in ear.reliefs)
        + _at_edge(spec, plate, window, inner),
        screw=screw.name,
        screw_d_mm=screw.major_mm,
        hole_d_mm=small_hole(screw.hole_medium_mm, spec.printer),
        slot_mm=slot,
        faces_z=inner,
        saddle=saddle,
    )


def _sketched(
    plan: GatePlan,
    spec: GateBracketSpec,
    slot: float,
    inner: Span,
    holes: tuple[RodHole, ...],
    taller_mm: float,
    clamp_screws: int,
) -> list[Ear]:
    """The ears of this mount, clear of obstacles, as thick as they must be by themselves."""
    kind, grooves = (
        spec.gate.mount.kind,
        {up: _grooves(holes, face) for up, face in ((True, inner[1]), (False, -inner[0]))},
    )
    thick = {up: max(EAR_MM + taller_mm, _deepest(grooves[up]) + EAR_LEAST_MM) for up in grooves}
    if not holes:  # flush with the plate, see _as_thick
        half = max(plan.frame.yoke_high / 2, _half_high_mm(_window(plan, spec), [], holes, inner))
        thick = {up: max(thick[up], half - face) for up, face in ((True, inner[1]), (False, -inner[0]))}
    if kind == "saddle":
        return []
    if kind == "screws":
        ears = screw_ears(plan, spec, slot, inner)
    else:
        gap = (inner[1] - inner[0] - spec.gate.body.thickness_mm) / 2
        ways = [high + spec.wall_mm + OVERLAP_MM for side in grooves.values() for (_, high), _ in side]
        clear = max(ways, default=0.0)
        ears = clamp_ears(spec, max(thick.values()), gap, plan.frame.yoke_y0, clear, clamp_screws)
    ears = [relieved(_over_grooves(ear, grooves[ear.up]), keep_outs(spec), spec) for ear in ears]
    return [replace(ear, thick_mm=max(thick[ear.up], ear.relief_mm + EAR_LEAST_MM)) for ear in ears]


def _grooves(holes: tuple[RodHole, ...], face: float) -> list[tuple[Span, float]]:
    """The ways of the nuts along an ear's face: (x, depth) of each that reaches it."""
    found = []
    for hole in holes:
        top = max(z for _, z in hole.outline)
        half = hole.pocket_af_mm / math.sqrt(3.0) - max(0.0, face) / math.sqrt(3.0)
        if top > face:
            found.append(((hole.x_mm - half, hole.x_mm + half), top - face))
    return found


def _deepest(grooves: list[tuple[Span, float]]) -> float:
    return max((deep for _, deep in grooves), default=0.0)


def _over_grooves(ear: Ear, grooves: list[tuple[Span, float]]) -> Ear:
    """The ear, wide enough that no fin is left beside a groove."""
    for (low, high), _ in grooves:
        if ear.x[0] < high and low < ear.x[1]:
            ear = replace(ear, x=(min(ear.x[0], low - EAR_LEAST_MM), max(ear.x[1], high + EAR_LEAST_MM)))
    return ear


def _as_thick(ear: Ear, half_high: float, inner: Span, window: Block, spec: GateBracketSpec, rods: bool) -> Ear:
    """Flush with the plate where it would else hang on too little, or a washer would foul the plate's edge.

    Without rods always: a yoke with rails fused on lies flat on the bed.
    """
    flush = half_high - (inner[1] if ear.up else -inner[0])
    row = fastener(spec.gate.mount.screws.size if spec.gate.mount.screws else spec.gate.mount.size)
    reach = (row.washer_d2_mm or row.head_d_mm) / 2 + WASHER_EDGE_MM
    washer_clear = max(y for _, y in ear.holes) + reach <= 0.0
    root = max(0.0, ear.x[1] - max(ear.x[0], window.x[1])) + max(0.0, min(ear.x[1], window.x[0]) - ear.x[0])
    held = root >= (ear.x[1] - ear.x[0]) / 2 or half_high - flush + ear.thick_mm >= window.z[1] + EAR_LEAST_MM
    return ear if rods and washer_clear and held and flush - ear.thick_mm >= FLUSH_MM else replace(ear, thick_mm=flush)


def faces_z(spec: GateBracketSpec) -> Span:
    """The ears' inner faces: SLIP_MM clear of the body's faces, wherever these lie about the blade."""
    body, printer = spec.gate.body, spec.printer
    half = modelled(body.thickness_mm + 2 * SLIP_MM, "hole", printer) / 2
    middle = placed(-spec.gate.blade.plane_mm, printer)
    return middle - half, middle + half


def rod_holes(plan: GatePlan, spec: GateBracketSpec) -> tuple[RodHole, ...]:
    """Left and right."""
    frame, printer = plan.frame, spec.printer
    d = small_hole(fastener(frame.rod).hole_medium_mm, printer)
    pocket = modelled(frame.rod_nut_af_mm + NUT_PLAY_MM, "hole", printer)
    x = placed(frame.rail_x, printer)
    return tuple(
        RodHole(f"{name} rod", side * x, d, pocket, frame.yoke_y1 - FLOOR_MM)
        for name, side in (("left", -1.0), ("right", 1.0))
    )


def _half_high_mm(window: Block, ears: list[Ear], holes: tuple[RodHole, ...], inner: Span) -> float:
    """Half the plate's height: bars beside the window, ears, material round the nuts."""
    over_ears = [(inner[1] if ear.up else -inner[0]) + ear.thick_mm for ear in ears]
    over_nuts = [z + EAR_LEAST_MM for hole in holes for _, z in hole.outline]
    return max([window.z[1] + BAR_MM, *over_ears, *over_nuts])


def _window(plan: GatePlan, spec: GateBracketSpec) -> Block:
    frame = plan.frame
    x, z = (modelled(size, "hole", spec.printer) / 2 for size in (frame.window_wide, frame.window_high))
    return Block((-x, x), (frame.yoke_y0 - OVERLAP_MM, frame.yoke_y1 + OVERLAP_MM), (-z, z))


def _ends_mm(plan: GatePlan, spec: GateBracketSpec, holes: tuple[RodHole, ...]) -> float:
    """Half the plate's width: material beyond the nuts, or the rails' outer faces."""
    if holes:
        nuts = max(x for hole in holes for x, _ in hole.outline) + max(OUTSIDE_MM, spec.wall_mm + OVERLAP_MM)
        return max(nuts, plan.frame.rail_x + RODS_EDGE * plan.frame.rod_d_mm)
    return plan.frame.rail_x + RAIL_WIDE_MM / 2


def _at_edge(spec: GateBracketSpec, plate: Block, window: Block, inner: Span) -> tuple[Block, ...]:
    """Shallow pockets in the plate's rear face, open to the window, for what stands proud right at the body's edge."""
    found = []
    for keep in keep_outs(spec):
        side = 1.0 if keep.up else -1.0
        face = inner[1] if keep.up else -inner[0]
        z = sorted((side * (min(face, window.z[1]) - OVERLAP_MM), side * (face + keep.high_mm)))
        block = Block(keep.x, (plate.y[0] - OVERLAP_MM, keep.y[1]), (z[0], z[1]))
        within = window.x[0] <= keep.x[0] and keep.x[1] <= window.x[1] and face + keep.high_mm <= window.z[1]
        if keep.y[1] > plate.y[0] and block.meets(plate) and not within:
            found.append(block)
    return tuple(found)
