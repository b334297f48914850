"""What all measuring files share, and how words on the command line become the same keys."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.errors import SpecError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Text, Words
from fitwright.spec.nodes import Value, read

_SPELT = (("inch", "in"), ("inches", "in"), ("metric", "mm"))


class MeasureKeys(Grammar):
    """What every measuring file may say."""

    plain_words: ClassVar[str] = ""
    """The key that words without `=` on the command line are a list of; none where empty."""
    measure: str
    label: Annotated[str | None, Text("a short name", 60, number=True)] = Field(
        None, description="What was measured, in your words; no unit."
    )
    units: Annotated[Literal["mm", "in"], Words(("mm", "in"), _SPELT)] = Field(
        "mm", description="Unit of plain numbers and of the answer: mm or in; mm if absent."
    )

    @classmethod
    def from_words(cls, words: Sequence[str]) -> dict[str, Value]:
        """`key=value` words, and plain ones, as the map that a file would hold; FaultError where one is neither."""
        made: dict[str, Value] = {}
        plain: list[Value] = []
        faults = []
        for word in words:
            key, equals, value = word.partition("=")
            if equals and key in made:
                faults.append(Fault((key,), f"{key}= twice", "each key once"))
            elif equals:
                made[key] = as_written(key, value)
            elif cls.plain_words:
                plain.append(word)
            else:
                faults.append(Fault(("measure",), shown(word), "words such as " + cls.words_example()))
        if plain and cls.plain_words in made:
            faults.append(Fault((cls.plain_words,), f"{cls.plain_words}= beside plain words", "one of the two"))
        if faults:
            raise FaultError(faults)
        return {**made, **({cls.plain_words: plain} if plain else {})}

    @classmethod
    def words_example(cls) -> str:
        """How the first keys look on the command line."""
        keys = [key for key in cls.keys() if key not in ("measure", "label", "units")]
        return " ".join(f"{key}=..." for key in keys[:2])


def as_written(key: str, text: str) -> Value:
    """What stands behind `key=`: a map in braces or a list in brackets as YAML would read it, else the text itself."""
    if not text.strip().startswith(("{", "[")):
        return text
    try:
        value = read(f"value: {text}", key).value
    except SpecError:
        allowed = "brackets that close: a map such as {over: 12.5}, a list such as [7.85, 7.88]"
        raise FaultError([Fault((key,), shown(text), allowed)]) from None
    assert isinstance(value, dict)
    return value["value"]
