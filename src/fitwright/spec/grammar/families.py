"""The families by the word that stands under `part:`."""

from __future__ import annotations

from fitwright.spec.grammar.gate_bracket import GateBracketKeys
from fitwright.spec.grammar.gauge import FitGaugeKeys
from fitwright.spec.grammar.hanger import HoseHangerKeys
from fitwright.spec.grammar.parts import OffsetAdapterKeys, PartKeys, ReducerKeys
from fitwright.spec.grammar.plate import FlangePlateKeys

FAMILIES: dict[str, type[PartKeys]] = {
    "reducer": ReducerKeys,
    "offset_adapter": OffsetAdapterKeys,
    "fit_gauge": FitGaugeKeys,
    "gate_bracket": GateBracketKeys,
    "hose_hanger": HoseHangerKeys,
    "flange_plate": FlangePlateKeys,
}
