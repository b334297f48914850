"""A piece of a bracket: an exact solid with what was meant by it; pieces are fused to bodies."""

from __future__ import annotations

from dataclasses import dataclass

from cadquery import Solid, Vector

from fitwright.errors import BuildError
from fitwright.frame import Frame
from fitwright.part import Body, Feature, HoleFit, Pose, RoundSize, WallZone
from fitwright.tolerances import TOLERANCES

ALONG = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
"""The part's own frame: right = x, inward = y (outwards from the gate), up = z."""
UPRIGHT = Frame((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
"""For what goes along z: right = x, inward = z, up = -y."""


@dataclass(frozen=True)
class Piece:
    """A solid and what it was meant to be: through holes (`genus`), closed-form volume, cuts and bosses, hole sizes."""

    name: str
    solid: Solid
    genus: int
    volume_mm3: float
    features: tuple[Feature, ...] = ()
    holes: tuple[HoleFit, ...] = ()
    wall_zones: tuple[WallZone, ...] = ()
    rounds: tuple[RoundSize, ...] = ()


def box(x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]) -> Solid:
    """A box between these coordinates [mm], each low then high."""
    size = (x[1] - x[0], y[1] - y[0], z[1] - z[0])
    if min(size) <= 0:
        raise BuildError(f"a box of {size[0]:.3f} x {size[1]:.3f} x {size[2]:.3f} mm")
    return Solid.makeBox(*size, Vector(x[0], y[0], z[0]))


def body_of(piece: Piece, wall_mm: float, poses: tuple[Pose, ...], moving: bool = False) -> Body:
    """The printed body; BuildError where its volume is not the closed form's."""
    volume = piece.solid.Volume()
    if abs(volume - piece.volume_mm3) > TOLERANCES.sewn_volume_rel * piece.volume_mm3:
        raise BuildError(f"{piece.name}: volume {volume:.3f} mm3 where the closed form gives {piece.volume_mm3:.3f}")
    return Body(
        name=piece.name,
        solid=piece.solid,
        genus=piece.genus,
        wall_mm=wall_mm,
        poses=poses,
        features=piece.features,
        holes=piece.holes,
        wall_zones=piece.wall_zones,
        rounds=piece.rounds,
        moving=moving,
    )
