"""The pages of the worksheets as SVG, for docs/measuring/worksheets.md.

`python -m fitwright.report.worksheets.pictures` writes docs/pictures/worksheets anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from fitwright.drawing.svg import svg_text
from fitwright.report.worksheets import WORKSHEETS
from fitwright.report.worksheets.made import worksheet_sheets

FOLDER = Path("docs") / "pictures" / "worksheets"
WHOLE = "reducer"
"""Of this sheet all pages are shown, of the others the first."""


def pictures() -> Iterator[tuple[str, str]]:
    """File name and text of each picture."""
    for name in WORKSHEETS:
        pages = worksheet_sheets(name)
        for number, sheet in enumerate(pages if name == WHOLE else pages[:1], start=1):
            yield f"{name}_{number}.svg", svg_text(sheet)


def write_pictures(root: Path) -> list[Path]:
    """Write all pictures below the project's root; returns their paths."""
    folder = root / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for file, text in pictures():
        (folder / file).write_text(text, encoding="utf-8")
        written.append(folder / file)
    return written


if __name__ == "__main__":
    write_pictures(Path.cwd())
