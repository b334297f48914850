"""`template`: 1:1 paper templates of a part's mouths, without building the rest of it."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.cli.build import load, refuse_folder, tell
from fitwright.cli.paths import refuse_equal_names, yaml_files
from fitwright.errors import FitwrightError
from fitwright.export.templates import template_pdf, template_svgs
from fitwright.export.write_text import write_bytes
from fitwright.spec.text_file import kind_of
from fitwright.units import Units
from fitwright.worker import Job
from fitwright.worker import run as run_jobs

if TYPE_CHECKING:
    from fitwright.drawing.face import Face
    from fitwright.drawing.paper import PaperName

TARGET = "fitwright.part_job:part_templates"


def run(options: argparse.Namespace) -> int:
    """Draw the templates of every part of the files named; the exit code is the worst of all."""
    files = yaml_files(options.paths)
    _refuse_readings(files)
    specs, code = load(files)
    refuse_equal_names(specs)
    if specs:
        refuse_folder(options.output)
    jobs = [Job(spec.name, (spec,)) for spec in specs]
    with closing(run_jobs(jobs, TARGET, options.time_limit, options.jobs)) as outcomes:
        for outcome in outcomes:
            if outcome.kind != "done":
                code = max(code, tell(outcome, None, options.debug))
                continue
            spec = outcome.job.arguments[0]
            write_templates(options.output / spec.name, spec.name, outcome.value, spec.units, options.paper)
    return code


def write_templates(folder: Path, title: str, faces: Sequence[Face], units: Units, paper: PaperName | None) -> None:
    """One PDF with all sheets and one SVG a side into `folder`; what was written is printed."""
    files = [(f"{title}_template.pdf", template_pdf(title, faces, units, paper)), *template_svgs(title, faces, units)]
    for name, data in files:
        write_bytes(folder / name, data)
        print(f"wrote {folder / name}")
    print("Print the PDF at 100 % (actual size), and measure the bar on every sheet before you trust it.")


def _refuse_readings(files: Sequence[Path]) -> None:
    for file in files:
        if kind_of(file) != "part":
            raise FitwrightError(
                f"{file}: this file holds no part (its top key is {kind_of(file)!r}), so there is no mouth to draw; "
                "allowed: a YAML that says `part:`"
            )
