"""The tables and the worked example in docs/materials.md, between its marks; the words round them are written by hand.

`python -m fitwright.report.materials_page` writes them anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import mean

from fitwright.data.profiles import MaterialRow, materials
from fitwright.data.warm_places import warm_places
from fitwright.physics.bar_test import bar_modulus_mpa, brittle_mpa, tough_mpa, weight_n
from fitwright.physics.motor_heat import AIR_C, BESIDE, RISE_K, ROOM_C, housing_c
from fitwright.spec.grammar.own_materials import table_material

PAGE = Path("docs") / "materials.md"
MARKS = {"confirmed": "c", "derived": "d", "memory": "m", "common practice": "p"}
TEMPERATURES = (23, 30, 40, 50, 60, 70, 80, 90)


@dataclass(frozen=True)
class Bar:
    """A bar of the worked example [mm], and the mass that it gave way under [kg]."""

    wide: float
    high: float
    span: float
    kg_at_last: float


FLAT, STANDING = Bar(10.1, 4.05, 120.0, 6.6), Bar(10.0, 4.0, 50.0, 4.6)
SAG_KG, SAGS_MM = 0.5, (1.70, 1.72, 1.73)


def with_tables(page: str) -> str:
    """The page with what stands between `<!-- NAME -->` and `<!-- end -->` drawn from the tables."""
    for name, lines in _blocks().items():
        before, begin, rest = page.partition(f"<!-- {name} -->")
        _, end, after = rest.partition("<!-- end -->")
        page = f"{before}{begin}\n\n" + "\n".join(lines) + f"\n\n{end}{after}"
    return page


def write_page(root: Path) -> Path:
    """Write the tables of docs/materials.md below the project's root; returns its path."""
    path = root / PAGE
    path.write_text(with_tables(path.read_text(encoding="utf-8")), encoding="utf-8")
    return path


def _blocks() -> dict[str, Iterable[str]]:
    rows = materials().values()
    return {
        "values": _table(("filament", *_VALUES), [_values(row) for row in rows]),
        "warmth": _table(("filament", *(f"{t} C" for t in TEMPERATURES)), [_left(row) for row in rows]),
        "notes": [f"- **{row.name}**: {_notes(row)}." for row in rows],
        "places": _places(),
        "motors": _motors(),
        "worked": worked(),
    }


_VALUES = {
    "density, g/cm3": "density_g_cm3",
    "modulus, MPa": "modulus_mpa",
    "Poisson": "poisson",
    "strength in the layer, MPa": "strength_mpa",
    "across, MPa": "strength_across_mpa",
    "hoop strain for good": "strain_limit",
    "soft at, C": "softening_c",
    "up to, C": "service_c",
}
_STATUS = {"density_g_cm3": "density", "modulus_mpa": "modulus", "strength_mpa": "strength"} | {
    "strength_across_mpa": "strength_across",
    "softening_c": "softening",
    "service_c": "service",
}


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    yield f"| {' | '.join(head)} |"
    yield f"|{'---|' * len(head)}"
    yield from (f"| {' | '.join(row)} |" for row in rows)


def _values(row: MaterialRow) -> list[str]:
    cells = [f"**{row.name}**"]
    for field in _VALUES.values():
        status = getattr(row, f"{_STATUS.get(field, field)}_status")
        value = getattr(row, field)
        cells.append(f"{100 * value:g} % {MARKS[status]}" if field == "strain_limit" else f"{value:g} {MARKS[status]}")
    return cells


def _left(row: MaterialRow) -> list[str]:
    one = table_material(row.name)
    shares = ((one.modulus_share(t), one.strength_share(t)) for t in TEMPERATURES)
    return [f"**{row.name}**", *(f"{100 * stiff:.0f} / {100 * strong:.0f}" for stiff, strong in shares)]


def _notes(row: MaterialRow) -> str:
    return "; ".join(note for note in (row.note, row.heat_note) if note)


def _places() -> Iterator[str]:
    rows = [
        (f"`{one.name}`", f"{one.temperature_c:g}", f"{one.low_c:g} to {one.high_c:g}", one.note, one.status)
        for one in warm_places().values()
    ]
    return _table(("place", "taken, C", "from place to place, C", "what is meant", "known by"), rows)


def _motors() -> Iterator[str]:
    heads = [f"to {gap:g} mm" for gap, _ in BESIDE]
    rows = []
    for name in ("B", "F", "H"):
        skin = housing_c(name)
        felt = (f"{ROOM_C + share * (skin - ROOM_C):.0f}" for _, share in BESIDE)
        rows.append((f"`{name}`", f"{AIR_C + RISE_K[name]:.0f}", f"{skin:.0f}", *felt))
    return _table(("class", "winding at most, C", "housing, C", *heads), rows)


def worked() -> Iterator[str]:
    """The shed's readings, reckoned."""
    yield from _stiffness(FLAT, SAGS_MM)
    gave, broke = weight_n(FLAT.kg_at_last), weight_n(STANDING.kg_at_last)
    yield f"With {FLAT.kg_at_last:g} kg ({gave:.1f} N) in the bucket they folded in a kink:"
    strength = tough_mpa(gave, FLAT.span, FLAT.wide, FLAT.high)
    yield f"\n    strength = {gave:.1f} x {FLAT.span:g} / ({FLAT.wide:g} x {FLAT.high:g}^2) = {strength:.1f} MPa\n"
    wide, high, span = STANDING.wide, STANDING.high, STANDING.span
    yield f"Standing bars of {wide:g} x {high:g} mm over {span:g} mm snapped at"
    yield f"{STANDING.kg_at_last:g} kg ({broke:.1f} N):"
    across = brittle_mpa(broke, span, wide, high)
    yield f"\n    strength_across = 1.5 x {broke:.1f} x {span:g} / ({wide:g} x {high:g}^2) = {across:.1f} MPa"


def _stiffness(bar: Bar, sags_mm: Sequence[float]) -> Iterator[str]:
    force, sag = weight_n(SAG_KG), mean(sags_mm)
    yield f"Three flat bars, {bar.wide:g} mm wide, {bar.high:g} mm high, {bar.span:g} mm between the supports."
    sags = ", ".join(f"{one:.2f}" for one in sags_mm)
    yield f"{SAG_KG:g} kg ({force:.2f} N) let them sag by {sags} mm, {sag:.3f} mm in the mean:"
    modulus = bar_modulus_mpa(force, bar.span, bar.wide, bar.high, sag)
    reckoned = f"{force:.2f} x {bar.span:g}^3 / (4 x {bar.wide:g} x {bar.high:g}^3 x {sag:.3f})"
    yield f"\n    E = {reckoned} = {modulus:.0f} MPa\n"


if __name__ == "__main__":
    write_page(Path.cwd())
