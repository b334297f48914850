"""What the part must keep clear of, or stay inside of: plain shapes in part coordinates (x right, y away, z up, mm)."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.frame import Vec

CLEARANCE_MM = 2.0
"""Gap kept where the YAML names none (common practice, no source)."""


@dataclass(frozen=True)
class PlaneObstacle:
    """A flat wall, floor or ceiling through `point`; `normal` (unit) points from it into the free side."""

    point: Vec
    normal: Vec
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None


@dataclass(frozen=True)
class BoxObstacle:
    """A box between its two opposite corners, `low` < `high` in each direction."""

    low: Vec
    high: Vec
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None


@dataclass(frozen=True)
class BarObstacle:
    """A round bar or pipe of diameter `d_mm` from `start` to `end`."""

    start: Vec
    end: Vec
    d_mm: float
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None


@dataclass(frozen=True)
class ConeObstacle:
    """A round bar whose diameter runs from `d_start_mm` to `d_end_mm`."""

    start: Vec
    end: Vec
    d_start_mm: float
    d_end_mm: float
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None


@dataclass(frozen=True)
class MeshObstacle:
    """An STL file in mm; its origin is put at `at`."""

    path: str
    at: Vec
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None


Obstacle = PlaneObstacle | BoxObstacle | BarObstacle | ConeObstacle | MeshObstacle


@dataclass(frozen=True)
class Envelope:
    """The space declared for the part."""

    keep_clear: tuple[Obstacle, ...] = ()
    stay_inside: tuple[Obstacle, ...] = ()
