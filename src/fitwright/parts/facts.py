"""What the report says of an adapter beside the findings: passages, areas, how it holds and seals, cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.frame import Vec
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.clamp_turn import clamp_turn
from fitwright.parts.ends import sizes_of_flange
from fitwright.parts.fit_faces import grip_of, seal_of
from fitwright.parts.flange_cover import blank_words
from fitwright.parts.flange_end import EDGE_OWN, least_edge_mm
from fitwright.parts.hose_facts import bonding, clamp_middle_mm, ridge_holding
from fitwright.parts.learned_facts import learned_facts
from fitwright.parts.soft_words import stretch_words
from fitwright.parts.stand_ins import HOSE_RIB_MM
from fitwright.section import Section
from fitwright.spec.models import AdapterSpec, Flange, Holes, HoseTail, Plain, Socket, Spigot
from fitwright.spec.resolve import LEAST_LINES

CAUTIONS = (
    "Printed plastic is an insulator and can hold static charge: keep runs short, bond metal parts and hose wire to "
    "ground where local rules ask for it; no antistatic property is claimed.",
    "Fine wood dust is combustible: keep sparks and metal swarf out, empty the bin, follow local codes. Hobby use; "
    "no compliance with any code is claimed.",
    "Keep plastic off hot motors and exhausts; no printed part on a rotating shaft or impeller.",
)


def describe(a: PlacedEnd, b: PlacedEnd, spec: AdapterSpec) -> dict[str, str]:
    """Lines about the passage and the joints, in the words of the report (mm; the report converts nothing here)."""
    one, other = a.shape.passage, b.shape.passage
    da, db = one.equal_d_mm, other.equal_d_mm
    lines = {
        "passage": f"{size_words(one)} at end_a, {size_words(other)} at end_b",
        "area": _areas(da, db),
    }
    for end in (a, b):
        lines[f"{end.plan.key} holds and seals"] = holding(end, spec)
        if todo := at_the_bench(end, spec):
            lines[f"{end.plan.key} at the bench"] = todo
        lines.update(bonding(end))
        lines.update(learned_facts(end.plan.end, end.plan.key, spec.printer))
    if doubts := "; ".join((*_uneven_wall(spec), *_leaking_wall(spec))):
        lines["wall"] = doubts
    return lines


def passages_mm(a: PlacedEnd, b: PlacedEnd) -> dict[str, float]:
    """Diameter of the passage at the root of each end [mm]; of the circle of the same area where it is not round."""
    return {end.plan.key: end.shape.passage.equal_d_mm for end in (a, b)}


def size_words(section: Section) -> str:
    """A section's size in words: `98.00 mm`, `148.0 x 58.0 mm`."""
    if section.is_round:
        return f"{2 * section.inside_r_mm:.2f} mm"
    return f"{section.width_mm:.1f} x {section.height_mm:.1f} mm"


def _leaking_wall(spec: AdapterSpec) -> Iterator[str]:
    """Said of a wall of few lines: what leaks is the seams between lines, not the infill."""
    line = spec.printer.line_mm
    if spec.wall_mm < LEAST_LINES * line - 1e-6:
        least = f"{LEAST_LINES} lines ({LEAST_LINES * line:.2f} mm)"
        yield f"under {least} a printed wall lets air through: seal it, or raise wall"


def _uneven_wall(spec: AdapterSpec) -> Iterator[str]:
    """Said where the wall asked for is no whole number of printed lines (a gap or a half line is left in it)."""
    line = spec.printer.line_mm
    count = spec.wall_mm / line
    if abs(count - round(count)) >= 0.02:
        low, high = math.floor(count) * line, math.ceil(count) * line
        told = f"{spec.wall_mm:.2f} mm is {count:.1f} lines of {line:g} mm"
        yield f"{told}; {low:.2f} mm or {high:.2f} mm would be whole lines"


def _areas(da: float, db: float) -> str:
    small, large = sorted((da, db))
    share = (small / large) ** 2
    if share > 0.995:
        return "the same at both ends"
    narrow = "end_b" if db < da else "end_a"
    return f"{narrow} has {100 * share:.0f} % of the other end's area; the air is {1 / share:.2f} times as fast there"


def holding(end: PlacedEnd, spec: AdapterSpec) -> str:
    """How one joint holds and what makes it tight; where it has a fit, the report lets fit.result say it, judged."""
    joint = end.plan.end.joint
    if isinstance(joint, Flange):
        if joint.holes is None:
            return blank_words(joint, spec)
        seal = "a foam cord in its groove" if joint.gasket_cord_mm else "a flat gasket or a bead of sealant"
        how = "into captive nuts" if joint.nut_pockets else "with washers" if joint.washers else "with wide heads"
        return f"{len(joint.holes.points)} x {joint.holes.size} {how}; seal with {seal}{_edge(end, joint, joint.holes)}"
    if isinstance(joint, HoseTail | Socket) and joint.ridge is not None:
        clamped = isinstance(joint, HoseTail) and joint.band_mm > 0
        return ridge_holding(end, joint, _turn(end, joint, spec) if clamped else "")
    if isinstance(joint, HoseTail):
        soft = "; the tail is soft: a clamp tightened hard crushes it" if spec.material.soft else ""
        return f"a hose clamp holds and seals{soft}"
    if isinstance(joint, Plain):
        return "nothing of its own: glue, tape or a sleeve"
    if isinstance(joint, Socket | Spigot) and joint.fit == "stretch":
        return stretch_words(end, spec)
    grip, seal = grip_of(end.plan), seal_of(end.plan)
    holds = {"none": "nothing holds it", "taper": "its taper grips by friction"}.get(grip, f"held by {grip}")
    return f"{holds}; {'nothing seals it' if seal == 'none' else f'sealed by {seal}'}"


def at_the_bench(end: PlacedEnd, spec: AdapterSpec) -> str:
    """What is left to do so that a joint with a fit holds and seals; nothing where screws, band or cord do both."""
    joint = end.plan.end.joint
    if isinstance(joint, HoseTail | Socket) and joint.ridge is not None:
        return ""
    if isinstance(joint, HoseTail):
        return f"clamp it on the land behind the bead{_turn(end, joint, spec)}"
    if not isinstance(joint, Socket | Spigot):
        return ""
    holds = {
        "none": "nothing but a tight fit holds it: add screws, a clamp or tape",
        "taper": "by friction only: add screws where it is pulled or shaken",
    }.get(grip_of(end.plan), "")
    seals = "tape the seam, nothing else seals it" if seal_of(end.plan) == "none" else ""
    return "; ".join(words for words in (holds, seals) if words)


def _edge(end: PlacedEnd, joint: Flange, holes: Holes) -> str:
    """Said where the holes stand nearer to the edge than brittle sheet would bear."""
    plan = end.plan
    sizes = sizes_of_flange(joint, plan)
    own = least_edge_mm(sizes) / holes.hole_d_mm
    if own >= EDGE_OWN - 0.01:
        return ""
    return (
        f"; its holes stand {own:.2f} hole diameters from the edge: enough for a print (1.5), not for brittle sheet (2)"
    )


def _turn(end: PlacedEnd, joint: HoseTail | Socket, spec: AdapterSpec) -> str:
    """Where the clamp's screw has room, said only where something stands near."""
    if not spec.envelope.keep_clear or end.shape.fit is None or not isinstance(joint, HoseTail):
        return ""
    middle = clamp_middle_mm(end.shape.fit[0], joint)
    _, words = clamp_turn(end.frame, middle, end.shape.fit[1] / 2 + HOSE_RIB_MM, spec.envelope)
    return f"; turn its screw {words}, looking into {end.plan.key}, where it has room"


def labels(a: PlacedEnd, b: PlacedEnd) -> dict[str, Vec]:
    """The ends' words for the picture, at their mouths."""
    return {end.plan.name: end.frame.origin for end in (a, b)}


def assumed(spec: AdapterSpec, **filled: str) -> dict[str, str]:
    """YAML keys that were filled in, with their values; `filled` adds what the family decided."""
    found = {key: _value(spec, key) for key in spec.defaulted}
    found.update({key.replace("__", "."): value for key, value in filled.items()})
    if spec.suction.assumed:
        found["air.fan"] = spec.suction.filled_words(spec.units)
    return found


def _value(spec: AdapterSpec, key: str) -> str:
    """A filled-in value in words, with its unit: `13 mm`, `0.5 deg`, `no`, `auto` where the family decides."""
    if key == "wall":
        return _wall(spec)
    thing: object = spec
    unit = ""
    for step in key.split("."):
        if hasattr(thing, "joint") and not hasattr(thing, step):
            thing = thing.joint
            continue
        ending = next((e for e in ("", "_mm", "_deg") if hasattr(thing, step + e)), "")
        thing, unit = getattr(thing, step + ending, None), ending.replace("_", " ")
    if thing is None:
        return "auto"
    if isinstance(thing, bool):
        return "yes" if thing else "no"
    if isinstance(thing, float):
        return "none" if key.endswith(("lead_in", "stop", "taper")) and thing == 0.0 else f"{thing:.4g}{unit}"
    return str(getattr(thing, "name", thing))


def _wall(spec: AdapterSpec) -> str:
    line = spec.printer.line_mm
    lines = spec.wall_mm / line
    whole = f" ({lines:.0f} lines of {line:g} mm)" if abs(lines - round(lines)) < 1e-6 else ""
    return f"{spec.wall_mm:g} mm{whole}"
