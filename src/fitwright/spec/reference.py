"""docs/yaml.md: every key of the YAML with its values, unit, default and an example, drawn from the grammar models.

`python -m fitwright.spec.reference` writes the page anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

from pydantic.fields import FieldInfo

from fitwright.spec.grammar import measured, parts, profiles
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.gate_values import AirPressure, Readings
from fitwright.spec.grammar.measuring.printer import read_readings
from fitwright.spec.grammar.measuring.several import Several
from fitwright.spec.grammar.printer_settings import PrinterSettings
from fitwright.spec.grammar.values import Angle, Context, Length, Temperature, Text, Words, YesNo, _Read
from fitwright.spec.key_examples import example_of
from fitwright.spec.reference_sections import INTRODUCTION, NOTES, SECTIONS

PAGE = Path("docs") / "yaml.md"
_CONTEXT = Context()
_UNITS: dict[type, str] = {Length: " mm", Angle: " deg", Temperature: " C"}


def reference_markdown() -> str:
    """The page as markdown, with a trailing newline."""
    lines = [INTRODUCTION]
    for title, models in SECTIONS:
        lines += [f"## {title}", ""]
        lines += [NOTES[title], ""] if title in NOTES else []
        for name, model in models:
            lines += _section(name, model)
    return "\n".join(lines).rstrip() + "\n"


def write_reference(root: Path) -> Path:
    """Write docs/yaml.md below the project's root; returns its path."""
    path = root / PAGE
    path.write_text(reference_markdown(), encoding="utf-8")
    return path


def models() -> list[type[Grammar]]:
    """All grammar models on the page."""
    return [model for _, listed in SECTIONS for _, model in listed]


def fields_of(model: type[Grammar]) -> Iterator[tuple[str, FieldInfo]]:
    """(key, field) for the keys that the page lists under this model: of a family only those of its own."""
    shared = {name for base in (parts.PartKeys, parts.AdapterKeys) if _below(model, base) for name in base.model_fields}
    for key in model.keys():
        name = next(n for n, info in model.model_fields.items() if (info.alias or n) == key)
        families = issubclass(model, parts.PartKeys) and model not in (parts.PartKeys, parts.AdapterKeys)
        if families if name == "part" and issubclass(model, parts.PartKeys) else name not in shared:
            yield key, model.model_fields[name]


def _below(model: type[Grammar], base: type[Grammar]) -> bool:
    return issubclass(model, base) and model is not base


def _section(name: str, model: type[Grammar]) -> list[str]:
    doc = (model.__doc__ or "").strip().splitlines()[0]
    lines = [f"### {name}", "", f"{doc} Such as `{model.example}`.", ""]
    lines += ["| key | values | default | meaning | example |", "|---|---|---|---|---|"]
    for key, info in fields_of(model):
        cells = (
            f"`{key}`",
            values_of(info),
            default_of(info, model),
            info.description or "",
            f"`{example_of(model.__name__, key)}`",
        )
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return [*lines, ""]


def values_of(info: FieldInfo) -> str:
    """What may be written, in words, with the range."""
    said = list(dict.fromkeys(_said(info.annotation, info.metadata)))
    return " or ".join(said) or "a map"


def _said(annotation: Any, metadata: list[Any]) -> Iterator[str]:
    told = [words for one in metadata if (words := _type_words(one))]
    if told:
        yield from told
        return
    if isinstance(annotation, type) and issubclass(annotation, Grammar):
        yield "a map"
        return
    inner = getattr(annotation, "__metadata__", None)
    if inner is not None:
        yield from _said(get_args(annotation)[0], list(inner))
        return
    if getattr(annotation, "__origin__", None) is list:
        yield "a list"
        return
    for one in get_args(annotation):
        if one is not type(None):
            yield from _said(one, [])


def _type_words(one: object) -> str:
    if isinstance(one, _Read):
        return one.allowed(_CONTEXT)
    if isinstance(one, Readings):
        return one.allowed(_CONTEXT)
    if isinstance(one, Several):
        return f"{one.one.allowed(_CONTEXT)}, or a list of them"
    if isinstance(one, Words):
        return ", ".join(f"`{word}`" for word in one.words)
    if isinstance(one, YesNo):
        return "`yes`, `no`"
    if isinstance(one, Text):
        return one.what
    if isinstance(one, measured.TableSize):
        return f"a {one.what} by its name"
    if isinstance(one, measured.Tolerance):
        return "`0.3` (either way), `+0.3/0`"
    return _forms_words(one) if isinstance(one, Forms) else ""


def _forms_words(forms: Forms) -> str:
    if forms.says:
        return forms.says
    if forms.read in (measured.read_measured, measured.read_straight):
        return "a diameter, measured in any way"
    if forms.read is read_readings:
        return "a reading, or a list of readings"
    if forms.read in (profiles.read_printer, profiles.read_material):
        return "a name or a map"
    return "a list" if getattr(forms.ways, "__origin__", None) is list else "a map"


def default_of(info: FieldInfo, model: type[Grammar]) -> str:
    """What holds where the key is absent."""
    if info.is_required():
        return "needed"
    value = info.default
    if isinstance(value, bool):
        return "yes" if value else "no"
    read = next((one for one in info.metadata if isinstance(one, _Read)), None)
    if isinstance(read, AirPressure):
        return read.say(float(value), _CONTEXT)
    if isinstance(value, int | float):
        return f"{value:g}{_UNITS.get(type(read), '')}"
    if isinstance(value, str):
        return f"`{value}`"
    told = _told_default(info.description or "")
    settings = {one.description for one in PrinterSettings.model_fields.values()}
    if not told and (issubclass(model, profiles.MaterialKeys | profiles.PrinterKeys) or info.description in settings):
        return "as the profile says"
    return told or ("auto" if read is not None and read.auto else "none")


def _told_default(description: str) -> str:
    """What the description says of the absent key: `1 mm if absent, 0 for none` -> `1 mm`."""
    clause = next((one for one in re.split(r"[;.] ", description) if "if absent" in one), "")
    before, _, after = clause.partition(" if absent")
    alternative = re.match(r", else [^;.,]+", after)
    words = before.rpartition("units, ")[2].rstrip(",") + (alternative[0] if alternative else "")
    return words[:1].lower() + words[1:] if words[1:2].islower() else words


if __name__ == "__main__":
    write_reference(Path.cwd())
