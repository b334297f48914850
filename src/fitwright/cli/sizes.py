"""`sizes`: the tables of pipes, hoses, ducts and air cylinders, searched in the words people say."""

from __future__ import annotations

import argparse
import shutil
import sys

from fitwright.cli.exit_codes import BAD_INPUT, GOOD
from fitwright.data.cylinder_words import understand
from fitwright.data.cylinders import CylinderRow, cylinder_row, find_cylinders
from fitwright.data.sizes import all_rows, find
from fitwright.errors import DataError
from fitwright.report.cylinders_table import cylinders_legend, cylinders_text
from fitwright.report.sizes_table import cli_list, cli_table, legend


def run(options: argparse.Namespace) -> int:
    """Print the rows that the words may mean, all pipes where there are no words; 2 where nothing is found."""
    words = " ".join(options.words)
    query = understand(words)
    if query.said:
        return _cylinders(words, options)
    rows = find(words) if words else list(all_rows())
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
        print("air cylinders: `fitwright sizes cylinder`")
    elif query.stroke_mm is not None and find_cylinders(words):
        print(f"if it is bore x stroke of an air cylinder: `fitwright sizes cylinder {words}`")
    return GOOD if rows else BAD_INPUT


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
