"""Keys of a gate bracket that the YAML left out, each with the value that was taken and why."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length, format_number, format_pressure

Words = Callable[[GatePlan, GateBracketSpec], str]


def _mm(value: float, spec: GateBracketSpec) -> str:
    return format_length(value, spec.units)


WORDS: Mapping[str, Words] = {
    "gate.port.diameter": lambda p, s: f"{_mm(s.gate.port.d_mm, s)}: the travel less a lip of 2 mm each side",
    "gate.port.to_edge": lambda p, s: f"{_mm(s.gate.port.to_edge_mm, s)}: the middle of a body as long as it is wide",
    "gate.blade.length": lambda p, s: f"{_mm(p.blade_long_mm, s)}: just enough to cover the port",
    "gate.blade.material": lambda p, s: f"{s.gate.blade.material}: {s.gate.blade.modulus_mpa:.0f} MPa, a low value",
    "gate.blade.plane": lambda p, s: "the middle of the body",
    "gate.body.length": lambda p, s: "not known: all of the blade counts as guided that is inside",
    "gate.body.far_end": lambda p, s: "not known: nothing is spent beyond shut",
    "gate.body.far_end_room": lambda p, s: "0: nothing is spent beyond shut",
    "gate.suction": lambda p, s: f"{format_pressure(s.gate.suction_pa, s.units)}: a collector against a shut gate",
    "gate.friction": lambda p, s: f"{s.gate.friction:g}: what the blade's material rubs with, dry",
    "gate.dirt": lambda p, s: f"{s.gate.dirt:g} x the friction: dust and resin in the slot",
    "gate.drag": lambda p, s: "from suction, friction and dirt: a spring balance tells better",
    "pressure": lambda p, s: f"{format_number(10 * s.pressure_mpa, 1)} bar: a common shop line",
    "margin": lambda p, s: f"{s.margin:g}: thrust over drag",
    "hold": lambda p, s: f"{s.hold.replace('_', ' ')}: as this cylinder is made to be held",
    "stop": lambda p, s: f"{p.stop.replace('_', ' ')}: {_stop_why(p)}",
    "setting": lambda p, s: f"{_mm(s.setting_mm, s)} either way",
    "frame": lambda p, s: p.frame.frame_why or p.frame.kind.replace("_", " "),
    "layout": lambda p, s: "in line: a pull beside the blade's middle jams it",
    "second_guide": lambda p, s: "no",
    "mounted": lambda p, s: "any: reckoned as the worst of all",
    "guard": lambda p, s: "as the gaps ask for it",
    "rods": lambda p, s: p.frame.rod,
    "board.thickness": lambda p, s: _mm(s.board_thick_mm, s),
    "board.material": lambda p, s: s.board_material,
    "tape": lambda p, s: f"{_mm(s.tape_mm, s)}: how well a tape is read, either way",
    "closing_time": lambda p, s: "slow: see the commissioning sheet",
    "wall": lambda p, s: f"{_mm(s.wall_mm, s)}: whole printed lines",
    "units": lambda p, s: s.units,
    "material": lambda p, s: s.material.name,
    "printer": lambda p, s: s.printer.name,
    "cylinder.ports": lambda p, s: f"{s.cylinder.ports_face}: the clamp stands above and below",
    "cylinder.mass": lambda p, s: f"{s.cylinder.mass_kg:.2f} kg",
}
"""YAML key -> value and reason."""


def assumed_words(plan: GatePlan, spec: GateBracketSpec) -> dict[str, str]:
    """Each key left out; those that are of no account to this bracket are not named."""
    found = {key: WORDS[key](plan, spec) for key in spec.defaulted if key in WORDS and _counts(key, plan, spec)}
    return found | {key: _of_cylinder(key, spec) for key in spec.defaulted if _is_of_cylinder(key) and key not in found}


def _counts(key: str, plan: GatePlan, spec: GateBracketSpec) -> bool:
    """A setting that this bracket does not have is not worth a line."""
    if key == "rods":
        return plan.frame.kind == "rods"
    if key == "second_guide":
        return spec.layout == "alongside"
    if key == "gate.drag":
        return spec.gate.drag_n is None
    return key != "closing_time" or spec.close_in_s is None


def _is_of_cylinder(key: str) -> bool:
    return key.startswith("cylinder.")


def _of_cylinder(key: str, spec: GateBracketSpec) -> str:
    """A length of the cylinder that its table gave."""
    name = key.partition(".")[2].replace(".", "_")
    value = getattr(spec.cylinder, f"{name}_mm", getattr(spec.cylinder, name, None))
    said = _mm(value, spec) if isinstance(value, float) else str(value) if value is not None else "as usual"
    return f"{said}: from the table of {spec.cylinder.standard}"


def _stop_why(plan: GatePlan) -> str:
    excess = f"{plan.chain.excess_mm:.1f} mm"
    if plan.stop == "exact":
        return "the stroke is what the travel asks for"
    if plan.stop == "short":
        return f"the stroke is {-plan.chain.excess_mm:.1f} mm short, which the lip takes"
    return f"it takes up the {excess} by which the stroke is longer than the travel"
