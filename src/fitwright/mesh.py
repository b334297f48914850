"""Body -> triangle mesh, once; every mesh check and every mesh file shares it.

The kernel keeps a triangulation on the shape it meshed and hands it out again whatever deflection is asked for later
(CadQuery issue 1432), and its bounding box then grows (CadQuery issue 798). So we mesh a copy and throw the copy away.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import manifold3d
import numpy as np
import trimesh
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.IMeshTools import IMeshTools_Parameters
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopLoc import TopLoc_Location
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from fitwright.errors import BuildError
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from cadquery import Face, Shape

    from fitwright.part import Body

Points = NDArray[np.float64]
Indices = NDArray[np.int64]

ROLL_STATIONS = 24
ROLL_RAD = 1e-5
"""A face whose normal turns less than this along its straight lines, at so many of them, can be rolled flat."""


@dataclass(frozen=True)
class BodyMesh:
    """The finished mesh of one body, in part coordinates [mm], and the volume of the exact solid that it stands for."""

    mesh: trimesh.Trimesh
    brep_volume_mm3: float


def mesh_body(body: Body) -> BodyMesh:
    """Mesh a body with the one deflection that all checks and files share.

    Raises
    ------
    BuildError
        A face has no triangles, or there are more than TOLERANCES.max_triangles.
    """
    mesh = mesh_shape(body.solid, TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad)
    return BodyMesh(mesh, float(body.solid.Volume()))


def mesh_shape(shape: Shape, chord_mm: float, angle_rad: float) -> trimesh.Trimesh:
    """Mesh any shape within `chord_mm` of its true surface and `angle_rad` between neighbouring facets of a curve.

    Vertices closer than TOLERANCES.weld_mm are one; facets point out of the material where the shape is sound.
    The same shape gives the same bytes.

    Raises
    ------
    BuildError
        As for `mesh_body`.
    """
    copy = shape.copy()
    _mesh_rolled(copy, chord_mm, angle_rad)
    BRepMesh_IncrementalMesh(copy.wrapped, chord_mm, False, angle_rad, True)
    triangulations = _triangulations(copy)
    corners, faces, count = [], [], 0
    for face, triangulation, location in triangulations:
        points, triangles = _pull(triangulation, location)
        if face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            triangles = triangles[:, ::-1]
        corners.append(points)
        faces.append(triangles + count)
        count += len(points)
    if not corners:
        return trimesh.Trimesh(process=False)
    vertices, welded = _weld(np.concatenate(corners), np.concatenate(faces))
    return trimesh.Trimesh(vertices, welded, process=False, validate=False)


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


def _mesh_rolled(shape: Shape, chord_mm: float, angle_rad: float) -> None:
    """Mesh oblique cones from their edges alone, as the mesher does with cylinders.

    It does not see that they are straight one way, fills them with forty thousand triangles and takes four seconds.
    """
    settings = IMeshTools_Parameters()
    settings.Deflection, settings.Angle, settings.ControlSurfaceDeflection = chord_mm, angle_rad, False
    for face in shape.Faces():
        if _between_circles(face) and _can_be_rolled(BRepAdaptor_Surface(face.wrapped)):
            BRepMesh_IncrementalMesh(face.wrapped, settings)


def _between_circles(face: Face) -> bool:
    """Whether a face runs all round between two circles: one that is cut into needs points inside."""
    rims = [edge for edge in face.Edges() if not BRep_Tool.IsClosed_s(edge.wrapped, face.wrapped)]
    return not face.innerWires() and all(edge.geomType() == "CIRCLE" for edge in rims)


def _can_be_rolled(surface: Any) -> bool:
    """Whether a surface is a spline, straight one way, with one and the same normal all along each of those lines."""
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_BSplineSurface:
        return False
    spline = surface.BSpline()
    if (spline.VDegree(), spline.NbVPoles()) != (1, 2):
        return False
    near, far = surface.FirstVParameter(), surface.LastVParameter()
    for u in np.linspace(surface.FirstUParameter(), surface.LastUParameter(), ROLL_STATIONS):
        one, other = _normal(surface, float(u), near), _normal(surface, float(u), far)
        if float(np.linalg.norm(np.cross(one, other))) > ROLL_RAD:
            return False
    return True


def _normal(surface: Any, u: float, v: float) -> Points:
    """Unit normal of a surface; zero where it has none."""
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(u, v, point, along_u, along_v)
    across = along_u.Crossed(along_v)
    normal = np.array([across.X(), across.Y(), across.Z()])
    return normal / max(float(np.linalg.norm(normal)), 1e-12)


def _triangulations(shape: Shape) -> list[tuple[Any, Any, TopLoc_Location]]:
    """Each face with its triangulation and where that lies; refuses gaps and floods before a point is read."""
    found, total = [], 0
    for face in shape.Faces():
        location = TopLoc_Location()
        triangulation = BRep_Tool.Triangulation_s(face.wrapped, location)
        if triangulation is None:
            centre = face.Center()
            raise BuildError(
                f"a face near right {centre.x:.1f}, away {centre.y:.1f}, up {centre.z:.1f} mm could not be meshed"
            )
        total += triangulation.NbTriangles()
        found.append((face, triangulation, location))
    if total > TOLERANCES.max_triangles:
        raise BuildError(f"the mesh has {total} triangles, more than {TOLERANCES.max_triangles}")
    return found


def _pull(triangulation: Any, location: TopLoc_Location) -> tuple[Points, Indices]:
    """Corner points and triangles (counted from 0) of one face."""
    nodes = map(triangulation.Node, range(1, triangulation.NbNodes() + 1))
    points = np.array([(p.X(), p.Y(), p.Z()) for p in nodes], dtype=np.float64)
    if not location.IsIdentity():
        move = location.Transformation()
        matrix = np.array([[move.Value(i, j) for j in (1, 2, 3, 4)] for i in (1, 2, 3)])
        points = points @ matrix[:, :3].T + matrix[:, 3]
    picks = map(triangulation.Triangle, range(1, triangulation.NbTriangles() + 1))
    return points, np.array([t.Get() for t in picks], dtype=np.int64) - 1


def _weld(points: Points, faces: Indices) -> tuple[Points, Indices]:
    """Join points within TOLERANCES.weld_mm (rounding to a grid would part some) and drop triangles that collapse."""
    pairs = cKDTree(points).query_pairs(TOLERANCES.weld_mm, output_type="ndarray")
    graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(points), len(points)))
    _, group = connected_components(graph, directed=False)
    _, first, number = np.unique(group, return_index=True, return_inverse=True)
    order = np.argsort(first)
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    joined = rank[number][faces]
    whole = (joined[:, 0] != joined[:, 1]) & (joined[:, 1] != joined[:, 2]) & (joined[:, 2] != joined[:, 0])
    return points[first[order]], joined[whole]
