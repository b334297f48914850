"""`new`: a commented YAML to start from."""

from __future__ import annotations

import argparse

from fitwright.errors import FitwrightError
from fitwright.spec.template import template


def run(options: argparse.Namespace) -> int:
    """Print the family's template, or write it to a file that does not exist yet."""
    text = template(options.family)
    if options.output is None:
        print(text, end="")
        return 0
    try:
        with options.output.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError as error:
        raise FitwrightError(f"{options.output} exists already and is kept; name another file with -o") from error
    except OSError as error:
        raise FitwrightError(f"cannot write {options.output}: {error.strerror}") from error
    print(f"wrote {options.output}: put your readings in, then: fitwright build {options.output}")
    return 0
