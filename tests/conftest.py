"""Shared by all tests: one part made by hand; the counts of the random specs are printed at the end of the run."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Part
from tests import sample_part


@pytest.fixture(scope="session")
def bush() -> Part:
    """A stepped bush with three pilot holes, built by hand: see sample_part.py."""
    return sample_part.bush()


@pytest.fixture(scope="session")
def bush_meshes(bush: Part) -> dict[str, BodyMesh]:
    """Its one mesh."""
    return {body.name: mesh_body(body) for body in bush.bodies}


def pytest_terminal_summary(terminalreporter: Any) -> None:
    counts: dict[str, Counter[str]] = {}
    for report in terminalreporter.stats.get("passed", []):
        for name, value in report.user_properties:
            if name == "random specs":
                for family, found in value.items():
                    counts.setdefault(family, Counter()).update(found)  # {family: {outcome: how many}}
    for family, found in sorted(counts.items()):
        terminalreporter.write_line(f"random {family}: {', '.join(f'{n} {what}' for what, n in found.most_common())}")
