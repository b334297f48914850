"""A screw through a plate into wood, pushed aside: the six ways in which the joint yields, and the distances it needs.

Lengths in mm, forces in N, stresses in MPa. Single shear, the side plate of any material whose bearing strength is
given. Source: American Wood Council, Technical Report 12, General Dowel Equations for Calculating Lateral Connection
Values, 2012, table 1-1 (solid members; the coefficients from memory, held by the tests against the closed forms of the
National Design Specification, NDS 2018, table 12.3.1A). The yield is at 5 % of a diameter; what tears is more. The pull
of the screw that builds up as it bends (rope effect) is not counted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

PA_PER_PSI = 6894.757
_MPA_PER_PSI = PA_PER_PSI / 1e6
THIN_MM = 6.35
"""Below a quarter of an inch the direction of the grain does not count (NDS 2018, table 12.3.3)."""
MODES = ("Im", "Is", "II", "IIIm", "IIIs", "IV")
"""NDS 2018, appendix I: wood crushed, plate crushed, both crushed by a tilting screw, one hinge, one hinge, two."""
MODE_WORDS = {
    "Im": "the wood is crushed",
    "Is": "the plate is crushed",
    "II": "the screw tilts and crushes both",
    "IIIm": "the screw bends in the plate and crushes the wood",
    "IIIs": "the screw bends in the wood and crushes the plate",
    "IV": "the screw bends in both",
}


@dataclass(frozen=True)
class SideJoint:
    """A screw of `bearing_mm` diameter (its core where the thread crosses) in a plate and in wood.

    `plate_mm` and `in_wood_mm` are the lengths on which it bears; `gap_mm` what is free between (a washer, a batten's
    edge); `plate_mpa` and `wood_mpa` their bearing strengths; `bending_mpa` what the screw yields at.
    `in_plate_mm`: the diameter with which it bears in the plate, where that is another (over the thread).
    """

    bearing_mm: float
    plate_mm: float
    in_wood_mm: float
    plate_mpa: float
    wood_mpa: float
    bending_mpa: float
    gap_mm: float = 0.0
    in_plate_mm: float | None = None

    def yields_n(self) -> dict[str, float]:
        """The load [N] of every mode, before any factor.

        >>> one = SideJoint(2.8, 8.0, 40.0, 30.0, 23.2, 620.0)
        >>> round(one.yields_n()["IV"])
        577
        """
        d, g = self.bearing_mm, self.gap_mm
        qs, qm = self.plate_mpa * (self.in_plate_mm or d), self.wood_mpa * d
        ls, lm = self.plate_mm, self.in_wood_mm
        bend = self.bending_mpa * d**3 / 6.0
        return {
            "Im": qm * lm,
            "Is": qs * ls,
            "II": _positive(1 / (4 * qs) + 1 / (4 * qm), ls / 2 + g + lm / 2, -qs * ls**2 / 4 - qm * lm**2 / 4),
            "IIIm": _positive(1 / (2 * qs) + 1 / (4 * qm), g + lm / 2, -bend - qm * lm**2 / 4),
            "IIIs": _positive(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + g, -qs * ls**2 / 4 - bend),
            "IV": _positive(1 / (2 * qs) + 1 / (2 * qm), g, -2.0 * bend),
        }

    @property
    def yield_n(self) -> float:
        """The least of all modes [N]."""
        return min(self.yields_n().values())

    @property
    def mode(self) -> str:
        """The mode of the least."""
        loads = self.yields_n()
        return min(loads, key=lambda name: loads[name])

    @property
    def reference_n(self) -> float:
        """The design value of NDS 2018 for ten years of load [N]: each mode over its reduction, the least.

        For screws under a quarter of an inch the reduction is 2.2, from 0.17 in on 10 D + 0.5 (table 12.3.1B); for
        thicker ones 4, 3.6 and 3.2 along the grain.
        """
        d_in = self.bearing_mm / 25.4
        thin = 2.2 if d_in <= 0.17 else 10.0 * d_in + 0.5
        thick = {"Im": 4.0, "Is": 4.0, "II": 3.6, "IIIm": 3.2, "IIIs": 3.2, "IV": 3.2}
        small = self.bearing_mm < THIN_MM
        return min(load / (thin if small else thick[mode]) for mode, load in self.yields_n().items())


def wood_bearing_mpa(gravity: float, diameter_mm: float, across_grain: bool = True) -> float:
    """What wood bears at the side of a screw: NDS 2018, table 12.3.3, footnotes.

    Thinner than 1/4 in: 16600 G^1.84 psi whatever the grain; above 11200 G along, 6100 G^1.45 / sqrt(D) across it.

    >>> round(wood_bearing_mpa(0.50, 4.8), 1)
    32.0
    """
    if diameter_mm < THIN_MM:
        return float(16600.0 * gravity**1.84 * _MPA_PER_PSI)
    if across_grain:
        return float(6100.0 * gravity**1.45 / math.sqrt(diameter_mm / 25.4) * _MPA_PER_PSI)
    return 11200.0 * gravity * _MPA_PER_PSI


@dataclass(frozen=True)
class Distances:
    """Least distances of screws in wood [mm]: between them along and across the grain; to the end and to the edge.

    `loaded`: the force pushes towards that end or edge; else away from it or along it.
    """

    along_mm: float
    across_mm: float
    end_loaded_mm: float
    end_mm: float
    edge_loaded_mm: float
    edge_mm: float


def distances(major_mm: float, pilot: bool, angle_deg: float | None = None) -> Distances:
    """EN 1995-1-1:2004, table 8.2 for d <= 6 mm (wood up to 420 kg/m3), table 8.4 above; from memory.

    `angle_deg`: force to the grain; None takes the worst of every angle. Without a pilot hole screws up to 6 mm need
    more; thicker ones always have one (8.7.1 (6)). A snag may be taken at None, a hanging weight on a joist's side
    at 90.

    >>> [distances(5.0, pilot, 90.0).edge_loaded_mm for pilot in (False, True)]
    [50.0, 35.0]
    """
    cos = 1.0 if angle_deg is None else abs(math.cos(math.radians(angle_deg)))
    sin = 1.0 if angle_deg is None else abs(math.sin(math.radians(angle_deg)))
    d = major_mm
    if d > 6.0:
        end = max(4.0, 1.0 + 6.0 * sin)
        loaded = max(7.0 * d, 80.0)
        return Distances(*_mm((4 + cos) * d, 4 * d, loaded, end * d, max(2 + 2 * sin, 3.0) * d, 3 * d))
    if pilot:
        edge = (3 + 2 * sin) if d < 5.0 else (3 + 4 * sin)
        return Distances(*_mm((4 + cos) * d, (3 + sin) * d, (7 + 5 * cos) * d, 7 * d, edge * d, 3 * d))
    along = (5 + 5 * cos) if d < 5.0 else (5 + 7 * cos)
    edge = (5 + 2 * sin) if d < 5.0 else (5 + 5 * sin)
    return Distances(*_mm(along * d, 5 * d, (10 + 5 * cos) * d, 10 * d, edge * d, 5 * d))


def pulled_distances(major_mm: float) -> Distances:
    """For screws that are pulled along their axis: EN 1995-1-1 + A1, table 8.6 (from memory): 7, 5, 10, 4 d."""
    d = major_mm
    return Distances(*_mm(7 * d, 5 * d, 10 * d, 10 * d, 4 * d, 4 * d))


def _mm(*values: float) -> tuple[float, ...]:
    return tuple(round(value, 6) for value in values)


def _positive(a: float, b: float, c: float) -> float:
    """The positive root of a x^2 + b x + c."""
    return (-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a)
