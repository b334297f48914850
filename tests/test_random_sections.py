"""Random reducers between sections that are not round: sound and as asked, or refused by the key to change.

What a built part must be stands in `outcome` of test_properties.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable

import pytest

from .random_sections import random_sections
from .test_properties import PER_TEST, outcome

COUNT = int(os.environ.get("FITWRIGHT_RANDOM_SECTIONS", "120"))


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_sections(start: int, record_property: Callable[[str, object], None]) -> None:
    counts: Counter[str] = Counter()
    for seed in range(start, start + PER_TEST):
        text = random_sections(seed, "reducer")
        try:
            counts[outcome(text)] += 1
        except Exception as error:
            raise AssertionError(f"seed {seed}: {type(error).__name__}: {error}\n{text}") from error
    record_property("random specs", {"section": dict(counts)})
    assert counts["built"], counts
