"""Screw joints and bought parts only alongside: the coupling's bolt, the rod's nuts, the guide rod and its screws."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.data.nuts import nut
from fitwright.part import Bought, Fastening, Pocket
from fitwright.parts.gate.alongside_bolt import BOLT
from fitwright.parts.gate.alongside_guide import GuidePlan
from fitwright.parts.gate.alongside_plan import AlongsidePlan
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.fastening_yoke import thread_of
from fitwright.parts.gate.lengths import bought_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.gate_coupling import rod_washer
from fitwright.spec.models import GateBracketSpec

SET_SCREWS_MM = (10.0, 12.0, 16.0, 20.0, 25.0, 30.0)
"""Lengths that set screws are sold in (ISO 4026, from memory)."""


def alongside_fastenings(plan: GatePlan) -> Iterator[Fastening]:
    """None in line."""
    if plan.beside is None:
        return
    yield _bolt(plan, plan.beside)
    yield _rod(plan, plan.beside)
    if plan.beside.guide is not None:
        yield from _guide_screws(plan.beside.guide, plan.beside)


def _bolt(plan: GatePlan, beside: AlongsidePlan) -> Fastening:
    """From the bridge's outer face into the nut that the coupling holds."""
    row, late, at = fastener(BOLT), coupling_shift_mm(plan), plan.coupling
    outer = beside.bridge.outer_y
    return Fastening(
        name="coupling bolt",
        size=row.name,
        d_mm=row.major_mm,
        head=(0.0, outer, 0.0),
        direction=(0.0, -1.0, 0.0),
        grip_mm=outer - (at.nut_y1 + late),
        through=("bridge", "coupling"),
        key="gate.blade",
        long_mm=beside.bridge.bolt_long_mm,
        pocket=Pocket("coupling", (0.0, 0.0, -1.0) if at.jaw else (-1.0, 0.0, 0.0), at.wide_mm),
        moving=True,
        edge_limit=0.0,
        **{**thread_of(row), "washers": 1},
    )


def _rod(plan: GatePlan, beside: AlongsidePlan) -> Fastening:
    """The rod's end in the bridge: the jam nut before the wall, the captive nut behind it."""
    bridge = beside.bridge
    return Fastening(
        name="rod in the bridge",
        size=bridge.nut.thread,
        d_mm=thread_d_mm(bridge.nut.thread),
        head=(plan.axis_x_mm, bridge.near_y, 0.0),
        direction=(0.0, 1.0, 0.0),
        grip_mm=bridge.wall_mm,
        through=("bridge",),
        key="cylinder.rod_thread",
        nut_m_mm=bridge.nut.m_mm,
        nut_af_mm=bridge.nut.af_mm,
        washers=0,
        washer_d_mm=bridge.nut.af_mm,
        pocket=Pocket("bridge", (0.0, 0.0, -1.0), bridge.high_mm),
        moving=True,
        edge_limit=0.0,
    )


def _guide_screws(guide: GuidePlan, beside: AlongsidePlan) -> Iterator[Fastening]:
    """Set screws from above through a nut in the slot, onto the bar: `head` is the yoke's upper face."""
    row, top = guide.screw, beside.arm.yoke.half_high_mm
    for number, y in enumerate(guide.screws_y, start=1):
        yield Fastening(
            name=f"guide screw {number}",
            size=row.name,
            d_mm=row.major_mm,
            head=(guide.x_mm, y, top),
            direction=(0.0, 0.0, -1.0),
            grip_mm=top - guide.slot_z[1],
            through=("yoke",),
            key="second_guide",
            pocket=Pocket("yoke", (0.0, -1.0, 0.0), guide.front_y - guide.slot_y[0]),
            edge_limit=0.0,
            **{**thread_of(row), "washers": 0, "washer_d_mm": 0.0, "head_d_mm": 0.0},
        )


def set_screw_mm(guide: GuidePlan, beside: AlongsidePlan) -> float:
    """The longest set screw sold that does not stand out above; at the least it goes through its nut."""
    room = beside.arm.yoke.half_high_mm - guide.d_mm / 2
    return max((one for one in SET_SCREWS_MM if one <= room), default=SET_SCREWS_MM[0])


def alongside_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """Bolt, nuts, the guide rod with its length, its screws."""
    if plan.beside is None:
        return
    beside, thread = plan.beside, spec.cylinder.rod_thread
    bolt = bought_of([_bolt(plan, beside)], "joins coupling and bridge")
    yield from (line for line in bolt if not line.what.startswith("nut"))  # the coupling's list has it
    locks = beside.bridge.nut.m_mm != nut(thread, "full").m_mm
    kind = "nut with plastic insert" if locks else "nut"
    glue = "" if locks or not beside.bridge.floats else "; thread locker on it"
    yield Bought(1, f"{kind} {beside.bridge.nut.thread}, caught in the bridge", note=f"on the piston rod{glue}")
    yield Bought(1, f"thin nut {beside.bridge.nut.thread}, up to the end of the rod's thread")
    if rod_washer(spec)[0]:
        yield Bought(1, f"washer {rod_washer(spec)[1]:.0f} mm wide, between jam nut and sleeve")
    if beside.guide is None:
        return
    guide = beside.guide
    size = guide.screw.name
    yield Bought(2, f"set screw {size}", set_screw_mm(guide, beside), note="press the guide rod into its seat")
    yield Bought(2, f"nut {size}", note="slid into the yoke from the front")
    note = "the second guide: bright drawn or ground, no threaded rod; ends deburred"
    yield Bought(1, f"plain steel bar {guide.d_mm:g} mm", guide.y1 - guide.y0, cut=True, note=note)
