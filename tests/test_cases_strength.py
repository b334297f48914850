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
from fitwright.errors import RefusalError
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
    """Layers across the arm: what lies between them governs and is weaker; the advice says to turn it."""
    good, weak = least(HOOK), least(HOOK, (-1.0, 0.0, 0.0))
    assert weak.value is not None and good.value is not None and weak.value < 0.8 * good.value
    assert "between the layers" in weak.message
    assert re.search(r"safety factor \d", good.message) and re.search(r"safety factor \d", weak.message)
    if weak.severity != "pass":
        assert "lay it so that the layers run along the load" in weak.advice


def test_its_report_says_which_face_goes_down_and_how_the_layers_run() -> None:
    said = " ".join(report_txt(result_of(HOOK).report).decode().split())
    assert "front face" in said and "down" in said and "layers run" in said


def test_an_arm_behind_the_opening_that_would_snap_is_refused_with_one_that_bears() -> None:
    with pytest.raises(RefusalError) as refused:
        part_of(HOOK + "arm: 4\n")
    assert refused.value.args and "snag of 150 N" in str(refused.value) and "7 mm or more" in str(refused.value)


def test_a_thicker_arm_bears_more_when_the_hose_is_pushed_in_and_the_factor_is_shown() -> None:
    """A hand on the lips beside the opening, 50 N: bending, so the factor goes up with the arm."""
    thin, thick = (hand(HOOK + f"arm: {arm:g}\n") for arm in (7.0, 10.0))
    assert thin.value is not None and thick.value is not None
    assert thick.value > 1.2 * thin.value > 1.2
    assert "hand on lip" in thin.message and "safety factor" in thin.message and thin.limit == 1.5


def hand(text: str) -> Finding:
    """What the hand that pushes the hose in does, alone."""
    part = part_of(text)
    only = replace(part, loads=tuple(one for one in part.loads if one.name.startswith("hand")))
    found = strength.check(only, meshes_of(text), spec_of(text))
    return min((one for one in found if one.code == "strength"), key=lambda one: one.value or 0.0)
