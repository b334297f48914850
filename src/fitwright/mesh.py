"""Body -> triangle mesh, once; every mesh check and every mesh file shares it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import manifold3d
import numpy as np
import trimesh

from fitwright.errors import BuildError
from fitwright.shapes.volume import exact_volume_mm3
from fitwright.tessellation import Facets, body_facets, facets
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from cadquery import Shape

    from fitwright.part import Body


@dataclass(frozen=True)
class BodyMesh:
    """The finished mesh of one body, in part coordinates [mm], and the volume of the exact solid that it stands for.

    No facet strays further than `chord_mm` from the true surface.
    """

    mesh: trimesh.Trimesh
    brep_volume_mm3: float
    chord_mm: float = TOLERANCES.mesh_chord_mm


def mesh_body(body: Body, found: Facets | None = None) -> BodyMesh:
    """Mesh a body with the one deflection that all checks and files share; `found` if that has been done already.

    Raises
    ------
    BuildError
        As for `body_facets`.
    """
    bent = any(face.geomType() == "TORUS" for face in body.solid.Faces())
    chord_mm = TOLERANCES.mesh_chord_mm + (TOLERANCES.bend_chord_mm if bent else 0.0)
    return BodyMesh(as_trimesh(found or body_facets(body)), exact_volume_mm3(body.solid), chord_mm)


def mesh_shape(shape: Shape, chord_mm: float, angle_rad: float, bend_mm: float | None = None) -> trimesh.Trimesh:
    """Mesh any shape within `chord_mm` of its true surface and `angle_rad` between neighbouring facets of a curve.

    Along bends `bend_mm` is allowed in its place, where given. Vertices closer than TOLERANCES.weld_mm are one; facets
    point out of the material where the shape is sound. The same shape gives the same bytes.

    Raises
    ------
    BuildError
        As for `mesh_body`.
    """
    return as_trimesh(facets(shape, chord_mm, angle_rad, bend_mm))


def as_trimesh(found: Facets) -> trimesh.Trimesh:
    """Triangles in the library's own form, as they are: nothing is joined or dropped any more."""
    return trimesh.Trimesh(found.vertices, found.faces, process=False, validate=False)


def to_manifold(mesh: trimesh.Trimesh) -> manifold3d.Manifold:
    """The mesh as a solid for booleans and least gaps.

    Raises
    ------
    BuildError
        The mesh is empty, open, or turned inside out. The library answers such input with an empty solid and a gap
        equal to the search length, which looks like a pass (manifold issues 186, 765); so it never gets that far.
    """
    if len(mesh.faces) == 0:
        raise BuildError("not checked: the mesh is empty")
    corners = np.asarray(mesh.vertices, dtype=np.float64)
    triangles = np.asarray(mesh.faces, dtype=np.uint64)
    solid = manifold3d.Manifold(manifold3d.Mesh64(vert_properties=corners, tri_verts=triangles))
    if solid.status() != manifold3d.Error.NoError:
        raise BuildError(f"not checked: the mesh is not closed and consistent ({solid.status().name})")
    if solid.is_empty() or solid.volume() <= 0.0:
        raise BuildError(f"not checked: the mesh encloses {solid.volume():.6g} mm3")
    return solid
