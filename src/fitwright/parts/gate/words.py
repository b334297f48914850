"""What the report says of a gate bracket beside the findings: positions, what was derived, cautions, dimensions."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.part import Dimension
from fitwright.parts.gate.alongside_words import alongside_facts
from fitwright.parts.gate.coupling_words import coupling_facts
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec

CAUTIONS = ("Moving parts pinch: shut the air off and let it out before a hand goes near.",)


def gate_facts(plan: GatePlan, spec: GateBracketSpec) -> Mapping[str, str]:
    """Lines for the report."""
    return {**coupling_facts(plan, spec), **alongside_facts(plan, spec)}


def gate_assumed(plan: GatePlan, spec: GateBracketSpec) -> Mapping[str, str]:
    """Keys that were filled in, with value and reason."""
    return {}


def gate_dimensions(plan: GatePlan, spec: GateBracketSpec) -> tuple[Dimension, ...]:
    """Main dimensions for the picture."""
    return ()


def gate_cautions(plan: GatePlan, spec: GateBracketSpec) -> tuple[str, ...]:
    """Short cautions."""
    return CAUTIONS
