"""The command `fitwright`: arguments, one call each, and the exit code; nothing heavy is imported before its time."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

from fitwright import __version__
from fitwright.cli.exit_codes import BAD_INPUT, BLOCKED, GOOD, INTERRUPTED
from fitwright.errors import BuildError, ExportError, FitwrightError
from fitwright.report.worksheets import WORKSHEETS
from fitwright.worker import launched

_MODULES = {"check": "build"}
"""Command -> module of this package whose `run(arguments)` does it, where it is not called as the command is."""
PART_JOB = "fitwright.part_job:build_part"
"""What a worker does with a part; named here because the worker is started before anything else is imported."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns 0 all well, 1 a check blocks or a part could not be made, 2 bad input."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a label may hold letters that the terminal cannot show
            stream.reconfigure(errors="replace")
    options = parser().parse_args(arguments)
    try:
        code = _run(options)
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        _say("stopped; files of parts that were not finished are as they were")
        return INTERRUPTED
    except BrokenPipeError:  # the reader (`| head`) has left: keep Python from complaining about it once more
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return GOOD
    except FitwrightError as error:
        _say(str(error))
        return BLOCKED if isinstance(error, BuildError | ExportError) else BAD_INPUT
    except Exception as error:
        if options.debug:
            raise
        _say(f"internal error: {type(error).__name__}: {error}. Run again with --debug for details")
        return BLOCKED


def _run(options: argparse.Namespace) -> int:
    module = f"fitwright.cli.{_MODULES.get(options.command, options.command)}"
    if options.command in ("build", "check", "gauge", "plate"):
        with launched(PART_JOB) as options.early:  # the kernel takes 2 s to load: meanwhile the YAML is read
            code: int = import_module(module).run(options)
    else:
        code = import_module(module).run(options)
    return code


def parser() -> argparse.ArgumentParser:
    """All commands with their help."""
    top = argparse.ArgumentParser(
        prog="fitwright",
        description="Turn caliper readings, written down in YAML, into parts that are proved to fit.",
        epilog="Exit code: 0 all well, 1 a check blocks a part, 2 bad input.",
    )
    top.add_argument("--version", action="version", version=f"fitwright {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    build = _command(commands, "build", "check parts and write STL, STEP, a try-print, a picture and a report for each")
    _add_paths(build)
    build.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help="default: outputs")
    build.add_argument(
        "--export-anyway", action="store_true", help="write parts that a check blocks; the report says so"
    )
    _add_paths(check := _command(commands, "check", "check parts and write nothing"))
    check.set_defaults(output=Path("outputs"), export_anyway=False)
    new = _command(commands, "new", "print a commented YAML of a family to start from")
    families = "reducer, offset_adapter, fit_gauge, gate_bracket, hose_hanger or flange_plate"
    new.add_argument("family", metavar="FAMILY", help=families)
    new.add_argument("-o", "--output", type=Path, metavar="FILE", help="write it there; an existing file is kept")
    sizes = _command(commands, "sizes", "list pipe, hose, duct and air cylinder sizes, and filaments")
    sizes.add_argument(
        "words",
        nargs="*",
        metavar="WORD",
        help='for example "4 in", 110, sewer, hose, cylinder, "ISO 6432 16", filament; all pipes where left out',
    )
    sizes.add_argument("--units", choices=("mm", "in"), default="mm", help="show lengths in mm or inches (default: mm)")
    _add_gauge(_command(commands, "gauge", "make rings or plugs that tell the allowance for the ends of a part"))
    _add_plate(_command(commands, "plate", "make a plate, a gasket or both for the flange of a part"))
    _add_measure(_command(commands, "measure", "work out a size, pattern, thread or printer from readings"))
    _add_hose(_command(commands, "hose", "work out a hose run: sag, length to cut, pulls and bends, with a picture"))
    _add_template(
        _command(commands, "template", "draw the mouths of parts 1:1 on paper, to hold against the real thing")
    )
    _add_log(_command(commands, "log", "log how a print came out and fitted, so that the next is made accordingly"))
    _add_worksheet(_command(commands, "worksheet", "write a sheet to print and fill in at the bench, as PDF"))
    return top


_Commands = argparse._SubParsersAction


def _command(commands: _Commands[argparse.ArgumentParser], name: str, does: str) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=does, description=does[0].upper() + does[1:] + ".")
    command.add_argument("--debug", action="store_true", help="on an internal error show where it happened")
    return command


def _add_paths(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "paths",
        nargs="+",
        type=Path,
        metavar="PATH",
        help="YAML file, or folder: every *.yaml below it but in folders named must_fail",
    )
    _add_work(command)


def _add_work(command: argparse.ArgumentParser) -> None:
    command.add_argument("-j", "--jobs", type=_count, default=2, metavar="N", help="parts at a time (default: 2)")
    command.add_argument("--quick", action="store_true", help="leave out the strength check; the report says so")
    command.add_argument(
        "--time-limit", type=_seconds, default=300.0, metavar="SECONDS", help="for one part (default: 300)"
    )


def _add_gauge(gauge: argparse.ArgumentParser) -> None:
    gauge.add_argument("path", type=Path, metavar="PART.yaml", help="a YAML file of parts with ends")
    gauge.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help="default: outputs")
    gauge.add_argument("--end", metavar="END", help="end_a or end_b; both where left out")
    gauge.add_argument("--steps", default="7", metavar="N", help="how many rings or plugs, 5 to 9 (default: 7)")
    gauge.add_argument("--step", metavar="LENGTH", help="from one to the next on the diameter (default: worked out)")
    gauge.set_defaults(export_anyway=False)
    _add_work(gauge)


def _add_plate(plate: argparse.ArgumentParser) -> None:
    plate.add_argument("path", type=Path, metavar="PART.yaml", help="a YAML file of parts with a flange")
    plate.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help="default: outputs")
    plate.add_argument("--end", metavar="END", help="end_a or end_b; the one with a flange where left out")
    plate.add_argument(
        "--sheet", nargs=2, metavar=("MATERIAL", "THICKNESS"), help="cut from sheet: steel 1.5; printed where left out"
    )
    plate.add_argument("--thickness", metavar="LENGTH", help="of a printed plate (default: 6 mm)")
    gasket = 'with a gasket; its sheet may be named: --gasket, --gasket cork, --gasket "foam rubber" 5'
    plate.add_argument("--gasket", nargs="*", metavar="WORD", help=gasket)
    plate.add_argument("--gasket-only", action="store_true", help="the gasket and no plate")
    plate.set_defaults(export_anyway=False)
    _add_work(plate)


def _add_measure(measure: argparse.ArgumentParser) -> None:
    measure.add_argument(
        "words",
        nargs="+",
        metavar="WORD",
        help="a YAML file that says `measure: KIND`; or the kind, then readings or key=value words",
    )
    measure.add_argument(
        "-o",
        "--output",
        type=Path,
        metavar="FILE",
        help="write the lines for a part's YAML there; an existing file is kept",
    )


def _add_hose(hose: argparse.ArgumentParser) -> None:
    hose.add_argument("paths", nargs="+", type=Path, metavar="FILE.yaml", help="a YAML file that says `hose_run: KIND`")
    hose.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help="default: outputs")


def _paper(name: str) -> str:
    """The paper as it is called here, capitals or not."""
    return {"a4": "A4", "letter": "Letter"}.get(name.casefold(), name)


def _add_template(template: argparse.ArgumentParser) -> None:
    _add_paths(template)
    template.add_argument(
        "--paper",
        type=_paper,
        choices=("A4", "Letter"),
        metavar="PAPER",
        help="A4 or Letter; default: A4, Letter for a file in inches. What is larger is tiled",
    )
    template.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help="default: outputs")


def _add_log(log: argparse.ArgumentParser) -> None:
    words = {
        "--end": ("END", "which end was tried: end_a or end_b"),
        "--went": ("loose|right|tight|split", "how it went on the real part"),
        "--name": ("NAME", "which part, of a file that holds several"),
        "--date": ("DATE", "the day it was printed, year-month-day (default: today)"),
        "--note": ("TEXT", "a remark, one line"),
    }
    log.add_argument("path", type=Path, metavar="PART", help="the part's YAML file; with --show also its folder")
    log.add_argument("--read", nargs="+", metavar="SIZE", help="caliper readings of the printed face, three or more")
    for option, (metavar, says) in words.items():
        log.add_argument(option, metavar=metavar, help=says)
    log.add_argument("--show", action="store_true", help="print what is logged and what was learned; log nothing")
    built = "the folder it was built into (default: outputs)"
    log.add_argument("-o", "--output", type=Path, default=Path("outputs"), metavar="DIR", help=built)


def _add_worksheet(worksheet: argparse.ArgumentParser) -> None:
    listed = "; ".join(f"{name}: {holds}" for name, holds in WORKSHEETS.items())
    worksheet.add_argument("name", metavar="FAMILY", help=listed)
    papers = ("A4", "Letter")
    worksheet.add_argument("--paper", type=_paper, choices=papers, default="A4", help="size of the paper (default: A4)")
    worksheet.add_argument(
        "-o",
        "--output",
        type=Path,
        metavar="FILE",
        help="default: FAMILY_worksheet.pdf in the current folder; an existing file is kept",
    )


def _count(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 64:
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number from 1 to 64")
    return int(text)


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not 1 <= seconds <= 86400:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number of seconds from 1 to 86400")
    return seconds


def _say(words: str) -> None:
    print(f"fitwright: {words}", file=sys.stderr)
