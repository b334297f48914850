"""Lines, arrows and words on a picture, in final pixels, drawn finer than they are shown."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

FINER = 2
"""Everything is drawn this many times larger and then averaged down."""
_DASH = 11.0
_SEAM = 3 * FINER

Point = tuple[float, float]
Colour = tuple[int, int, int]
Font = ImageFont.FreeTypeFont | ImageFont.ImageFont


class Pen:
    """Draws on `image`, whose sides are FINER times the final picture's."""

    def __init__(self, image: Image.Image) -> None:
        self.image = image
        self.draw = ImageDraw.Draw(image)

    def line(self, points: list[Point], colour: Colour, width: float = 1.0) -> None:
        """A line through all points."""
        self.draw.line([_finer(p) for p in points], fill=colour, width=max(1, round(width * FINER)), joint="curve")

    def dashed(self, start: Point, end: Point, colour: Colour, width: float) -> None:
        """A dashed line."""
        (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
        long = max((dx * dx + dy * dy) ** 0.5, 1e-9)
        for number in range(int(long / _DASH) + 1):
            one, two = number * _DASH / long, min((number + 0.6) * _DASH / long, 1.0)
            self.line([(x + dx * one, y + dy * one), (x + dx * two, y + dy * two)], colour, width)

    def arrow(self, tip: Point, along: Point, colour: Colour) -> None:
        """A slim arrow head at `tip`, pointing in the unit direction `along`."""
        (x, y), (dx, dy) = tip, along
        back, half = 9.0, 2.4
        left = (x - dx * back - dy * half, y - dy * back + dx * half)
        right = (x - dx * back + dy * half, y - dy * back - dx * half)
        self.draw.polygon([_finer(p) for p in (tip, left, right)], fill=colour)

    def dot(self, at: Point, radius: float, colour: Colour) -> None:
        """A filled disc."""
        x, y = _finer(at)
        r = radius * FINER
        self.draw.ellipse([x - r, y - r, x + r, y + r], fill=colour)

    def box(self, low: Point, high: Point, colour: Colour) -> None:
        """A filled rectangle."""
        self.draw.rectangle([_finer(low), _finer(high)], fill=colour)

    def text(
        self, at: Point, words: str, size: float, colour: Colour, anchor: str = "ls", seam: Colour | None = None
    ) -> None:
        """Words at `at`; the anchor's two letters say which point of them (l m r, then a m s).

        On a seam of a second colour, where one is given, they can be read upon lines too.
        """
        ink = font(size)
        if seam is not None:
            self.draw.text(_finer(at), words, fill=seam, font=ink, anchor=anchor, stroke_width=_SEAM // 2)
        self.draw.text(_finer(at), words, fill=colour, font=ink, anchor=anchor)

    def clear_text(
        self, at: Point, words: str, size: float, inks: tuple[Colour, Colour], upright: bool = False
    ) -> None:
        """Words in the first ink with their middle at `at`, on a seam of the second; `upright`: reading upwards."""
        wide, high = round(width(words, size) * FINER) + 4 * _SEAM, round(size * 1.5 * FINER) + 2 * _SEAM
        x, y = _finer(at)
        for ink, seam in ((inks[1], _SEAM), (inks[0], 0)):
            mask = Image.new("L", (wide, high), 0)
            pen = ImageDraw.Draw(mask)
            pen.text((wide / 2, high / 2), words, fill=255, font=font(size), anchor="mm", stroke_width=seam)
            mask = mask.rotate(90, expand=True) if upright else mask
            self.image.paste(ink, (round(x - mask.width / 2), round(y - mask.height / 2)), mask)


def width(words: str, size: float) -> float:
    """How wide the words are [final pixel]."""
    return float(font(size).getlength(words)) / FINER


@cache
def font(size: float) -> Font:
    """DejaVu Sans where it is installed (with VTK, which CadQuery needs), else Pillow's own with fewer letters."""
    found = find_spec("matplotlib")
    for folder in (found.submodule_search_locations or []) if found else []:
        path = Path(folder) / "mpl-data" / "fonts" / "ttf" / "DejaVuSans.ttf"
        if path.is_file():
            return ImageFont.truetype(str(path), round(size * FINER))
    return ImageFont.load_default(size * FINER)


def _finer(point: Point) -> Point:
    return point[0] * FINER, point[1] * FINER
