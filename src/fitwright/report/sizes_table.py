"""Sizes of pipes, hoses and ducts as a table of plain text."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.data.sizes import Face, SizeRow
from fitwright.report.wording import in_units
from fitwright.units import Units, format_length

HEAD = ("series", "nominal", "outside", "wall", "inside", "status", "note")


def cli_table(rows: Sequence[SizeRow], units: Units = "mm") -> str:
    """The rows under a head, lengths in `units` with their least and greatest, no trailing newline or blanks."""
    if not rows:
        return "no size found"
    cells = [tuple(f"{word} [{units}]" if word in HEAD[2:5] else word for word in HEAD)]
    cells += [_cells(row, units) for row in rows]
    widths = [max(len(line[column]) for line in cells) for column in range(len(HEAD))]
    return "\n".join("  ".join(text.ljust(w) for text, w in zip(line, widths, strict=True)).rstrip() for line in cells)


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
