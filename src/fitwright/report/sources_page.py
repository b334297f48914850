"""The page that says where every number of our tables comes from, drawn from the tables themselves."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from fitwright.data import tables
from fitwright.data.tables import STATUSES, Table

PAGE = Path("docs") / "sources.md"

_INTRODUCTION = """\
# Sources

Every table lies in `src/fitwright/data/` as a CSV file whose first lines say where it comes from. This page is
generated from those lines by `python -m fitwright.report.sources_page`; a test keeps it up to date.

A row is **confirmed** where its numbers were read in a source, **derived** where they were calculated from confirmed
numbers, **memory** where they are only remembered, and **common practice** where the trade does so and no source was
found. Tolerances have a status of their own; `assumed` means +-0.5 %. A size that is only remembered warns where no
reading stands beside it: measure what you can.
"""

_HEADINGS = (
    ("pipes/", "Pipes, hoses and ducts"),
    ("screws/", "Screws"),
    ("fits/", "Limits and fits"),
    ("threads/", "Threads"),
    ("nuts/", "Nuts"),
    ("cylinders/", "Air cylinders"),
    ("air/duct_", "Air in ducts"),
    ("air/", "Air tubes and fittings"),
    ("", "Rods, spanners, sheets, woods, hoses carried, printers, filaments and words"),
)


def sources_markdown() -> str:
    """The page as markdown, with a trailing newline."""
    parts = [_INTRODUCTION]
    left = list(tables.NAMES)
    for start, heading in _HEADINGS:
        names = [name for name in left if name.startswith(start)]
        left = [name for name in left if name not in names]
        parts.append(f"## {heading}\n")
        parts += [_entry(tables.load(name)) for name in names]
    return "\n".join(parts)


def write_page(root: Path) -> Path:
    """Write docs/sources.md below the project's root; returns its path."""
    path = root / PAGE
    path.write_text(sources_markdown(), encoding="utf-8")
    return path


def _entry(table: Table) -> str:
    lines = [f"### {table.head['title']}", "", f"- file: `data/{table.name}.csv`, {len(table.rows)} rows"]
    lines += [
        f"- {key}: {_linked(table.head[key])}" for key in ("source", "url", "checked", "notes") if table.head[key]
    ]
    lines.append(f"- rows: {_counts(table, 'status')}")
    if "tolerance_status" in table.columns:
        lines.append(f"- tolerances: {_counts(table, 'tolerance_status')}")
    return "\n".join(lines) + "\n"


def _linked(text: str) -> str:
    return f"<{text}>" if text.startswith("https://") else text


def _counts(table: Table, column: str) -> str:
    count = Counter(row.text(column) for row in table.rows)
    return ", ".join(f"{count[status]} {status}" for status in (*STATUSES, "assumed") if count[status])


if __name__ == "__main__":
    write_page(Path.cwd())
