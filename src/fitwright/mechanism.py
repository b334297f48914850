"""What moves in a part, which faces its chain of lengths hangs on, what is bought. Plain numbers, no kernel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.frame import Vec


@dataclass(frozen=True)
class Motion:
    """A straight movement: from where the part is modelled (`begin`, in words `shut`) by `travel_mm` along `direction`.

    `direction` is a unit vector. A thing that moves is shifted by share x travel_mm x direction.
    """

    direction: Vec
    travel_mm: float
    begin: str = "shut"
    end: str = "open"

    def shift(self, share: float) -> Vec:
        """The shift [mm] of what moves after this share (0 to 1) of the travel."""
        x, y, z = self.direction
        far = share * self.travel_mm
        return (x * far, y * far, z * far)


@dataclass(frozen=True)
class Seat:
    """A flat face of a body that a chain of lengths hangs on, to be measured on the finished mesh.

    A ray from `at + reach x out` back along `-out` must meet the body first at `at` (its material lies behind).
    """

    name: str
    body: str
    at: Vec
    out: Vec
    reach_mm: float = 1.0


@dataclass(frozen=True)
class Bought:
    """A line of the shopping or cut list: `3 x screw M5 x 40`. `long_mm` is the bought or cut length.

    `cut`: it is cut to that length from stock. `needed`: False for what is there already (the cylinder, the gate).
    """

    count: int
    what: str
    long_mm: float | None = None
    cut: bool = False
    note: str = ""
    needed: bool = True


@dataclass(frozen=True)
class Fastening:
    """One screw, stud or rod joint as it was meant, for the check `hardware`.

    The axis goes from `head` (where head or first nut bears) along `direction`; `grip_mm` is what is clamped, washers
    and bought parts too; `long_mm` the screw under its head; `nut_m_mm` the height of its nut, 0 where it goes into a
    thread `into_deep_mm` deep. `seats`: names of bodies and bought things that it goes through, in order. `pocket`:
    the nut sits in a pocket of this body, across flats `pocket_af_mm`, and comes in along `pocket_from` (unit vector).
    `spanner_af_mm`: turned by an open spanner in the plane square to the axis at `spanner_at_mm` along it; 0: a driver.
    """

    name: str
    size: str
    head: Vec
    direction: Vec
    long_mm: float
    grip_mm: float
    d_mm: float
    nut_m_mm: float = 0.0
    nut_af_mm: float = 0.0
    into_deep_mm: float = 0.0
    washers: Literal["none", "head", "both"] = "both"
    washer_d_mm: float = 0.0
    seats: tuple[str, ...] = ()
    pocket: str = ""
    pocket_af_mm: float = 0.0
    pocket_from: Vec | None = None
    spanner_af_mm: float = 0.0
    spanner_at_mm: float = 0.0
    key: str = ""
    """YAML path that decides it."""
    moving: bool = False
    on_plastic: bool = True
    pitch_mm: float = 0.0


@dataclass(frozen=True)
class Paper:
    """A sheet of text: `title`, then sections of (heading, lines); written as NAME_`key`.txt in the file's units."""

    key: str
    title: str
    sections: tuple[tuple[str, tuple[str, ...]], ...]
