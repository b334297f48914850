"""Findings on thrust: enough both ways, not too much, what a spring does, what happens when the air fails."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.checks.motion_load import Load
from fitwright.checks.motion_say import Measured, bar, say
from fitwright.checks.motion_supply import supply
from fitwright.finding import Finding
from fitwright.physics.slide.buckling import FACTOR, least_thickness_mm
from fitwright.physics.slide.drag import weight_left_n
from fitwright.physics.slide.thrust import EFFICIENCY, STALL_LIMIT
from fitwright.spec.gate import GateBracketSpec

WARN_FACTOR = 1.5
"""A factor against bowing out between this and 2 warns, less blocks (common practice, no source)."""
SEAL_BAR = 0.3
"""What the seals of a small cylinder without air hold, as a pressure on its piston (from memory)."""
CLEAN_SHARE = 0.5
"""Friction at its least over the friction that drag reckons with."""


def forces(on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """All findings on thrust."""
    yield from _thrust(on, spec)
    yield from _spring(on, spec)
    yield from _stall(on)
    yield from supply(on)
    yield _buckling(on, spec)
    yield from _air_loss(on, spec)


def _thrust(on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """Both ways at the pressure there is, against drag with the margin."""
    supply = on.range.supply_bar
    for name, way, drag in (("opening", on.opens, on.drag.opening_n), ("shutting", on.shuts, on.drag.shutting_n)):
        if _by_spring(on, way):
            continue
        given, need = on.cylinder.usable_n(way, supply), spec.margin * on.toll * max(drag, 0.0)
        words = f"{name}: {given:.0f} N at {bar(supply)} against a drag of {drag:.0f} N, margin {spec.margin:g}"
        words += f", {on.toll:.1f} x for the bush" if on.toll > 1.0 else ""
        if given >= need:
            yield say("thrust", "pass", f"{words}; {_set(on)}", of=Measured(given, need, "pressure", "N"))
            continue
        least = on.cylinder.least_bar(way, need)
        bore = _bore_mm(on, way, need)
        advice = f"{bar(math.ceil(10 * least) / 10)} or more (pressure), or a bore of {bore:.0f} mm or more."
        yield say("thrust", "fail", words, advice, of=Measured(given, need, "pressure", "N"))


def _set(on: Load) -> str:
    if on.range.setting_bar is None:
        return f"from {bar(on.range.least_bar)} on it moves for certain"
    return f"set the regulator to {bar(on.range.setting_bar)} ({on.range.least_bar:.1f} to {on.most_bar:.1f} bar)"


def _bore_mm(on: Load, way: str, need_n: float) -> float:
    area = need_n / (EFFICIENCY * 0.1 * on.range.supply_bar)
    rod = on.cylinder.rod_mm if way == "in" else 0.0
    return math.ceil(math.sqrt(4.0 * area / math.pi + rod**2))


def _by_spring(on: Load, way: str) -> bool:
    return on.cylinder.spring_n is not None and way == on.cylinder.spring_moves


def _spring(on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """A single-acting cylinder: its spring moves the blade one way, where it is weakest."""
    if on.cylinder.spring_n is None:
        return
    name, drag = ("opens", on.drag.opening_n) if on.cylinder.spring_moves == on.opens else ("shuts", on.drag.shutting_n)
    given, need = on.cylinder.usable_n(on.cylinder.spring_moves, 0.0), spec.margin * max(drag, 0.0)
    words = f"the spring {name} the gate with {given:.0f} N where it is weakest, against a drag of {drag:.0f} N, "
    words += f"margin {spec.margin:g}"
    if given >= need:
        yield say("spring", "pass", words, of=Measured(given, need, "cylinder.spring", "N"))
        return
    advice = f"A double-acting cylinder, or a spring of {math.ceil(need / EFFICIENCY)} N or more."
    yield say("spring", "fail", words, advice, of=Measured(given, need, "cylinder.spring", "N"))


def _stall(on: Load) -> Iterator[Finding]:
    """At the setting: what a hand or a jammed blade gets."""
    ratio = on.force_n / on.drag.greatest_n if on.drag.greatest_n > 0.0 else math.inf
    words = f"stalled at {bar(on.setting_bar)} it gives {on.force_n:.0f} N, {ratio:.1f} x the drag"
    if ratio <= STALL_LIMIT + 1e-9:
        yield say("stall", "pass", words, of=Measured(ratio, STALL_LIMIT, "cylinder", "times"))
        return
    advice = "A smaller bore would do; keep the regulator as low as said, and hands away."
    yield say(
        "stall",
        "warn",
        f"{words}: it breaks what is in its way",
        advice,
        of=Measured(ratio, STALL_LIMIT, "cylinder", "times"),
    )


def _buckling(on: Load, spec: GateBracketSpec) -> Finding:
    """The open blade is pushed shut like a strut."""
    push, critical, blade = on.stalled_n(on.shuts), on.strut.critical_n, spec.gate.blade
    factor = critical / push if push > 0.0 else math.inf
    words = f"the blade, {on.strut.free_mm:.1f} mm out, bows out at {critical:.0f} N; pushed with {push:.0f} N at "
    words += f"{bar(on.setting_bar)}, factor {factor:.1f}"
    numbers = Measured(factor, FACTOR, "gate.blade", "times")
    if factor >= FACTOR - 1e-9:
        limit = f"; no more than {bar(on.most_bar)}" if on.range.buckling_bar < on.range.supply_bar else ""
        return say("buckling", "pass", words + limit, of=numbers)
    thick = least_thickness_mm(push, blade.width_mm, on.strut.free_mm, blade.modulus_mpa)
    advice = f"A blade {math.ceil(10 * thick) / 10:.1f} mm thick or of stiffer material, less drag (wax, clean), "
    advice += "or a smaller margin."
    return say("buckling", "warn" if factor >= WARN_FACTOR else "fail", words, advice, of=numbers)


def _air_loss(on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """What the gate does when the air fails."""
    if on.cylinder.spring_n is not None:
        opens = on.cylinder.spring_moves == on.opens
        yield say(
            "air_loss",
            "pass",
            f"without air the spring {'opens' if opens else 'shuts'} the gate",
            of=Measured(None, None, "cylinder.spring"),
        )
        return
    seal = SEAL_BAR * 0.1 * on.cylinder.push_area_mm2
    left = weight_left_n(on.moving_kg, 0.0, spec.gate.port.d_mm, CLEAN_SHARE * spec.gate.friction, seal)
    upright = spec.mounted in ("blade_up", "blade_down", "any")
    if left <= 0.0 or not upright:
        yield say(
            "air_loss",
            "pass",
            "without air the gate stays where it is, held by friction",
            of=Measured(None, None, "mounted"),
        )
        return
    way = {"blade_up": "shuts", "blade_down": "opens"}.get(spec.mounted, "moves")
    message = f"without air the blade {way} by its own weight ({on.moving_kg:.2f} kg)"
    yield say(
        "air_loss", "warn", message, "Mount it sideways, or count on that.", of=Measured(left, 0.0, "mounted", "N")
    )
