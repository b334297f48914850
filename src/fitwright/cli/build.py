"""`build` and `check`: load everything first, then one worker process after another does the parts."""

from __future__ import annotations

import argparse
import shutil
import sys
from collections.abc import Iterable, Sequence
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.cli.exit_codes import BAD_INPUT, BLOCKED, GOOD
from fitwright.cli.main import PART_JOB
from fitwright.cli.paths import refuse_equal_names, yaml_files
from fitwright.errors import FitwrightError, RefusalError, SpecError
from fitwright.export.atomic import set_aside_all, sweep
from fitwright.report.findings import terminal_text
from fitwright.report.refusals import refusal_text
from fitwright.report.report_json import listed_files
from fitwright.report.set_table import set_table
from fitwright.spec.load import load_file
from fitwright.worker import Job, Outcome
from fitwright.worker import run as run_jobs

if TYPE_CHECKING:
    from fitwright.report.model import Report
    from fitwright.spec.models import PartBase

TARGET = PART_JOB


def run(options: argparse.Namespace) -> int:
    """Do `build` or `check`; the exit code is the worst of all parts'."""
    specs, code = load(yaml_files(options.paths))
    refuse_equal_names(specs)
    write = options.command == "build"
    if write and specs:
        refuse_folder(options.output)
    return max(code, build_all(specs, options, write))


def build_all(specs: Sequence[PartBase], options: argparse.Namespace, write: bool) -> int:
    """Build (and write) these parts in workers, tell of each; the exit code is the worst of all."""
    code = GOOD
    jobs = [Job(spec.name, (spec, options.output, write, options.export_anyway, options.quick)) for spec in specs]
    progress = Progress(len(jobs))

    def clean(job: Job, pid: int) -> None:
        sweep(options.output / job.name, pid)

    limit, workers, early = options.time_limit, options.jobs, options.early
    with closing(run_jobs(jobs, TARGET, limit, workers, progress.started, clean, early)) as outcomes:
        done: list[Outcome] = []
        for outcome in outcomes:
            progress.clear()
            code = max(code, tell(outcome, options.output if write else None, options.debug))
            done += [outcome] if outcome.kind == "done" else []
    tell_sets(done)
    return code


def tell_sets(done: Iterable[Outcome]) -> None:
    """Print the parts of each file that holds several side by side: a narrow one chokes all that follow it."""
    sets: dict[str, list[tuple[PartBase, Report]]] = {}
    for outcome in done:
        spec = outcome.job.arguments[0]
        if spec.ends:
            sets.setdefault(spec.source_file, []).append((spec, outcome.value.report))
    for file, parts in sets.items():
        if len(parts) > 1:
            print(f"\n{file}: passages\n{set_table(parts)}")


def load(files: list[Path]) -> tuple[list[PartBase], int]:
    """All parts of all files; what is wrong with a file is told at once, and the others go on."""
    specs: list[PartBase] = []
    code = GOOD
    for file in files:
        try:
            specs += load_file(file)
        except SpecError as error:
            print(error, file=sys.stderr)
            code = BAD_INPUT
    return specs, code


def refuse_folder(folder: Path) -> None:
    """Make the output folder, or say at once why that cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = "it is a file" if folder.is_file() else error.strerror
        raise FitwrightError(f"cannot write into {folder}: {what}. Name another folder with -o") from error


def tell(outcome: Outcome, output: Path | None, debug: bool) -> int:
    """Print how one part ended; returns its exit code."""
    if outcome.kind == "done":
        return _tell_result(outcome, output)
    name = outcome.job.name
    words = f"{name}: {outcome.message}"
    if isinstance(outcome.value, RefusalError):
        words = refusal_text(outcome.value, outcome.job.arguments[0])
    elif outcome.kind == "internal":
        words = f"{name}: internal error: {outcome.message}. Run again with --debug for details"
    elif outcome.kind == "late":
        words += "; nothing was written. Allow more with --time-limit, or make the part simpler"
    elif outcome.kind == "died":
        words += "; nothing was written. Most often the geometry kernel: change a size a little and try again"
    if output is not None and outcome.kind != "unstarted":
        words += _no_longer_current(output / name)
    print(words, file=sys.stderr)
    if debug and outcome.trace:
        print(outcome.trace, file=sys.stderr)
    return BAD_INPUT if outcome.kind == "refused" else BLOCKED


def _tell_result(outcome: Outcome, output: Path | None) -> int:
    report = outcome.value.report
    print(terminal_text(report))
    if output is not None:
        print(f"  wrote {len(report.files)} files into {output / report.part}")
    return BLOCKED if report.blocked and not report.forced else GOOD


def _no_longer_current(folder: Path) -> str:
    """Files of an earlier run must not look like this part's; they are renamed and the user is told."""
    renamed = set_aside_all(folder, listed_files(folder / "report.json"))
    return f". Files of an earlier run were renamed: {', '.join(renamed)}" if renamed else ""


class Progress:
    """One line on standard error that says which part is being worked on; nothing where nobody watches."""

    def __init__(self, total: int) -> None:
        self.total, self.count = total, 0
        self.watched = sys.stderr.isatty()

    def started(self, job: Job) -> None:
        """A worker took `job`."""
        self.count += 1
        if self.watched:
            wide = shutil.get_terminal_size().columns - 1
            print(
                f"\r\x1b[K{f'[{self.count}/{self.total}] {job.name} ...'[:wide]}", end="", file=sys.stderr, flush=True
            )

    def clear(self) -> None:
        """Empty the line before something else is printed."""
        if self.watched:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
