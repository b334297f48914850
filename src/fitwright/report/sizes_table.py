"""Sizes of pipes, hoses and ducts as a table of plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from fitwright.data.sizes import Face, SizeRow
from fitwright.report.wording import in_units
from fitwright.units import Units, format_length

_KEYS = {"pipe": "pipe", "duct": "pipe", "hose": "hose"}
"""Kind of a row -> the YAML key that takes its name."""
STATUS = {
    "confirmed": "read from a published copy of the standard",
    "derived": "worked out from confirmed numbers",
    "memory": "remembered only: measure yours",
    "common practice": "usual in the trade, no standard",
    "assumed": "not known: this much is allowed for",
}
HEAD = ("series", "nominal", "outside", "wall", "inside", "status", "note")


def cli_table(rows: Sequence[SizeRow], units: Units = "mm") -> str:
    """The rows under a head, lengths in `units` with their least and greatest, no trailing newline or blanks."""
    if not rows:
        return "no size found"
    cells = [tuple(f"{word} [{units}]" if word in HEAD[2:5] else word for word in HEAD)]
    cells += [_cells(row, units) for row in rows]
    return lined_up(cells)


def lined_up(cells: Sequence[tuple[str, ...]]) -> str:
    """Lines of cells as columns of even width, no trailing blanks."""
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    return "\n".join("  ".join(text.ljust(w) for text, w in zip(line, widths, strict=True)).rstrip() for line in cells)


def cli_list(rows: Sequence[SizeRow], units: Units = "mm", wide: int = 80) -> str:
    """The same for a narrow terminal: two lines or more a row, none longer than `wide`."""
    if not rows:
        return "no size found"
    lines = []
    for row in rows:
        series, nominal, outside, wall, inside, status, note = _cells(row, units)
        faces = (("outside", outside), ("wall", wall), ("inside", inside))
        told = ", ".join(f"{word} {size}" for word, size in faces if size)
        lines += [f"{series}, {nominal}"[:wide]]
        lines += _wrapped(f"{told} [{units}]", wide) + _wrapped(
            "; ".join(part for part in (status, note) if part), wide
        )
    return "\n".join(lines)


def legend(rows: Sequence[SizeRow]) -> str:
    """What the status words mean, those that occur, and how to name a row in the YAML; "" for no rows."""
    used = {row.status for row in rows} | {row.tolerance_status for row in rows}
    lines = [f"{word}: {meaning}" for word, meaning in STATUS.items() if word in used]
    named = next((row for row in rows if row.kind in _KEYS), None)
    if named:
        lines.append(f"in the YAML: `{_KEYS[named.kind]}: {named.words}`; a reading of your own is better")
    return "\n".join(lines)


def _wrapped(text: str, wide: int) -> list[str]:
    return textwrap.wrap(text, wide, initial_indent="    ", subsequent_indent="      ", break_on_hyphens=False)


def _cells(row: SizeRow, units: Units) -> tuple[str, ...]:
    wall = "" if row.wall_mm is None else format_length(row.wall_mm, units, unit=False, fraction=False)
    outside, inside = _face(row, "outside", units), _face(row, "inside", units)
    return (row.series, row.nominal, outside, wall, inside, row.status, _note(row, units))


def _face(row: SizeRow, face: Face, units: Units) -> str:
    """`107.06 (106.83 to 107.29)`; empty where the series does not say."""
    triple = row.face(face)
    if triple is None:
        return ""
    nominal, least, greatest = (format_length(size, units, unit=False, fraction=False) for size in triple)
    return f"{nominal} ({least} to {greatest})"


def _note(row: SizeRow, units: Units) -> str:
    parts = [in_units(row.note, units)]
    if row.tolerance_status != row.status:
        parts.append(
            {"assumed": "tolerance +-0.5 % assumed"}.get(row.tolerance_status, f"tolerance {row.tolerance_status}")
        )
    if row.further_mm is not None and row.apart_mm is not None:
        further, apart = (format_length(size, units, fraction=False) for size in (row.further_mm, row.apart_mm))
        parts.append(f"narrows to {further} at {apart} below the mouth")
    return "; ".join(part for part in parts if part)
