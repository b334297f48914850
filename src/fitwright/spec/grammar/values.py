"""Types of single YAML values: text in, mm / degrees / counts out, with range, unit and what the schema says of them.

`Annotated[float, Length(5, 200)]` on a field reads its text with the file's units and refuses what is out of range.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from fitwright import units as u
from fitwright.spec.faults import Fault, FaultError, nearest, shown

LENGTH_PATTERN = r"^\s*[-+\u2212]?\s*[0-9.\u00bc-\u00be\u2150-\u215e][^,:_]*$"
"""What the schema asks of a length in text: it begins with a number. Whether it is one, the loader says."""


@dataclass(frozen=True)
class Context:
    """What a value's reading depends on besides its own text: the file's units, and the folder its paths start from."""

    units: u.Units = "mm"
    folder: str = "."


@dataclass(frozen=True)
class _Read:
    """A value read from text by `parse`, held between `least` and `most`; `auto` admits that word (None)."""

    least: float | None = None
    most: float | None = None
    auto: bool = False
    signed: bool = False

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        forms = self.json_forms()
        if self.auto:
            forms.append({"const": "auto"})
        return forms[0] if len(forms) == 1 else {"anyOf": forms}

    def _validate(self, value: object, info: core_schema.ValidationInfo) -> float | None:
        return self.read(value, info.context or Context())

    def read(self, value: object, context: Context) -> float | None:
        """The number, or None for `auto`; FaultError where it is none or out of range."""
        if not isinstance(value, str):
            raise FaultError([Fault((), shown(value), self.allowed(context), self.not_text(value))])
        text = value.strip()
        if self.auto and text == "auto":
            return None
        try:
            number = self.parse(text, context)
        except u.UnitError as error:
            allowed = error.allowed + (", or auto" if self.auto else "")
            hint = nearest(text, ["auto"]) if self.auto else ""
            raise FaultError([Fault((), shown(error.found), allowed, hint or error.hint)]) from None
        if (self.least is not None and number < self.least) or (self.most is not None and number > self.most):
            raise FaultError([Fault((), shown(text), self.allowed(context), self.range_hint(text, number, context))])
        return number

    def not_text(self, value: object) -> str:
        """The cure where a map or list stands in the place of this value."""
        return "a list is readings of one diameter, and only that" if isinstance(value, list) else ""

    def allowed(self, context: Context) -> str:
        """The range in words, in the file's units."""
        form = self.form(context)
        low, high = self.least, self.most
        if low is not None and high is not None:
            form += f" from {self.say(low, context)} to {self.say(high, context)}"
        elif low is not None:
            form += f", {self.say(low, context)} or more"
        return form + (", or auto" if self.auto else "")

    def range_hint(self, text: str, number: float, context: Context) -> str:
        """What was probably meant by a value out of range."""
        return ""

    def parse(self, text: str, context: Context) -> float:
        """The number that the text says."""
        raise NotImplementedError

    def form(self, context: Context) -> str:
        """What kind of value it is."""
        raise NotImplementedError

    def say(self, number: float, context: Context) -> str:
        """A limit as messages write it."""
        return f"{number:g}"

    def json_forms(self) -> list[dict[str, Any]]:
        """What the JSON Schema admits (limits stay with the loader: a text's number is beyond a schema)."""
        return [{"type": ["number", "string"]}]


@dataclass(frozen=True)
class Length(_Read):
    """A length [mm]; limits in mm. Plain numbers are in the file's units."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_length(text, context.units, signed=self.signed)

    def form(self, context: Context) -> str:
        return "a length"

    def say(self, number: float, context: Context) -> str:
        return u.format_length(number, context.units, fraction=False)

    def range_hint(self, text: str, number: float, context: Context) -> str:
        """Inches in a file in mm, or the other way round: only a plain number can be mistaken so."""
        try:
            plain = u.parse_number(text, signed=True)
        except u.UnitError:
            return ""
        other, factor = ("in", u.MM_PER_INCH) if context.units == "mm" else ("mm", 1 / u.MM_PER_INCH)
        meant = number * factor
        inside = (self.least or 0.0) <= meant <= (self.most if self.most is not None else float("inf"))
        return f"did you mean {u.format_number(plain, 4)} {other}?" if inside and plain > 0 else ""

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "number"}, {"type": "string", "pattern": LENGTH_PATTERN}]


@dataclass(frozen=True)
class Angle(_Read):
    """An angle [deg]; a plain number is degrees."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_angle(text, signed=self.signed)

    def form(self, context: Context) -> str:
        return "an angle"

    def say(self, number: float, context: Context) -> str:
        return f"{number:g} deg"


@dataclass(frozen=True)
class Temperature(_Read):
    """A temperature [deg C]; a plain number is deg C."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_temperature(text)

    def form(self, context: Context) -> str:
        return "a temperature"

    def say(self, number: float, context: Context) -> str:
        return f"{number:g} C"


@dataclass(frozen=True)
class Flow(_Read):
    """An air flow [m3/s]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_flow(text)

    def form(self, context: Context) -> str:
        return "an air flow with its unit,"

    def say(self, number: float, context: Context) -> str:
        return u.format_flow(number, context.units)

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class Pressure(_Read):
    """A pressure or strength [MPa]; its unit must be written."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_pressure(text) / 1e6

    def form(self, context: Context) -> str:
        return "a pressure with its unit,"

    def say(self, number: float, context: Context) -> str:
        return f"{number:g} MPa"

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "string"}]


@dataclass(frozen=True)
class Number(_Read):
    """A number without unit."""

    def parse(self, text: str, context: Context) -> float:
        return u.parse_number(text, signed=self.signed)

    def form(self, context: Context) -> str:
        return "a plain number"


@dataclass(frozen=True)
class Count(_Read):
    """A whole number."""

    def parse(self, text: str, context: Context) -> int:
        return u.parse_count(text)

    def form(self, context: Context) -> str:
        return "a whole number"

    def json_forms(self) -> list[dict[str, Any]]:
        return [{"type": "integer"}]


@dataclass(frozen=True)
class Percent(_Read):
    """A share in percent, with or without the sign; read as a ratio. Limits in percent."""

    def read(self, value: object, context: Context) -> float | None:
        percent = super().read(value, context)
        return None if percent is None else percent / 100.0

    def parse(self, text: str, context: Context) -> float:
        return u.parse_number(text.removesuffix("%").strip(), signed=self.signed)

    def form(self, context: Context) -> str:
        return "a share in percent such as 40 %,"

    def range_hint(self, text: str, number: float, context: Context) -> str:
        return f"did you mean {100 * number:g} %?" if 0 < number <= 1 and "%" not in text else ""


@dataclass(frozen=True)
class Words:
    """One of a few words; `meant` names common slips (slip -> slide)."""

    words: tuple[str, ...]
    meant: tuple[tuple[str, str], ...] = ()

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"enum": list(self.words)}

    def _validate(self, value: object) -> str:
        if isinstance(value, str) and value.strip() in self.words:
            return value.strip()
        word = value.strip() if isinstance(value, str) else ""
        meant = dict(self.meant).get(word.casefold())
        hint = f"did you mean {meant}?" if meant else nearest(word, self.words)
        raise FaultError([Fault((), shown(value), " | ".join(self.words), hint)])


YES_NO: Mapping[str, bool] = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}


@dataclass(frozen=True)
class YesNo:
    """`yes` or `no` (true and false do as well)."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no"]}]}

    def _validate(self, value: object) -> bool:
        if isinstance(value, str) and value.strip().casefold() in YES_NO:
            return YES_NO[value.strip().casefold()]
        raise FaultError([Fault((), shown(value), "yes | no")])


@dataclass(frozen=True)
class Text:
    """A text that `check` accepts (it raises FaultError) and may tidy; at most `most` characters."""

    what: str
    most: int = 80
    check: Callable[[str], str] | None = None
    number: bool = False

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": ["string", "number"]} if self.number else {"type": "string"}

    def _validate(self, value: object) -> str:
        text = " ".join(value.split()) if isinstance(value, str) else ""
        if not text or len(text) > self.most or not text.isprintable():
            raise FaultError([Fault((), shown(value), f"{self.what}, at most {self.most} characters")])
        return self.check(text) if self.check else text
