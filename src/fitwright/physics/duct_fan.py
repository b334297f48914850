"""A collector's fan: its curve, where it meets a system of ducts, and what a part takes away."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.errors import DataError
from fitwright.physics.duct_band import Band


@dataclass(frozen=True)
class Operating:
    """Where fan and system meet: flow [m3/s], pressure [Pa]; `beyond` where the curve's points do not reach that far.

    `beyond` "flow": the system would let more air through than the curve's last point; the point is that last one.
    `beyond` "pressure": the system holds back more than the curve's first point gives at its flow; the pressure is
    taken as level from there to no flow, so the true flow may be a little more.
    """

    flow_m3_s: float
    pressure_pa: float
    beyond: str = ""


@dataclass(frozen=True)
class FanCurve:
    """Points (flow [m3/s], pressure [Pa]), two at least, in rising flow and falling pressure; straight between them.

    DataError where they are fewer, negative, or do not rise and fall. A fan whose pressure dips at low flow (stall) is
    given from its peak on: left of the peak a working point is not certain.
    """

    points: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise DataError(f"a fan curve needs two points at least, not {len(self.points)}")
        for flow, pressure in self.points:
            if not (math.isfinite(flow) and math.isfinite(pressure) and flow >= 0.0 and pressure >= 0.0):
                raise DataError(f"a fan curve's point {flow:g} m3/s, {pressure:g} Pa; allowed: finite, 0 or more")
        for (flow, pressure), (next_flow, next_pressure) in zip(self.points, self.points[1:], strict=False):
            _falls(flow, pressure, next_flow, next_pressure)

    def pressure_pa(self, flow_m3_s: float) -> float:
        """The pressure at a flow; level before the first point, DataError beyond the last."""
        last = self.points[-1][0]
        if not 0.0 <= flow_m3_s <= last:
            raise DataError(f"the fan curve says nothing of {flow_m3_s:g} m3/s; it goes from 0 to {last:g}")
        if flow_m3_s <= self.points[0][0]:
            return self.points[0][1]
        return next(
            p + (flow_m3_s - q) * (p2 - p) / (q2 - q)
            for (q, p), (q2, p2) in zip(self.points, self.points[1:], strict=False)
            if flow_m3_s <= q2
        )

    def meets(self, system: float) -> Operating:
        """Where it meets a system that loses `system` x q^2 [Pa/(m3/s)^2, above 0]."""
        if not (math.isfinite(system) and system > 0.0):
            raise DataError(f"a system's coefficient of {system:g} Pa/(m3/s)2; allowed: above 0")
        first_flow, first_pressure = self.points[0]
        if system * first_flow**2 >= first_pressure:
            flow = math.sqrt(first_pressure / system)
            return Operating(flow, first_pressure, "pressure" if first_flow > 0.0 else "")
        last_flow, last_pressure = self.points[-1]
        if system * last_flow**2 < last_pressure:
            return Operating(last_flow, last_pressure, "flow")
        return next(
            _crossing(here, there, system)
            for here, there in zip(self.points, self.points[1:], strict=False)
            if system * there[0] ** 2 >= there[1]
        )


@dataclass(frozen=True)
class Throttled:
    """The flow [m3/s] without a part and with it; `with_part` from the costliest handbook to the kindest."""

    without: Operating
    with_part: Band
    """Flow [m3/s]: low where the part's loss is highest."""

    @property
    def share_kept(self) -> Band:
        """Flow with the part over flow without it."""
        return self.with_part.times(1.0 / self.without.flow_m3_s)


def system_coefficient(loss_pa: float, flow_m3_s: float) -> float:
    """k of k q^2 [Pa/(m3/s)^2] for a loss [Pa, above 0] at a flow [m3/s, above 0]: duct losses go with the square."""
    if not (math.isfinite(loss_pa) and loss_pa >= 0.0):
        raise DataError(f"a loss of {loss_pa:g} Pa; allowed: 0 or more")
    if not (math.isfinite(flow_m3_s) and flow_m3_s > 0.0):
        raise DataError(f"a flow of {flow_m3_s:g} m3/s; allowed: above 0")
    return loss_pa / flow_m3_s**2


def with_part(fan: FanCurve, system: float, part: Band) -> Throttled:
    """The flow without a part and with it; `system` and `part` as coefficients of q^2 [Pa/(m3/s)^2]."""
    without = fan.meets(system)
    low, middle, high = (fan.meets(system + k).flow_m3_s for k in (part.high, part.middle, part.low))
    return Throttled(without, Band(low, middle, high))


def _crossing(here: tuple[float, float], there: tuple[float, float], system: float) -> Operating:
    """system q^2 = p + s (q - q1): the positive root."""
    slope = (there[1] - here[1]) / (there[0] - here[0])
    constant = here[1] - slope * here[0]
    flow = (slope + math.sqrt(slope * slope + 4.0 * system * constant)) / (2.0 * system)
    return Operating(flow, system * flow * flow)


def _falls(flow: float, pressure: float, next_flow: float, next_pressure: float) -> None:
    if next_flow <= flow:
        raise DataError(f"a fan curve's flow must rise from point to point; {next_flow:g} follows {flow:g} m3/s")
    if next_pressure > pressure:
        raise DataError(
            f"a fan curve's pressure must fall as the flow rises; {next_pressure:g} Pa at {next_flow:g} m3/s follows "
            f"{pressure:g} Pa at {flow:g}: give it from its peak on"
        )
