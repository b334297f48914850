"""The worked examples in the docstrings come out as they stand there."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

from fitwright.physics import slide

MODULES = sorted(one.name for one in pkgutil.iter_modules(slide.__path__))


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    module = importlib.import_module(f"fitwright.physics.slide.{name}")
    assert doctest.testmod(module).failed == 0
