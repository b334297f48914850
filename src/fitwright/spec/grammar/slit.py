"""A slit along a whole sleeve, as the YAML says it: `slit: yes`, or a map."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import YES_NO, Context, Length, Words, YesNo
from fitwright.spec.models import Slit

WIDTH, BAND = Length(1.0, 40.0, auto=True), Length(5.0, 40.0)
SEALS = Words(("tape", "foam"), (("strip", "foam"), ("foam strip", "foam"), ("sealant", "tape")))


class SlitKeys(Grammar):
    """One slit along the whole sleeve, which opens by it, goes over both pipes and is closed by a band at each end."""

    example: ClassVar[str] = "{width: 3, seal: tape}"
    meant: ClassVar[Mapping[str, str]] = {
        "gap": "write width",
        "slits": "slits of a socket's own stand under clamp; this is one along the whole sleeve",
        "clamp": "write band: its width",
    }
    width: Annotated[float | None, WIDTH] = Field(
        None, description="Width of the slit, in the file's units; if absent, what closing round both pipes takes."
    )
    band: Annotated[float, BAND] = Field(
        13.0,
        description="Width of each end's band, in the file's units; 13 mm if absent; none on a nested sleeve.",
    )
    seal: Annotated[Literal["tape", "foam"] | None, SEALS] = Field(
        None,
        description="What seals the slit inside: tape, or foam (a strip); no unit; warned of if absent.",
    )

    def meant_as(self, nested: bool, clamped: bool) -> Slit:
        """The slit; what squeezes a nested sleeve is what goes over it (`clamped`: a hose and its clamp)."""
        closed_by: Literal["band", "hose clamp", "none"] = "hose clamp" if clamped else "none"
        if not nested:
            closed_by = "band"
        return Slit(width_mm=self.width, band_mm=0.0 if nested else self.band, closed_by=closed_by, seal=self.seal)


def read_slit(value: object, context: Context) -> SlitKeys | None:
    """`yes`, `no` or a map."""
    if isinstance(value, dict):
        return SlitKeys.read(value, context)
    word = value.strip().casefold() if isinstance(value, str) else ""
    if word not in YES_NO:
        raise FaultError([Fault((), shown(value), f"yes, no, or a map such as {SlitKeys.example}")])
    return SlitKeys.read({}, context) if YES_NO[word] else None


SlitValue = Annotated[SlitKeys | None, Forms(read_slit, Annotated[bool, YesNo()] | SlitKeys)]
