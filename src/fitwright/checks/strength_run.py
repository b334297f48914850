"""The finite elements of a part, in one child or two that work while the other checks do."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from fitwright.physics.elastic.task import Answer, Task

PROGRAM = "fitwright.physics.elastic.process"
TIME_LIMIT_S = 240.0
"""For all bodies of a part; what is not there by then is not analysed. The part itself is allowed 300 s."""


MOST_CHILDREN = 2
"""At work at once, where the part has so many bodies and the machine so many cores: each needs memory of its own."""


@dataclass
class Child:
    """At work on some of the bodies; `process` is None where it could not be started."""

    tasks: Sequence[Task]
    process: subprocess.Popen[bytes] | None
    file: Path

    def answers(self, time_limit_s: float) -> list[Answer]:
        """An answer a body, in whatever way the child ends."""
        why = self._waited(time_limit_s)
        done: list[Answer] = pickle.loads(self.file.read_bytes()) if self.file.is_file() else []
        made = {one.body: one for one in done}
        return [made.get(task.body, Answer(task.body, why=why)) for task in self.tasks]

    def _waited(self, time_limit_s: float) -> str:
        if self.process is None:
            return "the process that does it could not be started"
        try:
            _, said = self.process.communicate(timeout=time_limit_s)
        except subprocess.TimeoutExpired:
            self.end()
            return f"not finished after {TIME_LIMIT_S:g} s"
        last = said.decode(errors="replace").strip().rpartition("\n")[2]
        return f"its process ended with code {self.process.returncode}. {last}".strip()

    def end(self) -> None:
        """Stop, whether anybody still wants the answers or not."""
        if self.process is not None and self.process.poll() is None:
            self.process.kill()
            self.process.communicate()


@dataclass
class Running:
    """All children of a part; `answers` waits for them."""

    tasks: Sequence[Task]
    children: Sequence[Child]

    def answers(self, time_limit_s: float = TIME_LIMIT_S) -> dict[str, Answer]:
        """An answer a body, in the order of the tasks."""
        last = time.monotonic() + time_limit_s
        made = {one.body: one for child in self.children for one in child.answers(max(0.0, last - time.monotonic()))}
        return {task.body: made[task.body] for task in self.tasks}


@contextmanager
def running(tasks: Sequence[Task]) -> Iterator[Running]:
    """Start the children; on leaving they are ended if nobody waited for them."""
    with tempfile.TemporaryDirectory(prefix="fitwright_") as folder:
        children: list[Child] = []
        try:
            for number, own in enumerate(shared_out(tasks, min(MOST_CHILDREN, os.cpu_count() or 1))):
                job, file = Path(folder) / f"job_{number}", Path(folder) / f"answers_{number}"
                job.write_bytes(pickle.dumps(own))
                children.append(Child(own, _started(job, file), file))
            yield Running(tasks, children)
        finally:
            for child in children:
                child.end()


def shared_out(tasks: Sequence[Task], children: int) -> list[list[Task]]:
    """The tasks of each child: the longest first, each to who has least to do; the shape and its loads say how long."""
    shares: list[list[Task]] = [[] for _ in range(min(children, len(tasks)))]
    for task in sorted(tasks, key=_effort, reverse=True):
        min(shares, key=lambda own: sum(map(_effort, own))).append(task)
    return shares


def _effort(task: Task) -> float:
    return len(task.brep) * (10.0 + sum(max(1, len(case.directions)) for case in task.cases))


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
