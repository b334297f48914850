"""A bench for the thread finder: threads as they are bought, worn and plated, read with a caliper by hand.

It scatters by the same figures that the finder believes (none of them measured on real bolts), so it shows what the
method can tell apart if those are true; `rough` shows what is left of that if the hand is worse.
"""

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
    rough: float = 1.0
    """How much more the hand scatters than the finder believes."""

    def read(self, row: ThreadRow, rng: random.Random) -> Found:
        """One bolt of this thread, read once by this bench, and what the finder says of it."""
        limits = row.outside_mm if self.face == "outside" else row.inside_mm
        assert limits
        crest = self._crest(*limits, rng) + rng.gauss(0, self.rough * CALIPER_MM)
        diameters = tuple(
            round(crest + rng.gauss(0, self.rough * CREST_MM[self.face]), 2) for _ in range(self.diameters)
        )
        pitches: tuple[PitchReading, ...] = ()
        if self.over_threads:
            n = self.over_threads
            pitch = round(n * row.pitch_mm + rng.gauss(0, self.rough * LENGTH_MM), 1) / n
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


@dataclass(frozen=True)
class Rates:
    """Shares of runs in which the thread comes first; is among those named; is called sure; another is called sure."""

    first: float
    named: float
    sure: float
    wrong: float


def rates(name: str, bench: Bench, runs: int = 400, seed: int = 1) -> Rates:
    """How often the finder is right about this thread, read by this bench."""
    rng = random.Random(f"{seed} {name}")
    first = named = sure = wrong = 0
    for _ in range(runs):
        found = bench.read(ROWS[name], rng)
        right = found.judged[0].candidate.name == name
        called = bool(found.leading) and found.sure
        first += right
        named += any(one.candidate.name == name for one in found.leading)
        sure += right and called
        wrong += called and not right
    return Rates(first / runs, named / runs, sure / runs, wrong / runs)
