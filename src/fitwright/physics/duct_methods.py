"""One handbook's answer, and several put side by side."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.physics.duct_band import Band, spread


@dataclass(frozen=True)
class Answer:
    """A loss coefficient with who gives it; `note` where the source is used near or past the edge of its range.

    `friction` is the wall's, where the source gives the rest alone, or may: the band's low end is without it.
    """

    source: str
    coefficient: float
    note: str = ""
    friction: float = 0.0


@dataclass(frozen=True)
class Coefficient:
    """What the sources together give: the band, who they are, and what to know of the range."""

    band: Band
    sources: tuple[str, ...]
    note: str = ""


def together(answers: list[Answer], note: str = "") -> Coefficient:
    """Least (as printed), median and greatest (with friction) of the answers, none below 0."""
    notes = [note, *(answer.note for answer in answers)]
    whole = spread(max(0.0, answer.coefficient + answer.friction) for answer in answers)
    printed = spread(max(0.0, answer.coefficient) for answer in answers)
    return Coefficient(
        Band(printed.low, whole.middle, whole.high),
        tuple(dict.fromkeys(answer.source for answer in answers)),
        "; ".join(dict.fromkeys(text for text in notes if text)),
    )
