"""The finite elements of a part, in a child that works while the other checks do."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from fitwright.physics.elastic.task import Answer, Task

PROGRAM = "fitwright.physics.elastic.process"
TIME_LIMIT_S = 240.0
"""For all bodies of a part; what is not there by then is not analysed. The part itself is allowed 300 s."""


@dataclass
class Running:
    """A child at work; `answers` waits for it."""

    tasks: Sequence[Task]
    process: subprocess.Popen[bytes] | None
    file: Path

    def answers(self, time_limit_s: float = TIME_LIMIT_S) -> dict[str, Answer]:
        """An answer a body, in whatever way the child ended."""
        why = self._waited(time_limit_s)
        done: list[Answer] = pickle.loads(self.file.read_bytes()) if self.file.is_file() else []
        made = {one.body: one for one in done}
        return {task.body: made.get(task.body, Answer(task.body, why=why)) for task in self.tasks}

    def _waited(self, time_limit_s: float) -> str:
        if self.process is None:
            return "the process that does it could not be started"
        try:
            _, said = self.process.communicate(timeout=time_limit_s)
        except subprocess.TimeoutExpired:
            self.end()
            return f"not finished after {time_limit_s:g} s"
        last = said.decode(errors="replace").strip().rpartition("\n")[2]
        return f"its process ended with code {self.process.returncode}. {last}".strip()

    def end(self) -> None:
        """Stop, whether anybody still wants the answers or not."""
        if self.process is not None and self.process.poll() is None:
            self.process.kill()
            self.process.communicate()


@contextmanager
def running(tasks: Sequence[Task]) -> Iterator[Running]:
    """Start the child; on leaving it is ended if nobody waited for it."""
    with tempfile.TemporaryDirectory(prefix="fitwright_") as folder:
        job, file = Path(folder) / "job", Path(folder) / "answers"
        job.write_bytes(pickle.dumps(list(tasks)))
        at_work = Running(tasks, _started(job, file) if tasks else None, file)
        try:
            yield at_work
        finally:
            at_work.end()


def _started(job: Path, file: Path) -> subprocess.Popen[bytes] | None:
    command = [sys.executable, "-m", PROGRAM, str(job), str(file)]
    try:
        return subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=_surroundings()
        )
    except OSError:  # no memory or no more processes: that costs the analysis only
        return None


def _surroundings() -> dict[str, str]:
    """One thread for the linear algebra's own library: the solver brings its threads along."""
    return {**os.environ, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
