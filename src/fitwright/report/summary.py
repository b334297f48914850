"""From a part, its meshes and its findings to the report: counted and weighed, not judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Part
from fitwright.pose import PoseChoice
from fitwright.printing.cost import duration, hours
from fitwright.report.calibrated import filament_words, largest_mm, printer_words
from fitwright.report.cut_list import cut_report, name_of
from fitwright.report.model import BodyReport, Report, TryReport
from fitwright.spec.joints import End
from fitwright.spec.learned import Learned
from fitwright.spec.models import PartBase

_MM3_PER_CM3 = 1000.0


def summary(
    part: Part,
    meshes: Mapping[str, BodyMesh],
    poses: Mapping[str, PoseChoice],
    spec: PartBase,
    findings: Sequence[Finding],
) -> Report:
    """The report before any file is written."""
    blocked = blocked_bodies(part, findings)
    return Report(
        part=part.name,
        family=part.family,
        units=spec.units,
        printer=spec.printer.name,
        material=spec.material.name,
        bodies=tuple(
            _body(body, meshes[body.name], poses.get(body.name), spec, body.name in blocked) for body in part.bodies
        ),
        findings=tuple(findings),
        facts={**part.facts, **_printer(part, spec)},
        assumed=dict(part.assumed),
        cautions=part.cautions,
        settings=_settings(spec) if part.printed else "",
        passages_mm=dict(part.passages_mm),
        learned=_learned(spec),
        hardware=part.hardware,
    )


def _printer(part: Part, spec: PartBase) -> dict[str, str]:
    if not part.printed:
        return {}
    filament = filament_words(spec.material)
    said = {"printer": printer_words(spec.printer, largest_mm(part))}
    return {**said, "filament": filament} if filament else said


def _learned(spec: PartBase) -> dict[str, Learned]:
    """End -> what earlier prints taught about it; none for families without ends."""
    joints = {key: end.joint for key in ("end_a", "end_b") if isinstance(end := getattr(spec, key, None), End)}
    return {key: found for key, joint in joints.items() if (found := getattr(joint, "learned", None))}


def _settings(spec: PartBase) -> str:
    """How to set the slicer: a wall printed as lines alone is tight and strong; infill in it is neither."""
    printer = spec.printer
    layers = f"layers {printer.layer_mm:g} mm, lines {printer.line_mm:g} mm wide"
    begin = f"{layers}; {spec.infill.walls} or more wall lines on each side"
    if spec.infill.share < 1.0:
        return f"{begin}, infill {100 * spec.infill.share:.0f} %; no scaling"
    return f"{begin}, infill 100 %, so that walls come out solid and tight; no scaling"


def try_report(file: str, pieces: tuple[str, ...], volume_mm3: float, height_mm: float, spec: PartBase) -> TryReport:
    """One try-print plate, weighed."""
    time_h = hours(volume_mm3, height_mm, spec.printer.line_mm, spec.printer.layer_mm)
    mass_g = volume_mm3 / _MM3_PER_CM3 * spec.material.density_g_cm3
    return TryReport(file, pieces, mass_g, duration(time_h))


def blocked_bodies(part: Part, findings: Sequence[Finding]) -> frozenset[str]:
    """Names of the bodies that must not be exported; a finding that names no body of the part blocks them all."""
    names = frozenset(body.name for body in part.bodies)
    blocking = frozenset(finding.body for finding in findings if finding.blocks)
    return names if blocking - names else blocking


def file_stem(part: Part, body: Body) -> str:
    """The name of a body's files without their ending: the part's own where it has one body."""
    return name_of(part, body)


def _body(body: Body, mesh: BodyMesh, pose: PoseChoice | None, spec: PartBase, blocked: bool) -> BodyReport:
    density = body.stock.density_g_cm3 if body.stock else spec.material.density_g_cm3
    right, away, up = (float(length) for length in np.ptp(mesh.mesh.vertices, axis=0))
    return BodyReport(
        name=body.name,
        volume_mm3=mesh.brep_volume_mm3,
        mass_g=mesh.brep_volume_mm3 / _MM3_PER_CM3 * density,
        genus=(2 - int(mesh.mesh.euler_number)) // 2,
        bbox_mm=(right, away, up),
        lies=pose.name if pose else "",
        blocked=blocked,
        cut=cut_report(body),
    )
