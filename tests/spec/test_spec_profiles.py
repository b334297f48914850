"""Printer and material: by name, by map, by name with changes."""

from __future__ import annotations

import pytest
from yaml_cases import MINIMUM, loaded, refused


def test_a_printer_by_name_and_with_changes() -> None:
    printer = loaded(f"{MINIMUM}printer: Generic_256\n").printer
    assert (printer.name, printer.bed_x_mm) == ("generic_256", 256.0)
    printer = loaded(f"{MINIMUM}printer: {{name: generic_256, nozzle: 0.6, layer: 0.3, hole_offset: -0.15}}\n").printer
    assert (printer.bed_y_mm, printer.nozzle_mm, printer.hole_offset_mm) == (256.0, 0.6, -0.15)
    assert printer.line_mm == pytest.approx(1.05 * 0.6)


def test_a_printer_of_ones_own() -> None:
    text = "printer: {name: old one, bed_x: 8 in, bed_y: 200, bed_z: 180, scale_xy: 0.996, scatter_rel: 0.003}\n"
    printer = loaded(MINIMUM + text).printer
    assert (printer.name, printer.bed_x_mm, printer.bed_z_mm) == ("old one", pytest.approx(203.2), 180.0)
    assert (printer.scale_xy, printer.scatter_rel, printer.scatter_abs_mm) == (0.996, 0.003, 0.1)


def test_a_material_with_changes() -> None:
    material = loaded(
        f"{MINIMUM}material: {{name: ASA, strength: 40 MPa, density: 1.05, strain_limit: 0.003}}\n"
    ).material
    assert (material.name, material.strength_mpa, material.density_g_cm3) == ("ASA", 40.0, 1.05)
    assert material.strain_limit == 0.003


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ("printer: generic_200", "printer", "did you mean generic_"),
        ("printer: {bed: 200}", "printer.bed", "write bed_x, bed_y, bed_z"),
        ("printer: {bed_x: 20}", "printer.bed_x", "50 mm to 2000 mm"),
        ("printer: {layer: 0.5}", "printer.layer", "0.34 mm"),
        ("printer: {line: 2}", "printer.line", "0.32 to 0.80 mm"),
        ("printer: {scale_xy: 1.5}", "printer.scale_xy", "0.9 to 1.1"),
        ("printer: [220, 220]", "printer", "readings"),
        ("material: wood", "material", "PLA | PETG | ABS | ASA | PA | TPU"),
        ("material: {density: 3}", "material.name", "a filament to start from"),
        ("material: {name: PETG, strength: 40}", "material.strength", "write the unit"),
        ("material: {name: wood}", "material.name", "PLA | PETG"),
    ],
)
def test_profiles_that_make_no_sense(text: str, key: str, words: str) -> None:
    problem = refused(f"{MINIMUM}{text}\n")[0]
    assert problem.key == key
    assert words in f"{problem.allowed} {problem.hint}"
