"""Workers: one job that hangs or kills its process costs that job only."""

from __future__ import annotations

import os
import time
from contextlib import closing
from pathlib import Path

import pytest

from fitwright.worker import Job, Outcome, launched, run

TARGET = "worker_jobs:act"


@pytest.fixture(autouse=True)
def _jobs_can_be_imported(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))


def outcomes(*words: str, time_limit_s: float = 30.0, workers: int = 1) -> list[Outcome]:
    return list(run([Job(word, (word,)) for word in words], TARGET, time_limit_s, workers))


def test_one_process_does_all_jobs_in_order() -> None:
    one, two, three = outcomes("one", "two", "three")
    assert [o.kind for o in (one, two, three)] == ["done"] * 3
    assert [o.value.split()[0] for o in (one, two, three)] == ["one", "two", "three"]
    assert len({o.value.split()[-1] for o in (one, two, three)}) == 1


@pytest.mark.parametrize("workers", [1, 2])
def test_a_killed_process_costs_one_job(workers: int) -> None:
    before, dead, after = outcomes("before", "segfault", "after", workers=workers)
    assert (before.kind, dead.kind, after.kind) == ("done", "died", "done")
    assert "SIGSEGV" in dead.message
    assert "Segmentation fault" in dead.trace


def test_a_hanging_job_is_ended_at_its_time_limit() -> None:
    start = time.monotonic()
    hung, after = outcomes("hang", "after", time_limit_s=1.0)
    assert (hung.kind, after.kind) == ("late", "done")
    assert hung.message == "not finished after 1 s"
    assert time.monotonic() - start < 20


def test_our_own_errors_come_back_in_their_own_words() -> None:
    refused, failed, bug, gone, last = outcomes("refuse", "build error", "bug", "exit", "last")
    assert (refused.kind, failed.kind, bug.kind, gone.kind, last.kind) == (
        "refused",
        "failed",
        "internal",
        "died",
        "done",
    )
    assert "thinner than a line" in refused.message
    assert failed.message == "two solids"
    assert bug.message == "ZeroDivisionError: oops"
    assert "worker_jobs.py" in bug.trace
    assert "exit code 7" in gone.message


def test_what_the_kernel_prints_does_not_disturb() -> None:
    [chatter] = outcomes("chatter")
    assert chatter.kind == "done"


def test_a_kernel_that_cannot_be_loaded_is_said_with_its_cure() -> None:
    [outcome] = run([Job("x", ())], "no_such_module:act", 30.0)
    assert outcome.kind == "unstarted"
    assert "no_such_module" in outcome.message and "libgl1" in outcome.message


def test_stopping_early_ends_the_processes_and_cleans_up() -> None:
    cleaned: list[tuple[str, int]] = []
    jobs = [Job("quick", ("quick",)), Job("hang", ("hang",)), Job("never", ("never",))]
    with closing(run(jobs, TARGET, 60.0, lost=lambda job, pid: cleaned.append((job.name, pid)))) as running:
        pid = int(next(running).value.split()[-1])
        time.sleep(0.5)
    assert ("hang", pid) in cleaned
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)


def test_a_worker_under_way_is_taken_over() -> None:
    """Started before its job was known; the same process then does it."""
    with launched(TARGET) as early:
        [outcome] = run([Job("first", ("first",))], TARGET, 30.0, early=early)
        assert early.taken
    assert outcome.value == f"first by {early.process.pid}"
    assert early.process.poll() is not None


@pytest.mark.parametrize("jobs", [[], [Job("other", ("fine",))]])
def test_a_worker_that_nobody_takes_is_ended(jobs: list[Job]) -> None:
    with launched("worker_jobs:act_as_named") as early:
        assert all(outcome.kind == "done" for outcome in run(jobs, TARGET, 30.0, early=early))
        assert not early.taken
    assert early.process.returncode is not None
