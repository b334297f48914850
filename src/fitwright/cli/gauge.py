"""`gauge`: rings and plugs for the ends of a part, built, checked and written as any part is."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from fitwright.cli.build import build_all, load, refuse_folder
from fitwright.cli.exit_codes import BAD_INPUT
from fitwright.cli.paths import refuse_equal_names, yaml_files
from fitwright.errors import FitwrightError, RefusalError
from fitwright.spec.faults import FaultError, nearest
from fitwright.spec.gauge_of_end import gauge_of_end
from fitwright.spec.grammar.gauge import STEP, STEPS
from fitwright.spec.grammar.values import Context
from fitwright.units import Units

if TYPE_CHECKING:
    from fitwright.spec.models import FitGaugeSpec, PartBase


def run(options: argparse.Namespace) -> int:
    """Make a gauge for each end that has a fit; the exit code is the worst of all."""
    specs, code = load(yaml_files([options.path]))
    gauges = [gauge for spec in specs for gauge in _of_part(spec, options)]
    if not gauges:
        return max(code, BAD_INPUT)
    refuse_equal_names(gauges)
    refuse_folder(options.output)
    return max(code, build_all(gauges, options, write=True))


def _of_part(spec: PartBase, options: argparse.Namespace) -> list[FitGaugeSpec]:
    """The gauges of one part; an end without one is told, with the reason."""
    if not spec.ends:
        print(f"{spec.name}: a {spec.part} has no ends to make a gauge for; build it as it is", file=sys.stderr)
        return []
    if options.end is not None and options.end not in spec.ends:
        hint = nearest(options.end, list(spec.ends))
        raise FitwrightError(f"--end: found {options.end!r}; allowed: {', '.join(spec.ends)}. {hint}".strip())
    steps = _count(options.steps)
    step = _length(options.step, spec.units)
    found = []
    for key in spec.ends if options.end is None else [options.end]:
        try:
            found.append(gauge_of_end(spec, key, steps, step))
        except RefusalError as error:
            print(f"{spec.name}, {error.key}: {error.found}; {error.why}")
    return found


def _count(text: str) -> int:
    try:
        return int(STEPS.read(text, Context()) or 0)
    except FaultError as error:
        raise _refused("--steps", error) from None


def _length(text: str | None, units: Units) -> float | None:
    if text is None:
        return None
    try:
        return STEP.read(text, Context(units))
    except FaultError as error:
        raise _refused("--step", error) from None


def _refused(option: str, error: FaultError) -> FitwrightError:
    fault = error.faults[0]
    return FitwrightError(f"{option}: found {fault.found}; allowed: {fault.allowed}. {fault.hint}".strip())
