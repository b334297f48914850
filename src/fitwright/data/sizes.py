"""Pipe, hose and duct sizes by the words people use for them.

"4 in" names at least six different outsides; so a name either leads to rows that agree on the face asked for, or to an
AmbiguousSizeError that lists the different things. 4 in and 100 mm are never the same.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Literal

from fitwright.data import tables
from fitwright.data.size_words import Query, nearest_word, understand
from fitwright.data.tables import Row
from fitwright.errors import DataError
from fitwright.units import format_number

Face = Literal["outside", "inside"]

UNKNOWN_TOLERANCE = 0.005
"""Half-range of a diameter whose tolerance we don't know, as a part of it: common practice, no source."""
WALL_EXCESS = 1.12
"""A wall may exceed the least wall by 12 % (ASTM D1785: or 0.020 in; from memory), or by 0.5 mm where that is more."""
WALL_EXCESS_MM = 0.5
SAME_MM = 0.01


@dataclass(frozen=True)
class SizeRow:
    """One size of one series. Diameters and walls in mm; None where the series does not say.

    `wall_mm` is the least wall of a pipe. `further_mm` is the inside at `apart_mm` below the mouth where a bought
    socket narrows. `status` and `tolerance_status` are `confirmed`, `derived`, `memory`, `common practice`; the latter
    may be `assumed` (+-0.5 %). `words` finds this row again.
    """

    series: str
    nominal: str
    nominal_mm: float | None
    nominal_in: float | None
    kind: str
    od_mm: float | None
    od_least_mm: float | None
    od_greatest_mm: float | None
    wall_mm: float | None
    inside_mm: float | None
    inside_least_mm: float | None
    inside_greatest_mm: float | None
    further_mm: float | None
    apart_mm: float | None
    status: str
    tolerance_status: str
    source: str
    note: str

    @property
    def words(self) -> str:
        """The name that leads to this row alone."""
        return f"{self.series} {self.nominal}".partition(" (")[0]

    def face(self, face: Face) -> tuple[float, float, float] | None:
        """Usual, least and greatest diameter [mm] of a face; None where the series does not say.

        A pipe's usual inside is the middle of its range: only the least wall is standardised, and real walls are above
        it (`inside_mm` is outside less two least walls, the figure that tables print).
        """
        if face == "outside":
            return _triple(self.od_mm, self.od_least_mm, self.od_greatest_mm)
        least, greatest = self.inside_least_mm, self.inside_greatest_mm
        if self.kind == "pipe" and least is not None and greatest is not None:
            return round((least + greatest) / 2.0, 3), least, greatest
        return _triple(self.inside_mm, least, greatest)


class AmbiguousSizeError(DataError):
    """The words name different things; `candidates` holds one row for each that differs."""

    def __init__(self, words: str, candidates: tuple[SizeRow, ...], face: Face) -> None:
        listed = "; ".join(f"{row.words} ({describe_face(row, face)})" for row in candidates)
        super().__init__(f"{words!r} can mean different things: {listed}. Say which, or measure it")
        self.words, self.candidates, self.face = words, candidates, face

    def __reduce__(self) -> tuple[type[AmbiguousSizeError], tuple[str, tuple[SizeRow, ...], Face]]:
        return AmbiguousSizeError, (self.words, self.candidates, self.face)


def find(words: str) -> list[SizeRow]:
    """Rows that the words may mean, best first; where none has that nominal, those which measure about that much.

    No words at all: every row. Words that nobody knows are passed over.
    """
    query = understand(words)
    rows = [row for row in all_rows() if _allowed(row, query)]
    if query.value is None:
        return rows if query.meanings or not query.strange else []
    named = [row for row in rows if _has_nominal(row, query)]
    return named or _measuring(rows, query)


def pipe(words: str, *, face: Face = "outside") -> SizeRow:
    """The one pipe, duct, tube or fitting of this name, judged by the face that is joined.

    Raises AmbiguousSizeError where the candidates differ on that face, DataError where there is none.
    """
    return _the_one(words, face, lambda row: row.kind not in ("hose", "outside diameters"))


def hose(words: str) -> SizeRow:
    """The one flexible hose of this name (`4 in`, `100 hose`), named by its inside; raises like `pipe`."""
    return _the_one(words, "inside", lambda row: row.kind == "hose")


def describe_face(row: SizeRow, face: Face) -> str:
    """`outside 107.06 mm (106.83 to 107.29)`, or the other face where the series does not say."""
    other: Face = "inside" if face == "outside" else "outside"
    for name in (face, other):
        triple = row.face(name)
        if triple:
            nominal, least, greatest = (format_number(size, 2) for size in triple)
            return f"{name} {nominal} mm ({least} to {greatest})"
    return "no size"


@cache
def all_rows() -> tuple[SizeRow, ...]:
    """Every row of every table of pipes, hoses and ducts."""
    names = [name for name in tables.NAMES if name.startswith("pipes/")]
    return tuple(_size_row(row, tables.load(name)) for name in names for row in tables.load(name).rows)


def _allowed(row: SizeRow, query: Query) -> bool:
    """True where every word that means something allows the row."""
    return all(
        any(row.kind == one[5:] if one.startswith("kind:") else row.series.startswith(one) for one in meaning)
        for meaning in query.meanings
    )


def _has_nominal(row: SizeRow, query: Query) -> bool:
    names = {"in": (row.nominal_in,), "mm": (row.nominal_mm,), "either": (row.nominal_in, row.nominal_mm)}[query.unit]
    return any(name is not None and abs(name - (query.value or 0.0)) < 1e-6 for name in names)


def _measuring(rows: list[SizeRow], query: Query) -> list[SizeRow]:
    """Rows with a face within 1 % of the size, nearest first."""
    wanted = (query.value or 0.0) * (25.4 if query.unit == "in" else 1.0)
    off = {row.words: _off(row, wanted) for row in rows}
    return sorted((row for row in rows if off[row.words] <= 0.01 * wanted), key=lambda row: off[row.words])


def _off(row: SizeRow, wanted_mm: float) -> float:
    faces = [size for size in (row.od_mm, row.inside_mm) if size is not None]
    return min((abs(size - wanted_mm) for size in faces), default=float("inf"))


def _the_one(words: str, face: Face, wanted: Callable[[SizeRow], bool]) -> SizeRow:
    query = understand(words)
    if query.strange:
        raise DataError(_strange_message(words, query.strange[0]))
    rows = [row for row in find(words) if wanted(row) and _has_nominal(row, query)]
    rows = [row for row in rows if (row.kind == "fitting") == query.asks_for_fitting]
    if not rows:
        raise DataError(_none_message(words, query, wanted))
    known = [row for row in rows if row.face(face)]
    if not known:
        raise DataError(f"{words!r}: {rows[0].source} gives no {face} diameter; measure it")
    different = _different(known, face)
    if len(different) > 1:
        raise AmbiguousSizeError(words, tuple(different), face)
    return different[0]


def _different(rows: list[SizeRow], face: Face) -> list[SizeRow]:
    """One row for each different face, in the order of the tables."""
    kept: list[SizeRow] = []
    for row in rows:
        if not any(_same(row.face(face), other.face(face)) for other in kept):
            kept.append(row)
    return kept


def _same(a: tuple[float, float, float] | None, b: tuple[float, float, float] | None) -> bool:
    return a is not None and b is not None and all(abs(p - q) <= SAME_MM for p, q in zip(a, b, strict=True))


def _strange_message(words: str, strange: str) -> str:
    near = nearest_word(strange)
    hint = f"did you mean {near!r}? " if near else ""
    return f"no size is called {words!r}: the word {strange!r} is unknown. {hint}`fitwright sizes` lists what is known"


def _none_message(words: str, query: Query, wanted: Callable[[SizeRow], bool]) -> str:
    if query.value is None:
        return f"{words!r} names no size; write one, such as 4 in or 110"
    others = [row for row in find(words) if not wanted(row)]
    if others and _has_nominal(others[0], query):
        kind = others[0].kind.removesuffix("s")
        article = "an" if kind[0] in "aeiou" else "a"
        return f"{words!r} is {article} {kind} ({others[0].words}); it does not belong at this key"
    same = [row for row in all_rows() if wanted(row) and _allowed(row, query)]
    sizes = ", ".join(dict.fromkeys(row.nominal for row in same[:20]))
    return f"no size is called {words!r}" + (f"; there are {sizes}" if sizes and query.meanings else "")


def _triple(nominal: float | None, least: float | None, greatest: float | None) -> tuple[float, float, float] | None:
    if nominal is None or least is None or greatest is None:
        return None
    return nominal, least, greatest


def _size_row(row: Row, table: tables.Table) -> SizeRow:
    od, od_least, od_greatest = _range(row, "od")
    wall = row.number("wall_mm")
    inside, inside_least, inside_greatest = _range(row, "inside")
    if inside is None and od is not None and od_least is not None and od_greatest is not None and wall is not None:
        thickest = max(WALL_EXCESS * wall, wall + WALL_EXCESS_MM)
        inside_least, inside_greatest = od_least - 2 * thickest, od_greatest - 2 * wall
        inside, inside_least, inside_greatest = (round(x, 3) for x in (od - 2 * wall, inside_least, inside_greatest))
    tolerance_status = row.text("tolerance_status")
    return SizeRow(
        series=row.text("series"),
        nominal=row.text("nominal"),
        nominal_mm=row.number("nominal_mm"),
        nominal_in=row.number("nominal_in"),
        kind=table.head["kind"],
        od_mm=od,
        od_least_mm=od_least,
        od_greatest_mm=od_greatest,
        wall_mm=wall,
        inside_mm=inside,
        inside_least_mm=inside_least,
        inside_greatest_mm=inside_greatest,
        further_mm=row.number("further_mm"),
        apart_mm=row.number("apart_mm"),
        status=row.status(),
        tolerance_status=tolerance_status if tolerance_status == "assumed" else row.status("tolerance_status"),
        source=table.head["source"],
        note=row.text("note"),
    )


def _range(row: Row, face: str) -> tuple[float | None, float | None, float | None]:
    nominal, least, greatest = (row.number(f"{face}{end}_mm") for end in ("", "_least", "_greatest"))
    if nominal is None:
        return None, None, None
    slack = UNKNOWN_TOLERANCE * nominal
    return (
        nominal,
        round(nominal - slack, 3) if least is None else least,
        round(nominal + slack, 3) if greatest is None else greatest,
    )
