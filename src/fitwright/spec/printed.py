"""What an end is meant to measure once printed, what the bought part measures there, and what is modelled for it.

Plain numbers, no kernel: allowance = the table's + what prints taught; modelled = the calibration undone, and the error
that prints showed taken off. Each is applied here, once.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fitwright.physics.fits import allowance_mm
from fitwright.spec.joints import HoseTail, Joint, Socket, Spigot
from fitwright.spec.models import Printer

GRIP_AT = 0.6
"""A tapered joint meets the bought part's middle size at this share of its depth (common practice, no source)."""
STAND_OFF = 0.35
"""A tapered port is met this share of the depth before the stop, at the most (common practice, no source)."""
HOSE_ALLOWANCE_MM = 0.5
"""A hose tail is smaller than the hose's inside by this where nothing else is said (common practice, no source)."""
GRIPS_BETWEEN = (0.2, 0.9)
"""What prints taught moves the place where a taper grips, but not out of this share of the depth."""
LEAST_CLEARANCE_MM, MOST_EXCESS_MM = 0.02, 0.6
"""What prints taught leaves a gap of this at least, and is four times the spread held likely beforehand at most."""
_LEAD_IN_TAN = math.tan(math.radians(15.0))
_LEAST_WEDGE = 0.25
"""Of the distance before the stop at which a tapered port is met, this share always stays."""

FitJoint = Socket | Spigot | HoseTail
Face = Literal["hole", "outside"]


@dataclass(frozen=True)
class Cone:
    """A diameter along a joint: `d0` [mm] at its mouth, changing by `slope` per mm towards its bottom."""

    d0: float
    slope: float

    def at(self, s: float) -> float:
        """Diameter [mm] at s."""
        return self.d0 + self.slope * s


def face_of(joint: Joint) -> Face:
    """Whether the face that meets the bought part is a hole or an outside."""
    return "hole" if isinstance(joint, Socket) else "outside"


def sign_of(joint: Joint) -> float:
    """1 where a larger print is looser (a socket), else -1."""
    return 1.0 if isinstance(joint, Socket) else -1.0


def bought_cone(joint: FitJoint) -> Cone:
    """The middle of the bought part's spread along the joint: constant, or its taper seen from the joint's mouth."""
    size = joint.size
    middle = (size.least_mm + size.greatest_mm) / 2
    if size.further_mm is None or not size.apart_mm:
        return Cone(middle, 0.0)
    per_mm = (size.further_mm - size.nominal_mm) / size.apart_mm
    # its end face sits at the bottom of the joint, so going in means going towards the end face
    return Cone(middle + per_mm * joint.depth_mm, -per_mm)


def is_wedge(joint: FitJoint) -> bool:
    """Whether the bought part has a taper of its own that closes as it goes in."""
    return sign_of(joint) * bought_cone(joint).slope < -1e-9


def grips_by_taper(joint: FitJoint) -> bool:
    """Whether it is a taper, of the print or of the port, that makes the fit."""
    if isinstance(joint, HoseTail):
        return False
    return bool(joint.taper_deg) or (is_wedge(joint) and joint.allowance_mm is None and joint.fit == "snug")


def printed_cone(joint: FitJoint, printer: Printer) -> Cone:
    """The diameter meant to be measured on the print, along the joint, lead-in left out."""
    excess = excess_mm(joint, printer)
    if isinstance(joint, HoseTail):
        return Cone(joint.size.nominal_mm - (joint.allowance_mm + excess), 0.0)
    sign, bought = sign_of(joint), bought_cone(joint)
    taper = 2.0 * math.tan(math.radians(joint.taper_deg or 0.0))
    if taper and joint.size.further_mm is None and joint.allowance_mm is None:
        return Cone(bought.d0 + sign * (taper * GRIP_AT * joint.depth_mm + excess), -sign * taper)
    if joint.allowance_mm is None and is_wedge(joint) and joint.fit == "snug":
        return Cone(bought.d0 + bought.slope * _stand_off_mm(joint, printer) + sign * excess, bought.slope)
    allowance = table_mm(joint, printer) if joint.allowance_mm is None else joint.allowance_mm
    return Cone(bought.d0 + sign * (allowance + excess), bought.slope - sign * taper)


def table_mm(joint: Socket | Spigot, printer: Printer) -> float:
    """The allowance [mm] of the joint's fit, before any print; more for a port whose readings differ round it."""
    if joint.fit == "stretch":
        return 0.0
    of_fit = allowance_mm(joint.fit, joint.size.longest_mm, printer.scatter_rel, printer.scatter_abs_mm).value_mm
    return of_fit + (joint.size.ovality_mm / 2 if joint.fit in ("slide", "glue") else 0.0)


def excess_mm(joint: FitJoint, printer: Printer) -> float:
    """What prints taught about this joint's clearance [mm], kept within what still is the fit asked for."""
    if joint.learned is None or not joint.learned.verdicts:
        return 0.0
    low, high = _excess_bounds(joint, printer)
    return min(max(joint.learned.excess_mm, low), high)


def _excess_bounds(joint: FitJoint, printer: Printer) -> tuple[float, float]:
    if isinstance(joint, HoseTail):
        return -joint.allowance_mm, MOST_EXCESS_MM
    taper = 2.0 * math.tan(math.radians(joint.taper_deg or 0.0))
    if taper:
        low, high = (taper * joint.depth_mm * (share - GRIP_AT) for share in GRIPS_BETWEEN)
        return max(low, -MOST_EXCESS_MM), min(high, MOST_EXCESS_MM)
    if grips_by_taper(joint):
        interference = _stand_off_mm(joint, printer) * abs(bought_cone(joint).slope)
        return -interference, (1.0 - _LEAST_WEDGE) * interference
    if joint.fit == "stretch":
        return -MOST_EXCESS_MM, min(MOST_EXCESS_MM, -0.5 * (joint.allowance_mm or 0.0))
    return LEAST_CLEARANCE_MM - table_mm(joint, printer), MOST_EXCESS_MM


def modelled(printed_d: float, kind: str, printer: Printer) -> float:
    """The diameter [mm] to model so that it measures `printed_d` once printed; kind is `hole` or `outside`."""
    offset = printer.hole_offset_mm if kind == "hole" else printer.outside_offset_mm
    return (printed_d - offset) / printer.scale_xy


def as_printed(modelled_d: float, kind: str, printer: Printer) -> float:
    """What a modelled diameter [mm] measures once printed, as the printer's calibration says."""
    offset = printer.hole_offset_mm if kind == "hole" else printer.outside_offset_mm
    return printer.scale_xy * modelled_d + offset


def modelled_at(joint: FitJoint, s_mm: float, printer: Printer) -> float:
    """The diameter [mm] to model at a place along the joint: calibration and the error that prints showed undone."""
    error = joint.learned.size_error_mm if joint.learned else 0.0
    return modelled(printed_cone(joint, printer).at(s_mm) - error, face_of(joint), printer)


def read_at_mm(joint: FitJoint) -> float:
    """Where a print is measured [mm from the mouth]: just behind the lead-in; a tail is the same all along its land."""
    if isinstance(joint, HoseTail):
        return 0.0
    return min(joint.lead_in_mm / _LEAD_IN_TAN, joint.depth_mm)


def _stand_off_mm(joint: FitJoint, printer: Printer) -> float:
    """How far short of its stop [mm] a joint with the port's own taper grips, whatever the print's scatter."""
    spread = (joint.size.greatest_mm - joint.size.least_mm) / 2
    scatter = printer.scatter_abs_mm + printer.scatter_rel * joint.size.nominal_mm
    return min(STAND_OFF * joint.depth_mm, (scatter + spread) / abs(bought_cone(joint).slope))
