"""docs/yaml.md: committed as generated, complete, and each of its examples is read by the key that it stands beside."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any, get_args

import pytest
from pydantic import TypeAdapter

from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.envelope import ObstacleKeys
from fitwright.spec.grammar.families import FAMILIES
from fitwright.spec.grammar.values import Context
from fitwright.spec.key_examples import EXAMPLES, example_of
from fitwright.spec.nodes import read
from fitwright.spec.reference import PAGE, fields_of, models, reference_markdown, write_reference

ROOT = Path(__file__).parents[2]
KEYS = [(model, key) for model in models() for key, _ in fields_of(model)]


def reachable(annotation: Any, metadata: Any = ()) -> Iterator[type[Grammar]]:
    """All grammar models below a type."""
    if isinstance(annotation, type) and issubclass(annotation, Grammar):
        yield annotation
        for info in annotation.model_fields.values():
            yield from reachable(info.annotation, info.metadata)
    for one in (*metadata, *getattr(annotation, "__metadata__", ())):
        if isinstance(one, Forms):
            yield from reachable(one.ways)
    for one in get_args(annotation):
        yield from reachable(one)


def test_the_committed_page_is_the_generated_one() -> None:
    assert (ROOT / PAGE).read_text(encoding="utf-8") == reference_markdown(), "run python -m fitwright.spec.reference"


def test_it_is_written_where_it_is_committed(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    assert write_reference(tmp_path).read_text(encoding="utf-8") == reference_markdown()


def test_every_map_of_the_grammar_is_on_the_page() -> None:
    found = {model for family in FAMILIES.values() for model in reachable(family)}
    assert found - {ObstacleKeys} <= set(models())  # that is what all obstacles share


def test_every_key_has_a_line_with_range_and_meaning() -> None:
    page = reference_markdown()
    for model, key in KEYS:
        (line, *_) = (one for one in page.splitlines() if one.startswith(f"| `{key}` |"))
        assert line.count(" | ") >= 4, (model, line)


@pytest.mark.parametrize(("model", "key"), KEYS, ids=[f"{m.__name__}.{k}" for m, k in KEYS])
def test_its_example_is_read(model: type[Grammar], key: str, tmp_path: Path) -> None:
    (tmp_path / "housing.stl").touch()
    info = dict(fields_of(model))[key]
    kind = Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
    tree = read(f"key: {example_of(model.__name__, key)}", "example.yaml")
    assert not tree.faults and isinstance(tree.value, dict)
    made = TypeAdapter(kind).validate_python(tree.value["key"], context=Context("mm", str(tmp_path)))
    assert made is not None


def test_no_example_is_left_over() -> None:
    used = {name for model, key in KEYS for name in (key, f"{model.__name__}.{key}")}
    assert set(EXAMPLES) <= used
