"""How long a build takes beside a bare script that makes and exports the same solid. Run by hand; not a test.

    python tests/benchmark_ratio.py [configs/pipe_to_hose.yaml] [--runs 5]

The bare script imports CadQuery, turns the same profile as one solid and writes STL and STEP; it checks nothing. Whole
processes are timed, one of each in turn. CPU time (own and children's) is told beside wall time, because other work on
the machine makes wall time longer and leaves CPU time nearly as it is.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[1]
OUTLINE = """
import json, sys
from pathlib import Path
from cadquery import Solid, Vector
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file
[spec] = load_file(Path(sys.argv[1]))
solid = BUILDERS[spec.part](spec).bodies[0].solid
slab = solid.intersect(Solid.makeBox(1e3, 4e3, 1e-3, Vector(0, -1e3, 0)))
[face] = [face for face in slab.Faces() if abs(face.Center().z) < 1e-9]
print(json.dumps([vertex.toTuple()[:2] for vertex in face.outerWire().Vertices()]))
"""
BARE = """
import json, sys
import cadquery as cq
points = json.loads(sys.argv[1])
part = cq.Workplane("XY").polyline([tuple(p) for p in points]).close().revolve(360, (0, 0, 0), (0, 1, 0))
assert part.val().isValid()
cq.exporters.export(part, sys.argv[2] + "/bare.stl", tolerance=0.008, angularTolerance=0.2)
cq.exporters.export(part, sys.argv[2] + "/bare.step")
"""
STEPS = """
import time
marks = [("start", time.process_time())]
def mark(name): marks.append((name, time.process_time()))
import cadquery; mark("import CadQuery")
import fitwright.part_job as job; mark("import the models and families")
import sys, tempfile
from pathlib import Path
from fitwright.begun import begun
from fitwright.spec.load import load_file
[spec] = load_file(Path(sys.argv[1])); mark("read the YAML")
with tempfile.TemporaryDirectory() as folder, begun(spec, job.BUILDERS[spec.part], Path(folder)) as work:
    mark("build, mesh, begin the picture")
    from fitwright import pipeline; mark("import trimesh, scipy and the checks")
    part, bed = work.part, (spec.printer.bed_x_mm, spec.printer.bed_y_mm)
    meshes = {body.name: pipeline.mesh_body(body, work.facets[body.name]) for body in part.bodies}
    poses = {body.name: pipeline.choose_pose(body, meshes[body.name], spec.printer) for body in part.bodies}
    mark("choose how to print it")
    for code, check in pipeline.CHECKS:
        check(part, meshes, spec); mark("check " + code)
    for body in part.bodies:
        pipeline._export_body(work.output.staging, body, meshes[body.name], poses[body.name], body.name)
    mark("STL and STEP")
    pipeline.try_plates(part, bed); mark("try-print")
for (_, before), (name, after) in zip(marks, marks[1:]):
    print(f"{after - before:8.2f}  {name}")
"""


class Took(NamedTuple):
    """Seconds of one whole process and its children."""

    wall_s: float
    cpu_s: float


def main(arguments: Sequence[str] | None = None) -> None:
    """Time both, one of each in turn, and print the figures."""
    options = _parser().parse_args(arguments)
    config = str(options.config.resolve())
    outline = subprocess.run(
        [sys.executable, "-c", OUTLINE, config], check=True, capture_output=True, text=True, cwd=ROOT
    ).stdout
    with tempfile.TemporaryDirectory() as folder:
        ours = [sys.executable, "-m", "fitwright", "build", config, "-o", folder]
        bare = [sys.executable, "-c", BARE, outline, folder]
        pairs = [(timed(ours), timed(bare)) for _ in range(options.runs)]
    tell("fitwright build", [pair[0] for pair in pairs])
    tell("bare script", [pair[1] for pair in pairs])
    wall = statistics.median(one.wall_s / other.wall_s for one, other in pairs)
    cpu = statistics.median(one.cpu_s / other.cpu_s for one, other in pairs)
    print(f"ratio (median of {options.runs} pairs): wall {wall:.2f}, CPU {cpu:.2f}")
    print("\nCPU seconds of the worker process, step by step (command and picture run beside it):")
    subprocess.run([sys.executable, "-c", STEPS, config], check=True, cwd=ROOT)


def timed(command: list[str]) -> Took:
    """Run a command to its end."""
    before, start = os.times(), time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    wall, after = time.perf_counter() - start, os.times()
    cpu = after.children_user + after.children_system - before.children_user - before.children_system
    return Took(wall, cpu)


def tell(name: str, runs: list[Took]) -> None:
    """One line: median, least and greatest."""
    walls, cpus = sorted(run.wall_s for run in runs), sorted(run.cpu_s for run in runs)
    middle = statistics.median
    print(
        f"{name:16s} wall {middle(walls):5.2f} s ({walls[0]:.2f} to {walls[-1]:.2f}), "
        f"CPU {middle(cpus):5.2f} s ({cpus[0]:.2f} to {cpus[-1]:.2f})"
    )


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=str(__doc__).partition("\n")[0])
    parser.add_argument("config", nargs="?", type=Path, default=ROOT / "configs/pipe_to_hose.yaml")
    parser.add_argument("--runs", type=int, default=5)
    return parser


if __name__ == "__main__":
    main()
