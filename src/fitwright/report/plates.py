"""The plates of a part, put among its files and weighed: what is tried first, and what is printed in one go."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.export.atomic import Staging
from fitwright.export.plate import plate
from fitwright.export.try_plate import try_plates
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.report.cut_list import cut_list
from fitwright.report.model import TryReport
from fitwright.report.paper_txt import paper_txt
from fitwright.report.summary import try_report
from fitwright.spec.models import PartBase
from fitwright.units import Units


def add_plate(staging: Staging, part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> TryReport | None:
    """Add NAME_plate.stl where several bodies are printed in one go."""
    if not part.one_plate or len(part.printed) < 2:
        return None
    found = [meshes[body.name] for body in part.printed]
    laid = plate([(one.mesh.vertices, one.mesh.faces, one.brep_volume_mm3) for one in found])
    file = f"{part.name}_plate.stl"
    staging.add(file, laid.stl)
    return try_report(file, tuple(body.name for body in part.printed), laid.volume_mm3, laid.height_mm, spec)


def add_papers(staging: Staging, part: Part, units: Units) -> None:
    """Add NAME_KEY.txt for each sheet that goes with the part."""
    for paper in (*part.papers, *cut_list(part, units)):
        staging.add(f"{part.name}_{paper.key}.txt", paper_txt(paper, units))


def add_tries(staging: Staging, part: Part, spec: PartBase) -> tuple[tuple[TryReport, ...], tuple[str, ...]]:
    """Add NAME_try.stl, and NAME_try2.stl and so on where one bed does not hold all; second: notes."""
    plates, left_out = try_plates(part, (spec.printer.bed_x_mm, spec.printer.bed_y_mm))
    tries = []
    for number, one in enumerate(plates, start=1):
        file = f"{part.name}_try{number if number > 1 else ''}.stl"
        staging.add(file, one.stl)
        tries.append(try_report(file, one.pieces, one.volume_mm3, one.height_mm, spec))
    return tuple(tries), tuple(f"not on the try-print: {piece}" for piece in left_out)
