"""The bar of 100 mm by which a print on paper is trusted or thrown away."""

from __future__ import annotations

from fitwright.drawing.sheet import MEDIUM_MM, THICK_MM, Path, Sheet, Words

BAR_MM = 100.0
_HEIGHT_MM = 4.0


def check_bar(sheet: Sheet, left_mm: float, bottom_mm: float) -> None:
    """Draw the bar with its lower left corner there: 100.0 mm between its two end strokes.

    The strokes' middles are 100 mm apart; every 10 mm there is a tick; the words say what to do. It needs 100 x 10 mm.
    """
    right = left_mm + BAR_MM
    sheet.line((left_mm, bottom_mm), (right, bottom_mm), MEDIUM_MM)
    for tick in range(11):
        x = left_mm + 10.0 * tick
        ends = tick in (0, 10)
        sheet.add(
            Path(((x, bottom_mm), (x, bottom_mm + (_HEIGHT_MM if ends else 2.0))), width_mm=THICK_MM if ends else 0.25)
        )
    words = "100 mm (3 15/16 in): measure it. If it is not 100.0 (+-0.3), print again at 100 %."
    sheet.add(Words((left_mm, bottom_mm + _HEIGHT_MM + 1.0), words, 1.8))
