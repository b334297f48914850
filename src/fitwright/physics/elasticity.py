"""Will a body bear its loads: finite elements on the exact solid, refined where the error is, judged place by place.

A linear model, of second order on curved tetrahedra (NGSolve). A face is found by its place. Washers and fixed faces
are springs spread over it; a seat only presses, patch by patch (the active set by non-negative least squares on the
compliance of its patches), and the answers of a glued seat and of none stand beside it as bounds: potential energies
are nested, so the movement along the load lies between them. Stresses are averaged at the vertices; beside washers and
fixed edges, where a model of springs says little, the mean pressure is judged instead.

Valid for small movements (a few per cent of a length) and for a filament below its softening point; a print's layers
are taken as equally stiff each way. NGSolve is imported by `analyse` only.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.physics.elastic.counted import counted_at
from fitwright.physics.elastic.fill import Fill, filled
from fitwright.physics.elastic.held import Held, Spring
from fitwright.physics.elastic.meshed import NotAnalysedError, mesh_of, volume_of
from fitwright.physics.elastic.patch import Patch, found
from fitwright.physics.elastic.seated import Seated, cells, seat_model
from fitwright.physics.elastic.space import Space, stress
from fitwright.physics.elastic.surface import Surface, blunt_mm
from fitwright.physics.elastic.task import Answer, CaseAnswer, Peak, Spent, Task
from fitwright.physics.elastic.use import peak, use_of

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
MOVED_SETTLED, USE_SETTLED = 0.02, 0.10
"""A refinement that changes the governing movements and uses by less than this is the last."""
EASY_USE = 0.2
"""Below a fifth of what it bears nothing is refined: the first mesh misses a peak by a factor of two at the most."""
MARKED_ERROR, MARKED_MOST = 0.25, 0.004
"""Elements that hold this share of the squared error are refined, at most that share of all."""
HOT_WALLS, FINE_ENOUGH = 1.2, 1.3
"""So near to the governing places elements are refined too, until they are about as small as the stress is averaged."""
EDGE_OF_VOLUME = 2.04
"""Edge of a regular tetrahedron over the cube root of its volume."""
CANDIDATES = 400
"""So many of the most stressed places of the surface are looked at."""
KEPT_WAYS, KEPT_SHARE = 3, 0.85
"""On finer meshes a case keeps its worst directions: so many, those with this share of the worst's use."""


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


@dataclass(frozen=True)
class Way:
    """One case from one direction, as solved on one mesh."""

    case: LoadCase
    direction: tuple[float, float, float] | None
    forces: Array
    seated: Seated
    peak: Peak
    counted: Bools
    area_mm2: float
    """Of the loaded face."""

    @property
    def moved_mm(self) -> float:
        """Of the loaded face along its load, seats pressing."""
        return self.moved(self.seated.pressing)

    def moved(self, displacement: Array) -> float:
        """Mean movement along the load [mm]: work over force."""
        return float(self.forces @ displacement) / (self.case.force_n or abs(self.case.pressure_mpa) * self.area_mm2)


@dataclass
class Model:
    """A body on one state of its mesh: everything that does not depend on the case."""

    task: Task
    space: Space
    patches: dict[str, Patch]
    fill: Fill | None
    surface: Surface

    def stress_at_corners(self, displacement: Array) -> Array:
        """As of the solid filament: (elements, 4, 3, 3) in MPa."""
        return stress(self.space.strain(displacement), self.task.elastic.modulus_mpa, self.task.elastic.poisson)

    def peak(self, displacement: Array, counted: Bools) -> Peak:
        """The place nearest to giving way: averaged at vertices, then along the surface over what blunts a corner."""
        task, surface = self.task, self.surface
        mean = self.space.averaged(self.stress_at_corners(displacement))
        raw = use_of(mean, task.elastic, task.layers)[surface.numbers]
        which = np.flatnonzero(counted[surface.numbers])
        which = which[np.argsort(raw[which])[::-1][:CANDIDATES]]
        blunted = surface.blunted(mean, which, blunt_mm(task.wall_mm))
        return peak(blunted, surface.points[which], task.elastic, task.layers)


def _refined(task: Task) -> Answer:
    begun = time.monotonic()
    mesh = mesh_of(task.brep, task.wall_mm, task.effort.size_mm, _near(task), task.volume_mm3 or 0.0)
    ratio = 1.0 if task.volume_mm3 is None else volume_of(mesh) / task.volume_mm3
    ways, model = _solved(task, mesh)
    change, done = (math.nan, math.nan), 0
    for _ in range(task.effort.refinements):
        if model.space.unknowns > task.effort.unknowns / 1.6 or _is_easy(task, ways):
            break
        _refine(model, ways)
        finer, model = _solved(_narrowed(task, ways), mesh)
        change, ways, done = _changes(ways, finer), finer, done + 1
        if change[0] < MOVED_SETTLED and change[1] < USE_SETTLED:
            break
    seconds = time.monotonic() - begun
    spent_on = Spent(int(mesh.ne), model.space.unknowns, done, seconds, change[0], change[1], ratio)
    return Answer(task.body, tuple(_answers(model, ways)), spent_on)


def _is_easy(task: Task, ways: Sequence[Way]) -> bool:
    """Whether all is so far from giving way, and nothing's movement matters, that no refinement could change it."""
    if any(case.limit_mm for case in task.cases):
        return False
    lasting = task.elastic.sustained
    return all(way.peak.use * way.case.factor < EASY_USE * (lasting if way.case.lasting else 1.0) for way in ways)


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


def _solved(task: Task, mesh: Any) -> tuple[list[Way], Model]:
    space = Space(mesh)
    named = {name for case in task.cases for name in (case.on, *case.held)}
    faces = {face.name: face for face in task.faces}
    missing = sorted(named - set(faces))
    if missing:
        raise NotAnalysedError(f"no face is called {missing[0]!r}")
    patches = {name: found(faces[name], space) for name in sorted(named)}
    surface = Surface(mesh, space.points[: space.vertices])
    model = Model(task, space, patches, filled(space, task.infill), surface)
    ways: list[Way] = []
    for held in dict.fromkeys(case.held for case in task.cases):
        ways += _group(model, faces, held, [case for case in task.cases if case.held == held])
    return ways, model


def _group(model: Model, faces: dict[str, LoadFace], held: tuple[str, ...], cases: Sequence[LoadCase]) -> list[Way]:
    """All cases that are held alike: one factorisation."""
    supports = _supports(model.task, held)
    factored = Held(
        model.space,
        [_spring(one, model) for one in supports if one.kind != "seat"],
        model.task.elastic.modulus_mpa,
        model.task.elastic.poisson,
        model.fill,
    )
    seats = [(faces[one.face], model.patches[one.face]) for one in supports if one.kind == "seat"]
    made = cells(seats, model.space.unknowns)
    seat = seat_model(made, factored.moved(made.pushes), model.task.effort.seat_n_mm3)
    counted = counted_at(model.space, model.task, supports, faces, model.patches)
    found_ways = []
    for case in cases:
        for direction, forces in _forces(case, model.patches[case.on]):
            seated = seat.answers(factored.moved(forces[None, :])[0])
            worst = model.peak(seated.pressing, counted)
            found_ways.append(Way(case, direction, forces, seated, worst, counted, model.patches[case.on].area_mm2))
    return found_ways


def _supports(task: Task, held: tuple[str, ...]) -> list[Support]:
    """How each of the held faces is held; seats alone cannot hold a body, so then they hold both ways."""
    known = {one.face: one for one in task.supports}
    made = [known.get(name, Support(name, "fixed")) for name in held]
    if all(one.kind == "seat" for one in made):
        return [replace(one, kind="fixed") for one in made]
    return made


def _spring(support: Support, model: Model) -> Spring:
    patch, task = model.patches[support.face], model.task
    if support.kind == "washer":
        area = patch.area_mm2
        return Spring(patch.indicator, (support.axial_n_mm / area, support.lateral_n_mm / area), patch.axis)
    return Spring(patch.indicator, (task.elastic.modulus_mpa * task.effort.fixed_per_mm,))


def _forces(case: LoadCase, patch: Patch) -> Iterator[tuple[tuple[float, float, float] | None, Array]]:
    """Force vectors (unknowns,) of a case, one a direction."""
    if case.pressure_mpa:
        yield None, patch.pressed(case.pressure_mpa).reshape(-1)
        return
    for direction in case.directions:
        pressed = patch.pressed_along(direction)
        made = case.force_n * pressed.spread(direction)
        if case.at is not None:
            arm = np.asarray(case.at) - pressed.middle
            made = made + pressed.couple(np.cross(arm, case.force_n * np.asarray(direction)))
        yield direction, made.reshape(-1)


def _refine(model: Model, ways: Sequence[Way]) -> None:
    """Divide the elements that hold most of the error, and those at the governing places that are still large."""
    space = model.space
    error, hot = np.zeros(len(space.corners)), np.zeros(len(space.corners), dtype=bool)
    coarse = EDGE_OF_VOLUME * np.cbrt(space.volumes) > FINE_ENOUGH * blunt_mm(model.task.wall_mm)
    middles = space.points[space.corners].mean(axis=1)
    for way in _governing(ways):
        raw = model.stress_at_corners(way.seated.pressing)
        mean = space.averaged(raw)
        counted = way.counted[space.corners].all(axis=1)
        off = np.where(counted, np.sum((raw - mean[space.corners]) ** 2, axis=(1, 2, 3)) * space.volumes, 0.0)
        error += off / max(float(off.sum()), 1e-300)
        near = np.linalg.norm(middles - np.asarray(way.peak.at), axis=1) < HOT_WALLS * model.task.wall_mm
        hot |= near & coarse
    space.mesh.ngmesh.Elements3D().NumPy()["refine"] = hot | _largest(error)
    space.mesh.Refine()
    space.mesh.Curve(2)


def _largest(error: Array) -> Bools:
    """The elements with the largest error (Zienkiewicz and Zhu, 1987: the averaged stress against the raw one)."""
    order = np.argsort(error)[::-1]
    enough = int(np.searchsorted(np.cumsum(error[order]), MARKED_ERROR * error.sum())) + 1
    marked = np.zeros(len(order), dtype=bool)
    marked[order[: max(1, min(enough, int(MARKED_MOST * len(order))))]] = True
    return marked


def _narrowed(task: Task, ways: Sequence[Way]) -> Task:
    """The same with the worst directions of each case only, and the one that moves furthest."""
    kept = []
    for case in task.cases:
        own = sorted((w for w in ways if w.case.name == case.name), key=lambda w: -w.peak.use)
        worst = [w for w in own[:KEPT_WAYS] if w.peak.use >= KEPT_SHARE * own[0].peak.use]
        furthest = max(own, key=lambda w: abs(w.moved_mm))
        directions = dict.fromkeys(w.direction for w in [*worst, furthest] if w.direction is not None)
        kept.append(replace(case, directions=tuple(directions)))
    return replace(task, cases=tuple(kept))


def _governing(ways: Sequence[Way]) -> list[Way]:
    """The worst way of each body's two most used cases, and the one that moves furthest."""
    by_use = sorted(_worst_of_each(ways), key=lambda way: -way.peak.use)[:2]
    furthest = max(ways, key=lambda way: abs(way.moved_mm))
    return by_use if any(way is furthest for way in by_use) else [*by_use, furthest]


def _worst_of_each(ways: Sequence[Way]) -> list[Way]:
    worst: dict[str, Way] = {}
    for way in ways:
        if way.case.name not in worst or way.peak.use > worst[way.case.name].peak.use:
            worst[way.case.name] = way
    return list(worst.values())


def _changes(before: Sequence[Way], after: Sequence[Way]) -> tuple[float, float]:
    """Relative change of the greatest movement, and of the greatest use."""
    governing = _governing(after)
    old = {(way.case.name, way.direction): way for way in before}
    pairs = [(old[way.case.name, way.direction], way) for way in governing]
    moved = max(abs(a.moved_mm / b.moved_mm - 1.0) if b.moved_mm else 0.0 for a, b in pairs)
    return moved, abs(max(a.peak.use for a, _ in pairs) / max(b.peak.use for _, b in pairs) - 1.0)


def _answers(model: Model, ways: Sequence[Way]) -> Iterator[CaseAnswer]:
    """The worst direction of each case, with the bounds."""
    for way in _worst_of_each(ways):
        glued, loose = (model.peak(u, way.counted).use for u in (way.seated.glued, way.seated.loose))
        furthest = max((w for w in ways if w.case.name == way.case.name), key=lambda w: abs(w.moved_mm))
        yield CaseAnswer(
            name=way.case.name,
            direction=way.direction,
            peak=way.peak,
            moved_mm=furthest.moved_mm,
            glued_use=glued,
            loose_use=loose,
            glued_mm=furthest.moved(furthest.seated.glued),
            loose_mm=furthest.moved(furthest.seated.loose),
            bearing=_bearing(model, way),
        )


def _bearing(model: Model, way: Way) -> tuple[str, float]:
    """The washer or loaded face under the greatest mean pressure [MPa]."""
    moved = model.space.by_component(way.seated.pressing)
    pressed = []
    for support in _supports(model.task, way.case.held):
        if support.kind == "washer":
            patch = model.patches[support.face]
            force = support.axial_n_mm * abs(patch.along(moved, np.asarray(patch.axis)))
            pressed.append((support.face, force / patch.area_mm2))
    loaded = model.patches[way.case.on]
    pressed.append((way.case.on, abs(way.case.pressure_mpa) or way.case.force_n / loaded.area_mm2))
    return max(pressed, key=lambda one: one[1])
