"""Air cylinders as plain text: many as a table, one with all that is known of it; a star: only remembered."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from fitwright.data.cylinder_words import STANDARDS
from fitwright.data.cylinders import CylinderRow
from fitwright.report.sizes_table import lined_up
from fitwright.report.wording import in_units
from fitwright.units import Units, format_length, format_number

PRESSURE_MPA = 0.6
"""The pressure that thrusts are listed at: 6 bar."""
HEAD = ("cylinder", "kind", "rod", "rod thread", "long", "shoulder", "front", "body", "port", "6 bar out, in [N]")


def cylinders_text(rows: Sequence[CylinderRow], units: Units = "mm", wide: int | None = None) -> str:
    """The rows, lengths in `units`: a table where there are several and it is not wider than `wide`, else in full."""
    if len(rows) > 1:
        lengths = ("rod", "long", "shoulder", "body")
        head = tuple(f"{word} [{units}]" if word in lengths else word for word in HEAD)
        table = lined_up([head, *(_cells(row, units) for row in rows)])
        if wide is None or max(map(len, table.splitlines())) <= wide:
            return table
    return "\n".join(_in_full(row, units, wide or 100) for row in rows)


def cylinders_legend(rows: Sequence[CylinderRow]) -> str:
    """What stars, columns and notes mean, and how to name a row in the YAML; "" for no rows."""
    if not rows:
        return ""
    lines = ["*: only remembered, or not the same with all makers: measure yours"]
    if len(rows) > 1:
        lines += ["shoulder: from the mounting face to the rod's shoulder, rod in (WF, WH)"]
        lines += [f"`fitwright sizes {rows[0].words}` shows all that is known of one"]
    if any(row.status == "memory" for row in rows):
        lines.append("ISO 21287: too little was read to build on; give readings")
    named = next((row for row in rows if row.status != "memory"), None)
    if named:
        lines.append(f"in the YAML: `cylinder: {named.words} x STROKE`; a reading of your own is better")
    return "\n".join(lines)


def _cells(row: CylinderRow, units: Units) -> tuple[str, ...]:
    return (
        row.words,
        STANDARDS[row.standard],
        _size(row, "rod_mm", units),
        _name(row, "rod_thread"),
        _size(row, "rod_thread_len_mm", units),
        _size(row, "rod_stub_mm", units),
        _front(row, units),
        _size(row, "body_round_mm", units) or _size(row, "body_square_mm", units) + " square",
        _name(row, "port"),
        f"{PRESSURE_MPA * row.push_area_mm2:.0f}, {PRESSURE_MPA * row.pull_area_mm2:.0f}",
    )


def _front(row: CylinderRow, units: Units) -> str:
    """What it is held by: the nose thread, or four screws."""
    if row.nose_thread:
        return f"nose {_name(row, 'nose_thread')}, {_size(row, 'nose_len_mm', units)} long"
    return f"4 {_name(row, 'square_screw')}, {_size(row, 'square_mm', units)} apart"


def _in_full(row: CylinderRow, units: Units, wide: int) -> str:
    parts = [_rod(row, units), _mounting(row, units), _body(row, units), _force(row, units)]
    lines = [f"{row.words}, {STANDARDS[row.standard]} [{units}]"]
    for part in (*parts, in_units(row.note, units), f"from {row.source}"):
        lines += textwrap.wrap(part, wide, initial_indent="    ", subsequent_indent="      ", break_on_hyphens=False)
    return "\n".join(lines)


def _rod(row: CylinderRow, units: Units) -> str:
    inner = f", or bored {_name(row, 'rod_inner_thread')}" if row.rod_inner_thread else ""
    flats = f", flats {_size(row, 'rod_flats_af_mm', units)}" if row.rod_flats_af_mm else ", no flats"
    long = _size(row, "rod_thread_len_mm", units)
    return (
        f"rod {_size(row, 'rod_mm', units)}, thread {_name(row, 'rod_thread')}, {long} long{inner}{flats}; shoulder "
        f"{_size(row, 'rod_stub_mm', units)} +-{_size(row, 'stub_tol_mm', units)} from the mounting face, rod in"
    )


def _mounting(row: CylinderRow, units: Units) -> str:
    if row.nose_thread:
        nut = f"{_size(row, 'nose_nut_af_mm', units)} across flats, {_size(row, 'nose_nut_m_mm', units)} high"
        cover = _size(row, "head_round_mm", units)
        return f"{_front(row, units)}, its nut {nut}; front cover {cover}"
    boss = (
        f"boss {_size(row, 'boss_d_mm', units)}, {_size(row, 'nose_len_mm', units)} long"
        if row.boss_d_mm
        else "no boss"
    )
    deep = f", {_size(row, 'square_screw_depth_mm', units)} deep" if row.square_screw_depth_mm else ""
    return f"screws {_front(row, units)}{deep}; {boss}"


def _body(row: CylinderRow, units: Units) -> str:
    across = _size(row, "body_round_mm", units) or f"{_size(row, 'body_square_mm', units)} square"
    long = _size(row, "length_0_mm", units)
    behind = format_length(row.behind_face_mm, units, unit=False, fraction=False)
    length = (
        f"{long} long"
        if row.rear_over_mm is None
        else f"{long} from the rod's shoulder to the rear pin, about {behind}* behind the mounting face"
    )
    where = f", {_size(row, 'port_from_face_mm', units)} from the mounting face" if row.port_from_face_mm else ""
    plus = _size(row, "stroke_plus_mm", units)
    return f"body {across}; {length}, and the stroke (-0/+{plus}); port {_name(row, 'port')}{where}"


def _force(row: CylinderRow, units: Units) -> str:
    push, pull = (f"{PRESSURE_MPA * area:.0f} N" for area in (row.push_area_mm2, row.pull_area_mm2))
    mass = f"{format_number(row.mass_0_kg, 3)}* kg and {format_number(row.mass_100_kg, 3)}* kg"
    each = format_length(100.0, units, fraction=False)
    return f"at 6 bar {push} out, {pull} in, less friction; mass {mass} for each {each} of stroke"


def _size(row: CylinderRow, field: str, units: Units) -> str:
    """A length without its unit, starred where it is only remembered; "" where there is none."""
    value = getattr(row, field)
    if value is None:
        return ""
    return format_length(value, units, unit=False, fraction=False) + ("*" if row.remembered(field) else "")


def _name(row: CylinderRow, field: str) -> str:
    """The name of a thread or screw, starred where it is only remembered."""
    return f"{getattr(row, field)}{'*' if row.remembered(field) else ''}"
