"""`near_heat`: how warm it gets where the part sits, in degrees, as a place, or as the gap to a motor."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data.warm_places import WarmPlace, warm_place, warm_places
from fitwright.physics.motor_heat import Insulation, beside_c, housing_c
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import Context, Length, Temperature, Words
from fitwright.units import format_length

DEGREES = Temperature(-40.0, 400.0)
PLACES = ("room", "shed", "garage", "sunny window", "sun", "attic", "radiator", "car", "motor")
"""Those of the table, coolest first, as the reference page shows them; a test compares."""
_SAYS = f"a temperature from -40 C to 400 C, a place ({', '.join(PLACES)}), or a map"


@dataclass(frozen=True)
class Heat:
    """How warm it gets there [C], and in words where that comes from (empty: the YAML gives degrees)."""

    temperature_c: float
    said: str = ""


class MotorHeatKeys(Grammar):
    """A motor beside the part."""

    example: ClassVar[str] = "{motor: 30}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("gap", "distance", "away", "from"), "write motor: the gap to its housing"),
        **dict.fromkeys(("insulation", "ins"), "write class"),
    }
    motor: Annotated[float, Length(0.0, 5000.0)] = Field(
        description="The gap to the motor's housing, in the file's units; 0: it touches."
    )
    class_: Annotated[Insulation, Words(("B", "F", "H"), (("b", "B"), ("f", "F"), ("h", "H")))] = Field(
        "B",
        alias="class",
        description="How hot the motor may run: B, F or H; no unit. F only where it runs too hot to touch.",
    )

    def heat(self, context: Context) -> Heat:
        """What a part there is taken to reach."""
        warm = beside_c(self.motor, housing_c(self.class_))
        gap = format_length(self.motor, context.units, fraction=False)
        where = f"{gap} from a motor's housing" if self.motor else "touching a motor's housing"
        hot = "" if self.class_ == "B" else f" that runs as hot as class {self.class_} lets it"
        return Heat(warm, f"{where}{hot}, under load: measure yours")


def read_heat(value: object, context: Context) -> Heat:
    """Degrees, a place by its name, or a map with the gap to a motor."""
    if isinstance(value, dict):
        return MotorHeatKeys.read(value, context).heat(context)
    text = value.strip() if isinstance(value, str) else ""
    if text[:1].isdigit() or text[:1] in ("-", "+", ".", "\u2212") or not text:
        return Heat(float(DEGREES.read(value, context) or 0.0))
    place = warm_place(text)
    if place is None:
        allowed = f"{DEGREES.allowed(context)} (60 C or 140 F), {' | '.join(PLACES)}, or {MotorHeatKeys.example}"
        raise FaultError([Fault((), shown(text), allowed, nearest(text, _words()))])
    return Heat(place.temperature_c, _told(place))


def _told(place: WarmPlace) -> str:
    return f"{place.note}, {place.low_c:g} to {place.high_c:g} C: measure yours"


def _words() -> list[str]:
    return [word for place in warm_places().values() for word in (place.name, *place.also)]


HeatValue = Annotated[Heat, Forms(read_heat, Annotated[float, DEGREES] | MotorHeatKeys, _SAYS)]
