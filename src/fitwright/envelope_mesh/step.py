"""STEP: every solid in the file, in mm whatever unit it was written in, as triangles within a stated chord."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from cadquery import Shape
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.STEPControl import STEPControl_Reader

from fitwright.envelope_mesh.triangles import Triangles, together
from fitwright.errors import BuildError
from fitwright.tessellation import facets
from fitwright.tolerances import TOLERANCES

CHORDS_MM = (TOLERANCES.stand_in_chord_mm, 0.4, 1.6)
"""Curved faces stay within this; the next where a file then has more than TOLERANCES.max_triangles."""
FINE_MM = 0.01
"""The same where round faces leave a doubt."""
TO_SPARE = 0.5
"""The kernel is asked for this share of it: on a ball it strayed 1.4 times as far as asked, and 0.08 mm on a face drawn
along a spline however little was asked; so free-form faces are never said to be finer than CHORDS_MM."""
ROUND = frozenset(("PLANE", "CYLINDER", "CONE", "SPHERE", "TORUS"))
_AGAIN = "save it again from the program it came from, as solids"


@dataclass(frozen=True)
class StepFile:
    """What a STEP file holds: its solids, or else its free faces; `loose` counts the faces that bound no solid."""

    shapes: tuple[Shape, ...]
    solid: bool
    loose: int

    @property
    def flat(self) -> bool:
        """True where all faces are flat and all edges straight: triangles then stand for them exactly."""
        faces = (face.geomType() == "PLANE" for shape in self.shapes for face in shape.Faces())
        edges = (edge.geomType() == "LINE" for shape in self.shapes for edge in shape.Edges())
        return all(faces) and all(edges)

    @property
    def freeform(self) -> bool:
        """True where a face is none of plane, cylinder, cone, ball and ring."""
        return any(face.geomType() not in ROUND for shape in self.shapes for face in shape.Faces())


def open_step(path: Path) -> StepFile:
    """Read the file, all its parts where they are placed, lengths in mm.

    Raises
    ------
    BuildError
        It is no STEP, cut short, a part of it cannot be read, or it holds neither solids nor faces.
    """
    _refuse_cut(path)
    # These settings belong to the whole process: set them each time, whoever changed them before.
    Interface_Static.SetCVal_s("xstep.cascade.unit", "MM")
    reader = STEPControl_Reader()
    if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise BuildError(f"cannot be read as STEP; {_AGAIN}")
    roots = reader.NbRootsForTransfer()
    read = reader.TransferRoots()
    if reader.NbShapes() == 0:
        raise BuildError(f"holds no solid: it is empty; {_AGAIN}")
    if read < roots:
        raise BuildError(f"could be read in part only ({read} of {roots} parts); {_AGAIN}")
    whole = Shape.cast(reader.OneShape())
    return _sorted_out(whole)


def _refuse_cut(path: Path) -> None:
    """A file cut short may read well and lack solids: ISO 10303-21 asks for a first and a last line."""
    data = path.read_bytes()
    if b"ISO-10303-21" not in data[:2000]:
        raise BuildError(f"is no STEP file (ISO 10303-21 is not its first line); {_AGAIN}")
    if b"END-ISO-10303-21" not in data[-2000:]:
        raise BuildError(f"is cut short (END-ISO-10303-21 is not its last line); {_AGAIN}")


def _sorted_out(whole: Shape) -> StepFile:
    solids, faces = whole.Solids(), whole.Faces()
    if not faces:
        raise BuildError(f"holds no solid: only lines and points; {_AGAIN}")
    if not solids:
        return StepFile((whole,), False, len(faces))
    return StepFile(tuple(solids), True, len(faces) - len({f for solid in solids for f in solid.Faces()}))


def triangles(file: StepFile) -> tuple[Triangles, float]:
    """Its solids as triangles, each closed by itself, and the chord [mm] by which they may stray from it."""
    if file.flat:
        return divided(file, CHORDS_MM[0]), 0.0
    for chord_mm in CHORDS_MM[:-1]:
        try:
            return divided(file, chord_mm), chord_mm
        except BuildError:
            continue
    return divided(file, CHORDS_MM[-1]), CHORDS_MM[-1]


def finest(file: StepFile) -> tuple[Triangles, float]:
    """The same as finely as a part is: asked for where the coarse ones leave a doubt.

    Raises
    ------
    BuildError
        Too many triangles, or faces that cannot be told more finely.
    """
    if file.freeform:
        raise BuildError("has free-form faces")
    return divided(file, FINE_MM, TOLERANCES.mesh_angle_rad), FINE_MM


def divided(file: StepFile, chord_mm: float, angle_rad: float = TOLERANCES.stand_in_angle_rad) -> Triangles:
    """The triangles, none further than `chord_mm` from its face; solids do not share corners.

    Raises
    ------
    BuildError
        More than TOLERANCES.max_triangles, or a face that the kernel cannot divide.
    """
    made, total = [], 0
    for shape in file.shapes:
        found = facets(shape, TO_SPARE * chord_mm, angle_rad)
        total += len(found.faces)
        if total > TOLERANCES.max_triangles:
            raise BuildError(f"needs more than {TOLERANCES.max_triangles} triangles; leave small parts out of it")
        made.append(Triangles(found.vertices, found.faces))
    return together(made)
