"""A refusal in the same form as what is wrong with the YAML: file, line, column, key, found, allowed, why."""

from __future__ import annotations

from pathlib import Path

from fitwright.errors import Problem, RefusalError
from fitwright.report.wording import in_units
from fitwright.spec.models import PartBase


def refusal_text(error: RefusalError, spec: PartBase) -> str:
    """`saw.yaml:4:1: length: found 90.0 mm; allowed: 123.7 mm or more. why`, lengths in the file's units.

    A key that the file does not write (a default) is placed where the nearest key that holds it stands. A part that is
    not called after its file is named at the end.
    """
    line, column = place_of(error.key, spec)
    problem = Problem(spec.source_file, line, column, error.key, error.found, error.allowed, error.why)
    part = "" if spec.name == Path(spec.source_file).stem else f" (part {spec.name})"
    return in_units(f"{problem}{part}", spec.units)


def place_of(key: str, spec: PartBase) -> tuple[int, int]:
    """Line and column of a dotted YAML key, or of the nearest one that holds it; (0, 0) where the file has neither."""
    while key:
        if place := spec.places.get(key):
            return place
        key = key[: max(key.rfind("."), key.rfind("["), 0)]
    return spec.places.get("part", (0, 0))
