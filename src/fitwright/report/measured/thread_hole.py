"""The hole for a thread: one clearance hole for all that are still in question, or what to drill for a tap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import get_args

from fitwright.data.fasteners import Clearance, FastenerRow
from fitwright.data.threads import ThreadRow, screw_of
from fitwright.report.measured.thread_table import say
from fitwright.units import Units, format_number


@dataclass(frozen=True)
class ClearHole:
    """A hole [mm] that clears every screw of `sizes`, and how a part's YAML asks for it."""

    d_mm: float
    size: str
    clearance: Clearance
    sizes: tuple[str, ...]


def clear_hole(rows: Sequence[ThreadRow]) -> ClearHole | None:
    """The hole of one of the screws that is at least fine and at most coarse for all; None where there is none.

    Of those that would do, the one nearest to the largest medium hole (ISO 273, ASME B18.2.8).
    """
    screws = _screws(rows)
    if not screws:
        return None
    least = max(screw.hole_mm("fine") for screw in screws)
    most = min(screw.hole_mm("coarse") for screw in screws)
    wanted = max(screw.hole_mm() for screw in screws)
    holes = [(screw.hole_mm(c), screw, c) for screw in screws for c in sorted(get_args(Clearance), key=_medium_first)]
    fitting = [hole for hole in holes if least <= hole[0] <= most]
    if not fitting:
        return None
    d, screw, clearance = min(fitting, key=lambda hole: abs(hole[0] - wanted))
    return ClearHole(d, screw.name, clearance, tuple(dict.fromkeys(one.name for one in screws)))


def yaml_of(hole: ClearHole) -> str:
    """The keys of a bolt pattern that ask for this hole."""
    lines = [f"size: {hole.size}"]
    return "\n".join([*lines, *([f"clearance: {hole.clearance}"] if hole.clearance != "medium" else [])])


def tapped_words(rows: Sequence[ThreadRow], sure: bool, units: Units) -> str:
    """What to drill for the tap, or why not yet."""
    if not sure:
        names = " or ".join(row.name for row in rows[:4])
        return f"tapped hole: refused. It may be {names}, and a wrong tap spoils hole and bolt: {FIRST}."
    row = rows[0]
    if row.taper or row.inside_mm is None:
        return f"tapped hole: {row.name} tapers; take the drill from the tap's maker."
    bore = " to ".join(say(d, units) for d in row.inside_mm)
    if row.is_pipe:
        return f"tapped hole for {row.name}: bore {bore}."
    drill_mm = row.major_mm - row.pitch_mm
    drill = f"{format_number(drill_mm, 1)} mm" if units == "mm" else say(drill_mm, units)
    return f"tapped hole for {row.name}: drill {drill} (major less pitch, common practice); bore {bore}."


FIRST = "take the reading above first"


def _screws(rows: Sequence[ThreadRow]) -> list[FastenerRow]:
    """Their screws; none at all where one of them has none."""
    found = [screw_of(row) for row in rows]
    return [screw for screw in found if screw] if all(found) else []


def _medium_first(clearance: str) -> bool:
    return clearance != "medium"
