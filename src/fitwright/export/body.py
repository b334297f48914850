"""The files of one body: what is printed as STL and STEP, what is cut as DXF."""

from __future__ import annotations

from fitwright.export.atomic import Staging
from fitwright.export.dxf import body_dxf
from fitwright.export.step import step_bytes
from fitwright.export.stl import on_bed, stl_bytes
from fitwright.mesh import BodyMesh
from fitwright.part import Body
from fitwright.pose import PoseChoice


def add_body(staging: Staging, body: Body, mesh: BodyMesh, pose: PoseChoice | None, stem: str) -> None:
    """STL and STEP of what is printed; of what is cut a DXF, and a STEP where it is of sheet that keeps its form."""
    if pose is None:
        staging.add(f"{stem}.dxf", body_dxf(body, stem))
    else:
        staging.add(f"{stem}.stl", stl_bytes(on_bed(mesh.mesh.vertices, pose.matrix), mesh.mesh.faces))
    if body.stock is None or body.stock.kind == "sheet":
        staging.add(f"{stem}.step", step_bytes(body.solid, stem))
