"""The parts of one file side by side: where each leads, its passage at both ends, and how much it narrows."""

from __future__ import annotations

import math
from collections.abc import Iterable

from fitwright.report.model import Report
from fitwright.spec.models import End, PartBase
from fitwright.units import Units, format_area


def set_table(parts: Iterable[tuple[PartBase, Report]]) -> str:
    """A table of text without a trailing newline, areas in the units of the first part's file; "" for no parts.

    All parts have ends.
    """
    listed = list(parts)
    if not listed:
        return ""
    units = listed[0][0].units
    cells = [("part", "end_a", "area", "end_b", "area", "end_b / end_a"), *(_row(s, r, units) for s, r in listed)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(cells[0]))]
    return "\n".join(
        "  " + "  ".join(text.ljust(w) for text, w in zip(row, widths, strict=True)).rstrip() for row in cells
    )


def _row(spec: PartBase, report: Report, units: Units) -> tuple[str, ...]:
    areas = {end: math.pi / 4 * d * d for end, d in report.passages_mm.items()}
    known = "end_a" in areas and "end_b" in areas
    ratio = f"{areas['end_b'] / areas['end_a']:.2f}" if known else ""
    said = {end: format_area(area, units) for end, area in areas.items()}
    return (
        report.part,
        _end(spec.ends["end_a"]),
        said.get("end_a", ""),
        _end(spec.ends["end_b"]),
        said.get("end_b", ""),
        ratio,
    )


def _end(end: End) -> str:
    kind = end.kind.replace("_", " ")
    return f"{end.label} ({kind})" if end.label else kind
