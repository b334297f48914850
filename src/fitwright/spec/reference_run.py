"""What docs/yaml.md shows of hose runs: the maps in their order, and a note before them."""

from __future__ import annotations

from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.runs import base, droop, moving, row

RUN_TITLE = "A hose run for `fitwright hose`"
RUN_SECTION: tuple[tuple[str, type[Grammar]], ...] = (
    ("`hose_run: row`", row.RowKeys),
    ("an entry of a row's `hangers`", row.RowHangerKeys),
    ("`from`, `to` of a row", base.PlacedKeys),
    ("`hose_run: moving_head`", moving.MovingHeadKeys),
    ("`port` of a run", moving.PortKeys),
    ("an entry of `hangers` on the way to a head", moving.RunHangerKeys),
    ("`head`", moving.MovingPortKeys),
    ("`droop`", droop.DroopKeys),
    ("`stay_within`", moving.WithinKeys),
    ("A place in the room", base.RoomPointKeys),
)
RUN_NOTE = (
    "A file whose top key is `hose_run` is no part: it says where the hangers, the port and the moving head of a hose "
    "are, and `fitwright hose` works out how it hangs, what to cut and what pulls. Places are counted from any point "
    "of yours, the same for the whole file: right, up, and away from you; always of the hose's axis. A hanger's file "
    "takes its load from there: `run: {file: ..., hanger: 2}`. See [hose runs](hose_runs.md)."
)
