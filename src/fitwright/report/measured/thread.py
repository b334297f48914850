"""`measure thread`: which threads fit the readings, what tells them apart, and the hole for the bolt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.data.threads import ThreadRow, all_threads
from fitwright.measure.thread import WEIGHTS, Candidate, Judged, Kind, ThreadReadings, What, judge, nearest
from fitwright.measure.thread_next import next_readings
from fitwright.report.measured import thread_words as words
from fitwright.report.measured.answer import Answer
from fitwright.report.measured.thread_hole import clear_hole, tapped_words, yaml_of
from fitwright.report.measured.thread_table import table
from fitwright.spec.grammar.measuring.thread import ThreadKeys
from fitwright.spec.measure_file import Asked
from fitwright.units import Units

SURE, POSSIBLE, RIVAL = 0.9, 0.05, 0.02
"""A share from which a thread is called by name alone; one from which it is still in question; the same once the pitch
is read: a worn M5 that is taken for a No. 10 costs more than trying a nut. Weighed on simulated readings, no source."""
SURE_SD = 2.5
"""Further off than this, a thread is called likely at the most."""
MOST_LINES = 6


@dataclass(frozen=True)
class Found:
    """The readings beside all threads; `leading` are those still in question, the likeliest first."""

    readings: ThreadReadings
    judged: list[Judged]
    leading: list[Judged]
    rows: dict[str, ThreadRow]

    @property
    def leading_rows(self) -> list[ThreadRow]:
        """The tables' rows of those still in question."""
        return [self.rows[one.candidate.name] for one in self.leading]

    @property
    def sure(self) -> bool:
        """True where one thread is left and its pitch was read."""
        first = self.leading[0]
        near = first.share >= SURE and first.off_sd <= SURE_SD
        return bool(self.readings.pitches) and len(self.leading) == 1 and near


def answer(asked: Asked) -> Answer:
    """The ranked threads, a verdict, the decisive test, the hole and the words for a part's YAML."""
    keys = asked.keys
    assert isinstance(keys, ThreadKeys)
    found = find(readings_of(keys), keys.what)
    units = asked.context.units
    head = (f"{keys.label}: " if keys.label else "") + words.what_was_read(found.readings, units)
    if not found.leading:
        close = nearest(found.judged, 3)
        rows = [found.rows[one.candidate.name] for one in close]
        listed = table(close, rows, found.readings, units, shares=False)
        text = words.nothing_fits(close, rows, found.judged, found.readings, units)
        return Answer(f"{head}\n\n{listed}\n\n{text}", good=False)
    parts = [head, _table(found, units), *_verdict(found, units)]
    hole, yaml, good = _hole(found, keys.hole, units)
    return Answer("\n\n".join([*parts, hole]), yaml, good)


def readings_of(keys: ThreadKeys) -> ThreadReadings:
    """What the keys say, as readings."""
    pitches = tuple(read for read in (keys.pitch, keys.gauge()) if read is not None)
    if keys.outside is not None:
        return ThreadReadings("outside", keys.outside, pitches, keys.tapers, keys.worn)
    assert keys.inside is not None  # the grammar asks for one of the two
    return ThreadReadings("inside", keys.inside, pitches, keys.tapers, keys.worn)


def find(readings: ThreadReadings, what: What | None = None) -> Found:
    """All threads of the tables beside the readings."""
    rows, candidates = {}, []
    for row in all_threads():
        limits = row.outside_mm if readings.face == "outside" else row.inside_mm
        if limits:
            rows[row.name] = row
            common = row.commonness * (WEIGHTS[what][_kind(row)] if what else 1.0)
            candidates.append(Candidate(row.name, *limits, row.pitch_mm, row.taper, common))
    judged = judge(candidates, readings)
    fitting = [one for one in judged if one.fits]
    least = RIVAL if readings.pitches else POSSIBLE
    return Found(readings, judged, [one for one in fitting if one.share >= least] or fitting[:1], rows)


def _kind(row: ThreadRow) -> Kind:
    if row.is_pipe:
        return "pipe"
    return "coarse" if row.series in ("coarse", "UNC") else "fine"


def _table(found: Found, units: Units) -> str:
    shown = [one for one in found.judged if one in found.leading or one.share >= 0.005][:MOST_LINES]
    if len(shown) < 3:
        shown = found.judged[:3]
    return table(shown, [found.rows[one.candidate.name] for one in shown], found.readings, units)


def _verdict(found: Found, units: Units) -> Sequence[str]:
    rows = found.leading_rows
    following = [] if found.sure else next_readings(found.leading, found.readings)
    said = words.verdict(rows, found.sure, found.readings, following)
    notes = words.notes(found.leading, rows, found.readings, units)
    tests = "" if found.sure else words.tests(found.leading, rows, following, found.readings, units)
    return [text for text in ("\n".join([said, *notes]), tests) if text]


def _hole(found: Found, wanted: str, units: Units) -> tuple[str, str, bool]:
    """What to drill in words, the lines for the YAML, and whether the wish can be met."""
    rows = found.leading_rows
    if wanted == "tapped":
        return tapped_words(rows, found.sure, units), "", found.sure
    hole = clear_hole(rows)
    text = words.clearance(hole, rows, units)
    if not found.sure:
        text += "\ntapped hole or nut: " + words.not_before(rows, found.readings)
    return text, yaml_of(hole) if hole else "", True
