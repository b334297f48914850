"""`measure: circle`: diameters of one port or pipe, read round it."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.grammar.measured import DIAMETER
from fitwright.spec.grammar.measuring.base import MeasureKeys
from fitwright.spec.grammar.values import Words


class CircleKeys(MeasureKeys):
    """One diameter, read several times round it."""

    example: ClassVar[str] = "{measure: circle, readings: [110.2, 110.5, 109.9]}"
    plain_words: ClassVar[str] = "readings"
    measure: Annotated[Literal["circle"], Words(("circle",))] = Field(description="The kind: circle; no unit.")
    readings: list[Annotated[float, DIAMETER]] = Field(description="Diameters read round it, in the file's units.")
