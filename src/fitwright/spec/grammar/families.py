"""The families by the word that stands under `part:`."""

from __future__ import annotations

from fitwright.spec.grammar.gate_bracket import GateBracketKeys
from fitwright.spec.grammar.gauge import FitGaugeKeys
from fitwright.spec.grammar.hanger import HoseHangerKeys
from fitwright.spec.grammar.parts import OffsetAdapterKeys, PartKeys, ReducerKeys

FAMILIES: dict[str, type[PartKeys]] = {
    "reducer": ReducerKeys,
    "offset_adapter": OffsetAdapterKeys,
    "fit_gauge": FitGaugeKeys,
    "gate_bracket": GateBracketKeys,
    "hose_hanger": HoseHangerKeys,
}
