"""Findings on both ends of the movement: where the blade stands, who stops it, what is left in its guides and over the port."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.checks.motion_chain import Driven
from fitwright.checks.motion_say import mm, say
from fitwright.finding import Finding
from fitwright.physics.slide.chain import SHORT_MM, least_engaged_mm
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
    yield _play(at)
    yield from _far_end(spec)


def _positions(at: Driven, spec: GateBracketSpec) -> Finding:
    """Is it shut where it is shut by hand, and open where it is open by hand?"""
    gate = spec.gate
    late, short = at.shut_mm - gate.shut_mm, gate.open_mm - at.open_mm
    words = f"blade edge {mm(at.shut_mm)} out when shut, {mm(at.open_mm)} when open"
    words += f" (by hand {mm(gate.shut_mm)} and {mm(gate.open_mm)})"
    if late > POSITION_MM:
        return say("positions", "fail", f"it stays {mm(late)} short of shut: {words}", REBUILD, value=at.shut_mm,
                   limit=gate.shut_mm, place="gate.sticks_out.shut")  # fmt: skip
    if short > SHORT_MM:
        advice = f"A stroke of {mm(gate.travel_mm, 0)} or more (cylinder)."
        return say("positions", "fail", f"it stays {mm(short)} short of open: {words}", advice, value=at.open_mm,
                   limit=gate.open_mm, place="gate.sticks_out.open")  # fmt: skip
    if short > POSITION_MM:
        left = in_bore_mm(at, spec)
        advice = (
            "A longer stroke with a sleeve; or live with it." if spec.cylinder.stroke_mm < gate.travel_mm else REBUILD
        )
        message = f"it stays {mm(short)} short of open, {mm(left)} of the blade's edge stay in the bore: {words}"
        return say("positions", "warn", message, advice, value=at.open_mm, limit=gate.open_mm, place="cylinder")
    return say("positions", "pass", words, value=at.open_mm, limit=gate.open_mm, place="gate.sticks_out")


def in_bore_mm(at: Driven, spec: GateBracketSpec) -> float:
    """How far the open blade's inner end reaches into the bore."""
    near_edge = -(spec.gate.port.to_edge_mm - spec.gate.port.d_mm / 2)
    return max(0.0, near_edge - (at.open_mm - at.blade_long_mm))


def _stop(at: Driven, spec: GateBracketSpec) -> Finding:
    """Does the cylinder or its sleeve stop the movement at both ends? The blade never may."""
    gate = spec.gate
    beyond_shut, beyond_open = gate.shut_mm - at.shut_mm, at.open_mm - gate.open_mm
    words = f"shut it is stopped by {at.stopped_shut_by}, open by {at.stopped_open_by}"
    if at.sleeve_mm:
        words += f" ({mm(at.sleeve_mm)} long; that end has no cushion)"
    if at.engaged_open_mm <= 0.0:
        advice = "stop: sleeve, or a cylinder with a shorter stroke: nothing else takes up what the stroke is too long."
        return say("stop", "fail", f"nothing stops the blade before it is out of its guides: it comes out {mm(at.open_mm)}"
                   f" and is {mm(at.blade_long_mm)} long", advice, value=at.open_mm, limit=gate.open_mm, place="stop")  # fmt: skip
    if beyond_shut > POSITION_MM and (gate.body.far_end != "open" or beyond_shut > gate.body.far_room_mm + POSITION_MM):
        advice = "stop: sleeve; or say far_end: open and how far the blade may go on beyond shut (far_room)."
        return say("stop", "fail", f"the cylinder drives the blade {mm(beyond_shut)} beyond shut, against the end of its slot",
                   advice, value=beyond_shut, limit=gate.body.far_room_mm, place="stop")  # fmt: skip
    over = [f"{mm(by)} beyond {end}" for by, end in ((beyond_shut, "shut"), (beyond_open, "open")) if by > POSITION_MM]
    if over:
        words += f"; it goes {' and '.join(over)}"
    return say("stop", "pass", words, place="stop")


def _engagement(at: Driven, spec: GateBracketSpec) -> Finding:
    least = least_engaged_mm(spec.gate.travel_mm)
    words = f"{mm(at.engaged_open_mm)} of the blade stay in the guides when it is open, at least {mm(least)}"
    if spec.gate.blade.length_mm is None:
        words += " (the blade's length is taken from the port: measure it)"
    numbers = {"value": at.engaged_open_mm, "limit": least, "place": "gate.blade.length"}
    if at.engaged_open_mm < least:
        return say(
            "engagement", "fail", f"only {words}", "Open it less far (sticks_out.open), or stop: sleeve.", **numbers
        )  # type: ignore[arg-type]
    return say("engagement", "pass", words, **numbers)  # type: ignore[arg-type]


def _overlap(at: Driven, spec: GateBracketSpec) -> Iterator[Finding]:
    """How much of the bore is covered at each end."""
    port = spec.gate.port
    lip = at.blade_long_mm - at.shut_mm - port.to_edge_mm - port.d_mm / 2
    left = in_bore_mm(at, spec)
    share = covered_share(left, port.d_mm)
    words = f"shut the blade laps over the bore by {mm(lip)} at its far edge; open {100 * share:.1f} % of the bore is covered"
    if lip < 0.0:
        advice = "Measure the blade (gate.blade.length) and the port (gate.port): as given it never shuts."
        yield say("overlap", "warn", f"shut the blade ends {mm(-lip)} before the bore's far edge", advice,
                  value=lip, limit=0.0, place="gate.port")  # fmt: skip
    elif share > 0.02:
        advice = "The air meets an edge that chips hang on: open it further (sticks_out.open)."
        yield say(
            "overlap", "warn", words, advice, value=100 * share, limit=2.0, unit="%", place="gate.sticks_out.open"
        )
    else:
        yield say("overlap", "pass", words, value=lip, limit=0.0, place="gate.port")


def covered_share(in_bore_mm: float, d_mm: float) -> float:
    """Share of a round bore that a straight edge covers when it reaches in by so much: a circular segment.

    >>> round(covered_share(50.0, 100.0), 3)
    0.5
    """
    reach = min(max(in_bore_mm, 0.0), d_mm)
    half = math.acos(1.0 - 2.0 * reach / d_mm)
    return (half - math.sin(half) * math.cos(half)) / math.pi


def _play(at: Driven) -> Finding:
    words = f"the rod moves {mm(at.lost_mm, 2)} between pushing and pulling the blade"
    numbers = {"value": at.lost_mm, "limit": LOST_MOST_MM, "place": "coupling"}
    if LOST_LEAST_MM <= at.lost_mm <= LOST_MOST_MM:
        return say("play", "pass", words, **numbers)  # type: ignore[arg-type]
    return say("play", "warn", f"{words}, {mm(LOST_LEAST_MM)} to {mm(LOST_MOST_MM)} are right", REBUILD, **numbers)  # type: ignore[arg-type]


def _far_end(spec: GateBracketSpec) -> Iterator[Finding]:
    if spec.gate.body.far_end == "closed":
        message = "the slot's far end is closed: dust packs behind the blade until it does not shut any more"
        yield say(
            "far_end",
            "warn",
            message,
            "Open the far end, so that the blade pushes the dust out.",
            place="gate.body.far_end",
        )
