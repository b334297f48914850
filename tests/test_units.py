"""Text to quantities and back. Conversion factors are exact by definition: inch 25.4 mm (1959), pound-force, psi."""

import math
import pickle

import pytest

from fitwright.units import (
    UnitError,
    format_flow,
    format_force,
    format_length,
    format_mass,
    format_pressure,
    format_speed,
    format_temperature,
    format_volume,
    parse_angle,
    parse_count,
    parse_flow,
    parse_force,
    parse_length,
    parse_number,
    parse_pressure,
    parse_temperature,
    parse_tolerance,
)


@pytest.mark.parametrize(
    ("text", "units", "mm"),
    [
        ("107.1", "mm", 107.1),
        ("107.1", "in", 107.1 * 25.4),
        ("98.4 mm", "in", 98.4),
        ("102mm", "mm", 102.0),
        ("12 cm", "mm", 120.0),
        ("1 m", "mm", 1000.0),
        ("1 ft", "mm", 304.8),
        ("3 7/8 in", "mm", 98.425),
        ("2 15/32 in", "mm", 62.70625),  # 79/32 in by hand
        ("1-13/16", "mm", 46.0375),  # 29/16 in by hand
        ("3-7/8 in", "mm", 98.425),
        ("2-1/2", "mm", 63.5),
        ("5/16", "mm", 7.9375),
        ("5/16", "in", 7.9375),
        ("1/2", "mm", 12.7),
        ('4"', "mm", 101.6),
        ("4in", "mm", 101.6),
        ("4 inches", "mm", 101.6),
        ("4''", "mm", 101.6),
        ("4 in.", "mm", 101.6),
        ("4 IN", "mm", 101.6),
        ("4\u201d", "mm", 101.6),
        ("4\u2033", "mm", 101.6),
        ("1\u00bd in", "mm", 38.1),
        ("\u215e\u201d", "mm", 22.225),
        ("3\u00a0mm", "mm", 3.0),
        (" 3 ", "mm", 3.0),
        ("0", "mm", 0.0),
        (".5", "mm", 0.5),
        ("100.", "mm", 100.0),
        ("0.25", "in", 6.35),
    ],
)
def test_length(text, units, mm):
    assert parse_length(text, units) == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("100,5", "write 100.5"),
        ("1,000", "two things"),
        ("1e3", "powers of ten"),
        ("1.0e3", "powers of ten"),
        ("1e-3", "powers of ten"),
        ("1.5e+2", "powers of ten"),
        ("1e3 mm", "powers of ten"),
        ("010", "leading zeros; write 10"),
        ("08", "leading zeros; write 8"),
        ("0x10", "hexadecimal"),
        ("1_000", "underscores in numbers; write 1000"),
        ("1:30", "colon"),
        ("4:15", "colon"),
        (".inf", "finite"),
        ("-.inf", "finite"),
        ("inf", "finite"),
        (".nan", "finite"),
        ("nan", "finite"),
        ("true", "yes/no"),
        ("True", "yes/no"),
        ("no", "yes/no"),
        ("on", "yes/no"),
        ("", "nothing"),
        ("  ", "nothing"),
        ("null", "nothing"),
        ("~", "nothing"),
        ("-3", "minus"),
        ("\u22123", "minus"),
        ("+3", "plus"),
        ("5-7", "range"),
        ("12 34", "two numbers"),
        ("3 8/7", "no part of a whole"),
        ("5/0", "divided by 0"),
        ("4 inn", "did you mean in"),
        ("4'", "ft"),
        ("b'3'", "write"),
        ("abc", "no number"),
        ("1\u200b2", "ZERO WIDTH SPACE"),
        ("\uff11\uff12", "FULLWIDTH DIGIT ONE"),
        ("9" * 50, "too large"),
        ("9" * 5000, "too long"),
        ("__import__('os')", "write one"),
        ("2*3", "unknown unit"),
    ],
)
def test_length_refused_by_name(text, why):
    with pytest.raises(UnitError) as caught:
        parse_length(text, "mm")
    assert why in caught.value.hint
    assert isinstance(caught.value, ValueError)


def test_unit_error_survives_a_process_boundary():
    error = UnitError("1e3", "a length", "write it out")
    back = pickle.loads(pickle.dumps(error))
    assert (back.found, back.allowed, back.hint, str(back)) == ("1e3", "a length", "write it out", str(error))


@pytest.mark.parametrize(
    ("text", "mm"), [("-3", -3.0), ("\u22123", -3.0), ("+3", 3.0), ("-3 7/8 in", -98.425), ("- 3", -3.0)]
)
def test_signs_where_they_are_allowed(text, mm):
    assert parse_length(text, "mm", signed=True) == pytest.approx(mm)


def test_angle_temperature():
    assert parse_angle("45") == parse_angle("45 deg") == parse_angle("45°") == 45.0
    assert parse_angle("1 rad") == pytest.approx(180 / math.pi)
    assert parse_temperature("60") == parse_temperature("60 C") == parse_temperature("60 °C") == 60.0
    assert parse_temperature("140 F") == 60.0  # (F - 32) x 5/9
    assert parse_temperature("-40 F") == parse_temperature("-40") == -40.0
    for parse, text in [(parse_angle, "45 mm"), (parse_temperature, "60 bar"), (parse_angle, "-5")]:
        with pytest.raises(UnitError):
            parse(text)


@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (parse_flow, "800 m^3/h", 800 / 3600),
        (parse_flow, "800 m³/h", 800 / 3600),
        (parse_flow, "800 M3/H", 800 / 3600),
        (parse_flow, "400 cfm", 400 * 0.028316846592 / 60),  # cubic foot = 0.3048^3 m3
        (parse_flow, "200 l/s", 0.2),
        (parse_pressure, "6 bar", 6e5),
        (parse_pressure, "2.5 kPa", 2500.0),
        (parse_pressure, "10 inH2O", 2490.89),  # 249.089 Pa: NIST SP 811, Appendix B (4 degC)
        (parse_pressure, "10 in H2O", 2490.89),
        (parse_pressure, "1 psi", 6894.757293168),  # NIST SP 811, Appendix B
        (parse_force, "12 N", 12.0),
        (parse_force, "1 lbf", 4.4482216152605),  # NIST SP 811, exact
    ],
)
def test_quantities_with_a_unit(parse, text, value):
    assert parse(text) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("parse", "text", "hint"),
    [
        (parse_flow, "800", "write the unit"),
        (parse_pressure, "6", "write the unit"),
        (parse_force, "12", "write the unit"),
        (parse_force, "3 lb", "lbf"),
        (parse_force, "3 kg", "9.8"),
        (parse_pressure, "3 mPa", "MPa"),
        (parse_pressure, "3 pascal", "unknown unit"),
    ],
)
def test_quantities_refused(parse, text, hint):
    with pytest.raises(UnitError, match=hint):
        parse(text)


def test_numbers_and_counts():
    assert parse_number("0.002") == 0.002
    assert parse_number("1/4") == 0.25
    assert parse_count("4") == 4
    for text in ("4.0", "04", "1e1", "-4", "four", "4 mm", ""):
        with pytest.raises(UnitError):
            parse_count(text)
    with pytest.raises(UnitError, match="leave 'mm' away"):
        parse_number("3 mm")


@pytest.mark.parametrize(
    ("text", "deviations"),
    [
        ("0.3", (-0.3, 0.3)),
        ("±0.3", (-0.3, 0.3)),
        ("+0.3/0", (0.0, 0.3)),
        ("+0.3 / -0.1", (-0.1, 0.3)),
        ("0/-0.5", (-0.5, 0.0)),
        ("\u22120.7/0", (-0.7, 0.0)),
        ("1/64 in", (-0.396875, 0.396875)),
    ],
)
def test_tolerance(text, deviations):
    assert parse_tolerance(text, "mm") == pytest.approx(deviations)


@pytest.mark.parametrize("text", ["+0.3/+0.1", "-0.3", "0.3/0.1/0", "1e-1", "+0,3/0"])
def test_tolerance_refused(text):
    with pytest.raises(UnitError):
        parse_tolerance(text, "mm")


@pytest.mark.parametrize(
    ("mm", "units", "text"),
    [
        (107.061, "mm", "107.06 mm"),
        (98.4, "mm", "98.4 mm"),
        (100.0, "mm", "100 mm"),
        (-0.001, "mm", "0 mm"),
        (-1.5, "mm", "-1.5 mm"),
        (98.425, "in", "3.875 in (3 7/8)"),
        (101.6, "in", "4 in"),
        (7.9375, "in", "0.312 in (5/16)"),
        (107.061, "in", "4.215 in"),
        (-12.7, "in", "-0.5 in (-1/2)"),
    ],
)
def test_format_length(mm, units, text):
    assert format_length(mm, units) == text


def test_format_other_quantities():
    assert format_length(98.425, "in", fraction=False, unit=False) == "3.875"
    assert (format_volume(16387.064, "mm"), format_volume(16387.064, "in")) == ("16.4 cm3", "1 in3")
    assert (format_mass(28.349523125, "mm"), format_mass(28.349523125, "in")) == ("28 g", "1 oz")
    assert (format_flow(400 * 0.028316846592 / 60, "in"), format_flow(800 / 3600, "mm")) == ("400 cfm", "800 m3/h")
    assert (format_speed(20.32, "in"), format_speed(20.32, "mm")) == ("4000 ft/min", "20.3 m/s")
    assert (format_pressure(2490.89, "in"), format_pressure(2490.89, "mm")) == ("10 inH2O", "2491 Pa")
    assert (format_force(150.0, "mm"), format_temperature(60.0, "in")) == ("150 N", "140 F")
