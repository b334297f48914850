"""What the YAML of a flange plate means: mm, everything filled in.

Stand in front of the plate: right and up are as you see them, the plate goes `away` from its front face at y = 0. A
gasket lies behind it. A plate that is made for a flange stands between you and that flange: its right and up are those
of who looks into the flange's mouth.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from fitwright.outline import Outline
from fitwright.spec.joints import Holes, Meant, Place
from fitwright.spec.part_base import PartBase


class Opening(Meant):
    """A hole for the air (or anything else) in the plate: its line about `at`, already moved there."""

    outline: Outline
    at: Place
    words: str
    """Such as `round 102` or `150 x 60`, in mm."""
    key: str


class PlatePattern(Meant):
    """Bolt holes of one kind; the centres are from the plate's middle.

    `slot_mm`: how much longer than wide each hole is, along the line from the middle of the pattern (0: round).
    """

    holes: Holes
    at: Place = Place(0.0, 0.0)
    """The middle of the pattern."""
    slot_mm: float = Field(0.0, ge=0)
    key: str
    read_with: Literal["caliper", "tape", "tracing", "flange"] = "caliper"


class PlateStock(Meant):
    """What is cut from a sheet: the words for it, its thickness [mm], density and whether it splits at its holes."""

    words: str
    thickness_mm: float = Field(gt=0)
    density_g_cm3: float = Field(gt=0)
    brittle: bool = False
    status: str = "common practice"


class FlangePlateSpec(PartBase):
    """A plate with openings and bolt holes, printed or cut from sheet, with a gasket or alone; or a gasket alone.

    `outline` None: as the flange that it is made for says. `plate` None: only the gasket is wanted. `sheet` is given
    where the plate is cut from sheet. `matches`: the part file and end whose flange it was made for, in words; empty:
    none. `made_for` is that part, `made_for_end` its end: the builder adds that flange's outline, opening and holes.
    """

    part: Literal["flange_plate"] = "flange_plate"
    plate: Literal["printed", "sheet"] | None = "printed"
    outline: Outline | None = None
    openings: tuple[Opening, ...] = ()
    patterns: tuple[PlatePattern, ...] = ()
    thickness_mm: float = Field(6.0, gt=0)
    sheet: PlateStock | None = None
    gasket: PlateStock | None = None
    gasket_hole_more_mm: float = Field(1.0, ge=0)
    gasket_opening_more_mm: float = Field(2.0, ge=0)
    matches: str = ""
    made_for: PartBase | None = None
    made_for_end: str = ""
    rim_mm: float = Field(10.0, gt=0)
    """An outline of our own choice stands so far outside openings that have no bolts near them."""
