"""Finding on what the supply could do to the gate were the regulator turned up: stalled, at the YAML's pressure."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.checks.motion_load import Load
from fitwright.checks.motion_say import Measured, bar, say
from fitwright.finding import Finding
from fitwright.physics.slide.thrust import STALL_LIMIT


def supply(on: Load) -> Iterator[Finding]:
    """Stalled on the whole supply: warns over STALL_LIMIT x the drag, or over what the blade bears; never fails.

    The gate is run at the regulator's setting, which every other finding is judged at. Nothing is said where the
    supply is too weak to be of harm.
    """
    drag, at = on.drag.greatest_n, on.range.supply_bar
    stalled, push = (max(on.cylinder.stall_n(way, at) for way in ways) for ways in (("in", "out"), (on.shuts,)))
    ratio, bears = stalled / drag if drag > 0.0 else math.inf, on.strut.permitted_n
    words = f"on the supply's {bar(at)} the stalled cylinder would give {stalled:.0f} N, {ratio:.1f} x the drag"
    numbers = Measured(ratio, STALL_LIMIT, "pressure", "times")
    if ratio <= STALL_LIMIT + 1e-9 and push <= bears + 1e-9:
        yield say("supply", "pass", words, of=numbers)
        return
    if push > bears + 1e-9:
        words += f", and push with {push:.0f} N where the blade bears {bears:.0f} N without bowing out"
        numbers = Measured(push, bears, "pressure", "N")
    yield say("supply", "warn", words, _advice(on), of=numbers)


def _advice(on: Load) -> str:
    """The regulator's setting, and where it ends; the same as the commissioning sheet says."""
    setting, bows = on.range.setting_bar, math.floor(10.0 * min(on.range.buckling_bar, on.range.supply_bar)) / 10.0
    if setting is None:
        return f"Set a regulator to {bar(min(bows, on.setting_bar))}, no higher, and lock it there."
    limit = f", {bar(on.most_bar)} at most," if on.most_bar > setting + 0.05 else ""
    return f"Set a regulator to {bar(setting)}{limit} and lock it there; never run the gate on the bare line."
