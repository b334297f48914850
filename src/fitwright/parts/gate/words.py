"""What the report says of a gate bracket beside the findings: positions, what was derived, cautions, dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial

from fitwright.part import Dimension
from fitwright.parts.gate.alongside_words import alongside_facts
from fitwright.parts.gate.coupling_words import coupling_facts
from fitwright.parts.gate.fastening_nose import rod_span_mm
from fitwright.parts.gate.lengths import length_words
from fitwright.parts.gate.paper_air import bar
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.setting_words import set_by
from fitwright.parts.gate.words_assumed import assumed_words
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_number

CAUTIONS = (
    "Moving parts pinch, and the blade shears: shut the air off and let it out before a hand goes near. Air that is "
    "left in the cylinder moves the blade when a fitting is opened.",
    "First strokes by hand, then at 1 bar, nobody near; then set the regulator and the flow controls.",
    "A slide gate is not sealed and not airtight: it leaks, and another machine's fan may blow dust out of it.",
    "Fine wood dust is combustible: follow local codes. Mains at a valve are a licensed electrician's work.",
)


def gate_facts(plan: GatePlan, spec: GateBracketSpec, load: Load) -> Mapping[str, str]:
    """Lines for the report, lengths in mm."""
    own = dict(_facts(plan, spec, load))
    more = dict(coupling_facts(plan, spec))
    if "sleeve" in own and "sleeve" in more:  # why it is there, and what is printed
        more["sleeve"] = f"{own['sleeve']}. Printed: {more['sleeve']}"
    return {**own, **more, **alongside_facts(plan, spec)}


def _facts(plan: GatePlan, spec: GateBracketSpec, load: Load) -> Iterator[tuple[str, str]]:
    at = plan.ends
    say = partial(length_words, spec=spec)
    by_hand = f"by hand {say(spec.gate.shut_mm)} and {say(spec.gate.open_mm)}"
    yield "blade edge beyond the body", f"shut {say(at.blade_shut_mm)}, open {say(at.blade_open_mm)} ({by_hand})"
    c = plan.chain.coupling_mm
    yield "rod's shoulder", f"shut {say(at.blade_shut_mm + c)}, open {say(at.blade_open_mm + c)} from the body edge"
    yield "cylinder's mounting face", f"{say(plan.nose_face_mm)} from the body edge"
    yield "stops", f"shut: {at.stopped_shut_by}; open: {at.stopped_open_by}"
    if at.sleeve_mm > 0.0:
        yield "sleeve", _sleeve(plan)
    yield "left in the guides, open", f"{say(plan.engaged_open_mm)} of the blade"
    yield "air", _air(plan, load, spec)
    yield "frame", _frame(plan)
    if plan.frame.kind == "rods" and spec.layout == "in_line":
        begin, end = rod_span_mm(plan, spec)
        yield "threaded rods", f"2 x {plan.frame.rod}, cut to {say(end - begin)}"
    yield "setting", f"{say(spec.setting_mm)} either way, {set_by(plan, spec).means}"


def _frame(plan: GatePlan) -> str:
    kind, why = plan.frame.kind.replace("_", " "), plan.frame.frame_why
    return why if why.startswith(kind) else f"{kind}: {why}" if why else kind


def _sleeve(plan: GatePlan) -> str:
    """Why it is there and how long: what the stroke has too much, and the gap behind the rod's shoulder."""
    chain = plan.chain
    return (
        f"{plan.ends.sleeve_mm:.1f} mm on the rod: the stroke is {chain.excess_mm:.1f} mm longer than the travel, and "
        f"{chain.gap_mm:.1f} mm lie between nose and shoulder"
    )


def _air(plan: GatePlan, load: Load, spec: GateBracketSpec) -> str:
    """Where to set the regulator, what a cycle takes."""
    found, moved = load.range, plan.moved_mm
    litres = load.cylinder.air_litres(load.setting_bar, moved)
    takes = f"{litres:.2f} litres of free air a cycle, tubes not counted"
    if found.setting_bar is None:
        return f"no setting has every margin (see motion); {takes} at {format_number(load.setting_bar, 1)} bar"
    limits = f"{bar(found.least_bar, spec)} to {bar(load.most_bar, spec)}"
    return f"regulator at {bar(found.setting_bar, spec)} ({limits}); {takes}"


def gate_assumed(plan: GatePlan, spec: GateBracketSpec) -> Mapping[str, str]:
    """Keys that were filled in, with value and reason."""
    return assumed_words(plan, spec)


def gate_dimensions(plan: GatePlan, spec: GateBracketSpec) -> tuple[Dimension, ...]:
    """Main dimensions for the picture, along the thrust line seen from the side: overhang, mounting face, travel."""
    at, x = plan.ends, plan.axis_x_mm
    low, lower, high = (
        -plan.frame.nose_high / 2 - 12.0,
        -plan.frame.nose_high / 2 - 24.0,
        plan.frame.nose_high / 2 + 12.0,
    )
    shut, opened, face = at.blade_shut_mm, at.blade_open_mm, plan.nose_face_mm
    return (
        Dimension("blade out, shut", (x, 0.0, low), (x, shut, low), shut),
        Dimension("travel", (x, shut, high), (x, opened, high), opened - shut),
        Dimension("mounting face", (x, 0.0, lower), (x, face, lower), abs(face)),
    )


def gate_cautions(plan: GatePlan, spec: GateBracketSpec) -> tuple[str, ...]:
    """Short cautions, and readings that go badly together."""
    air = "Without air " + _without_air(spec) + "."
    return (*spec.doubts, *CAUTIONS[:2], air, *CAUTIONS[2:])


def _without_air(spec: GateBracketSpec) -> str:
    spring = spec.cylinder.spring
    if spring is None:
        return "the gate stays where it is, unless the blade's weight moves it"
    opens = spring.drives == ("in" if spec.layout == "in_line" else "out")
    return f"the spring {'opens' if opens else 'shuts'} the gate"
