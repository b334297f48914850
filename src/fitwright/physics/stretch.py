"""Soft joints: how much smaller a rubbery cuff is made than its pipe, and whether it then grips, or has had too much.

Strain round a ring that is stretched over (or squeezed into) a rigid part: interference / diameter, as circumference
grows with diameter. Interference is on the diameter [mm].
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fitwright.physics.fit_words import FitVerdict, Severity, gap_words
from fitwright.units import format_number

SHARE_OF_LIMIT = 0.6
"""A cuff is made smaller by this share of the strain it bears for good: 3 % at 95 Shore A, 6 % at 85 (common practice,
no source: 3-4 % is what a hand pulls over)."""
LEAST_GRIP = 0.005
"""The loosest pair should still stretch by this (common practice, no source)."""
POISSON = 0.48
"""Rubbery plastics hardly change their volume (from memory)."""
FRICTION = 0.4
"""Soft cuff on dry plastic or metal pipe, cautious (from memory)."""
RELAXED = 0.5
"""Share of the grip that is left after months (from memory; creep sheets of soft polyurethane give about this)."""


@dataclass(frozen=True)
class Stretching:
    """A soft ring and the rigid part that it grips; clearances are diametral [mm], least and greatest, at both ends."""

    kind: Literal["hole", "shaft"]
    mouth: tuple[float, float]
    bottom: tuple[float, float]
    d_mm: float
    wall_mm: float
    strain_limit: float

    @property
    def least(self) -> float:
        """Strain of the loosest pair at its tightest place; 0 or less: it is slack there."""
        return -min(self.mouth[1], self.bottom[1]) / self.d_mm

    @property
    def greatest(self) -> float:
        """Strain of the tightest pair."""
        return -min(self.mouth[0], self.bottom[0]) / self.d_mm

    @property
    def bears(self) -> float:
        """The strain that it bears for good; a thin ring that is squeezed crumples before."""
        if self.kind == "hole":
            return self.strain_limit
        return min(self.strain_limit, crumple_strain(self.d_mm, self.wall_mm))


def crumple_strain(d_mm: float, wall_mm: float) -> float:
    """Hoop strain at which a thin ring, squeezed inside a rigid pipe, folds inwards.

    Glock (Der Stahlbau 46, 1977, ring in a rigid hole under pressure or warmth): p = E / (1 - nu^2) (t / D)^2.2, and
    strain = p D / (2 E t). From memory. A perfect ring would not fold at all; a workshop's does.

    >>> round(crumple_strain(100.0, 2.5), 4)
    0.0078
    """
    return math.pow(wall_mm / d_mm, 1.2) / (2.0 * (1.0 - POISSON**2))


def stretch_mm(d_mm: float, bears: float, spread_mm: float) -> float:
    """By how much a soft joint is made tighter than the bought part [mm on the diameter].

    `bears`: the strain it bears for good; `spread_mm`: half-range of print and bought part together. The wanted share,
    raised where the spread would leave the loosest pair slack, but not beyond what the tightest bears.
    """
    wanted, need, most = SHARE_OF_LIMIT * bears * d_mm, spread_mm + LEAST_GRIP * d_mm, bears * d_mm - spread_mm
    if need <= most:
        return min(max(wanted, need), most)
    return (need + most) / 2.0


def grip_n(strain: float, modulus_mpa: float, wall_mm: float, engaged_mm: float) -> float:
    """Pull [N] along the axis that the ring's own grip holds: friction x 2 pi x E x strain x wall x length.

    Contact pressure is E strain t / r, its area 2 pi r L.
    """
    return FRICTION * 2.0 * math.pi * modulus_mpa * max(strain, 0.0) * wall_mm * engaged_mm


def judge_stretch(joint: Stretching) -> FitVerdict:
    """Whether a soft joint goes on, grips and seals over the whole spread of both parts.

    `value_mm` is the greatest interference and `limit_mm` what the material bears; where the joint can be slack, the
    widest gap that is left and 0.
    """
    least, greatest, bears = joint.least, joint.greatest, joint.bears
    if least <= 0.0:
        return _slack(joint)
    over = greatest > bears + 1e-9
    grips = "grips and seals by itself"
    words = f"{_stretches(joint)}, {grips}"
    value, limit = greatest * joint.d_mm, bears * joint.d_mm
    if not over:
        return FitVerdict("pass", "stretches on", words, "", value, limit)
    severity: Severity = "fail" if (least + greatest) / 2.0 > bears else "warn"
    if joint.kind == "shaft" and bears < joint.strain_limit:
        words = f"{_stretches(joint)}: it can fold inwards above {_percent(bears)}"
        advice = "a thicker wall, an allowance nearer to 0, or a socket over the pipe's outside"
    else:
        words = f"{_stretches(joint)}, more than the {_percent(bears)} that it bears for good: it goes slack in time"
        advice = "an allowance nearer to 0, or a softer material"
    return FitVerdict(severity, "is overstretched", words, advice, value, limit)


def _slack(joint: Stretching) -> FitVerdict:
    """The loosest pair does not touch all round."""
    low, high = (min(joint.mouth[k], joint.bottom[k]) for k in (0, 1))
    least, greatest = joint.least, joint.greatest
    severity: Severity = "fail" if (least + greatest) / 2.0 <= 0.0 else "warn"
    word = "is slack" if severity == "fail" else "can be slack"
    words = f"{word}: {gap_words(low, high)}; it neither grips nor seals then"
    advice = "a more negative allowance (or leave it out), or measure again: several readings narrow the spread"
    return FitVerdict(severity, word, words, advice, max(0.0, high), 0.0)


def _stretches(joint: Stretching) -> str:
    how, where = ("stretches", "over the pipe") if joint.kind == "hole" else ("is squeezed", "in the pipe")
    return f"{how} {100 * joint.least:.1f}-{100 * joint.greatest:.1f} % {where}"


def _percent(share: float) -> str:
    return f"{format_number(100.0 * share, 1)} %"
