"""Screw joints at the cylinder: its nose or front cover, and the threaded rods in the nose plate."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.part import Bought, Fastening
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def nose_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """How the cylinder is held, and where the frame stands on rods their joints in the nose plate."""
    return ()


def nose_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """Rods cut to length, nuts, washers."""
    yield from ()
