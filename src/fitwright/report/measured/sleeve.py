"""`measure sleeve`: what fills the gap between a shaft and a bore; for what turns, why nothing is printed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.data.iso_286 import grade_um
from fitwright.measure.sleeve import Candidate, Read, candidates, read_of, shims, sure, twin_of, twins
from fitwright.report.measured.answer import Answer
from fitwright.report.measured.bush import Bush, bush_lines, hone_line, micrometres
from fitwright.report.measured.printed_sleeve import Printed, printed_sleeve
from fitwright.report.measured.wrapped import wrapped
from fitwright.spec.grammar.measuring.sleeve import SleeveKeys
from fitwright.spec.measure_file import Asked
from fitwright.units import Units, format_length, format_number

MADE_TO = 9
"""Bright bar and bought bores are made to h9 and H9 or finer (common practice, no source)."""
BUSH_WALL_MM = 1.0
"""A bush with a thinner wall cannot be held and turned by an ordinary shop (common practice, no source)."""
WHY_NOT = (
    "It turns, so no printed sleeve is made: plastic creeps under the grip until it is loose, does not run true, "
    "softens with the heat of the shaft, and a part that lets go at speed can kill."
)
CAUTION = (
    "Rotating parts: unplug first, guards back on before it runs, never above the speed on the part's label; if in "
    "doubt leave it to a machine shop."
)


@dataclass(frozen=True)
class _Pair:
    """Shaft and bore as read, with the nominal sizes that each may have."""

    keys: SleeveKeys
    units: Units
    shaft: Read
    bore: Read
    shaft_sizes: tuple[Candidate, ...]
    bore_sizes: tuple[Candidate, ...]

    @property
    def gap_mm(self) -> float:
        """Bore less shaft, on the diameter."""
        return self.bore.d_mm - self.shaft.d_mm

    @property
    def error_mm(self) -> float:
        """Twice the standard deviation of the gap."""
        return math.hypot(self.shaft.error_mm, self.bore.error_mm)

    def bush(self) -> Bush:
        """The bush between the two, reckoned from the nominal sizes where the readings are theirs."""
        shaft, bore = sure(self.shaft_sizes), sure(self.bore_sizes)
        return Bush(
            shaft.nominal.mm if shaft else round(self.shaft.d_mm, 2),
            bore.nominal.mm if bore else round(self.bore.d_mm, 2),
            self.keys.fit,
            self.keys.length,
        )


def answer(asked: Asked) -> Answer:
    """The gap, and what to buy, cut, hone or print; nothing printed for what turns."""
    keys = asked.keys
    assert isinstance(keys, SleeveKeys)
    pair = _pair(keys, asked.context.units)
    heading = [keys.label] if keys.label else []
    lines = [*heading, *_size_lines(pair), _gap_line(pair)]
    if pair.gap_mm <= pair.error_mm:
        return _no_gap(pair, lines)
    if twins(sure(pair.shaft_sizes), sure(pair.bore_sizes)):
        return _twin_sizes(pair, lines)
    if keys.turns:
        return Answer(wrapped([*lines, WHY_NOT, *_bought(pair), CAUTION]), good=False)
    return _still(pair, lines)


def _pair(keys: SleeveKeys, units: Units) -> _Pair:
    def made_to(nominal_mm: float) -> float:
        return grade_um(MADE_TO, max(nominal_mm, 3.001)) / 1000.0

    shaft, bore = read_of(keys.shaft), read_of(keys.bore)
    sizes = candidates(shaft, "shaft", made_to), candidates(bore, "bore", made_to)
    return _Pair(keys, units, shaft, bore, *sizes)


def _size_lines(pair: _Pair) -> list[str]:
    lines = []
    for name, read, sizes in (("shaft", pair.shaft, pair.shaft_sizes), ("bore", pair.bore, pair.bore_sizes)):
        lines.append(f"{name} {micrometres(read.d_mm, pair.units)}, give or take {_mm(read.error_mm)} mm")
        lines += [f"  {_candidate_words(one)}" for one in sizes]
        twin = twin_of(sizes[0].nominal)
        single = len(pair.keys.shaft if name == "shaft" else pair.keys.bore) == 1
        if twin is not None and twin.system == "mm" and single and abs(sizes[0].off_mm) < 1e-3:
            told = f"{sizes[0].nominal.name} and {twin.name} pass for one another"
            lines.append(f"  is that a reading, or only what it is called? {told}: read it with a caliper")
    return [*lines, "sd: standard deviations of reading and make together; over 3 it is not that size"]


def _candidate_words(one: Candidate) -> str:
    off = format_number(abs(one.sds), 1)
    sign = "over" if one.off_mm > 0 else "under"
    away = f"{_mm(abs(one.off_mm))} mm {sign}" if abs(one.off_mm) >= 5e-4 else "exactly"
    return f"{'' if one.near else 'not '}{one.nominal.name}: {away}, {off} sd"


def _gap_line(pair: _Pair) -> str:
    gap, error = _mm(abs(pair.gap_mm)), _mm(pair.error_mm)
    if pair.gap_mm < 0.0:
        return f"the shaft is {gap} mm larger than the bore, give or take {error}: interference, sleeve wall 0"
    return f"gap {gap} mm on the diameter, give or take {error}: a wall of {_mm(pair.gap_mm / 2.0)} mm"


def _no_gap(pair: _Pair, lines: list[str]) -> Answer:
    if pair.gap_mm < -pair.error_mm:
        lines.append("Refused: there is no room for a sleeve.")
    else:
        lines.append("Refused: by these readings there is no gap to fill; a micrometer tells whether it goes on.")
    lines.append(hone_line(pair.bush().inside_mm, pair.keys.fit, pair.units))
    lines.append(_right_part(pair))
    if twins(sure(pair.shaft_sizes), sure(pair.bore_sizes)):
        lines.append(_both_shown(pair.shaft_sizes[0], pair.bore_sizes[0]))
    return Answer(wrapped([*lines, *([CAUTION] if pair.keys.turns else [])]), good=False)


def _twin_sizes(pair: _Pair, lines: list[str]) -> Answer:
    """25 mm taken for 1 in: the two do not belong together, and nobody shall guess."""
    lines.append(_both_shown(pair.shaft_sizes[0], pair.bore_sizes[0]))
    lines.append("Refused: a ring that thin is no sleeve, and one of the two is probably the wrong part.")
    lines.append(_right_part(pair))
    if pair.keys.turns:
        return Answer(wrapped([*lines, WHY_NOT, CAUTION]), good=False)
    lines += [line for line in [_shim_line(pair)] if line]
    return Answer(wrapped(lines), good=False)


def _both_shown(shaft: Candidate, bore: Candidate) -> str:
    return f"The shaft is {shaft.nominal.name}, the bore {bore.nominal.name}: both go by the same name in many a shop."


def _right_part(pair: _Pair) -> str:
    near = [one.nominal.name for one in pair.shaft_sizes if one.near]
    size = " or ".join(near) or micrometres(pair.shaft.d_mm, pair.units)
    which = ", a micrometer tells which" if len(near) > 1 else ""
    return f"Best: the right part, bored for {size}{which}; or its maker's own reducing ring."


def _bought(pair: _Pair) -> list[str]:
    lines = [_right_part(pair)]
    if pair.gap_mm / 2.0 < BUSH_WALL_MM:
        least = _mm(BUSH_WALL_MM)
        return [
            *lines,
            f"No bush: under {least} mm of wall a shop cannot hold and turn one; bore the part out for a thicker.",
        ]
    return [*lines, "Else a machinist's bush:", *bush_lines(pair.bush(), pair.units)]


def _still(pair: _Pair, lines: list[str]) -> Answer:
    """Nothing turns: a printed sleeve where its wall can be printed; a bush, a shim or tape otherwise."""
    wall = pair.gap_mm / 2.0
    printed = printed_sleeve(pair.keys, pair.units)
    lines += _printed_lines(printed, pair.units)
    if wall >= BUSH_WALL_MM:
        lines.append("Or bought or turned:" if printed.yaml else "Bought or turned:")
        lines += bush_lines(pair.bush(), pair.units)
    else:
        lines.append(_shim_line(pair) or "Thinner than any strip: a retaining compound, or a wrap of tape.")
    return Answer(wrapped(lines), printed.yaml)


def _printed_lines(printed: Printed, units: Units) -> list[str]:
    def say(mm: float) -> str:
        return format_length(mm, units, fraction=False)

    if printed.wall_mm < printed.least_mm:
        return [
            f"Not printed: {say(max(printed.wall_mm, 0.0))} is left for the wall when both fits are taken off, "
            f"{say(printed.least_mm)} are needed (4 lines)."
        ]
    sizes = f"inside {say(printed.inside_mm)}, outside {say(printed.outside_mm)}, wall {say(printed.wall_mm)}"
    if not printed.yaml:
        return [f"A printed sleeve would do: {sizes}; none is made here under {say(printed.smallest_mm)} of shaft."]
    return [f"Printed: {sizes}. For still things only, not near heat; glue or a pin holds it, its fit alone may not."]


def _shim_line(pair: _Pair) -> str:
    wall = pair.gap_mm / 2.0
    strips = shims(wall)
    if not strips:
        return ""
    thick = " and ".join(_mm(one) for one in strips)
    once = format_length(math.pi * (pair.shaft.d_mm + pair.bore.d_mm) / 2.0, pair.units, fraction=False)
    left = _mm(wall - sum(strips))
    cut = f"Steel shim strip {thick} mm, cut {once} long, once round"
    return f"{cut}: leaves {left} mm on the radius; or wraps of tape."


def _mm(value: float) -> str:
    return format_number(value, 3)
