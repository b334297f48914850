"""The one loader of our CSV tables.

A table starts with `# key: value` lines (title, source, url, checked, notes; some have `kind`), then column names with
their unit, then rows. An empty cell means: not standardised, or not known.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from fitwright.errors import DataError

_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")
HEAD_KEYS = ("title", "source", "url", "checked", "notes")
STATUSES = ("confirmed", "derived", "memory", "common practice")
"""confirmed = read in a source; derived = calculated from confirmed numbers; memory = only remembered."""

NAMES = (
    "pipes/astm_d1785",
    "pipes/astm_d2665",
    "pipes/astm_d2661",
    "pipes/astm_d2729",
    "pipes/astm_d2729_sockets",
    "pipes/astm_d3034",
    "pipes/astm_f2158",
    "pipes/en_1401",
    "pipes/en_1329",
    "pipes/en_1451",
    "pipes/bs_4514",
    "pipes/bs_5255",
    "pipes/as_nzs_1260",
    "pipes/iso_161",
    "pipes/en_1506",
    "pipes/en_1506_fittings",
    "pipes/inch_duct",
    "pipes/hose_inch",
    "pipes/hose_metric",
    "screws/iso_metric",
    "screws/asme_inch",
    "screws/asme_wood",
    "screws/chipboard",
    "fits/iso_286_it",
    "fits/iso_286_deviations",
    "threads/iso_metric",
    "threads/asme_unified",
    "threads/iso_228",
    "threads/iso_7",
    "threads/asme_npt",
    "nuts/iso_hexagon",
    "nuts/asme_hexagon",
    "nuts/nose",
    "cylinders/iso_6432",
    "cylinders/iso_15552",
    "cylinders/iso_21287",
    "cylinders/iso_4393",
    "air/tubes",
    "air/fittings",
    "air/duct_elbows",
    "air/duct_elbow_angles",
    "air/duct_mitres",
    "air/duct_gored_elbows",
    "air/duct_reynolds",
    "air/duct_offsets",
    "air/duct_z_offsets",
    "air/duct_close_bends",
    "air/duct_diffusers",
    "air/duct_pyramids",
    "air/duct_contractions",
    "air/duct_contraction_cones",
    "air/duct_sudden_contractions",
    "air/duct_sudden_expansions",
    "air/duct_widening_angles",
    "air/duct_entries",
    "air/duct_walls",
    "air/duct_hoses",
    "air/duct_dusts",
    "rods",
    "spanners",
    "sheets",
    "woods",
    "wood_screws",
    "channel_nuts",
    "channels",
    "large_washers",
    "carried",
    "hose_bends",
    "gaskets",
    "printers",
    "materials",
    "materials_heat",
    "warm_places",
    "aliases",
)
"""Every table, in the order in which lists show them; a test compares this with the folder."""


@dataclass(frozen=True)
class Row:
    """One line of a table; `line` counts from 1 in the file."""

    file: str
    line: int
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        """The cell as written."""
        if column not in self.cells:
            raise DataError(f"{self.file}: no column {column!r}")
        return self.cells[column]

    def number(self, column: str) -> float | None:
        """The cell as a number; None where it is empty."""
        text = self.text(column)
        if not text:
            return None
        if not _NUMBER.fullmatch(text):
            raise DataError(f"{self.file}:{self.line}: {column} is {text!r}, not a number")
        return float(text)

    def required(self, column: str) -> float:
        """The cell as a number; an empty one is an error."""
        value = self.number(column)
        if value is None:
            raise DataError(f"{self.file}:{self.line}: {column} is empty")
        return value

    def status(self, column: str = "status") -> str:
        """The cell as one of STATUSES."""
        text = self.text(column)
        if text not in STATUSES:
            raise DataError(f"{self.file}:{self.line}: {column} is {text!r}; allowed: {', '.join(STATUSES)}")
        return text


@dataclass(frozen=True)
class Table:
    """A table with what its head says."""

    name: str
    head: Mapping[str, str]
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


@cache
def load(name: str) -> Table:
    """The table of this name (`pipes/astm_d2729`); DataError names file and row where it is damaged."""
    file = f"data/{name}.csv"
    try:
        text = files("fitwright.data").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    except OSError as error:
        raise DataError(f"{file}: cannot be read ({error.strerror})") from error
    return parse(text, name, file)


def parse(text: str, name: str, file: str) -> Table:
    """A table from its text; `file` is what messages call it."""
    lines = text.splitlines()
    count = next((i for i, line in enumerate(lines) if not line.startswith("#")), len(lines))
    head = _head(lines[:count], file)
    if count == len(lines):
        raise DataError(f"{file}: no column names")
    columns, *records = csv.reader(lines[count:])
    rows = tuple(_row(columns, record, file, count + 2 + i) for i, record in enumerate(records))
    return Table(name, head, tuple(columns), rows)


def _head(lines: list[str], file: str) -> dict[str, str]:
    head = {}
    for number, line in enumerate(lines, start=1):
        key, colon, value = line.removeprefix("#").partition(":")
        if not colon:
            raise DataError(f"{file}:{number}: a head line reads '# key: value'")
        head[key.strip()] = value.strip()
    missing = [key for key in HEAD_KEYS if key not in head]
    if missing:
        raise DataError(f"{file}: the head lacks {', '.join(missing)}")
    return head


def _row(columns: list[str], record: list[str], file: str, line: int) -> Row:
    if len(record) != len(columns):
        raise DataError(f"{file}:{line}: {len(record)} cells, but {len(columns)} columns")
    return Row(file, line, dict(zip(columns, (cell.strip() for cell in record), strict=True)))
