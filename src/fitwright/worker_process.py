"""`python -m fitwright.worker_process module:function`: a worker's own side; it answers jobs until its pipe closes."""

from __future__ import annotations

import faulthandler
import os
import pickle
import signal
import sys
import traceback
from collections.abc import Callable
from importlib import import_module
from typing import IO, Any, Literal

from fitwright.errors import FitwrightError, RefusalError, SpecError
from fitwright.later import import_later

Kind = Literal["done", "refused", "failed", "internal", "late", "died", "unstarted"]
Answer = tuple[Kind, Any, str, str]
"""How it went, the function's answer (or the refusal), a message, a traceback."""

_ORPHAN_GRACE_S = 60
_BARE_MACHINE = "On a bare Debian or Ubuntu its system libraries come with: apt install libgl1 libxrender1"


def main(target: str) -> None:
    """The worker's own side: answer jobs until the parent closes the pipe."""
    faulthandler.enable()
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # the kernel prints to standard output, which would spoil the pickles
    module, _, name = target.partition(":")
    import_later("vtk")
    try:
        function = getattr(import_module(module), name)
    except ImportError as error:
        _send(answers, ("unstarted", None, f"the CAD kernel cannot be loaded: {error}. {_BARE_MACHINE}", ""))
        return
    _send(answers, ("done", None, "", ""))
    while True:
        try:
            arguments, time_limit_s = pickle.load(sys.stdin.buffer)
        except EOFError:
            return
        if hasattr(signal, "alarm"):  # should the parent vanish, a hanging kernel must not live on for ever
            signal.alarm(int(time_limit_s) + _ORPHAN_GRACE_S)
        answer = call(function, arguments)
        if hasattr(signal, "alarm"):
            signal.alarm(0)
        _send(answers, answer)


def call(function: Callable[..., Any], arguments: tuple[Any, ...]) -> Answer:
    """Run the job; whatever it raises becomes words."""
    try:
        return "done", function(*arguments), "", ""
    except (SpecError, RefusalError) as error:
        return "refused", error, str(error), traceback.format_exc()
    except FitwrightError as error:
        return "failed", None, str(error), traceback.format_exc()
    except MemoryError:
        return "internal", None, "the memory is full", traceback.format_exc()
    except Exception as error:  # the one boundary where anything must become a message
        return "internal", None, f"{type(error).__name__}: {error}", traceback.format_exc()


def _send(pipe: IO[bytes], answer: Answer) -> None:
    pickle.dump(answer, pipe)
    pipe.flush()


if __name__ == "__main__":
    main(sys.argv[1])
