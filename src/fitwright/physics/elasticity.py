"""Will a body bear its loads: finite elements on the exact solid, refined where the error is, judged place by place.

A linear model, of second order on curved tetrahedra (NGSolve). A face is found by its place. Washers and fixed faces
are springs spread over it; a seat only presses, patch by patch (the active set by non-negative least squares on the
compliance of its patches), and the answers of a glued seat and of none stand beside it as bounds: potential energies
are nested, so the movement along the load lies between them. Stresses are means along the surface (surface.py); beside
washers and fixed edges, where a model of springs says little, the mean pressure is judged instead.

Valid for small movements (a few per cent of a length) and for a filament below its softening point; a print's layers
are taken as equally stiff each way. NGSolve is imported by `analyse` only.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from fitwright.loads import LoadFace
from fitwright.physics.elastic.meshed import NotAnalysedError, mesh_of
from fitwright.physics.elastic.model import Model, Way, solved, supports_of
from fitwright.physics.elastic.refined import changes, hard, is_fine, narrowed, refine, worst_of_each
from fitwright.physics.elastic.task import Answer, CaseAnswer, Spent, Task

MOVED_SETTLED, USE_SETTLED = 0.02, 0.10
"""Relative changes of governing movements and uses that count for none."""
ROOM_TO_REFINE = 1.6
"""A refinement adds about so much to the unknowns."""


def analyse(task: Task) -> Answer:
    """All cases of a body; an Answer that says why where it could not be analysed."""
    if not task.cases:
        return Answer(task.body, why="nothing is declared that it bears")
    try:
        return _refined(task)
    except NotAnalysedError as error:
        return Answer(task.body, why=str(error))
    except MemoryError:
        return Answer(task.body, why="there is not enough memory for it")


def _refined(task: Task) -> Answer:
    begun = time.monotonic()
    mesh = mesh_of(task.brep, task.wall_mm, task.effort.size_mm, _near(task), task.volume_mm3 or 0.0)
    ways, model = solved(task, mesh)
    answers = dict(_answers(model, ways))
    change, done = (math.nan, math.nan), 0
    while done < task.effort.refinements and model.space.unknowns * ROOM_TO_REFINE < task.effort.unknowns:
        ways = hard(ways)
        most = int(mesh.ne * task.effort.unknowns / model.space.unknowns / ROOM_TO_REFINE)
        if not ways or not refine(model, ways, done == 0, most):
            break
        try:
            finer, model = solved(narrowed(model.task, ways), mesh)
        except NotAnalysedError:  # dividing has spoilt the mesh: what was found before stands
            change = (math.inf, math.inf) if done == 0 else change
            break
        change, ways, done = changes(ways, finer), finer, done + 1
        answers |= {name: _harder_pressed(one, answers[name]) for name, one in _answers(model, ways)}
        if is_settled(change):
            break
    fine = is_settled(change) or is_fine(model, ways)
    seconds = time.monotonic() - begun
    spent = Spent(int(mesh.ne), model.space.unknowns, done, seconds, *change, fine)
    return Answer(task.body, tuple(answers[case.name] for case in task.cases), spent)


def is_settled(change: tuple[float, float]) -> bool:
    """Whether a refinement moved the governing movements and uses so little that it may be the last."""
    return change[0] < MOVED_SETTLED and change[1] < USE_SETTLED


def _near(task: Task) -> list[tuple[Any, float]]:
    """Finer elements where something small bears or holds: four across a washer."""
    named = {name for case in task.cases for name in (case.on, *case.held)}
    made: list[tuple[Any, float]] = []
    for face in task.faces:
        size = face.disc_mm or (min(face.right_mm[1] - face.right_mm[0], face.up_mm[1] - face.up_mm[0]))
        if face.name in named and face.kind == "flat" and 0.0 < size < 40.0:
            made.append((face.frame.origin, max(size / 4.0, 1.2)))
            made += [(_rim(face, size / 2.0, turn), max(size / 4.0, 1.2)) for turn in range(8)]
    return made


def _rim(face: LoadFace, radius_mm: float, eighth: int) -> tuple[float, float, float]:
    angle = math.pi * eighth / 4.0
    return face.frame.point(radius_mm * math.sin(angle), 0.0, radius_mm * math.cos(angle))


def _answers(model: Model, ways: Sequence[Way]) -> Iterator[tuple[str, CaseAnswer]]:
    """The worst direction of each case, with the bounds."""
    for way in worst_of_each(ways):
        glued, loose = (model.peak(u, way.counted).use for u in (way.seated.glued, way.seated.loose))
        own = [w for w in ways if w.case.name == way.case.name]
        furthest = max(own, key=lambda w: abs(w.moved_mm))
        yield (
            way.case.name,
            CaseAnswer(
                name=way.case.name,
                direction=way.direction,
                peak=way.peak,
                moved_mm=furthest.moved_mm,
                glued_use=glued,
                loose_use=loose,
                glued_mm=furthest.moved(furthest.seated.glued),
                loose_mm=furthest.moved(furthest.seated.loose),
                bearing=max((_bearing(model, w) for w in own), key=lambda one: one[1]),
            ),
        )


def _harder_pressed(finer: CaseAnswer, before: CaseAnswer) -> CaseAnswer:
    """The finer mesh's answer; a direction that it was not solved for may press a washer harder."""
    return replace(finer, bearing=max(finer.bearing, before.bearing, key=lambda one: one[1]))


def _bearing(model: Model, way: Way) -> tuple[str, float]:
    """The washer or loaded face under the greatest mean pressure [MPa]."""
    moved = model.space.by_component(way.seated.pressing)
    pressed = []
    for support in supports_of(model.task, way.case.held):
        if support.kind == "washer":
            patch = model.patches[support.face]
            force = support.axial_n_mm * abs(patch.along(moved, np.asarray(patch.axis)))
            pressed.append((support.face, force / patch.area_mm2))
    loaded = model.patches[way.case.on]
    pressed.append((way.case.on, abs(way.case.pressure_mpa) or way.case.force_n / loaded.area_mm2))
    return max(pressed, key=lambda one: one[1])
