"""The gate yoke in numbers: a plate in front of the gate's body edge, ears on the body's faces, holes, pockets.

Everything here is as modelled (the printer's errors undone), in part coordinates. The ears are flush with the plate's
upper and lower edge and go through to its front face, so that a yoke lying on its front face grows without overhang.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.data.fasteners import fastener
from fitwright.parts.compensation import modelled, placed, small_hole
from fitwright.parts.gate.blocks import Block, Point, Span, Step, hexagon
from fitwright.parts.gate.frame_plan import BAR_MM, EAR_MM, FLOOR_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_ears import (
    EAR_LEAST_MM,
    OVERLAP_MM,
    Ear,
    clamp_ears,
    keep_outs,
    relief_block,
    relieved,
    screw_ears,
)
from fitwright.spec.models import GateBracketSpec

SLIP_MM = 0.2
"""Between each face of the body and the ear on it, so that the yoke goes on (common practice, no source)."""
NUT_PLAY_MM = 0.3
"""A captive nut's pocket is so much wider across flats (common practice, no source)."""
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
    recesses: tuple[Block, ...] = ()
    """What is cut from the plate with the window, before the ears are added."""
    feet: tuple[Block, ...] = ()
    """What is added below the plate."""

    @property
    def half_high_mm(self) -> float:
        """Of plate and ears."""
        return self.plate.z[1]

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
        return (self.faces_z[1], self.half_high_mm) if ear.up else (-self.half_high_mm, self.faces_z[0])

    @property
    def steps(self) -> list[Step]:
        """The boxes that make it, in order."""
        ears = [(self.ear_block(ear), True) for ear in self.ears]
        plate = [(self.plate, True), *((b, False) for b in (self.window, *self.recesses))]
        return [*plate, *ears, *((f, True) for f in self.feet), *((r, False) for r in self.reliefs)]


def yoke_numbers(
    plan: GatePlan, spec: GateBracketSpec, rods: bool, taller_mm: float = 0.0, clamp_screws: int = 1
) -> YokePlan:
    """The yoke, `taller_mm` higher each way than window, ears and nuts ask for; its strength is not looked at here.

    RefusalError where something that stands proud of the body leaves no room for an ear.
    """
    mount, frame, inner = spec.gate.mount, plan.frame, faces_z(spec)
    screw = fastener(mount.screws.size if mount.screws is not None else mount.size)
    round_holes = rods or mount.kind != "screws" or (frame.kind == "board" and spec.layout == "in_line")
    slot = 0.0 if round_holes else spec.setting_mm
    ears = tuple(
        relieved(ear, keep_outs(spec), spec)
        for ear in (screw_ears(plan, spec, slot, inner) if mount.kind == "screws" else clamp_ears(spec, clamp_screws))
    )
    holes = rod_holes(plan, spec) if rods else ()
    high = half_high_mm(plan, spec, ears, holes, inner) + taller_mm
    wide = max([frame.yoke_wide / 2, *(abs(x) for ear in ears for x in ear.x), *_ends(holes)])
    plate = Block((-wide, wide), (frame.yoke_y0, frame.yoke_y1), (-high, high))
    return YokePlan(
        mount=mount.kind,
        plate=plate,
        window=_window(plan, spec),
        ears=ears,
        rods=holes,
        reliefs=tuple(relief_block(ear, r, inner) for ear in ears for r in ear.reliefs) + _at_edge(spec, plate, inner),
        screw=screw.name,
        screw_d_mm=screw.major_mm,
        hole_d_mm=small_hole(screw.hole_medium_mm, spec.printer),
        slot_mm=slot,
        faces_z=inner,
    )


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


def half_high_mm(
    plan: GatePlan, spec: GateBracketSpec, ears: tuple[Ear, ...], holes: tuple[RodHole, ...], inner: Span
) -> float:
    """Bars beside the window, ears outside the body's faces, material round the nuts and above reliefs."""
    over_ears = max(inner[1], -inner[0]) + EAR_MM
    over_nuts = [z + EAR_LEAST_MM for hole in holes for _, z in hole.outline]
    faces = {True: inner[1], False: -inner[0]}
    over_reliefs = [faces[ear.up] + high + EAR_LEAST_MM for ear in ears for _, _, high in ear.reliefs]
    asked = [_window(plan, spec).z[1] + BAR_MM, plan.frame.yoke_high / 2, over_ears]
    return max([*asked, *over_nuts, *over_reliefs])


def _window(plan: GatePlan, spec: GateBracketSpec) -> Block:
    frame = plan.frame
    x, z = (modelled(size, "hole", spec.printer) / 2 for size in (frame.window_wide, frame.window_high))
    return Block((-x, x), (frame.yoke_y0 - OVERLAP_MM, frame.yoke_y1 + OVERLAP_MM), (-z, z))


def _ends(holes: tuple[RodHole, ...]) -> list[float]:
    return [x + OUTSIDE_MM for hole in holes for x, _ in hole.outline]


def _at_edge(spec: GateBracketSpec, plate: Block, inner: Span) -> tuple[Block, ...]:
    """Shallow pockets in the plate's rear face for what stands proud right at the body's edge."""
    found = []
    for keep in keep_outs(spec):
        z = (
            (inner[1] - OVERLAP_MM, inner[1] + keep.high_mm)
            if keep.up
            else (inner[0] - keep.high_mm, inner[0] + OVERLAP_MM)
        )
        block = Block(keep.x, (plate.y[0] - OVERLAP_MM, keep.y[1]), z)
        if keep.y[1] > plate.y[0] and block.meets(plate):
            found.append(block)
    return tuple(found)
