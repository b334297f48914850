"""`sizes`: the tables of pipes, hoses and ducts, searched in the words people say."""

from __future__ import annotations

import argparse
import shutil
import sys

from fitwright.cli.exit_codes import BAD_INPUT, GOOD
from fitwright.data.sizes import all_rows, find
from fitwright.report.sizes_table import cli_list, cli_table, legend


def run(options: argparse.Namespace) -> int:
    """Print the rows that the words may mean, all of them where there are no words; 2 where nothing is found."""
    rows = find(" ".join(options.words)) if options.words else list(all_rows())
    text = cli_table(rows, options.units)
    wide = shutil.get_terminal_size().columns
    if sys.stdout.isatty() and max(map(len, text.splitlines())) > wide:
        text = cli_list(rows, options.units, wide)
    print(text)
    if rows:
        print(f"\n{legend(rows)}")
    return GOOD if rows else BAD_INPUT
