"""The bolt of a swivel: its pull by hand, and a print too weak under its washer is refused."""

from __future__ import annotations

import math

import pytest
from tests.hanger_specs import hanger

from fitwright.checks.hanger_swivel import pull_n, swivels
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import HangerMount

SPEC = hanger(style="saddle", swivel=True, mount=HangerMount(kind="flat", side="up"))


def test_the_pull_is_the_lever_over_the_foots_edge() -> None:
    """Levers: the foot is 44 mm wide, its edge 22 mm from the bolt; the snag acts at the hose's axis."""
    part = build_hose_hanger(SPEC)
    assert part.hanging is not None
    bolt = next(one for one in part.fastenings if one.name == "swivel bolt")
    face = next(one for one in part.load_faces if one.name == "turning face")
    lever = abs(face.frame.origin[2] - part.hanging.load_at[0][2])
    weight, snag = pull_n(part.hanging, bolt, face)
    assert weight == pytest.approx(part.hanging.lasting_n)
    assert snag == pytest.approx(weight + 150.0 * math.sqrt(1.0 + (lever / 22.0) ** 2))


def test_a_print_too_weak_under_the_washer_fails_for_a_snag() -> None:
    part = build_hose_hanger(SPEC)
    assert [one.severity for one in swivels(part, SPEC)] == ["pass", "pass"]
    weak = SPEC.model_copy(update={"material": SPEC.material.model_copy(update={"strength_across_mpa": 1.5})})
    found = list(swivels(part, weak))
    assert [one.code for one in found if one.blocks] == ["hanger.snag"]


def test_what_does_not_turn_has_no_finding() -> None:
    spec = hanger(mount=HangerMount(kind="flat", side="down"))
    assert not list(swivels(build_hose_hanger(spec), spec))
