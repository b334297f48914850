"""Text from the YAML -> mm, degrees, deg C, m3/s, Pa, N; and numbers -> text in the file's units.

A quantity is a number and a unit: `98.4 mm`, `3 7/8 in`, `3-7/8 in`, `4"`, `800 m^3/h`, `6 bar`, `45 deg`.
A plain number is in the file's units where it is a length, in degrees where it is an angle, in deg C where it is a
temperature; flows, pressures and forces always carry a unit. A bare fraction (`5/16`, `3 7/8`) is in inches whatever
the file says: nobody writes fractions of a millimetre. Anything that could be read in two ways is refused by name.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from difflib import get_close_matches
from fractions import Fraction
from math import pi
from typing import Literal

Units = Literal["mm", "in"]

MM_PER_INCH = 25.4
"""Exact by definition (international yard and pound agreement, 1959)."""

LENGTHS_MM: Mapping[str, float] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), 1.0),
    "cm": 10.0,
    "m": 1000.0,
    **dict.fromkeys(("in", "inch", "inches", '"', "''"), MM_PER_INCH),
    **dict.fromkeys(("ft", "foot", "feet"), 304.8),
}
ANGLES_DEG: Mapping[str, float] = {**dict.fromkeys(("deg", "degree", "degrees", "°"), 1.0), "rad": 180.0 / pi}
_CUBIC_FOOT_M3 = 0.3048**3
FLOWS_M3_S: Mapping[str, float] = {
    "m3/s": 1.0,
    "m3/h": 1 / 3600,
    "m3/min": 1 / 60,
    "l/s": 1e-3,
    "l/min": 1e-3 / 60,
    **dict.fromkeys(("cfm", "ft3/min"), _CUBIC_FOOT_M3 / 60),
}
_PSI_PA = 4.4482216152605 / 0.0254**2
PRESSURES_PA: Mapping[str, float] = {
    "Pa": 1.0,
    **dict.fromkeys(("hPa", "mbar"), 100.0),
    "kPa": 1e3,
    **dict.fromkeys(("MPa", "N/mm2"), 1e6),
    "bar": 1e5,
    "psi": _PSI_PA,
    **dict.fromkeys(("inH2O", "inwg"), 249.089),
    "mmH2O": 9.80665,
}
"""Inch of water at 4 degC, 249.089 Pa; psi from the pound-force 4.4482216152605 N, exact."""
FORCES_N: Mapping[str, float] = {"N": 1.0, "kN": 1e3, "lbf": 4.4482216152605, "kgf": 9.80665}
MASSES_KG: Mapping[str, float] = {
    **dict.fromkeys(("kg", "kilogram", "kilograms"), 1.0),
    **dict.fromkeys(("g", "gram", "grams"), 1e-3),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), 0.45359237),
    "oz": 0.028349523125,
}
"""The pound is exact by definition, the ounce a sixteenth of it."""
TIMES_S: Mapping[str, float] = {**dict.fromkeys(("s", "sec", "second", "seconds"), 1.0), "ms": 1e-3}
TEMPERATURES: Mapping[str, float] = {
    **dict.fromkeys(("C", "degC", "°C"), 1.0),
    **dict.fromkeys(("F", "degF", "°F"), 5 / 9),
}

_MEANT: Mapping[str, str] = {
    "'": "ft for feet, in for inches",
    "cal": "in",
    "mil": "mm, or in (0.001 in)",
    "lb": "lbf",
    "lbs": "lbf",
    "kg": "N (1 kg weighs 9.8 N) or kgf",
    "mPa": "MPa",
    "K": "C",
}
_SAME_CHARACTER = str.maketrans(
    {
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\t", " "),
        **dict.fromkeys("\u201c\u201d\u2033\u02ba\u201f", '"'),
        **dict.fromkeys("\u2018\u2019\u2032\u02b9", "'"),
        **dict.fromkeys("\u2212\u2013\u2010\u2011", "-"),
        "\u2044": "/",
        "³": "3",
        "²": "2",
        "\u2082": "2",
        "º": "°",
    }
)
_FRACTION_SIGN = re.compile("[¼½¾⅐-⅞]")
_FRACTION = r"(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)"
_NUMBER = rf"(?:{_FRACTION}|(?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+))"
_QUANTITY = re.compile(rf"(?P<sign>[+-]?)\s*{_NUMBER}\s*(?P<unit>[^0-9\s.].*)?")
_REFUSED: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), why)
    for pattern, why in (
        (r"", "nothing is written here; write a number"),
        (r"~|null|none", "nothing is written here; write a number"),
        (r"true|false|yes|no|on|off", "this is a yes/no word; write a number"),
        (r"[+-]?\.?(inf|infinity|nan)\b.*", "not a finite number; write one"),
        (r"[+-]?[0-9]+(,[0-9]{3})+(?![0-9]).*", "a comma can mean two things; write {nocomma}; decimals take a point"),
        (r"[+-]?[0-9]*,[0-9]+.*", "decimals are written with a point; write {point}"),
        (r"[+-]?0x.*", "hexadecimal is not read; write the number in tens"),
        (r"[+-]?[0-9]+_[0-9_.]+.*", "no underscores in numbers; write {plain}"),
        (r"[+-]?[0-9]+:[0-9:.]+.*", "a colon is read as a time; write one number with its unit"),
        (r"[+-]?[0-9.]+e[+-]?[0-9]+.*", "powers of ten are not read; write the number out"),
        (r"[+-]?0[0-9]+.*", "no leading zeros; write {zeroless}"),
        (r"[+-]?[0-9.]+\s+[0-9.]+(?!\s*/)(?![0-9.]).*", "two numbers; write one (places are maps, readings are lists)"),
        (r"[0-9.]+\s*(-|to)\s*[0-9.]+(?!\s*/)(?![0-9.]).*", "a range; write one number (a spread has its own keys)"),
        (r"\D*", "no number is written here; write one"),
    )
)


class UnitError(ValueError):
    """A text is not the quantity it should be: `found` as written, `allowed` what would do, `hint` the cure."""

    def __init__(self, found: str, allowed: str, hint: str = "") -> None:
        super().__init__(f"found {found!r}; allowed: {allowed}" + (f". {hint}" if hint else ""))
        self.found, self.allowed, self.hint = found, allowed, hint

    def __reduce__(self) -> tuple[type[UnitError], tuple[str, str, str]]:
        return UnitError, (self.found, self.allowed, self.hint)


def parse_length(text: str, units: Units = "mm", *, signed: bool = False) -> float:
    """The length [mm]; a plain number is in `units`, a bare fraction in inches.

    >>> parse_length("3 7/8 in", "mm")
    98.425
    """
    allowed = f'a length such as 98.4, 98.4 mm, 3 7/8 in, 4" (plain numbers are in {units})'
    number, unit, fraction = _read(text, allowed, signed)
    if not unit:
        return _times(number, MM_PER_INCH if fraction or units == "in" else 1.0)
    return _times(number, _factor(text, unit, LENGTHS_MM, allowed, any_case=True))


def parse_angle(text: str, *, signed: bool = False) -> float:
    """The angle [deg]; a plain number is in degrees."""
    allowed = "an angle such as 45 deg (plain numbers are degrees)"
    number, unit, _ = _read(text, allowed, signed)
    return _times(number, _factor(text, unit or "deg", ANGLES_DEG, allowed, any_case=True))


def parse_temperature(text: str, *, signed: bool = True) -> float:
    """The temperature [deg C]; a plain number is in deg C."""
    allowed = "a temperature such as 60 C or 140 F (plain numbers are deg C)"
    number, unit, _ = _read(text, allowed, signed)
    factor = _factor(text, unit or "C", TEMPERATURES, allowed, any_case=True)
    return float(number) if factor == 1.0 else float((number - 32) * Fraction(5, 9))


def parse_flow(text: str, *, signed: bool = False) -> float:
    """The air flow [m3/s]; the unit must be written."""
    return _with_unit(text, FLOWS_M3_S, "an air flow with its unit, such as 800 m^3/h, 400 cfm, 200 l/s", signed, True)


def parse_pressure(text: str, *, signed: bool = False) -> float:
    """The pressure [Pa]; the unit must be written, capitals as they are (MPa, kPa)."""
    return _with_unit(text, PRESSURES_PA, "a pressure with its unit, such as 6 bar, 2.5 kPa, 10 inH2O", signed, False)


def parse_force(text: str, *, signed: bool = False) -> float:
    """The force [N]; the unit must be written."""
    return _with_unit(text, FORCES_N, "a force with its unit, such as 12 N or 3 lbf", signed, False)


def parse_mass(text: str, *, signed: bool = False) -> float:
    """The mass [kg]; the unit must be written."""
    return _with_unit(text, MASSES_KG, "a mass with its unit, such as 0.3 kg, 300 g or 10 oz", signed, True)


def parse_time(text: str, *, signed: bool = False) -> float:
    """The time [s]; the unit must be written."""
    return _with_unit(text, TIMES_S, "a time with its unit, such as 2 s", signed, False)


def parse_number(text: str, *, signed: bool = False) -> float:
    """A number without a unit (`0.002`, `1/3`)."""
    allowed = "a plain number, without a unit"
    number, unit, _ = _read(text, allowed, signed)
    if unit:
        raise UnitError(text, allowed, f"leave {unit!r} away")
    return float(number)


def parse_count(text: str) -> int:
    """A whole number, 0 or more, without a unit (`4`)."""
    if not re.fullmatch(r"0|[1-9][0-9]{0,5}", text.strip()):
        number = parse_number(text)
        raise UnitError(text, "a whole number such as 4", f"{number:g} is not written as a whole number")
    return int(text)


def parse_tolerance(text: str, units: Units = "mm") -> tuple[float, float]:
    """The lower and upper deviation [mm] of `0.3`, `±0.3`, `+0.3/0`, `0/-0.5`, `+0.3/-0.1`."""
    allowed = f"a tolerance such as 0.3, +0.3/0, +0.3/-0.1 (plain numbers are in {units})"
    body = text.translate(_SAME_CHARACTER).strip()
    halves = re.fullmatch(r"([+-][^/]+|0)/\s*([+-].+|0)", body)
    if not halves:
        both = parse_length(body.removeprefix("±").removeprefix("+/-"), units)
        return -both, both
    ends = sorted(parse_length(half, units, signed=True) for half in halves.groups())
    if ends[0] > 0 or ends[1] < 0:
        raise UnitError(text, allowed, "one side must be at or above 0, the other at or below")
    return ends[0], ends[1]


def _with_unit(text: str, table: Mapping[str, float], allowed: str, signed: bool, any_case: bool) -> float:
    number, unit, _ = _read(text, allowed, signed)
    if not unit:
        raise UnitError(text, allowed, f"write the unit: {', '.join(table)}")
    return _times(number, _factor(text, unit, table, allowed, any_case=any_case))


def _times(number: Fraction, factor: float) -> float:
    """The product, rounded once: 1 1/2 in is 38.1 mm and not 38.099999999999994."""
    return float(number * Fraction(str(factor)))


def plain_text(text: str) -> str:
    """The text with curly inch marks, fraction signs, no-break spaces and the like written in plain characters."""
    return _FRACTION_SIGN.sub(_as_fraction, text).translate(_SAME_CHARACTER).strip()


def _read(text: str, allowed: str, signed: bool) -> tuple[Fraction, str, bool]:
    """Number, unit as written without spaces and carets, and whether the number was a fraction."""
    body = plain_text(text)
    _refuse_strangers(text, body, allowed)
    match = _QUANTITY.fullmatch(body)
    if not match:
        raise UnitError(text, allowed, "write one number and, where it needs one, its unit")
    if match["sign"] and not signed:
        raise UnitError(text, allowed, f"a {'minus' if match['sign'] == '-' else 'plus'} sign has no meaning here")
    number = Fraction(match["decimal"]) if match["decimal"] else _fraction(text, match, allowed)
    if number > 10**12:
        raise UnitError(text, allowed, "far too large")
    unit = re.sub(r"[\s^]", "", match["unit"] or "").removesuffix(".")
    return (-number if match["sign"] == "-" else number), unit, not match["decimal"]


def _as_fraction(match: re.Match[str]) -> str:
    value = Fraction(unicodedata.numeric(match[0])).limit_denominator(10)
    return f" {value.numerator}/{value.denominator}"


def _refuse_strangers(text: str, body: str, allowed: str) -> None:
    if len(text) > 60:
        raise UnitError(text[:30] + "...", allowed, "far too long for one number")
    for character in body:
        if character not in "°±" and not " " <= character <= "~":
            name = unicodedata.name(character, f"U+{ord(character):04X}")
            raise UnitError(text, allowed, f"the character {name} cannot be read; type it again")
    for pattern, why in _REFUSED:
        if pattern.fullmatch(body):
            cures = {
                "nocomma": body.replace(",", ""),
                "point": body.replace(",", ".", 1),
                "plain": body.replace("_", ""),
                "zeroless": re.sub(r"^([+-]?)0+(?=[0-9])", r"\1", body),
            }
            raise UnitError(text, allowed, why.format(**cures))


def _fraction(text: str, match: re.Match[str], allowed: str) -> Fraction:
    whole, over, under = int(match["whole"] or 0), int(match["over"]), int(match["under"])
    if under == 0:
        raise UnitError(text, allowed, "nothing can be divided by 0")
    if match["whole"] and not 0 < over < under:
        raise UnitError(text, allowed, f"{over}/{under} is no part of a whole; write a fraction less than 1")
    return whole + Fraction(over, under)


def _factor(text: str, unit: str, table: Mapping[str, float], allowed: str, *, any_case: bool) -> float:
    if unit in table:
        return table[unit]
    if any_case:
        for name, factor in table.items():
            if name.casefold() == unit.casefold():
                return factor
    near = get_close_matches(unit.casefold(), [name.casefold() for name in table], n=1, cutoff=0.5)
    meant = _MEANT.get(unit) or next((name for name in table if near and name.casefold() == near[0]), "")
    hint = f"unknown unit {unit!r}" + (f"; did you mean {meant}?" if meant else "")
    raise UnitError(text, allowed, hint)


def format_number(value: float, decimals: int) -> str:
    """`value` rounded, without trailing zeros and without a negative zero."""
    rounded = round(float(value), decimals)
    text = f"{rounded:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def format_length(mm: float, units: Units, *, fraction: bool = True, unit: bool = True) -> str:
    """`98.43 mm`, or `3.875 in (3 7/8)`: the fraction only where the length is a 64th of an inch within 0.0005 in."""
    if units == "mm":
        return format_number(mm, 2) + (" mm" if unit else "")
    inches = float(mm) / MM_PER_INCH
    text = format_number(inches, 3) + (" in" if unit else "")
    return text + (_inch_fraction(inches) if fraction else "")


def _inch_fraction(inches: float) -> str:
    nearest = Fraction(round(abs(inches) * 64), 64)
    if nearest.denominator == 1 or abs(abs(inches) - float(nearest)) > 0.0005:
        return ""
    whole, rest = divmod(nearest.numerator, nearest.denominator)
    sign = "-" if inches < 0 else ""
    return f" ({sign}{f'{whole} ' if whole else ''}{rest}/{nearest.denominator})"


def format_angle(deg: float) -> str:
    """`7.5 deg`."""
    return f"{format_number(deg, 1)} deg"


def format_area(mm2: float, units: Units) -> str:
    """`78.5 cm2` or `12.2 in2`."""
    return f"{format_number(mm2 / 100, 1)} cm2" if units == "mm" else f"{format_number(mm2 / MM_PER_INCH**2, 1)} in2"


def format_volume(mm3: float, units: Units) -> str:
    """`120.5 cm3` or `7.35 in3`."""
    return f"{format_number(mm3 / 1000, 1)} cm3" if units == "mm" else f"{format_number(mm3 / MM_PER_INCH**3, 2)} in3"


def format_mass(g: float, units: Units) -> str:
    """`155 g` or `5.5 oz` (1 oz = 28.349523125 g)."""
    return f"{format_number(g, 0)} g" if units == "mm" else f"{format_number(g / 28.349523125, 1)} oz"


def format_flow(m3_s: float, units: Units) -> str:
    """`800 m3/h` or `471 cfm`."""
    return (
        f"{format_number(m3_s * 3600, 0)} m3/h"
        if units == "mm"
        else f"{format_number(m3_s / FLOWS_M3_S['cfm'], 0)} cfm"
    )


def format_speed(m_s: float, units: Units) -> str:
    """`20.3 m/s` or `4000 ft/min`."""
    return f"{format_number(m_s, 1)} m/s" if units == "mm" else f"{format_number(m_s * 60 / 0.3048, 0)} ft/min"


def format_pressure(pa: float, units: Units) -> str:
    """`2490 Pa` or `10 inH2O`."""
    return f"{format_number(pa, 0)} Pa" if units == "mm" else f"{format_number(pa / PRESSURES_PA['inH2O'], 2)} inH2O"


def format_force(n: float, units: Units) -> str:
    """`150 N` or `33.7 lbf`."""
    return f"{format_number(n, 1)} N" if units == "mm" else f"{format_number(n / FORCES_N['lbf'], 1)} lbf"


def format_temperature(c: float, units: Units) -> str:
    """`60 C` or `140 F`."""
    return f"{format_number(c, 0)} C" if units == "mm" else f"{format_number(c * 9 / 5 + 32, 0)} F"
