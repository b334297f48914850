"""A body on one state of its mesh, and each case from each direction as solved on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.physics.elastic.counted import counted_at
from fitwright.physics.elastic.fill import Fill, filled
from fitwright.physics.elastic.held import Held, Spring
from fitwright.physics.elastic.meshed import NotAnalysedError
from fitwright.physics.elastic.patch import Patch, found
from fitwright.physics.elastic.seated import Seated, cells, seat_model
from fitwright.physics.elastic.space import Space, stress
from fitwright.physics.elastic.surface import Surface, blunt_mm
from fitwright.physics.elastic.task import Peak, Task
from fitwright.physics.elastic.use import peak, use_of

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Numbers = NDArray[np.int64]
CANDIDATES = 400
"""So many of the most stressed places of the surface are looked at."""


@dataclass(frozen=True)
class Way:
    """One case from one direction, as solved on one mesh."""

    case: LoadCase
    direction: tuple[float, float, float] | None
    forces: Array
    seated: Seated
    peak: Peak
    demand: float
    """Share of what it bears that is asked for: use over the lasting share where it stays; 1 gives way."""
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

    def stress_at_corners(self, displacement: Array, elements: Numbers | None = None) -> Array:
        """As of the solid filament, of all elements or of some: (elements, 4, 3, 3) in MPa."""
        strain = self.space.strain(displacement, elements)
        return stress(strain, self.task.elastic.modulus_mpa, self.task.elastic.poisson)

    def peak(self, displacement: Array, counted: Bools) -> Peak:
        """The place nearest to giving way, of stresses that are means along the surface over what blunts a corner."""
        task, surface = self.task, self.surface
        own = surface.stress(self.stress_at_corners(displacement, surface.elements))
        raw = use_of(own, task.elastic, task.layers)
        which = surface.worst(raw, counted[surface.numbers], CANDIDATES)
        blunted = surface.blunted(own, which, blunt_mm(task.wall_mm))
        return peak(blunted, surface.points[which], task.elastic, task.layers)


def solved(task: Task, mesh: Any) -> tuple[list[Way], Model]:
    space = Space(mesh)
    named = {name for case in task.cases for name in (case.on, *case.held)}
    faces = {face.name: face for face in task.faces}
    missing = sorted(named - set(faces))
    if missing:
        raise NotAnalysedError(f"no face is called {missing[0]!r}")
    patches = {name: found(faces[name], space) for name in sorted(named)}
    surface = Surface(space)
    model = Model(task, space, patches, filled(space, task.infill), surface)
    ways: list[Way] = []
    for held in dict.fromkeys(case.held for case in task.cases):
        ways += _group(model, faces, held, [case for case in task.cases if case.held == held])
    return ways, model


def _group(model: Model, faces: dict[str, LoadFace], held: tuple[str, ...], cases: Sequence[LoadCase]) -> list[Way]:
    """All cases that are held alike: one factorisation."""
    supports = supports_of(model.task, held)
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
            asked = worst.use / (model.task.elastic.sustained if case.lasting else 1.0)
            found_ways.append(
                Way(case, direction, forces, seated, worst, asked, counted, model.patches[case.on].area_mm2)
            )
    return found_ways


def supports_of(task: Task, held: tuple[str, ...]) -> list[Support]:
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
