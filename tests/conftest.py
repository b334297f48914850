"""Shared by all tests: one part made by hand; the counts of the random specs are printed at the end of the run."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from fitwright import pipeline
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Part
from tests import sample_part


@pytest.fixture(autouse=True)
def without_strength(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whole parts are checked without finite elements, which take seconds, but in tests marked `strength`."""
    if "strength" not in request.keywords:
        monkeypatch.setattr(pipeline, "strength", Quick)


class Quick:
    """Stands for checks.strength where nothing is to be analysed."""

    @staticmethod
    def left_out(part: Part) -> list[Finding]:
        return []

    @staticmethod
    @contextmanager
    def analysing(*arguments: object) -> Iterator[Quick]:
        yield Quick()

    def findings(self) -> list[Finding]:
        return []


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
