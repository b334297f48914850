"""A large thin plate under suction: it holds what a collector pulls with, and is refused under a shop vacuum."""

from __future__ import annotations

import pytest
from tests.whole import meshes_of, part_of, spec_of

from fitwright.checks import strength
from fitwright.finding import Finding

COVER = (
    "part: flange_plate\nopenings: {round: 50}\nrectangle: {width: 200, height: 200}\nthickness: 4\nholes: {size: M5, "
    "points: [{right: 85, up: 85}, {left: 85, up: 85}, {right: 85, down: 85}, {left: 85, down: 85}]}\n"
)


def judged(text: str) -> list[Finding]:
    return [one for one in strength.check(part_of(text), meshes_of(text), spec_of(text)) if one.code == "strength"]


@pytest.mark.slow
def test_a_thin_cover_holds_a_collector_and_is_refused_at_a_shop_vacuum() -> None:
    """Linear: 20 / 3 of the pressure leave 3 / 20 of the factor. Four screws at the corners of 4 mm hold it."""
    (held,) = judged(COVER)
    assert held.severity == "pass" and "suction of" in held.message and held.place == "thickness"
    refused = judged(f"{COVER}air: {{fan: shop vacuum}}\n")
    assert {one.severity for one in refused} == {"fail"} and all("more thickness" in one.advice for one in refused)
    said = " ".join(one.message for one in refused)
    assert "suction of 20 kPa (hose blocked)" in said and "suction of 10 kPa (all day)" in said
    assert refused[0].value is not None and held.value is not None
    assert refused[0].value / held.value == pytest.approx(3 / 20, rel=0.15)
