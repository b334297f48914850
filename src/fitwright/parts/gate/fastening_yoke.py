"""Screw joints at the gate: through body and ears, and the threaded rods in the yoke."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.part import Bought, Fastening, Pocket, Turned
from fitwright.parts.gate.board_plan import gate_yoke
from fitwright.parts.gate.frame_plan import RODS_EDGE
from fitwright.parts.gate.lengths import bought_of, needed_mm, sold_mm
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_plan import YokePlan
from fitwright.parts.gate.yoke_strength import yoke_plan
from fitwright.spec.models import GateBracketSpec


def yoke_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """The ears' screws, and where the frame stands on rods their joints in the yoke."""
    body, rods = yoke_body(plan, spec)
    numbers = _numbers(plan, spec, rods)
    return (*_ears(numbers, spec, body), *_rods(numbers, plan, body))


def yoke_body(plan: GatePlan, spec: GateBracketSpec) -> tuple[str, bool]:
    """The name of the body that grips the gate, and whether rods go into it."""
    if spec.layout == "alongside":
        return "yoke", False
    return {"rods": ("yoke", True), "one_piece": ("bracket", False), "board": ("gate_foot", False)}[plan.frame.kind]


def gate_yoke_numbers(plan: GatePlan, spec: GateBracketSpec) -> YokePlan:
    """The numbers of whatever grips the gate."""
    return _numbers(plan, spec, yoke_body(plan, spec)[1])


def _numbers(plan: GatePlan, spec: GateBracketSpec, rods: bool) -> YokePlan:
    """The yoke's numbers; alongside and on a board they are the plan's own."""
    if plan.beside is not None:
        return plan.beside.arm.yoke
    return gate_yoke(plan, spec) if plan.frame.kind == "board" else yoke_plan(plan, spec, rods)


def _ears(numbers: YokePlan, spec: GateBracketSpec, body: str) -> Iterator[Fastening]:
    """One screw a pair of ears, head above."""
    row, key = fastener(numbers.screw), f"gate.{numbers.mount}"
    between = ("gate",) if numbers.mount == "screws" else ()
    for number, (x, y, high, low) in enumerate(numbers.screws, start=1):
        yield Fastening(
            name=f"gate screw {number}",
            size=row.name,
            d_mm=row.major_mm,
            head=(x, y, high),
            direction=(0.0, 0.0, -1.0),
            grip_mm=high - low,
            through=(body, *between, body),
            key=key,
            long_mm=sold_mm(row, needed_mm(row, high - low), key),
            slotted=numbers.slot_mm > 0.0,
            **thread_of(row),
        )


def _rods(numbers: YokePlan, plan: GatePlan, body: str) -> Iterator[Fastening]:
    """A nut caught behind, a nut with washer in front."""
    row, front = fastener(plan.frame.rod), numbers.plate.y[1]
    washer = row.washer_h_mm or 0.0
    for rod in numbers.rods:
        yield Fastening(
            name=f"{rod.name} at the yoke",
            size=row.name,
            d_mm=row.major_mm,
            head=(rod.x_mm, front, 0.0),
            direction=(0.0, -1.0, 0.0),
            grip_mm=front - rod.floor_y,
            through=(body,),
            key="rods",
            pocket=Pocket(body, (0.0, 1.0, 0.0)),
            turned=(Turned(row.nut_af_mm or 0.0, -washer, -1.0, f"{row.name} nut before the yoke"),),
            edge_limit=RODS_EDGE,
            **{**thread_of(row), "washers": 1},
        )


def thread_of(row: FastenerRow) -> dict[str, Any]:
    """What a fastening takes from the tables."""
    return {
        "pitch_mm": row.pitch_mm or 1.0,
        "nut_m_mm": row.nut_m_mm or row.major_mm,
        "nut_af_mm": row.nut_af_mm or 2 * row.major_mm,
        "washers": 2,
        "washer_d_mm": row.washer_d2_mm or 0.0,
        "washer_h_mm": row.washer_h_mm or 0.0,
        "head_d_mm": row.head_d_mm,
    }


def yoke_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """Screws for the gate; rods are counted with the nose plate's."""
    body, rods = yoke_body(plan, spec)
    if spec.gate.mount.kind == "saddle":
        outside = spec.gate.port.stub_outside_mm or spec.gate.port.d_mm
        band = f"{spec.gate.mount.band_mm:.0f} mm wide (round the upper and the lower stub)"
        yield Bought(2, f"hose clamp for {outside:.0f} mm, {band}")
    note = "longer, in place of the gate's own" if spec.gate.mount.kind == "screws" else ""
    yield from bought_of(_ears(_numbers(plan, spec, rods), spec, body), note)
