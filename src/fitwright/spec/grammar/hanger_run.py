"""From which hose run a hanger takes its load, as the YAML says it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Text


class HangerRunKeys(Grammar):
    """The hose run that this hanger stands in."""

    example: ClassVar[str] = "{file: runs/gantry_run.yaml, hanger: 1}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("path", "from", "of", "name"), "write file"),
        **dict.fromkeys(("number", "which", "at", "label"), "write hanger"),
    }
    file: Annotated[str, Text("a file's name", 200)] = Field(
        description="The YAML file of the hose run, seen from this file's folder; no unit."
    )
    hanger: Annotated[str, Text("a number or a label", 40, number=True)] = Field(
        description="Which of its hangers, by number from 1 or by label; no unit."
    )
