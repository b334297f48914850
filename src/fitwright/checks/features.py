"""Check `features`: did each declared cut take its material away, and is each declared boss there in full?

Counting holes is blind to blind features and to errors that cancel; asking each tool solid is not.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from cadquery import Shape
from numpy.typing import NDArray
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Pnt
from OCP.Standard import Standard_Failure
from OCP.StdFail import StdFail_NotDone
from OCP.TopAbs import TopAbs_State

from fitwright.checks.apart import Finished
from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_shape, to_manifold
from fitwright.part import Body, Feature, Part
from fitwright.place import words
from fitwright.tolerances import TOLERANCES

CODE = "features"
KERNEL_FAILURES = (Standard_Failure, StdFail_NotDone, ValueError)
"""What a boolean raises when it gives up; the kernel's exceptions have no common parent of their own."""
MISSING, LEFT = "is not there in full: part of it is missing", "was not cut in full: material is left in it"
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """Judge every declared feature of every body; one pass finding for a body where all are as declared."""
    findings = []
    for body in part.bodies:
        finished = Finished(body.solid)
        found = [f for feature in body.features if (f := _judge(body, feature, finished, meshes.get(body.name)))]
        findings += found if found else [_pass(body)]
    return findings


def _judge(body: Body, feature: Feature, finished: Finished, mesh: BodyMesh | None) -> Finding | None:
    """What is wrong with one feature, or None."""
    size = _volume_mm3(feature.tool)
    if size <= 0.0:
        return _fail(body, feature, "did nothing: its tool solid is empty", size, 0.0)
    try:
        if feature.by_mesh:
            left = _left_of_mesh(feature, mesh)
            message = MISSING if feature.kind == "boss" else LEFT
        elif feature.kind == "boss":
            inside = finished.side(feature.tool) == "inside"
            left = 0.0 if inside else _volume_mm3(feature.tool.cut(body.solid))
            message = MISSING
        else:
            outside = finished.side(feature.tool) == "outside"
            left = 0.0 if outside else _volume_mm3(body.solid.intersect(feature.tool))
            message = LEFT
    except KERNEL_FAILURES as error:
        return _fail(body, feature, f"not checked: the kernel failed on it ({error})")
    except BuildError as error:
        return _fail(body, feature, f"not checked: {error}")
    if abs(left) > TOLERANCES.feature_mm3:
        return _fail(body, feature, message, left, TOLERANCES.feature_mm3)
    if feature.kind == "cut" and mesh is not None and not _leaves_a_face(feature.tool, mesh):
        return _fail(body, feature, "did nothing: it lies outside the part")
    return None


def _left_of_mesh(feature: Feature, finished: BodyMesh | None) -> float:
    """Volume [mm3] of a boss's tool outside the finished mesh, of a cut's inside it."""
    if finished is None:
        raise BuildError("it has no mesh")
    tool = mesh_shape(feature.tool, TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad)
    asked, there = to_manifold(tool), to_manifold(finished.mesh)
    return float((asked - there if feature.kind == "boss" else asked ^ there).volume())


def _volume_mm3(shape: Shape) -> float:
    """Sum over the solids: a boolean may return an empty compound, several solids, or loose faces."""
    return float(sum(solid.Volume() for solid in shape.Solids()))


def _leaves_a_face(tool: Shape, finished: BodyMesh) -> bool:
    """Whether some corner of the finished mesh lies on the tool's surface, as it must where the tool took material."""
    corners: NDArray[np.float64] = np.asarray(finished.mesh.vertices)
    box = tool.copy().BoundingBox()
    low = np.array([box.xmin, box.ymin, box.zmin]) - TOLERANCES.weld_mm
    high = np.array([box.xmax, box.ymax, box.zmax]) + TOLERANCES.weld_mm
    near = corners[((corners >= low) & (corners <= high)).all(axis=1)]
    near = np.random.default_rng(0).permutation(near)  # half of them lie on a passage's tool: two or three tries do
    classifiers = [BRepClass3d_SolidClassifier(solid.wrapped) for solid in tool.Solids()]
    for corner in near:
        point = gp_Pnt(*(float(c) for c in corner))
        for classifier in classifiers:
            classifier.Perform(point, TOLERANCES.weld_mm)
            if classifier.State() == TopAbs_State.TopAbs_ON:
                return True
    return False


def _pass(body: Body) -> Finding:
    count = len(body.features)
    message = f"all {count} cuts and bosses are as declared" if count else "no cuts or bosses are declared"
    return Finding(CODE, "pass", body.name, float(count), None, "features", "whole body", message)


def _fail(body: Body, feature: Feature, what: str, value: float | None = None, limit: float | None = None) -> Finding:
    place = feature.name
    if feature.tool.Vertices():
        place += f", near {words(feature.tool.BoundingBox().center.toTuple())}"
    return Finding(CODE, "fail", body.name, value, limit, "mm3", place, f"{feature.name} {what}", REBUILD)
