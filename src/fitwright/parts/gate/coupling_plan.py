"""The coupling's numbers: a fork over the blade's edge, a pin through its hole, a captive nut for the rod, a jam nut.

Along y, from the gate outwards, E = the blade's edge (shut as measured):
fork tip .. pin .. | floor E + FLOOR | web | nut pocket from E + web | wall | back face | jam nut | shoulder E + c.
A blade without a hole is clamped instead (jaw_plan.py). All sizes are those of the print, not yet what is modelled.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.fasteners import FastenerRow
from fitwright.data.nuts import NutRow, nut
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError, RefusalError
from fitwright.parts.gate.jaw_plan import JawPlan, jaw_plan
from fitwright.parts.gate.refusals import or_more
from fitwright.physics.slide import coupling as strength
from fitwright.spec.gate_coupling import (
    JAM_ROOM_MM,
    PINS,
    TILT_DEG,
    pin_loose_mm,
    pin_of,
    pull_n,
    push_n,
    rod_washer,
)
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

FLOOR_MM = 0.2
"""Blade edge to the fork's floor with the play in the middle: pushing, the floor drives the blade."""
PLAY_MM = 0.4
"""Lost motion along the thrust line: enough not to bind, too little to hammer (common practice, no source)."""
SPARE_MM = 0.1
"""When the floor pushes, the pin still has this much to go in its holes: it never pushes."""
PIN_LOOSE_MM = 0.3
"""A pin's slot in the fork is at least so much wider than the pin."""
ACROSS_MM = 1.5
"""How far the pin may wander across the blade, so that a cylinder that stands a little to the side does not bind it."""
SLOT_MM = 0.4
"""The fork's slot is so much wider than the blade is thick."""
WEB_MM = 4.0
"""Blade edge to the nut's pocket, at the least."""
NUT_ROOM_MM = 0.4
ROD_LOOSE_MM = 0.5
HELD_SHARE = 0.7
"""A nut's pocket, however it prints, is no wider than this share of the way from the nut's flats to its corners."""
WALL_MM = 3.0
"""Least wall between captive nut and jam nut: it is clamped between the two."""
JAW_MM = 5.0
"""Least thickness of each jaw of the fork."""
STEP_MM = 3.0
"""The fork has grown to the box's height so far before the nut's pocket."""
BEHIND_MM = 2.0
"""The back face stands so much behind a clamp's heel: a spanner swings on the jam nut."""
AROUND_MM = 4.0
"""Material round the nut's pocket and beyond the pin."""
TIP_CLEAR_MM = 1.0
"""Fork tip to the gate's body, shut."""
PAD_MM = 5.0
"""The floor pushes over +-this in the middle only; beyond it is set back, so that its corners never push."""
SCREWS_MM = (10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100)
"""Lengths that screws are sold in (ISO 4762, table of lengths)."""
M3_INSERT_MM = 4.5
"""Height of an M3 nut with insert (from memory, ISO 7040)."""
_TILT = math.tan(math.radians(TILT_DEG))


@dataclass(frozen=True)
class CouplingPlan:
    """All in mm; y as in the part, shut as measured. `pin` None: the blade has no hole and is clamped (`jaw`).

    `wide_mm`, `high_mm`: what must find room in the frame, centred on the thrust line, screw heads and nuts counted.
    `fork_mm`, `box_mm`: height of the fork and of the box round the nut. `pin_y`: the pin's middle in the fork when it
    pulls; its slot is `pin_slot_mm` along, about `pin_slot_y`, and may wander `ACROSS_MM` across.
    """

    long_mm: float
    """Blade edge to rod shoulder (c)."""
    edge_y: float
    tip_y: float
    pin: str | None
    pin_d_mm: float
    pin_y: float
    floor_y: float
    nut_y0: float
    nut_y1: float
    back_y: float
    shoulder_y: float
    wide_mm: float
    high_mm: float
    slot_mm: float
    rod_thread: str
    rod_hole_mm: float
    nut_af_mm: float
    nut_m_mm: float
    jam_m_mm: float
    jam_af_mm: float = 0.0
    pocket_af_mm: float = 0.0
    """Width of the nut's pocket across flats."""
    washer_h_mm: float = 0.0
    """A washer between jam nut and sleeve, where the nut alone is too small for it; 0: none."""
    washer_d_mm: float = 0.0
    pin_slot_mm: float = 0.0
    pin_slot_y: float = 0.0
    pin_washer_mm: float = 0.0
    pin_long_mm: float = 0.0
    """The pin screw's length under its head."""
    jaw_mm: float = 0.0
    """Thickness of each jaw at its tip, where it is least."""
    flare_y: float = 0.0
    """From here to the tip the slot opens by TILT_DEG a side; behind it so short that the blade tilts as much."""
    fork_mm: float = 0.0
    box_mm: float = 0.0
    step_y: float = 0.0
    """Where the fork's height begins to grow to the box's."""
    pull_n: float = 0.0
    """The stalled cylinder's pull on the pin, or on the jaw."""
    push_n: float = 0.0
    jaw: JawPlan | None = None

    @property
    def wall_mm(self) -> float:
        """Between the nut's pocket and the back face."""
        return self.back_y - self.nut_y1

    @property
    def beyond_mm(self) -> float:
        """What of the fork stands beyond the pin's slot, towards its tip."""
        return self.pin_y - self.pin_d_mm / 2 - self.tip_y

    @property
    def corner_mm(self) -> float:
        """The pocket's middle to its corner."""
        return self.pocket_af_mm / math.sqrt(3.0)


@dataclass(frozen=True)
class _Pin:
    """The pin screw and what it asks of the fork."""

    row: FastenerRow
    d: float
    y: float
    slot: float
    tip: float
    jaw: float


def coupling_plan(spec: GateBracketSpec) -> CouplingPlan:
    """The numbers; RefusalError where the blade does not stick out far enough, or the rod's thread is too short."""
    full, thin = _nut(spec, "full"), _nut(spec, "thin")
    pocket = pocket_af_mm(full, spec)
    if spec.gate.blade.hole_mm is None or spec.gate.blade.hole_to_edge_mm is None:
        return _clamped(spec, full, thin, pocket)
    return _pinned(spec, full, thin, pocket)


def pocket_af_mm(row: NutRow, spec: GateBracketSpec) -> float:
    """A nut pocket [mm across flats] that the widest nut goes into however the print scatters.

    RefusalError where the narrowest nut could then turn in it.
    """
    scatter = spec.printer.scatter_abs_mm + spec.printer.scatter_rel * row.af_mm
    pocket = row.af_mm + scatter + 0.1
    least = row.af_least_mm or row.af_mm - 0.3
    most = least + HELD_SHARE * (2.0 / math.sqrt(3.0) - 1.0) * least
    if pocket + scatter > most:
        why = f"a pocket that a {row.thread} nut goes into for certain may print so wide that the nut turns in it"
        may = max(0.0, (most - row.af_mm - 0.1) / 2)
        found, works = f"prints that miss by {scatter:.2f} mm", f"a printer that misses by {may:.2f} mm at the most"
        raise RefusalError("printer", found, works, why)
    return pocket


def _pinned(spec: GateBracketSpec, full: NutRow, thin: NutRow, pocket: float) -> CouplingPlan:
    edge, pin, slot = spec.gate.shut_mm, _pin(spec), spec.gate.blade.thickness_mm + SLOT_MM
    slot_y = pin.y - pin.d / 2 + pin.slot / 2
    flare_y = max(slot_y + pin.slot / 2 + 0.1, edge + FLOOR_MM - 0.95 * SLOT_MM / _TILT)
    fork = slot + 2 * ((flare_y - pin.tip) * _TILT + pin.jaw)
    box = max(pocket + 2 * AROUND_MM, fork)
    washer = pin.row.washer_d2_mm or 2 * pin.d
    step_y = slot_y + pin.slot / 2 + washer / 2 + 0.5
    wide = 2 * (pocket / math.sqrt(3.0) + AROUND_MM)
    wide = max(wide, pin.slot + ACROSS_MM + 2 * AROUND_MM, washer + ACROSS_MM + 1.0)
    web = _web_mm(spec, pocket, wide) + FLOOR_MM + pad_relief_mm(wide)
    below, long = _below_mm(pin.row, fork)
    return replace(
        _rod_side(spec, full, thin, pocket, edge + max(WEB_MM, web, step_y + STEP_MM - edge)),
        tip_y=pin.tip,
        pin=pin.row.name,
        pin_d_mm=pin.d,
        pin_y=pin.y,
        floor_y=edge + FLOOR_MM,
        wide_mm=wide,
        high_mm=max(box, 2 * below),
        slot_mm=slot,
        pin_slot_mm=pin.slot,
        pin_slot_y=slot_y,
        pin_washer_mm=washer,
        pin_long_mm=long,
        jaw_mm=pin.jaw,
        flare_y=flare_y,
        fork_mm=fork,
        box_mm=box,
        step_y=step_y,
    )


def _clamped(spec: GateBracketSpec, full: NutRow, thin: NutRow, pocket: float) -> CouplingPlan:
    edge, corner, wide = spec.gate.shut_mm, pocket / math.sqrt(3.0), pocket + 2 * AROUND_MM
    roof = (thread_named(full.thread).major_mm + ROD_LOOSE_MM) / math.sqrt(2.0)
    jaw = jaw_plan(spec, edge, wide, pull_n(spec), (corner + AROUND_MM, max(corner, roof + AROUND_MM)))
    near = _rod_side(spec, full, thin, pocket, edge + max(WEB_MM, _web_mm(spec, pocket, wide)))
    further = max(0.0, jaw.heel_y + BEHIND_MM - near.back_y)
    return replace(
        _rod_side(spec, full, thin, pocket, near.nut_y0 + further),
        tip_y=jaw.tip_y,
        wide_mm=jaw.wide_mm,
        high_mm=2 * max(jaw.over_mm, jaw.under_mm),
        jaw=jaw,
    )


def _web_mm(spec: GateBracketSpec, span: float, wide: float) -> float:
    """What the stalled push asks of the web between blade edge and nut pocket."""
    return strength.web_mm(push_n(spec), span, wide, spec.material.strength_mpa / strength.SAFETY)


def pad_relief_mm(wide_mm: float) -> float:
    """How far the floor is set back beside its pad: its corners stay off the blade's edge at TILT_DEG."""
    return max(0.5, (wide_mm / 2 - PAD_MM) * _TILT + 0.1)


def _rod_side(spec: GateBracketSpec, full: NutRow, thin: NutRow, pocket: float, nut_y0: float) -> CouplingPlan:
    """From the nut's pocket to the rod's shoulder; all else as if the blade ended in the air.

    The rod's tip stands at the pocket's inner face, the jam nut (and a washer on it) JAM_ROOM_MM short of the shoulder.
    """
    edge, thread = spec.gate.shut_mm, spec.cylinder.rod_thread_long_mm
    d = thread_named(full.thread).major_mm
    washer_h, washer_d = rod_washer(spec)
    shoulder = nut_y0 + thread
    plan = CouplingPlan(
        long_mm=shoulder - edge,
        edge_y=edge,
        tip_y=edge,
        pin=None,
        pin_d_mm=0.0,
        pin_y=edge,
        floor_y=edge,
        nut_y0=nut_y0,
        nut_y1=nut_y0 + full.m_mm + NUT_ROOM_MM,
        back_y=shoulder - JAM_ROOM_MM - washer_h - thin.m_mm,
        shoulder_y=shoulder,
        wide_mm=0.0,
        high_mm=0.0,
        slot_mm=spec.gate.blade.thickness_mm,
        rod_thread=full.thread,
        rod_hole_mm=d + ROD_LOOSE_MM,
        nut_af_mm=full.af_mm,
        nut_m_mm=full.m_mm,
        jam_m_mm=thin.m_mm,
        jam_af_mm=thin.af_mm,
        pocket_af_mm=pocket,
        washer_h_mm=washer_h,
        washer_d_mm=washer_d,
        pull_n=pull_n(spec),
        push_n=push_n(spec),
    )
    if plan.wall_mm < WALL_MM - 1e-9:
        need = or_more(thread + WALL_MM - plan.wall_mm, spec.units)
        why = (
            f"captive nut, a wall of {format_length(WALL_MM, spec.units)} and jam nut find no room on the rod's thread"
        )
        raise RefusalError("cylinder.rod_thread_length", format_length(thread, spec.units), need, why)
    return plan


def _pin(spec: GateBracketSpec) -> _Pin:
    """The largest screw that goes through the hole with room to tilt, and the jaws that hold it."""
    blade, edge = spec.gate.blade, spec.gate.shut_mm
    hole, to_edge = blade.hole_mm or 0.0, blade.hole_to_edge_mm or 0.0
    row = pin_of(blade)
    if row is None:
        raise RefusalError(
            "gate.blade.hole",
            format_length(hole, spec.units),
            or_more(3.0 + pin_loose_mm(blade), spec.units),
            "no screw goes through it: drill it up, or leave hole out and the blade is clamped",
        )
    d = row.major_mm
    y = edge - to_edge + (hole - d) / 2 - (PLAY_MM - FLOOR_MM)
    slot = d + max(PIN_LOOSE_MM, PLAY_MM + SPARE_MM - (hole - d))
    beyond = max(AROUND_MM, d)
    tip = y - d / 2 - beyond
    if tip < TIP_CLEAR_MM - 1e-6:
        need = edge + TIP_CLEAR_MM - tip
        raise RefusalError(
            "gate.sticks_out.shut",
            format_length(edge, spec.units),
            or_more(need, spec.units),
            "the fork round the blade's hole would reach into the gate's body: leave hole and hole_to_edge out, and "
            "the blade is clamped; or drill a hole nearer to its edge",
        )
    jaw = _jaw_mm(spec, row, beyond)
    return _Pin(row, d, y, slot, tip, jaw)


def _jaw_mm(spec: GateBracketSpec, row: FastenerRow, beyond: float) -> float:
    """Thickness of each jaw: tear-out between layers and bearing in them, SAFETY times the stalled pull."""
    load, material, blade = strength.SAFETY * pull_n(spec), spec.material, spec.gate.blade
    tear = load / (2 * strength.tear_out_n(beyond, 1.0, material.strength_across_mpa))
    bear = strength.bearing_mpa(load, row.major_mm, 1.0) / (2 * material.strength_mpa)
    jaw = max(JAW_MM, tear, bear)
    core = row.major_mm - 1.2268 * (row.pitch_mm or 0.0)
    bent = strength.pin_bending_mpa(pull_n(spec), core, blade.thickness_mm, blade.thickness_mm + SLOT_MM, jaw)
    if bent > strength.PIN_YIELD_MPA:
        larger = [name for name in PINS if float(name[1:]) > row.major_mm]
        size = or_more(float(larger[0][1:]) + pin_loose_mm(blade), spec.units) if larger else "a smaller cylinder"
        why = f"a stalled cylinder would bend the {row.name} pin ({bent:.0f} MPa; it yields at 450)"
        raise RefusalError("gate.blade.hole", format_length(blade.hole_mm or 0.0, spec.units), size, why)
    return jaw


def _below_mm(row: FastenerRow, fork: float) -> tuple[float, float]:
    """From the thrust line to the pin screw's end under its nut, and the screw's length: head on top, nut below."""
    name, washer = row.name, row.washer_h_mm or 0.0
    lock = M3_INSERT_MM if name == "M3" else nut(name, "insert").m_mm
    need = fork + 2 * washer + lock + (row.pitch_mm or 0.5)
    long = next((float(length) for length in SCREWS_MM if length >= need), need)
    return long - washer - fork / 2, long


def _nut(spec: GateBracketSpec, kind: str) -> NutRow:
    try:
        return nut(spec.cylinder.rod_thread, "full" if kind == "full" else "thin")
    except DataError as error:
        thread = spec.cylinder.rod_thread
        raise RefusalError("cylinder.rod_thread", thread, "a thread that nuts are sold for", f"{error}") from None
