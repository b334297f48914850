"""What the report says of an adapter beside the findings: passages, areas, how it holds and seals, cautions."""

from __future__ import annotations

import math

from fitwright.frame import Vec
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.clamp_turn import clamp_turn
from fitwright.parts.fit_faces import grip_of, seal_of
from fitwright.parts.flange_end import EDGE_OWN, flange_sizes, least_edge_mm
from fitwright.parts.hose_facts import bonding, clamp_middle_mm, ridge_holding
from fitwright.spec.models import AdapterSpec, Flange, HoseTail, Plain, Socket

CAUTIONS = (
    "Printed plastic is an insulator and can hold static charge: keep runs short, bond metal parts and hose wire to "
    "ground where local rules ask for it; no antistatic property is claimed.",
    "Fine wood dust is combustible: keep sparks and metal swarf out, empty the bin, follow local codes. Hobby use; "
    "no compliance with any code is claimed.",
    "Keep plastic off hot motors and exhausts; no printed part on a rotating shaft or impeller.",
)


def describe(a: PlacedEnd, b: PlacedEnd, spec: AdapterSpec) -> dict[str, str]:
    """Lines about the passage and the joints, in the words of the report (mm; the report converts nothing here)."""
    da, db = 2 * a.shape.passage_r_mm, 2 * b.shape.passage_r_mm
    lines = {
        "passage": f"{da:.2f} mm at end_a, {db:.2f} mm at end_b",
        "area": _areas(da, db),
        "end_a holds and seals": holding(a, spec),
        "end_b holds and seals": holding(b, spec),
    }
    for end in (a, b):
        lines.update(bonding(end))
    if (uneven := _uneven_wall(spec)) is not None:
        lines["wall"] = uneven
    if spec.air is not None:
        speeds = (spec.air.flow_m3_s / (math.pi * (d / 2000.0) ** 2) for d in (da, db))
        lines["air speed"] = "{:.1f} m/s at end_a, {:.1f} m/s at end_b".format(*speeds)
    return lines


def passages_mm(a: PlacedEnd, b: PlacedEnd) -> dict[str, float]:
    """Diameter of the passage at the root of each end [mm]."""
    return {end.plan.key: 2 * end.shape.passage_r_mm for end in (a, b)}


def _uneven_wall(spec: AdapterSpec) -> str | None:
    """Said where the wall asked for is no whole number of printed lines (a gap or a half line is left in it)."""
    line = spec.printer.line_mm
    count = spec.wall_mm / line
    if abs(count - round(count)) < 0.02:
        return None
    low, high = math.floor(count) * line, math.ceil(count) * line
    return (
        f"{spec.wall_mm:.2f} mm is {count:.1f} lines of {line:g} mm; {low:.2f} mm or {high:.2f} mm would be whole lines"
    )


def _areas(da: float, db: float) -> str:
    small, large = sorted((da, db))
    share = (small / large) ** 2
    if share > 0.995:
        return "the same at both ends"
    narrow = "end_b" if db < da else "end_a"
    return f"{narrow} has {100 * share:.0f} % of the other end's area; the air is {1 / share:.2f} times as fast there"


def holding(end: PlacedEnd, spec: AdapterSpec) -> str:
    """How one joint holds and what makes it tight."""
    joint = end.plan.end.joint
    if isinstance(joint, Flange):
        seal = "a foam cord in its groove" if joint.gasket_cord_mm else "a flat gasket or a bead of sealant"
        how = "into captive nuts" if joint.nut_pockets else "with washers" if joint.washers else "with wide heads"
        return f"{len(joint.holes.points)} x {joint.holes.size} {how}; seal with {seal}{_edge(end, joint)}"
    if isinstance(joint, HoseTail | Socket) and joint.ridge is not None:
        clamped = isinstance(joint, HoseTail) and joint.band_mm > 0
        return ridge_holding(end, joint, _turn(end, joint, spec) if clamped else "")
    if isinstance(joint, HoseTail):
        return f"a hose clamp on the land behind the bead holds and seals{_turn(end, joint, spec)}"
    if isinstance(joint, Plain):
        return "nothing of its own: glue, tape or a sleeve"
    grip, seal = grip_of(end.plan), seal_of(end.plan)
    holds = {
        "none": "nothing holds it: add screws, a clamp or tape",
        "taper": "its taper grips by friction: add screws where it is pulled or shaken",
    }.get(grip, f"held by {grip}")
    seals = "nothing seals it: tape the seam" if seal == "none" else f"sealed by {seal}"
    return f"{holds}; {seals}"


def _edge(end: PlacedEnd, joint: Flange) -> str:
    """Said where the holes stand nearer to the edge than brittle sheet would bear."""
    plan = end.plan
    sizes = flange_sizes(joint, plan.key, plan.wall_mm, plan.root_wall_mm, plan.opening_d, plan.printer)
    own = least_edge_mm(sizes) / sizes.bolts.hole_d
    if own >= EDGE_OWN - 0.01:
        return ""
    return (
        f"; its holes stand {own:.1f} hole diameters from the edge: enough for a print (1.5), not for brittle sheet (2)"
    )


def _turn(end: PlacedEnd, joint: HoseTail | Socket, spec: AdapterSpec) -> str:
    """Where the clamp's screw has room, said only where something stands near."""
    if not spec.envelope.keep_clear or end.shape.fit is None or not isinstance(joint, HoseTail):
        return ""
    middle = clamp_middle_mm(end.shape.fit[0], joint)
    _, words = clamp_turn(end.frame, middle, joint.size.nominal_mm / 2, spec.envelope)
    return f"; turn its screw {words}, looking into {end.plan.key}, where it has most room"


def labels(a: PlacedEnd, b: PlacedEnd) -> dict[str, Vec]:
    """The ends' words for the picture, at their mouths."""
    return {end.plan.name: end.frame.origin for end in (a, b)}


def assumed(spec: AdapterSpec, **filled: str) -> dict[str, str]:
    """YAML keys that were filled in, with their values; `filled` adds what the family decided."""
    found = {key: _value(spec, key) for key in spec.defaulted}
    found.update({key.replace("__", "."): value for key, value in filled.items()})
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
