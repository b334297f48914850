"""What the air goes through in a part, leg by leg: plain numbers, no kernel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["straight", "cone", "bend", "step", "mitre", "hose"]


@dataclass(frozen=True)
class Leg:
    """One leg of the passage, in the order from end_a to end_b.

    Areas [mm2] and hydraulic diameters (4 A / perimeter) [mm] at its beginning and end. `cone`: a gradual change over
    `length_mm` whose steepest line makes `half_angle_deg` with the axis. `step`: sudden (`facing` True: an edge
    faces the flow when it goes from end_a to end_b). `bend`: `angle_deg` at the centreline's `radius_mm`; `mitre`: the
    same angle without a radius. `hose`: ribbed, `length_mm` long. `follows_mm`: how far the bend before it lies.
    """

    name: str
    kind: Kind
    area_mm2: tuple[float, float]
    hydraulic_mm: tuple[float, float]
    length_mm: float = 0.0
    half_angle_deg: float = 0.0
    angle_deg: float = 0.0
    radius_mm: float = 0.0
    facing: bool = False
    follows_mm: float | None = None
