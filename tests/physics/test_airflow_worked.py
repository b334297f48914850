"""Every figure in the tables of the page on airflow's mechanics is what the functions answer."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests import duct_legs_made as made

from fitwright.airway import Leg
from fitwright.physics.duct import (
    Air,
    Band,
    FanCurve,
    Walls,
    leg_loss,
    reynolds,
    sharp,
    system_coefficient,
    total,
    transport,
    velocity_m_s,
    velocity_pressure_pa,
    with_part,
)
from fitwright.physics.duct_bends import Turn, bend
from fitwright.physics.duct_changes import Change, diffuser
from fitwright.physics.duct_ends import entry, from_rest
from fitwright.physics.duct_friction import friction_coefficient
from fitwright.spec.air_losses import loss_tables

PAGE = Path(__file__).parents[2] / "docs" / "airflow_mechanics.md"
TABLES = loss_tables()
AIR = Air()
FLOW, SMALL_FLOW = 0.16, 0.07
CONE = made.cone(100.0, 64.0, 30.0)
S = (made.bend(100.0, 30.0, 1.5), made.bend(100.0, 30.0, 1.5, 20.0))
FAN = FanCurve(((0.0, 2000.0), (0.20, 1500.0), (0.35, 800.0), (0.45, 0.0)))


def lost(
    legs: tuple[Leg, ...] | list[Leg], flow: float = FLOW, forward: bool = True, hose: str = "ribbed hose"
) -> Band:
    return total(leg_loss(leg, flow, forward, AIR, TABLES, Walls(hose=hose)).band_pa for leg in legs)


def said(leg: Leg, flow: float = FLOW, forward: bool = True) -> str:
    found = leg_loss(leg, flow, forward, AIR, TABLES)
    return f"{found.coefficient.words('')}; {found.band_pa.words()}"


def velocity_figures() -> dict[str, str]:
    speed = velocity_m_s(FLOW, made.area(100.0))
    small = velocity_m_s(SMALL_FLOW, made.area(64.0))
    return {
        "0.16 m3/s through 100 mm": f"{speed:.1f} m/s, {velocity_pressure_pa(speed):.0f} Pa",
        "its Reynolds number": f"{round(reynolds(speed, 100.0, AIR), -3):.0f}",
        "0.07 m3/s through 64 mm": f"{small:.1f} m/s, {velocity_pressure_pa(small):.0f} Pa",
        "4000 ft/min": f"{4000 * 0.00508:.1f} m/s, {velocity_pressure_pa(4000 * 0.00508):.0f} Pa",
    }


def change_figures() -> dict[str, str]:
    [step] = sharp([CONE])
    ways = {"narrowing": True, "widening": False}
    figures = {f"cone 100 to 64, 30 deg, {name}": said(CONE, SMALL_FLOW, way) for name, way in ways.items()}
    figures |= {f"step 100 to 64, {name}": said(step, SMALL_FLOW, way) for name, way in ways.items()}
    saved = [lost([step], SMALL_FLOW, way).less(lost([CONE], SMALL_FLOW, way)) for way in ways.values()]
    figures["saved by the cone, narrowing"], figures["saved by the cone, widening"] = (one.words() for one in saved)
    figures["cone 64 to 100, 14 deg, widening"] = said(made.cone(64.0, 100.0, 14.0), SMALL_FLOW)
    figures["cone 64 to 100, 60 deg, widening"] = said(made.cone(64.0, 100.0, 60.0), SMALL_FLOW)
    return figures


def bend_figures() -> dict[str, str]:
    bends = {f"bend 90 deg, R/D {ratio:g}": said(made.bend(100.0, 90.0, ratio)) for ratio in (0.75, 1.0, 1.5, 2.5)}
    return bends | {
        "bend 45 deg, R/D 1.5": said(made.bend(100.0, 45.0, 1.5)),
        "mitre 90 deg": said(made.mitre(100.0, 90.0)),
        "mitre 45 deg": said(made.mitre(100.0, 45.0)),
        "S of two 30 deg bends, R/D 1.5, 20 mm apart": lost(S).words(),
        "S of two 30 deg mitres": lost(sharp(S)).words(),
    }


def wall_figures() -> dict[str, str]:
    hose = made.hose(100.0, 3000.0)
    return {
        "printed bore, 100 mm long": lost([made.straight(100.0, 100.0)]).words(),
        "ribbed hose, 3 m, stretched": lost([hose]).words(),
        "the same hose slack": lost([hose], hose="slack hose").words(),
        "smooth-bore hose, 3 m": lost([hose], hose="smooth-bore hose").words(),
    }


def entry_figures() -> dict[str, str]:
    plain = entry("plain end", TABLES).band
    pressure = velocity_pressure_pa(velocity_m_s(FLOW, made.area(100.0)))
    behind = from_rest().band + plain
    return {
        "plain end": f"{plain.words('')}; Ce {behind.middle**-0.5:.2f}",
        "flanged end": f"{entry('flanged end', TABLES).band.middle:.2f}",
        "bellmouth": f"{entry('bellmouth', TABLES).band.middle:.2f}",
        "suction behind a plain end": behind.times(pressure).words(),
    }


def dust_figures() -> dict[str, str]:
    names = ("wood flour", "sanding dust", "sawdust", "chips", "wet chips")
    return {name: transport(name, TABLES).words("m/s") for name in names}


def fan_figures() -> dict[str, str]:
    system = system_coefficient(1200.0, 0.2)
    part = lost([CONE], SMALL_FLOW, False).times(1.0 / SMALL_FLOW**2)
    kept = with_part(FAN, system, part)
    stepped = with_part(FAN, system, lost(sharp([CONE]), SMALL_FLOW, False).times(1.0 / SMALL_FLOW**2))
    flows = kept.with_part
    return {
        "without the part": f"{kept.without.flow_m3_s:.3f} m3/s at {kept.without.pressure_pa:.0f} Pa",
        "with the cone, widening": f"{flows.low:.3f}-{flows.high:.3f} m3/s, about {flows.middle:.3f}",
        "with a sudden step, widening": f"about {stepped.with_part.middle:.3f} m3/s",
    }


def printed_figures() -> dict[str, str]:
    duct = made.straight(101.6, 304.8)
    speed = velocity_m_s(390 * 0.3048**3 / 60, made.area(101.6))
    foot = friction_coefficient(duct, speed, Air(1.2014), TABLES.walls["galvanised duct"].band)
    widening = diffuser(Change((made.area(100.0), 3 * made.area(100.0)), 12.0, 1e5), TABLES).band
    elbow = bend(Turn(90.0, 100.0, 150.0, 1.5e5), TABLES).band
    return {
        "friction of galvanised duct, 4 in, 390 cfm, a foot": f"{foot.low:.3f}-{foot.high:.3f}",
        "cone that widens three times, 12 deg": f"{widening.low:.2f}-{widening.high:.2f}",
        "bend R/D 1.5, 90 deg": f"{elbow.low:.2f}-{elbow.high:.2f}",
    }


FIGURES = {
    "velocity": velocity_figures,
    "changes": change_figures,
    "bends": bend_figures,
    "walls": wall_figures,
    "entries": entry_figures,
    "dust": dust_figures,
    "fan": fan_figures,
    "printed": printed_figures,
}


def rows() -> dict[str, str]:
    """What the page's tables say: the first cell, and the last."""
    lines = [line for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]
    return {one[0]: one[-1] for one in cells if one[-1] not in ("figure", "ours")}


@pytest.mark.parametrize("section", FIGURES)
def test_figures_on_the_page(section: str) -> None:
    on_page = rows()
    for what, figure in FIGURES[section]().items():
        assert on_page[what] == figure, what


def test_every_figure_on_the_page_is_worked_out() -> None:
    assert set(rows()) == {what for section in FIGURES.values() for what in section()}
