"""The assembly sheet: in which order what is printed and bought goes together, so that hand and spanner get there."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from fitwright.part import Body, Paper
from fitwright.parts.gate.lengths import length_words
from fitwright.parts.gate.nose_hold import ClampHold, ThreadHold
from fitwright.parts.gate.paper_assembly_beside import beside_sections
from fitwright.parts.gate.paper_assembly_gate import grip, on_blade, printed
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.spec.models import GateBracketSpec

Section = tuple[str, tuple[str, ...]]


def assembly(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...]) -> Paper:
    """The sheet; every printed body is named in it."""
    names = [body.name for body in bodies]
    sections = beside_sections(plan, spec) if plan.beside is not None else _in_line(plan, spec, names)
    return Paper("assembly", f"Putting it together: {spec.name}", (("Before you start", _before()), *sections))


def _before() -> tuple[str, ...]:
    return (
        "Machine unplugged, no air at the cylinder, both its ports open: rod and blade are moved by hand.",
        "Burrs off; try each bought screw and nut in its hole and pocket first. On plastic all is hand-tight, with a "
        "short spanner.",
    )


def _in_line(plan: GatePlan, spec: GateBracketSpec, names: list[str]) -> tuple[Section, ...]:
    steps = [
        ("On the bench", tuple(_bench(plan, spec))),
        ("The cylinder", tuple(_cylinder(plan, spec))),
        ("On the gate", tuple(_on_gate(plan, spec))),
        ("Rod and blade", tuple(_coupled(plan, spec))),
        ("Last", tuple(_last(plan, spec, names))),
    ]
    return tuple((f"{number}. {title}", said) for number, (title, said) in enumerate(steps, start=1))


def _bench(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    frame, say = plan.frame, partial(length_words, spec=spec)
    yield f"[ ] Coupling: drop the {spec.cylinder.rod_thread} nut into its pocket; the rod goes through it later."
    if frame.kind == "rods":
        yield (
            f"[ ] Yoke: an {frame.rod} nut into each pocket from the gate's side. Turn a threaded rod into each until "
            "it is flush with the yoke's rear face, not further: it must not touch the gate. Washer and nut before the "
            "yoke, tight."
        )
        yield (
            "[ ] Nose plate: a nut and a washer on each rod, the nose plate with its ribs towards the yoke, then "
            "washer and nut outside. Its outer face (where the cylinder will bear) stands "
            f"{say(plan.nose_face_mm)} from the body edge, {say(plan.nose_face_mm - frame.yoke_y0)} from the yoke's "
            "rear face, both sides alike."
        )
    elif frame.kind == "board":
        yield (
            "[ ] Board: saw and drill it by its template. Push the nuts into the gate foot's legs from outside; the "
            "coach bolts into the board from below."
        )


def _cylinder(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    hold, nose, face = plan.frame.nose.hold, printed(plan, "nose"), spec.cylinder.ports_face
    if isinstance(hold, ThreadHold):
        washer = "washer and nose nut" if hold.washer_d_mm else "nose nut"
        yield (
            f"[ ] Rod first, from outside through the {nose}; hold {washer} in the bay and let the rod through them. "
            f"Ports {face}. Spanner from above or below. It must be done before anything is on the rod: the nut does "
            "not go over sleeve and coupling."
        )
    elif isinstance(hold, ClampHold):
        yield (
            f"[ ] From outside into the clamp of the {nose}, rod first, its front hard against the plate, ports "
            f"{face}; then both clamp screws. The front fitting goes in last, its arm up."
        )
    else:
        yield (
            f"[ ] Its front against the {nose} from outside, ports {face}; four screws with washers from the rod's "
            "side, crosswise."
        )
    yield from _rod(plan, spec)


def _rod(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    washer = ", then the washer" if plan.coupling.washer_h_mm else ""
    yield (
        f"[ ] Pull the rod out. Thin nut on its thread up to the end{washer}, then screw the rod into the coupling "
        "until its thread is through the caught nut, fork level. Counter the thin nut against the coupling. "
        "Push the rod in again."
    )
    if plan.stop != "sleeve":
        return
    what = "The sleeve stays" if sleeve_sizes(plan, spec) is not None else "The washers for the rod stay"
    yield (
        f"{what} aside: commissioning, step 2, finds the length. Then pin out, blade home, coupling and thin nut off "
        "the rod, and back with what stops it."
    )


def _on_gate(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    yield f"[ ] {grip(plan, spec)}"
    if plan.frame.kind != "board":
        return
    screws = "M6 screws with washers from below"
    yield (
        f"[ ] Gate foot on the board, its rear face level with the board's edge at the gate: {screws}, into the nuts. "
        "Nose foot over the coach bolts, large washers and nuts on top, in the middle of its slots, hand-tight."
    )


def _coupled(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    yield f"[ ] {on_blade(plan)}"


def _last(plan: GatePlan, spec: GateBracketSpec, names: list[str]) -> Iterator[str]:
    if "support" in names:
        on = "the board" if spec.support_down_mm is None else "what it is to stand on"
        yield (
            f"[ ] Support below the cylinder's rear end, on {on}: two wood screws, then the cable tie. It carries and "
            "does not clamp."
        )
    yield "[ ] The commissioning sheet, steps 1 and 2: ten strokes by hand, lengths set, sleeve cut and put on."
    if "guard_up" in names:
        yield (
            "[ ] Guard up and guard down, above and below, their slots over each other; cable ties through the slots "
            "outside the rods or rails. No air before it is on."
        )
