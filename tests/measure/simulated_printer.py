"""A printer that is known: its scale, its offsets, its scatter from gauge to gauge, and a caliper that scatters too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.measure.printer import Gauge, Kind

SIZES = (20.0, 40.0, 60.0, 80.0, 100.0)


@dataclass(frozen=True)
class SimulatedPrinter:
    """Printed = scale x modelled + offset + scatter; a reading scatters by `reading_sd_mm` on top."""

    scale_x: float = 0.994
    scale_y: float = 0.994
    hole_mm: float = -0.18
    outside_mm: float = 0.09
    print_sd_mm: float = 0.0
    reading_sd_mm: float = 0.0

    def printed(self, kind: Kind, size_mm: float, along: str = "round") -> float:
        """What such a size measures without any scatter [mm]."""
        scale = {"x": self.scale_x, "y": self.scale_y}.get(along, (self.scale_x + self.scale_y) / 2)
        return scale * size_mm + (self.hole_mm if kind == "hole" else self.outside_mm)

    def gauges(
        self,
        rng: np.random.Generator,
        sizes: Sequence[float] = SIZES,
        readings: Sequence[int] = (3,),
        alongs: Sequence[str] = ("round",),
    ) -> list[Gauge]:
        """A hole and an outside of each size, each read as often as `readings` says (in turn)."""
        made = []
        for kind in ("hole", "outside"):
            for k, size in enumerate(sizes):
                for along in alongs:
                    mean = self.printed(kind, size, along) + rng.normal(0.0, self.print_sd_mm)
                    read = mean + rng.normal(0.0, self.reading_sd_mm, readings[k % len(readings)])
                    made.append(Gauge(kind, size, tuple(float(r) for r in read), along))
        return made


REAL = SimulatedPrinter(print_sd_mm=0.04, reading_sd_mm=0.02)
"""Scatter as it is found on home printers with a digital caliper (common practice, no source)."""
