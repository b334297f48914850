"""A printed sleeve for a joint in which nothing turns: the wall that both fits leave, and the part's YAML."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import SpecError
from fitwright.physics.fits import Fit, allowance_mm
from fitwright.report.measured.face_line import lengths
from fitwright.spec.grammar.measured import LEAST_MM
from fitwright.spec.grammar.measuring.sleeve import SleeveKeys
from fitwright.spec.grammar.profiles import DEFAULT_PRINTER, read_printer
from fitwright.spec.grammar.values import Context
from fitwright.spec.load import load_text
from fitwright.spec.resolve import LARGE_MM, LEAST_LINES
from fitwright.units import Units, format_number

LIP_MM = 3.5
"""The sleeve is this much longer than its joints: the collar and the lip behind them (parts/nested)."""
_ON_SHAFT: dict[str, Fit] = {"sliding": "slide", "location": "snug", "press": "press"}


@dataclass(frozen=True)
class Printed:
    """Inside, outside and wall as they would be printed, the least wall [mm]; `yaml` is empty where it can't be."""

    inside_mm: float
    outside_mm: float
    least_mm: float
    smallest_mm: float = LEAST_MM
    yaml: str = ""

    @property
    def wall_mm(self) -> float:
        """What is left between the two."""
        return (self.outside_mm - self.inside_mm) / 2.0


def printed_sleeve(keys: SleeveKeys, units: Units) -> Printed:
    """What would be printed, with the usual printer's allowances; with its YAML where the wall can be printed."""
    printer = read_printer(DEFAULT_PRINTER, Context())
    shaft, bore = (sum(readings) / len(readings) for readings in (keys.shaft, keys.bore))

    def off(fit: Fit, d_mm: float) -> float:
        return allowance_mm(fit, d_mm, printer.scatter_rel, printer.scatter_abs_mm).value_mm

    sized = Printed(shaft + off(_ON_SHAFT[keys.fit], shaft), bore - off("snug", bore), LEAST_LINES * printer.line_mm)
    yaml = _yaml(keys, units)
    fits = sized.wall_mm >= sized.least_mm and _loads(yaml)
    return Printed(sized.inside_mm, sized.outside_mm, sized.least_mm, yaml=yaml if fits else "")


def _yaml(keys: SleeveKeys, units: Units) -> str:
    over = f"over: {lengths(keys.shaft, units)}, {_how(keys, _ON_SHAFT[keys.fit], True)}"
    into = f"into: {lengths(keys.bore, units)}, {_how(keys, 'snug', False)}"
    ends = f"end_a: {{label: shaft, socket: {{{over}}}}}\nend_b: {{label: bore, spigot: {{{into}}}}}\n"
    return f"part: reducer\nline: nested\n{ends}"


def _how(keys: SleeveKeys, fit: Fit, on_shaft: bool) -> str:
    d = max(keys.shaft if on_shaft else keys.bore)
    depth = f", depth: {format_number(keys.length - LIP_MM, 2)} mm" if keys.length else ""
    parallel = ", taper: 0" if d > LARGE_MM else ""
    return f"fit: {fit}, stop: 0{depth}{parallel}"


def _loads(yaml: str) -> bool:
    try:
        return bool(load_text(yaml, "sleeve"))
    except SpecError:
        return False
