"""The order in which a cylinder beside the gate is put together."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.parts.gate.paper_assembly_gate import grip, on_blade
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.spec.models import GateBracketSpec

Section = tuple[str, tuple[str, ...]]


def beside_sections(plan: GatePlan, spec: GateBracketSpec) -> tuple[Section, ...]:
    """Nose nut, bush, rod, guide rod, blade: each while the next is not yet in its way."""
    return (
        ("1. On the bench", tuple(_bench(plan, spec))),
        ("2. On the gate", (f"[ ] {grip(plan, spec)}",)),
        ("3. On the rod", tuple(_rod(plan, spec))),
        ("4. Blade and guide", tuple(_guide(plan, spec))),
        ("5. Last", ("[ ] The commissioning sheet, steps 1 and 2: ten strokes by hand, lengths set.",)),
    )


def _guided(plan: GatePlan) -> bool:
    return plan.beside is not None and plan.beside.guide is not None


def _bench(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    yield (
        "[ ] Cylinder from behind through the collar of the yoke, rod first, ports "
        f"{spec.cylinder.ports_face}; washer and nose nut on its nose, tight, before anything is on the rod."
    )
    if _guided(plan):
        yield (
            "[ ] Bush into the bridge with glue, the guide bar through it while it sets, so that it comes in line. Two "
            "nuts into the yoke's slots from the front, the set screws into them by a few turns."
        )
    yield (
        f"[ ] M6 nut into the coupling's pocket, the rod's nut ({spec.cylinder.rod_thread}) into the bridge's. The "
        "long M6 screw with its washer joins coupling and bridge."
    )


def _rod(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    free = "until the bridge is free by 0.3 mm: tightened, two guides bind"
    until = free if _guided(plan) else "and counter both nuts: the piston rod alone guides"
    yield (
        "[ ] Thin nut up to the end of the rod's thread. Turn the rod by its flats into the nut in the bridge "
        f"{until}. The front fitting goes in last."
    )
    if plan.stop == "sleeve":
        what = "The sleeve stays" if sleeve_sizes(plan, spec) is not None else "The washers for the rod stay"
        yield (
            f"{what} aside: commissioning, step 2, finds the length. Then pin out, the rod out of the bridge again, "
            "and back with what stops it."
        )


def _guide(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    yield f"[ ] {on_blade(plan)}"
    if _guided(plan):
        yield (
            "[ ] Push the guide bar, thinly greased, through the bush into the yoke's V up to the gate's body; set "
            "screws hand-tight, again after a day."
        )
