"""Findings on the line of the pull and what it does to the blade: jamming, side load, pin, fork, screws."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.checks.motion_axis import Axes
from fitwright.checks.motion_chain import Driven, pin_d_mm
from fitwright.checks.motion_load import Load
from fitwright.checks.motion_say import Measured, bar, mm, say
from fitwright.data.fasteners import fastener
from fitwright.finding import Finding
from fitwright.physics.slide.bearing import SHEAR_SHARE, BladeHole
from fitwright.physics.slide.jamming import PERMITTED_RATIO, Drawer, greatest_offset_mm
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.printed import as_printed

OFF_MM = 0.5
"""How far beside the blade's middle a careful hand sets the pull (common practice, no source)."""
SIDE_MM = 0.5
"""A rod bears so much misalignment where nothing floats (common practice, no source)."""
SLOT_MM, TIGHT_MM, SLACK_MM = 0.4, 0.2, 0.8
"""Fork's slot over the blade: as meant (common practice), and the least and greatest that work."""
SCREW_ROOM_MM = 0.25
TENSION_SHARE = 0.5
"""Permitted tension and (x 0.577) shear over the permitted bearing stress (common practice, no source)."""


def line(axes: Axes, at: Driven, on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """All findings on the line of the pull."""
    yield _jamming(axes, at, spec)
    yield _side_load(axes)
    yield _slot(at, spec)
    yield from _hole(on, spec)
    yield from _screws(spec)


def _jamming(axes: Axes, at: Driven, spec: GateBracketSpec) -> Finding:
    """The drawer rule where least is engaged: open."""
    guided = spec.layout == "in_line" or spec.second_guide
    beside = (abs(axes.rod.x_mm) if not guided else abs(axes.across_mm)) + OFF_MM + axes.play_mm
    engaged = at.engaged_open_mm
    if engaged <= 0.0:
        advice = "Open it less far (sticks_out.open), or measure blade and port again."
        numbers = Measured(engaged, 0.0, "gate.sticks_out.open")
        return say("jamming", "fail", "open, nothing guides the blade: it falls askew and jams", advice, of=numbers)
    drawer = Drawer(beside, engaged, at.moved_mm, spec.gate.friction)
    ratio = drawer.worst_ratio
    words = f"pulled up to {mm(beside)} beside the middle with {mm(at.engaged_open_mm)} in the guides: "
    words += f"2 mu e / L is {ratio:.2f}"
    numbers = Measured(ratio, PERMITTED_RATIO, "layout", "times")
    if ratio <= PERMITTED_RATIO:
        return say("jamming", "pass", words, of=numbers)
    jams = drawer.jams_at_mm
    does = (
        f"it jams when {mm(jams, 0)} of {mm(at.moved_mm, 0)} open" if jams is not None else "it drags more than double"
    )
    most = greatest_offset_mm(engaged, spec.gate.friction)
    advice = "A second guide (second_guide: yes), or the cylinder in line" if not guided else "More blade in the guides"
    return say("jamming", "fail", f"{words}; {does}", f"{advice}; beside the middle by {mm(most)} at most.", of=numbers)


def _side_load(axes: Axes) -> Finding:
    """The cylinder's axis against the coupling's rod hole and the blade's plane."""
    across, square = abs(axes.across_mm), abs(axes.square_mm)
    most = SIDE_MM + axes.play_mm
    words = f"rod to cylinder {mm(across, 2)} across the blade, {mm(square, 2)} square to it"
    if axes.play_mm > 0.0:
        words += f" (the coupling floats {mm(axes.play_mm, 2)} either way across)"
    if across > most or square > SIDE_MM:
        advice = "In line with the blade, or a coupling that floats: the rod's bearing wears oval."
        return say("side_load", "fail", words, advice, of=Measured(max(across, square), SIDE_MM, "cylinder"))
    return say("side_load", "pass", words, of=Measured(max(across, square), SIDE_MM, "cylinder"))


JAWS_MM = 0.05
"""Jaws that clamp are modelled on the blade: their faces as built against its thickness."""


def _slot(at: Driven, spec: GateBracketSpec) -> Finding:
    """The fork on the finished coupling against the blade."""
    slot = as_printed(at.slot_mm, "hole", spec.printer) if spec.gate.blade.hole_mm is not None else at.slot_mm
    gap = slot - spec.gate.blade.thickness_mm
    if spec.gate.blade.hole_mm is None:
        numbers = Measured(at.slot_mm, spec.gate.blade.thickness_mm, "gate.blade.thickness")
        words = f"the jaws that clamp the blade stand {mm(at.slot_mm, 2)} apart, it is {mm(at.slot_mm - gap, 2)} thick"
        return say("slot", "pass" if abs(gap) <= JAWS_MM else "fail", words, of=numbers)
    words = f"the fork's slot measures {mm(slot, 2)}, {mm(gap, 2)} more than the blade"
    numbers = Measured(slot, spec.gate.blade.thickness_mm + SLOT_MM, "gate.blade.thickness")
    if gap < TIGHT_MM:
        return say("slot", "fail", f"{words}: it binds", "This is a fault of the build; report it.", of=numbers)
    if gap > SLACK_MM:
        return say("slot", "warn", f"{words}: the blade rattles", "Read the blade with a caliper.", of=numbers)
    return say("slot", "pass", words, of=numbers)


def _hole(on: Load, spec: GateBracketSpec) -> Iterator[Finding]:
    """The pin pulls at the blade's hole: bearing, tearing out, the section beside it."""
    blade, pin = spec.gate.blade, pin_d_mm(spec.gate.blade)
    if blade.hole_mm is None or blade.hole_to_edge_mm is None or pin is None:
        return
    pull = on.stalled_n(on.opens)
    hole = BladeHole(blade.hole_mm, pin, blade.hole_to_edge_mm, blade.thickness_mm, blade.width_mm)
    tension = TENSION_SHARE * blade.bearing_mpa
    bears = {
        "bearing at its wall": blade.bearing_mpa / hole.bearing_mpa(1.0),
        "tearing out to the edge": SHEAR_SHARE * tension / hole.tear_out_mpa(1.0),
        "tension beside it": tension / hole.net_section_mpa(1.0),
    }
    how = min(bears, key=lambda name: bears[name])
    words = f"pulled with {pull:.0f} N at {bar(on.setting_bar)}; the blade's hole bears {bears[how]:.0f} N ({how})"
    numbers = Measured(pull, bears[how], "gate.blade.hole", "N")
    if pull <= bears[how]:
        yield say("hole", "pass", words, of=numbers)
        return
    advice = "A hole further from the edge (hole_to_edge), metal plates on both faces of the blade, or less pressure."
    yield say("hole", "fail", words, advice, of=numbers)


def _screws(spec: GateBracketSpec) -> Iterator[Finding]:
    """Screws through the body must pass beside the blade, which goes between them."""
    screws, blade = spec.gate.mount.screws, spec.gate.blade
    if spec.gate.mount.kind != "screws" or screws is None:
        return
    d = fastener(screws.size).major_mm
    least, into = blade.width_mm + d + 2 * SCREW_ROOM_MM, (blade.width_mm + d - screws.across_mm) / 2
    numbers = Measured(screws.across_mm, least, "gate.screws.across")
    if screws.across_mm >= least:
        room = mm(-into)
        yield say("screws", "pass", f"the gate's screws pass {room} beside the blade", of=numbers)
        return
    where = (
        f"stand {mm(into)} in the blade's way" if into > 0 else f"touch the blade ({mm(max(0.0, -into), 2)} beside it)"
    )
    message = (
        f"the gate's {screws.size} screws, {mm(screws.across_mm)} across, {where} (it is {mm(blade.width_mm)} wide)"
    )
    advice = f"Measure again (gate.screws.across, gate.blade.width): {mm(math.ceil(10 * least) / 10)} or more; "
    advice += "or mount it by clamp or saddle."
    yield say("screws", "fail", message, advice, of=numbers)
