"""From the air in the YAML to flow and loss along the legs of a passage: the one place where both are reckoned.

Legs are given in the order in which the air meets them. `fluids` is imported by the physics, so import this late.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Literal

from fitwright.airway import Leg
from fitwright.physics.duct import Air as Gas
from fitwright.physics.duct import Band, FanCurve, LegLoss, LossTables, leg_loss, system_coefficient, total
from fitwright.spec.air import Air, AirHose, Fan
from fitwright.spec.air_losses import loss_tables
from fitwright.spec.suction import Suction

if TYPE_CHECKING:
    from fitwright.spec.part_base import PartBase

BEND_OF_D = 1.5
"""Radius of a hose's bend in diameters, where nobody measured it (common practice, no source)."""
LABEL_POINTS = 41
SETTLED = 1e-6
LEAST_RUNNING = 0.1
"""So much of its shut suction a fan has left at the least, however free the air: filters fill (common practice, no
source)."""


@dataclass(frozen=True)
class Run:
    """The air that flows [m3/s], what the part loses [Pa], leg by leg, and what the rest of the run loses.

    `flow_band` [m3/s]: from the costliest handbook to the kindest, where the flow was worked out.
    """

    flow_m3_s: float
    losses: tuple[LegLoss, ...]
    rest_pa: Band | None = None
    flow_band: Band | None = None

    @property
    def flows(self) -> Band:
        """The flow [m3/s] as a band; one that was told is no wider than it was told."""
        return self.flow_band or Band(self.flow_m3_s, self.flow_m3_s, self.flow_m3_s)

    @property
    def loss(self) -> Band:
        """What the part loses [Pa]."""
        return total(one.band_pa for one in self.losses)


@cache
def tables() -> LossTables:
    """The handbooks' tables, read once."""
    return loss_tables()


def losses(legs: Sequence[Leg], flow_m3_s: float) -> tuple[LegLoss, ...]:
    """What each leg loses at this flow."""
    return tuple(leg_loss(leg, flow_m3_s, True, Gas(), tables()) for leg in legs)


def lost(legs: Sequence[Leg], flow_m3_s: float) -> Band:
    """What the legs lose together [Pa]."""
    return total(one.band_pa for one in losses(legs, flow_m3_s))


def run_of(air: Air, legs: Sequence[Leg]) -> Run:
    """The air through a part: the flow as it is told, or where the fan's curve meets hose and part."""
    if air.flow_m3_s is not None:
        return Run(air.flow_m3_s, losses(legs, air.flow_m3_s))
    assert air.fan is not None and air.hose is not None
    hose = hose_legs(air.hose, air.fan)
    whole = (*hose, *legs)
    flow = settled_flow(air.fan, whole)
    least, most = (settled_flow(air.fan, whole, end) for end in ("high", "low"))
    return Run(flow, losses(legs, flow), lost(hose, flow), Band(min(least, flow), flow, max(most, flow)))


def settled_flow(fan: Fan, legs: Sequence[Leg], end: Literal["low", "middle", "high"] = "middle") -> float:
    """The flow [m3/s] at which the fan gives what these legs lose, by this end of the handbooks' band."""
    curve = fan_curve(fan)
    flow = curve.points[-1][0] / 2
    for _ in range(60):
        before, system = flow, system_coefficient(getattr(lost(legs, flow), end), flow)
        flow = curve.meets(system).flow_m3_s
        if abs(flow - before) < SETTLED * flow:
            break
    return flow


def fan_curve(fan: Fan) -> FanCurve:
    """The curve through the points told; of a label's two ends the parabola between them (common practice, no source).

    >>> round(fan_curve(Fan(points=((0.0, 2000.0), (0.4, 0.0)), label=True)).pressure_pa(0.2))
    1500
    """
    if not fan.label:
        return FanCurve(fan.points)
    shut_off, free = fan.points[0][1], fan.points[-1][0]
    shares = [k / (LABEL_POINTS - 1) for k in range(LABEL_POINTS)]
    return FanCurve(tuple((share * free, shut_off * (1.0 - share * share)) for share in shares))


def hose_legs(hose: AirHose, fan: Fan | None = None) -> tuple[Leg, ...]:
    """The run's entry, its hose and its bends as legs.

    A label's free flow, with nothing connected, is air that the fan already brings to speed: with a hose that is not
    asked of it a second time. Points of a curve are static suction, which the air's speed takes its part of.
    """
    area, d = math.pi / 4 * hose.inside_mm**2, hose.inside_mm
    sizes = (area, area), (d, d)
    bend = Leg("hose's bend", "bend", *sizes, angle_deg=90.0, radius_mm=BEND_OF_D * d)
    along = Leg("hose", "hose", *sizes, length_mm=hose.length_mm, row=hose.kind)
    enters = [Leg("entry", "entry", *sizes, row=hose.entry)] if hose.entry else []
    starts = [Leg("start", "start", *sizes)] if enters and not (fan and fan.label) else []
    return (*starts, *enters, along, *([bend] * hose.bends))


def nominal_flow_m3_s(air: Air) -> float:
    """The flow [m3/s] before the part is known: as told, or what the fan moves through the hose alone."""
    if air.flow_m3_s is not None:
        return air.flow_m3_s
    assert air.fan is not None and air.hose is not None
    return settled_flow(air.fan, hose_legs(air.hose, air.fan))


def suction_of(spec: PartBase) -> Suction:
    """What sucks at a part: where the fan's curve is told, with the suction of its working point while it runs.

    A plate that was made for another part's flange hangs on the same machine, unless its own `air` says otherwise.
    """
    made_for: PartBase | None = getattr(spec, "made_for", None)
    if made_for is not None and spec.suction.assumed:
        return suction_of(made_for)
    air: Air | None = getattr(spec, "air", None)
    if air is None or air.fan is None:
        return spec.suction
    return spec.suction.model_copy(update={"running_pa": _running_pa(air, air.fan, spec.suction.shut_pa)})


def _running_pa(air: Air, fan: Fan, shut_pa: float) -> float:
    """The fan's suction [Pa] at the flow told, or through the hose by its costliest handbook: the safe side here."""
    flow = air.flow_m3_s
    if flow is None:
        assert air.hose is not None
        flow = settled_flow(fan, hose_legs(air.hose, fan), "high")
    return max(LEAST_RUNNING * shut_pa, fan_curve(fan).pressure_pa(flow))
