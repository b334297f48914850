"""Hanger specs without YAML, for tests of builders and checks."""

from __future__ import annotations

from typing import Any

from fitwright.spec.grammar.own_printers import DEFAULT_PRINTER, table_printer
from fitwright.spec.grammar.profiles import DEFAULT_MATERIAL, read_material
from fitwright.spec.grammar.values import Context
from fitwright.spec.hanger import Carried, HangerMount, HoseHangerSpec
from fitwright.spec.size import from_readings

HOSE_100 = Carried(kind="hose", size=from_readings((108.4, 108.1, 108.6)), inside_mm=100.0)
PIPE_110 = Carried(kind="pipe", size=from_readings((110.2,)), key="pipe.over")


def hanger(carried: Carried = HOSE_100, mount: HangerMount | None = None, **changes: Any) -> HoseHangerSpec:
    """A hanger with the default printer and filament."""
    own: dict[str, Any] = {
        "name": "hanger",
        "source_file": "hanger.yaml",
        "wall_mm": 2.52,
        "printer": table_printer(DEFAULT_PRINTER),
        "material": read_material(DEFAULT_MATERIAL, Context()),
        "carried": carried,
        "mount": mount or HangerMount(),
    }
    return HoseHangerSpec.model_validate({**own, **changes})
