"""The whole of Fitwright on one page: load -> build -> mesh -> check -> export -> report."""

from __future__ import annotations

from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

from fitwright.checks import CHECKS
from fitwright.errors import BuildError
from fitwright.export.atomic import Staging, staged
from fitwright.export.step import step_bytes
from fitwright.export.stl import on_bed, stl_bytes
from fitwright.export.try_plate import try_plates
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Part
from fitwright.parts import BUILDERS
from fitwright.pose import PoseChoice, choose_pose
from fitwright.report.model import Report, Result, TryReport
from fitwright.report.picture import drawing
from fitwright.report.report_json import listed_files, report_json
from fitwright.report.report_txt import report_txt
from fitwright.report.summary import blocked_bodies, file_stem, summary, try_report
from fitwright.spec.load import load_file
from fitwright.spec.models import AdapterSpec

Meshes = dict[str, BodyMesh]


def build_file(path: Path | str, out_dir: Path | str = "outputs", *, force: bool = False) -> list[Result]:
    """Build every part that a YAML file describes; raises SpecError where it cannot be used, else as `build_part`."""
    return [build_part(spec, out_dir, force=force) for spec in load_file(Path(path))]


def build_part(spec: AdapterSpec, out_dir: Path | str = "outputs", write: bool = True, force: bool = False) -> Result:
    """Build, check and export one part into a folder of its own, `out_dir/name`.

    Parameters
    ----------
    write
        False checks only, and touches no file.
    force
        Write STL and STEP even of a body that a check blocks; the report then says so.

    Raises
    ------
    RefusalError
        No sound part can come of these numbers; names the key to change.
    BuildError
        The kernel returned something other than what was asked for.
    ExportError
        A file could not be written; the files of an earlier run are as they were.
    """
    part = BUILDERS[spec.part](spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    if write:
        return _export(part, meshes, spec, Path(out_dir) / spec.name, force)
    report = summary(part, meshes, _poses(part, meshes, spec), spec, check(part, meshes, spec))
    return Result(report, (), report.findings)


def check(part: Part, meshes: Meshes, spec: AdapterSpec) -> tuple[Finding, ...]:
    """Run every check; one that cannot do its work is a finding that blocks, never a pass."""
    findings: list[Finding] = []
    for code, run in CHECKS:
        try:
            findings += run(part, meshes, spec)
        except BuildError as error:
            findings.append(Finding(code, "fail", "", None, None, "", "", f"could not be checked: {error}", ""))
    return tuple(findings)


def _export(part: Part, meshes: Meshes, spec: AdapterSpec, folder: Path, force: bool) -> Result:
    with ExitStack() as open_until_done:
        staging = open_until_done.enter_context(staged(folder))
        picture = open_until_done.enter_context(drawing(part, meshes, spec.units, staging.hidden))
        poses = _poses(part, meshes, spec)
        report = summary(part, meshes, poses, spec, check(part, meshes, spec))
        blocked = blocked_bodies(part, report.findings)
        bodies = part.bodies if force else tuple(body for body in part.bodies if body.name not in blocked)
        for body in bodies:
            _export_body(staging, body, meshes[body.name], poses[body.name], file_stem(part, body))
        tries, notes = _export_tries(staging, replace(part, bodies=bodies), spec)
        png, without = picture.collect()
        if png:
            staging.add(f"{part.name}.png", png)
        forced = force and bool(blocked)
        report = replace(report, exported=len(bodies) == len(part.bodies), forced=forced, tries=tries)
        report = replace(report, notes=(*notes, without))
        report = _write_report(staging, report)
        earlier = staging.commit(listed_files(folder / "report.json"))
    renamed = (f"files of an earlier run were renamed: {', '.join(earlier)}",) if earlier else ()
    report = replace(report, notes=report.notes + renamed)
    return Result(report, tuple(folder / name for name in report.files), report.findings)


def _poses(part: Part, meshes: Meshes, spec: AdapterSpec) -> dict[str, PoseChoice]:
    return {body.name: choose_pose(body, meshes[body.name], spec.printer) for body in part.bodies}


def _export_body(staging: Staging, body: Body, mesh: BodyMesh, pose: PoseChoice, stem: str) -> None:
    staging.add(f"{stem}.stl", stl_bytes(on_bed(mesh.mesh.vertices, pose.matrix), mesh.mesh.faces))
    staging.add(f"{stem}.step", step_bytes(body.solid, stem))


def _export_tries(staging: Staging, part: Part, spec: AdapterSpec) -> tuple[tuple[TryReport, ...], tuple[str, ...]]:
    """Write NAME_try.stl, and NAME_try2.stl and so on where one bed does not hold all; second: notes."""
    plates, left_out = try_plates(part, (spec.printer.bed_x_mm, spec.printer.bed_y_mm))
    tries = []
    for number, plate in enumerate(plates, start=1):
        file = f"{part.name}_try{number if number > 1 else ''}.stl"
        staging.add(file, plate.stl)
        tries.append(try_report(file, plate.pieces, plate.volume_mm3, plate.height_mm, spec))
    return tuple(tries), tuple(f"not on the try-print: {piece}" for piece in left_out)


def _write_report(staging: Staging, report: Report) -> Report:
    names = tuple(sorted([*staging.names, "report.json", "report.txt"]))
    complete = replace(report, files=names, notes=tuple(note for note in report.notes if note))
    staging.add("report.json", report_json(complete))
    staging.add("report.txt", report_txt(complete))
    return complete
