"""What sucks at a part, and how hard: a collector, a shop vacuum, or a fan whose numbers are told."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from fitwright.spec.joints import Meant
from fitwright.units import PRESSURES_PA, Units, format_number

Puller = Literal["collector", "shop vacuum"]


class Suction(Meant):
    """The suction with the inlet shut, and while the machine runs [Pa]; `by` what, in words.

    `running_pa` None: not told; half of what it pulls shut. `assumed`: nobody said what pulls.
    """

    by: str = "a collector"
    shut_pa: float = Field(default=3000.0, gt=0)
    running_pa: float | None = Field(default=None, ge=0)
    when_shut: str = "gate shut"
    assumed: bool = False

    @property
    def lasting_pa(self) -> float:
        """What stays for good [Pa]: the suction while it runs, half of the shut one where that is not known."""
        return HALF * self.shut_pa if self.running_pa is None else self.running_pa

    def once_words(self, units: Units) -> str:
        """`3 kPa (gate shut)`."""
        return f"{suction_words(self.shut_pa, units)} ({self.when_shut})"

    def cases(self, units: Units) -> tuple[tuple[float, bool, str], ...]:
        """What it pulls with [Pa], whether that stays, and when: shut, and running."""
        all_day = f"{suction_words(self.lasting_pa, units)} (all day)"
        return (self.shut_pa, False, self.once_words(units)), (self.lasting_pa, True, all_day)

    def filled_words(self, units: Units) -> str:
        """What is said where it was filled in: `a collector: 3 kPa of suction (gate shut), 1.5 kPa while it runs`."""
        shut, runs = (suction_words(pa, units) for pa in (self.shut_pa, self.lasting_pa))
        return f"{self.by}: {shut} of suction ({self.when_shut}), {runs} while it runs"

    def words(self, units: Units) -> str:
        """`a collector pulls with 3 kPa (gate shut), 1.5 kPa while it runs`."""
        guessed = " (nobody said what pulls: air.fan)" if self.assumed else ""
        runs = suction_words(self.lasting_pa, units)
        return f"{self.by}{guessed} pulls with {self.once_words(units)}, {runs} while it runs"


def suction_words(pa: float, units: Units) -> str:
    """A suction with the digits that are known of it.

    >>> suction_words(1513.0, "mm"), suction_words(20_000.0, "in")
    ('1.5 kPa', '80 inH2O')
    """
    unit, scale = ("kPa", 1e3) if units == "mm" else ("inH2O", PRESSURES_PA["inH2O"])
    return f"{format_number(float(f'{pa / scale:.2g}'), 3)} {unit}"


HALF = 0.5
"""A running machine pulls with about half of what it does with its inlet shut (common practice, no source; for
collectors 1.0 to 1.5 kPa, 4 to 6 in of water, two public texts)."""
PULLERS: Mapping[Puller, Suction] = {
    "collector": Suction(),
    "shop vacuum": Suction(by="a shop vacuum", shut_pa=20_000.0, when_shut="hose blocked"),
}
"""A collector at a shut gate: 3 kPa, 12 in of water. A shop vacuum with its hose blocked: 20 kPa, 80 in; they go from
15 to 25 kPa. Both: common practice, no source."""
ASSUMED = Suction(assumed=True)
"""Where nobody said what pulls."""
