"""A part printed as two halves, as meant: where it is parted, and what joins the halves again."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from fitwright.spec.joints import Meant


class HalvesBolts(Meant):
    """Bolts with nuts through lips on both halves; all that one bolt needs, in mm."""

    size: str
    spacing_mm: float = Field(gt=0)
    hole_d_mm: float = Field(gt=0)
    major_mm: float = Field(gt=0)
    pitch_mm: float = Field(gt=0)
    head_d_mm: float = Field(gt=0)
    head_k_mm: float = Field(gt=0)
    washer_d_mm: float = Field(gt=0)
    washer_h_mm: float = Field(ge=0)
    nut_af_mm: float = Field(gt=0)
    nut_m_mm: float = Field(gt=0)


class HalvesLap(Meant):
    """A lap for glue, `length_mm` long (across) or wide (along), with `keys` that let it go together one way only."""

    length_mm: float = Field(gt=0)
    keys: int = Field(ge=0)


class Halves(Meant):
    """Where the part is parted. `auto`: only where it is too large for the bed, and then where both halves fit.

    `across_mm`: along the centreline from end_a's mouth; `along_deg`: the plane through end_a's axis and this
    direction, clockwise from up. None: ours to choose.
    """

    way: Literal["auto", "across", "along"]
    across_mm: float | None = None
    along_deg: float | None = None
    joint: HalvesBolts | HalvesLap
