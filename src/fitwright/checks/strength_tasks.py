"""From a part to what the finite elements need of it, a task a body: plain numbers and the kernel's own text."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from fitwright.mesh import BodyMesh
from fitwright.part import Body, Part
from fitwright.physics.elastic.task import Elastic, Infill, Task
from fitwright.pose import choose_pose

if TYPE_CHECKING:
    from fitwright.spec.part_base import PartBase


def tasks(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> tuple[Task, ...]:
    """One for each printed body for which a load is declared."""
    return tuple(_tasks(part, meshes, spec))


def _tasks(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> Iterator[Task]:
    for body in part.printed:
        cases = tuple(case for case in part.loads if case.body == body.name)
        if cases and not spec.material.soft:
            faces = tuple(face for face in part.load_faces if face.body == body.name)
            yield Task(
                body=body.name,
                brep=brep_text(body),
                wall_mm=body.wall_mm,
                faces=faces,
                supports=part.supports,
                cases=cases,
                elastic=elastic(spec),
                layers=choose_pose(body, meshes[body.name], spec.printer).pose.down,
                infill=infill(spec),
                volume_mm3=meshes[body.name].brep_volume_mm3,
            )


def elastic(spec: PartBase) -> Elastic:
    """The filament as it is in its place."""
    warm = spec.material.at(spec.near_heat_c)
    return Elastic(
        warm.modulus_mpa,
        warm.poisson,
        warm.strength_mpa,
        warm.strength_across_mpa,
        warm.sustained_share,
        warm.creep_share,
    )


def infill(spec: PartBase) -> Infill:
    """Solid where the YAML asks for no infill."""
    return Infill(spec.infill.share, spec.infill.walls * spec.printer.line_mm)


def brep_text(body: Body) -> str:
    """The solid as the kernel writes it, without triangles."""
    from OCP.BRepTools import BRepTools
    from OCP.Message import Message_ProgressRange
    from OCP.TopTools import TopTools_FormatVersion

    stream = io.BytesIO()
    BRepTools.Write_s(
        body.solid.wrapped,
        stream,
        False,
        False,
        TopTools_FormatVersion.TopTools_FormatVersion_VERSION_1,
        Message_ProgressRange(),
    )
    return stream.getvalue().decode("ascii")
