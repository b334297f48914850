"""Part of the check `airflow`: how fast the air goes in each section, and whether that carries the dust."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from fitwright.airway import Leg
from fitwright.checks.airflow_words import about, ends, flow_words, speed_words
from fitwright.finding import Finding
from fitwright.physics.duct import Band, transport, velocity_m_s
from fitwright.spec.air import Air
from fitwright.spec.air_run import Run, tables
from fitwright.units import FLOWS_M3_S, Units, format_flow, format_speed

CODE = "airflow.speed"
SAME = 0.01
"""Neighbouring sections whose speeds differ by less than this share are told as one."""

_FIFTY_FT_MIN = 50 * 0.3048 / 60
Place = tuple[str, float]
"""A section's name and its area [mm2]."""


def speed_findings(body: str, legs: Sequence[Leg], run: Run, air: Air, units: Units) -> list[Finding]:
    """One finding: the speeds in the order of the flow, the slowest against what carries the dust."""
    hose = [("the run's hose", math.pi / 4 * air.hose.inside_mm**2)] if air.hose else []
    places = [*_places(legs), *hose]
    where, area = max(places, key=lambda place: place[1])
    slowest = _speed(run.flows, area)
    said = f"at {flow_words(run.flows, units)}: {_listed(places, run.flows, units)}"
    if air.dust is None:
        message = f"{said} (name the dust to have it judged)"
        return [Finding(CODE, "pass", body, slowest.middle, None, "m/s", where, message)]
    need = _wanted(transport(air.dust, tables()), units)
    wanted = f"for {air.dust} {_range(need, units)} is wanted"
    value = slowest.low, need.low, "m/s", where
    if slowest.low >= need.low:
        verdict = "carried everywhere" if slowest.low >= need.high else "carried where the run is clean and straight"
        return [Finding(CODE, "pass", body, *value, f"{said}; {wanted}: {verdict}")]
    message = f"{_verdict(slowest, need, air.dust, where, units)} ({wanted}); {said}"
    return [Finding(CODE, "warn", body, *value, message, _cure(run, air, need, area, units))]


def _verdict(slowest: Band, need: Band, dust: str, where: str, units: Units) -> str:
    """Too slow by every handbook, or by some of them."""
    if slowest.high < need.low:
        return f"too slow for {dust} in {where}, {ends(speed_words(slowest, units))}: it settles and plugs"
    low, high = (format_speed(speed, units) for speed in (slowest.low, slowest.high))
    return (
        f"it may be too slow for {dust} in {where}: {low} if the costliest handbook is right, {high} by the kindest; "
        "below what is wanted it settles and plugs"
    )


def _speed(flow: Band, area_mm2: float) -> Band:
    """The speeds [m/s] of a band of flows in a section."""
    return Band(*(velocity_m_s(one, area_mm2) for one in (flow.low, flow.middle, flow.high)))


def _places(legs: Sequence[Leg]) -> Iterator[Place]:
    """Each section that the air meets, the bought ones at both ends included; equal neighbours once."""
    group: list[Place] = []
    for leg in legs:
        for first, area in zip((True, False), leg.area_mm2, strict=True):
            if group and abs(area / group[0][1] - 1.0) > SAME:
                yield _named(group)
                group = []
            group.append((_name(leg, first), area))
    yield _named(group)


def _named(group: Sequence[Place]) -> Place:
    """A cone has no one section: what it leads to or from gives the name."""
    return next((place for place in group if place[0]), ("the cone", group[0][1]))


def _name(leg: Leg, first: bool) -> str:
    """What the section is called: a step's two sides are bought part and bore; empty for a cone."""
    if leg.kind == "cone":
        return ""
    if leg.kind != "step":
        return leg.name
    end = leg.name.partition(" ")[0]
    outside = "hose" if "tail" in leg.name else "port" if "spigot" in leg.name else "pipe"
    return f"{end} {outside}" if leg.bought == (0 if first else 1) else f"{end} bore"


def _listed(places: Sequence[Place], flow: Band, units: Units) -> str:
    return ", ".join(f"{about(speed_words(_speed(flow, area), units))} in {name}" for name, area in places)


def _wanted(need: Band, units: Units) -> Band:
    """The speed wanted; in ft/min to the nearest 50, as tables of it are."""
    if units == "mm":
        return need
    return Band(*(round(speed / _FIFTY_FT_MIN) * _FIFTY_FT_MIN for speed in (need.low, need.middle, need.high)))


def _range(need: Band, units: Units) -> str:
    least, most = format_speed(need.low, units), format_speed(need.high, units)
    return least if least == most else f"{least.partition(' ')[0]}-{most}"


def _cure(run: Run, air: Air, need: Band, area_mm2: float, units: Units) -> str:
    """The flow that would do; the diameter that would do for the flow told, or what brings more of one worked out."""
    least = need.low * area_mm2 * 1e-6
    flow, has = _rounded_up(least, units), format_flow(run.flow_m3_s, units)
    if air.fan is not None and air.hose is not None:
        free, wider = air.fan.points[-1][0], area_mm2 > (1.0 + SAME) * math.pi / 4 * air.hose.inside_mm**2
        narrower = " Or a narrower section there." if wider else ""
        if least > free:
            most = format_flow(free, units)
            return f"{flow} or more would carry it there; this fan moves {most} at the most.{narrower}"
        helps = "a shorter, straighter or smoother hose, or a stronger fan"
        return f"{flow} or more would carry it there: {helps}.{narrower}"
    d_mm = math.sqrt(4.0 * run.flow_m3_s / need.low * 1e6 / math.pi)
    wide = f"{math.floor(d_mm)} mm" if units == "mm" else f"{math.floor(d_mm / 2.54) / 10:g} in"
    return f"{flow} or more would carry it there; or at {has} no section wider than {wide}."


def _rounded_up(flow_m3_s: float, units: Units) -> str:
    """To the next 10 m3/h or 5 cfm: a flow that is asked for must be enough."""
    step = 10 * FLOWS_M3_S["m3/h"] if units == "mm" else 5 * FLOWS_M3_S["cfm"]
    return format_flow(math.ceil(flow_m3_s / step - 1e-9) * step, units)
