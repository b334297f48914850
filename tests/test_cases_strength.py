"""What people break, each told to the tool as its user would, by YAML: the safety factor is shown, and what to change.

The mishaps are reports of users, restated: small hooks printed in the weak direction snapped one after the other; the
back wall behind a clip's hole snapped at the first insertion, even when it was printed solid.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from fitwright.checks import strength
from fitwright.finding import Finding
from fitwright.part import Part, Pose
from fitwright.report.report_txt import report_txt
from tests.whole import meshes_of, part_of, result_of, spec_of

pytestmark = pytest.mark.slow
HOOK = "part: hose_hanger\nhose: {over_ribs: 33, inside: 27, squeezes_to: 26}\nhook: {opens: up}\nmount: wall\n"


def laid(part: Part, down: tuple[float, float, float]) -> Part:
    """The same hook in another pose on the bed."""
    bodies = tuple(replace(one, poses=(Pose("as the user laid it", down),)) for one in part.bodies)
    return replace(part, bodies=bodies)


@cache
def findings(text: str, down: tuple[float, float, float] | None = None) -> tuple[Finding, ...]:
    part = part_of(text)
    return tuple(strength.check(laid(part, down) if down else part, meshes_of(text), spec_of(text)))


def least(text: str, down: tuple[float, float, float] | None = None) -> Finding:
    """The strength finding with the least safety factor."""
    found = [one for one in findings(text, down) if one.code == "strength" and one.value is not None]
    assert found, [one.message for one in findings(text, down)]
    return min(found, key=lambda one: one.value or 0.0)


def test_a_hook_printed_in_the_weak_direction_is_told_from_one_that_is_not() -> None:
    """Layers across the arm: what is between the layers governs, and it is weaker by much; the advice says to turn it."""
    good, weak = least(HOOK), least(HOOK, (-1.0, 0.0, 0.0))
    assert weak.value is not None and good.value is not None and weak.value < 0.8 * good.value
    assert "between the layers" in weak.message
    assert re.search(r"safety factor \d", good.message) and re.search(r"safety factor \d", weak.message)
    if weak.severity != "pass":
        assert "lay it so that the layers run along the load" in weak.advice


def test_its_report_says_which_face_goes_down_and_how_the_layers_run() -> None:
    said = report_txt(result_of(HOOK).report)
    assert "front face" in said and "down" in said and "layers run" in said


@pytest.mark.parametrize("arm", [4.0, 10.0])
def test_a_thin_arm_behind_the_opening_is_weaker_and_the_factor_is_shown(arm: float) -> None:
    """A hand pushes the hose in: bending, so the factor goes nearly with the arm's square (a thick arm is short too)."""
    text = HOOK + f"arm: {arm:g}\n"
    one = least(text)
    assert one.value is not None and "safety factor" in one.message and one.limit == 1.5
    thicker = least(HOOK + f"arm: {arm + 3:g}\n")
    assert thicker.value is not None and thicker.value > one.value
