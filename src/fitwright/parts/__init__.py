"""The families, all in one visible dict."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fitwright.part import Part
from fitwright.parts.fit_gauge import build_fit_gauge
from fitwright.parts.flange_plate import build_flange_plate
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.parts.offset_adapter import build_offset_adapter
from fitwright.parts.reducer import build_reducer

BUILDERS: dict[str, Callable[[Any], Part]] = {
    "reducer": build_reducer,
    "offset_adapter": build_offset_adapter,
    "fit_gauge": build_fit_gauge,
    "gate_bracket": build_gate_bracket,
    "hose_hanger": build_hose_hanger,
    "flange_plate": build_flange_plate,
}
