"""Functions that a worker process runs in the tests of worker.py; imported there by their dotted name."""

from __future__ import annotations

import os
import signal
import sys
import time
from typing import Any

from fitwright.errors import BuildError, RefusalError
from fitwright.report.model import Report, Result


def act(what: str) -> str:
    """Do what the job's only argument says."""
    if what == "hang":
        while True:
            time.sleep(60)
    if what == "segfault":
        os.kill(os.getpid(), signal.SIGSEGV)
    if what == "exit":
        os._exit(7)
    if what == "refuse":
        raise RefusalError("wall", "0.1 mm", "0.8 mm or more", "thinner than a line")
    if what == "build error":
        raise BuildError("two solids")
    if what == "bug":
        raise ZeroDivisionError("oops")
    if what == "chatter":
        print("the kernel says hello")
        os.write(1, b"and so does its C++ part\n")
        sys.stdout.flush()
    return f"{what} by {os.getpid()}"


def act_as_named(spec: Any, *_: Any) -> Result:
    """Stand-in for build_part: a part called `hang` hangs, and so on; any other is good."""
    act(spec.name)
    report = Report(spec.name, spec.part, "mm", "printer", "PETG", (), (), {}, {}, (), exported=True)
    return Result(report, (), ())
