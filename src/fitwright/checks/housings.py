"""Files named in the envelope: each read once a check, and what is to be said of them besides their distance."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from fitwright.checks.things import Thing, finding
from fitwright.envelope_mesh.housing import Housing, read
from fitwright.envelope_mesh.unit_sense import Box, suspected
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.spec.envelope import MESH_UNITS_MM, MeshObstacle, Obstacle

WORDS = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}


@dataclass
class Housings:
    """The files of one check; `bodies` are what the part consists of."""

    bodies: list[Thing]
    _held: dict[MeshObstacle, Housing | BuildError] = field(default_factory=dict)

    def of(self, obstacle: MeshObstacle) -> Housing:
        """What the obstacle's file holds; raises BuildError as `read` does, each time it is asked."""
        key = replace(obstacle, key="", label=None, clearance_mm=0.0)
        if key not in self._held:
            try:
                self._held[key] = read(obstacle)
            except BuildError as error:
                self._held[key] = error
        found = self._held[key]
        if isinstance(found, BuildError):
            raise found
        return found

    def notes(self, obstacle: Obstacle, inside: bool) -> list[Finding]:
        """What a repair did, what was left out of a STEP, and numbers that smell of another unit."""
        if not isinstance(obstacle, MeshObstacle):
            return []
        try:
            housing = self.of(obstacle)
        except BuildError:
            return []
        told = [_repair(obstacle, housing), _loose(obstacle, housing), self._unit(obstacle, housing, inside)]
        return [one for one in told if one]

    def _unit(self, obstacle: MeshObstacle, housing: Housing, inside: bool) -> Finding | None:
        if obstacle.is_step or not self.bodies:
            return None
        points = [body.points for body in self.bodies]
        part = Box(np.min([p.min(axis=0) for p in points], axis=0), np.max([p.max(axis=0) for p in points], axis=0))
        mesh = Box(housing.found.low.min(axis=0), housing.found.high.max(axis=0))
        unit = suspected(mesh, housing.at, obstacle.units, part, inside)
        return None if unit is None else _other_unit(obstacle, mesh, unit)


def _name(obstacle: MeshObstacle) -> str:
    return Path(obstacle.path).name


def _place(obstacle: MeshObstacle) -> str:
    return f"{obstacle.label or _name(obstacle)} ({obstacle.key})"


def _repair(obstacle: MeshObstacle, housing: Housing) -> Finding | None:
    done = housing.mended
    if done is None:
        return None
    if not done.done:
        message = f"{_name(obstacle)} is sound: nothing had to be mended"
        return finding("pass", "", None, None, _place(obstacle), message)
    message = f"{_name(obstacle)} was mended before it was used: {done.told()}"
    if not done.filled.holes:
        return finding("pass", "", None, None, _place(obstacle), message)
    advice = f"See that nothing stood in the holes that were filled, or mend {_name(obstacle)} where it came from."
    return finding("warn", "", None, None, _place(obstacle), message, advice)


def _loose(obstacle: MeshObstacle, housing: Housing) -> Finding | None:
    if not housing.loose:
        return None
    message = f"{housing.loose} faces of {_name(obstacle)} belong to no solid and were left out"
    advice = f"If they matter, save {_name(obstacle)} again with solids in their place."
    return finding("warn", "", None, None, _place(obstacle), message, advice)


def _other_unit(obstacle: MeshObstacle, mesh: Box, unit: str) -> Finding:
    taken = obstacle.units or "mm"
    factor = MESH_UNITS_MM[unit] / MESH_UNITS_MM[taken]
    read_as, other = _size(mesh), _size(mesh.scaled(np.zeros(3), factor))
    name, was = _name(obstacle), "" if obstacle.units else ", as none is named"
    message = f"{name} is {read_as} when read in {WORDS[taken]}{was}; if its numbers are {WORDS[unit]}, it is {other}"
    stay = f"`mesh_units: {taken}` if the first is right" if obstacle.units is None else "nothing if the first is right"
    advice = f"Write `mesh_units: {unit}` at {obstacle.key} if the second is right, and {stay}."
    return finding("warn", "", None, None, _place(obstacle), message, advice)


def _size(box: Box) -> str:
    return " x ".join(f"{float(size):.4g}" for size in box.size) + " mm"
