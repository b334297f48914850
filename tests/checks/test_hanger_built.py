"""Check `hanger` on whole builds: what is built as meant passes, what cannot work names the size that does."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from tests.hanger_handmade import of
from tests.hanger_specs import PIPE_110, hanger

from fitwright.checks import hanger as check_hanger
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import Batten, HangerMount, HoseHangerSpec, Strap, Wood, WoodScrews

CEILING = HangerMount(kind="flat", side="up")
SOUND: dict[str, dict[str, Any]] = {
    "saddle": {},
    "hook": {"style": "hook"},
    "pipe hook": {"style": "hook", "carried": PIPE_110},
    "clamp": {"style": "clamp", "carried": PIPE_110, "mount": CEILING},
    "wide strap": {"mount": CEILING, "strap": Strap(wide_mm=40.0), "width_mm": 60.0},
    "shelf": {"mount": HangerMount(kind="flat", side="down")},
    "strut": {
        "style": "clamp",
        "carried": PIPE_110,
        "mount": HangerMount(kind="strut", side="up", along=False),
    },
}


def said(spec: HoseHangerSpec) -> list[Finding]:
    part = build_hose_hanger(spec)
    return check_hanger.check(part, {body.name: mesh_body(body) for body in part.bodies}, spec)


@cache
def sound(name: str) -> list[Finding]:
    return said(hanger(**SOUND[name]))


@pytest.mark.parametrize("name", SOUND)
def test_what_is_built_as_meant_is_not_stopped(name: str) -> None:
    assert not [f for f in sound(name) if f.severity == "fail"]
    assert not [f for f in sound(name) if "fault of the build" in f.advice]


@pytest.mark.parametrize("name", SOUND)
def test_every_question_is_answered(name: str) -> None:
    codes = {f.code.partition(".")[2] for f in sound(name)}
    assert {"bore", "ligament", "head", "fixing", "snag", "spacing", "pose"} <= codes
    assert ("throat" in codes) == (SOUND[name].get("style") == "hook")
    assert ("saddle" in codes) == ("carried" not in SOUND[name])


def test_a_throat_too_narrow_is_stopped_and_the_one_it_names_works() -> None:
    spec = hanger(style="hook", throat_mm=70.0)
    [failed] = of(said(spec), "throat", "fail")
    assert failed.limit is not None
    wider = float(failed.advice.split("throat` ")[1].split(" mm")[0])
    assert wider >= failed.limit
    assert not of(said(hanger(style="hook", throat_mm=wider)), "throat", "fail")


def test_a_narrow_saddle_is_stopped_and_the_width_it_names_works() -> None:
    [failed] = of(said(hanger(width_mm=39.0)), "saddle", "fail")
    wider = float(failed.advice.split("`width` ")[1].split(" mm")[0])
    assert not of(said(hanger(width_mm=wider)), "saddle", "fail")


def test_a_hose_that_hangs_in_a_thin_strap_is_stopped() -> None:
    [failed] = of(said(hanger(mount=CEILING, strap=Strap(wide_mm=25.0))), "saddle", "fail")
    assert failed.place == "strap" and failed.limit == 38.0


def test_layers_run_along_the_hoop_and_the_face_is_named() -> None:
    assert all("front face down" in f.message for f in of(sound("hook"), "pose"))


def test_weight_has_dust_half_full_and_factor_4_is_shown() -> None:
    [spacing] = of(sound("saddle"), "spacing")
    assert "for good" in spacing.message
    [weight] = of(sound("saddle"), "fixing")
    assert "factor 4" in weight.message and "no safe load is claimed" in weight.message


def test_a_batten_beyond_both_joists_lifts_its_far_point() -> None:
    mount = HangerMount(kind="batten", side="up", batten=Batten(near_mm=150.0, far_mm=550.0))
    near, far = of(said(hanger(style="clamp", carried=PIPE_110, mount=mount)), "uplift")
    assert near.severity == "pass" and far.severity == "warn"
    # statics: far / total = -near / (far - near) = -150 / 400
    assert near.value is not None and far.value is not None
    assert far.value / (near.value + far.value) == pytest.approx(-150.0 / 400.0)


def test_thin_board_and_small_screws_are_stopped() -> None:
    """A heavy pipe far out on screws that hardly hold."""
    heavy = PIPE_110.model_copy(update={"kg_per_m": 12.0})
    mount = HangerMount(wood=Wood(name="spruce"), screws=WoodScrews(size="3.5 mm"))
    failed = of(said(hanger(carried=heavy, mount=mount)), "fixing", "fail")
    assert failed and "mm" in failed[0].advice
