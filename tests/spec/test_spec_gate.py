"""A gate bracket's YAML: what it means, shortest and in full, in mm and in inches."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.gate_specs import BORE_16, BORE_20, GATE_4, GATE_6, METAL_100, gate_4in, metal_alongside
from yaml_cases import loaded

from fitwright.parts.gate.plan import gate_plan
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.load import load_file, load_text

CONFIGS = Path(__file__).parents[2] / "configs"
SHORTEST = """
part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}       # blade edge beyond the body
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body:  {width: 150, thickness: 22}
  screws: {across: 120, from_edge: 12, size: M5}
cylinder: ISO 6432 16 x 125
"""
NOT_IN_THE_STANDARD = {"length_0_mm", "port", "mass_kg", "remembered"}
"""What the specs without YAML say otherwise of a cylinder: makers differ, names are spelt in full."""


def gate(text: str) -> GateBracketSpec:
    found = loaded(text)
    assert isinstance(found, GateBracketSpec)
    return found


def example(name: str) -> GateBracketSpec:
    (found,) = load_file(CONFIGS / f"{name}.yaml")
    assert isinstance(found, GateBracketSpec)
    return found


def test_nine_readings_and_a_name_are_enough() -> None:
    made = gate(SHORTEST)
    assert (made.gate.shut_mm, made.gate.open_mm, made.gate.travel_mm) == (20.0, 126.0, 106.0)
    assert made.gate.blade == GATE_4.blade
    assert made.gate.mount.screws is not None and made.gate.mount.screws.across_mm == 120.0
    assert made.cylinder.name == "ISO 6432 16 x 125" and made.hold == "nose"
    without = {"name", "source_file", "gate", "cylinder", "defaulted", "places"}
    assert made.model_dump(exclude=without) == gate_4in().model_dump(exclude=without)


def test_the_cylinder_is_the_standards() -> None:
    """ISO 6432 bores 16 and 20, typed again in tests/gate_specs.py."""
    for words, typed in (("ISO 6432 16 x 125", BORE_16), ("ISO 6432 20 x 160", BORE_20)):
        made = gate(SHORTEST.replace("ISO 6432 16 x 125", words)).cylinder
        assert made.model_dump(exclude=NOT_IN_THE_STANDARD) == typed.model_dump(exclude=NOT_IN_THE_STANDARD)


def test_what_is_not_said_is_filled_in_and_told() -> None:
    """A lip of 2 mm each side: 106 - 4 = 102. The port lies in the middle of a body as long as it is wide: 150 / 2."""
    made = gate(SHORTEST)
    assert (made.gate.port.d_mm, made.gate.port.to_edge_mm) == (102.0, 75.0)
    assert made.gate.suction_pa == pytest.approx(10 * 249.089) and made.gate.drag_n is None
    told = {"gate.port.diameter", "gate.port.to_edge", "gate.drag", "gate.friction", "gate.blade.material", "pressure"}
    assert told | {"hold", "stop", "frame", "rods", "cylinder.mass"} <= set(made.defaulted)


def test_what_is_said_is_not_told_as_filled_in() -> None:
    text = (
        SHORTEST.replace("screws:", "port: {diameter: 102, to_edge: 72}\n  drag: 12 N\n  screws:") + "pressure: 5 bar\n"
    )
    assert not {"gate.port.diameter", "gate.port.to_edge", "gate.drag", "gate.friction", "pressure"} & set(
        gate(text).defaulted
    )


def test_the_examples_are_the_gates_of_the_specs() -> None:
    assert example("gate_4in").gate.model_dump(exclude={"port"}) == GATE_4.model_dump(exclude={"port"})
    assert example("gate_6in_board").gate == GATE_6
    metal = example("gate_metal_alongside")
    stiff = {"blade": {"modulus_mpa", "bearing_mpa", "density_g_cm3"}}
    assert metal.gate.model_dump(exclude=stiff) == METAL_100.model_dump(exclude=stiff)
    assert metal.gate.blade.modulus_mpa == pytest.approx(200000, rel=0.05)  # steel, any handbook
    spec = metal_alongside()
    assert (metal.layout, metal.second_guide, metal.guide_d_mm) == (spec.layout, spec.second_guide, spec.guide_d_mm)


@pytest.mark.parametrize("name", ["gate_4in", "gate_4in_one_piece", "gate_6in_board", "gate_heavy_cylinder"])
def test_an_example_has_a_plan(name: str) -> None:
    assert gate_plan(example(name)).stop == "sleeve"


def test_inches_mean_the_same() -> None:
    """Every length of a file in mm divided by 25.4."""
    mm = gate(_full("mm", 1.0))
    inches = gate(_full("in", 25.4))
    for one, other in ((mm.gate, inches.gate), (mm.cylinder, inches.cylinder)):
        _same(one.model_dump(), other.model_dump())
    for key in ("setting_mm", "guide_d_mm", "board_thick_mm", "support_down_mm", "tape_mm", "pressure_mpa"):
        assert getattr(mm, key) == pytest.approx(getattr(inches, key), abs=1e-9)


def _same(one: object, other: object) -> None:
    if isinstance(one, dict) and isinstance(other, dict):
        assert one.keys() == other.keys()
        for key in one.keys() - {"name"}:
            _same(one[key], other[key])
    elif isinstance(one, tuple) and isinstance(other, tuple):
        assert len(one) == len(other)
        for a, b in zip(one, other, strict=True):
            _same(a, b)
    elif isinstance(one, float):
        assert other == pytest.approx(one, abs=1e-9)
    else:
        assert one == other


def _full(units: str, by: float) -> str:
    """Every key that takes a length."""

    def u(mm: float) -> str:
        return f"{mm / by:.14f}"

    return f"""
part: gate_bracket
units: {units}
gate:
  sticks_out: {{shut: [{u(20)}, {u(20.5)}], open: {u(126)}}}
  blade: {{width: {u(118)}, thickness: [{u(3)}, {u(3.1)}], hole: {u(5)}, hole_to_edge: {u(8)}, material: acrylic,
          plane: {{below_top: {u(8)}}}, length: {u(160)}}}
  body: {{width: {u(150)}, thickness: {u(22)}, length: {u(155)}, far_end: open, far_end_room: {u(10)}}}
  port: {{diameter: {u(102)}, to_edge: {u(72)}, stub: {{outside: {u(101.2)}, long: {u(40)}}}}}
  saddle: {{band: {u(9)}}}
  proud:
    - {{label: knob, from_left: {u(20)}, from_edge: {u(40)}, across: {u(20)}, along: {u(25)}, high: {u(15)}}}
    - {{label: plate, from_right: {u(10)}, from_edge: {u(30)}, across: {u(30)}, along: {u(15)}, high: 2 mm, face: down}}
  drag: [9 N, 12 N]
cylinder:
  bore: {u(16)}
  stroke: {u(124.6)}
  stroke_tolerance: +{u(1.2)}/0
  rod: {u(6)}
  rod_thread: M6 x 1
  rod_thread_length: {u(16)}
  rod_flats: {u(5)}
  rod_stub: {u(21.6)}
  nose: {{thread: M16 x 1.5, length: {u(18)}, nut: {{across_flats: {u(24)}, height: {u(8)}}}}}
  square: {{apart: {u(30)}, screw: M4, deep: {u(10)}}}
  body: {{round: {u(18)}}}
  length: {u(193.5)}
  port: M5
  mass: 0.15 kg
pressure: 87 psi
setting: {u(4)}
tape: {u(1)}
layout: alongside
second_guide: {{diameter: {u(12)}}}
support: {{down: {u(60)}}}
"""


def test_the_full_form_in_mm() -> None:
    made = gate(_full("mm", 1.0))
    g, c = made.gate, made.cylinder
    assert g.shut_mm == 20.25 and g.blade.thickness_mm == 3.1 and g.drag_n == 12.0  # a mean; the greatest, twice
    assert g.blade.plane_mm == pytest.approx(22 / 2 - 8 - 3.1 / 2)  # half the body, down to the blade, half the blade
    knob, plate = g.proud
    assert (knob.x_mm, knob.y_mm, knob.side) == (-150 / 2 + 20 + 20 / 2, 40.0, "up")
    assert (plate.x_mm, plate.side) == (150 / 2 - 10 - 30 / 2, "down")
    assert g.mount.kind == "saddle" and g.mount.band_mm == 9.0
    assert c.long_mm == pytest.approx(193.5) and c.length_0_mm == pytest.approx(193.5 - 124.6)
    assert c.stroke_high_mm == 1.2 and c.standard == "readings" and c.remembered == ()
    assert made.pressure_mpa == pytest.approx(87 * 4.4482216152605 / 25.4**2)
    assert made.second_guide and made.guide_d_mm == 12.0 and made.support_down_mm == 60.0


@pytest.mark.parametrize(
    ("said", "offset"), [("middle", 0.0), ("{above: 2}", 2.0), ("{below: 1.5}", -1.5), ("{below_top: 9.5}", 0.0)]
)
def test_where_the_blade_lies(said: str, offset: float) -> None:
    text = SHORTEST.replace("hole: 5,", f"plane: {said}, hole: 5,")
    assert gate(text).gate.blade.plane_mm == pytest.approx(offset, abs=1e-12)


def test_a_blade_without_a_hole_is_clamped() -> None:
    made = gate(SHORTEST.replace(", hole: 5, hole_to_edge: 8", ""))
    assert made.gate.blade.hole_mm is None and gate_plan(made).coupling.pin is None


@pytest.mark.parametrize(
    ("said", "kind", "size", "band"),
    [("clamp: {size: M6}", "clamp", "M6", 12.0), ("clamp: {}", "clamp", "M5", 12.0)],
)
def test_how_it_is_mounted(said: str, kind: str, size: str, band: float) -> None:
    mount = gate(SHORTEST.replace("screws: {across: 120, from_edge: 12, size: M5}", said)).gate.mount
    assert (mount.kind, mount.size, mount.band_mm, mount.screws) == (kind, size, band, None)


def test_the_friction_is_that_of_the_blades_material() -> None:
    slippery = gate(SHORTEST.replace("hole: 5,", "material: HDPE, hole: 5,")).gate
    assert slippery.friction < gate(SHORTEST).gate.friction and slippery.blade.material == "HDPE"
    assert gate(SHORTEST.replace("  screws", "  friction: 0.4\n  screws")).gate.friction == 0.4


def test_a_travel_far_from_the_port_is_doubted_not_refused() -> None:
    """106 mm of travel and a port of 80: two lips of 2 mm want 84."""
    port = SHORTEST.replace("  screws", "  port: {diameter: 80}\n  screws")
    (doubt,) = gate(port).doubts
    assert "106 mm" in doubt and "80 mm" in doubt and "84 mm" in doubt and "gate.sticks_out" in doubt
    assert gate(SHORTEST).doubts == ()
    assert gate(SHORTEST.replace("  screws", "  port: {diameter: 102}\n  screws")).doubts == ()


def test_screws_in_the_blades_way_load() -> None:
    """A check says so, with the finished part before it."""
    assert gate(SHORTEST.replace("across: 120", "across: 100")).gate.mount.screws is not None


def test_words_of_the_top() -> None:
    text = "hold: clamp\nstop: none\nframe: board\nboard: {thickness: 12, material: birch ply}\nmounted: blade_up\n"
    made = gate(SHORTEST + text + "guard: no\nmargin: 3\nclosing_time: 1.5 s\nsetting: 0\n")
    assert (made.hold, made.stop, made.frame, made.mounted, made.guard) == ("clamp", "none", "board", "blade_up", "no")
    assert (made.board_thick_mm, made.board_material, made.margin) == (12.0, "birch ply", 3.0)
    assert made.close_in_s == 1.5 and made.setting_mm == 0.0


def test_places_lead_to_lines() -> None:
    made = gate(SHORTEST)
    assert made.places["gate.sticks_out.open"][0] == 4 and made.places["cylinder"][0] == 8


def test_several_gates_share_a_cylinder() -> None:
    body = SHORTEST.split("gate:", 1)[1].split("cylinder:")[0]
    inner = "\n".join(f"   {line}" for line in body.splitlines())
    text = (
        f"part: gate_bracket\ncylinder: ISO 6432 16 x 125\nparts:\n  - name: saw\n    gate:{inner}\n  - name: planer\n"
    )
    text += f"    gate:{inner}\n"
    assert [one.name for one in load_text(text)] == ["saw", "planer"]
