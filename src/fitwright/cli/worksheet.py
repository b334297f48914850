"""`worksheet`: a sheet to print and fill in at the bench."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.errors import FitwrightError
from fitwright.export.write_text import write_bytes
from fitwright.report.worksheets import WORKSHEETS
from fitwright.spec.faults import nearest

if TYPE_CHECKING:
    from fitwright.drawing.sheet import Sheet


def run(options: argparse.Namespace) -> int:
    """Write the sheet as a PDF that does not exist yet."""
    name = known(options.name)
    path: Path = options.output or Path(f"{name}_worksheet.pdf")
    _refuse(path)
    from fitwright.drawing.pdf import pdf_bytes
    from fitwright.report.worksheets.made import worksheet_sheets

    sheets: list[Sheet] = worksheet_sheets(name, options.paper)
    write_bytes(path, pdf_bytes(sheets))
    pages = "1 page" if len(sheets) == 1 else f"{len(sheets)} pages"
    print(f"wrote {path}: {pages}, {options.paper}. Print it, fill it in at the bench, type it in as its form says")
    return 0


def known(name: str) -> str:
    """The name as WORKSHEETS has it (a dash for an underline will do); FitwrightError lists those there are."""
    meant = name.strip().casefold().replace("-", "_").replace(" ", "_")
    if meant in WORKSHEETS:
        return meant
    hint = nearest(meant, list(WORKSHEETS))
    raise FitwrightError(f"no worksheet is called {name!r}; there are {', '.join(WORKSHEETS)}. {hint}".strip())


def _refuse(path: Path) -> None:
    """Before the seconds that the drawing takes."""
    if path.suffix.casefold() != ".pdf":
        raise FitwrightError(f"a worksheet is written as PDF: {path} should end in .pdf, such as {path.stem}.pdf")
    if path.exists():
        raise FitwrightError(f"{path} exists already and is kept; name another file with -o")
