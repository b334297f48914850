"""A file that stands for a neighbour or a housing, ready for the check: sound, in mm, where it is in the shop.

A broken mesh answers any question about distance with "far away" (manifold issues 186, 765), so it is never used; it is
mended only where that was asked, and what was done is told.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

import manifold3d
import numpy as np
from scipy.spatial import cKDTree
from trimesh import Trimesh

from fitwright.envelope_mesh import pieces, soundness
from fitwright.envelope_mesh.obj import read_obj
from fitwright.envelope_mesh.repair import Mended, mended
from fitwright.envelope_mesh.step import StepFile, finest, open_step, triangles
from fitwright.envelope_mesh.stl import read_stl
from fitwright.envelope_mesh.triangles import Points, Triangles
from fitwright.errors import BuildError
from fitwright.spec.envelope import MeshObstacle

CURE = "Mend it in the program it came from, write `repair: yes` beside it, or describe it with boxes and round bars"
LAST_CURE = "Mend it in the program it came from, or describe it with boxes and round bars"
STEP_CURE = "Save it again as solids from the program it came from, or describe it with boxes and round bars"
SOME = 50_000
"""So many corners tell how far a gap need be looked for."""
_READ: dict[str, Callable[[Path], Triangles]] = {".stl": read_stl, ".obj": read_obj}


@dataclass(frozen=True)
class Housing:
    """A closed mesh in part coordinates [mm] whose facets stray from what the file says by no more than `chord_mm`.

    Its origin was put at `at`. `mended` is what a repair did, None where none was asked; `loose` counts faces of a STEP
    that bound no solid and were left out.
    """

    mesh: Triangles
    found: pieces.Pieces
    at: Points
    mended: Mended | None = None
    chord_mm: float = 0.0
    loose: int = 0
    step: StepFile | None = None

    @cached_property
    def solid(self) -> manifold3d.Manifold:
        """For least gaps and clashes. Pieces that overlap stand in it side by side."""
        return pieces.as_solid(self.mesh)

    @cached_property
    def joined(self) -> manifold3d.Manifold:
        """The room that all its pieces take, what two of them share counted once."""
        return pieces.joined(self.mesh, self.found) if self.found.overlap() else self.solid

    def no_further_mm(self, points: Points) -> float:
        """A distance that the least gap to anything with these `points` on it does not exceed.

        A least gap takes the longer, the further it is looked for.
        """
        return float(self._some_corners.query(points)[0].min())

    @cached_property
    def _some_corners(self) -> cKDTree:
        every = -(-len(self.mesh.vertices) // SOME)
        return cKDTree(self.mesh.vertices[::every])

    @cached_property
    def trimesh(self) -> Trimesh:
        """The same in the library's own form."""
        return Trimesh(self.mesh.vertices, self.mesh.faces, process=False, validate=False)

    def cavity(self, points: Points) -> manifold3d.Manifold | None:
        """The free room of the cavity that holds `points`, or None where they are in none."""
        found = pieces.cavity(self.mesh, self.found, points)
        if found is None:
            return None
        room, filled = found
        return room - self.joined if filled else room

    def finer(self) -> Housing:
        """Curved faces of a STEP as fine as a part's; itself where there are none, or that would be too many."""
        if self.step is None or self.chord_mm == 0.0 or (self.mended and self.mended.done):
            return self
        try:
            mesh, chord_mm = finest(self.step)
            return replace(_placed(*_judged(mesh, False, STEP_CURE), self.at), chord_mm=chord_mm, mended=self.mended)
        except BuildError:
            return self


def read(obstacle: MeshObstacle) -> Housing:
    """The file of an obstacle, sound and in its place.

    Raises
    ------
    BuildError
        The file is missing, unreadable, empty, open, or inside out, and was not to be mended or could not be; with
        counts, places and the cure.
    """
    path = Path(obstacle.path)
    if not path.is_file():
        raise BuildError(f"there is no file {path}; put it beside the YAML file, or correct the path")
    try:
        return _read(path, obstacle)
    except BuildError as error:
        raise BuildError(f"{path.name} {error}") from error
    except OSError as error:
        raise BuildError(f"{path.name} cannot be read: {error.strerror or error}") from error


def _read(path: Path, obstacle: MeshObstacle) -> Housing:
    at = np.array(obstacle.at)
    if not obstacle.is_step:
        plain = _READ[path.suffix.casefold()](path)
        sized = Triangles(plain.vertices * obstacle.unit_mm, plain.faces)
        return _placed(*_judged(sized, obstacle.repair, CURE), at)
    step = open_step(path)
    if not step.solid and not obstacle.repair:
        raise BuildError(f"holds no solid, only {step.loose} faces that bound none. {STEP_CURE}, or try `repair: yes`")
    mesh, chord_mm = triangles(step)
    made = _placed(*_judged(mesh, obstacle.repair, STEP_CURE), at)
    return replace(made, chord_mm=chord_mm, step=step, loose=step.loose if step.solid else 0)


def _placed(mesh: Triangles, found: pieces.Pieces, done: Mended | None, at: Points) -> Housing:
    moved = Triangles(mesh.vertices + at, mesh.faces)
    return Housing(moved, replace(found, low=found.low + at, high=found.high + at), at, done)


def _judged(mesh: Triangles, repair: bool, cure: str) -> tuple[Triangles, pieces.Pieces, Mended | None]:
    """The mesh if it is sound, or made so where that was asked; its pieces; what was done."""
    if len(mesh.faces) == 0:
        raise BuildError("holds no triangles that have a surface; save it again")
    fault, found = _fault(mesh)
    if not fault:
        return mesh, found, Mended() if repair else None
    if not repair:
        raise BuildError(f"{fault}. {cure}")
    mesh, done = mended(mesh)
    again, found = _fault(mesh)
    if again:
        raise BuildError(f"{again}. That is after a repair ({done.told()}). {LAST_CURE}")
    return mesh, found, done


def _fault(mesh: Triangles) -> tuple[str, pieces.Pieces]:
    found = pieces.pieces(mesh)
    return soundness.open_or_against(mesh) or soundness.inside_out(mesh, found), found
