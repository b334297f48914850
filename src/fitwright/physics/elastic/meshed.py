"""A body as tetrahedra of second order, meshed once; what the mesher cannot do is said, never passed over."""

from __future__ import annotations

import math
import tempfile
from pathlib import Path
from typing import Any

from fitwright.errors import BuildError

FINEST_MM, COARSEST_MM = 3.0, 14.0
ON_SURFACE = 9_000
"""About so many triangles on the surface at first."""
VOLUME_OFF = 0.01
"""The mesh may miss the solid's volume by so much."""


class NotAnalysedError(BuildError):
    """No sound mesh or no sound model: the body is not analysed, and nothing is said of its strength."""


def usual_size_mm(area_mm2: float, wall_mm: float) -> float:
    """Edge of an element: three walls, and no more triangles than ON_SURFACE.

    >>> usual_size_mm(100_000.0, 2.5), round(usual_size_mm(600_000.0, 2.5), 1)
    (7.5, 12.4)
    """
    by_area = math.sqrt(area_mm2 / (math.sqrt(3.0) / 4.0 * ON_SURFACE))
    return min(max(3.0 * wall_mm, by_area, FINEST_MM), COARSEST_MM)


def mesh_of(brep: str, wall_mm: float, size_mm: float | None, near: list[tuple[Any, float]], volume_mm3: float) -> Any:
    """The NGSolve mesh of a solid that the kernel wrote.

    Parameters
    ----------
    near
        Points [mm] and the size of elements [mm] that is wanted there.
    volume_mm3
        The solid's, to hold the mesh against; 0: as the mesher's own kernel measures it.

    Raises
    ------
    NotAnalysedError
        The shape could not be read or meshed, or the mesh misses its volume by more than 1 %.
    """
    import ngsolve
    from netgen import occ
    from netgen.meshing import MeshingParameters

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "body.brep"
        path.write_text(brep, encoding="ascii")
        try:
            geometry = occ.OCCGeometry(str(path))
            shape = geometry.shape
            area = sum(face.mass for face in shape.faces)
            size = size_mm or usual_size_mm(area, wall_mm)
            wanted = MeshingParameters(maxh=size, grading=0.4, curvaturesafety=1.0, segmentsperedge=0.3, optsteps3d=2)
            for (x, y, z), h in near:
                if h < size:
                    wanted.RestrictH(x=float(x), y=float(y), z=float(z), h=float(h))
            mesh = ngsolve.Mesh(geometry.GenerateMesh(mp=wanted))
        except Exception as error:  # the mesher raises its own kinds, and plain ones
            raise NotAnalysedError(f"it could not be meshed ({str(error).strip() or type(error).__name__})") from error
    if mesh.ne == 0:
        raise NotAnalysedError("it could not be meshed (no element came of it)")
    mesh.Curve(2)
    _held_against(mesh, volume_mm3 or shape.mass)
    return mesh


def volume_of(mesh: Any) -> float:
    """Volume [mm3] of the elements."""
    import ngsolve

    return float(ngsolve.Integrate(ngsolve.CF(1.0), mesh))


def _held_against(mesh: Any, volume_mm3: float) -> None:
    found = volume_of(mesh)
    if not abs(found / volume_mm3 - 1.0) <= VOLUME_OFF:
        raise NotAnalysedError(f"its mesh holds {found:.0f} mm3, the solid {volume_mm3:.0f}")
