"""Losses where the area changes: cones both ways, sudden steps; all on the velocity pressure of the smaller end."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from fitwright.physics.duct_bends import CRANE, RENNELS
from fitwright.physics.duct_friction import friction_factor
from fitwright.physics.duct_grid import Field, between
from fitwright.physics.duct_methods import Answer, Coefficient, together
from fitwright.physics.duct_tables import LossTables

BORDA = "Borda-Carnot, exact for an even flow"
IDELCHIK = "Idelchik, Handbook of Hydraulic Resistance, 1966 (fluids)"


@dataclass(frozen=True)
class Change:
    """A change of area: the areas [mm2] as the air meets them, the whole angle between the walls [deg, 180: sudden].

    `reynolds` is that of the smaller end; `roughness_mm` of the wall; `flat_sided` where an end is not round.
    """

    area_mm2: tuple[float, float]
    whole_angle_deg: float
    reynolds: float
    roughness_mm: float = 0.0
    flat_sided: bool = False

    @property
    def widens(self) -> bool:
        """Whether the air comes out into a larger area."""
        return self.area_mm2[1] > self.area_mm2[0]

    @property
    def ratio(self) -> float:
        """The larger area over the smaller."""
        return max(self.area_mm2) / min(self.area_mm2)

    def diameters_m(self) -> dict[str, float]:
        """The diameters of the circles with these areas, as the air meets them, as `fluids` calls them [m]."""
        first, second = (math.sqrt(4.0 * area / math.pi) * 1e-3 for area in self.area_mm2)
        return {"Di1": first, "Di2": second}


def cone(change: Change, tables: LossTables) -> Coefficient:
    """A gradual change: as a diffuser where the air slows down, as a contraction where it speeds up."""
    return diffuser(change, tables) if change.widens else contraction(change, tables)


def step(change: Change, tables: LossTables) -> Coefficient:
    """A sudden change."""
    return expansion(change, tables) if change.widens else sudden_contraction(change, tables)


def diffuser(change: Change, tables: LossTables) -> Coefficient:
    """Duct tables (whole angle from 16 deg), Rennels, Crane, Idelchik (area ratio 1.67 to 20, from 3 deg).

    Between area ratio 1 and 2, the tables' first, their share of the Borda-Carnot loss at 2 is kept. Miller's chart is
    left out: its fit in `fluids` jumps; so is Swamee's formula, which does not go to 0 with the change.
    """
    import fluids

    angle, ratio = change.whole_angle_deg, change.ratio
    sizes = change.diameters_m()
    answers = []
    if angle >= 16.0:
        answers.append(_table_diffuser(change, tables))
        if change.flat_sided:
            answers.append(Answer(tables.pyramid.source, _share_of(tables.pyramid, angle, ratio, borda)))
    rough = change.roughness_mm * 1e-3
    rennels = fluids.diffuser_conical(**sizes, angle=angle, Re=change.reynolds, roughness=rough, method="Rennels")
    answers.append(Answer(RENNELS, rennels))
    crane = fluids.diffuser_conical(**sizes, angle=angle, method="Crane")
    answers.append(Answer(CRANE, crane, friction=cone_friction(change)))
    if 1.67 <= ratio <= 20.0 and angle >= 3.0:
        answers.append(Answer(IDELCHIK, fluids.diffuser_conical(**sizes, angle=angle, method="Idelchik")))
    return together(answers, _diffuser_note(change))


def contraction(change: Change, tables: LossTables) -> Coefficient:
    """Duct tables (whole angle from 10 deg; a second one from 30 to 60), Rennels, Crane.

    Between area ratio 1 and 2 the table's share of 1 - A2/A1 at 2 is kept. Idelchik lies between the others from 25
    deg on, and reads high below (`fluids` warns of it): left out, as are Miller and Blevins, whose fits jump there,
    and Swamee, whose formula does not go to 0 with the change.
    """
    import fluids

    angle, ratio = change.whole_angle_deg, change.ratio
    sizes = change.diameters_m()
    rough = change.roughness_mm * 1e-3
    answers = []
    if angle >= tables.contraction.x[0]:
        answers.append(Answer(tables.contraction.source, _share_of(tables.contraction, angle, ratio, narrowing)))
    if tables.contraction_cone.covers(angle):
        answers.append(Answer(tables.contraction_cone.source, tables.contraction_cone.at(angle)))
    rennels = fluids.contraction_conical(**sizes, angle=angle, Re=change.reynolds, roughness=rough, method="Rennels")
    answers.append(Answer(RENNELS, rennels))
    crane = fluids.contraction_conical(**sizes, angle=angle, method="Crane")
    answers.append(Answer(CRANE, crane, friction=cone_friction(change)))
    return together(answers)


def expansion(change: Change, tables: LossTables) -> Coefficient:
    """Borda-Carnot (1 - A1/A2)^2, and the duct tables' 180 deg."""
    answers = [
        Answer(BORDA, borda(change.ratio)),
        _table_diffuser(Change(change.area_mm2, 180.0, change.reynolds), tables),
    ]
    return together(answers)


def sudden_contraction(change: Change, tables: LossTables) -> Coefficient:
    """Two duct tables, Rennels, and Crane's 0.5 (1 - A2/A1)."""
    import fluids

    sizes, rough = change.diameters_m(), change.roughness_mm * 1e-3
    sharp = fluids.contraction_sharp(**sizes, Re=change.reynolds, roughness=rough, method="Rennels")
    return together(
        [
            Answer(tables.sudden_contraction.source, tables.sudden_contraction.at(1.0 / change.ratio)),
            Answer(tables.contraction.source, _share_of(tables.contraction, 180.0, change.ratio, narrowing)),
            Answer(RENNELS, sharp),
            Answer(CRANE, 0.5 * narrowing(change.ratio)),
        ]
    )


def borda(ratio: float) -> float:
    """(1 - A1/A2)^2, on the smaller end's velocity pressure; `ratio` is A2/A1, 1 or more.

    >>> round(borda(2.5), 6)
    0.36
    """
    return (1.0 - 1.0 / ratio) ** 2


def cone_friction(change: Change) -> float:
    """The wall's friction in a cone, f (1 - (A1/A2)^2) / (8 sin(half)) on the small end: the integral of f dL / D."""
    small_mm = min(change.diameters_m().values()) * 1e3
    factor = friction_factor(change.reynolds, min(change.roughness_mm, 0.1 * small_mm), small_mm)
    return factor * (1.0 - change.ratio**-2) / (8.0 * math.sin(math.radians(change.whole_angle_deg) / 2.0))


def narrowing(ratio: float) -> float:
    """1 - A2/A1 of a contraction; `ratio` is the larger area over the smaller."""
    return 1.0 - 1.0 / ratio


def _table_diffuser(change: Change, tables: LossTables) -> Answer:
    """The duct tables' diffuser between their Reynolds numbers (over the logarithm), level beyond them."""
    numbers = tuple(math.log(number) for number, _ in tables.diffuser)
    values = tuple(_share_of(field, change.whole_angle_deg, change.ratio, borda) for _, field in tables.diffuser)
    low = tables.diffuser[0][0]
    note = "" if change.reynolds >= low else f"the diffuser tables begin at Re {low:.0f} (here {change.reynolds:.0f})"
    return Answer(tables.diffuser[0][1].source, between(numbers, values, math.log(change.reynolds)), note)


def _share_of(field: Field, angle: float, ratio: float, ideal: Callable[[float], float]) -> float:
    """The table's value; below its first area ratio the share that it has there of what the ideal change loses."""
    first = field.y[0]
    if ratio >= first:
        return field.at(angle, ratio)
    return field.at(angle, first) / ideal(first) * ideal(ratio)


def _diffuser_note(change: Change) -> str:
    """Above 45 deg every source has it at about Borda-Carnot or above."""
    if change.whole_angle_deg > 45.0:
        return f"walls at {change.whole_angle_deg:.0f} deg to each other: the air leaves them as at a plain step"
    return ""
