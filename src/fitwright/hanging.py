"""What a hanger declares of itself, to be measured and reckoned by the checks: plain numbers, no kernel.

All in part coordinates [mm], sizes as the finished print is to measure (not as modelled).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fitwright.frame import Frame, Vec


@dataclass(frozen=True)
class Cradle:
    """A round face that the hose or pipe lies on: radius about the frame's axis (inward along the hose).

    `turn_deg`: the sector (from, to, clockwise from `up` seen along `inward`; from < to). `wide_mm`: along the hose.
    `key`: YAML path of what is carried.
    """

    name: str
    body: str
    frame: Frame
    r_mm: float
    turn_deg: tuple[float, float]
    wide_mm: float
    key: str


@dataclass(frozen=True)
class Throat:
    """The opening of a hook: `at` its middle, `across` from lip to lip, `out` the way out of it (unit vectors).

    `wide_mm`: as meant. `arm_mm`, `arm_deg`: thickness of the arms that open, and the angle from their root to the lip
    (of each, first the one at -across). `mid_r_mm`: radius of the arms' middle line. `inner_mm`: what it holds
    measures.
    """

    name: str
    body: str
    at: Vec
    across: Vec
    out: Vec
    wide_mm: float
    inner_mm: float
    arm_mm: float
    arm_deg: tuple[float, float]
    mid_r_mm: float
    key: str = "hook.throat"


@dataclass(frozen=True)
class Eye:
    """A round eye for the line of a second fixing: its axis runs along the frame's `inward` over `long_mm`."""

    name: str
    body: str
    frame: Frame
    d_mm: float
    long_mm: float


@dataclass(frozen=True)
class HeldBy:
    """One screw, bolt, stud or tie of the mount.

    It goes through `at` on the mounting surface along `direction`, out of the hanger and into what holds it.
    `into`: wood (named in `wood`, with `grip_mm` of thread in it; end grain never), channel (nut in a 41 mm strut),
    slot (nut in a T-slot), rod, thread (an existing one), tie. `edge_mm`: from its axis to the nearest edge of the
    wood, 0 where that is not known. `head`: what bears on the print; `washer_d_mm`: over what diameter.
    """

    name: str
    size: str
    d_mm: float
    at: Vec
    direction: Vec
    into: Literal["wood", "channel", "slot", "rod", "thread", "tie"]
    key: str
    grip_mm: float = 0.0
    wood: str = ""
    deep_mm: float = 0.0
    """Thickness of the wood along the screw; 0: not known."""
    edge_mm: float = 0.0
    head: str = "pan"
    washer_d_mm: float = 0.0
    hole_d_mm: float = 0.0


@dataclass(frozen=True)
class Hanging:
    """All of it. `plate`: corners of what presses on the surface (a convex polygon), in part coordinates.

    `load_at`: where the load acts (a point on the hose's axis, in the middle of the width), one per hose.
    `lasting_n`: weight for good, per hose; `level_n`: what a hose pulls level for good, from any side; `snag_n`: once,
    from any direction. `free_to_turn`: a swivel.
    `reactions_n`: of the two points of a batten (near, far), up positive, under the lasting load.
    """

    cradles: tuple[Cradle, ...] = ()
    throats: tuple[Throat, ...] = ()
    eyes: tuple[Eye, ...] = ()
    held: tuple[HeldBy, ...] = ()
    plate: tuple[Vec, ...] = ()
    load_at: tuple[Vec, ...] = ()
    lasting_n: float = 0.0
    level_n: float = 0.0
    snag_n: float = 150.0
    free_to_turn: bool = False
    overhead: bool = True
    reactions_n: tuple[float, ...] = ()
    facts: dict[str, str] = field(default_factory=dict)
