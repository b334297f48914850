"""The whole of Fitwright on one page: load -> build -> mesh -> check -> export -> report."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from fitwright.begun import Begun, Output, begun
from fitwright.checks import CHECKS, strength
from fitwright.errors import BuildError
from fitwright.export.atomic import Staging
from fitwright.export.body import add_body
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.pose import PoseChoice, choose_pose
from fitwright.report.model import Report, Result
from fitwright.report.plates import add_papers, add_plate, add_tries
from fitwright.report.report_json import listed_files, report_json
from fitwright.report.report_txt import report_txt
from fitwright.report.summary import blocked_bodies, file_stem, summary
from fitwright.spec.load import load_file
from fitwright.spec.models import PartBase

Meshes = dict[str, BodyMesh]
Poses = dict[str, PoseChoice]


def build_file(path: Path | str, out_dir: Path | str = "outputs", *, force: bool = False) -> list[Result]:
    """Build every part that a YAML file describes; raises SpecError where it cannot be used, else as `build_part`."""
    return [build_part(spec, out_dir, force=force) for spec in load_file(Path(path))]


def build_part(
    spec: PartBase, out_dir: Path | str = "outputs", write: bool = True, force: bool = False, quick: bool = False
) -> Result:
    """Build, check and export one part into a folder of its own, `out_dir/name`.

    Parameters
    ----------
    write
        False checks only, and touches no file.
    force
        Write STL, STEP and DXF even of a body that a check blocks; the report then says so.
    quick
        Leave out the strength check; the report then says so.

    Raises
    ------
    RefusalError
        No sound part can come of these numbers; names the key to change.
    BuildError
        The kernel returned something other than what was asked for.
    ExportError
        A file could not be written; the files of an earlier run are as they were.
    """
    with begun(spec, BUILDERS[spec.part], Path(out_dir) / spec.name if write else None) as work:
        return finish(work, force, quick)


def finish(work: Begun, force: bool = False, quick: bool = False) -> Result:
    """Check and export a part that is built and meshed."""
    part, spec = work.part, work.spec
    meshes = {body.name: mesh_body(body, work.facets[body.name]) for body in part.bodies}
    poses = {body.name: choose_pose(body, meshes[body.name], spec.printer) for body in part.printed}
    report = summary(part, meshes, poses, spec, check(part, meshes, spec, quick))
    if work.output is None:
        return Result(report, (), report.findings)
    return _export(work, work.output, meshes, poses, report, force)


def check(part: Part, meshes: Meshes, spec: PartBase, quick: bool = False) -> tuple[Finding, ...]:
    """Run every check; `strength`, which takes longest, runs beside the others, and not at all where it is `quick`."""
    if quick:
        return (*_others(part, meshes, spec), *strength.left_out(part))
    with strength.analysing(part, meshes, spec) as analysis:
        return (*_others(part, meshes, spec), *analysis.findings())


def _others(part: Part, meshes: Meshes, spec: PartBase) -> list[Finding]:
    """All but strength; one that cannot do its work is a finding that blocks, never a pass."""
    findings: list[Finding] = []
    for code, run in CHECKS:
        try:
            findings += run(part, meshes, spec)
        except BuildError as error:
            findings.append(Finding(code, "fail", "", None, None, "", "", f"could not be checked: {error}", ""))
    return findings


def _export(work: Begun, output: Output, meshes: Meshes, poses: Poses, report: Report, force: bool) -> Result:
    part, staging = work.part, output.staging
    blocked = blocked_bodies(part, report.findings)
    bodies = part.bodies if force else tuple(body for body in part.bodies if body.name not in blocked)
    for body in bodies:
        add_body(staging, body, meshes[body.name], poses.get(body.name), file_stem(part, body))
    printed = replace(part, bodies=tuple(body for body in bodies if body.stock is None))
    tries, notes = add_tries(staging, printed, work.spec)
    plate = add_plate(staging, printed, meshes, work.spec)
    if force or not report.blocked:
        add_papers(staging, part, work.spec.units)
    drawn, without = output.picture.collect()
    for ending, data in drawn.items():
        staging.add(f"{part.name}{ending}", data)
    report = replace(report, exported=len(bodies) == len(part.bodies), forced=force and bool(blocked))
    report = _write_report(staging, replace(report, tries=tries, plate=plate, notes=(*notes, without)))
    earlier = staging.commit(listed_files(staging.folder / "report.json"))
    if earlier:
        report = replace(report, notes=(*report.notes, f"files of an earlier run were renamed: {', '.join(earlier)}"))
    return Result(report, tuple(staging.folder / name for name in report.files), report.findings)


def _write_report(staging: Staging, report: Report) -> Report:
    names = tuple(sorted([*staging.names, "report.json", "report.txt"]))
    complete = replace(report, files=names, notes=tuple(note for note in report.notes if note))
    staging.add("report.json", report_json(complete))
    staging.add("report.txt", report_txt(complete))
    return complete
