"""Parts that sagged, crept or leaked, from the YAML to the report."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.spec.load import load_file

from .whole import fact, findings, part_of, result_of

PLAIN = "part: reducer\nend_a: {plain: {inside: 60}}\nend_b: {plain: {inside: 58}}\n"
TAIL = "part: reducer\nend_a: {socket: {over: 60, fit: snug}}\nend_b: {hose_tail: {hose_inside: 58}}\n"


@pytest.mark.parametrize(
    ("material", "heat", "severity", "words"),
    [
        ("PLA", "60", "warn", "will sag"),
        ("PLA", "garage", "warn", "softens"),
        ("PLA", "shed", "pass", "stands 45 C"),
        ("PLA", "car", "warn", "under its own weight"),
        ("PETG", "garage", "pass", "stands 65 C"),
        ("PETG", "car", "warn", "softens and creeps above 65 C"),
        ("ASA", "car", "pass", "stands 80 C"),
    ],
)
def test_a_project_sagged_in_a_garage_in_summer(material: str, heat: str, severity: str, words: str) -> None:
    """PLA is soft at 55 to 65 C (users' reports); PETG from 75 C (a public property library)."""
    result = result_of(f"{PLAIN}material: {material}\nnear_heat: {heat}\n")
    (finding,) = [one for one in result.findings if one.code == "temperature"]
    assert finding.severity == severity and words in finding.message
    assert not finding.blocks


@pytest.mark.parametrize("gap", ["0", "5", "40"])
def test_pla_beside_a_hot_motor_warns_with_what_stands_it(gap: str) -> None:
    (finding,) = findings(f"{PLAIN}material: PLA\nnear_heat: {{motor: {gap}}}\n", "temperature")
    assert finding.severity == "warn" and finding.value is not None and finding.value >= 60.0
    assert "ABS, ASA, PA" in finding.advice and "motor's housing" in finding.message


def test_a_motor_that_only_the_envelope_names() -> None:
    """Nobody said how warm it gets there: 7 mm from the housing is taken for 60 C."""
    housing = "{box: {left: 40, right: 40, down: 90, up: -40, toward: 0, away: 60}, label: fan motor}"
    text = f"{PLAIN}envelope: {{keep_clear: [{housing}]}}\nmaterial: "
    (finding,) = findings(text + "PLA\n", "temperature.beside")
    assert finding.severity == "warn" and finding.value == 60.0 and "near_heat" in finding.advice
    (finding,) = findings(text + "PETG\n", "temperature.beside")
    assert finding.severity == "pass"
    assert not findings(text + "PLA\nnear_heat: 30\n", "temperature.beside")


def test_pla_under_a_band_and_in_a_snug_socket_goes_slack() -> None:
    (finding,) = findings(TAIL + "material: PLA\n", "temperature.lasting")
    assert finding.severity == "warn"
    assert "the snug fit of end_a" in finding.message and "the band on end_b's tail" in finding.message
    assert not findings(TAIL + "material: PETG\n", "temperature.lasting")
    assert not findings(PLAIN + "material: PLA\n", "temperature.lasting")


def test_a_hanger_of_pla_is_told_of_the_weight_that_stays() -> None:
    text = "part: hose_hanger\nhose: {over_ribs: 108, inside: 100}\nmount: joist_side\nmaterial: PLA\n"
    (finding,) = findings(text, "temperature.lasting")
    assert finding.severity == "warn" and "weight" in finding.message


@pytest.mark.parametrize(("line", "wall"), [(0.42, 1.68), (0.45, 1.8), (0.6, 2.4)])
def test_a_wall_of_four_lines_is_the_least_that_keeps_air(line: float, wall: float) -> None:
    """4 x 0.42 = 1.68: what lies under it leaks (users' reports; raw printed walls leak: Mireles et al., SFF 2011)."""
    nozzle = round(line / 1.05, 2)
    text = f"{PLAIN}printer: {{nozzle: {nozzle}, line: {line}}}\nwall: "
    (finding,) = findings(f"{text}{wall}\n", "wall")
    assert finding.severity == "pass" and "wall" not in part_of(f"{text}{wall}\n").facts
    said = fact(f"{text}{3 * line:.2f}\n", "wall")
    assert f"under 4 lines ({wall:.2f} mm) a printed wall lets air through" in said and "whole lines" not in said
    said = fact(f"{text}{3.4 * line:.2f}\n", "wall")
    assert "would be whole lines" in said and "lets air through" in said
    assert "lets air through" not in fact(f"{text}{4.4 * line:.2f}\n", "wall")


def test_the_sheds_own_filament_is_used_by_its_parts() -> None:
    """Measured 1840 and 47 MPa; 60 C beside the motor leaves a share of both, by the row that it is like."""
    configs = Path(__file__).parents[1] / "configs"
    (spec,) = load_file(configs / "past_the_motor.yaml")
    assert (spec.material.name, spec.material.modulus_mpa, spec.material.strength_mpa) == ("birch_lane_petg", 1840, 47)
    assert spec.near_heat_c == 60.0
    warm = spec.material.at(spec.near_heat_c)
    assert warm.modulus_mpa == pytest.approx(1840 * (1 - 0.25 * (60 - 23) / (65 - 23)))
    assert warm.strength_mpa == pytest.approx(47 * (1 - 0.45 * (60 - 23) / (65 - 23)))
