"""How far the hose droops over the edge of a bench, as the YAML says it: what tells its stiffness."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.physics.hose_droop import LEAST_SHARE, MOST_SHARE
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Context, Length
from fitwright.units import format_length


class DroopKeys(Grammar):
    """The empty hose laid level over the edge of a bench, held down on it."""

    example: ClassVar[str] = "{juts: 700, hangs: 300}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("over", "out", "length", "juts_out", "free"), "write juts: so much of it is beyond the edge"),
        **dict.fromkeys(("by", "down", "sag", "drop", "droops"), "write hangs: its end is so much below the bench"),
    }
    juts: Annotated[float, Length(50.0, 3000.0)] = Field(
        description="So much of the empty hose is beyond the edge, along the hose, in the file's units."
    )
    hangs: Annotated[float, Length(1.0, 3000.0)] = Field(
        description="So far its end hangs below where it lies on the bench, axis to axis, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        low, high = LEAST_SHARE * self.juts, MOST_SHARE * self.juts
        if not low <= self.hangs <= high:
            say = [format_length(mm, context.units, fraction=False) for mm in (self.hangs, self.juts, low, high)]
            found, allowed = f"{say[0]} of droop, {say[1]} jutting out", f"{say[2]} to {say[3]}"
            hint = "let more of it jut out" if self.hangs < low else "let less of it jut out"
            yield Fault(("hangs",), found, allowed, hint)
