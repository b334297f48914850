"""`python -m fitwright.physics.elastic.process JOB ANSWERS`: the tasks of a part, one after another, in a child.

A child, because a mesher or solver that hangs or dies then costs the analysis and never the part; and because it needs
neither the CAD kernel nor the checks' libraries. Each answer is written as soon as it is there.
"""

from __future__ import annotations

import faulthandler
import os
import pickle
import sys
from pathlib import Path

from fitwright.physics.elastic.task import Answer, Task
from fitwright.physics.elasticity import analyse

BARE_MACHINE = "the finite-element library cannot be loaded: {}. On a bare Debian or Ubuntu: apt install libquadmath0"


def main(job: Path, answers: Path) -> None:
    """Answer every task of `job`; the file of answers is whole after each."""
    faulthandler.enable()
    os.dup2(2, 1)  # the mesher prints to standard output
    tasks: list[Task] = pickle.loads(job.read_bytes())
    done: list[Answer] = []
    for task in tasks:
        done.append(_answer(task))
        beside = answers.with_suffix(".part")
        beside.write_bytes(pickle.dumps(done))
        beside.replace(answers)


def _answer(task: Task) -> Answer:
    try:
        return analyse(task)
    except ImportError as error:
        return Answer(task.body, why=BARE_MACHINE.format(error))


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
