"""Numbers of a hose run in the units of its file, and the pieces that both kinds of run put together."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from fitwright.finding import Finding, Severity
from fitwright.frame import Vec
from fitwright.spec.run import RunSpec
from fitwright.units import MM_PER_INCH, Units, format_force, format_number

RUN = "hose"


@dataclass(frozen=True)
class Say:
    """Lengths and forces as words."""

    units: Units

    def mm(self, mm: float) -> str:
        """A length, in whole mm or tenths of an inch."""
        if math.isinf(mm):
            return "any length"
        return f"{mm:.0f} mm" if self.units == "mm" else f"{format_number(mm / MM_PER_INCH, 1)} in"

    def bend(self, mm: float) -> str:
        """A radius that may be large, in m or ft."""
        return f"{mm / 1000:.1f} m" if self.units == "mm" else f"{format_number(mm / MM_PER_INCH / 12, 1)} ft"

    def mm_above(self, mm: float) -> str:
        """A least length, rounded up."""
        return self.mm(math.ceil(mm / self._step - 1e-9) * self._step)

    def mm_below(self, mm: float) -> str:
        """A greatest length, rounded down."""
        return self.mm(math.floor(mm / self._step + 1e-9) * self._step)

    @property
    def _step(self) -> float:
        return 1.0 if self.units == "mm" else MM_PER_INCH / 10

    def n(self, force_n: float) -> str:
        """A force; below 10 N with a decimal."""
        return "taut" if math.isinf(force_n) else format_force(force_n, self.units)

    def at(self, place: Vec) -> str:
        """A place in the room."""
        words = (("right", "left"), ("away", "toward"), ("up", "down"))
        return ", ".join(f"{self.mm(abs(x))} {pair[x < 0]}" for x, pair in zip(place, words, strict=True))


@dataclass(frozen=True)
class Table:
    """A heading a column, and rows of words."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def lines(self) -> list[str]:
        """Set in columns: the first to the left, the others to the right."""
        wide = [max(len(row[k]) for row in (self.heads, *self.rows)) for k in range(len(self.heads))]
        set_ = [
            "  ".join(
                cell.ljust(w) if k == 0 else cell.rjust(w) for k, (cell, w) in enumerate(zip(row, wide, strict=True))
            )
            for row in (self.heads, *self.rows)
        ]
        return [self.title, *(f"  {line}".rstrip() for line in set_)]


@dataclass(frozen=True)
class RunAnswer:
    """All that is said of a run; `numbers`: the same for programs, lengths in mm."""

    run: RunSpec
    headline: str
    tables: tuple[Table, ...]
    findings: tuple[Finding, ...]
    numbers: dict[str, Any]
    limits: tuple[str, ...] = field(default_factory=tuple)

    @property
    def good(self) -> bool:
        """Nothing blocks it."""
        return not any(one.blocks for one in self.findings)


def finding(
    code: str,
    severity: Severity,
    place: str,
    message: str,
    advice: str = "",
    value: float | None = None,
    limit: float | None = None,
    unit: str = "mm",
) -> Finding:
    """One finding of a run; a number without end is left away."""
    finite = value if value is not None and math.isfinite(value) else None
    limit = limit if limit is not None and math.isfinite(limit) else None
    return Finding(code, severity, RUN, finite, limit, unit, place, message, advice)


def station_rows(run: RunSpec, felts: tuple[Any, ...], say: Say) -> Table:
    """What each place feels."""
    heads = "what holds it", "down", "along or aside, level", "if one side is off", "turns"
    rows = [
        (one.label, say.n(f.down_n), say.n(f.level_n), say.n(f.one_side_n), f"{math.degrees(f.turn):.0f} deg")
        for one, f in zip(run.stations, felts, strict=False)
    ]
    return Table("What each place feels for good, the hose half full:", heads, tuple(rows))
