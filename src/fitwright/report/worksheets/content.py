"""What a worksheet holds, as plain data: rows to fill in, drawings with letters, a YAML form, blanks, cautions."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from fitwright.report.worksheets.pad import Pad

LETTERS = tuple("ABCDEFGHJKLMNPQRSTUVWXYZ")
"""Without I and O, which a pencil makes into 1 and 0."""
Kind = Literal["length", "angle", "count", "word", "below"]


@dataclass(frozen=True)
class Row:
    """One thing to measure. `name` is what its letter is drawn by; `key` the steps to its YAML key.

    The step `end_` stands for end_a or end_b, to be written in by hand. A length has three boxes and a unit to ring,
    an angle three boxes in degrees; a count or a word has one long box; what is written `below`, in a grid, has none.
    """

    name: str
    what: str
    tool: str
    how: str
    key: tuple[str, ...]
    kind: Kind = "length"

    @property
    def key_steps(self) -> list[str]:
        """The key as the YAML writes it, a step each: `end_a:`, `socket:`, `over:`."""
        return [f"{'end_ _' if step == 'end_' else step}:" for step in self.key]


@dataclass(frozen=True)
class Figure:
    """A drawing `wide_mm` of paper wide, with its caption; `draw` gets a pad whose origin is its lower left corner."""

    wide_mm: float
    caption: str
    draw: Callable[[Pad], None]


@dataclass(frozen=True)
class Figures:
    """Drawings side by side, all `high_mm` high."""

    high_mm: float
    figures: tuple[Figure, ...]


@dataclass(frozen=True)
class Rows:
    """A table of things to measure, under its title."""

    title: str
    rows: tuple[Row, ...]
    once: bool = False
    """One box a row in place of three: what is read once."""


@dataclass(frozen=True)
class Blanks:
    """Lines to write on, side by side: words and the share of the width of each."""

    fields: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Cautions:
    """Short cautions in a frame."""

    lines: tuple[str, ...]


@dataclass(frozen=True)
class Grid:
    """A table whose first column may be printed, with empty boxes of 18 mm or more under the other headings."""

    title: str
    headings: tuple[str, ...]
    first: tuple[str, ...]
    lead_mm: float = 18.0
    """Width of the first column."""


@dataclass(frozen=True)
class Form:
    """Lines of YAML with `____` to fill in by hand; `<name>` in a comment becomes the letter of that row.

    Each of `others` is a title with lines that may stand in place of `swap`; `added` is one with lines to be added.
    """

    title: str
    lines: str
    swap: str = ""
    others: tuple[tuple[str, str], ...] = ()
    added: tuple[str, str] = ("", "")
    note: str = ""

    def texts(self) -> list[str]:
        """The form as it stands, once for each way to swap, once with what may be added: each loads once filled in."""
        swapped = [self.lines.replace(self.swap, other) for _, other in self.others]
        return [self.lines, *swapped, *([self.lines + self.added[1]] if self.added[1] else [])]


Block = Figures | Rows | Blanks | Cautions | Grid | Form


@dataclass(frozen=True)
class Worksheet:
    """A sheet to print and fill in at the bench."""

    title: str
    lead: str
    blocks: tuple[Block, ...]
    marks: Mapping[str, str] = field(default_factory=dict)
    """Marks of drawings whose rows are no `Row` (numbered holes): name -> what stands in the ring."""

    @property
    def rows(self) -> list[Row]:
        """All rows, in order."""
        return [row for block in self.blocks if isinstance(block, Rows) for row in block.rows]

    @property
    def letters(self) -> dict[str, str]:
        """Name of each row -> its letter: A to Z without I and O, then AA, AB and so on."""
        return {**lettered(self.rows), **self.marks}


def lettered(rows: Sequence[Row]) -> dict[str, str]:
    """A letter for each row, in order."""
    count = len(LETTERS)
    return {row.name: ("" if k < count else LETTERS[k // count - 1]) + LETTERS[k % count] for k, row in enumerate(rows)}
