"""What a part bears, declared on named faces of its bodies: plain numbers, no kernel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.frame import Frame, Vec


@dataclass(frozen=True)
class LoadFace:
    """A face of a body, or the part of it that bears.

    `flat`: the plane through the frame's origin square to `inward`, its material behind it (along `inward`), within
    `right_mm` and `up_mm` (low, high). `round`: the cylinder of radius `r_mm` about the frame's axis, between `s_mm`
    (low, high) along it, over `turn_deg` (from, to, clockwise from `up` seen along `inward`; from < to). All in mm,
    deg, as modelled.
    """

    name: str
    body: str
    kind: Literal["flat", "round"]
    frame: Frame
    right_mm: tuple[float, float] = (0.0, 0.0)
    up_mm: tuple[float, float] = (0.0, 0.0)
    r_mm: float = 0.0
    s_mm: tuple[float, float] = (0.0, 0.0)
    turn_deg: tuple[float, float] = (0.0, 360.0)


@dataclass(frozen=True)
class LoadCase:
    """A force [N] on one named face while others are held.

    `directions`: unit vectors, each a case of its own (a snag comes from anywhere). `lasting`: it stays for good (the
    sustained limit of the filament counts), else it comes once. `why` says in words where the force comes from.
    """

    name: str
    body: str
    on: str
    force_n: float
    directions: tuple[Vec, ...]
    held: tuple[str, ...]
    lasting: bool = False
    why: str = ""
