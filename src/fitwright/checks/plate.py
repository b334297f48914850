"""Check `plate`: do the bodies that are printed in one go stand on one bed, clear of each other?"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.packing import GAP_MM
from fitwright.part import Part
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

CODE = "plate"
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """One finding for a part of several bodies on one bed; none for others."""
    if not part.one_plate or len(part.printed) < 2:
        return []
    found = [meshes[body.name].mesh for body in part.printed if body.name in meshes]
    if len(found) < len(part.printed) or any(len(mesh.faces) == 0 for mesh in found):
        return [Finding(CODE, "fail", "", None, GAP_MM, "mm", "whole part", "not checked: a body has no mesh")]
    feet = [float(np.asarray(mesh.vertices)[:, 2].min()) for mesh in found]
    lengths = np.ptp(np.concatenate([np.asarray(mesh.vertices) for mesh in found]), axis=0)
    least = least_gap_mm([shadow(np.asarray(mesh.vertices), np.asarray(mesh.faces)) for mesh in found])
    faults = []
    if max(abs(foot) for foot in feet) > TOLERANCES.weld_mm:
        faults.append("not all of them stand on the bed")
    if least < GAP_MM - TOLERANCES.fit_mm:
        faults.append(f"two of them are {least:.2f} mm apart")
    printer = spec.printer
    bed = f"{printer.bed_x_mm:g} x {printer.bed_y_mm:g} mm"
    if lengths[0] > printer.bed_x_mm or lengths[1] > printer.bed_y_mm:
        faults.append(f"together they take {lengths[0]:.1f} x {lengths[1]:.1f} mm, the bed is {bed}")
    place = "whole part"
    if faults:
        message = f"the {len(found)} pieces do not go on one bed: {'; '.join(faults)}"
        return [Finding(CODE, "fail", "", least, GAP_MM, "mm", place, message, REBUILD)]
    message = f"{len(found)} pieces on {lengths[0]:.0f} x {lengths[1]:.0f} mm of a bed of {bed}"
    return [Finding(CODE, "pass", "", least, GAP_MM, "mm", place, message)]


def shadow(vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> BaseGeometry:
    """What a mesh covers of the bed: all its faces that look down, seen from above."""
    triangles = vertices[faces][:, :, :2]
    (ax, ay), (bx, by) = (triangles[:, k].T - triangles[:, 0].T for k in (1, 2))
    down = ax * by - ay * bx < -1e-6
    covered: BaseGeometry = shapely.union_all(shapely.polygons(triangles[down]), grid_size=1e-4)
    return covered


def least_gap_mm(shadows: list[BaseGeometry]) -> float:
    """The least distance between any two, seen from above."""
    return min(float(one.distance(other)) for one, other in itertools.combinations(shadows, 2))
