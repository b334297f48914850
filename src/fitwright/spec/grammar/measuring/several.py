"""Several: one value or a list of them, each read alike: readings, angles, chords."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import gather, under
from fitwright.spec.grammar.values import Angle, Context, Length

MOST = 50


@dataclass(frozen=True)
class Several:
    """One to `most` values, each read by `one`; on the command line a list is written in brackets: `[0, 60, 120]`."""

    one: Length | Angle
    what: str = "reading"
    most: int = MOST

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        forms = self.one.json_forms()
        item = forms[0] if len(forms) == 1 else {"anyOf": forms}
        return {"anyOf": [*forms, {"type": "array", "items": item, "minItems": 1, "maxItems": self.most}]}

    def _validate(self, value: object, info: core_schema.ValidationInfo) -> tuple[float, ...]:
        return self.read(value, info.context or Context())

    def read(self, value: object, context: Context) -> tuple[float, ...]:
        """The values; FaultError with the place of each that is wrong."""
        if isinstance(value, str) and not value.strip().startswith("["):
            return (self._number(value, context),)
        many = _listed(value) if isinstance(value, str) else value
        if not isinstance(many, list):
            raise FaultError([Fault((), shown(value), self.one.allowed(context))])
        if not 1 <= len(many) <= self.most:
            raise FaultError([Fault((), shown(many), f"1 to {self.most} {self.what}s")])
        return tuple(gather([under((i,), partial(self._number, one, context)) for i, one in enumerate(many)]))

    def _number(self, value: object, context: Context) -> float:
        if isinstance(value, list):
            raise FaultError([Fault((), shown(value), self.one.allowed(context), f"one {self.what} in each place")])
        try:
            number = self.one.read(value, context)
        except FaultError as error:
            pieces = value.split(",") if isinstance(value, str) else []
            if len(pieces) > 1 and "." in pieces[0]:
                raise FaultError(replace(f, hint=f"several are written [{value}]") for f in error.faults) from None
            raise
        assert number is not None  # neither a length nor an angle of these has `auto`
        return number


def _listed(text: str) -> list[object]:
    """`[0, 60, 120]` on the command line."""
    inner = text.strip().removeprefix("[").removesuffix("]").strip()
    return [one.strip() for one in inner.split(",")] if inner else []
