"""`hose`: from the places of hangers, port and head to spans, lengths, pulls and a picture."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from fitwright.cli.exit_codes import BAD_INPUT, BLOCKED, GOOD
from fitwright.errors import FitwrightError, SpecError
from fitwright.export.atomic import staged
from fitwright.spec.run import RunSpec
from fitwright.spec.run_file import run_of_file


def run(options: argparse.Namespace) -> int:
    """Work out every file; the exit code is the worst of all: 1 where a run does not work, 2 for bad input."""
    runs, code = _load(options.paths)
    _refuse_equal_names(runs)
    for number, one in enumerate(runs):
        if number:
            print()
        code = max(code, _answered(one, options.output))
    return code


def _load(paths: list[Path]) -> tuple[list[RunSpec], int]:
    """All that can be read; what is wrong with the others is told at once."""
    runs, code = [], GOOD
    for path in paths:
        try:
            runs.append(run_of_file(path))
        except SpecError as error:
            print(error, file=sys.stderr)
            code = BAD_INPUT
    return runs, code


def _refuse_equal_names(runs: list[RunSpec]) -> None:
    names: dict[str, RunSpec] = {}
    for one in runs:
        other = names.setdefault(one.name.casefold(), one)
        if other is not one:
            raise FitwrightError(
                f"{one.source_file} and {other.source_file} are both called {one.name!r} and would write into one"
                " folder: give one of them another `name:`"
            )


def _answered(spec: RunSpec, output: Path) -> int:
    from fitwright.report.hose_run import moving, row
    from fitwright.report.hose_run.files import earlier_files, file_names, report_json, report_text, told_text
    from fitwright.report.hose_run.picture import picture_png

    answer, solved = row.answered(spec) if spec.kind == "row" else moving.answered(spec)
    print(told_text(answer))
    folder = output / spec.name
    made = picture_png(answer, solved), report_text(answer).encode(), report_json(answer).encode()
    with staged(folder) as staging:
        for name, data in zip(file_names(spec.name), made, strict=True):
            staging.add(name, data)
        aside = staging.commit(earlier_files(folder))
    print(f"wrote {len(made)} files into {folder}")
    if aside:
        print(f"files of an earlier part in that folder were renamed: {', '.join(aside)}")
    return GOOD if answer.good else BLOCKED
