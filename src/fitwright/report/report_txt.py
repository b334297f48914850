"""report.txt: one page for the person who prints and fits the part."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping

from fitwright.report.checked import table
from fitwright.report.cut_list import piece_words
from fitwright.report.findings import finding_lines, verdict
from fitwright.report.model import BodyReport, Report
from fitwright.report.paper_txt import bought_line
from fitwright.report.wording import in_units
from fitwright.units import format_length, format_mass, format_volume

_WIDTH = 88
_UNIT = re.compile(r"(?<=\d) (?=(?:mm2?|cm3|in3?|g|oz|m|deg|hours?|minutes|C)\b|%)")

_USES = {"fit_gauge": "How to use it", "flange_plate": "What it is", "gate_bracket": "How it moves"}


def report_txt(report: Report) -> bytes:
    """UTF-8 text in the file's units; sections without content are left out."""
    bad = [f for f in report.worst_first if f.severity != "pass"]
    sections = [
        _title(report),
        _section("What to mend or mind", (line for f in bad for line in finding_lines(f, report.units, _WIDTH))),
        _section("Print", _print(report)),
        _section("Cut", _cut(report)),
        _section("Buy and cut", (line for one in report.hardware for line in _wrapped(bought_line(one, report.units)))),
        _section(_USES.get(report.family, "How it fits, holds and seals"), _fits(report)),
        _section("Checked on the finished part", _table(table(report.findings, report.units))),
        _section("Filled in (write the key to change it)", _assumed(report)),
        _section("Notes", (line for note in report.notes for line in _wrapped(in_units(note, report.units)))),
        _section("Files", _wrapped(_files(report)) if report.files else []),
        _section(
            "Take care", (line for caution in report.cautions for line in _wrapped(in_units(caution, report.units)))
        ),
    ]
    return ("\n\n".join(section for section in sections if section) + "\n").encode()


def _title(report: Report) -> str:
    words = f"{report.part}: {report.family.replace('_', ' ')}, {_made(report)}"
    lines = [*textwrap.wrap(words, _WIDTH), *textwrap.wrap(verdict(report), _WIDTH)]
    if report.forced:
        lines += textwrap.wrap("WRITTEN ALTHOUGH A CHECK BLOCKS IT: the files are not proved to fit.", _WIDTH)
    return "\n".join(lines)


def _made(report: Report) -> str:
    """`PETG on generic_220`, and what is cut from what."""
    printed = [f"{report.material} on {report.printer}"] if report.printed else []
    sheets = list(dict.fromkeys(f"{cut.words} {cut.thickness_mm:g} mm" for body in report.bodies if (cut := body.cut)))
    return "; ".join([*printed, *([in_units(f"cut from {' and '.join(sheets)}", report.units)] if sheets else [])])


def _section(heading: str, lines: Iterable[str]) -> str:
    content = list(lines)
    return "\n".join([heading.upper(), *content]) if content else ""


def _print(report: Report) -> Iterator[str]:
    """The template on paper, the try-print, then the part itself, then how to set the printer."""
    paper = f"{report.part}_template.pdf"
    if paper in report.files:
        yield from _wrapped(f"on paper {paper}: at 100 %, measure its bar, hold it against the real thing")
    tries = [
        f"{one.file} ({', '.join(one.pieces)}; {format_mass(one.mass_g, report.units)}, roughly {one.time})"
        for one in report.tries
    ]
    if tries:
        yield from _wrapped(f"first {' and '.join(tries)}: try it on the real parts before the long print")
    if report.plate:
        takes = f"{format_mass(report.plate.mass_g, report.units)}, roughly {report.plate.time}"
        yield from _wrapped(
            f"{report.plate.file}, all {len(report.plate.pieces)} pieces in one go: {takes}; or singly:"
        )
    if not report.printed:
        yield "  nothing to print: see below what is cut"
    for body in report.printed:
        yield from _wrapped(in_units(_body(body, report), report.units))
    if report.settings:
        yield from _wrapped(f"set {report.settings}; {_support(report)}")


def _cut(report: Report) -> Iterator[str]:
    """Each piece that is cut from sheet: its DXF, sheet, cuts, weight; then the list for the bench."""
    for body in report.bodies:
        if body.cut is None:
            continue
        stem = _stem(body, report)
        named = f"{stem}.dxf" if f"{stem}.dxf" in report.files else f"{stem}: no file is written"
        words = "; ".join(piece_words(body.cut, body.mass_g, report.units))
        yield from _wrapped(in_units(f"{named}: {words}", report.units))
    file = f"{report.part}_cut_list.txt"
    if file in report.files and len(report.printed) < len(report.bodies):
        yield from _wrapped(f"{file}: the same to tick off, and what to measure when it comes back")


def _stem(body: BodyReport, report: Report) -> str:
    return report.part if len(report.bodies) == 1 else f"{report.part}_{body.name}"


def _support(report: Report) -> str:
    hanging = [
        f for f in report.findings if f.code in ("printing.overhang", "printing.island") and f.severity != "pass"
    ]
    needed = any("needs support" in f.message or f.code == "printing.island" for f in hanging)
    return "support where `What to mend or mind` says" if needed else "no support"


def _body(body: BodyReport, report: Report) -> str:
    """File, size as it lies in the part's own directions, what it takes."""
    size = " x ".join(format_length(length, "mm", unit=False) for length in body.bbox_mm)
    costs = (f.message for f in report.findings if f.code == "printing.cost" and f.body == body.name)
    takes = next(costs, f"{format_mass(body.mass_g, report.units)} of {report.material}")
    stem = _stem(body, report)
    file = f"{stem}.stl"
    then = "then " if report.tries else ""
    named = f"{then}{file}" if file in report.files else f"{stem}: no file is written"
    lies = f", {body.lies}" if body.lies else ""
    volume = format_volume(body.volume_mm3, report.units)
    return f"{named}{lies}: {takes}; {size} mm (right x away x up), {volume}"


def _fits(report: Report) -> Iterator[str]:
    """Each end: how it fits, holds and seals, and what is left to do; then the rest of what is worth knowing."""
    fits = [f for f in report.findings if f.code == "fit.result" and f.severity == "pass"]
    ends = dict.fromkeys(key.partition(" ")[0] for key in report.facts if key.startswith("end_"))
    for end in ends:
        words = _end(end, [f.message for f in fits if f.place.partition(".")[0] == end], report.facts)
        yield from _wrapped(in_units(words, report.units))
    for finding in fits:
        if finding.place.partition(".")[0] not in ends and report.family != "flange_plate":
            yield from _wrapped(in_units(finding.message, report.units))
    for key, text in report.facts.items():
        if key.partition(" ")[0] not in ends:
            yield from _wrapped(in_units(f"{key}: {text}", report.units))


def _end(end: str, fits: list[str], facts: Mapping[str, str]) -> str:
    """A fit that passes says by itself what holds and seals; without one the fact says it."""
    held, todo, own = (
        facts.get(f"{end} {what}", "") for what in ("holds and seals", "at the bench", "from your prints")
    )
    said = [
        *(fits or [f"{end} holds and seals: {held}"]),
        *(words[0].upper() + words[1:] for words in (todo, own) if words),
    ]
    return ". ".join(said)


def _table(rows: list[tuple[str, str]]) -> Iterator[str]:
    wide = max((len(words) for words, _ in rows), default=0) + 2
    for words, found in rows:
        yield from _wrapped(found, f"  {words:<{wide}}", " " * (wide + 2))


def _assumed(report: Report) -> list[str]:
    """Grouped by what they belong to, several a line: they are many, and most are what one would expect."""
    groups: dict[str, list[str]] = {}
    for key, text in report.assumed.items():
        holder, _, last = key.rpartition(".")
        groups.setdefault(holder, []).append(f"{last} {in_units(text, report.units)}")
    return [line for holder, said in groups.items() for line in _wrapped(_group(holder, said))]


def _group(holder: str, said: list[str]) -> str:
    words = ", ".join(said)
    return f"{holder}: {words}" if holder else words


def _files(report: Report) -> str:
    meaning: Mapping[str, str] = {
        ".step": "for CAD",
        ".dxf": "to cut",
        ".json": "for programs",
        ".png": "picture",
        ".pdf": "1:1",
    }
    named = []
    for file in report.files:
        words = next((words for ending, words in meaning.items() if file.endswith(ending)), "")
        named.append(f"{file} ({words})" if words else file)
    return ", ".join(named)


def _wrapped(text: str, first: str = "  ", later: str = "    ") -> list[str]:
    """Lines of at most _WIDTH; a number stays with its unit."""
    kept = _UNIT.sub("\u00a0", text)
    lines = textwrap.wrap(
        kept, _WIDTH, initial_indent=first, subsequent_indent=later, break_long_words=False, break_on_hyphens=False
    )
    return [line.replace("\u00a0", " ") for line in lines]
