"""`sizes`: the tables of pipes, hoses and ducts, searched in the words people say."""

from __future__ import annotations

import argparse

from fitwright.cli.exit_codes import BAD_INPUT, GOOD
from fitwright.data.sizes import all_rows, find
from fitwright.report.sizes_table import cli_table


def run(options: argparse.Namespace) -> int:
    """Print the rows that the words may mean, all of them where there are no words; 2 where nothing is found."""
    rows = find(" ".join(options.words)) if options.words else list(all_rows())
    print(cli_table(rows, options.units))
    return GOOD if rows else BAD_INPUT
