"""Fixtures that more than one folder of tests uses. This file also puts `tests/` on the import path."""

from __future__ import annotations

import pytest

import sample_part
from fitwright.mesh import BodyMesh
from fitwright.part import Part


@pytest.fixture(scope="session")
def bush() -> Part:
    """A stepped bush with three pilot holes, built by hand: see sample_part.py."""
    return sample_part.bush()


@pytest.fixture(scope="session")
def bush_meshes(bush: Part) -> dict[str, BodyMesh]:
    """Its one mesh."""
    from fitwright.mesh import mesh_body

    return {body.name: mesh_body(body) for body in bush.bodies}
