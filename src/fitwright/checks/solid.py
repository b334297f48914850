"""Check `solid`: is the body one sound solid, with the holes it was declared to have, and no others?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
import trimesh
from cadquery import Shape
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.Standard import Standard_Failure

from fitwright.checks.piercing import pierced
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, to_manifold
from fitwright.part import Body, Part
from fitwright.place import words
from fitwright.shapes.volume import exact_volume_mm3, winds
from fitwright.tolerances import TOLERANCES

CODE = "solid"
REBUILD = "This is a fault of the build, not of your numbers; change the size it names a little, and report it."
SMALL_MM, LARGE_MM = 15.0, 1000.0
"""Largest side outside this range smells of inches taken for millimetres (common practice, no source)."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """Judge each body: B-rep, mesh, volumes, shells and holes; one pass finding where nothing is wrong."""
    findings = []
    for body in part.bodies:
        mesh = meshes.get(body.name)
        found = list(_brep(body)) + (list(_mesh(body, mesh)) if mesh else [_fail(body, "not checked: it has no mesh")])
        if not any(f.blocks for f in found):
            found.append(_pass(body, mesh))
        findings += found
    return findings


def _brep(body: Body) -> Iterator[Finding]:
    """What the exact solid tells."""
    solids, shells = len(body.solid.Solids()), len(body.solid.Shells())
    volume = exact_volume_mm3(body.solid)
    if not body.solid.isValid():
        yield _fail(body, "the kernel calls the solid invalid")
    if solids != 1:
        yield _fail(body, f"it is {solids} solids, not one", float(solids), 1.0, "pieces")
    if solids == 1 and shells != 1:
        yield _fail(
            body, f"it has {shells} shells, not one: there is a closed hollow in it", float(shells), 1.0, "shells"
        )
    if volume <= 0.0:
        yield _fail(body, "nothing is left of it, or it is inside out", volume, 0.0, "mm3")
        return
    if body.volume_mm3 is not None and abs(volume / body.volume_mm3 - 1.0) > TOLERANCES.volume_rel:
        yield _fail(body, "its volume is not what the formula gives", volume, body.volume_mm3, "mm3")
    try:
        tidy = body.solid.copy().clean()
    except Standard_Failure as error:
        yield _fail(body, f"not checked: the kernel failed while it joined coplanar faces ({error})")
        return
    tidied, within = exact_volume_mm3(tidy), TOLERANCES.wound_volume_rel if winds(body.solid) else TOLERANCES.volume_rel
    if abs(tidied / volume - 1.0) > within:
        tidied, volume = _fine_volume(tidy), _fine_volume(body.solid)
    if abs(tidied / volume - 1.0) > within:
        yield _fail(body, "joining its coplanar faces changes its volume", tidied, volume, "mm3")


def _fine_volume(shape: Shape) -> float:
    """Volume [mm3] integrated adaptively: the kernel's quick rule is good to 1e-5 only, where holes run over a seam."""
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape.wrapped, properties, TOLERANCES.volume_rel / 100.0, False, False)
    return float(properties.Mass())


def _mesh(body: Body, finished: BodyMesh) -> Iterator[Finding]:
    """What the finished mesh tells."""
    mesh = finished.mesh
    try:
        to_manifold(mesh)
    except BuildError as error:
        yield _fail(body, str(error))
        return
    if not mesh.is_watertight or not mesh.is_winding_consistent:
        yield _fail(body, "its surface touches itself along an edge, or is open: there is no wall there")
    exact = finished.brep_volume_mm3
    if exact <= 0.0 or abs(float(mesh.volume) / exact - 1.0) > TOLERANCES.mesh_volume_rel:
        yield _fail(body, "the mesh does not enclose the solid's volume", float(mesh.volume), exact, "mm3")
    crossings = pierced(mesh)
    if len(crossings):
        place = words(crossings.mean(axis=0))
        yield _fail(body, f"its surface runs through itself at {len(crossings)} places", place=place)
    yield from _shells(body, mesh)
    yield from _size(body, mesh)


def _shells(body: Body, mesh: trimesh.Trimesh) -> Iterator[Finding]:
    """Judge each shell of the mesh on its own: holes and hollows cancel in the sum."""
    shells = _parted(mesh)
    for shell in shells[1:]:
        volume, place = float(shell.volume), words(shell.bounds.mean(axis=0))
        what = "a closed hollow" if volume < 0.0 else "a loose or overlapping piece"
        yield _fail(body, f"there is {what} of {abs(volume):.4g} mm3 in it", volume, None, "mm3", place)
    euler = int(shells[0].euler_number)
    if euler % 2:
        yield _fail(body, "its surface touches itself at a point: there is no wall there")
    genus = (2 - euler) // 2
    if genus != body.genus:
        message = f"it has {genus} through holes where {body.genus} were meant"
        yield _fail(body, message, float(genus), float(body.genus), "holes")


def _parted(mesh: trimesh.Trimesh) -> list[trimesh.Trimesh]:
    """The shells of a mesh, as they are (the library's own splitting repairs), the largest first."""
    labels = trimesh.graph.connected_component_labels(mesh.face_adjacency, node_count=len(mesh.faces))
    if labels.max() == 0:
        return [mesh]
    groups = [np.flatnonzero(labels == label) for label in range(labels.max() + 1)]
    shells = trimesh.util.submesh(mesh, groups, repair=False)
    return sorted(shells, key=lambda shell: -abs(float(shell.volume)))


def _size(body: Body, mesh: trimesh.Trimesh) -> Iterator[Finding]:
    """Warn of a size that smells of mistaken units."""
    largest = float(mesh.extents.max())
    if SMALL_MM <= largest <= LARGE_MM:
        return
    limit = SMALL_MM if largest < SMALL_MM else LARGE_MM
    message = f"its largest side is {largest:.1f} mm"
    advice = "Are the sizes in mm? Write `units: in` if they are inches."
    yield Finding(CODE, "warn", body.name, largest, limit, "mm", "whole body", message, advice)


def _pass(body: Body, finished: BodyMesh | None) -> Finding:
    volume = finished.brep_volume_mm3 if finished else None
    holes = f"{body.genus} through hole" + ("" if body.genus == 1 else "s")
    return Finding(CODE, "pass", body.name, volume, None, "mm3", "whole body", f"one closed solid with {holes}")


def _fail(
    body: Body,
    message: str,
    value: float | None = None,
    limit: float | None = None,
    unit: str = "",
    place: str = "whole body",
) -> Finding:
    return Finding(CODE, "fail", body.name, value, limit, unit, place, message, REBUILD)
