"""How long the clearance check takes for a housing of a million triangles: `python -m tests.benchmark_housing`.

A noisy ring (or a hollow ball, for stay_inside) round a tube, written as binary STL and as OBJ; each step timed alone.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import cadquery as cq
import numpy as np
import trimesh

from fitwright.checks.clearance import check
from fitwright.envelope_mesh.housing import read
from fitwright.mesh import BodyMesh, mesh_shape
from fitwright.spec.envelope import MeshObstacle
from fitwright.tolerances import TOLERANCES

from .handmade import part, spec


def main() -> None:
    """Write the files and time what is done with them."""
    with tempfile.TemporaryDirectory() as folder:
        for kind in ("stl", "obj"):
            told(ring(), Path(folder) / f"ring.{kind}", False, (2.0, 20.0))
            told(hollow_ball(), Path(folder) / f"ball.{kind}", True, (2.0,))


def told(mesh: trimesh.Trimesh, path: Path, inside: bool, clearances: tuple[float, ...]) -> None:
    """Time each step with one file."""
    mesh.export(path)
    print(f"{path.name}: {len(mesh.faces)} triangles, {path.stat().st_size / 1e6:.0f} MB")
    housing = timed("read and judge", lambda: read(MeshObstacle(str(path), (0, 0, 0), "k", units="mm")))
    timed("as a solid", lambda: housing.solid)
    for clearance_mm in clearances:
        found = timed(f"whole check, clearance {clearance_mm:g} mm", partial(checked, path, clearance_mm, inside))
        print(f"          {found[0].severity}: {found[0].message}")


def ring() -> trimesh.Trimesh:
    """A ring whose hole has a radius of 60 mm, its skin rough by 2 micrometres."""
    made = trimesh.creation.torus(80, 20, major_sections=1000, minor_sections=500)
    return trimesh.Trimesh(rough(made.vertices), made.faces, process=False)


def hollow_ball() -> trimesh.Trimesh:
    """A closed shell 5 mm thick round a cavity of radius 90 mm, of 2.6 million triangles."""
    ball = trimesh.creation.icosphere(subdivisions=8, radius=1.0)
    faces = np.vstack([ball.faces, ball.faces[:, ::-1] + len(ball.vertices)])
    return trimesh.Trimesh(rough(np.vstack([ball.vertices * 95, ball.vertices * 90])), faces, process=False)


def rough(points: Any) -> Any:
    """Points moved at random, as float32."""
    return (points + np.random.default_rng(1).normal(0, 0.002, points.shape)).astype(np.float32)


def checked(path: Path, clearance_mm: float, inside: bool) -> Any:
    """The whole check of a tube, 110 mm outside and 100 mm long, beside the file."""
    solid = cq.Solid.makeCylinder(55, 100, cq.Vector(0, 0, -50)).cut(
        cq.Solid.makeCylinder(50, 102, cq.Vector(0, 0, -51))
    )
    tube = mesh_shape(solid.Solids()[0], TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad)
    made, _ = part(tube)
    obstacle = (MeshObstacle(str(path), (0, 0, 0), "k", clearance_mm, units="mm"),)
    lists = {"keep_clear": () if inside else obstacle, "stay_inside": obstacle if inside else ()}
    return check(made, {"body": BodyMesh(tube, 1.0)}, spec(envelope=SimpleNamespace(**lists)))


def timed(name: str, work: Callable[[], Any]) -> Any:
    """Do it, print its seconds (wall and CPU), hand on what came of it."""
    wall, cpu = time.perf_counter(), time.process_time()
    done = work()
    print(f"  {time.perf_counter() - wall:5.2f} s ({time.process_time() - cpu:5.2f} s CPU)  {name}", flush=True)
    return done


if __name__ == "__main__":
    main()
