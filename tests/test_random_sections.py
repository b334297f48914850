"""Random reducers between sections that are not round: sound and as asked, or refused by the key to change.

What a built part must be stands in `outcome` of test_properties.
"""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from .random_sections import random_sections
from .test_properties import PER_TEST, tried

COUNT = int(os.environ.get("FITWRIGHT_RANDOM_SECTIONS", "120"))


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_sections(start: int, record_property: Callable[[str, object], None]) -> None:
    counts = tried("section", lambda seed: random_sections(seed, "reducer"), start, record_property)
    assert counts["built"], counts
