"""Grammar: base of every map in the YAML. It turns pydantic's errors into faults in our words, all of them at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    GetCoreSchemaHandler,
    ModelWrapValidatorHandler,
    ValidationError,
    ValidationInfo,
    model_validator,
)
from pydantic_core import CoreSchema, ErrorDetails, core_schema

from fitwright.spec.faults import Fault, FaultError, Path, nearest, shown
from fitwright.spec.grammar.values import Context


class Grammar(BaseModel):
    """A map of the YAML: its fields are the keys (`from_` is the key `from`)."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    example: ClassVar[str] = ""
    """How such a map may look, for who wrote something else in its place."""
    meant: ClassVar[Mapping[str, str]] = {}
    """Keys that people write here, each with what to write instead."""
    filled: ClassVar[tuple[str, ...]] = ()
    """Keys that are filled in where they are absent or `auto`, and reported."""

    def sense(self, context: Context) -> Iterator[Fault]:
        """What is wrong with these values taken together."""
        return iter(())

    @classmethod
    def read(cls, value: object, context: Context) -> Self:
        """The map read; FaultError with everything that is wrong with it."""
        try:
            return cls.model_validate(value, context=context)
        except ValidationError as error:
            raise FaultError(cls._faults(error)) from None

    @classmethod
    def keys(cls) -> tuple[str, ...]:
        """The keys as the YAML writes them, those of its own before inherited ones."""
        own = [name for name in cls.__annotations__ if name in cls.model_fields]
        names = dict.fromkeys([*own, *cls.model_fields])
        return tuple(cls.model_fields[name].alias or name for name in names)

    @classmethod
    def required(cls) -> tuple[str, ...]:
        """The keys that must be there."""
        return tuple(info.alias or name for name, info in cls.model_fields.items() if info.is_required())

    def open_keys(self) -> tuple[str, ...]:
        """Keys of `filled` that the user left to us."""
        return tuple(key for key in self.filled if getattr(self, key) is None or key not in self.model_fields_set)

    @model_validator(mode="wrap")
    @classmethod
    def _in_our_words(cls, value: Any, handler: ModelWrapValidatorHandler[Self], info: ValidationInfo) -> Self:
        if not isinstance(value, dict):
            hint = "a list is readings of one diameter, and only that" if isinstance(value, list) else ""
            raise FaultError([Fault((), shown(value), f"a map such as {cls.example}", hint)])
        try:
            made = handler(value)
        except ValidationError as error:
            raise FaultError(cls._faults(error)) from None
        faults = tuple(made.sense(info.context or Context()))
        if faults:
            raise FaultError(faults)
        return made

    @classmethod
    def _faults(cls, error: ValidationError) -> list[Fault]:
        """One fault each; a mistyped key is not also reported as missing."""
        faults = [fault for detail in error.errors(include_url=False) for fault in cls._one(detail)]
        meant = {(*fault.path[:-1], fault.hint) for fault in faults if fault.hint.startswith("did you mean")}
        return [f for f in faults if f.found != "nothing" or (*f.path[:-1], f"did you mean {f.path[-1]}?") not in meant]

    @classmethod
    def _one(cls, detail: ErrorDetails) -> Iterator[Fault]:
        path: Path = detail["loc"]
        inner = detail.get("ctx", {}).get("error")
        if isinstance(inner, FaultError):
            yield from (fault.under(*path) for fault in inner.faults)
        elif detail["type"] == "missing":
            yield Fault(path, "nothing", cls._says(str(path[-1])), f"add `{path[-1]}:`", at="key")
        elif detail["type"] == "extra_forbidden":
            yield cls._unknown(path)
        else:
            yield Fault(path, shown(detail["input"]), cls._says(str(path[0])) if path else cls.example)

    @classmethod
    def _unknown(cls, path: Path) -> Fault:
        key = str(path[-1])
        hint = cls.meant.get(key) or nearest(key, cls.keys())
        if not hint and ":" in key:
            name, _, rest = key.partition(":")
            hint = f"put a space after the colon: {name}: {rest}"
        return Fault(path, f"the unknown key {shown(key)}", f"the keys {', '.join(cls.keys())}", hint, at="key")

    @classmethod
    def _says(cls, key: str) -> str:
        for name, info in cls.model_fields.items():
            if (info.alias or name) == key and info.description:
                return info.description[0].lower() + info.description[1:].rstrip(".").partition(";")[0]
        return "a value"


@dataclass(frozen=True)
class Forms:
    """A value that may be written in several ways: `read` makes it, `ways` are the types that the schema shows.

    `says` is how the reference page tells of them; as a map where empty.
    """

    read: Callable[[object, Context], object]
    ways: Any
    says: str = ""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def validate(value: Any, inner: Any, info: core_schema.ValidationInfo) -> object:
            return self.read(value, info.context or Context())

        return core_schema.with_info_wrap_validator_function(validate, handler.generate_schema(self.ways))


def gather(results: list[Callable[[], Any]]) -> list[Any]:
    """Call all, then raise one FaultError with the faults of all, or return what they gave."""
    made: list[Any] = []
    faults: list[Fault] = []
    for result in results:
        try:
            made.append(result())
        except FaultError as error:
            faults.extend(error.faults)
    if faults:
        raise FaultError(faults)
    return made


def under(steps: Path, call: Callable[[], Any]) -> Callable[[], Any]:
    """`call` with the path of its faults led by `steps`."""

    def wrapped() -> Any:
        try:
            return call()
        except FaultError as error:
            raise FaultError(fault.under(*steps) for fault in error.faults) from None

    return wrapped


def best_form(value: Mapping[str, object], forms: Mapping[str, type[Grammar]]) -> type[Grammar] | None:
    """The form whose telling key is in `value`, or nearly so (a mistyped key then gets its own message)."""
    for key, form in forms.items():
        if key in value:
            return form
    for written in value:
        near = nearest(str(written), list(forms))
        if near:
            return forms[near.removeprefix("did you mean ").removesuffix("?")]
    return None
