"""Random offset adapters between sections of every kind: what is built is sound, what is not is refused by its key."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from .random_sections import random_sections
from .test_properties import PER_TEST, tried


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, 60, PER_TEST))
def test_random_sections_along_bends(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("bend of a section", lambda seed: random_sections(seed, "offset_adapter"), start, record_property)
