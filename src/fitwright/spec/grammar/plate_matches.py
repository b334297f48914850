"""The flange of another part that a plate is made for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import Text, Words

ENDS: tuple[Literal["end_a", "end_b"], ...] = ("end_a", "end_b")


class MatchesKeys(Grammar):
    """The part whose flange the plate goes on."""

    example: ClassVar[str] = "{part: clocked_inlet.yaml, end: end_a}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("file", "path", "yaml"), "write part: its YAML file"),
        **dict.fromkeys(("flange", "mouth"), "write end: end_a or end_b"),
    }
    part: Annotated[str, Text("a part's YAML file", 200)] = Field(
        description="Its YAML file, from the folder of this one; no unit."
    )
    name: Annotated[str | None, Text("a part's name", 60, number=True)] = Field(
        None, description="Which part, where that file holds several; no unit."
    )
    end: Annotated[Literal["end_a", "end_b"] | None, Words(ENDS)] = Field(
        None, description="The end with the flange: end_a or end_b; no unit; the one that has a flange if absent."
    )


MatchesValue = Annotated[
    MatchesKeys | None, Forms(lambda value, context: MatchesKeys.read(value, context), MatchesKeys)
]
