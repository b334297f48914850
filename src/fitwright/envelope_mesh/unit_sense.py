"""Do the numbers of a mesh smell of another unit? Size and distance beside the part tell; nothing is ever rescaled."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.envelope_mesh.triangles import Points
from fitwright.spec.envelope import MESH_UNITS_MM

SMALL = 0.2
"""A neighbour that is less across than this share of the part is smaller than most that are drawn."""
LARGE = 25.0
"""One that is more across than so many parts is larger than a workshop machine (common practice, no source)."""
LIKELY = 0.3
"""From this share of the part up to LARGE parts across, and no further off than the part is long, is a likely one."""


@dataclass(frozen=True)
class Box:
    """Low and high corner [mm]."""

    low: Points
    high: Points

    @property
    def size(self) -> Points:
        """Extent along x, y, z."""
        return np.asarray(self.high - self.low)

    def scaled(self, about: Points, factor: float) -> Box:
        """The same drawn larger, `about` staying where it is."""
        return Box(about + (self.low - about) * factor, about + (self.high - about) * factor)

    def apart(self, other: Box) -> float:
        """Distance to another box."""
        return float(np.linalg.norm(np.maximum(np.maximum(self.low - other.high, other.low - self.high), 0.0)))


def suspected(mesh: Box, at: Points, units: str | None, part: Box, inside: bool) -> str | None:
    """The unit that the numbers are more likely in than in the one that they were read in, or None.

    `mesh` is its box as read, with its origin at `at`; `units` what the YAML says (None: nothing, mm were taken);
    `inside` that the part is to stay inside of it. A user who wrote `mm` is believed.
    """
    if units == "mm":
        return None
    across = float(mesh.size.max()) / float(part.size.max())
    small = across < SMALL or (inside and bool((mesh.size < part.size).any()))
    if not (small if units is None else across > LARGE):
        return None
    read_mm = MESH_UNITS_MM[units or "mm"]
    others = ("in", "m", "cm") if units is None else ("mm",)
    scaled = ((unit, mesh.scaled(at, MESH_UNITS_MM[unit] / read_mm)) for unit in others)
    return next((unit for unit, box in scaled if _likely(box, part, inside)), None)


def _likely(mesh: Box, part: Box, inside: bool) -> bool:
    length = float(part.size.max())
    if not LIKELY * length <= float(mesh.size.max()) <= LARGE * length or mesh.apart(part) > length:
        return False
    return not inside or bool((mesh.size >= part.size).all())
