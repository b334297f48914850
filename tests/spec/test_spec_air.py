"""`air:` in the YAML: what is read, and what is refused with file, line, key, what was found and what is allowed."""

from __future__ import annotations

import pytest

from fitwright.errors import SpecError
from fitwright.spec.load import load_text
from fitwright.spec.models import Air, AirHose, Fan, ReducerSpec

HEAD = "part: reducer\nend_a: {plain: {inside: 120}}\nend_b: {plain: {inside: 100}}\nair: "


def air_of(air: str, head: str = HEAD) -> Air:
    (spec,) = load_text(head + air, "air.yaml")
    assert isinstance(spec, ReducerSpec) and spec.air is not None
    return spec.air


def test_flow_and_direction_are_enough() -> None:
    assert air_of("{flow: 720 m^3/h, from: end_b}") == Air(flow_m3_s=0.2, from_end="end_b")


def test_a_label_and_a_hose_stand_in_for_the_flow() -> None:
    found = air_of(
        "{from: end_a, dust: wet chips, fan: {shut_off: 2 kPa, free: 1800 m^3/h}, hose: {inside: 4 in, length: 10 ft}}"
    )
    assert found.fan == Fan(points=((0.0, 2000.0), (0.5, 0.0)), label=True)
    assert found.hose == AirHose(inside_mm=101.6, length_mm=3048.0, bends=0)
    assert found.flow_m3_s is None and found.dust == "wet chips"


def test_a_makers_curve() -> None:
    points = "[{flow: 0 m^3/h, suction: 10 inH2O}, {flow: 3600 m^3/h, suction: 0 Pa}]"
    found = air_of(f"{{flow: 1000 m^3/h, from: end_a, fan: {{points: {points}}}}}")
    assert found.fan is not None and not found.fan.label
    assert found.fan.points[0] == pytest.approx((0.0, 2490.89)) and found.fan.points[1] == (1.0, 0.0)


@pytest.mark.parametrize(
    ("air", "key", "words"),
    [
        ("{from: end_b}", "air.flow", "an air flow with its unit, such as 800 m^3/h, or fan and hose"),
        ("{flow: 800, from: end_b}", "air.flow", "write the unit"),
        ("{flow: 800 m^3/h, from: hose}", "air.from", "end_a | end_b"),
        ("{flow: 800 m^3/h, from: end_b, dust: chip}", "air.dust", "did you mean chips?"),
        ("{flow: 800 m^3/h, from: end_b, dust: shavings}", "air.dust", "did you mean light shavings?"),
        ("{flow: 800 m^3/h, from: end_b, dust: gravel}", "air.dust", "wood flour | sanding dust"),
        ("{from: end_b, hose: {inside: 100, length: 3 m}}", "air.flow", "or fan and hose"),
        ("{flow: 800 m^3/h, from: end_b, hose: {inside: 100, length: 3 m}}", "air.hose", "one of the two"),
        ("{from: end_b, fan: {shut_off: 2 kPa}}", "air.fan.free", "it is on the machine's label"),
        ("{from: end_b, fan: {free: 900 cfm}}", "air.fan.shut_off", "shut_off and free, or points"),
        ("{from: end_b, fan: {suction: 2 kPa}}", "air.fan.suction", "write shut_off"),
        ("{from: end_b, fan: {shut_off: 2, free: 900 cfm}}", "air.fan.shut_off", "write the unit: Pa"),
        ("{flow: 1 m3/s, from: end_b, fan: {shut_off: 2 kPa, free: 900 m3/h}}", "air.flow", "900 m3/h or less"),
        ("{from: end_b, hose: {inside: 100, length: 3}}", "air.hose.length", "did you mean 3 m?"),
        ("{from: end_b, hose: {inside: 100, length: 3 m, elbows: 2}}", "air.hose.elbows", "write bends"),
        ("{flow: 800 m^3/h, from: end_b, collector: 2}", "air.collector", "write fan"),
    ],
)  # fmt: skip
def test_what_is_refused(air: str, key: str, words: str) -> None:
    with pytest.raises(SpecError) as refused:
        air_of(air)
    said = str(refused.value)
    assert said.startswith("air.yaml:4:") and f"{key}: found" in said and words in said


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ("[{flow: 0 m3/h, suction: 2 kPa}]", "2 points or more"),
        ("[{flow: 90 m3/h, suction: 1 kPa}, {flow: 0 m3/h, suction: 2 kPa}]", "from the least flow to the greatest"),
        ("[{flow: 0 m3/h, suction: 1 kPa}, {flow: 90 m3/h, suction: 2 kPa}]", "suctions that fall"),
        ("[{flow: 0 m3/h, vacuum: 1 kPa}, {flow: 90 m3/h, suction: 2 kPa}]", "write suction"),
        ("[{flow: 0 m3/h, suction: 0 Pa}, {flow: 90 m3/h, suction: 0 Pa}]", "a suction above 0 at the least flow"),
    ],
)
def test_a_curve_that_is_none(points: str, words: str) -> None:
    with pytest.raises(SpecError, match=words):
        air_of(f"{{from: end_b, fan: {{points: {points}}}}}")


def test_points_beside_a_label() -> None:
    with pytest.raises(SpecError, match="one of the two"):
        air_of("{from: end_b, fan: {shut_off: 2 kPa, free: 9 m3/min, points: [{flow: 0 m3/h, suction: 2 kPa}]}}")
