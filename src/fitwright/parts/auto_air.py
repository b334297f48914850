"""`auto` sizes by the air: of those that are left to us the one through which it loses least."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.airway import Leg, along
from fitwright.spec.air import Air
from fitwright.spec.models import AdapterSpec
from fitwright.units import Units

if TYPE_CHECKING:
    from fitwright.physics.duct import Band

HALF_ANGLES_DEG = (15.0, 12.0, 8.5, 7.0)
"""Half angles beside the usual 10: the usual range for low loss, steepest first, so that the shorter part is tried
first."""
WORTH_PA, WORTH_REL = 0.5, 0.03
"""Less than this is nothing gained: a size that saves less is not taken for it (handbooks differ by more)."""


@dataclass(frozen=True)
class Choice:
    """A size that was chosen, what the air loses with it, the usual one and what that would lose."""

    value: float
    loss: Band
    usual: float
    usual_loss: Band

    def words(self, unit: str, units: Units) -> str:
        """Why it was taken, for the report: `saves 5 Pa against the usual 10 deg`."""
        if self.value == self.usual:
            return "no other in reach loses noticeably less air pressure"
        return (
            f"least loss that fits: {self.loss.pressure_words(units)}, where {self.usual:g} {unit} would lose "
            f"{self.usual_loss.pressure_words(units)}"
        )


def is_ours(spec: AdapterSpec) -> bool:
    """Whether sizes may follow the air: it is told, and no halves or neighbours limit the part's size."""
    envelope = spec.envelope
    return spec.air is not None and spec.halves is None and not envelope.keep_clear and not envelope.stay_inside


def chosen(air: Air, usual: float, others: Iterable[float], legs_of: Callable[[float], Sequence[Leg] | None]) -> Choice:
    """The size with the least loss, the usual one unless another is worth the change.

    `legs_of` gives the legs (end_a to end_b) that a size makes, None where it does not fit.
    """
    from fitwright.spec.air_run import lost, nominal_flow_m3_s  # fluids is slow to import

    def loss(size: float) -> Band | None:
        legs = legs_of(size)
        return None if legs is None else lost(along(legs, air.from_end), flow)

    flow = nominal_flow_m3_s(air)
    first = loss(usual)
    assert first is not None
    best = Choice(usual, first, usual, first)
    for size in others:
        found = loss(size)
        if found is not None and best.loss.middle - found.middle > max(WORTH_PA, WORTH_REL * first.middle):
            best = Choice(size, found, usual, first)
    return best
