"""Grammar of hose runs, one model a kind."""

from __future__ import annotations

from fitwright.spec.grammar.runs.base import RunKeys
from fitwright.spec.grammar.runs.moving import MovingHeadKeys
from fitwright.spec.grammar.runs.row import RowKeys

RUNS: dict[str, type[RunKeys]] = {"row": RowKeys, "moving_head": MovingHeadKeys}
"""Word under `hose_run:` -> its keys."""
