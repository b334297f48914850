"""Random neighbours as STL, OBJ and STEP, their gap to a plain part known by closed form.

The part is a wide block; the neighbour a box, a bar or a ball, turned at random, over the middle of its face; the gap
is the height of its lowest point, which is half its sides (or its radius) along axes whose slope is known.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
import trimesh

from fitwright.checks.clearance import check
from fitwright.finding import Finding
from fitwright.spec.envelope import MeshObstacle

from .handmade import part, spec

PER_TEST = 10
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_ENVELOPE", "40"))
BLOCK = trimesh.creation.box(bounds=[(-150, -150, -20), (150, 150, 0)])
PART_CHORD_MM = 0.008
"""Taken off each gap for the part, though a block has none."""
WRITTEN_MM = 0.02
"""How far the kernel's facets, asked for within 0.005, may lie inside a ball."""
KINDS = ("stl", "obj", "step")
UNITS = {"mm": 1.0, "in": 25.4, "cm": 10.0}


@dataclass(frozen=True)
class Neighbour:
    """A solid turned at random, and how far its lowest point lies below its origin, by closed form."""

    solid: cq.Solid
    below_mm: float
    words: str


def neighbour(rng: np.random.Generator) -> Neighbour:
    """A box: half its sides along its turned axes; a bar: half its length and its radius; a ball: its radius."""
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    turn = turn if np.linalg.det(turn) > 0 else -turn
    size = rng.uniform(10, 60, 3)
    kind = str(rng.choice(["box", "bar", "ball"]))
    z = np.abs(turn[2])  # how far up each of its axes points
    if kind == "box":
        made = cq.Solid.makeBox(*size, cq.Vector(*(-size / 2)))
        below = float(z @ size) / 2
    elif kind == "bar":
        made = cq.Solid.makeCylinder(size[0] / 2, size[1], cq.Vector(0, 0, -size[1] / 2))
        below = float(z[2] * size[1] / 2 + np.hypot(z[0], z[1]) * size[0] / 2)
    else:
        made = cq.Solid.makeSphere(size[0] / 2, cq.Vector(), cq.Vector(0, 0, 1), -90, 90, 360)
        below = float(size[0] / 2)
    plane = cq.Plane(origin=(0, 0, 0), xDir=tuple(turn[:, 0]), normal=tuple(turn[:, 2]))
    return Neighbour(made.moved(cq.Location(plane)), below, f"{kind} {np.round(size, 2)}")


def write(made: cq.Solid, path: Path, unit: str, chord_mm: float) -> None:
    """The solid as the name asks for it, its numbers in `unit`."""
    if path.suffix == ".step":
        name = {"mm": "MM", "in": "INCH", "cm": "CM"}[unit]
        cq.exporters.export(cq.Workplane(made.scale(1 / UNITS[unit])), str(path), unit=name)
        return
    points, faces = made.tessellate(chord_mm, 0.1)
    mesh = trimesh.Trimesh([p.toTuple() for p in points], faces)
    mesh.apply_scale(1 / UNITS[unit])
    mesh.export(path, **({"digits": 10} if path.suffix == ".obj" else {}))


def found_with(path: Path, at: tuple[float, float, float], unit: str, clearance_mm: float) -> list[Finding]:
    made, meshes = part(BLOCK)
    units = None if path.suffix == ".step" else unit
    obstacle = MeshObstacle(str(path), at, "k", clearance_mm, units=units)
    lists = {"keep_clear": (obstacle,), "stay_inside": ()}
    return check(made, meshes, spec(envelope=type("Envelope", (), lists)))


def one(seed: int, folder: Path) -> None:
    rng = np.random.default_rng(seed)
    made, unit = neighbour(rng), str(rng.choice(list(UNITS)))
    gap = float(rng.uniform(0.2, 4.0))
    at = (*(float(v) for v in rng.uniform(-40, 40, 2)), made.below_mm + gap)
    for kind in KINDS:
        path = folder / f"{seed}.{kind}"
        write(made.solid, path, unit, 0.005)
        finding = found_with(path, at, unit, 2.0)[0]
        assert finding.value is not None
        said = f"seed {seed}: {made.words} {kind} in {unit}: {finding.value} for {gap}"
        # Files of triangles stray from the solid they were made of; a STEP is told on the safe side.
        strays = 0.0 if kind == "step" else WRITTEN_MM
        assert gap - PART_CHORD_MM - 0.1 - 1e-3 <= finding.value <= gap + strays, said
        if finding.severity == "fail":
            assert finding.value == pytest.approx(gap - PART_CHORD_MM, abs=0.02), said
        assert finding.severity == "pass" or gap < 2.0 + 1e-3, said
        assert finding.severity == "fail" or gap > 2.0 - 0.02 - strays, said
        sunk = found_with(path, (at[0], at[1], at[2] - gap - 1.0), unit, 2.0)[0]
        assert sunk.severity == "fail" and "clashes" in sunk.message, said


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_neighbours(start: int, record_property: Callable[[str, object], None]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(start, start + PER_TEST):
            one(seed, Path(folder))
    record_property("random neighbours", PER_TEST * len(KINDS))
