"""Types of single values that a gate bracket's YAML has beside the common ones: readings, forces, air, masses."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any, Literal

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from fitwright import units as u
from fitwright.data.fasteners import fastener
from fitwright.data.thread_words import thread_name
from fitwright.data.threads import all_threads
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import gather, under
from fitwright.spec.grammar.values import Context, Length, Pressure, Text, _Read

MOST_READINGS = 20
SLIP_REL, SLIP_MM = 0.10, 2.0
"""Readings of one length further apart than both of these are taken for a slip (common practice, no source)."""
PLAIN_BAR = 16.0
"""A pressure without a unit up to here was meant in bar, above in psi: no workshop's air has more (common practice)."""
_TAKES: dict[str, Callable[[list[float]], float]] = {"mean": statistics.fmean, "greatest": max}


@dataclass(frozen=True)
class Force(_Read):
    """A force [N]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_force(text)

    def form(self, context: Context) -> str:
        return "a force with its unit,"

    def say(self, number: float, context: Context) -> str:
        return u.format_force(number, context.units)

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class AirPressure(Pressure):
    """The pressure of compressed air [MPa]; its unit must be written, limits are said in bar or psi."""

    def parse(self, text: str, context: Context) -> float:
        try:
            return super().parse(text, context)
        except u.UnitError as error:
            plain = error.hint.startswith("write the unit")
            unit = "bar" if plain and u.parse_number(text) <= PLAIN_BAR else "psi"
            hint = f"did you mean {text} {unit}?" if plain else error.hint
            raise u.UnitError(text, "an air pressure with its unit, such as 6 bar or 87 psi", hint) from None

    def say(self, number: float, context: Context) -> str:
        unit = "bar" if context.units == "mm" else "psi"
        return f"{u.format_number(number * 1e6 / u.PRESSURES_PA[unit], 1)} {unit}"

    def range_hint(self, text: str, number: float, context: Context) -> str:
        return "as the regulator's gauge shows it: 6 bar, 87 psi or 0.6 MPa"


@dataclass(frozen=True)
class Suction(_Read):
    """What the collector pulls with [Pa]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_pressure(text)

    def form(self, context: Context) -> str:
        return "a pressure with its unit,"

    def say(self, number: float, context: Context) -> str:
        return u.format_pressure(number, context.units)

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class Mass(_Read):
    """A mass [kg]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_mass(text)

    def form(self, context: Context) -> str:
        return "a mass with its unit,"

    def say(self, number: float, context: Context) -> str:
        return f"{number:g} kg"

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class Seconds(_Read):
    """A time [s]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_time(text)

    def form(self, context: Context) -> str:
        return "a time with its unit,"

    def say(self, number: float, context: Context) -> str:
        return f"{number:g} s"

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class Readings:
    """One value, or a list of readings of the same thing: `takes` says whether their mean or the greatest counts."""

    one: Length | Force
    takes: Literal["mean", "greatest"] = "mean"

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        forms = self.one.json_forms()
        item = forms[0] if len(forms) == 1 else {"anyOf": forms}
        listed = {"type": "array", "items": item, "minItems": 1, "maxItems": MOST_READINGS}
        auto = [{"const": "auto"}] if self.one.auto else []
        return {"anyOf": [*forms, listed, *auto]}

    def _validate(self, value: object, info: core_schema.ValidationInfo) -> float | None:
        context = info.context or Context()
        if not isinstance(value, list):
            return self._number(value, context)
        if not 1 <= len(value) <= MOST_READINGS:
            raise FaultError([Fault((), shown(value), f"1 to {MOST_READINGS} readings of one thing")])
        read = gather([under((i,), partial(self._reading, one, context)) for i, one in enumerate(value)])
        self._refuse_slips(value, read)
        return round(_TAKES[self.takes](read), 9)

    def _number(self, value: object, context: Context) -> float | None:
        if isinstance(value, dict):
            raise FaultError([Fault((), shown(value), f"{self.one.allowed(context)}, or a list of readings")])
        return self.one.read(value, context)

    def _reading(self, value: object, context: Context) -> float:
        number = self.one.read(value, context) if isinstance(value, str) else None
        if number is None:
            raise FaultError([Fault((), shown(value), f"a reading: {self.one.form(context)}".rstrip(","))])
        return number

    def _refuse_slips(self, said: list[object], read: list[float]) -> None:
        """A length read again comes out alike; a force may scatter."""
        spread, middle = max(read) - min(read), statistics.median(read)
        if isinstance(self.one, Length) and spread > max(SLIP_REL * abs(middle), SLIP_MM):
            slip = max(range(len(read)), key=lambda i: abs(read[i] - middle))
            others = ", ".join(str(one) for i, one in enumerate(said) if i != slip)[:60]
            allowed = "readings of one length that agree within 10 %"
            hint = "read it again; a list is readings of one thing, and only that"
            raise FaultError([Fault((slip,), f"{shown(said[slip])} beside {others}", allowed, hint)])

    def allowed(self, context: Context) -> str:
        """The range in words."""
        return f"{self.one.allowed(context)}, or a list of readings"


def _machine_screw(text: str) -> str:
    try:
        row = fastener(text)
    except DataError:
        row = None
    if row is None or row.nut_af_mm is None:
        known = "M3 to M12, No. 6 to No. 12, 1/4 in to 1/2 in"
        raise FaultError([Fault((), shown(text), f"a machine screw: {known}", "write M5, No. 10 or 1/4 in")])
    return text


def _rod_size(text: str) -> str:
    _machine_screw(text)
    if fastener(text).major_mm < 5.9:
        raise FaultError([Fault((), shown(text), "a threaded rod of M6 to M12, 1/4 in to 1/2 in", "M8 is usual")])
    return text


def thread(text: str) -> str:
    """The thread's name as the tables have it; FaultError where none is called so."""
    name = thread_name(text)
    known = [row.name for row in all_threads()]
    if name not in known:
        hint = nearest(text, known) or "`fitwright measure thread` finds the name from caliper readings"
        allowed = "a thread of the tables with its pitch, such as M6 x 1, M16 x 1.5, 1/4-28 UNF, G 1/8"
        raise FaultError([Fault((), shown(text), allowed, hint)])
    return name


MACHINE_SCREW = Text("a machine screw's name, such as M5, No. 10, 1/4 in", 40, _machine_screw)
ROD_SIZE = Text("a threaded rod's name, such as M8 or 5/16 in", 40, _rod_size)
THREAD = Text("a thread's name, such as M6 x 1", 40, thread)
