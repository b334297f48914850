"""The text of a printer's profile: a plain YAML file with what was measured, how well it is known, and since when."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.measure.printer import Calibration
from fitwright.spec.grammar.measuring.printer import PrinterReadingKeys
from fitwright.spec.models import Printer
from fitwright.units import format_number

_HEAD = """\
# How {name} prints in {material}: made from gauges by `fitwright measure printer`. Lengths in mm.
# A part uses it by `printer: {name}`. Plain text: change what you know better.
"""


def profile_text(keys: PrinterReadingKeys, base: Printer, found: Calibration, day: str, gauges: int) -> str:
    """The whole file. What was not measured is that of the printer it started from."""
    sizes = [one.size_mm for one in keys.gauges]
    lines = [
        ("printer_profile", keys.name, ""),
        ("units", "mm", ""),
        ("like", base.calibration.like if base.calibration else base.name, "the printer of the tables it started from"),
        ("material", _quoted(keys.material), "the filament of the gauges: another one shrinks otherwise"),
        ("measured", f'"{day}"', ""),
        ("gauges", str(gauges), "holes and outsides in the fit"),
        ("smallest", format_number(min(sizes), 3), ""),
        ("largest", format_number(max(sizes), 3), ""),
        *_machine(base),
        *_measured(base, found),
    ]
    body = "".join(f"{f'{key}: {value}':<34}{f'# {why}' if why else ''}".rstrip() + "\n" for key, value, why in lines)
    label = f"# {keys.label}\n" if keys.label else ""
    return f"{label}{_HEAD.format(name=keys.name, material=keys.material)}{body}{_errors(found)}"


def _quoted(text: str) -> str:
    plain = all(letter.isalnum() or letter in " _-" for letter in text)
    return text if plain else "'" + text.replace("'", "''") + "'"


def _machine(base: Printer) -> Iterator[tuple[str, str, str]]:
    for key in ("bed_x", "bed_y", "bed_z", "nozzle", "line", "layer"):
        yield key, format_number(getattr(base, f"{key}_mm"), 3), ""


def _measured(base: Printer, found: Calibration) -> Iterator[tuple[str, str, str]]:
    """Scale, offsets, scatter as the keys of a `printer:` map."""
    if found.scale_x and found.scale_y:
        yield "scale_x", f"{found.scale_x.value:.5f}", "printed over modelled size along the printer's x"
        yield "scale_y", f"{found.scale_y.value:.5f}", "along y"
    else:
        yield "scale_xy", f"{found.scale.value:.5f}", "printed over modelled size"
    for key, kind, kept in (
        ("hole_offset", "hole", base.hole_offset_mm),
        ("outside_offset", "outside", base.outside_offset_mm),
    ):
        one = found.offsets.get(kind)
        yield key, format_number(one.value if one else kept, 3), "on the diameter" if one else "not measured"
    small = found.offsets.get("small hole")
    why = "holes below 10 mm: opened by this, or by the hole offset where that is more"
    yield "small_hole_add", format_number(max(0.0, -small.value) if small else base.small_hole_add_mm, 3), why
    yield "scatter_rel", format_number(found.scatter_rel, 5), "19 of 20 prints lie within scatter_rel x size"
    yield "scatter_abs", format_number(found.scatter_abs_mm, 3), "+ scatter_abs of what is wanted"


def _errors(found: Calibration) -> str:
    """Standard errors as a map."""
    scales = {"scale_x": found.scale_x, "scale_y": found.scale_y} if found.scale_x else {"scale_xy": found.scale}
    names = {"hole": "hole_offset", "outside": "outside_offset", "small hole": "small_hole_add"}
    told = [f"  {key}: {one.error:.5f}" for key, one in scales.items() if one]
    told += [f"  {names[kind]}: {one.error:.3f}" for kind, one in found.offsets.items()]
    return "standard_errors:\n" + "\n".join(told) + "\n"
