"""Fits between a printed part and a bought one: allowances, clearances, hoop strain, foam cord.

All allowances, clearances and interferences are on the diameter [mm]; a negative clearance is interference. The bought
part is taken as rigid (a hose excepted), so that a strain is an upper bound.

Sources: a print-service design guide gives press 0 to 0.1, snug 0.1 to 0.2, sliding 0.2 to 0.4, loose 0.4 and more, for
small parts (public guide, no standard); printed diameters scatter by +-(0.2 % + 0.1 mm), which is IT13 to IT15
(common practice, no source). Both together give the formulae below, which keep to the guide for small diameters and
grow with the scatter for large ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Fit = Literal["slide", "snug", "press", "glue"]
Kind = Literal["hole", "shaft"]

PRESS_MM = 0.05
"""Middle of the guide's 0 to 0.1."""
SLIDE_AIR_MM = 0.2
"""Left over when the print came out as tight as it may: the least of the guide's sliding fit."""
GLUE_LINE_MM = (0.15, 0.30)
"""Glue needs a gap to stay in and fills no more than this: common practice, no source."""
CORD_SQUEEZE = (0.15, 0.25)
"""Share of its diameter by which a foam cord is wanted squeezed: common practice, no source."""


@dataclass(frozen=True)
class Allowance:
    """What a fit adds to the diameter of a hole (or takes off a shaft), and where the number comes from."""

    value_mm: float
    source: str


@dataclass(frozen=True)
class Squeeze:
    """How far a foam cord is squeezed, as a share of its diameter; 0 or less: it does not touch."""

    least: float
    greatest: float

    @property
    def seals(self) -> bool:
        """True where the whole range is as wanted."""
        return self.least >= CORD_SQUEEZE[0] - 1e-9 and self.greatest <= CORD_SQUEEZE[1] + 1e-9


def scatter_mm(d_mm: float, scatter_rel: float, scatter_abs_mm: float) -> float:
    """Half-range [mm] of a printed diameter: scatter_rel x d + scatter_abs."""
    return scatter_rel * d_mm + scatter_abs_mm


def allowance_mm(fit: Fit, d_mm: float, scatter_rel: float, scatter_abs_mm: float) -> Allowance:
    """The diametral allowance of a fit at a diameter [mm] on a printer, 0 < press < snug < slide.

    slide = scatter + 0.2: goes on even where the print came out as tight as it may; snug = half of that: about half
    of all prints go on by hand; press = 0.05; glue = 0.15 + half the relative scatter, at most 0.30.

    >>> allowance_mm("slide", 100.0, 0.002, 0.1).value_mm
    0.5
    """
    if fit not in get_args(Fit):
        raise ValueError(f"fit is {fit!r}; allowed: {', '.join(get_args(Fit))}")
    slide = scatter_mm(d_mm, scatter_rel, scatter_abs_mm) + SLIDE_AIR_MM
    guide = "print-service guide for small parts"
    if fit == "slide":
        return Allowance(slide, f"{guide} (sliding 0.2 to 0.4), and the printer's scatter on top")
    if fit == "snug":
        return Allowance(slide / 2, f"{guide} (snug 0.1 to 0.2): half of the slide allowance")
    if fit == "press":
        return Allowance(PRESS_MM, f"{guide} (press 0 to 0.1)")
    glue = min(GLUE_LINE_MM[0] + scatter_rel * d_mm / 2, GLUE_LINE_MM[1])
    return Allowance(glue, "glue line 0.15 to 0.3: common practice, no source")


def clearance_range(
    kind: Kind,
    printed_d_mm: float,
    bought_least_mm: float,
    bought_greatest_mm: float,
    scatter_rel: float,
    scatter_abs_mm: float,
) -> tuple[float, float]:
    """Least and greatest diametral clearance [mm] between a print and the bought part that it meets.

    `kind` is what the print is: a `hole` goes over the bought part, a `shaft` into it.
    """
    spread = scatter_mm(printed_d_mm, scatter_rel, scatter_abs_mm)
    if kind == "hole":
        return printed_d_mm - spread - bought_greatest_mm, printed_d_mm + spread - bought_least_mm
    return bought_least_mm - printed_d_mm - spread, bought_greatest_mm - printed_d_mm + spread


def hoop_strain(interference_mm: float, d_mm: float) -> float:
    """Strain round a printed ring of diameter `d_mm` that is stretched by a rigid part; 0 where there is a gap.

    Circumference grows as the diameter: strain = interference / d.
    """
    return max(interference_mm, 0.0) / d_mm


def cord_squeeze(least_mm: float, greatest_mm: float, groove_depth_mm: float, cord_mm: float) -> Squeeze:
    """How far a cord is squeezed between its groove and the part, over a range of diametral clearance [mm].

    Room = groove depth + half the clearance (the cord centres the part); squeeze = 1 - room / cord.
    """
    tight, slack = (1.0 - (groove_depth_mm + gap / 2.0) / cord_mm for gap in (least_mm, greatest_mm))
    return Squeeze(slack, tight)


def cord_groove_depth_mm(least_mm: float, greatest_mm: float, cord_mm: float) -> float:
    """The groove depth [mm] that squeezes the cord by the middle of CORD_SQUEEZE at the middle clearance."""
    return cord_mm * (1.0 - sum(CORD_SQUEEZE) / 2.0) - (least_mm + greatest_mm) / 4.0
