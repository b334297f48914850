"""The collar round the cylinder's front: as deep as the yoke, open behind, with a slot where the fitting stands.

A web as thin as a nose allows would turn with the nose; walls above and below the cylinder, as deep as the yoke, do
not. A square front cover has a web thick enough by itself, and no collar.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.data.air import fitting
from fitwright.errors import DataError, RefusalError
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.blocks import Block, Span
from fitwright.parts.gate.stand_in_cylinder import USUAL_PORT
from fitwright.spec.models import GateBracketSpec

ROOM_MM = 0.8
"""Round the cylinder's front in its pocket."""
FITTING_ROOM_MM = 1.5
"""Each side of the fitting in its slot."""
WALL_MM = 4.0


@dataclass(frozen=True)
class Collar:
    """As modelled: `block` beside the plate, a round pocket of radius `r` about `axis` from behind up to `face`.

    `slot`: the box that the front fitting goes through, from the axis outwards; `way` up, down or left.
    """

    block: Block
    axis: float
    r: float
    face: float
    slot: Block
    way: str

    @property
    def deep_mm(self) -> float:
        """Of pocket and slot."""
        return self.face - self.block.y[0]

    @property
    def slot_mm3(self) -> float:
        """What the slot takes beyond the pocket: its box, less what of the circle lies in it."""
        spans = {
            "up": (self.slot.z, self.slot.x),
            "down": (self.slot.z, self.slot.x),
            "left": (self.slot.x, self.slot.z),
        }
        long, wide = (high - low for low, high in spans[self.way])
        return (long * wide - half_disc_mm2(self.r, wide / 2)) * self.deep_mm

    @property
    def pocket_mm3(self) -> float:
        """What the pocket takes."""
        return math.pi * self.r**2 * self.deep_mm

    @property
    def walls_mm4(self) -> float:
        """Second moment of the walls above and below the pocket; of one where the slot cuts the other."""
        thick = self.block.z[1] - self.r
        deep = self.block.y[1] - self.block.y[0]
        return (1 if self.way in ("up", "down") else 2) * thick * deep**3 / 12

    def twist_rad(self, thrust_n: float, shear_mpa: float) -> float:
        """How far it twists where a slot leaves one wall only: the thrust stands beside that wall's middle.

        A rectangle's torsion constant: Roark's Formulas for Stress and Strain (from memory).
        """
        if self.way == "left":
            return 0.0
        arm, long = (self.block.z[1] + self.r) / 2, self.r
        sides = (self.block.z[1] - self.r, self.block.y[1] - self.block.y[0])
        return thrust_n * arm * long / (shear_mpa * torsion_mm4(max(sides), min(sides)))


def collar_half_mm(half: float, spec: GateBracketSpec, bears_mm: float) -> float:
    """From the axis to the collar's edge: a wall round the pocket, and what bears on the web with a rim."""
    return max(pocket_r_mm(half, spec) + WALL_MM, bears_mm / 2 + 2.0)


def pocket_r_mm(half: float, spec: GateBracketSpec) -> float:
    """Radius of the pocket for a cylinder so wide."""
    return modelled(2 * (half + ROOM_MM), "hole", spec.printer) / 2


def collar(spec: GateBracketSpec, block: Block, axis: float, half: float, face: float) -> Collar:
    """The collar; RefusalError where the ports look at the gate."""
    way, r = spec.cylinder.ports_face, pocket_r_mm(half, spec)
    if way == "right":
        why = "beside the gate that is where the gate's body is"
        raise RefusalError("cylinder.ports", "right", "up, down or left", why)
    wide = min(_fitting_mm(spec) / 2 + FITTING_ROOM_MM, r - 0.5)
    y: Span = (block.y[0], face)
    across = (axis - wide, axis + wide)
    slots = {
        "up": Block(across, y, (0.0, block.z[1])),
        "down": Block(across, y, (block.z[0], 0.0)),
        "left": Block((block.x[0], axis), y, (-wide, wide)),
    }
    return Collar(block, axis, r, face, slots[way], way)


def _fitting_mm(spec: GateBracketSpec) -> float:
    try:
        return fitting(spec.cylinder.port).body_mm
    except DataError:
        return fitting(USUAL_PORT).body_mm


def half_disc_mm2(r: float, a: float) -> float:
    """Area of half a disc of radius r between -a and a.

    >>> round(half_disc_mm2(2.0, 2.0) - math.pi * 2.0, 9)
    0.0
    """
    return a * math.sqrt(max(0.0, r * r - a * a)) + r * r * math.asin(min(1.0, a / r))


def torsion_mm4(a: float, b: float) -> float:
    """Torsion constant of a rectangle a x b, a >= b: 0.1406 of a square's fourth power.

    >>> round(torsion_mm4(1.0, 1.0), 3)
    0.141
    """
    return a * b**3 * (1.0 / 3.0 - 0.21 * b / a * (1.0 - b**4 / (12.0 * a**4)))
