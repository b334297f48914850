"""Losses of bends and mitres, on the velocity pressure of the narrower end."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.duct_friction import friction_factor
from fitwright.physics.duct_methods import Answer, Coefficient, together
from fitwright.physics.duct_tables import LossTables

RENNELS = "Rennels & Hudson, Pipe Flow, 2012 (fluids)"
MILLER = "Miller, Internal Flow Systems, 1990 (fluids)"
CRANE = "Crane TP-410, 2009 (fluids)"


@dataclass(frozen=True)
class Turn:
    """A change of direction: angle [deg], bore [mm], centreline radius [mm, 0 for a mitre], Re, roughness [mm].

    `flat_sided` where the section is not round: then the square elbow's table is put beside the round ones.
    """

    angle_deg: float
    diameter_mm: float
    radius_mm: float
    reynolds: float
    roughness_mm: float = 0.0
    flat_sided: bool = False

    @property
    def friction(self) -> float:
        """f L / D along the arc; 0 for a mitre."""
        factor = friction_factor(self.reynolds, min(self.roughness_mm, 0.1 * self.diameter_mm), self.diameter_mm)
        return factor * math.radians(self.angle_deg) * self.radius_mm / self.diameter_mm


def bend(turn: Turn, tables: LossTables) -> Coefficient:
    """A smooth bend: duct tables, Rennels (R/D from 0.5), Miller (0.5 to 10, 10 to 180 deg), Crane (1 to 20, from 90).

    Below 20 deg the duct tables' factor runs straight to 0 at 0 deg, as printed there. Crane's rule counts 90 deg
    bends: below 90 deg it does not go to 0, and is left out. Pipe authors include the friction along the arc; duct
    tables leave it to the straights, measured to where they meet (from memory of ASHRAE's method): it is added to
    them, but for the band's low end.
    """
    ratio = turn.radius_mm / turn.diameter_mm
    factor = tables.elbow_angle.at(turn.angle_deg)
    past = "" if ratio <= 2.5 else f"the duct tables end at R/D 2.5 (here {ratio:.1f}): their last value holds on"
    factors = [(curve, factor) for curve in tables.elbow if ratio >= curve.x[0]]
    if turn.flat_sided:
        factors += [(curve, factor * tables.reynolds_elbow.at(turn.reynolds)) for curve in tables.square_elbow]
    answers = [Answer(curve.source, curve.at(ratio) * share, past, turn.friction) for curve, share in factors]
    answers += _fluids_bend(turn, ratio)
    return together(answers, _sharper_than_tables(ratio))


def mitre(turn: Turn, tables: LossTables) -> Coefficient:
    """A mitre: the duct table with its Reynolds factor, Rennels (to 150 deg), Crane (to 90), Miller (10 to 120).

    Below 20 deg the duct table is carried straight down to 0 at 0 deg.
    """
    import fluids
    from fluids.fittings import bend_miter_Miller

    metres, rough = turn.diameter_mm * 1e-3, turn.roughness_mm * 1e-3
    answers = [Answer(RENNELS, fluids.bend_miter(turn.angle_deg, method="Rennels"))]
    if turn.angle_deg <= 90.0:
        answers.append(Answer(tables.mitre.source, single_mitre(turn, tables)))
        answers.append(Answer(CRANE, fluids.bend_miter(turn.angle_deg, Di=metres, method="Crane")))
    if 10.0 <= turn.angle_deg <= 120.0 and turn.reynolds >= 1e4:
        miller = bend_miter_Miller(Di=metres, angle=turn.angle_deg, Re=turn.reynolds, roughness=rough)
        answers.append(Answer(MILLER, miller))
    return together(answers, _slow(turn.reynolds))


def single_mitre(turn: Turn, tables: LossTables) -> float:
    """The duct table's coefficient of a mitre with its factor for the Reynolds number."""
    begins = min(1.0, turn.angle_deg / tables.mitre.x[0])
    return tables.mitre.at(turn.angle_deg) * begins * tables.reynolds_mitre.at(turn.reynolds)


def _fluids_bend(turn: Turn, ratio: float) -> list[Answer]:
    import fluids
    from fluids.fittings import bend_rounded_Crane, bend_rounded_Miller

    metres, rough = turn.diameter_mm * 1e-3, turn.roughness_mm * 1e-3
    bore = {"Di": metres, "angle": turn.angle_deg, "rc": turn.radius_mm * 1e-3}
    answers = []
    if ratio >= 0.5:
        rennels = fluids.bend_rounded(**bore, Re=turn.reynolds, roughness=rough, method="Rennels")
        answers.append(Answer(RENNELS, rennels))
    if 0.5 <= ratio <= 10.0 and turn.angle_deg >= 10.0 and turn.reynolds >= 1e4:
        answers.append(Answer(MILLER, bend_rounded_Miller(**bore, Re=turn.reynolds, roughness=rough)))
    if 1.0 <= ratio <= 20.0 and turn.angle_deg >= 90.0:
        answers.append(Answer(CRANE, bend_rounded_Crane(**bore)))
    return answers


def _sharper_than_tables(ratio: float) -> str:
    return "" if ratio >= 0.5 else f"R/D {ratio:.2f} is sharper than any table (0.5): take it as a mitre"


def _slow(number: float) -> str:
    return "" if number >= 1e4 else f"the tables begin at Re 10 000 (here {number:.0f})"
