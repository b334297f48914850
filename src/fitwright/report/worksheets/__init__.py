"""Sheets to print and fill in at the bench: one module a sheet, with `worksheet() -> Worksheet`; all listed here."""

from __future__ import annotations

WORKSHEETS: dict[str, str] = {
    "reducer": "two ends in line: pipe, port, hose, flange, and what is in the way",
    "offset_adapter": "ends that are apart: bolts of the inlet, offset, length, and what is in the way",
    "fit_gauge": "a gauge: the size it is made round, and which step was right",
    "gate_bracket": "a slide gate and the air cylinder that is to move it",
    "hose_hanger": "a hose over its ribs or a pipe, and what its hanger is fixed to",
    "flange_plate": "a plate over an opening, printed or cut from sheet, and its gasket",
    "bolts": "a bolt pattern by the distances between numbered holes",
    "printer": "printed gauges: what holes and outsides really measure",
    "thread": "a thread by outside diameter and pitch, and an air cylinder",
}
"""Name -> what is measured with it; `fitwright.report.worksheets.NAME` holds what stands on it."""
