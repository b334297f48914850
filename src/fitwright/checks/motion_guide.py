"""Findings on the second guide beside a gate: does its bush jam, what does it cost, how far does its rod give."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.checks.motion_load import Load
from fitwright.checks.motion_say import Measured, mm, say
from fitwright.finding import Finding
from fitwright.part import Guide, Part
from fitwright.physics.slide.bridge import JAM_MARGIN, Bridge, bent_guide
from fitwright.physics.slide.frames import LIMIT_DEG

SPRINGY_MPA = 250.0
"""A plain drawn steel bar stays straight below this (from memory: it yields at 300 or more)."""


def guided(part: Part, on: Load, play_mm: float) -> Iterator[Finding]:
    """Two findings where there is a second guide; `play_mm`: how far the coupling floats across the blade."""
    if part.guide is None:
        return
    guide = part.guide
    bridge = bridge_of(guide)
    yield _bush(guide, bridge)
    yield _rod(guide, bridge, on, play_mm)


def bridge_of(guide: Guide) -> Bridge:
    """The guide as the mechanics know it."""
    return Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm, guide.mu)


def _bush(guide: Guide, bridge: Bridge) -> Finding:
    """2 mu g / B, as a drawer."""
    ratio, most = bridge.jam_ratio, 1.0 / JAM_MARGIN
    words = f"a bush {mm(guide.bush_mm, 0)} long, {mm(guide.apart_mm)} beside the piston rod: 2 mu g / B is {ratio:.2f}"
    numbers = Measured(ratio, most, "second_guide", "times")
    if ratio <= most:
        cost = f"; its friction makes {bridge.thrust_over_drag:.1f} x the drag of what the blade asks"
        return say("guide", "pass", words + cost, of=numbers)
    least = bridge.least_bush_mm
    return say("guide", "fail", f"{words}: it jams", f"A bush of {mm(least, 0)} or more.", of=numbers)


def _rod(guide: Guide, bridge: Bridge, on: Load, play_mm: float) -> Finding:
    """Open at running force: aside within the coupling's play, tilt; stress at the regulator's stalled thrust."""
    drag = on.drag.greatest_n
    bent = bent_guide(bridge.couple_nmm(drag), guide.d_mm, guide.free_mm)
    stalled = bent.stress_mpa * bridge.stuck_drag_n(on.force_n) / drag if drag > 0.0 else 0.0
    aside = bent.aside_mm + math.radians(guide.root_deg) * guide.free_mm
    tilt = bent.tilt_deg + guide.root_deg
    words = f"against {drag:.0f} N its rod gives way by {mm(aside, 2)} and {tilt:.2f} deg at the bush, open; "
    words += f"stalled it is bent by {stalled:.0f} MPa"
    numbers = Measured(aside, play_mm, "second_guide")
    if aside > play_mm or stalled > SPRINGY_MPA:
        advice = f"A thicker rod (second_guide: diameter); the coupling floats {mm(play_mm, 2)} either way."
        return say("guide", "fail", words, advice, of=numbers)
    if tilt > LIMIT_DEG:
        advice = f"{LIMIT_DEG} deg are allowed: a thicker rod (second_guide: diameter), or less pressure."
        return say("guide", "warn", words, advice, of=numbers)
    return say("guide", "pass", words, of=numbers)
