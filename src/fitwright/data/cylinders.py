"""Air cylinders by what people say (`ISO 6432 16 x 125`): ISO 6432 round, ISO 15552 profile, ISO 21287 compact."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from functools import cache

from fitwright.data import tables
from fitwright.data.cylinder_words import STANDARDS, CylinderQuery, understand
from fitwright.data.tables import Row
from fitwright.errors import DataError
from fitwright.units import format_number

LONGEST_STROKE_MM = 2800.0
"""Longer strokes are not offered: read in a catalogue; anything above is a slip of the pen."""


@dataclass(frozen=True)
class CylinderRow:
    """One bore of one standard; lengths in mm, rod in, stroke 0; None where it has none or none is known.

    `rod_thread`, `rod_inner_thread` (bored into the rod), `nose_thread` and `port` are names of the tables of threads.
    `rod_stub_mm` reaches from the mounting face to the rod's shoulder (WF, WH), +-`stub_tol_mm`; `nose_len_mm` is what
    stands out of that face towards the rod: the nose thread of ISO 6432, the boss (`boss_d_mm`, d11) of ISO 15552.
    `square_mm` is the pitch of the four screws (TG). `length_0_mm` is XC (shoulder to rear pin) of ISO 6432, face to
    face of the others; `rear_over_mm` stands out behind that pin. `stroke_plus_mm`: strokes are -0/+ this.
    `from_memory` names the fields that are only remembered; the status says how the others are known.
    """

    standard: str
    bore_mm: float
    rod_mm: float
    rod_thread: str
    rod_inner_thread: str | None
    rod_thread_len_mm: float
    rod_stub_mm: float
    stub_tol_mm: float
    rod_flats_af_mm: float | None
    nose_thread: str | None
    nose_thread_len_mm: float | None
    nose_nut_af_mm: float | None
    nose_nut_m_mm: float | None
    nose_len_mm: float
    boss_d_mm: float | None
    square_mm: float | None
    square_screw: str | None
    square_screw_depth_mm: float | None
    body_round_mm: float | None
    body_square_mm: float | None
    head_round_mm: float | None
    length_0_mm: float
    rear_over_mm: float | None
    port: str
    port_from_face_mm: float | None
    mass_0_kg: float
    mass_100_kg: float
    stroke_plus_mm: float
    status: str
    from_memory: tuple[str, ...]
    source: str
    note: str

    @property
    def words(self) -> str:
        """The name that leads to this row alone: `ISO 6432 16`."""
        return f"{self.standard} {format_number(self.bore_mm, 1)}"

    @property
    def push_area_mm2(self) -> float:
        """The piston's area [mm2]: thrust pushing = pressure [N/mm2] x this."""
        return math.pi / 4.0 * self.bore_mm**2

    @property
    def pull_area_mm2(self) -> float:
        """The piston's area less the rod's [mm2]."""
        return math.pi / 4.0 * (self.bore_mm**2 - self.rod_mm**2)

    @property
    def behind_face_mm(self) -> float:
        """From the mounting face to the rear end at stroke 0 [mm]; ISO 6432: rear eye included."""
        if self.rear_over_mm is None:
            return self.length_0_mm
        return self.length_0_mm - self.rod_stub_mm + self.rear_over_mm

    def mass_kg(self, stroke_mm: float) -> float:
        """Mass of the cylinder with this stroke [kg]; from memory."""
        return self.mass_0_kg + self.mass_100_kg * stroke_mm / 100.0

    def remembered(self, field: str) -> bool:
        """True where the field is only remembered."""
        return field in self.from_memory


class AmbiguousCylinderError(DataError):
    """The words name a bore but no standard; `candidates` holds the rows that have that bore."""

    def __init__(self, words: str, candidates: tuple[CylinderRow, ...], stroke_mm: float | None) -> None:
        tail = "" if stroke_mm is None else f" x {format_number(stroke_mm, 1)}"
        listed = ", ".join(f"{row.words}{tail} ({STANDARDS[row.standard]})" for row in candidates)
        super().__init__(f"{words!r} does not say which standard: {listed}. Say which, or measure it")
        self.words, self.candidates, self.stroke_mm = words, candidates, stroke_mm

    def __reduce__(self) -> tuple[type[AmbiguousCylinderError], tuple[str, tuple[CylinderRow, ...], float | None]]:
        return AmbiguousCylinderError, (self.words, self.candidates, self.stroke_mm)


def cylinder(words: str) -> tuple[CylinderRow, float]:
    """The cylinder and its stroke [mm] of this name: `ISO 6432 16 x 125`, `iso15552 32x160`.

    Raises AmbiguousCylinderError where the standard is not said, DataError where there is no such bore (with the
    nearest), no stroke, or a word that nobody knows.
    """
    query = understand(words)
    row = _the_one(words, query)
    if query.stroke_mm is None:
        raise DataError(f"{words!r} names no stroke; write bore x stroke, such as {row.words} x 125")
    if not 1.0 <= query.stroke_mm <= LONGEST_STROKE_MM:
        found = format_number(query.stroke_mm, 1)
        raise DataError(f"{words!r}: a stroke of {found} mm; there are 1 to {format_number(LONGEST_STROKE_MM, 0)} mm")
    return row, query.stroke_mm


def cylinder_row(words: str) -> CylinderRow:
    """The one bore of this name, stroke said or not (`ISO 6432 16`); raises like `cylinder`."""
    return _the_one(words, understand(words))


def find_cylinders(words: str) -> list[CylinderRow]:
    """Rows that the words may mean: `cylinder` every one, `ISO 6432` its bores, `ISO 6432 16` or `16 x 125` those."""
    query = understand(words)
    if query.strange or query.inches:
        return []
    return [row for row in all_cylinders() if query.standard in (None, row.standard) and _has_bore(row, query.bore_mm)]


@cache
def all_cylinders() -> tuple[CylinderRow, ...]:
    """Every cylinder, in the order of the tables."""
    named = [tables.load(name) for name in tables.NAMES if name.startswith("cylinders/iso_")]
    return tuple(_cylinder_row(row, table) for table in named if "bore_mm" in table.columns for row in table.rows)


@cache
def standard_strokes() -> tuple[float, ...]:
    """The strokes of ISO 4393 [mm], ascending."""
    return tuple(row.required("stroke_mm") for row in tables.load("cylinders/iso_4393").rows)


def _has_bore(row: CylinderRow, bore_mm: float | None) -> bool:
    return bore_mm is None or abs(row.bore_mm - bore_mm) < 1e-6


def _the_one(words: str, query: CylinderQuery) -> CylinderRow:
    if query.inches:
        raise DataError(f"{words!r}: {query.inches} is in inches; no table has inch cylinders: give its readings")
    if query.strange:
        raise DataError(
            f"no cylinder is called {words!r}: {query.strange!r} is unknown; write {_example(query.standard)}"
        )
    if query.bore_mm is None:
        raise DataError(f"{words!r} names no bore; write one, such as {_example(query.standard)}")
    rows = find_cylinders(words)
    if not rows:
        raise DataError(_none_message(words, query.standard, query.bore_mm))
    if query.standard is None:
        raise AmbiguousCylinderError(words, tuple(rows), query.stroke_mm)
    return rows[0]


def _example(standard: str | None) -> str:
    """A name that works."""
    row = next(row for row in all_cylinders() if row.bore_mm >= 16.0 and standard in (None, row.standard))
    return f"{row.words} x 125"


def _none_message(words: str, standard: str | None, bore_mm: float) -> str:
    """Why there is no such bore: the nearest, all of the standard's, and who else has it."""
    rows = [row for row in all_cylinders() if standard in (None, row.standard)]
    least = min(abs(row.bore_mm - bore_mm) for row in rows)
    near = ", ".join(row.words for row in rows if abs(row.bore_mm - bore_mm) <= least + 1e-6)
    found = format_number(bore_mm, 2)
    if standard is None:
        return f"{words!r}: no standard has a bore of {found} mm; the nearest is {near}. Others are given by readings"
    bores = ", ".join(format_number(row.bore_mm, 0) for row in rows)
    text = f"{words!r}: {standard} has no bore of {found} mm, but {bores}; the nearest is {near}"
    others = [row.words for row in all_cylinders() if _has_bore(row, bore_mm)]
    return f"{text}; {found} is in {' and '.join(others)}" if others else text


def _cylinder_row(row: Row, table: tables.Table) -> CylinderRow:
    remembered = tuple(name for name in row.text("memory_fields").split(";") if name)
    for name in remembered:
        if not row.text(name):
            raise DataError(f"{row.file}:{row.line}: memory_fields names {name}, which is empty")
    known = {
        "status": row.status(),
        "from_memory": remembered,
        "source": table.head["source"],
        "note": row.text("note"),
    }
    cells = {
        field.name: _cell(row, field.name, str(field.type)) for field in fields(CylinderRow) if field.name not in known
    }
    return CylinderRow(**cells, **known)  # type: ignore[arg-type]


def _cell(row: Row, name: str, kind: str) -> str | float | None:
    """A cell as its field wants it: `float`, `float | None`, `str`, `str | None`."""
    if kind.startswith("float"):
        return row.required(name) if kind == "float" else row.number(name)
    text = row.text(name)
    if not text and kind == "str":
        raise DataError(f"{row.file}:{row.line}: {name} is empty")
    return text or None
