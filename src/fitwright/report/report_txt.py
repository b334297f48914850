"""report.txt: one page for the person who prints and fits the part."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping

from fitwright.finding import Finding
from fitwright.report.findings import finding_lines, verdict
from fitwright.report.model import BodyReport, Report
from fitwright.report.wording import in_units
from fitwright.units import Units, format_length, format_mass, format_volume

_WIDTH = 88


def report_txt(report: Report) -> bytes:
    """UTF-8 text in the file's units; sections without content are left out."""
    bad = [f for f in report.worst_first if f.severity != "pass"]
    good = [f for f in report.findings if f.severity == "pass"]
    sections = [
        _title(report),
        _section("What to mend or mind", (line for f in bad for line in finding_lines(f, report.units, _WIDTH))),
        _section("What it is", (line for body in report.bodies for line in _body(body, report))),
        _section("How it is made, holds and seals", _pairs(report.facts, report.units)),
        _section("Proved on the finished part", (line for f in good for line in _proved(f, report.units))),
        _section("Filled in because the file does not say", _assumed(report)),
        _section("Files", _wrapped(", ".join(report.files)) if report.files else []),
        _section("Notes", (line for note in report.notes for line in _wrapped(in_units(note, report.units)))),
        _section(
            "Take care", (line for caution in report.cautions for line in _wrapped(in_units(caution, report.units)))
        ),
    ]
    return ("\n\n".join(section for section in sections if section) + "\n").encode()


def _title(report: Report) -> str:
    words = f"{report.part}: {report.family.replace('_', ' ')}, {report.material} on {report.printer}"
    lines = [*textwrap.wrap(words, _WIDTH), *textwrap.wrap(verdict(report), _WIDTH)]
    if report.forced:
        lines += textwrap.wrap("WRITTEN ALTHOUGH A CHECK BLOCKS IT: the files are not proved to fit.", _WIDTH)
    return "\n".join(lines)


def _section(heading: str, lines: Iterable[str]) -> str:
    content = list(lines)
    return "\n".join([heading, "-" * len(heading), *content]) if content else ""


def _body(body: BodyReport, report: Report) -> list[str]:
    size = " x ".join(format_length(length, report.units, fraction=False, unit=False) for length in body.bbox_mm)
    volume, mass = format_volume(body.volume_mm3, report.units), format_mass(body.mass_g, report.units)
    words = f"{body.name}: {size} {report.units} (right x away x up), {volume}, {mass} of {report.material}"
    return _wrapped(f"{words}; prints {body.lies}" if body.lies else words)


def _proved(finding: Finding, units: Units) -> list[str]:
    return _wrapped(f"{finding.code}: {in_units(finding.message, units)}")


def _assumed(report: Report) -> list[str]:
    """All in one paragraph: they are many and most of them are what one would expect."""
    words = "; ".join(f"{key}: {in_units(text, report.units)}" for key, text in report.assumed.items())
    return _wrapped(words) if words else []


def _pairs(pairs: Mapping[str, str], units: Units) -> list[str]:
    return [line for key, text in pairs.items() for line in _wrapped(f"{key}: {in_units(text, units)}")]


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent="  ", subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
    )
