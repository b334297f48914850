"""`sizes`: the tables of pipes, hoses and ducts, searched in the words people say."""

from __future__ import annotations

import argparse

from fitwright.data.sizes import find
from fitwright.report.sizes_table import sizes_table


def run(options: argparse.Namespace) -> int:
    """Print the rows that match all words; 1 where none does."""
    rows = find(" ".join(options.words))
    print(sizes_table(rows))
    return 0 if rows else 1
