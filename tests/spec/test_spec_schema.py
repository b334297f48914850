"""The JSON Schema: committed as generated, admits what the loader admits, says something of every key."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from yaml_cases import MINIMUM

from fitwright.errors import SpecError
from fitwright.spec.grammar.own_materials import read_material_profile
from fitwright.spec.grammar.own_printers import read_profile
from fitwright.spec.load import load_file, load_text
from fitwright.spec.measure_file import asked_of_file
from fitwright.spec.print_store import prints_in
from fitwright.spec.run_file import run_of_file
from fitwright.spec.schema import SCHEMA_FILE, schema, schema_text, write_schema
from fitwright.spec.template import TEMPLATES, template
from fitwright.spec.text_file import kind_of

ROOT = Path(__file__).parents[2]
CHECKER = jsonschema.Draft202012Validator(schema())
UNIT_WORDS = ("file's units", "no unit", "unit", "degrees", "deg C", "mm", "whole number", "plain number", "g/cm3")


def properties(node: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    if isinstance(node, dict):
        for name, one in node.get("properties", {}).items() if isinstance(node.get("properties"), dict) else ():
            yield f"{path}.{name}", one
        for key, value in node.items():
            yield from properties(value, f"{path}/{key}")
    elif isinstance(node, list):
        for value in node:
            yield from properties(value, path)


def test_the_committed_schema_is_the_generated_one() -> None:
    assert (ROOT / SCHEMA_FILE).read_text(encoding="utf-8") == schema_text(), "run python -m fitwright.spec.schema"


def test_it_is_written_where_it_is_committed(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    assert write_schema(tmp_path).read_text(encoding="utf-8") == schema_text()


def test_it_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


def test_every_key_says_what_it_is_and_in_which_unit() -> None:
    found = list(properties(schema()))
    assert len(found) > 100
    for path, one in found:
        assert any(word in one.get("description", "") for word in UNIT_WORDS), path


CONFIGS = sorted((ROOT / "configs").rglob("*.yaml"))


@pytest.mark.parametrize("path", CONFIGS, ids=lambda path: path.stem)
def test_every_example_passes_schema_and_loader(path: Path) -> None:
    CHECKER.validate(yaml.safe_load(path.read_text(encoding="utf-8")))
    read = {
        "part": load_file,
        "measure": asked_of_file,
        "prints": prints_in,
        "printer_profile": read_profile,
        "material_profile": read_material_profile,
        "hose_run": run_of_file,
    }
    assert read[kind_of(path)](path)


@pytest.mark.parametrize("family", TEMPLATES)
def test_every_template_passes(family: str) -> None:
    CHECKER.validate(yaml.safe_load(template(family)))


@pytest.mark.parametrize(
    "text",
    [
        "wall: 3 7/8 in",
        'wall: 1/8"',
        "wall: ½ in",
        "wall: auto",
        "half_angle: 10 deg",
        "name: 110",
        "units: in",
        "near_heat: 60",
        "near_heat: 140 F",
        "printer: generic_220",
        "printer: {bed_x: 250, nozzle: 0.6}",
        "material: {name: PETG, strength: 40 MPa}",
        "air: {flow: 800 m^3/h, from: end_b}",
        "eccentricity: {right: 3, down: 2 mm}",
        "line: nested",
        "end_a: {socket: {over: [110.2, 110.5, 109.9], clamp: {}, screws: {size: No. 8}}}",
        "end_a: {socket: {over: {circumference: 347}}}",
        "end_a: {socket: {over: {catalogue: 110, tolerance: +0.3/0}}}",
        "end_a: {socket: {over: {catalogue: 110, tolerance: 0.3}}}",
        "end_a: {spigot: {into: {end: [58, 59], further: {circumference: 190}, apart: 30}}}",
        "end_a: {socket: {pipe: EN 1401 DN 110}}",
        "end_a: {flange: {round: 160, washers: yes, holes: {count: 4, circle: 130, size: M6, first_at: 45}}}",
        "end_a: {flange: {rectangle: {width: 9 in, height: 9 in}, holes: {points: [{up: 60}, {down: 60}], size: M6}}}",
        "envelope: {keep_clear: [{floor: 30}, {point: {up: 3}, normal: {up: 1}}, {wall: up, at: 3, label: x}]}",
        "envelope: {stay_inside: [{box: {left: 1, right: 1, up: 1, down: 1, toward: 1, away: 1}}]}",
        "envelope: {keep_clear: [{round_bar: {from: {up: 1}, to: {up: 9}, diameter: 33}, clearance: 1}]}",
        "envelope: {keep_clear: [{cone: {from: {up: 1}, to: {up: 9}, diameter_from: 3, diameter_to: 4}}]}",
        "envelope: {keep_clear: [{mesh: a.stl}]}",
    ],
)
def test_it_admits_every_form(text: str) -> None:
    CHECKER.validate({**yaml.safe_load(MINIMUM), **yaml.safe_load(text)})


@pytest.mark.parametrize(
    "text",
    [
        "wal: 3",
        "wall: thick",
        "wall: 100,5",
        "part: reducr",
        "line: level up",
        "units: cm",
        "end_a: {socket: {diameter: 3}}",
        "end_a: {socket: {over: {circumfrence: 347}}}",
        "end_a: [3]",
        "printer: {bed: 3}",
        "envelope: {keep_clear: [{wall: top, at: 3}]}",
        "angle: 30",
    ],
)
def test_it_refuses_what_an_editor_should_mark(text: str) -> None:
    assert not CHECKER.is_valid({**yaml.safe_load(MINIMUM), **yaml.safe_load(text)})
    with pytest.raises(SpecError):
        load_text(yaml.safe_dump({**yaml.safe_load(MINIMUM), **yaml.safe_load(text)}))


def test_several_parts_and_what_they_share() -> None:
    shared = {"part": "reducer", "wall": 3, "parts": [{"name": "a", "end_a": {"socket": {"over": 80}}}]}
    CHECKER.validate(shared)
    assert not CHECKER.is_valid({**shared, "parts": []})
    assert not CHECKER.is_valid({**shared, "wal": 3})
