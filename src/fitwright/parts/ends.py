"""From an end in the YAML to its joint's shape: allowances, tapers and printer compensation are applied here, once."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.end_form import form_of
from fitwright.parts.flange_end import flange_sizes
from fitwright.parts.hose_end import bond_sizes, socket_ridge, tail_land_mm, tail_ridge
from fitwright.section import LEAST_CORNER_MM, Section, SectionError
from fitwright.shapes.flange import FlangeSizes, flange
from fitwright.shapes.forms import Form
from fitwright.shapes.hose_tail import HoseTailSizes, hose_tail
from fitwright.shapes.joint import JointShape, RadialScrews, lead_run
from fitwright.shapes.plain import plain
from fitwright.shapes.slit import SLIT_DEG
from fitwright.shapes.socket import SocketSizes, band_room, first_slit_deg, slit_reach, socket
from fitwright.shapes.spigot import SpigotSizes, spigot
from fitwright.spec.models import End, Flange, HoseTail, Printer, Slit, Socket, Spigot
from fitwright.spec.printed import Cone, bought_cone, modelled_at, printed_cone

BEFORE_ROOT = 0.6
"""A pilot's edge stays this many walls before the bottom: the skin slopes away 0.41 walls behind it."""
TIP_OF_WALL = 0.73
"""Radius of a square tip in walls that is a wall across: 1 / sqrt 2, and a little."""
CORD_SQUEEZE = 0.20
"""Foam cord is squeezed by this share at the middle gap (15-25 % wanted over the whole range)."""


@dataclass(frozen=True)
class EndPlan:
    """Everything one end needs but its place: the YAML end, its key, walls [mm] and the printer.

    `opening_d` is the passage that a flange without an opening of its own takes over from the other end.
    """

    end: End
    key: str
    wall_mm: float
    root_wall_mm: float
    printer: Printer
    opening_d: float = 0.0
    opening: Section | None = None
    lead_in_auto: bool = False
    """True where the lead-in is ours to choose, and may shrink with a thin wall."""
    slit: Slit | None = None
    """The slit along the whole sleeve, where there is one."""

    @property
    def form(self) -> Form:
        """What the joint's profile is carried round."""
        return form_of(self.end.joint, self.opening, self.printer, _least_corner_mm(self))

    @property
    def name(self) -> str:
        """What messages call this end."""
        return f"{self.key} ({self.end.label})" if self.end.label else self.key


@dataclass(frozen=True)
class PlacedEnd:
    """An end with its shape, at its place."""

    plan: EndPlan
    shape: JointShape
    frame: Frame


def _least_corner_mm(plan: EndPlan) -> float:
    """Least radius [mm] of the corners of a section: a spigot's tips would be thinner than its wall if they were sharp.

    They keep that radius at the bottom of a cord's groove and at the lead-in.
    """
    joint = plan.end.joint
    if not isinstance(joint, Spigot):
        return LEAST_CORNER_MM
    groove = _cord_groove(joint, printed_cone(joint, plan.printer), plan)
    return TIP_OF_WALL * (joint.wall_mm or plan.wall_mm) + max(groove, _lead_in(joint, plan))


def end_shape(plan: EndPlan, frame: Frame) -> JointShape:
    """The joint's half-profiles and tools in part coordinates; RefusalError where its numbers cannot work together."""
    try:
        made = _shape(plan, frame)
        made.form.at(made.passage_r_mm)
    except SectionError as error:
        why = "walls and steps leave no passage in so narrow a section"
        allowed = "a larger section, a thinner wall, or a smaller stop"
        raise RefusalError(f"{plan.key}.{plan.end.kind}", str(error), allowed, why) from error
    return made


def _shape(plan: EndPlan, frame: Frame) -> JointShape:
    joint = plan.end.joint
    if isinstance(joint, Socket):
        return socket(_socket(joint, plan), frame, plan.key, plan.form)
    if isinstance(joint, Spigot):
        return spigot(_spigot(joint, plan), frame, plan.key, plan.form)
    if isinstance(joint, HoseTail):
        return hose_tail(_hose_tail(joint, plan), frame, plan.key)
    if isinstance(joint, Flange):
        return flange(sizes_of_flange(joint, plan), frame, plan.key, plan.form)
    inside = modelled(joint.inside.nominal_mm, "hole", plan.printer)
    return plain(inside, joint.length_mm, plan.wall_mm, plan.root_wall_mm, plan.form)


def sizes_of_flange(joint: Flange, plan: EndPlan) -> FlangeSizes:
    """The flange's sizes [mm], its opening taken over from the other end where it has none of its own."""
    walls = plan.wall_mm, plan.root_wall_mm
    return flange_sizes(joint, plan.key, *walls, plan.opening_d, plan.printer, plan.form)


def _socket(joint: Socket, plan: EndPlan) -> SocketSizes:
    printed = printed_cone(joint, plan.printer)
    mouth, bottom = (modelled_at(joint, s, plan.printer) for s in (0.0, joint.depth_mm))
    sizes = SocketSizes(
        mouth,
        bottom,
        joint.depth_mm,
        _lead_in(joint, plan),
        joint.stop_mm,
        plan.wall_mm,
        plan.root_wall_mm,
        slits=joint.clamp.slits if joint.clamp else 0,
        band=joint.clamp.band_mm if joint.clamp else plan.slit.band_mm if plan.slit else 0.0,
        cord=joint.cord_mm or 0.0,
        cord_groove=_cord_groove(joint, printed, plan),
        screws=_screws(joint, plan),
        flare=joint.flare_mm,
        ridge=socket_ridge(joint, mouth, _lead_in(joint, plan), plan.key),
    )
    if joint.clamp and joint.cord_mm:
        raise RefusalError(
            f"{plan.key}.socket.cord",
            "a cord beside clamp slits",
            "one of the two",
            "air passes a cord through the slits",
        )
    need = slit_reach(sizes) + 3.0 if joint.clamp else band_room(sizes)
    if sizes.band and joint.depth_mm < need:
        raise RefusalError(
            f"{plan.key}.socket.depth",
            f"{joint.depth_mm:.1f} mm",
            f"{need:.1f} mm or more",
            "the clamp band and its slits need more depth",
        )
    return sizes


def slits_end_mm(plan: EndPlan) -> float:
    """How far the slits of a clamped socket reach from its mouth [mm]; 0 without slits."""
    joint = plan.end.joint
    return slit_reach(_socket(joint, plan)) if isinstance(joint, Socket) else 0.0


def _spigot(joint: Spigot, plan: EndPlan) -> SpigotSizes:
    printed = printed_cone(joint, plan.printer)
    mouth, bottom = (modelled_at(joint, s, plan.printer) for s in (0.0, joint.depth_mm))
    return SpigotSizes(
        mouth,
        bottom,
        joint.depth_mm,
        _lead_in(joint, plan),
        joint.stop_mm,
        joint.wall_mm or plan.wall_mm,
        plan.root_wall_mm,
        cord=joint.cord_mm or 0.0,
        cord_groove=_cord_groove(joint, printed, plan),
        screws=_screws(joint, plan),
    )


def _lead_in(joint: Socket | Spigot, plan: EndPlan) -> float:
    wall = plan.wall_mm if isinstance(joint, Socket) else joint.wall_mm or plan.wall_mm
    flare = joint.flare_mm if isinstance(joint, Socket) else 0.0
    share = 0.5 if joint.fit == "stretch" else 0.35
    lead = min(joint.lead_in_mm, share * wall + flare) if plan.lead_in_auto else joint.lead_in_mm
    if lead > 0.5 * wall + flare:
        key = f"{plan.key}.{plan.end.kind}.lead_in"
        raise RefusalError(
            key, f"{lead:.2f} mm", f"{0.5 * wall:.2f} mm or less", "the mouth's lip would be thinner than half the wall"
        )
    return lead


def _cord_groove(joint: Socket | Spigot, printed: Cone, plan: EndPlan) -> float:
    """Depth of the groove [mm] that squeezes the cord by a fifth at the middle gap."""
    if not joint.cord_mm:
        return 0.0
    cord = joint.cord_mm
    at = lead_run(_lead_in(joint, plan)) + 2.0 + 1.4 * cord
    gap = abs(printed.at(at) - bought_cone(joint).at(at)) / 2
    depth = (1.0 - CORD_SQUEEZE) * cord - gap
    key, need = f"{plan.key}.{plan.end.kind}", at + 1.4 * cord + 6.0
    if depth < 0.3 * cord:
        raise RefusalError(
            f"{key}.cord", f"{cord:.1f} mm", f"{2.2 * gap:.1f} mm or more", "the gap is too wide for this cord"
        )
    if joint.depth_mm < need:
        raise RefusalError(
            f"{key}.depth", f"{joint.depth_mm:.1f} mm", f"{need:.1f} mm or more", "the cord's groove needs more depth"
        )
    return depth


def _screws(joint: Socket | Spigot, plan: EndPlan) -> RadialScrews | None:
    if joint.screws is None:
        return None
    pilot = small_hole(joint.screws.pilot_d_mm, plan.printer)
    _refuse_curved(joint, plan, pilot)
    wall = plan.wall_mm
    last = joint.depth_mm - BEFORE_ROOT * wall - pilot / 2
    at, first = min(0.6 * joint.depth_mm, last), 0.0
    if isinstance(joint, Socket) and joint.clamp:
        at, first = last, first_slit_deg(joint.clamp.slits) + 180.0 / joint.clamp.slits
    elif plan.slit:
        at, first = last, SLIT_DEG + 180.0 / joint.screws.count
    if joint.cord_mm:
        free = _cord_end(joint, plan) + wall + pilot / 2
        at = max(at, free)
        need = joint.depth_mm + free - last
        if free > last:
            found, allowed = f"{joint.depth_mm:.1f} mm", f"{need:.1f} mm or more"
            raise RefusalError(
                f"{plan.key}.{plan.end.kind}.depth", found, allowed, "screws beside a cord need more depth"
            )
    asked = joint.screws.first_at_deg
    return RadialScrews(joint.screws.count, pilot, at, first if asked is None else asked)


def _refuse_curved(joint: Socket | Spigot, plan: EndPlan, pilot: float) -> None:
    """Where the section is not round, screws go through its flat sides."""
    outline = joint.size.outline
    if outline is None or joint.screws is None:
        return
    room = sum(int(math.dist(p, q) / (3.0 * pilot)) for p, q, _ in outline.straights())
    if room < joint.screws.count:
        found, allowed = f"{joint.screws.count} screws", f"{room} at the most on the flat sides of this section"
        raise RefusalError(f"{plan.key}.{plan.end.kind}.screws", found, allowed, "screws go through flat sides")


def _cord_end(joint: Socket | Spigot, plan: EndPlan) -> float:
    """Where the cord's groove ends [mm from the mouth], at the most."""
    cord = joint.cord_mm or 0.0
    return (
        lead_run(_lead_in(joint, plan))
        + 2.0
        + 1.2 * cord
        + 2.2 * _cord_groove(joint, printed_cone(joint, plan.printer), plan)
    )


def _hose_tail(joint: HoseTail, plan: EndPlan) -> HoseTailSizes:
    outside = modelled_at(joint, 0.0, plan.printer)
    wall = max(joint.wall_mm, plan.wall_mm)
    sizes = HoseTailSizes(outside, joint.depth_mm, joint.bead_mm, wall, plan.root_wall_mm)
    need = sizes.land_from + tail_land_mm(joint)
    if joint.band_mm and joint.depth_mm < need:
        raise RefusalError(
            f"{plan.key}.hose_tail.depth",
            f"{joint.depth_mm:.1f} mm",
            f"{need:.1f} mm or more",
            "the clamp needs a land of 15 mm behind the bead",
        )
    small = small_hole(joint.bond.pilot_d_mm, plan.printer) if joint.bond else 0.0
    ridge = tail_ridge(joint, sizes, plan.key)
    return replace(sizes, ridge=ridge, bond=bond_sizes(joint, sizes, plan.wall_mm, small, plan.key))
