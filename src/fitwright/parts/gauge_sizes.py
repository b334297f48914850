"""What all pieces of a gauge share: wall, chamfers, heights and lettering, from the spec and the printer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from fitwright.errors import RefusalError
from fitwright.shapes.lettering import HIGH, text_wide
from fitwright.spec.models import FitGaugeSpec

STROKE_LINES = 2
"""A raised stroke, or a gap, is two printed lines wide or more (common practice, no source)."""
LETTER_MM = 5.0
"""Least height of a letter that is read at arm's length (common practice, no source)."""
RELIEF_LAYERS, RELIEF_MM = 2, 0.6
"""Two layers at least show; three of 0.2 mm are felt with a nail (common practice, no source)."""
CHAMFER_MM, CHAMFER_OF_WALL = 0.5, 0.3
"""The first layers spread by 0.1 to 0.3 mm (common practice, no source): no size is taken there; and it leads in."""
RING_MM, STEP_MM = 6.0, 3.0
STEEPEST = 0.8
"""A step's width on the diameter by its height; beyond it the wall thins where the last window meets the cone."""
TAB_MM = 1.4
"""Least thickness of what carries a mark: it must not snap off in the hand (common practice, no source)."""
WINDOW_MM = 5.0
"""Width of a window, and so of the bridge over it (10 mm is clean)."""
SILL_LAYERS, HEAD_LAYERS = 2, 4
LEAST_WINDOW_MM = 1.0


@dataclass(frozen=True)
class GaugeSizes:
    """Lengths in mm. `thick` is that of tabs and crossbars; `least` the narrowest stroke or gap allowed."""

    wall: float
    chamfer: float
    cell: float
    least: float
    relief: float
    thick: float
    layer: float

    @property
    def tab_mm(self) -> float:
        """How far a tab stands out: five cells of letter and one all round."""
        return (HIGH + 2) * self.cell

    def half_mm(self, text: str) -> float:
        """Half the width of what carries a text."""
        return (text_wide(text) / 2 + 1) * self.cell

    @property
    def bar_half_mm(self) -> float:
        """Half the width of a crossbar."""
        return (HIGH / 2 + 1) * self.cell

    @property
    def sill_mm(self) -> float:
        """From a step's floor to its window."""
        return SILL_LAYERS * self.layer

    @property
    def head_mm(self) -> float:
        """From a window to the next step."""
        return HEAD_LAYERS * self.layer


def gauge_sizes(spec: FitGaugeSpec) -> GaugeSizes:
    """The sizes for a printer's lines and layers."""
    line, layer = spec.printer.line_mm, spec.printer.layer_mm
    least = STROKE_LINES * line
    return GaugeSizes(
        wall=spec.wall_mm,
        chamfer=min(CHAMFER_MM, CHAMFER_OF_WALL * spec.wall_mm),
        cell=max(LETTER_MM / HIGH, least),
        least=least,
        relief=in_layers(max(RELIEF_LAYERS * layer, RELIEF_MM), layer),
        thick=in_layers(max(spec.wall_mm, TAB_MM), layer),
        layer=layer,
    )


def in_layers(length_mm: float, layer_mm: float) -> float:
    """Raised to whole layers.

    >>> in_layers(2.52, 0.2)
    2.6
    """
    return round(math.ceil(length_mm / layer_mm - 1e-6) * layer_mm, 6)


def piece_height_mm(spec: FitGaugeSpec, sizes: GaugeSizes) -> float:
    """Height of a separate ring or plug."""
    return spec.height_mm or in_layers(RING_MM, sizes.layer)


def step_height_mm(spec: FitGaugeSpec, sizes: GaugeSizes) -> float:
    """Height of a step, with room for a window and the layers below and above it."""
    high = spec.height_mm or in_layers(STEP_MM, sizes.layer)
    wide = max(b.printed_mm - a.printed_mm for a, b in pairwise(spec.steps))
    need = max(sizes.sill_mm + sizes.head_mm + LEAST_WINDOW_MM, wide / STEEPEST)
    if spec.height_mm is None:
        return max(high, in_layers(need, sizes.layer))
    if high < need - 1e-9:
        why = "each step of a stepped gauge has a window, and a wide step would leave too little over it"
        raise RefusalError("height", f"{high:.1f} mm", f"{need:.1f} mm or more", why)
    return high
