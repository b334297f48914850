"""The loss of one leg of a passage, either way, as a band with its sources."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.airway import Leg
from fitwright.errors import DataError
from fitwright.physics.duct_air import Air, reynolds, round_mm, velocity_m_s, velocity_pressure_pa
from fitwright.physics.duct_band import NOTHING, Band
from fitwright.physics.duct_bends import Turn, bend, mitre
from fitwright.physics.duct_changes import Change, cone, step
from fitwright.physics.duct_close import close_factor
from fitwright.physics.duct_ends import entry, from_rest
from fitwright.physics.duct_friction import COLEBROOK, friction_coefficient
from fitwright.physics.duct_methods import Coefficient
from fitwright.physics.duct_tables import LossTables, named

SAME_AREA = 0.005
"""Areas that differ by less than this share count as equal: no handbook's loss can be told from friction there."""

TURBULENT = 4000.0
"""Reynolds number from which pipe flow is surely turbulent; the handbooks' coefficients are of such flow."""
FASTEST_M_S = 100.0
"""About Mach 0.3, where air's density changes by a twentieth."""
SHAPE_ALONE = "the areas at both ends are the same: friction alone; no table tells what a change of shape costs"


@dataclass(frozen=True)
class Walls:
    """What the air rubs along: the names of rows of the tables of walls and of hoses."""

    wall: str = "printed"
    hose: str = "ribbed hose"


@dataclass(frozen=True)
class LegLoss:
    """What a leg costs.

    `band_pa` = `coefficient` x `velocity_pressure_pa`, that of the smaller end (`velocity_m_s` there). `sources` are
    the handbooks put side by side; `note` says where one of them is used at the edge of its range.
    """

    name: str
    band_pa: Band
    coefficient: Band
    velocity_pressure_pa: float
    velocity_m_s: float
    sources: tuple[str, ...]
    note: str = ""


def leg_loss(
    leg: Leg, flow_m3_s: float, forward: bool, air: Air, tables: LossTables, walls: Walls | None = None
) -> LegLoss:
    """What a leg costs at a flow [m3/s], `forward` from its beginning to its end, or the other way.

    DataError names the leg where its numbers make no sense.
    """
    _sound(leg)
    walls = walls or Walls()
    met = leg if forward else turned(leg)
    speed = velocity_m_s(flow_m3_s, min(leg.area_mm2))
    if speed == 0.0:
        return LegLoss(leg.name, NOTHING, NOTHING, 0.0, 0.0, ())
    found = _coefficient(met, speed, air, tables, walls)
    pressure = velocity_pressure_pa(speed, air.density_kg_m3)
    note = "; ".join(part for part in (found.note, _range_note(leg, speed, air)) if part)
    return LegLoss(leg.name, found.band.times(pressure), found.band, pressure, speed, found.sources, note)


def turned(leg: Leg) -> Leg:
    """The same leg met from its other end; `follows_mm` is kept: two bends are close from either side."""
    return replace(leg, area_mm2=leg.area_mm2[::-1], hydraulic_mm=leg.hydraulic_mm[::-1], facing=not leg.facing)


def _coefficient(leg: Leg, speed: float, air: Air, tables: LossTables, walls: Walls) -> Coefficient:
    if leg.kind in ("straight", "hose"):
        return _along(leg, speed, air, tables, walls)
    if leg.kind in ("bend", "mitre"):
        return _turn(leg, speed, air, tables, walls)
    if leg.kind in ("entry", "start"):
        return entry(leg.row, tables) if leg.kind == "entry" else from_rest()
    if same_area(leg):
        return _along(leg, speed, air, tables, walls, SHAPE_ALONE)
    change = _change(leg, speed, air, tables, walls)
    return step(change, tables) if leg.kind == "step" else cone(change, tables)


def _along(leg: Leg, speed: float, air: Air, tables: LossTables, walls: Walls, note: str = "") -> Coefficient:
    hose = leg.kind == "hose"
    row = named(tables.hoses, leg.row or walls.hose, "hose") if hose else named(tables.walls, walls.wall, "wall")
    band = friction_coefficient(leg, speed, air, row.band).by(row.factor)
    text = "; ".join(part for part in (note, row.note) if part)
    return Coefficient(band, (COLEBROOK, row.source), text)


def _range_note(leg: Leg, speed: float, air: Air) -> str:
    """Where the flow is too slow or too fast for what the handbooks measured, or a bend's ends are not alike."""
    if leg.kind in ("bend", "mitre") and not same_area(leg):
        return "its ends differ: reckoned with the smaller, the change of area not counted"
    if speed > FASTEST_M_S:
        return f"{speed:.0f} m/s: above {FASTEST_M_S:g} m/s air is squeezed, and these sums do not hold"
    number = reynolds(speed, min(leg.hydraulic_mm), air)
    return f"Re {number:.0f}: handbooks begin at {TURBULENT:g}" if number < TURBULENT else ""


def _reynolds(speed: float, diameter_mm: float, air: Air) -> float:
    """The Reynolds number for a handbook: not below that where the flow is turbulent."""
    return max(TURBULENT, reynolds(speed, diameter_mm, air))


def _turn(leg: Leg, speed: float, air: Air, tables: LossTables, walls: Walls) -> Coefficient:
    bore = min(leg.hydraulic_mm)
    rough = named(tables.walls, walls.wall, "wall").band.middle
    radius = leg.radius_mm if leg.kind == "bend" else 0.0
    turn = Turn(leg.angle_deg, bore, radius, _reynolds(speed, bore, air), rough, _flat_sided(leg))
    found = bend(turn, tables) if leg.kind == "bend" else mitre(turn, tables)
    close = None if leg.follows_mm is None else close_factor(turn, leg.follows_mm, tables)
    if close is not None:
        note = "; ".join(part for part in (found.note, close.note) if part)
        sources = tuple(dict.fromkeys((*found.sources, *close.sources)))
        found = Coefficient(found.band.by(close.band), sources, note)
    if leg.kind == "mitre" and leg.length_mm > 0.0:
        straights = friction_coefficient(leg, speed, air, named(tables.walls, walls.wall, "wall").band)
        return replace(found, band=found.band + straights)
    return found


def _change(leg: Leg, speed: float, air: Air, tables: LossTables, walls: Walls) -> Change:
    small = leg.area_mm2.index(min(leg.area_mm2))
    number = _reynolds(speed, leg.hydraulic_mm[small], air)
    rough = named(tables.walls, walls.wall, "wall").band.middle
    return Change(leg.area_mm2, 180.0 if leg.kind == "step" else _whole_angle(leg), number, rough, _flat_sided(leg))


def _whole_angle(leg: Leg) -> float:
    """Twice the steepest line's angle; where it is not given, that of the round cone between the same areas."""
    if leg.half_angle_deg > 0.0:
        return min(180.0, 2.0 * leg.half_angle_deg)
    if leg.length_mm <= 0.0:
        return 180.0
    first, second = (round_mm(area) for area in leg.area_mm2)
    return 2.0 * math.degrees(math.atan(abs(second - first) / (2.0 * leg.length_mm)))


def _flat_sided(leg: Leg) -> bool:
    """Whether a section is not round: its hydraulic diameter is below that of the circle of its area."""
    return any(h < 0.97 * round_mm(a) for a, h in zip(leg.area_mm2, leg.hydraulic_mm, strict=True))


def same_area(leg: Leg) -> bool:
    """Whether the areas at both ends count as equal."""
    return max(leg.area_mm2) / min(leg.area_mm2) - 1.0 < SAME_AREA


def _sound(leg: Leg) -> None:
    """DataError where the leg's numbers make no sense."""
    for what, value in (("area", min(leg.area_mm2)), ("hydraulic diameter", min(leg.hydraulic_mm))):
        if not (math.isfinite(value) and value > 0.0):
            raise DataError(f"{leg.name}: {what} {value:g}; allowed: above 0")
    if not (math.isfinite(leg.length_mm) and leg.length_mm >= 0.0):
        raise DataError(f"{leg.name}: length {leg.length_mm:g} mm; allowed: 0 or more")
    if leg.kind in ("bend", "mitre") and not 0.0 < leg.angle_deg <= (180.0 if leg.kind == "bend" else 150.0):
        most = 180 if leg.kind == "bend" else 150
        raise DataError(f"{leg.name}: angle {leg.angle_deg:g} deg; allowed: above 0, to {most} for a {leg.kind}")
    if leg.kind == "bend" and not leg.radius_mm >= 0.5 * min(leg.hydraulic_mm):
        least = 0.5 * min(leg.hydraulic_mm)
        raise DataError(f"{leg.name}: radius {leg.radius_mm:g} mm; allowed: {least:.4g} mm (half the bore) or more")
    if not 0.0 <= leg.half_angle_deg <= 90.0:
        raise DataError(f"{leg.name}: half angle {leg.half_angle_deg:g} deg; allowed: 0 to 90")
