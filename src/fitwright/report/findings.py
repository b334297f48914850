"""A part's findings as lines for the terminal: what blocks and what warns, each with its cure, and how much passed."""

from __future__ import annotations

import textwrap

from fitwright.finding import Finding
from fitwright.report.model import Report
from fitwright.report.wording import in_units, numbers
from fitwright.units import Units

WIDTH = 100
_WORD = {"fail": "BLOCKS", "warn": "warns", "pass": "passes"}


def terminal_text(report: Report) -> str:
    """Several lines without a trailing newline; passes are only counted."""
    lines = [f"{report.part} ({report.family.replace('_', ' ')}): {verdict(report)}"]
    for finding in report.worst_first:
        if finding.severity != "pass":
            lines += finding_lines(finding, report.units, WIDTH)
    lines += [f"  note: {note}" for note in report.notes]
    return "\n".join(lines)


def verdict(report: Report) -> str:
    """One clause on the whole part."""
    count = {severity: sum(f.severity == severity for f in report.findings) for severity in ("fail", "warn", "pass")}
    passed = _counted(count["pass"], "check") + " passed"
    warned = f", {_counted(count['warn'], 'warning')}" if count["warn"] else ""
    if not count["fail"]:
        return f"{_good_to(report)}, {passed}{warned}"
    written = "written all the same, as asked" if report.forced else "not exported"
    return f"{count['fail']} to mend, {written}; {passed}{warned}"


def _good_to(report: Report) -> str:
    if len(report.printed) == len(report.bodies):
        return "good to print"
    return "good to print and to cut" if report.printed else "good to cut, nothing to print"


def finding_lines(finding: Finding, units: Units, width: int) -> list[str]:
    """`  BLOCKS wall, end_a: what was found (is 1.9 mm, limit 2.4 mm)` and its cure on a line of its own."""
    measured = numbers(finding, units)
    place = f", {finding.place}" if finding.place else ""
    words = in_units(f"{_WORD[finding.severity]} {finding.code}{place}: {finding.message}", units)
    lines = _wrapped(f"{words} ({measured})" if measured else words, "  ", "    ", width)
    if finding.advice:
        lines += _wrapped(f"-> {in_units(finding.advice, units)}", "    ", "       ", width)
    return lines


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _wrapped(text: str, first: str, later: str, width: int) -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent=first, subsequent_indent=later, break_long_words=False, break_on_hyphens=False
    )
