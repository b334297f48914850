"""The JSON Schema of the YAML, generated from the grammar, so that an editor completes and checks it.

`python -m fitwright.spec.schema` writes docs/fitwright.schema.json anew.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, cast

from pydantic.json_schema import models_json_schema

from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.families import FAMILIES
from fitwright.spec.grammar.measuring import MEASURES
from fitwright.spec.grammar.own_materials import OwnMaterialKeys
from fitwright.spec.grammar.own_printers import OwnPrinterKeys
from fitwright.spec.grammar.prints import PrintsKeys
from fitwright.spec.grammar.runs import RUNS
from fitwright.spec.grammar.values import Length

Schema = dict[str, Any]

_LENGTH: Schema = {"anyOf": Length().json_forms()}
_OTHERS = (PrintsKeys, OwnPrinterKeys, OwnMaterialKeys)
"""Files that are neither parts nor readings."""
SCHEMA_FILE = Path("docs") / "fitwright.schema.json"


def schema() -> Schema:
    """The schema of a file: a part, several that share keys, readings, a hose run, a log of prints, or a profile."""
    _, generated = models_json_schema([(model, "validation") for model in _listed()])
    definitions = {name: _tidied(one) for name, one in generated["$defs"].items()}
    families = [definitions[family.__name__] for family in FAMILIES.values()]
    for word, family in zip(FAMILIES, families, strict=True):
        family["properties"]["part"] = {"const": word, "description": family["properties"]["part"]["description"]}
    for word, keys in MEASURES.items():
        told = definitions[keys.__name__]["properties"]["measure"]
        definitions[keys.__name__]["properties"]["measure"] = {"const": word, "description": told["description"]}
    for word, run in RUNS.items():
        told = definitions[run.__name__]["properties"]["hose_run"]
        definitions[run.__name__]["properties"]["hose_run"] = {"const": word, "description": told["description"]}
    definitions["Length"] = {**_LENGTH, "description": "A length: 98.4, 98.4 mm, 3 7/8 in; plain in the file's units."}
    definitions["SeveralParts"] = _several(families)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Fitwright part",
        "description": "Plain numbers are in the file's units (mm if absent); a length may carry its own: 3 7/8 in.",
        "anyOf": [{"$ref": f"#/$defs/{name}"} for name in (*_names(), "SeveralParts")],
        "$defs": definitions,
    }


def schema_text() -> str:
    """The schema as the file holds it."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def write_schema(root: Path) -> Path:
    """Write docs/fitwright.schema.json below the project's root; returns its path."""
    path = root / SCHEMA_FILE
    path.write_text(schema_text(), encoding="utf-8")
    return path


def _listed() -> list[type[Grammar]]:
    return [*FAMILIES.values(), *MEASURES.values(), *RUNS.values(), *_OTHERS]


def _names() -> list[str]:
    return [model.__name__ for model in _listed()]


def _several(families: list[Schema]) -> Schema:
    """Top keys are defaults for each entry of `parts`; what is required may stand in either place."""
    properties: Schema = {}
    for family in families:
        properties.update(family["properties"])
    properties["part"] = {"enum": list(FAMILIES), "description": f"The family: {' or '.join(FAMILIES)}; no unit."}
    entry = {"type": "object", "additionalProperties": False, "properties": dict(properties)}
    listed = {
        "type": "array",
        "minItems": 1,
        "items": entry,
        "description": "Several parts; each takes the other keys of the file where it has none of its own (no unit).",
    }
    shared = {key: value for key, value in properties.items() if key != "name"}
    return {
        "type": "object",
        "additionalProperties": False,
        "required": ["parts"],
        "properties": {"parts": listed, **shared},
    }


def _tidied(node: Any) -> Any:
    """Without titles, null for what is absent, and defaults that are no plain value; lengths by reference."""
    if isinstance(node, list):
        return [_tidied(one) for one in node]
    if not isinstance(node, dict):
        return node
    tidy = {key: _tidied(value) for key, value in node.items() if not (key == "title" and isinstance(value, str))}
    if tidy.get("default", 0) is None or isinstance(tidy.get("default"), list | dict):
        del tidy["default"]
    if "anyOf" in tidy:
        forms = [form for form in tidy.pop("anyOf") if form != {"type": "null"}]
        if forms[:2] == _LENGTH["anyOf"]:
            forms[:2] = [{"$ref": "#/$defs/Length"}]
        tidy = {**(forms[0] if len(forms) == 1 else {"anyOf": forms}), **tidy}
    return cast(Schema, tidy)


if __name__ == "__main__":
    write_schema(Path.cwd())
