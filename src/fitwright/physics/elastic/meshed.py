"""A body as tetrahedra of second order, meshed once; what the mesher cannot do is said, never passed over."""

from __future__ import annotations

import math
import tempfile
from pathlib import Path
from typing import Any

import numpy as np

from fitwright.errors import BuildError

FINEST_MM, COARSEST_MM = 3.0, 14.0
ON_SURFACE = 9_000
"""About so many triangles on the surface at first."""
ATTEMPTS = ((1.0, 0.6), (0.7, 0.4), (0.45, 0.4))
"""Share of the usual size, and how fast elements may grow: tried one after the other."""
FLAT = 1e-5
"""A flatter element (1: regular) has no volume to speak of: dividing lays four corners in one face. It is left out."""
STRAIGHTENED = 8
"""So often neighbours of folded elements are looked at again; then all are made straight."""
FOLDED = 0.3
"""A curved element whose Jacobian falls below this share of its greatest is made straight: it nearly folds."""
VOLUME_OFF = 0.015
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
        The shape could not be read or meshed, or the mesh misses its volume by more than VOLUME_OFF.
    """
    from netgen import occ

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "body.brep"
        path.write_text(brep, encoding="ascii")
        try:
            geometry = occ.OCCGeometry(str(path))
            shape = geometry.shape
            size = size_mm or usual_size_mm(sum(face.mass for face in shape.faces), wall_mm)
        except Exception as error:  # the library raises its own kinds, and plain ones
            raise NotAnalysedError(f"it could not be meshed ({_said(error)})") from error
        why = ""
        for share, grading in ATTEMPTS:
            mesh, why = _attempt(geometry, share * size, grading, near)
            if mesh is not None and not (why := _missed(mesh, volume_mm3 or shape.mass)):
                return mesh
    raise NotAnalysedError(why)


def _attempt(geometry: Any, size_mm: float, grading: float, near: list[tuple[Any, float]]) -> tuple[Any, str]:
    """The mesh, or None and why there is none."""
    import ngsolve
    from netgen.meshing import MeshingParameters

    wanted = MeshingParameters(maxh=size_mm, grading=grading, curvaturesafety=1.0, segmentsperedge=0.3, optsteps3d=2)
    for (x, y, z), h in near:
        if h < size_mm:
            wanted.RestrictH(x=float(x), y=float(y), z=float(z), h=float(h))
    try:
        mesh = ngsolve.Mesh(geometry.GenerateMesh(mp=wanted))
    except Exception as error:  # as above
        return None, f"it could not be meshed ({_said(error)})"
    return (mesh, "") if mesh.ne else (None, "it could not be meshed (no element came of it)")


def _said(error: Exception) -> str:
    return str(error).strip() or type(error).__name__


def _missed(mesh: Any, volume_mm3: float) -> str:
    """Why the mesh is not the solid; empty where it is."""
    bent = curve(mesh)
    found = volume_of(mesh)
    del bent
    if abs(found / volume_mm3 - 1.0) <= VOLUME_OFF:
        return ""
    return f"its mesh holds {found:.0f} mm3, the solid {volume_mm3:.0f}"


def curve(mesh: Any) -> Any:
    """Curve the elements to the solid's surface, but for those that would fold; returns what the mesh is bent by.

    Where a strip of surface is narrower than its elements are long, curved ones turn inside out. So the curve of each
    edge is taken over one by one (as the library's deformation of second order), and left away round such elements.
    """
    import ngsolve

    mesh.UnsetDeformation()
    mesh.Curve(2)
    bent = ngsolve.GridFunction(ngsolve.VectorH1(mesh, order=2))
    bent.Set(ngsolve.CF((ngsolve.x, ngsolve.y, ngsolve.z)))
    values = bent.vec.FV().NumPy().reshape(3, -1)
    values[:, : mesh.nv] = 0.0
    mesh.Curve(1)
    solid = shapes(mesh)[0] > FLAT
    edges = ngsolve.H1(mesh, order=2)
    for _ in range(STRAIGHTENED):
        mesh.SetDeformation(bent)
        folded = np.flatnonzero(_folds(mesh) & solid)
        if not len(folded):
            break
        for number in folded:
            own = [k for k in edges.GetDofNrs(ngsolve.ElementId(ngsolve.VOL, int(number))) if k >= mesh.nv]
            values[:, own] = 0.0
        mesh.UnsetDeformation()
    else:
        values[:] = 0.0
        mesh.SetDeformation(bent)
    return bent


def _folds(mesh: Any) -> Any:
    """True for each element that is as good as inverted."""
    import ngsolve

    corners = np.array([(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 0.0)])
    middles = [(corners[i] + corners[j]) / 2.0 for i in range(4) for j in range(i)]
    points = [tuple(map(float, point)) for point in (*corners, *middles, corners.mean(axis=0))]
    rule = ngsolve.IntegrationRule(points=points, weights=[1.0 / len(points)] * len(points))
    size = ngsolve.Det(ngsolve.specialcf.JacobianMatrix(3))
    found = np.asarray(size(mesh.MapToAllElements(rule, ngsolve.VOL))).reshape(mesh.ne, -1)
    return found.min(axis=1) < FOLDED * np.abs(found).max(axis=1)


def shapes(mesh: Any) -> tuple[Any, Any]:
    """How solid each straight element is (1: regular, 0: flat) and its longest edge [mm]."""
    corners = corners_of(mesh)
    volume = np.abs(np.linalg.det(corners[:, 1:] - corners[:, :1])) / 6.0
    sides = [np.linalg.norm(corners[:, i] - corners[:, j], axis=1) for i in range(4) for j in range(i)]
    longest = np.max(sides, axis=0)
    return 6.0 * math.sqrt(2.0) * volume / longest**3, longest


def corners_of(mesh: Any) -> Any:
    """Places of each element's corners, (elements, 4, 3) [mm]."""
    numbers = np.array(mesh.ngmesh.Elements3D().NumPy()["nodes"][:, :4], dtype=np.int64) - 1
    return np.array(mesh.ngmesh.Coordinates())[numbers]


def volume_of(mesh: Any) -> float:
    """Volume [mm3] of the elements."""
    import ngsolve

    return float(ngsolve.Integrate(ngsolve.CF(1.0), mesh))
