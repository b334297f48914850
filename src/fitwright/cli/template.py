"""`template`: 1:1 paper templates of a part's mouths, without building the rest of it."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.cli.build import load, refuse_folder, tell
from fitwright.cli.exit_codes import BAD_INPUT
from fitwright.cli.paths import refuse_equal_names, yaml_files
from fitwright.errors import FitwrightError, Problem, SpecError
from fitwright.export.templates import template_pdf, template_svgs
from fitwright.export.write_text import write_bytes
from fitwright.spec.measure_file import asked_of_file
from fitwright.spec.text_file import kind_of
from fitwright.units import Units
from fitwright.worker import Job
from fitwright.worker import run as run_jobs

if TYPE_CHECKING:
    from fitwright.drawing.face import Face
    from fitwright.drawing.paper import PaperName

TARGET = "fitwright.part_job:part_templates"
_SAME_AS_BACK = "FRONT here is BACK on the sheets of the flange that is made for it: that one is seen from the machine."


def run(options: argparse.Namespace) -> int:
    """Draw the templates of every part, and of every measured bolt pattern; the exit code is the worst of all."""
    files = yaml_files(options.paths)
    patterns = [file for file in files if kind_of(file) != "part"]
    specs, code = load([file for file in files if file not in patterns])
    refuse_equal_names(specs)
    _refuse_equal_stems(patterns, {spec.name.casefold(): spec.source_file for spec in specs})
    for file in patterns:
        _draw_pattern(file, options)
    if specs:
        refuse_folder(options.output)
    without = 0
    jobs = [Job(spec.name, (spec,)) for spec in specs]
    with closing(run_jobs(jobs, TARGET, options.time_limit, options.jobs)) as outcomes:
        for outcome in outcomes:
            if outcome.kind != "done":
                code = max(code, tell(outcome, None, options.debug))
                continue
            spec = outcome.job.arguments[0]
            if not outcome.value:
                print(f"{spec.name}: a {spec.part} has no mouth to draw", file=sys.stderr)
                without += 1
                continue
            write_templates(options.output / spec.name, spec.name, outcome.value, spec.units, options.paper)
    return max(code, BAD_INPUT) if without and without == len(specs) + len(patterns) else code


def _refuse_equal_stems(patterns: Sequence[Path], taken: dict[str, str]) -> None:
    """Raise SpecError where a pattern would be drawn over another one, or over a part's templates."""
    problems = []
    for file in patterns:
        other = taken.setdefault(file.stem.casefold(), str(file))
        if other != str(file):
            found = f"{file.stem!r}, which is drawn from {other} too, into the same folder"
            hint = "rename one, or draw them one after the other with -o"
            problems.append(Problem(str(file), 0, 0, "file", found, "a name of its own", hint))
    if problems:
        raise SpecError(problems)


def write_templates(folder: Path, title: str, faces: Sequence[Face], units: Units, paper: PaperName | None) -> None:
    """One PDF with all sheets and one SVG a side into `folder`; what was written is printed."""
    files = [(f"{title}_template.pdf", template_pdf(title, faces, units, paper)), *template_svgs(title, faces, units)]
    for name, data in files:
        write_bytes(folder / name, data)
        print(f"wrote {folder / name}")
    print("Print the PDF at 100 % (actual size), and measure the bar on every sheet before you trust it.")


def _draw_pattern(file: Path, options: argparse.Namespace) -> None:
    """The holes that `measure: bolts` readings give, as seen by who measured them."""
    if kind_of(file) != "measure":
        raise FitwrightError(f"{file}: holds no mouth to draw; allowed: a YAML that says `part:` or `measure: bolts`")
    from fitwright.drawing.face import pattern_face
    from fitwright.report.measured.bolt_readings import solved_of
    from fitwright.report.measured.bolts import doubtful

    asked = asked_of_file(file, "bolts")
    solved = solved_of(asked)
    if doubtful(solved):
        raise FitwrightError(
            f"{file}: its readings leave open where the holes are, so nothing is drawn; "
            f"`fitwright measure {file}` says which distance settles it"
        )
    if solved.verdict.wrong:
        print(f"{file}: a reading was left out; `fitwright measure {file}` names it: read it again before you drill")
    pattern, opening = solved.pattern, solved.pattern.opening
    size = getattr(asked.keys, "size", None) or ""
    rim = (opening.diameter_mm, (opening.right_mm, opening.up_mm)) if opening else ()
    face = pattern_face(
        "pattern", asked.keys.label or "bolt pattern", pattern.places, pattern.hole_mm or 0.0, size, *rim
    )
    if getattr(asked.keys, "face", None) == "machine" and not face.is_symmetric():
        face = replace(face, says=(*face.says, _SAME_AS_BACK))
    refuse_folder(options.output)
    write_templates(options.output / file.stem, file.stem, (face,), asked.context.units, options.paper)
