"""`measure: sleeve`: a shaft that is too small for its bore, and what may fill the gap."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.measuring.base import MeasureKeys
from fitwright.spec.grammar.measuring.several import Several
from fitwright.spec.grammar.values import Context, Length, Words, YesNo
from fitwright.units import format_length

ROUND = Length(3.5, 315.0)
APART_REL = 0.02
"""Readings of one turned diameter that differ by more than this share are a slip (common practice, no source)."""
_FITS = (
    ("slide", "sliding"),
    ("slip", "sliding"),
    ("running", "sliding"),
    ("loose", "sliding"),
    ("snug", "location"),
    ("locating", "location"),
    ("tight", "press"),
    ("interference", "press"),
)


class SleeveKeys(MeasureKeys):
    """A shaft and the bore that it should sit in, both read with a caliper."""

    example: ClassVar[str] = "{measure: sleeve, shaft: [24.93, 24.94], bore: [32.01, 32.03], turns: no}"
    measure: Annotated[Literal["sleeve"], Words(("sleeve",))] = Field(description="The kind: sleeve; no unit.")
    shaft: Annotated[tuple[float, ...], Several(ROUND)] = Field(
        description="The outside of the shaft, read once or several times, in the file's units."
    )
    bore: Annotated[tuple[float, ...], Several(ROUND)] = Field(
        description="The inside of the bore, read once or several times, in the file's units."
    )
    turns: Annotated[bool, YesNo()] = Field(
        description="Yes where anything of it turns (motor shaft, pulley, blade, arbor, impeller); no unit."
    )
    length: Annotated[float | None, Length(5.0, 60.0)] = Field(
        None, description="How long the sleeve is to be, in the file's units; as long as the bore is deep."
    )
    fit: Annotated[Literal["sliding", "location", "press"], Words(("sliding", "location", "press"), _FITS)] = Field(
        "location", description="How it sits on the shaft; location (put on by hand, no play) if absent; no unit."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        for key, readings in (("shaft", self.shaft), ("bore", self.bore)):
            middle = sorted(readings)[len(readings) // 2]
            for i, one in enumerate(readings):
                if abs(one - middle) > APART_REL * middle:
                    say = [format_length(mm, context.units, fraction=False) for mm in (one, middle)]
                    allowed = "readings of one turned diameter, within 2 % of each other"
                    yield Fault((key, i), f"{say[0]} beside {say[1]}", allowed, "read it again")
