"""Answer: what a measuring command says, and what it gives to paste into a part."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Answer:
    """`text` is for reading; `yaml` are the lines that go into a part's YAML (empty: none).

    `good` is False where the readings contradict each other or the wish is refused (exit code 1). `files` are written
    beside and renamed, each with its text (a printer's profile).
    """

    text: str
    yaml: str = ""
    good: bool = True
    files: tuple[tuple[Path, str], ...] = ()
