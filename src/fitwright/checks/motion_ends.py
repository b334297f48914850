"""Findings on both ends of the movement: where the blade stands, who stops it, what is left in its guides."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from fitwright.checks.motion_chain import Driven
from fitwright.checks.motion_say import Measured, mm, say
from fitwright.finding import Finding
from fitwright.physics.slide.chain import SHORT_MM, least_engaged_mm
from fitwright.physics.slide.overlap import PortAndBlade
from fitwright.physics.slide.stack_up import CALIPER_MM, WF_MM, Sizes, largest, position_stack
from fitwright.spec.gate import GateBracketSpec

POSITION_MM = 0.5
"""As well as a tape tells where the blade stands; half of the coupling's play is in it."""
LOST_LEAST_MM, LOST_MOST_MM = 0.1, 1.5
"""Less binds, more hammers (common practice, no source)."""
REBUILD = "This is a fault of the build, not of your numbers; report it."


def ends(at: Driven, spec: GateBracketSpec) -> Iterator[Finding]:
    """All findings on the two ends."""
    yield _positions(at, spec)
    yield _stop(at, spec)
    yield _engagement(at, spec)
    yield from _overlap(at, spec)
    yield _play(at, spec)
    yield _stack_up(at, spec)
    yield from _far_end(spec)


def _positions(at: Driven, spec: GateBracketSpec) -> Finding:
    """Is it shut where it is shut by hand, and open where it is open by hand?"""
    gate = spec.gate
    late, short = at.shut_mm - gate.shut_mm, gate.open_mm - at.open_mm
    fine = 2 if spec.units == "in" else 1
    words = f"blade edge {mm(at.shut_mm, fine)} out when shut, {mm(at.open_mm, fine)} when open"
    words += f" (by hand {mm(gate.shut_mm, fine)} and {mm(gate.open_mm, fine)})"
    if late > POSITION_MM:
        return say(
            "positions",
            "fail",
            f"it stays {mm(late)} short of shut: {words}",
            REBUILD,
            of=Measured(at.shut_mm, gate.shut_mm, "gate.sticks_out.shut"),
        )
    if short > SHORT_MM:
        advice = f"A stroke of {mm(gate.travel_mm, 0)} or more (cylinder)."
        return say(
            "positions",
            "fail",
            f"it stays {mm(short)} short of open: {words}",
            advice,
            of=Measured(at.open_mm, gate.open_mm, "gate.sticks_out.open"),
        )
    if short > POSITION_MM:
        left = port_and_blade(at, spec).left_mm(at.open_mm)
        advice = (
            "A longer stroke with a sleeve; or live with it." if spec.cylinder.stroke_mm < gate.travel_mm else REBUILD
        )
        message = f"it stays {mm(short)} short of open, {mm(left)} of the blade's edge stay in the bore: {words}"
        return say("positions", "warn", message, advice, of=Measured(at.open_mm, gate.open_mm, "cylinder"))
    return say("positions", "pass", words, of=Measured(at.open_mm, gate.open_mm, "gate.sticks_out"))


def port_and_blade(at: Driven, spec: GateBracketSpec) -> PortAndBlade:
    """The blade over its port, as the blade's length is known."""
    return PortAndBlade(spec.gate.port.d_mm, spec.gate.port.to_edge_mm, at.blade_long_mm)


def _stop(at: Driven, spec: GateBracketSpec) -> Finding:
    """Does the cylinder or its sleeve stop the movement at both ends? The blade never may."""
    gate = spec.gate
    beyond_shut, beyond_open = gate.shut_mm - at.shut_mm, at.open_mm - gate.open_mm
    words = f"shut it is stopped by {at.stopped_shut_by}, open by {at.stopped_open_by}"
    if at.sleeve_mm:
        words += f" (the sleeve is {mm(at.sleeve_mm)} long; its end has no cushion)"
    if beyond_open > POSITION_MM and at.engaged_open_mm < least_engaged_mm(gate.travel_mm):
        advice = "stop: sleeve, or a cylinder with a shorter stroke: nothing else takes up what the stroke is too long."
        return say(
            "stop",
            "fail",
            f"nothing stops the blade before it is out of its guides: it comes out {mm(at.open_mm)}"
            f" and is {mm(at.blade_long_mm)} long",
            advice,
            of=Measured(at.open_mm, gate.open_mm, "stop"),
        )
    if beyond_shut > POSITION_MM and (gate.body.far_end != "open" or beyond_shut > gate.body.far_room_mm + POSITION_MM):
        advice = "stop: sleeve; or say far_end: open and how far the blade may go on beyond shut (far_end_room)."
        return say(
            "stop",
            "fail",
            f"the cylinder drives the blade {mm(beyond_shut)} beyond shut, against the end of its slot",
            advice,
            of=Measured(beyond_shut, gate.body.far_room_mm, "stop"),
        )
    over = [f"{mm(by)} beyond {end}" for by, end in ((beyond_shut, "shut"), (beyond_open, "open")) if by > POSITION_MM]
    if over:
        words += f"; it goes {' and '.join(over)}"
    return say("stop", "pass", words, of=Measured(None, None, "stop"))


def _engagement(at: Driven, spec: GateBracketSpec) -> Finding:
    least = least_engaged_mm(spec.gate.travel_mm)
    words = f"{mm(at.engaged_open_mm)} of the blade stay in the guides when it is open, at least {mm(least)}"
    if at.engaged_open_mm <= 0.0:
        words = f"the open blade stands {mm(-at.engaged_open_mm)} outside its guides; {mm(least)} must stay in them"
    if spec.gate.blade.length_mm is None:
        words += " (the blade's length is taken from the port: measure it)"
    numbers = Measured(at.engaged_open_mm, least, "gate.blade.length")
    if at.engaged_open_mm < least:
        other = "stop: sleeve" if at.open_mm > spec.gate.open_mm + POSITION_MM else "a longer blade"
        advice = f"Open it less far (sticks_out.open), or {other}."
        message = f"only {words}" if at.engaged_open_mm > 0.0 else words
        return say("engagement", "fail", message, advice, of=numbers)
    return say("engagement", "pass", words, of=numbers)


def _overlap(at: Driven, spec: GateBracketSpec) -> Iterator[Finding]:
    """How much of the bore is covered at each end."""
    over = port_and_blade(at, spec)
    lip, share = over.lap_mm(at.shut_mm), over.covered_share(at.open_mm)
    words = f"shut the blade laps over the bore by {mm(lip)} at its far edge; "
    words += f"open it covers {100 * share:.1f} % of the bore"
    if lip < 0.0:
        advice = "Measure the blade (gate.blade.length) and the port (gate.port): as given it never shuts."
        yield say(
            "overlap",
            "warn",
            f"shut the blade ends {mm(-lip)} before the bore's far edge",
            advice,
            of=Measured(lip, 0.0, "gate.port"),
        )
    elif share > 0.02:
        advice = "The air meets an edge that chips hang on: open it further (sticks_out.open)."
        yield say("overlap", "warn", words, advice, of=Measured(100 * share, 2.0, "gate.sticks_out.open", "%"))
    else:
        yield say("overlap", "pass", words, of=Measured(lip, 0.0, "gate.port"))


def _play(at: Driven, spec: GateBracketSpec) -> Finding:
    words = f"the rod moves {mm(at.lost_mm, 2)} between pushing and pulling the blade"
    numbers = Measured(at.lost_mm, LOST_MOST_MM, "coupling")
    if spec.gate.blade.hole_mm is None or LOST_LEAST_MM <= at.lost_mm <= LOST_MOST_MM:
        return say("play", "pass", words, of=numbers)
    return say("play", "warn", f"{words}, {mm(LOST_LEAST_MM)} to {mm(LOST_MOST_MM)} are right", REBUILD, of=numbers)


def _stack_up(at: Driven, spec: GateBracketSpec) -> Finding:
    """How far off it may come out before it is set, and whether the setting takes that up."""
    sleeve = at.sleeve_mm > 0.0
    rod_out: Literal["shut", "open"] = "shut" if spec.layout == "in_line" else "open"
    rod_in: Literal["shut", "open"] = "open" if rod_out == "shut" else "shut"
    sizes = _sizes(at, spec)
    stacks = (
        position_stack(spec.layout, rod_out, "cylinder", sizes),
        position_stack(spec.layout, rod_in, "sleeve" if sleeve else "cylinder", sizes),
    )
    off = [max(abs(end) for end in stack.range_mm) for stack in stacks]
    rule = max(abs(stack.middle_mm) + stack.root_sum_square_mm for stack in stacks)
    worst = stacks[off.index(max(off))]
    least = largest(worst.contributions)
    words = f"before it is set the blade may stand {mm(max(off))} off at worst, {mm(rule)} as a rule; "
    words += f"{mm(spec.setting_mm)} either way can be set"
    numbers = Measured(max(off), spec.setting_mm, "setting")
    left = max(off) - spec.setting_mm
    if left <= 0.0:
        return say("stack_up", "pass", words, of=numbers)
    bare = left - port_and_blade(at, spec).lap_mm(at.shut_mm)
    if bare <= 0.0:
        return say("stack_up", "pass", f"{words}; the {mm(left, 2)} left over lie within the blade's lip", of=numbers)
    message = f"{words}; what is left over may uncover the bore by {mm(bare)}"
    advice = f"Measure the {least.name} (it alone is {mm(least.half_mm)} either way), or a larger setting."
    return say("stack_up", "warn", message, advice, of=numbers)


def _sizes(at: Driven, spec: GateBracketSpec) -> Sizes:
    """What adds up; a rod stub that is only remembered is known as well as its standard allows."""
    printer, remembered = spec.printer, "rod_stub_mm" in spec.cylinder.remembered
    return Sizes(
        frame_mm=abs(at.nose_face_mm),
        stroke_mm=spec.cylinder.stroke_mm,
        sleeve_mm=at.sleeve_mm,
        play_mm=at.lost_mm,
        scatter_rel=printer.scatter_rel,
        scatter_abs_mm=printer.scatter_abs_mm,
        wf_half_mm=WF_MM if remembered else CALIPER_MM,
        tape_mm=spec.tape_mm,
    )


def _far_end(spec: GateBracketSpec) -> Iterator[Finding]:
    if spec.gate.body.far_end == "closed":
        message = "the slot's far end is closed: dust packs behind the blade until it does not shut any more"
        yield say(
            "far_end",
            "warn",
            message,
            "Open the far end, so that the blade pushes the dust out.",
            of=Measured(None, None, "gate.body.far_end"),
        )
