"""Bodies of the handbooks' strength problems, and how they are put to the finite elements as any part's body is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from cadquery import Solid

from fitwright.checks.strength_tasks import brep_text
from fitwright.frame import Frame, Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.part import Body
from fitwright.physics.elastic.meshed import mesh_of
from fitwright.physics.elastic.model import solved
from fitwright.physics.elastic.task import Answer, CaseAnswer, Effort, Elastic, Task
from fitwright.physics.elasticity import analyse

BODY = "body"
E_MPA = 2000.0
CLAMPED = 1e4
"""`fixed` so stiff that it gives way by less than a thousandth of what the handbooks' clamped ends do not."""
SOFT = 20.0
"""[N/mm] of a support that only keeps a body that is in balance from floating away."""


def brep(solid: Solid) -> str:
    """As the check hands it on."""
    return brep_text(Body(BODY, solid, 0, 1.0, ()))


def flat(name: str, at: Vec, inward: Vec, right: Vec, half: tuple[float, float], disc_mm: float = 0.0) -> LoadFace:
    """A rectangle of twice `half` (right, up) about a point, or a disc."""
    return LoadFace(
        name, BODY, "flat", Frame(at, inward, right), (-half[0], half[0]), (-half[1], half[1]), disc_mm=disc_mm
    )


def load(on: str, force_n: float, way: Vec, held: Sequence[str], **more: Any) -> LoadCase:
    """One force."""
    return LoadCase(f"load on {on}", BODY, on, force_n, (way,), tuple(held), **more)


def pressure(on: str, mpa: float, held: Sequence[str]) -> LoadCase:
    """One pressure, into the material."""
    return LoadCase(f"pressure on {on}", BODY, on, 0.0, (), tuple(held), pressure_mpa=mpa)


def floating(name: str) -> Support:
    """Held so softly that what is in balance does not feel it."""
    return Support(name, "washer", SOFT, SOFT)


def task_of(
    solid: Solid,
    faces: Sequence[LoadFace],
    supports: Sequence[Support],
    cases: Sequence[LoadCase],
    size_mm: float | None,
    poisson: float = 0.0,
    refinements: int = 0,
    wall_mm: float = 1.0,
    read: Vec | None = None,
    modulus_mpa: float = E_MPA,
    **effort: Any,
) -> Task:
    """The task that `analyse` is given.

    `read`: the stress that is judged is then the pull (and shear) square to that direction, as between a print's
    layers; else the equivalent stress.
    """
    strong = 1e9 if read else 1.0
    return Task(
        BODY,
        brep(solid),
        wall_mm,
        tuple(faces),
        tuple(supports),
        tuple(cases),
        Elastic(modulus_mpa, poisson, strong, 1.0),
        read,
        effort=Effort(size_mm, refinements, fixed_per_mm=CLAMPED, **effort),
        volume_mm3=solid.Volume(),
    )


def answer(*asked: Any, **more: Any) -> Answer:
    """What `analyse` says of it."""
    return analyse(task_of(*asked, **more))


class Solved:
    """One case on one mesh, as the engine solves it: displacements and averaged stresses at the vertices."""

    def __init__(self, task: Task, near: Sequence[tuple[Vec, float]] = ()) -> None:
        mesh = mesh_of(task.brep, task.wall_mm, task.effort.size_mm, list(near), task.volume_mm3 or 0.0)
        ways, self.model = solved(task, mesh)
        self.ways, self.way, space = ways, ways[0], self.model.space
        self.at = space.points[: space.vertices]
        self.moved = space.by_component(self.way.seated.pressing)[:, : space.vertices].T
        self.stress = space.averaged(self.model.stress_at_corners(self.way.seated.pressing))

    def nearest(self, place: Vec) -> int:
        """The vertex that lies nearest."""
        return int(np.linalg.norm(self.at - np.array(place), axis=1).argmin())


def the(found: Answer) -> CaseAnswer:
    """Its only case."""
    assert not found.why, found.why
    (one,) = found.cases
    return one


def unit(*v: float) -> Vec:
    """In this direction."""
    long = math.hypot(*v)
    x, y, z = (a / long for a in v)
    return x, y, z
