"""Learned: what earlier prints taught about one end, as the spec carries it to builders and checks."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Learned:
    """From the prints logged for this printer, material and joint [mm on the diameter]; 0 prints: nothing yet.

    `excess_mm`: how much more clearance than the table's allowance is wanted, from `verdicts` prints (0 where the YAML
    gives an allowance of its own). `size_error_mm`: how much larger than calibrated the face prints, from `readings`
    prints. `*_give_or_take_mm`: half of the 95 % interval. `scatter_mm`: half-range within which the next print misses,
    once there are enough prints.
    """

    printer: str
    material: str
    excess_mm: float = 0.0
    excess_give_or_take_mm: float = 0.0
    verdicts: int = 0
    size_error_mm: float = 0.0
    size_error_give_or_take_mm: float = 0.0
    readings: int = 0
    scatter_mm: float | None = None

    def __post_init__(self) -> None:
        if not (abs(self.excess_mm) < 5.0 and abs(self.size_error_mm) < 20.0):
            raise ValueError(f"learned {self.excess_mm} and {self.size_error_mm} mm")
