"""The parts of one file side by side: where each leads, its passage at both ends, and how much it narrows."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from fitwright.report.model import Report
from fitwright.spec.models import AdapterSpec, End
from fitwright.units import Units, format_area

_PASSAGE = re.compile(r"([\d.]+) mm at (end_[ab])")


def set_table(parts: Iterable[tuple[AdapterSpec, Report]]) -> str:
    """A table of text without a trailing newline, areas in the units of the first part's file; "" for no parts."""
    listed = list(parts)
    if not listed:
        return ""
    units = listed[0][0].units
    cells = [("part", "end_a", "area", "end_b", "area", "end_b / end_a"), *(_row(s, r, units) for s, r in listed)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(cells[0]))]
    return "\n".join(
        "  " + "  ".join(text.ljust(w) for text, w in zip(row, widths, strict=True)).rstrip() for row in cells
    )


def _row(spec: AdapterSpec, report: Report, units: Units) -> tuple[str, ...]:
    areas = passages_mm2(report)
    known = "end_a" in areas and "end_b" in areas
    ratio = f"{areas['end_b'] / areas['end_a']:.2f}" if known else ""
    said = {end: format_area(area, units) for end, area in areas.items()}
    return report.part, _end(spec.end_a), said.get("end_a", ""), _end(spec.end_b), said.get("end_b", ""), ratio


def passages_mm2(report: Report) -> dict[str, float]:
    """Area of the passage at each end [mm2], from what the part says of itself; {} where it says nothing."""
    found = _PASSAGE.findall(report.facts.get("passage", ""))
    return {end: math.pi / 4 * float(d) ** 2 for d, end in found}


def _end(end: End) -> str:
    kind = end.kind.replace("_", " ")
    return f"{end.label} ({kind})" if end.label else kind
