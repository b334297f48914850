"""What the part must keep clear of, or stay inside of: plain shapes in part coordinates (x right, y away, z up, mm)."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.frame import Vec

CLEARANCE_MM = 2.0
"""Gap kept where the YAML names none (common practice, no source)."""


STEP_NAMES = (".step", ".stp")
MESH_NAMES = (".stl", ".obj")
MESH_UNITS_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
"""Units that the numbers in an STL or OBJ may be in [mm]; the inch is exact by definition."""


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
    """An STL, OBJ or STEP file; its origin is put at `at`.

    `units` is what the YAML says of the numbers in an STL or OBJ (None: nothing, and mm are taken); a STEP says so
    itself. A broken mesh is mended only with `repair`.
    """

    path: str
    at: Vec
    key: str
    clearance_mm: float = CLEARANCE_MM
    label: str | None = None
    units: str | None = None
    repair: bool = False

    @property
    def is_step(self) -> bool:
        """True for a STEP file, told by its name."""
        return self.path.casefold().endswith(STEP_NAMES)

    @property
    def unit_mm(self) -> float:
        """What one of the numbers in an STL or OBJ is [mm]."""
        return MESH_UNITS_MM[self.units or "mm"]


Obstacle = PlaneObstacle | BoxObstacle | BarObstacle | ConeObstacle | MeshObstacle


@dataclass(frozen=True)
class Envelope:
    """The space declared for the part."""

    keep_clear: tuple[Obstacle, ...] = ()
    stay_inside: tuple[Obstacle, ...] = ()
