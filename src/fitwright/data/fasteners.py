"""Screws by the names that people use: M3 to M12, No. 6 to 1/2 in, wood and chipboard screws."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError
from fitwright.units import plain_text

Clearance = Literal["fine", "medium", "coarse"]

KNOWN = "M3 to M12, No. 6 to No. 12, 1/4 in to 1/2 in, 3.5 mm to 6.0 mm chipboard screws"


@dataclass(frozen=True)
class FastenerRow:
    """One screw with its holes, head, nut and washer, all in mm; None where it has none or none is standardised.

    `hole_*_mm` are ISO 273 (inch: ASME B18.2.8); `head_*` the cylinder head (wood screws: the flat head);
    `pilot_plastic_mm` the hole in a print that the screw cuts its own thread in, common practice.
    """

    name: str
    thread: str
    pitch_mm: float | None
    major_mm: float
    hole_fine_mm: float | None
    hole_medium_mm: float
    hole_coarse_mm: float | None
    head_d_mm: float
    head_k_mm: float | None
    csk_d_mm: float | None
    csk_k_mm: float | None
    hex_af_mm: float | None
    hex_k_mm: float | None
    nut_af_mm: float | None
    nut_m_mm: float | None
    washer_d1_mm: float | None
    washer_d2_mm: float | None
    washer_h_mm: float | None
    pilot_plastic_mm: float
    status: str
    source: str
    note: str

    def hole_mm(self, clearance: Clearance = "medium") -> float:
        """The clearance hole [mm]; wood screws have one hole only."""
        hole = {"fine": self.hole_fine_mm, "medium": self.hole_medium_mm, "coarse": self.hole_coarse_mm}[clearance]
        return self.hole_medium_mm if hole is None else hole


def fastener(name: str) -> FastenerRow:
    """The screw of this name: `M6`, `No. 8`, `#8`, `1/4 in`, `1/4-20`, `1/4-28 UNF`, `No. 8 wood`, `4.5 mm`.

    Where only the size is given the coarse thread is meant; holes and pilots are the same for both.
    """
    size, rest = _split(name)
    for row in all_fasteners():
        if row.name.casefold() == size and _thread_agrees(row, rest):
            return row
    raise DataError(f"no screw is called {name!r}; known: {KNOWN}")


@cache
def all_fasteners() -> tuple[FastenerRow, ...]:
    """Every screw, in the order of the tables."""
    names = [name for name in tables.NAMES if name.startswith("screws/")]
    return tuple(
        _fastener_row(row, tables.load(name).head["source"]) for name in names for row in tables.load(name).rows
    )


def _split(name: str) -> tuple[str, str]:
    """The size as our tables write it (`no. 8`, `1/4 in`, `4.5 mm`, `m6`), and what else was said."""
    text = " ".join(plain_text(name).casefold().split())
    if match := re.match(r"m\s?([0-9]+)(?:\.0)?(?![0-9.])(.*)", text):
        return f"m{match[1]}", match[2].strip()
    if match := re.match(r"(?:no\.?|nr\.?|number|#)\s?([0-9]+)(?![0-9.])(.*)", text):
        return f"no. {match[1]}", match[2].strip()
    if match := re.match(r"([0-9]+/[0-9]+)\s?(?:in\b|inch\b|\"|'')?(.*)", text):
        return f"{match[1]} in", match[2].strip()
    if match := re.match(r"([0-9]+(?:\.[0-9])?)\s?mm\b(.*)", text):
        return f"{float(match[1]):.1f} mm", match[2].strip()
    return text, ""


def _thread_agrees(row: FastenerRow, said: str) -> bool:
    """True where pitch, threads per inch or kind as said fit the row; nothing said fits all."""
    kinds = row.thread.casefold()
    for word in re.findall(r"[a-z]+|[0-9.]+", said.replace("screw", " ").replace("bolt", " ")):
        if word == "x":
            continue
        if re.fullmatch(r"[0-9.]+", word):
            pitch = f"{row.pitch_mm:g}" if row.pitch_mm and row.name.startswith("M") else kinds.split()[-1]
            if word.rstrip(".") != pitch:
                return False
        elif word not in kinds.split():
            return False
    return True


def _fastener_row(row: Row, source: str) -> FastenerRow:
    number = row.number
    return FastenerRow(
        name=row.text("name"),
        thread=row.text("thread"),
        pitch_mm=number("pitch_mm"),
        major_mm=row.required("major_mm"),
        hole_fine_mm=number("hole_fine_mm"),
        hole_medium_mm=row.required("hole_medium_mm"),
        hole_coarse_mm=number("hole_coarse_mm"),
        head_d_mm=row.required("head_d_mm"),
        head_k_mm=number("head_k_mm"),
        csk_d_mm=number("csk_d_mm"),
        csk_k_mm=number("csk_k_mm"),
        hex_af_mm=number("hex_af_mm"),
        hex_k_mm=number("hex_k_mm"),
        nut_af_mm=number("nut_af_mm"),
        nut_m_mm=number("nut_m_mm"),
        washer_d1_mm=number("washer_d1_mm"),
        washer_d2_mm=number("washer_d2_mm"),
        washer_h_mm=number("washer_h_mm"),
        pilot_plastic_mm=row.required("pilot_plastic_mm"),
        status=row.status(),
        source=source,
        note=row.text("note"),
    )
