"""The lines for a flange: the solved pattern as `holes`, with the bolt that fits and the clearance that it needs."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.data.fasteners import FastenerRow, all_fasteners, fastener
from fitwright.measure.bolts.pattern import Pattern, Place
from fitwright.measure.bolts.solve import Solved
from fitwright.spec.faults import FaultError, dotted
from fitwright.spec.grammar.measuring.bolts import BoltsKeys
from fitwright.spec.grammar.screws import HolesKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.nodes import read
from fitwright.units import MM_PER_INCH, format_length, format_number

SLOTS_MM = 0.5
"""A reading that is off by more than this asks for slots or large holes (common practice, no source)."""


@dataclass(frozen=True)
class HoleLines:
    """`yaml` for the flange (empty: none), and what is to be said of bolt, clearance and side."""

    yaml: str
    said: tuple[str, ...]


def hole_lines(keys: BoltsKeys, solved: Solved, context: Context) -> HoleLines:
    """`holes:` as a flange takes it: right and left as seen by who looks into the flange's mouth."""
    row, said = _bolt(keys, solved.pattern, context)
    if row is None:
        return HoleLines("", (said,))
    side = _side(keys, solved.pattern)
    pattern = solved.pattern.from_behind() if side else solved.pattern
    coarse, why = _clearance(keys, solved, row, context)
    tail = f"size: {row.name}" + (", clearance: coarse" if coarse else "")
    yaml = _on_circle(pattern, tail, context) or _as_points(pattern, tail, context)
    fault = _refused(yaml, context)
    if fault:
        return HoleLines("", tuple(one for one in (said, why, f"a flange would not take these holes: {fault}") if one))
    if side and "points" in yaml:
        yaml = f"# as seen looking into the flange's mouth: left and right of the machine's face changed\n{yaml}"
    return HoleLines(yaml, tuple(one for one in (said, why, side) if one))


def _bolt(keys: BoltsKeys, pattern: Pattern, context: Context) -> tuple[FastenerRow | None, str]:
    """The bolt said, or that which the holes were drilled for."""
    if keys.size:
        return fastener(keys.size), ""
    if pattern.hole_mm is None:
        return None, "no lines for the YAML without a bolt: add `size:`, or `hole:` with the holes' diameter"
    hole = pattern.hole_mm
    metric = context.units == "mm"
    rows = [r for r in all_fasteners() if r.name.startswith("M") == metric and (metric or r.thread.startswith("UN"))]
    near = min(rows, key=lambda r: abs(r.hole_medium_mm - hole))
    told = format_length(hole, context.units)
    low, high = near.hole_mm("fine"), near.hole_mm("coarse")
    if not low - 0.3 <= hole <= high + 0.3:
        return None, f"no lines for the YAML: no bolt of our tables goes with holes of {told}; add `size:`"
    return near, f"size {near.name} is what holes of {told} are drilled for (ISO 273); threaded holes: write `size:`"


def _clearance(keys: BoltsKeys, solved: Solved, row: FastenerRow, context: Context) -> tuple[bool, str]:
    """Whether coarse holes are due, and why."""

    def say(mm: float) -> str:
        return format_length(mm, context.units, fraction=False)

    off = float(max(abs(solved.shape.fit.residuals), default=0.0))
    unsure, room = max(solved.pattern.give_mm), (row.hole_medium_mm - row.major_mm) / 2
    larger = f"coarse holes ({say(row.hole_mm('coarse'))}, ISO 273)"
    if off > SLOTS_MM:
        return (
            True,
            f"the worst reading is off by {say(off)}, more than {say(SLOTS_MM)}: {larger}, or file them to slots",
        )
    if keys.with_ == "tape":
        return True, f"read with a tape: {larger}"
    if unsure > room:
        return True, f"a hole is sure to {say(unsure)} only, and a medium hole leaves {say(room)} each way: {larger}"
    return False, ""


def _on_circle(pattern: Pattern, tail: str, context: Context) -> str:
    if pattern.first_at_deg is None or pattern.circle_mm is None:
        return ""
    first = format_number(pattern.first_at_deg, 2)
    at = "" if first == "0" else f"first_at: {first}, "
    circle = _number(pattern.circle_mm, context)
    return f"holes: {{count: {pattern.count}, circle: {circle}, {at}{tail}}}"


def _as_points(pattern: Pattern, tail: str, context: Context) -> str:
    points = "".join(f"    - {_place(one, context)}  # hole {k + 1}\n" for k, one in enumerate(pattern.places))
    return f"holes:\n  points:\n{points}  " + tail.replace(", ", "\n  ")


def _place(place: Place, context: Context) -> str:
    return f"{{{_along(place[0], 'right', 'left', context)}, {_along(place[1], 'up', 'down', context)}}}"


def _along(mm: float, word: str, opposite: str, context: Context) -> str:
    number = _number(abs(mm), context)
    return f"{opposite if mm < 0 and number not in ('0', '0 in') else word}: {number}"


def _number(mm: float, context: Context) -> str:
    """As a part's YAML takes it; inches say so, since a part is in mm where it says nothing."""
    return format_number(mm, 2) if context.units == "mm" else f"{format_number(mm / MM_PER_INCH, 4)} in"


def _refused(yaml: str, context: Context) -> str:
    """Why a flange does not take the lines; nothing where it does."""
    value = read(yaml, "answer").value
    assert isinstance(value, dict)
    try:
        HolesKeys.read(value["holes"], context)
    except FaultError as error:
        return "; ".join(f"{dotted(f.path)}: {f.found}; allowed: {f.allowed}" for f in error.faults)
    return ""


def _side(keys: BoltsKeys, pattern: Pattern) -> str:
    """Said where left and right make a difference."""
    if keys.face == "flange" or same_from_behind(pattern):
        return ""
    return (
        "the YAML has left and right changed: a flange's holes are given as seen looking into its mouth, and that is "
        "from the machine's side"
    )


def same_from_behind(pattern: Pattern) -> bool:
    """Whether the holes cover themselves when left and right are changed (within 0.005 mm, half of what is written)."""
    behind = pattern.from_behind()
    return all(min(abs(a - c) + abs(b - d) for c, d in behind.places) < 0.005 for a, b in pattern.places)
