"""`sizes`: the tables of pipes, hoses, ducts, air cylinders and filaments, searched in the words people say."""

from __future__ import annotations

import argparse
import shutil
import sys

from fitwright.cli.exit_codes import BAD_INPUT, GOOD
from fitwright.data.cylinder_words import understand
from fitwright.data.cylinders import CylinderRow, cylinder_row, find_cylinders
from fitwright.data.profiles import OTHER_NAMES, materials
from fitwright.data.sizes import all_rows, find
from fitwright.errors import DataError
from fitwright.report.cylinders_table import cylinders_legend, cylinders_text
from fitwright.report.materials_table import materials_legend, materials_text, places_text
from fitwright.report.sizes_table import cli_list, cli_table, legend
from fitwright.spec.grammar.own_materials import material_names, own_material, table_material
from fitwright.spec.models import Material

FILAMENTS = ("filament", "filaments", "material", "materials")


def run(options: argparse.Namespace) -> int:
    """Print the rows that the words may mean, all pipes where there are no words; 2 where nothing is found."""
    words = " ".join(options.words)
    filaments = filaments_of(words)
    if filaments is not None:
        return _print_filaments(filaments, words)
    query = understand(words)
    if query.said:
        return _cylinders(words, options)
    rows = find(words) if words else list(all_rows())
    if not rows and (named := filaments_of(f"filament {words}")):
        return _print_filaments(named, words)
    cylinders = [] if rows else find_cylinders(words)
    if cylinders:
        return _print_cylinders(cylinders, options)
    text = cli_table(rows, options.units)
    wide = shutil.get_terminal_size().columns
    if sys.stdout.isatty() and max(map(len, text.splitlines())) > wide:
        text = cli_list(rows, options.units, wide)
    print(text)
    if rows:
        print(f"\n{legend(rows)}")
    if not words:
        print("air cylinders: `fitwright sizes cylinder`; filaments: `fitwright sizes filament`")
    elif query.stroke_mm is not None and find_cylinders(words):
        print(f"if it is bore x stroke of an air cylinder: `fitwright sizes cylinder {words}`")
    return GOOD if rows else BAD_INPUT


def filaments_of(words: str) -> list[Material] | None:
    """The filaments of these words (`filament`, `materials`, `filament PETG`), one's own first; None: not asked for.

    Raises
    ------
    SpecError
        The profile of one's own that is named is damaged.
    """
    first, _, rest = words.strip().partition(" ")
    if first.casefold() not in FILAMENTS:
        return None
    names = [*material_names("."), *materials()]
    wanted = OTHER_NAMES.get(rest.strip().casefold(), rest.strip()).casefold()
    found = [name for name in dict.fromkeys(names) if wanted in ("", name.casefold())]
    return [own_material(name, ".") or table_material(name) for name in found]


def _print_filaments(found: list[Material], words: str) -> int:
    if not found:
        names = ", ".join([*material_names("."), *materials()])
        print(f"no filament is called {words.partition(' ')[2].strip()!r}; known: {names}", file=sys.stderr)
        return BAD_INPUT
    wide = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
    print(f"{materials_text(found, wide)}\n\n{materials_legend(found)}\n{places_text(wide or 100)}")
    return GOOD


def _cylinders(words: str, options: argparse.Namespace) -> int:
    """The cylinders of these words, or why there are none."""
    rows = find_cylinders(words)
    if rows:
        return _print_cylinders(rows, options)
    try:
        cylinder_row(words)
    except DataError as error:
        print(error, file=sys.stderr)
    return BAD_INPUT


def _print_cylinders(rows: list[CylinderRow], options: argparse.Namespace) -> int:
    wide = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
    print(f"{cylinders_text(rows, options.units, wide)}\n\n{cylinders_legend(rows)}")
    return GOOD
