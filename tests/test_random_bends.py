"""Random offset adapters between sections of every kind: what is built is sound, what is not is refused by its key."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest

from .random_sections import random_sections
from .test_properties import PER_TEST, outcome


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, 60, PER_TEST))
def test_random_sections_along_bends(start: int, record_property: Callable[[str, object], None]) -> None:
    counts: Counter[str] = Counter()
    for seed in range(start, start + PER_TEST):
        text = random_sections(seed, "offset_adapter")
        try:
            counts[outcome(text)] += 1
        except Exception as error:
            raise AssertionError(f"seed {seed}: {type(error).__name__}: {error}\n{text}") from error
    record_property("random specs", {"bend of a section": dict(counts)})
