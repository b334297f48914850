"""Duct physics in one place: air, velocity, the loss of each leg of a passage, fans, dust.

The numbers of the handbooks come in as `LossTables`; `fitwright.spec.air_losses.loss_tables()` makes them from our
own tables. Formulas, sources and worked examples stand in docs/airflow_mechanics.md.
"""

from __future__ import annotations

from fitwright.physics.duct_air import Air, reynolds, velocity_m_s, velocity_pressure_pa
from fitwright.physics.duct_band import NOTHING, Band, spread, total
from fitwright.physics.duct_dust import transport
from fitwright.physics.duct_fan import FanCurve, Operating, Throttled, system_coefficient, with_part
from fitwright.physics.duct_friction import friction_factor
from fitwright.physics.duct_legs import LegLoss, Walls, leg_loss, turned
from fitwright.physics.duct_sharp import sharp
from fitwright.physics.duct_tables import LossTables, Named

__all__ = [
    "NOTHING",
    "Air",
    "Band",
    "FanCurve",
    "LegLoss",
    "LossTables",
    "Named",
    "Operating",
    "Throttled",
    "Walls",
    "friction_factor",
    "leg_loss",
    "reynolds",
    "sharp",
    "spread",
    "system_coefficient",
    "total",
    "transport",
    "turned",
    "velocity_m_s",
    "velocity_pressure_pa",
    "with_part",
]
