"""A place on a sheet to draw on in coordinates of one's own: part mm at a scale, with letters by name."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from fitwright.drawing import letters as drawn
from fitwright.drawing.hatch import Outline, area_mm2, hatching, thinned, within
from fitwright.drawing.sheet import MEDIUM_MM, THIN_MM, Anchor, Arc, Path, Point, Sheet, Words

CAP_MM = 2.0
_STRAY_MM = 0.02
"""Outlines may stray this much on paper: a sixth of the thinnest line."""
_BODY_HATCH, _BOUGHT_HATCH = (1.5, 45.0, 0.35), (2.4, -45.0, 0.65)
"""Gap [mm], slope [deg], grey of the hatching of what is printed and of what is bought."""


@dataclass(frozen=True)
class Pad:
    """`at(p)` is where p lies on the sheet; sizes called `_mm` are mm of paper."""

    sheet: Sheet
    left_mm: float
    bottom_mm: float
    letters: Mapping[str, str]
    scale: float = 1.0

    def at(self, p: Point) -> Point:
        """A point of this pad's coordinates on the sheet [mm]."""
        return self.left_mm + p[0] * self.scale, self.bottom_mm + p[1] * self.scale

    def zoomed(self, scale: float, x_mm: float, y_mm: float) -> Pad:
        """A pad whose origin is x, y [mm of paper] from this one's and whose unit is `scale` mm of paper."""
        return replace(self, left_mm=self.left_mm + x_mm, bottom_mm=self.bottom_mm + y_mm, scale=scale)

    def line(self, a: Point, b: Point, width_mm: float = MEDIUM_MM, dash_mm: tuple[float, float] | None = None) -> None:
        """A straight."""
        self.sheet.line(self.at(a), self.at(b), width_mm, dash_mm)

    def axis(self, a: Point, b: Point) -> None:
        """A centre line."""
        self.line(a, b, THIN_MM, (4.0, 1.2))

    def outline(
        self, points: Sequence[Point], width_mm: float = MEDIUM_MM, fill: float | None = None, dashed: bool = False
    ) -> None:
        """A closed outline."""
        dash = (1.6, 1.0) if dashed else None
        self.sheet.add(Path(tuple(self.at(p) for p in points), True, width_mm, fill=fill, dash_mm=dash))

    def circle(self, centre: Point, r: float, width_mm: float = MEDIUM_MM, dashed: bool = False) -> None:
        """A circle by its radius."""
        self.sheet.add(Arc(self.at(centre), r * self.scale, width_mm=width_mm, dash_mm=(1.6, 1.0) if dashed else None))

    def printed(self, outlines: Sequence[Outline], low: float = -1e9, high: float = 1e9) -> None:
        """The cut face of the part, hatched; of a long part only what lies between two limits along it."""
        self._cut(outlines, (low, high), _BODY_HATCH, 0.4)

    def bought(self, outlines: Sequence[Outline], low: float = -1e9, high: float = 1e9) -> None:
        """The cut face of what is bought, paler; broken where it goes on."""
        self._cut(outlines, (low, high), _BOUGHT_HATCH, 0.18)

    def _cut(
        self,
        outlines: Sequence[Outline],
        limits: tuple[float, float],
        hatch: tuple[float, float, float],
        width_mm: float,
    ) -> None:
        kept = [within(line, *limits) for line in outlines]
        placed = [thinned([self.at(p) for p in line], _STRAY_MM) for line in kept if line]
        placed = [line for line in placed if area_mm2(line) > 0.01]
        for a, b in hatching(placed, *hatch[:2]):
            self.sheet.add(Path((a, b), width_mm=THIN_MM, grey=hatch[2]))
        for limit in limits:
            ends = [p[1] for line in kept for p in line if abs(p[0] - limit) < 1e-6]
            if ends:
                drawn.broken_end(
                    self.sheet, self._beyond((limit, min(ends)), -1.5), self._beyond((limit, max(ends)), 1.5)
                )
        edges = [self.at((limit, 0.0))[0] for limit in limits]
        for line in placed:
            for run in _runs(line, edges):
                self.sheet.add(Path(run, closed=len(run) == len(line), width_mm=width_mm))

    def _beyond(self, p: Point, up_mm: float) -> Point:
        x, y = self.at(p)
        return x, y + up_mm

    def measure(self, a: Point, b: Point, off_mm: float, name: str) -> None:
        """A dimension line `off_mm` of paper to the left of the way from a to b, with this row's letter."""
        drawn.lettered(self.sheet, self.at(a), self.at(b), off_mm, self.letters[name])

    def lead(self, tip: Point, dx_mm: float, dy_mm: float, name: str) -> None:
        """A leader from `tip` to this row's letter, so far off on paper."""
        x, y = self.at(tip)
        drawn.leader(self.sheet, (x, y), (x + dx_mm, y + dy_mm), self.letters[name])

    def ring(self, at: Point, name: str) -> None:
        """This row's letter in a ring."""
        drawn.ring(self.sheet, self.at(at), self.letters[name])

    def arrow(self, a: Point, b: Point) -> None:
        """A thin line from a to b with an arrow head at b."""
        (x, y), (u, v) = self.at(a), self.at(b)
        self.sheet.line((x, y), (u, v), THIN_MM)
        self.sheet.arrow((u, v), math.degrees(math.atan2(v - y, u - x)), 2.0)

    def frame(self, corner: Point, across: str) -> None:
        """The two directions of a view at this place: up, and what points to the right."""
        at = self.zoomed(1.0, corner[0], corner[1])
        at.arrow((0.0, 0.0), (0.0, 9.0))
        at.arrow((0.0, 0.0), (9.0, 0.0))
        at.words((0.0, 9.0), "up", 1.2, -1.0)
        at.words((9.0, 0.0), across, 1.0, -0.8)

    def words(self, p: Point, text: str, dx_mm: float = 0.0, dy_mm: float = 0.0, anchor: Anchor = "start") -> None:
        """One line of small words."""
        x, y = self.at(p)
        self.sheet.add(Words((x + dx_mm, y + dy_mm), text, CAP_MM, anchor))


def _runs(line: Outline, edges: Sequence[float]) -> list[Outline]:
    """A closed outline as it is, or in the pieces that are left without the sides along a cut."""

    def along_cut(a: Point, b: Point) -> bool:
        return any(abs(a[0] - edge) < 1e-6 and abs(b[0] - edge) < 1e-6 for edge in edges)

    count = len(line)
    gaps = [k for k in range(count) if along_cut(line[k], line[(k + 1) % count])]
    if not gaps:
        return [line]
    runs = []
    for gap, following in zip(gaps, [*gaps[1:], gaps[0] + count], strict=True):
        run = tuple(line[k % count] for k in range(gap + 1, following + 1))
        if len(run) > 1:
            runs.append(run)
    return runs
