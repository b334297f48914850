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
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import IO, Any

from fitwright.worker_process import Answer, Kind

START_LIMIT_S = 180.0
"""The kernel takes 2 s to import; on a cold, busy machine a minute."""


@dataclass(frozen=True)
class Job:
    """One call of the worker's function, and a name for messages."""

    name: str
    arguments: tuple[Any, ...]


@dataclass(frozen=True)
class Outcome:
    """How a job ended.

    `value` is the function's answer where kind is "done", and the exception where it is "refused". Otherwise `message`
    says what happened: "refused" and "failed" in the words of our own exceptions, "late" and "died" for the process;
    `trace` is for --debug.
    """

    job: Job
    kind: Kind
    value: Any = None
    message: str = ""
    trace: str = ""


@dataclass
class Launched:
    """A worker process that is still importing; whoever takes it over also ends it."""

    target: str
    process: subprocess.Popen[bytes]
    words: IO[bytes]
    taken: bool = False


@contextmanager
def launched(target: str) -> Iterator[Launched]:
    """Start a worker before there is a job for it, and end it on leaving if nobody took it."""
    early = _launch(target)
    try:
        yield early
    finally:
        if not early.taken:
            _end(early.process, early.words)


def run(
    jobs: Sequence[Job],
    target: str,
    time_limit_s: float,
    workers: int = 1,
    started: Callable[[Job], None] = lambda job: None,
    lost: Callable[[Job, int], None] = lambda job, pid: None,
    early: Launched | None = None,
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
    early
        A worker that is on its way already; taken if it is for the same target.
    """
    waiting = deque(enumerate(jobs))
    finished: queue.SimpleQueue[tuple[int, Outcome]] = queue.SimpleQueue()
    crew = [_Worker(target, time_limit_s, lost) for _ in range(min(workers, len(jobs)))]
    if early and crew and early.target == target:
        early.taken, crew[0].early = True, early
    threads = [threading.Thread(target=_serve, args=(worker, waiting, finished, started)) for worker in crew]
    answered: dict[int, Outcome] = {}
    try:
        for thread in threads:
            thread.start()
        for number in range(len(jobs)):
            while number not in answered:
                done, outcome = finished.get()
                answered[done] = outcome
            yield answered.pop(number)
    finally:
        waiting.clear()
        for worker in crew:
            worker.stop()
        for thread in threads:
            thread.join()


def _serve(
    worker: _Worker,
    waiting: deque[tuple[int, Job]],
    finished: queue.SimpleQueue[tuple[int, Outcome]],
    started: Callable[[Job], None],
) -> None:
    """One worker's thread: jobs until none are left."""
    try:
        while waiting:
            try:
                number, job = waiting.popleft()
            except IndexError:  # another thread took the last one
                return
            started(job)
            finished.put((number, worker.do(job)))
    finally:
        worker.close()


@dataclass
class _Worker:
    """One process at a time, started when needed and again after it was lost; for one thread's use, but for `stop`."""

    target: str
    time_limit_s: float
    lost: Callable[[Job, int], None]
    process: subprocess.Popen[bytes] | None = None
    words: IO[bytes] | None = None
    stopped: bool = False
    early: Launched | None = None

    def do(self, job: Job) -> Outcome:
        """Hand one job over and wait for its end."""
        try:
            process = self.process or self._start()
            pickle.dump((job.arguments, self.time_limit_s), _open(process.stdin))
            _open(process.stdin).flush()
            return Outcome(job, *self._answer(process, self.time_limit_s))
        except _UnstartedError as error:
            return Outcome(job, "unstarted", message=str(error))
        except _LostError as error:
            return self._lost(job, error.late)
        except OSError:  # the pipe broke: the process died before it took the job
            return self._lost(job, late=False)

    def stop(self) -> None:
        """End the process in the middle of its job; its thread then finds the pipe closed and cleans up."""
        self.stopped = True
        process = self.process or (self.early and self.early.process)
        if process:
            _kill(process)

    def close(self) -> None:
        """Give back what the process holds."""
        process, self.process = self.process, None
        early, self.early = self.early, None
        if process and self.words:
            _end(process, self.words)
        elif early:
            _end(early.process, early.words)

    def _start(self) -> subprocess.Popen[bytes]:
        fresh = self.early or _launch(self.target)
        self.process, self.words, self.early = fresh.process, fresh.words, None
        if self.stopped:  # just now, before there was a process to end
            _kill(fresh.process)
        kind, _, message, _ = self._answer(fresh.process, START_LIMIT_S)
        if kind != "done":
            self.close()
            raise _UnstartedError(message)
        return fresh.process

    def _answer(self, process: subprocess.Popen[bytes], limit_s: float) -> Answer:
        late = threading.Event()

        def give_up() -> None:
            late.set()
            _kill(process)

        timer = threading.Timer(limit_s, give_up)
        timer.start()
        try:
            answer: Answer = pickle.load(_open(process.stdout))
        except (EOFError, pickle.UnpicklingError) as error:
            raise _LostError(late.is_set()) from error
        finally:
            timer.cancel()
        return answer

    def _lost(self, job: Job, late: bool) -> Outcome:
        process, words = self.process, self.words
        if process is None or words is None:
            return Outcome(job, "unstarted", message="no worker process could be started")
        _kill(process)
        code = process.wait()
        words.seek(0)
        trace = words.read().decode(errors="replace")
        self.close()
        self.lost(job, process.pid)
        if late:
            return Outcome(job, "late", message=f"not finished after {self.time_limit_s:g} s", trace=trace)
        return Outcome(job, "died", message=f"its process died ({_reason(code)})", trace=trace)


class _LostError(Exception):
    def __init__(self, late: bool) -> None:
        super().__init__()
        self.late = late


class _UnstartedError(Exception):
    pass


def _launch(target: str) -> Launched:
    words = tempfile.TemporaryFile()
    process = subprocess.Popen(
        [sys.executable, "-m", "fitwright.worker_process", target],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=words,
        start_new_session=True,  # Ctrl-C in the terminal is for the parent to handle
    )
    return Launched(target, process, words)


def _end(process: subprocess.Popen[bytes], words: IO[bytes]) -> None:
    """End a worker and give back what it holds."""
    _kill(process)
    process.wait()
    for pipe in (process.stdin, process.stdout, words):
        with suppress(OSError):  # a broken pipe cannot be flushed any more
            _open(pipe).close()


def _open(pipe: IO[bytes] | None) -> IO[bytes]:
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
