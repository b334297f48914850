"""Jobs in processes of their own, so that a kernel that hangs or dies costs one job and a message, never the run.

A worker is started fresh (never forked: the kernel's threads do not survive that), imports the kernel once, and then
takes one job after another. Both ends talk in pickles over the worker's standard input and output.
"""

from __future__ import annotations

import os
import pickle
import queue
import signal
import subprocess
import sys
import tempfile
import threading
import traceback
from collections import deque
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from typing import IO, Any, Literal

from fitwright.errors import FitwrightError, RefusalError, SpecError

START_LIMIT_S = 180.0
"""The kernel takes 2 s to import; on a cold, busy machine a minute."""
_ORPHAN_GRACE_S = 60
_BARE_MACHINE = "On a bare Debian or Ubuntu its system libraries come with: apt install libgl1 libxrender1"
Kind = Literal["done", "refused", "failed", "internal", "late", "died", "unstarted"]


@dataclass(frozen=True)
class Job:
    """One call of the worker's function, and a name for messages."""

    name: str
    arguments: tuple[Any, ...]


@dataclass(frozen=True)
class Outcome:
    """How a job ended.

    `value` is the function's answer where kind is "done". Otherwise `message` says what happened: "refused" and
    "failed" in the words of our own exceptions, "late" and "died" for the process; `trace` is for --debug.
    """

    job: Job
    kind: Kind
    value: Any = None
    message: str = ""
    trace: str = ""


def run(
    jobs: Sequence[Job],
    target: str,
    time_limit_s: float,
    workers: int = 1,
    started: Callable[[Job], None] = lambda job: None,
    lost: Callable[[Job, int], None] = lambda job, pid: None,
) -> Generator[Outcome]:
    """Yield the outcome of every job, in the order of `jobs`.

    Parameters
    ----------
    target
        The function as `package.module:name`; only the worker imports it.
    time_limit_s
        For each job, not counting the worker's start.
    workers
        How many processes at most.
    started
        Called, from another thread, when a job is handed to a worker.
    lost
        Called with a job and the number of the process that was ended or died in the middle of it, to clean up.
    """
    waiting = deque(enumerate(jobs))
    finished: queue.SimpleQueue[tuple[int, Outcome]] = queue.SimpleQueue()
    crew = [_Worker(target, time_limit_s, lost) for _ in range(min(workers, len(jobs)))]
    for worker in crew:
        threading.Thread(target=_serve, args=(worker, waiting, finished, started), daemon=True).start()
    early: dict[int, Outcome] = {}
    try:
        for number in range(len(jobs)):
            while number not in early:
                done, outcome = finished.get()
                early[done] = outcome
            yield early.pop(number)
    finally:
        waiting.clear()
        for worker in crew:
            worker.end()


def _serve(
    worker: _Worker,
    waiting: deque[tuple[int, Job]],
    finished: queue.SimpleQueue[tuple[int, Outcome]],
    started: Callable[[Job], None],
) -> None:
    while True:
        try:
            number, job = waiting.popleft()
        except IndexError:
            return
        started(job)
        finished.put((number, worker.do(job)))


@dataclass
class _Worker:
    """One process at a time, started when first needed and again after it was lost."""

    target: str
    time_limit_s: float
    lost: Callable[[Job, int], None]
    job: Job | None = None
    process: subprocess.Popen[bytes] | None = None
    words: IO[bytes] = field(default_factory=tempfile.TemporaryFile)
    ended: bool = False

    def do(self, job: Job) -> Outcome:
        """Hand one job over and wait for its end."""
        self.job = job
        try:
            process = self.process or self._start()
            pickle.dump((job.arguments, self.time_limit_s), _pipe(process.stdin))
            _pipe(process.stdin).flush()
            kind, value, message, trace = self._answer(process, self.time_limit_s)
            return Outcome(job, kind, value, message, trace)
        except _UnstartedError as error:
            return Outcome(job, "unstarted", message=str(error))
        except _LostError as error:
            return self._lost(job, error.late)
        except OSError:  # the pipe broke: the process died before it took the job
            return self._lost(job, late=False)
        finally:
            self.job = None

    def end(self) -> None:
        """Stop for good, in the middle of a job if need be."""
        self.ended = True
        process, job = self.process, self.job
        if process:
            _kill(process)
            process.wait()
            if job:
                self.lost(job, process.pid)

    def _start(self) -> subprocess.Popen[bytes]:
        self.words.seek(0)
        self.words.truncate()
        self.process = process = subprocess.Popen(
            [sys.executable, "-m", "fitwright.worker", self.target],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=self.words,
            start_new_session=True,  # Ctrl-C in the terminal is for the parent to handle
        )
        if self.ended:
            _kill(process)
        kind, _, message, _ = self._answer(process, START_LIMIT_S)
        if kind != "done":
            self.process = None
            raise _UnstartedError(message)
        return process

    def _answer(self, process: subprocess.Popen[bytes], limit_s: float) -> tuple[Kind, Any, str, str]:
        late = threading.Event()

        def stop() -> None:
            late.set()
            _kill(process)

        timer = threading.Timer(limit_s, stop)
        timer.start()
        try:
            answer: tuple[Kind, Any, str, str] = pickle.load(_pipe(process.stdout))
        except (EOFError, pickle.UnpicklingError) as error:
            raise _LostError(late.is_set()) from error
        finally:
            timer.cancel()
        return answer

    def _lost(self, job: Job, late: bool) -> Outcome:
        process, self.process = self.process, None
        if process is None:
            return Outcome(job, "unstarted", message="no worker process could be started")
        _kill(process)
        code = process.wait()
        self.lost(job, process.pid)
        self.words.seek(0)
        trace = self.words.read().decode(errors="replace")
        if late:
            return Outcome(job, "late", message=f"not finished after {self.time_limit_s:g} s", trace=trace)
        return Outcome(job, "died", message=f"the process died ({_reason(code)})", trace=trace)


class _LostError(Exception):
    def __init__(self, late: bool) -> None:
        super().__init__()
        self.late = late


class _UnstartedError(Exception):
    pass


def _pipe(pipe: IO[bytes] | None) -> IO[bytes]:
    assert pipe is not None  # opened as a pipe above
    return pipe


def _kill(process: subprocess.Popen[bytes]) -> None:
    """End the process and whatever it started."""
    if process.poll() is not None:
        return
    if hasattr(os, "killpg"):
        os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()


def _reason(code: int) -> str:
    if code < 0:
        try:
            return signal.Signals(-code).name
        except ValueError:
            return f"signal {-code}"
    return f"exit code {code}"


def _child(target: str) -> None:
    """The worker's own side: answer jobs until the parent closes the pipe."""
    import faulthandler

    faulthandler.enable()
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # the kernel prints to standard output, which would spoil the pickles
    module, _, name = target.partition(":")
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
        _send(answers, _call(function, arguments))


def _call(function: Callable[..., Any], arguments: tuple[Any, ...]) -> tuple[Kind, Any, str, str]:
    try:
        return "done", function(*arguments), "", ""
    except (SpecError, RefusalError) as error:
        return "refused", None, str(error), traceback.format_exc()
    except FitwrightError as error:
        return "failed", None, str(error), traceback.format_exc()
    except MemoryError:
        return "internal", None, "the memory is full", traceback.format_exc()
    except Exception as error:  # the one boundary where anything must become a message
        return "internal", None, f"{type(error).__name__}: {error}", traceback.format_exc()


def _send(pipe: IO[bytes], answer: tuple[Kind, Any, str, str]) -> None:
    pickle.dump(answer, pipe)
    pipe.flush()


if __name__ == "__main__":
    _child(sys.argv[1])
