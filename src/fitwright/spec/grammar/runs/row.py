"""A row of fixed hangers as the YAML says it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.frame import Vec
from fitwright.spec.faults import Fault, FaultError, Path, shown
from fitwright.spec.grammar.base import Forms, gather, under
from fitwright.spec.grammar.gate_values import Force
from fitwright.spec.grammar.runs.apart import Told, too_near
from fitwright.spec.grammar.runs.base import ROOM, PlacedKeys, RunKeys
from fitwright.spec.grammar.values import Context, Count, Length, Words

MOST_HANGERS = 60
LEAST_APART_MM = 20.0


class RowHangerKeys(PlacedKeys):
    """A hanger of a row, or a connection at its beginning or end."""

    meant: ClassVar[Mapping[str, str]] = {
        **PlacedKeys.meant,
        **dict.fromkeys(("length", "hose", "slack"), "write sag: how far the hose hangs below the straight line"),
    }
    sag: Annotated[float | None, Length(1.0, 5000.0)] = Field(
        None,
        description="How far the span after it hangs below the straight line to the next, in the file's units; by "
        "pull or sag of the row if absent.",
    )


def read_hangers(value: object, context: Context) -> list[RowHangerKeys]:
    """A list of 1 to 60 hangers; faults of all of them."""
    if not isinstance(value, list) or not 1 <= len(value) <= MOST_HANGERS:
        found = shown(value)
        raise FaultError([Fault((), found, f"a list of 1 to {MOST_HANGERS} such as - {RowHangerKeys.example}")])
    return gather([under((k,), partial(RowHangerKeys.read, one, context)) for k, one in enumerate(value)])


RowHangers = Annotated[list[RowHangerKeys], Forms(read_hangers, list[RowHangerKeys])]


class RowKeys(RunKeys):
    """A hose along a row of fixed hangers."""

    example: ClassVar[str] = "{hose_run: row, hose: {over_ribs: 108.4}, count: 5, spacing: 1200}"
    filled: ClassVar[tuple[str, ...]] = (*RunKeys.filled, "pull")
    meant: ClassVar[Mapping[str, str]] = {
        **RunKeys.meant,
        **dict.fromkeys(("port", "begins", "start"), "write from: the connection before the first hanger"),
        **dict.fromkeys(("end", "ends", "head"), "write to: the connection after the last hanger"),
        **dict.fromkeys(("every", "distance", "apart"), "write spacing"),
        **dict.fromkeys(("number", "how_many"), "write count"),
        **dict.fromkeys(("height", "at"), "write up: height of the hose's axis at the hangers"),
        **dict.fromkeys(("tension", "tight", "drawn"), "write pull"),
    }
    hose_run: Annotated[Literal["row"], Words(("row",))] = Field(description="The kind: row; no unit.")
    hangers: RowHangers | None = Field(
        None, description="The hangers in their order along the hose; a list of places, in the file's units."
    )
    count: Annotated[int | None, Count(2, MOST_HANGERS)] = Field(
        None, description="In place of the list: so many level hangers in a straight row. A whole number."
    )
    spacing: Annotated[float | None, Length(100.0, 10_000.0)] = Field(
        None, description="In place of the list: from hanger to hanger, in the file's units."
    )
    up: Annotated[float, ROOM] = Field(
        0.0, description="In place of the list: height of the hose's axis at them, in the file's units; 0 if absent."
    )
    from_: PlacedKeys | None = Field(
        None,
        alias="from",
        description="What the hose comes from and is held by, a port; a map, in the file's units. None if absent.",
    )
    to: PlacedKeys | None = Field(
        None, description="What the hose goes to and is held by, a port; a map, in the file's units. None if absent."
    )
    pull: Annotated[float | None, Force(0.5, 2000.0)] = Field(
        None,
        description="With what level pull the empty hose is drawn along the row, with its unit (25 N); so that 1.2 m "
        "sag by half an inch a foot if absent.",
    )
    sag: Annotated[float | None, Length(1.0, 5000.0)] = Field(
        None, description="In place of pull: how far its longest span hangs through, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self.too_sharp(context)
        if self.hangers is None and (self.count is None or self.spacing is None):
            yield from self._no_hangers()
            return
        if self.hangers is not None:
            for key in ("count", "spacing", "up"):
                if key in self.model_fields_set:
                    yield Fault((key,), f"{key} beside hangers", "one of the two", f"delete {key}", at="key")
        if self.pull is not None and self.sag is not None:
            yield Fault(("sag",), "pull and sag together", "one of the two", "delete one", at="key")
        yield from self._places(context)

    def _no_hangers(self) -> Iterator[Fault]:
        given = [key for key in ("count", "spacing") if getattr(self, key) is not None]
        lacks = "spacing" if given == ["count"] else "count" if given else "hangers"
        hint = f"add `{lacks}:`" if given else "such as - at: {right: 0, up: 2100}; or count: 5 and spacing: 1200"
        yield Fault((lacks,), "nothing", "hangers, or count and spacing", hint, at="key")

    def _places(self, context: Context) -> Iterator[Fault]:
        """Two or more, each to the side of the one before, and none nearer to another than the hose is thick."""
        told = self.told()
        if len(told) < 2:
            yield Fault(("hangers",), "one hanger and nothing else", "two or more places", "or add `from:` or `to:`")
        for (_, before), (path, at) in itertools.pairwise(told):
            if max(abs(before[0] - at[0]), abs(before[1] - at[1])) < LEAST_APART_MM:
                allowed = "20 mm or more to the side of the one before: a hose that hangs straight down has no sag"
                yield Fault(path, "a place above, below or at the one before", allowed)
                return
        named = [Told.point(path, _words(path), at) for path, at in told]
        yield from too_near(named, self.hose.carried().size.greatest_mm, context)

    def told(self) -> list[tuple[Path, Vec]]:
        """Path in the file and place of all, in their order."""
        found: list[tuple[Path, Vec]] = [(("from", "at"), self.from_.at)] if self.from_ else []
        if self.hangers is not None:
            found += [(("hangers", k, "at"), one.at) for k, one in enumerate(self.hangers)]
        elif self.count is not None and self.spacing is not None:
            found += [(("spacing",), (k * self.spacing, 0.0, self.up)) for k in range(self.count)]
        return [*found, (("to", "at"), self.to.at)] if self.to else found


def _words(path: Path) -> str:
    """How a message names a place of the row."""
    if path[0] == "hangers":
        return f"hanger {int(path[1]) + 1}"
    return "the hanger before it" if path[0] == "spacing" else f"`{path[0]}`"
