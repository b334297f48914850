"""`air:` in the YAML: what is read, and what is refused with file, line, key, what was found and what is allowed."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.errors import SpecError
from fitwright.spec.air_run import suction_of
from fitwright.spec.load import load_text
from fitwright.spec.models import Air, AirHose, Fan, ReducerSpec
from fitwright.spec.suction import Suction

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
        ("{fan: vacuum}", "air.fan", "did you mean shop vacuum?"),
        ("{fan: 20 kPa}", "air.fan", "collector | shop vacuum, or a map such as {shut_off"),
        ("{fan: [20 kPa]}", "air.fan", "collector | shop vacuum, or a map"),
        ("{fan: {shut_off: 20}}", "air.fan.shut_off", "write the unit"),
        ("{fan: shop vacuum, dust: chips}", "air.from", "end_a or end_b"),
        ("{fan: shop vacuum, from: end_b, hose: {inside: 50, length: 3 m}}", "air.fan", "shut_off and free, or points"),
        ("{flow: 90 m3/h, from: end_b, fan: {shut_off: 20 kPa}}", "air.fan.free", "it is on the machine's label"),
        ("{from: end_b, hose: {inside: 100, length: 3 m, kind: smooth}}", "air.hose.kind", "smooth-bore hose?"),
        ("{from: end_b, hose: {inside: 100, length: 3 m, entry: hood}}", "air.hose.entry", "plain end | flanged end"),
        ("{from: end_b, hose: {inside: 100, length: 3 m, hood: 60}}", "air.hose.hood", "write entry"),
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


def pull_of(air: str, rest: str = "") -> Suction:
    (spec,) = load_text(f"{HEAD.replace('air: ', rest)}air: {air}" if air else HEAD.replace("air: ", rest), "air.yaml")
    return suction_of(spec)


def test_nobody_said_what_pulls() -> None:
    """A collector is taken, and said to be taken: 3 kPa, half of it running (common practice, no source)."""
    for pull in (pull_of(""), pull_of("{flow: 800 m^3/h, from: end_b}")):
        assert pull.assumed and (pull.shut_pa, pull.lasting_pa) == (3000.0, 1500.0)
        assert "nobody said what pulls: air.fan" in pull.words("mm")


@pytest.mark.parametrize(("word", "shut", "runs"), [("collector", 3000.0, 1500.0), ("shop vacuum", 2e4, 1e4)])
def test_a_word_tells_how_hard_it_pulls(word: str, shut: float, runs: float) -> None:
    pull = pull_of(f"{{fan: {word}}}")
    assert not pull.assumed and (pull.shut_pa, pull.lasting_pa) == (shut, runs)
    assert pull == pull_of(f"{{flow: 90 m^3/h, from: end_b, fan: {word}}}")
    (spec,) = load_text(f"{HEAD}{{fan: {word}}}", "air.yaml")
    assert spec.air is None  # type: ignore[union-attr]  # nothing is said of the flow: nothing is reckoned of it


def test_a_fans_own_numbers_pull_with_what_is_left_at_the_flow() -> None:
    """A parabola from 20 kPa to 0 at 200 m3/h has 15 kPa at half the flow."""
    label = "fan: {shut_off: 20 kPa, free: 200 m^3/h}"
    pull = pull_of(f"{{flow: 100 m^3/h, from: end_b, {label}}}")
    assert pull.shut_pa == 20_000.0 and pull.lasting_pa == pytest.approx(15_000.0)
    assert pull_of(f"{{{label}}}").lasting_pa == 10_000.0 == pull_of("{fan: {shut_off: 20 kPa}}").lasting_pa


def test_a_fan_that_blows_freely_still_pulls_with_something() -> None:
    """A filter fills: a tenth of what it pulls shut is kept."""
    pull = pull_of("{flow: 200 m^3/h, from: end_b, fan: {shut_off: 20 kPa, free: 200 m^3/h}}")
    assert pull.lasting_pa == pytest.approx(2000.0)


def test_a_curve_that_begins_at_some_flow_is_carried_on_to_none() -> None:
    """2 kPa at 100 m3/h and 1 kPa at 300: 2.5 kPa at 0, on a straight line."""
    points = "[{flow: 100 m^3/h, suction: 2 kPa}, {flow: 300 m^3/h, suction: 1 kPa}]"
    assert pull_of(f"{{fan: {{points: {points}}}}}").shut_pa == pytest.approx(2500.0)


def test_through_a_hose_it_pulls_with_what_the_hose_takes() -> None:
    """Where the fan's curve meets the hose by the costliest handbook; a longer hose, a greater suction."""
    hose = "{{from: end_a, fan: {{shut_off: 2 kPa, free: 1800 m^3/h}}, hose: {{inside: 100, length: {}}}}}"
    short, long = (pull_of(hose.format(length)).lasting_pa for length in ("1 m", "12 m"))
    assert 200.0 < short < long < 2000.0


PLATE = "part: flange_plate\nround: 160\nopenings: 100\nholes: {count: 4, circle: 130, size: M6}\n"


def test_a_plate_says_what_sucks_at_it() -> None:
    (spec,) = load_text(f"{PLATE}air: {{fan: shop vacuum}}\n", "plate.yaml")
    assert suction_of(spec).shut_pa == 20_000.0
    (bare,) = load_text(PLATE, "plate.yaml")
    assert suction_of(bare).assumed


@pytest.mark.parametrize(
    ("air", "key", "words"),
    [
        ("{flow: 800 m^3/h}", "air.flow", "a plate is only sucked at: fan alone"),
        ("{suction: 20 kPa}", "air.suction", "write fan"),
        ("{fan: vac}", "air.fan", "did you mean shop vacuum?"),
    ],
)
def test_what_is_refused_of_a_plate(air: str, key: str, words: str) -> None:
    with pytest.raises(SpecError) as refused:
        load_text(f"{PLATE}air: {air}\n", "plate.yaml")
    said = str(refused.value)
    assert said.startswith("plate.yaml:5:") and f"{key}: found" in said and words in said


def test_a_plate_made_for_a_part_hangs_on_the_same_machine(tmp_path: Path) -> None:
    part = tmp_path / "part.yaml"
    part.write_text(
        "part: reducer\nend_a: {flange: {holes: {count: 4, circle: 130, size: M6}, opening: 100}}\n"
        "end_b: {hose_tail: {hose_inside: 100}}\nair: {fan: shop vacuum}\n",
        encoding="utf-8",
    )
    plate = "part: flange_plate\nmatches: {part: part.yaml, end: end_a}\n"
    for more, shut in (("", 20_000.0), ("air: {fan: collector}\n", 3000.0)):
        (spec,) = load_text(plate + more, str(tmp_path / "plate.yaml"))
        assert suction_of(spec).shut_pa == shut
