"""What a part bears, declared on named faces of its bodies: plain numbers, no kernel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.frame import Frame, Vec


@dataclass(frozen=True)
class LoadFace:
    """A face of a body, or the part of it that bears.

    `flat`: the plane through the frame's origin square to `inward`, its material behind it (along `inward`), within
    `right_mm` and `up_mm` (low, high), and where `disc_mm` is given only within that diameter about the origin (a
    washer). `round`: the cylinder of radius `r_mm` about the frame's axis, between `s_mm` (low, high) along it, over
    `turn_deg` (from, to, clockwise from `up` seen along `inward`; from < to). All in mm, deg, as modelled. A `round`
    face may taper or carry a bead: `near_mm` says how far from `r_mm` the true surface may lie.
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
    disc_mm: float = 0.0
    near_mm: float = 0.05


@dataclass(frozen=True)
class Support:
    """How a named face is held.

    `seat`: lies on something and only presses on it (it lifts off freely and slides without friction). `washer`: under
    a screw's head, washer or nut; its screw gives way by `axial_n_mm` along the face's axis and `lateral_n_mm` across.
    `fixed`: held both ways (a pipe in a socket, a glued or clamped face).
    """

    face: str
    kind: Literal["seat", "washer", "fixed"]
    axial_n_mm: float = 5000.0
    """Of the whole face [N/mm]. A 5 mm screw 35 mm deep in softwood: about 25 d l (common practice)."""
    lateral_n_mm: float = 1500.0
    """Of the whole face [N/mm]. EN 1995-1-1 table 7.1, screws: rho^1.5 d / 23, 350 kg/m3 and 5 mm (from memory)."""


@dataclass(frozen=True)
class LoadCase:
    """A force [N] on one named face while others are held.

    `directions`: unit vectors, each a case of its own (a snag comes from anywhere). `lasting`: it stays for good (the
    sustained limit of the filament counts), else it comes once. `why` says in words where the force comes from.
    `held` names faces; one for which the part declares no Support is `fixed`.
    """

    name: str
    body: str
    on: str
    force_n: float
    directions: tuple[Vec, ...]
    held: tuple[str, ...]
    lasting: bool = False
    why: str = ""
    at: Vec | None = None
    """The point that the force goes through, where that is not the middle of the face (a weight that stands off it)."""
    pressure_mpa: float = 0.0
    """In place of a force: what presses on the face everywhere along its normal, into the material (a band's squeeze;
    negative: suction). `directions` is then empty and `force_n` 0."""
    limit_mm: float = 0.0
    """How far the face may move along the force at the most, where that matters; 0: not judged."""
    key: str = "wall"
    """The YAML key whose number makes it stronger."""
