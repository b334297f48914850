"""`measure: thread`: a bolt, nut, fitting or rod of unknown thread, from its diameter, pitch and taper."""

from __future__ import annotations

import re
import statistics
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.measure.thread import PitchReading
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, best_form, gather, under
from fitwright.spec.grammar.measuring.base import MeasureKeys
from fitwright.spec.grammar.values import Context, Count, Length, Number, Words, YesNo
from fitwright.spec.nodes import Value
from fitwright.units import MM_PER_INCH, UnitError, format_number, parse_number

DIAMETER = Length(1.1, 36.0)
"""From the bore of No. 0 to the outside of a 1 in pipe thread."""
MAX_READINGS = 50
SPREAD_MM, SPREAD_TAPER_MM = 0.3, 1.5
"""Readings of one straight thread, and of a taper one along its length, that differ by more hold a slip."""
LEAST_PITCH_MM, MOST_PITCH_MM = 0.2, 5.0
LEAST_PER_INCH, MOST_PER_INCH = 5.0, 100.0
RULE_SD_MM = 0.1
"""One pitch with a rule, or a length over many, is good to 0.1 mm (common practice, no source)."""
LEAVES = (7, 8, 9, 10, 11, 11.5, 12, 13, 14, 16, 18, 19, 20, 22, 24, 26, 27, 28, 30, 32, 36, 40, 44, 48, 56, 64, 72, 80)
"""Threads per inch that a gauge's leaves have."""
LEAVES_MM = (0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5)
"""Pitches [mm] that a gauge's leaves have."""
CONTRADICTS_SD = 3.0
LEAF_MM = 10.0
"""Length of a gauge's leaf: it fits where its last crest is within a quarter pitch of the thread's."""


@dataclass(frozen=True)
class _Pitch(Length):
    def range_hint(self, text: str, number: float, context: Context) -> str:
        """Threads per inch written for a pitch."""
        said = _plain(text)
        if said is not None and LEAST_PER_INCH < said <= MOST_PER_INCH:
            return f"did you mean per_inch: {format_number(said, 2)}?"
        return super().range_hint(text, number, context)


@dataclass(frozen=True)
class _PerInch(Number):
    def form(self, context: Context) -> str:
        return "threads per inch"

    def range_hint(self, text: str, number: float, context: Context) -> str:
        """A pitch in mm written for threads per inch."""
        return f"did you mean pitch: {number:g} mm?" if LEAST_PITCH_MM <= number <= MOST_PITCH_MM else ""


PITCH = _Pitch(LEAST_PITCH_MM, MOST_PITCH_MM)


class OverThreads(Grammar):
    """A length over several crests, as a pitch is best measured."""

    example: ClassVar[str] = "{over: 12.5, threads: 10}"
    over: Annotated[float, Length(1.0, 200.0)] = Field(
        description="The length from a crest to the one so many threads on, in the file's units."
    )
    threads: Annotated[int, Count(2, 100)] = Field(
        description="How many threads on: count the first crest as 0. A whole number."
    )


class GaugeLeaf(Grammar):
    """The leaf of a metric thread gauge that fits."""

    example: ClassVar[str] = "{gauge: 1.25}"
    gauge: Annotated[float, PITCH] = Field(description="The pitch that stands on the leaf, in the file's units.")

    def meant_as(self) -> PitchReading:
        """The pitch is within half a step to the next leaves, and no further off than the leaf would show."""
        most = self.gauge**2 / (4 * LEAF_MM)
        below = max((leaf for leaf in LEAVES_MM if leaf < self.gauge), default=0.0)
        above = min((leaf for leaf in LEAVES_MM if leaf > self.gauge), default=2 * self.gauge)
        least, greatest = (self.gauge + below) / 2, (self.gauge + above) / 2
        return _leaf(max(least, self.gauge - most), min(greatest, self.gauge + most))


def read_pitch(value: object, context: Context) -> PitchReading:
    """One pitch, a length over some threads, or a gauge's leaf."""
    if not isinstance(value, dict):
        return _one_pitch(value, context)
    if best_form(value, {"gauge": GaugeLeaf, "over": OverThreads, "threads": OverThreads}) is GaugeLeaf:
        return GaugeLeaf.read(value, context).meant_as()
    said = OverThreads.read(value, context)
    pitch = said.over / said.threads
    if not LEAST_PITCH_MM <= pitch <= MOST_PITCH_MM:
        found = f"{said.threads} threads over {PITCH.say(said.over, context)}: {PITCH.say(pitch, context)} a thread"
        raise FaultError([Fault(("over",), found, PITCH.allowed(context), "count the threads after the first crest")])
    return PitchReading(pitch, pitch, RULE_SD_MM / said.threads)


def _one_pitch(value: object, context: Context) -> PitchReading:
    if not isinstance(value, str):
        allowed = "one pitch (1.25), {over: 12.5, threads: 10} or {gauge: 1.25}"
        raise FaultError([Fault((), shown(value), allowed, "measure once, over several threads")])
    per_inch = re.fullmatch(r"([0-9.]+)\s*(?:tpi|(?:per|/)\s*in(?:ch)?)", value.strip(), re.IGNORECASE)
    if per_inch:
        raise FaultError([Fault((), shown(value), PITCH.allowed(context), f"write per_inch: {per_inch[1]}")])
    pitch = PITCH.read(value, context)
    assert pitch is not None  # PITCH has no `auto`
    return PitchReading(pitch, pitch, RULE_SD_MM)


def read_diameters(value: object, context: Context) -> tuple[float, ...]:
    """One reading, or a list of them."""
    if not isinstance(value, list):
        return (_diameter(value, context),)
    if not 1 <= len(value) <= MAX_READINGS:
        raise FaultError([Fault((), shown(value), f"1 to {MAX_READINGS} readings of one diameter")])
    return tuple(gather([under((i,), partial(_diameter, one, context)) for i, one in enumerate(value)]))


def _diameter(value: object, context: Context) -> float:
    if not isinstance(value, str):
        raise FaultError([Fault((), shown(value), "one reading (7.85) or a list of them ([7.82, 7.85])")])
    number = DIAMETER.read(value, context)
    assert number is not None  # DIAMETER has no `auto`
    return number


_Readings = Annotated[float, DIAMETER] | list[Annotated[float, DIAMETER]]
Diameters = Annotated[tuple[float, ...] | None, Forms(read_diameters, _Readings)]
PitchForms = Annotated[PitchReading | None, Forms(read_pitch, Annotated[float, PITCH] | OverThreads | GaugeLeaf)]


class ThreadKeys(MeasureKeys):
    """A thread whose name is not known: over its crests, or between those of a nut; its pitch; whether it tapers."""

    example: ClassVar[str] = "{measure: thread, outside: [7.82, 7.85], pitch: {over: 12.5, threads: 10}}"
    meant: ClassVar[Mapping[str, str]] = {
        "diameter": "write outside (over the crests of a bolt) or inside (between those of a nut)",
        "tpi": "write per_inch",
        "lead": "write pitch",
        "taper": "write tapers: yes or no",
    }
    measure: Annotated[Literal["thread"], Words(("thread",))] = Field(description="The kind: thread; no unit.")
    outside: Diameters = Field(
        None, description="Over the crests of a bolt, rod or male fitting, one reading or a list, in the file's units."
    )
    inside: Diameters = Field(
        None, description="Between the crests of a nut or tapped hole, one reading or a list, in the file's units."
    )
    pitch: PitchForms = Field(
        None,
        description=(
            "From crest to crest, in the file's units: one pitch, or the length over several crests as "
            "{over: 12.5, threads: 10}, or a thread gauge's leaf as {gauge: 1.25}."
        ),
    )
    per_inch: Annotated[float | None, _PerInch(LEAST_PER_INCH, MOST_PER_INCH)] = Field(
        None, description="Threads per inch, by a thread gauge or counted (a number without unit)."
    )
    tapers: Annotated[bool | None, YesNo()] = Field(
        None, description="Whether its diameter grows along its length, yes or no (no unit)."
    )
    worn: Annotated[bool, YesNo()] = Field(
        False, description="Whether its crests are worn, yes or no (no unit); no if absent."
    )
    what: Annotated[Literal["bolt", "fitting", "rod"] | None, Words(("bolt", "fitting", "rod"))] = Field(
        None, description="What it is on: bolt, fitting (air, water) or rod (of a cylinder); no unit."
    )
    hole: Annotated[Literal["clearance", "tapped"], Words(("clearance", "tapped"))] = Field(
        "clearance",
        description="The hole you are going to make for it: clearance or tapped; no unit, clearance if absent.",
    )

    @classmethod
    def from_words(cls, words: Sequence[str]) -> dict[str, Value]:
        """`outside=7.82,7.85` is a list; `over=12.5 threads=10` and `gauge=1.25` are the pitch."""
        made = super().from_words(words)
        for key in ("outside", "inside"):
            said = made.get(key)
            if isinstance(said, str) and "," in said:
                made[key] = _listed(key, said)
        parts: dict[str, Value] = {key: made.pop(key) for key in ("over", "threads", "gauge") if key in made}
        if parts and "pitch" in made:
            raise FaultError([Fault(("pitch",), "pitch= beside " + "= and ".join(parts) + "=", "one of the two")])
        return {**made, **({"pitch": parts} if parts else {})}

    def sense(self, context: Context) -> Iterator[Fault]:
        if (self.outside is None) == (self.inside is None):
            found = "nothing" if self.outside is None else "outside beside inside"
            allowed = "outside (over the crests of a bolt) or inside (between those of a nut)"
            hint = "add `outside:` or `inside:`" if self.outside is None else "a file each"
            yield Fault(("outside",), found, allowed, hint, at="key")
        for key in ("outside", "inside"):
            yield from _slip(key, getattr(self, key) or (), bool(self.tapers), context)
        gauge = self.gauge()
        if self.pitch and gauge and _contradict(self.pitch, gauge):
            pitch, per_inch = self.pitch.middle_mm, format_number(self.per_inch or 0, 2)
            found = f"{per_inch} per inch (a pitch of {format_number(MM_PER_INCH / (self.per_inch or 1), 3)} mm)"
            hint = "read both again, or delete one"
            yield Fault(("per_inch",), found, f"what agrees with the pitch of {format_number(pitch, 3)} mm", hint)

    def gauge(self) -> PitchReading | None:
        """What a leaf that fits says: the pitch is within half a step to the next leaves."""
        if self.per_inch is None:
            return None
        n = self.per_inch
        below = max((leaf for leaf in LEAVES if leaf < n), default=n - 1)
        above = min((leaf for leaf in LEAVES if leaf > n), default=n * 1.1)
        least, most = MM_PER_INCH / ((n + above) / 2), MM_PER_INCH / ((n + below) / 2)
        return _leaf(least, most)


def _leaf(least_mm: float, most_mm: float) -> PitchReading:
    """Evenly within the leaf's range, with edges blurred by a sixteenth of it (assumed, no source)."""
    return PitchReading(least_mm, most_mm, (most_mm - least_mm) / 16)


def _listed(key: str, said: str) -> list[Value]:
    """The readings between commas; `7,9` is more likely 7.9."""
    readings = [one.strip() for one in said.strip(" []").rstrip(",").split(",")]
    if len(readings) == 2 and all(one.isdigit() for one in readings):
        hint = f"decimals take a point: {'.'.join(readings)}"
        raise FaultError([Fault((key,), shown(said), "one reading, or several with commas: 7.82,7.85", hint)])
    return list(readings)


def _contradict(pitch: PitchReading, gauge: PitchReading) -> bool:
    return replace(gauge, sd_mm=pitch.sd_mm + gauge.sd_mm).off_sd(pitch.middle_mm) > CONTRADICTS_SD


def _slip(key: str, readings: tuple[float, ...], tapers: bool, context: Context) -> Iterator[Fault]:
    most = SPREAD_TAPER_MM if tapers else SPREAD_MM
    if len(readings) > 1 and max(readings) - min(readings) > most:
        middle = statistics.median(readings)
        slip = max(range(len(readings)), key=lambda i: abs(readings[i] - middle))
        found = f"{DIAMETER.say(readings[slip], context)} beside {DIAMETER.say(middle, context)}"
        hint = "read it again" if tapers else "read it again, or write tapers: yes where it grows along its length"
        yield Fault((key, slip), found, f"readings within {DIAMETER.say(most, context)} of each other", hint)


def _plain(text: str) -> float | None:
    try:
        return parse_number(text)
    except UnitError:
        return None
