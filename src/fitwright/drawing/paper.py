"""The sheets that people print on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PaperName = Literal["A4", "Letter"]
MARGIN_MM = 10.0
"""Kept free all round: home printers leave 4 to 6 mm white (common practice, no source)."""


@dataclass(frozen=True)
class Paper:
    """A sheet [mm]: ISO 216 A4 or ANSI/ASME Y14.1 size A (Letter), upright; or of any size, for a file to cut by."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def inner_mm(self) -> tuple[float, float]:
        """Width and height [mm] inside the margins."""
        return self.width_mm - 2 * MARGIN_MM, self.height_mm - 2 * MARGIN_MM


PAPERS: dict[PaperName, Paper] = {
    "A4": Paper("A4", 210.0, 297.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}
