"""A sheet of text that goes with a part (a commissioning sheet), and the lines of what is bought for it."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator

from fitwright.mechanism import Bought, Paper
from fitwright.report.wording import in_units
from fitwright.units import Units, format_length

_WIDTH = 88
_METRIC = re.compile(r"\bM\d")


def paper_txt(paper: Paper, units: Units) -> bytes:
    """UTF-8 text in the file's units: the title, then each section under its heading."""
    lines = [*textwrap.wrap(in_units(paper.title, units), _WIDTH)]
    for heading, said in paper.sections:
        lines += ["", heading.upper(), *(line for one in said for line in _wrapped(in_units(one, units)))]
    return ("\n".join(lines) + "\n").encode()


def bought_line(one: Bought, units: Units) -> str:
    """`2 x threaded rod M8, cut to 212 mm (note)`; a metric screw is called by its mm everywhere: `M5 x 45`."""
    long = ""
    if one.long_mm is not None and not one.cut and _METRIC.search(one.what):
        long = f" x {one.long_mm:g}"
    elif one.long_mm is not None:
        long = f"{', cut to' if one.cut else ' x'} {format_length(one.long_mm, units)}"
    there = "" if one.needed else "; it is there already"
    note = f" ({in_units(one.note, units)})" if one.note else ""
    return f"{one.count} x {in_units(one.what, units)}{long}{note}{there}"


def _wrapped(text: str) -> Iterator[str]:
    yield from textwrap.wrap(
        text, _WIDTH, initial_indent="  ", subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
    )
