"""From a cylinder's name and readings to what is meant: which value is read, which is of a table, which remembered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from fitwright.data.cylinders import AmbiguousCylinderError, CylinderRow, all_cylinders, cylinder
from fitwright.data.nuts import nut
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.gate import Cylinder
from fitwright.units import Units, format_length, format_number

_FIELDS: Mapping[str, str] = {
    **{
        name: name for name in ("rod_mm", "rod_thread", "rod_stub_mm", "nose_thread", "nose_nut_af_mm", "nose_nut_m_mm")
    },
    **{name: name for name in ("boss_d_mm", "square_mm", "square_screw", "body_round_mm", "body_square_mm", "port")},
    "rod_thread_len_mm": "rod_thread_long_mm",
    "rod_flats_af_mm": "rod_flats_mm",
    **dict.fromkeys(("nose_len_mm", "nose_thread_len_mm"), "nose_mm"),
    "square_screw_depth_mm": "square_deep_mm",
    **dict.fromkeys(("length_0_mm", "rear_over_mm"), "length_0_mm"),
}
"""Column of the tables -> field of `spec.gate.Cylinder`. Mass and tolerances decide no fit: left out."""
_ESTIMATED = ("mass_kg", "port")


@dataclass(frozen=True)
class CylinderRead:
    """The cylinder, and the keys below `cylinder` that were filled in for want of a reading."""

    cylinder: Cylinder
    filled: tuple[str, ...] = ()


def table_row(words: str) -> tuple[CylinderRow, float]:
    """The row and the stroke [mm]; FaultError with what there is."""
    try:
        return cylinder(words)
    except AmbiguousCylinderError as error:
        tail = "" if error.stroke_mm is None else f" x {format_number(error.stroke_mm, 1)}"
        names = " | ".join(f"{row.words}{tail}" for row in error.candidates)
        hint = "say which standard: round (ISO 6432), profile (ISO 15552), compact (ISO 21287); or give readings"
        raise FaultError([Fault((), shown(words), names, hint)]) from None
    except DataError as error:
        allowed = "a cylinder of the tables, such as ISO 6432 16 x 125, or a map of readings"
        raise FaultError([Fault((), shown(words), allowed, str(error))]) from None


def from_table(words: str, read: Mapping[str, object]) -> CylinderRead:
    """The table's cylinder with what was read put over it; `read` by its fields, `long_mm` the whole length."""
    row, stroke = table_row(words)
    over = _with_length(read, float(str(read.get("stroke_mm", stroke))))
    if "body_round_mm" in over or "body_square_mm" in over:
        over = {"body_round_mm": None, "body_square_mm": None, **over}
    if "boss_d_mm" in over:
        over = {"nose_thread": None, "nose_nut_af_mm": None, "nose_nut_m_mm": None, **over}
    values = {**_of_row(row, stroke), **({"boss_d_mm": None} if "nose_thread" in over else {}), **over}
    if "nose_thread" in over and "nose_nut_af_mm" not in over:
        values |= _nose_nut(over)
    values["remembered"] = _remembered(row, over, values)
    values.setdefault("mass_kg", row.mass_kg(float(str(values["stroke_mm"]))))
    return CylinderRead(Cylinder.model_validate(values), () if "mass_kg" in read else ("mass",))


def _with_length(read: Mapping[str, object], stroke: float) -> dict[str, object]:
    """The readings with the length at no stroke in place of the whole length."""
    over = {key: value for key, value in read.items() if key != "long_mm"}
    return over | ({"length_0_mm": float(str(read["long_mm"])) - stroke} if "long_mm" in read else {})


def _remembered(row: CylinderRow, read: Mapping[str, object], values: Mapping[str, object]) -> tuple[str, ...]:
    """Fields whose value the table only remembers and beside which no reading stands."""
    names = dict.fromkeys(_FIELDS[column] for column in row.from_memory if column in _FIELDS)
    return tuple(name for name in names if name not in read and values[name])


def from_readings(read: Mapping[str, object], units: Units = "mm") -> CylinderRead:
    """A cylinder of which every size was read; port and mass those of the nearest bore of the tables if need be."""
    bore, stroke = float(str(read["bore_mm"])), float(str(read["stroke_mm"]))
    like = min(all_cylinders(), key=lambda row: abs(row.bore_mm - bore))
    values: dict[str, object] = {"nose_mm": 0.0, "port": like.port, "mass_kg": round(like.mass_kg(stroke), 3)}
    values |= _with_length(read, stroke)
    if "nose_thread" in read and "nose_nut_af_mm" not in read:
        values |= {**_nose_nut(read), "remembered": ("nose_nut_af_mm", "nose_nut_m_mm")}
    say = partial(format_length, units=units, fraction=False, unit=False)
    name = f"bore {say(bore)} x {say(stroke)}{' in' if units == 'in' else ''}, as measured"
    values |= {"name": name, "standard": "readings"}
    filled = tuple(key.removesuffix("_kg") for key in _ESTIMATED if key not in read)
    return CylinderRead(Cylinder.model_validate(values), filled)


def _nose_nut(read: Mapping[str, object]) -> dict[str, object]:
    row = nut(str(read["nose_thread"]), "nose")
    return {"nose_nut_af_mm": row.af_mm, "nose_nut_m_mm": row.m_mm}


def _of_row(row: CylinderRow, stroke: float) -> dict[str, object]:
    """A row of the tables by the names of `spec.gate.Cylinder`."""
    return {
        "name": f"{row.words} x {format_number(stroke, 1)}",
        "standard": row.standard,
        "bore_mm": row.bore_mm,
        "stroke_mm": stroke,
        "rod_mm": row.rod_mm,
        "rod_thread": row.rod_thread,
        "rod_thread_long_mm": row.rod_thread_len_mm,
        "rod_flats_mm": row.rod_flats_af_mm,
        "rod_stub_mm": row.rod_stub_mm,
        "nose_mm": row.nose_len_mm,
        "nose_thread": row.nose_thread,
        "nose_nut_af_mm": row.nose_nut_af_mm,
        "nose_nut_m_mm": row.nose_nut_m_mm,
        "boss_d_mm": row.boss_d_mm,
        "square_mm": row.square_mm,
        "square_screw": row.square_screw,
        "square_deep_mm": row.square_screw_depth_mm,
        "body_round_mm": row.body_round_mm,
        "body_square_mm": row.body_square_mm,
        "length_0_mm": row.behind_face_mm,
        "port": row.port,
        "stroke_high_mm": row.stroke_plus_mm,
    }
