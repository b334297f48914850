"""The worked examples in all docstrings come out as they stand there."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

import fitwright

ROOT = Path(fitwright.__file__).parent
MODULES = sorted(
    ".".join(("fitwright", *path.relative_to(ROOT).with_suffix("").parts))
    for path in ROOT.rglob("*.py")
    if ">>> " in path.read_text(encoding="utf-8") and path.name != "__init__.py"
)


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted > 0 and found.failed == 0
