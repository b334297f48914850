"""What the airflow check takes from the tables of losses."""

from __future__ import annotations

from fitwright.spec.air_losses import dust_names, hose_names, loss_tables, wall_names

__all__ = ["dust_names", "hose_names", "loss_tables", "wall_names"]
