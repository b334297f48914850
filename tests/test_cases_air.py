"""What people run into when air and chips go through what they print, each told to the tool in YAML.

The situations are reports of users, restated; the sizes are theirs, or chosen to make the case run. What the answer
must be follows from the case itself, by arithmetic that stands beside it.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from fitwright.errors import RefusalError, SpecError
from fitwright.report.findings import terminal_text
from fitwright.report.report_json import report_json
from fitwright.report.report_txt import report_txt
from fitwright.spec.load import load_text

from .whole import blocking, fact, findings, part_of, result_of

CONFIGS = Path(__file__).parents[1] / "configs"


def the(text: str, code: str) -> str:
    """What the one finding of a code says, with its advice."""
    (found,) = findings(text, code)
    return f"{found.message} {found.advice}"


def test_six_inches_down_to_four_leaves_44_percent() -> None:
    """Told as 45 %: (4/6)^2 = 0.444, and the air is 2.25 times as fast."""
    text = "part: reducer\nunits: in\nend_a: {plain: {inside: 6}}\nend_b: {plain: {inside: 4}}\n"
    assert "44 % of end_a's bore" in the(text, "airflow.section")
    assert "44 %" in fact(text, "area") and "2.25 times" in fact(text, "area")
    assert "44 %" in report_txt(result_of(text).report).decode()


def test_a_hose_stuffed_into_a_port_leaves_64_percent() -> None:
    """A 100 mm hose in a 125 mm port: (100/125)^2 = 0.64; a reducer says so before it is printed."""
    text = "part: reducer\nend_a: {plain: {inside: 125}}\nend_b: {plain: {inside: 100}}\n"
    assert "64 % of end_a's bore" in the(text, "airflow.section")


def test_a_four_inch_hood_on_a_small_hose_plugs() -> None:
    """101.6 to 38 mm hose, and 90 m3/h go through that hose: 3.1 m/s in the hood's neck, no chips move."""
    text = (
        "part: reducer\nend_a: {label: hood, plain: {inside: 101.6}}\nend_b: {hose_tail: {hose_inside: 38}}\n"
        "air: {flow: 90 m^3/h, from: end_a, dust: chips}\n"
    )
    said = the(text, "airflow.speed")
    slow = 90 / 3600 / (math.pi / 4 * 0.1016**2)
    assert f"too slow for chips in end_a bore, {slow:.1f} m/s" in said and "settles and plugs" in said
    assert "deg" in the(text, "airflow.cone") and "no step" in the(text, "airflow.cone")
    assert not blocking(result_of(text).findings)  # it warns, and still prints


def test_tapered_not_stepped_is_kept_by_refusal() -> None:
    """A step between the two is refused for chips: 30 deg is the steepest cone, and the message says what would do."""
    ends = "end_a: {plain: {inside: 101.6}}\nend_b: {plain: {inside: 40}}\n"
    with pytest.raises(SpecError, match=r"half_angle: found '60 deg'; allowed: an angle from 2 deg to 30 deg"):
        part_of(f"part: reducer\nhalf_angle: 60 deg\n{ends}")
    with pytest.raises(RefusalError) as refused:
        part_of(f"part: reducer\nlength: 40\n{ends}")
    assert "30 deg need more length" in str(refused.value)
    need = float(re.findall(r"([\d.]+) mm or more", str(refused.value))[0])
    assert part_of(f"part: reducer\nlength: {need}\n{ends}").airway[1].half_angle_deg <= 30 + 1e-6


def test_what_the_taper_is_worth() -> None:
    """Four inches to six by a cone of 7 deg against a bare step: Borda's (1 - 0.444)^2 = 0.31 velocity pressures."""
    text = (
        "part: reducer\nend_a: {plain: {inside: 152.4}}\nend_b: {plain: {inside: 101.6}}\n"
        "air: {flow: 1400 m^3/h, from: end_b}\n"
    )
    said = the(text, "airflow")
    saved, sharp = (float(n) for n in re.findall(r"saves about (\d+) Pa of the (\d+) Pa", said)[0])
    pressure = 0.602 * (1400 / 3600 / (math.pi / 4 * 0.1016**2)) ** 2
    assert sharp == pytest.approx(0.309 * pressure, rel=0.08) and saved > sharp / 2


def test_two_bends_before_the_inlet_become_one_offset_with_its_angles_told() -> None:
    """Two quarter bends stood before a collector's inlet; an offset of two 45s does it: angle and loss said."""
    text = (
        "part: offset_adapter\noffset: {up: 60}\nend_a: {label: collector, plain: {inside: 100}}\n"
        "end_b: {label: run, plain: {inside: 100}}\nair: {flow: 800 m^3/h, from: end_b, dust: chips}\n"
    )
    one, two = (float(n) for n in re.findall(r"([\d.]+) and ([\d.]+) deg", fact(text, "bends"))[0])
    assert one == two <= 45.0
    bends = [leg for leg in part_of(text).airway if leg.kind == "bend"]
    assert [leg.angle_deg for leg in bends] == pytest.approx([one, two], abs=0.05)
    said = the(text, "airflow")
    assert "Pa" in said and "saves about" in said and "sudden steps and mitres" in said


def test_flow_too_low_for_chips_warns_by_its_code_in_every_report() -> None:
    text = (
        "part: reducer\nname: slow\nend_a: {plain: {inside: 100}}\nend_b: {plain: {inside: 100}}\n"
        "air: {flow: 300 m^3/h, from: end_a, dust: chips}\n"
    )
    report = result_of(text).report
    for said in (terminal_text(report), report_txt(report).decode()):
        assert "warns airflow.speed" in said and "m3/h or more would carry it" in " ".join(said.split())
    assert '"code": "airflow.speed"' in report_json(report).decode()


def test_the_same_without_a_word_about_air_needs_no_flow() -> None:
    text = "part: reducer\nend_a: {socket: {over: 107.1}}\nend_b: {hose_tail: {hose_inside: 100}}\n"
    codes = {f.code for f in result_of(text).findings if f.code.startswith("airflow")}
    assert codes == {"airflow.section", "airflow.step", "airflow.cone"}
    assert all(f.severity == "pass" for f in result_of(text).findings if f.code in codes)


def test_the_planer_example_carries_its_shavings() -> None:
    """ACGIH: light shavings 3000 to 4000 ft/min, 15.2 to 20.3 m/s; the label's flow is well above in all sections."""
    text = (CONFIGS / "planer_drop.yaml").read_text(encoding="utf-8")
    (spec,) = load_text(text, "planer_drop.yaml")
    assert spec.air.flow_m3_s is None  # type: ignore[union-attr]
    said = the(text, "airflow.speed")
    speeds = [float(n) for n in re.findall(r"([\d.]+) m/s in ", said)]
    assert min(speeds) > 15.2 and "carried" in said
    assert "hood, filter and cyclone are not counted" in the(text, "airflow.fan")
