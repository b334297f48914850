"""A bench for the thread finder: threads as they are bought, worn and plated, read with a caliper by hand."""

from __future__ import annotations

import random
from dataclasses import dataclass

from fitwright.data.threads import ThreadRow, all_threads
from fitwright.measure.thread import PitchReading, ThreadReadings
from fitwright.report.measured.thread import Found, find

CALIPER_MM, CREST_MM, LENGTH_MM = 0.02, 0.045, 0.1
"""Scatter (one sd) of the caliper, of one reading over crests, of a length over crests: common practice, no source."""
ROWS = {row.name: row for row in all_threads()}


@dataclass(frozen=True)
class Bench:
    """How a thread is read: how many diameters, over how many threads (0: pitch not read), whether taper is looked at.

    `state` is new (anywhere in tolerance), worn (up to 0.15 mm under it) or plated (up to 0.03 mm over it).
    """

    diameters: int = 1
    over_threads: int = 10
    taper: bool = False
    state: str = "new"
    say_worn: bool = False

    def read(self, row: ThreadRow, rng: random.Random) -> Found:
        """One bolt of this thread, read once by this bench, and what the finder says of it."""
        assert row.outside_mm
        low, high = row.outside_mm
        crest = {
            "new": rng.uniform(low, high),
            "worn": rng.uniform(low - 0.15, low),
            "plated": rng.uniform(high, high + 0.03),
        }[self.state] + rng.gauss(0, CALIPER_MM)
        diameters = tuple(round(crest + rng.gauss(0, CREST_MM), 2) for _ in range(self.diameters))
        pitches: tuple[PitchReading, ...] = ()
        if self.over_threads:
            n = self.over_threads
            pitch = round(n * row.pitch_mm + rng.gauss(0, LENGTH_MM), 1) / n
            pitches = (PitchReading(pitch, pitch, LENGTH_MM / n),)
        seen = (row.taper > 0) if self.taper else None
        return find(ThreadReadings("outside", diameters, pitches, seen, self.say_worn))


def rates(name: str, bench: Bench, runs: int = 400, seed: int = 1) -> tuple[float, float, float]:
    """Shares of runs in which the thread comes first; is called sure, rightly; something else is called sure."""
    rng = random.Random(f"{seed} {name}")
    first = sure = wrong = 0
    for _ in range(runs):
        found = bench.read(ROWS[name], rng)
        right = found.judged[0].candidate.name == name
        first += right
        named_sure = bool(found.leading) and found.sure
        sure += right and named_sure
        wrong += named_sure and not right
    return first / runs, sure / runs, wrong / runs
