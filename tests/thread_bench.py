"""A bench for the thread finder: threads as they are bought, worn and plated, read with a caliper by hand."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import Literal

from fitwright.data.threads import ThreadRow, all_threads
from fitwright.measure.thread import PitchReading, ThreadReadings
from fitwright.report.measured.thread import Found, find

CALIPER_MM, LENGTH_MM = 0.02, 0.1
CREST_MM = {"outside": 0.045, "inside": 0.065}
"""Scatter (one sd) of the caliper, of a length over crests, of one reading of crests: common practice, no source."""
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
    face: Literal["outside", "inside"] = "outside"

    def read(self, row: ThreadRow, rng: random.Random) -> Found:
        """One bolt of this thread, read once by this bench, and what the finder says of it."""
        limits = row.outside_mm if self.face == "outside" else row.inside_mm
        assert limits
        crest = self._crest(*limits, rng) + rng.gauss(0, CALIPER_MM)
        diameters = tuple(round(crest + rng.gauss(0, CREST_MM[self.face]), 2) for _ in range(self.diameters))
        pitches: tuple[PitchReading, ...] = ()
        if self.over_threads:
            n = self.over_threads
            pitch = round(n * row.pitch_mm + rng.gauss(0, LENGTH_MM), 1) / n
            pitches = (PitchReading(pitch, pitch, LENGTH_MM / n),)
        seen = (row.taper > 0) if self.taper else None
        return find(ThreadReadings(self.face, diameters, pitches, seen, self.say_worn))

    def _crest(self, low: float, high: float, rng: random.Random) -> float:
        """Wear makes a bolt smaller and a nut larger; plating the other way round."""
        if self.state == "new":
            return rng.uniform(low, high)
        far = 0.15 if self.state == "worn" else 0.03
        smaller = (self.state == "worn") == (self.face == "outside")
        return rng.uniform(low - far, low) if smaller else rng.uniform(high, high + far)


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
