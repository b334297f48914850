"""The commissioning sheet: how the finished bracket is set going, step by step, with this gate's own numbers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from fitwright.part import Paper
from fitwright.parts.gate.lengths import length_words
from fitwright.parts.gate.paper_air import air_lines, bar, free_air, stays
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.setting_words import set_by
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.physics.gravity import GRAVITY
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

USUAL_CLOSING_S = 2.0
"""Slow enough that ducts clear and nothing bangs (common practice, no source)."""
FIRST_BAR = 1.0
START_TURNS = 1
"""Flow controls, open from closed (common practice, no source)."""
FILL = "__________"


def commissioning(plan: GatePlan, spec: GateBracketSpec, on: Load) -> Paper:
    """The sheet; `on`: the gate's forces, with what of the print moves."""
    sections = (
        ("Before you start", _before(spec)),
        ("1. By hand, air off", tuple(_by_hand(plan, spec))),
        ("2. Set the lengths, in this order", tuple(_lengths(plan, spec))),
        ("3. Regulator", tuple(_regulator(on, spec))),
        ("4. First stroke with air", tuple(_first_stroke(on, plan, spec))),
        ("5. Air", (*air_lines(on, plan, spec, try_bar(on, spec) or on.setting_bar), *stays(on, spec))),
        ("6. Afterwards", tuple(_afterwards(plan))),
    )
    cylinder = spec.cylinder.name
    return Paper("commissioning", f"Setting it going: {spec.name}, air cylinder {cylinder} on a slide gate", sections)


def _before(spec: GateBracketSpec) -> tuple[str, ...]:
    return (
        "Shut the air off, let it out, and secure it against others. A blade shears, and stored air moves it when a "
        "fitting is opened. Hands off blade and coupling from the first air on; glasses on.",
        "A gate that starts by itself needs the guarding of its own machine. Local rules for machines and compressed "
        "air come first; where they ask for a licensed trade, leave air and wiring to it.",
    )


def _by_hand(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    gate, say = spec.gate, partial(length_words, spec=spec)
    yield "[ ] Both ports open to the air. Push blade and rod through ten full strokes: nothing rubs, nothing binds."
    yield (
        f"[ ] Blade edge beyond the body, shut: {FILL} (read before: {say(gate.shut_mm)}); "
        f"open: {FILL} ({say(gate.open_mm)})."
    )


def _lengths(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    cylinder, setting, say = spec.cylinder, spec.setting_mm, partial(length_words, spec=spec)
    yield (
        f"[ ] Rod fully in: mounting face to the rod's shoulder {FILL} (reckoned with {say(cylinder.rod_stub_mm)}; "
        "where it differs, the setting below takes it up)."
    )
    yield (
        "[ ] Rod into its caught nut up to the end of its thread, jam nut tight against the coupling: two spanners, "
        "one on the rod's flats. Never turn the rod by pliers on its polished face."
    )
    out, rod_in = ("shut", "open") if plan.way > 0 else ("open", "shut")
    at_out = plan.ends.blade_shut_mm if plan.way > 0 else plan.ends.blade_open_mm
    yield (
        f"[ ] {out.capitalize()} first, where the cylinder's own end stops it: pull the rod fully out, "
        f"{set_by(plan, spec).order} until the blade's edge stands {say(at_out)} out "
        f"(+-{say(setting)} can be set), and tighten."
    )
    yield from _sleeve(plan, spec, rod_in)
    yield (
        f"[ ] Look through the port. Shut: the blade covers it all round, overlap {FILL}. Open: no edge in the bore "
        f"(about {plan.engaged_open_mm:.0f} mm of the blade stay in the guides)."
    )


def _sleeve(plan: GatePlan, spec: GateBracketSpec, rod_in: str) -> Iterator[str]:
    sizes, say = sleeve_sizes(plan, spec), partial(length_words, spec=spec)
    at_in = plan.ends.blade_open_mm if plan.way > 0 else plan.ends.blade_shut_mm
    if sizes is None:
        by = "washers on the rod" if plan.stop == "sleeve" else "the cylinder's own end"
        yield f"[ ] Then {rod_in}: rod in, the blade stands {say(at_in)} out. There {by} stops it, never the blade."
        return
    yield (
        f"[ ] Then {rod_in}: set the blade to {say(at_in)} by hand, no sleeve on the rod, and measure the gap between "
        f"jam nut and the nose's end: {FILL}. The sleeve has {say(sizes.long_mm)}: cut it to the gap, or add washers, "
        "and put it on. It must stop the rod before the blade meets anything."
    )


def _regulator(on: Load, spec: GateBracketSpec) -> Iterator[str]:
    found, opening, shutting = on.range, max(on.drag.opening_n, 0.0), max(on.drag.shutting_n, 0.0)
    top = min(found.buckling_bar, found.supply_bar)
    if found.setting_bar is None:
        yield from _no_setting(on, top, spec)
        yield f"Drag {opening:.0f} N opening, {shutting:.0f} N shutting, dirt counted."
        return
    yield (
        f"[ ] Set it to {bar(found.setting_bar, spec)}. Below {bar(found.least_bar, spec)} it may stick; never above "
        f"{bar(on.most_bar, spec)}: more only breaks what is stuck, a finger too."
    )
    held = max(on.cylinder.stall_n(way, found.setting_bar) for way in (on.opens, on.shuts))
    yield (
        f"Drag {opening:.0f} N opening, {shutting:.0f} N shutting, dirt counted; stalled, it pushes with {held:.0f} N "
        f"({held / GRAVITY:.0f} kg)."
    )


def try_bar(on: Load, spec: GateBracketSpec) -> float | None:
    """What to set: the setting; where none keeps both margins, the most that is safe if it moves the blade at all."""
    found = on.range
    if found.setting_bar is not None:
        return found.setting_bar
    top = math.floor(10 * min(found.buckling_bar, found.supply_bar)) / 10
    return top if top >= found.least_bar / spec.margin else None


def _no_setting(on: Load, top: float, spec: GateBracketSpec) -> Iterator[str]:
    least, tried = on.range.least_bar, try_bar(on, spec)
    why = "the blade may bow out" if on.range.buckling_bar < on.range.supply_bar else "there is no more pressure"
    if tried is None:
        yield (
            f"DO NOT RUN IT: above {bar(top, spec)} {why}, and that does not move it. Less drag, a thicker blade or "
            "another bore first."
        )
        return
    yield (
        f"NO PRESSURE KEEPS BOTH MARGINS: {spec.margin:g} times the drag takes {bar(least, spec)}, above "
        f"{bar(top, spec)} {why}."
    )
    yield (
        f"[ ] Set it to {bar(tried, spec)} and no higher. Try it twenty times, and again when it is dirty: where it "
        "ever stops on its way, the gate wants less drag, a thicker blade or another bore."
    )


def _first_stroke(on: Load, plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    seconds, setting = spec.close_in_s or USUAL_CLOSING_S, try_bar(on, spec)
    if setting is None:
        yield "Not before a setting is found (3)."
        return
    first = min(FIRST_BAR, setting)
    yield (
        f"[ ] Flow controls on what leaves the cylinder: close both, then {START_TURNS} turn open. Nobody near. First "
        f"{bar(first, spec)}; nothing moves: a little more. Then {bar(setting, spec)}."
    )
    litres = on.cylinder.flow_l_min(on.shuts, setting, seconds, plan.moved_mm)
    yield (
        f"[ ] By quarter turns until shutting takes {seconds:g} s (about {free_air(litres, spec)} of free air a "
        "minute) and opening no less. At both ends it must arrive without a bang."
    )
    ends = plan.ends
    lost = " Where the sleeve stops it the cushion is out of reach: slow that end." if ends.sleeve_mm > 0.0 else ""
    yield f"Shut it is stopped by {_plain(ends.stopped_shut_by)}, open by {_plain(ends.stopped_open_by)}.{lost}"
    yield f"[ ] Write down: pressure {FILL}, turns shutting {FILL}, opening {FILL}, seconds {FILL}, date {FILL}."


def _plain(by: str) -> str:
    """Without what is said elsewhere."""
    return by.split(" (")[0]


def _afterwards(plan: GatePlan) -> Iterator[str]:
    yield "[ ] After a day: all screws and nuts on plastic once more, by hand (plastic creeps). After a month: again."
    yield (
        "Each month: cracks at ears, nose and coupling; slack in the coupling over 1 mm; dust packed behind the blade "
        "or under it; tubes that rub; water in the filter. A cracked print is replaced, not glued."
    )
    yield (
        "Blade and guides: dry PTFE spray or hard wax, sparingly. No oil or grease: dust cakes in it. The cylinder is "
        "greased for life; oil the air only if it always was."
    )
    yield "The gate is not airtight. Fine dust burns: keep to your collector's rules for bonding and cleaning."
