"""Cross-sections put together from rectangles: area, centroid, second moments. Lengths in mm.

`deep` is the direction in which the section bends, `across` the other one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Rectangle:
    """One piece of a section: its size and where its centre stands, in both directions [mm]."""

    across_mm: float
    deep_mm: float
    across_at: float = 0.0
    deep_at: float = 0.0


@dataclass(frozen=True)
class Section:
    """Area [mm2], centroid [mm], second moments about the centroid [mm4], and the outer fibres' distances [mm].

    `deep_mm4`: for bending along `deep`; `across_mm4`: for bending along `across`.
    """

    area_mm2: float
    across_at: float
    deep_at: float
    deep_mm4: float
    across_mm4: float
    fibre_deep_mm: float
    fibre_across_mm: float


def composed(pieces: Sequence[Rectangle]) -> Section:
    """The section of several rectangles that are one piece and do not overlap (parallel axes theorem).

    A floor 60 x 8 with walls 5 x 30 on both its edges:

    >>> one = composed([Rectangle(60, 8, 0, 4), Rectangle(5, 30, -27.5, 23), Rectangle(5, 30, 27.5, 23)])
    >>> round(one.area_mm2), round(one.deep_at, 2), round(one.deep_mm4)
    (780, 11.31, 91706)
    """
    area = sum(one.across_mm * one.deep_mm for one in pieces)
    across = sum(one.across_mm * one.deep_mm * one.across_at for one in pieces) / area
    deep = sum(one.across_mm * one.deep_mm * one.deep_at for one in pieces) / area
    return Section(
        area,
        across,
        deep,
        sum(_moment(one.across_mm, one.deep_mm, one.deep_at - deep) for one in pieces),
        sum(_moment(one.deep_mm, one.across_mm, one.across_at - across) for one in pieces),
        max(abs(one.deep_at - deep) + one.deep_mm / 2.0 for one in pieces),
        max(abs(one.across_at - across) + one.across_mm / 2.0 for one in pieces),
    )


def rectangle(across_mm: float, deep_mm: float) -> Section:
    """A plain one.

    >>> rectangle(60, 8).deep_mm4
    2560.0
    """
    return composed([Rectangle(across_mm, deep_mm)])


def channel(web_mm: float, web_deep_mm: float, rib_mm: float, rib_deep_mm: float) -> Section:
    """A web `web_mm` across and `web_deep_mm` thick with a rib `rib_mm` thick on both its edges, `rib_deep_mm` high.

    >>> round(channel(60, 8, 5, 30).deep_mm4)
    91706
    """
    aside, up = (web_mm - rib_mm) / 2.0, (web_deep_mm + rib_deep_mm) / 2.0
    ribs = [Rectangle(rib_mm, rib_deep_mm, side * aside, up) for side in (-1.0, 1.0)]
    return composed([Rectangle(web_mm, web_deep_mm), *ribs])


def round_bar(d_mm: float) -> Section:
    """A round bar, or a threaded rod as one of its stress diameter.

    >>> round(round_bar(6.0).deep_mm4, 1)
    63.6
    """
    area, moment = math.pi * d_mm**2 / 4.0, math.pi * d_mm**4 / 64.0
    return Section(area, 0.0, 0.0, moment, moment, d_mm / 2.0, d_mm / 2.0)


def stress_diameter_mm(d_mm: float, pitch_mm: float) -> float:
    """Diameter [mm] of a bar of a metric thread's stress area: (d2 + d3) / 2 = d - 0.9382 P (ISO 898-1).

    >>> [round(round_bar(stress_diameter_mm(*one)).area_mm2, 1) for one in [(8, 1.25), (10, 1.5)]]
    [36.6, 58.0]
    """
    return d_mm - 0.9382 * pitch_mm


def _moment(base_mm: float, height_mm: float, off_mm: float) -> float:
    return base_mm * height_mm**3 / 12.0 + base_mm * height_mm * off_mm**2
