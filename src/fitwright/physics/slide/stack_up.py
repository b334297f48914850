"""How far blade and stop may stand from where they were meant: tolerances added up, at worst and as a rule.

All in mm. A contribution is a middle (where the tolerance is lopsided) and a half-range about it, times how much of it
arrives (its sensitivity, +1 or -1 here).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Arrangement = Literal["in_line", "alongside"]
Position = Literal["shut", "open"]
Stop = Literal["cylinder", "sleeve"]

MEMORY, PRACTICE = "ISO 6432, from memory", "common practice, no source"
TAPE_MM = 0.5
"""A steel tape read by a careful eye: half a division (common practice, no source)."""
CALIPER_MM = 0.1
"""A caliper over a rod's end, jaws not quite square (common practice, no source)."""
WF_MM = 1.4
"""Rod stub of ISO 6432 cylinders: +-1.2 to +-1.4 by bore (from memory)."""
STROKE_MORE_MM = ((100.0, 1.5), (math.inf, 2.0))
"""Stroke tolerance of ISO 6432: 0/+1.5 up to 100 mm, 0/+2 above (from memory)."""
SEAT_MM = 0.2
"""How a printed foot sits at the body's edge (common practice, no source)."""
THREAD_MM = 0.25
"""The coupling set on the rod's thread: a quarter of a turn of 1 mm (derived)."""
NOSE_MM = 0.3
"""Nose thread's length, read with a caliper from face to run-out (common practice, no source)."""

SENSITIVITY: dict[tuple[Arrangement, Position, Stop], dict[str, int]] = {
    ("in_line", "shut", "cylinder"): {"nose_face": 1, "rod_stub": -1, "stroke": -1, "coupling": -1},
    ("in_line", "open", "cylinder"): {"nose_face": 1, "rod_stub": -1, "coupling": -1},
    ("in_line", "open", "sleeve"): {"nose_face": 1, "nose_len": -1, "sleeve": -1, "coupling": -1},
    ("alongside", "open", "cylinder"): {"nose_face": 1, "rod_stub": 1, "stroke": 1, "coupling": -1},
    ("alongside", "shut", "cylinder"): {"nose_face": 1, "rod_stub": 1, "coupling": -1},
    ("alongside", "shut", "sleeve"): {"nose_face": 1, "nose_len": 1, "sleeve": 1, "coupling": -1},
}
"""By how much the blade's edge moves outwards when a size is 1 mm more than meant, for each end and what stops it."""


@dataclass(frozen=True)
class Contribution:
    """One size that is not quite what was meant: `middle_mm` +- `half_mm`, and where those numbers come from."""

    name: str
    half_mm: float
    middle_mm: float = 0.0
    sensitivity: float = 1.0
    source: str = ""


@dataclass(frozen=True)
class StackUp:
    """Contributions together."""

    contributions: tuple[Contribution, ...]

    @property
    def middle_mm(self) -> float:
        """Where the lopsided ones carry the middle."""
        return sum(one.sensitivity * one.middle_mm for one in self.contributions)

    @property
    def worst_mm(self) -> float:
        """All at their limits the same way.

        >>> StackUp((Contribution("a", 0.3), Contribution("b", 0.4, sensitivity=-1))).worst_mm
        0.7
        """
        return sum(abs(one.sensitivity) * one.half_mm for one in self.contributions)

    @property
    def root_sum_square_mm(self) -> float:
        """Where they are independent: never less than the greatest single one.

        >>> StackUp((Contribution("a", 0.3), Contribution("b", 0.4, sensitivity=-1))).root_sum_square_mm
        0.5
        """
        return math.hypot(*(one.sensitivity * one.half_mm for one in self.contributions))

    @property
    def range_mm(self) -> tuple[float, float]:
        """Least and greatest at worst."""
        return self.middle_mm - self.worst_mm, self.middle_mm + self.worst_mm

    def fits(self, setting_mm: float) -> bool:
        """True where a setting of +-`setting_mm` takes up even the worst."""
        return max(abs(end) for end in self.range_mm) <= setting_mm


def stroke_more_mm(stroke_mm: float) -> float:
    """How much longer than its name a stroke may be [mm].

    >>> stroke_more_mm(100), stroke_more_mm(125)
    (1.5, 2.0)
    """
    return next(more for up_to, more in STROKE_MORE_MM if stroke_mm <= up_to)


@dataclass(frozen=True)
class Sizes:
    """What the contributions hang on [mm]: the printed or cut length from gate to nose face, stroke, sleeve, play in
    all.

    `scatter_rel`, `scatter_abs_mm`: the printer's. `wf_half_mm`: 1.4 by the table, 0.1 where it was read with a
    caliper.
    """

    frame_mm: float
    stroke_mm: float
    sleeve_mm: float = 0.0
    play_mm: float = 0.5
    scatter_rel: float = 0.002
    scatter_abs_mm: float = 0.1
    wf_half_mm: float = WF_MM
    tape_mm: float = TAPE_MM

    def printed_mm(self, length_mm: float) -> float:
        """Half-range of a printed length."""
        return self.scatter_rel * length_mm + self.scatter_abs_mm


def position_stack(arrangement: Arrangement, position: Position, stop: Stop, sizes: Sizes) -> StackUp:
    """How far from where the tape says the blade's edge comes to stand at one end, before anything is set.

    >>> shut = position_stack("in_line", "shut", "cylinder", Sizes(frame_mm=187.0, stroke_mm=125.0))
    >>> round(shut.middle_mm, 2), round(shut.worst_mm, 2), round(shut.root_sum_square_mm, 2)
    (-1.0, 4.07, 1.9)
    """
    always = [
        Contribution(f"reading of the blade, {position}", sizes.tape_mm, source=PRACTICE),
        Contribution("foot at the body's edge", SEAT_MM, source=PRACTICE),
        Contribution("play in the coupling", sizes.play_mm / 2.0, source="half of the play, both ways"),
    ]
    return StackUp((*always, *_arriving(SENSITIVITY[arrangement, position, stop], sizes)))


def travel_stack(stop: Stop, sizes: Sizes) -> StackUp:
    """How far the blade's way is off what both readings say: what is left at one end once the other is set right.

    In line and alongside: with a sleeve stroke + rod stub - nose thread - sleeve, without one the stroke.
    A sleeve that is cut to the gap found after setting takes all of it away.

    >>> one = travel_stack("sleeve", Sizes(frame_mm=187.0, stroke_mm=125.0, sleeve_mm=23.4))
    >>> round(one.middle_mm, 2), round(one.worst_mm, 2), round(one.root_sum_square_mm, 2)
    (1.0, 3.85, 1.89)
    """
    factors = {"stroke": 1, "rod_stub": 1, "nose_len": -1, "sleeve": -1} if stop == "sleeve" else {"stroke": 1}
    readings = [
        Contribution(f"reading of the blade, {one}", sizes.tape_mm, source=PRACTICE) for one in ("shut", "open")
    ]
    return StackUp((*readings, *_arriving(factors, sizes)))


def _arriving(factors: dict[str, int], sizes: Sizes) -> list[Contribution]:
    """The named sizes with their tolerances, and how much of each arrives."""
    more = stroke_more_mm(sizes.stroke_mm) / 2.0
    known = {
        "nose_face": ("frame, gate to nose face", sizes.printed_mm(sizes.frame_mm), 0.0, "the printer's"),
        "rod_stub": ("rod stub", sizes.wf_half_mm, 0.0, MEMORY),
        "stroke": ("stroke", more, more, MEMORY),
        "coupling": ("coupling on its thread", THREAD_MM, 0.0, "derived"),
        "nose_len": ("length of the nose thread", NOSE_MM, 0.0, PRACTICE),
        "sleeve": ("sleeve", sizes.printed_mm(sizes.sleeve_mm), 0.0, "the printer's"),
    }
    return [
        Contribution(words, half, middle, factor, source)
        for factor, (words, half, middle, source) in ((factor, known[name]) for name, factor in factors.items())
    ]


def largest(parts: Sequence[Contribution]) -> Contribution:
    """The one that is worth measuring better."""
    return max(parts, key=lambda one: abs(one.sensitivity) * one.half_mm)
