"""Check `hanger` on hangers made by hand: as meant they pass; each thing spoilt fails with its own code."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from tests.hanger_handmade import (
    HOSE,
    PIPE,
    PLATE,
    SCREW_Z,
    SURFACE,
    THROAT,
    WIDE,
    Spoilt,
    found,
    hanging,
    of,
    screw,
)

from fitwright.part import Pose
from fitwright.spec.hanger import Batten, HangerMount, Strap
from fitwright.spec.size import from_readings

HOOK = Spoilt(throat=THROAT)


def test_a_sound_saddle_passes_with_figures() -> None:
    findings = found()
    assert {f.severity for f in findings} == {"pass"}
    codes = {f.code.split(".")[1] for f in findings}
    assert codes == {"bore", "saddle", "rim", "snag", "ligament", "head", "fixing", "second_fixing", "spacing", "pose"}
    wide = next(f for f in of(findings, "saddle") if "lies on" in f.message)
    [lies] = of(findings, "bore")
    least, most, bore, slack = (float(n) for n in re.findall(r"\d+\.\d", lies.message))
    assert least < most < bore and slack == pytest.approx(bore - least, abs=0.11)
    # a quarter round rim R 4: within 0.05 of the bore until acos(1 - 0.05 / 4)
    rim = 4.0 - 4.0 * math.sin(math.acos(1.0 - 0.05 / 4.0))
    assert wide.value == pytest.approx(WIDE - 2 * rim, abs=0.25)


def test_a_sound_hook_passes() -> None:
    findings = found(HOOK)
    assert {f.severity for f in findings} == {"pass"}
    [throat] = of(findings, "throat")
    assert throat.value == pytest.approx(THROAT, abs=0.02)


def test_a_bore_cut_two_millimetres_narrower_fails() -> None:
    failed = of(found(Spoilt(bore_r=54.0)), "bore", "fail")
    assert any("108.00 mm" in f.message or "107.99 mm" in f.message for f in failed)
    assert any("pinches the hose" in f.message for f in failed)


def test_a_narrow_saddle_fails_and_says_how_wide() -> None:
    narrow = replace(hanging().cradles[0], wide_mm=40.0)
    [failed] = of(found(Spoilt(wide=40.0), hanging(cradles=(narrow,))), "saddle", "fail")
    assert failed.limit == 38.0
    assert failed.value is not None and 32.5 < failed.value < 33.7
    assert "`width` 44." in failed.advice or "`width` 45." in failed.advice


def test_a_recess_that_takes_the_bearing_away_fails() -> None:
    [failed] = of(found(Spoilt(recess=True)), "saddle", "fail")
    assert "recesses leave" in failed.message


@pytest.mark.parametrize(("rim", "words"), [(0.0, "sharp"), (1.0, "rounded with R")])
def test_a_sharp_rim_fails(rim: float, words: str) -> None:
    [failed] = of(found(Spoilt(rim=rim)), "rim", "fail")
    assert words in failed.message
    assert failed.value == pytest.approx(rim, abs=0.15)


def test_a_pipe_needs_no_wide_saddle_but_must_not_rattle() -> None:
    assert not of(found(Spoilt(rim=0.0), carried=PIPE), "rim", "fail")
    thin = PIPE.model_copy(update={"size": from_readings((104.0,))})
    [warned] = of(found(carried=thin), "bore", "warn")
    assert "rattles" in warned.message


def test_a_hose_that_hangs_in_a_narrow_strap_fails() -> None:
    down = replace(hanging().cradles[0], turn_deg=(-90.0, 90.0))
    declared = hanging(cradles=(down,))
    failed = of(found(declared=declared, strap=Strap(wide_mm=25.0)), "saddle", "fail")
    assert any(f.place == "strap" for f in failed)
    assert not any(
        f.place == "strap" for f in of(found(declared=declared, strap=Strap(wide_mm=40.0)), "saddle", "fail")
    )


def test_a_throat_too_narrow_fails_with_the_throat_that_works() -> None:
    narrow = hanging(hook=True)
    narrow = replace(narrow, throats=(replace(narrow.throats[0], wide_mm=80.0),))
    [failed] = of(found(Spoilt(throat=80.0), narrow), "throat", "fail")
    assert failed.value == pytest.approx(80.0, abs=0.02)
    assert failed.limit is not None and 88.0 < failed.limit < 95.0
    works = float(failed.advice.split("throat` ")[1].split(" mm")[0])
    assert failed.limit < works < failed.limit + 5.0  # a wider throat leaves shorter arms, which give less


def test_a_throat_built_other_than_meant_fails() -> None:
    failed = of(found(Spoilt(throat=95.0)), "throat", "fail")
    assert any("was meant" in f.message for f in failed)


def test_a_hose_read_pressed_flat_counts() -> None:
    stiff = HOSE.model_copy(update={"squeezed_mm": 107.0})
    [failed] = of(found(HOOK, carried=stiff), "throat", "fail")
    assert "as read" in failed.message
    soft = HOSE.model_copy(update={"squeezed_mm": 80.0})
    assert not of(found(HOOK, carried=soft), "throat", "fail")


def test_an_opening_too_wide_warns_and_downwards_fails() -> None:
    declared = hanging(hook=True)
    declared = replace(declared, throats=(replace(declared.throats[0], wide_mm=107.0),))
    [warned] = of(found(Spoilt(throat=107.0), declared), "throat", "warn")
    assert "snag lifts it out" in warned.message


def test_a_closed_hook_fails() -> None:
    declared = hanging(hook=True)
    failed = of(found(Spoilt(throat=0.0), declared), "throat", "fail")
    assert failed


def test_an_arm_one_millimetre_thin_fails_where_it_snaps() -> None:
    [failed] = of(found(replace(HOOK, arm=7.0)), "ligament", "fail")
    assert failed.value == pytest.approx(7.0, abs=0.05)
    assert failed.limit == 8.0
    assert "snaps" in failed.message


def test_a_hole_near_the_bore_fails_and_its_place_is_told() -> None:
    [failed] = of(found(replace(HOOK, near_hole=True)), "ligament", "fail")
    assert failed.value == pytest.approx(3.0, abs=0.05)
    assert "below (18" in failed.message or "below (17" in failed.message


def test_a_saddle_may_be_thinner_than_a_hook() -> None:
    assert not of(found(Spoilt(arm=7.0)), "ligament", "fail")
    assert of(found(Spoilt(arm=2.0)), "ligament", "fail")


def test_a_countersunk_seat_fails_even_if_nobody_said_so() -> None:
    failed = of(found(Spoilt(cone=True)), "head", "fail")
    assert len(failed) == 2
    assert "splits" in failed[0].message and "washer" in failed[0].advice


def test_a_countersunk_screw_fails() -> None:
    held = (screw(-SCREW_Z, head="countersunk"), screw(SCREW_Z))
    [failed] = of(found(declared=hanging(held=held)), "head", "fail")
    assert "countersunk" in failed.message


def test_the_lasting_pull_is_the_handbooks() -> None:
    """M l / sum l^2 about the pressed edge: 20 N at 80 mm, screws 10 and 130 mm above the plate's lower edge."""
    weight = next(f for f in of(found(), "fixing") if "for good:" in f.message)
    pull = 20.0 * -SURFACE * 130.0 / (10.0**2 + 130.0**2)
    assert f"{pull:.0f} N pulled and 10 N aside" in weight.message
    assert "factor 4" in weight.message and "no safe load is claimed" in weight.message


def test_too_much_weight_fails_and_names_a_screw_that_does() -> None:
    heavy = hanging(lasting_n=300.0, held=(screw(-SCREW_Z, grip_mm=14.0), screw(SCREW_Z, grip_mm=14.0)))
    failed = of(found(declared=heavy), "fixing", "fail")
    assert failed and failed[0].value is not None and failed[0].value < 1.0
    assert "mm" in failed[0].advice


def test_an_unknown_wood_is_not_checked() -> None:
    odd = hanging(held=(screw(-SCREW_Z, wood="balsa"), screw(SCREW_Z, wood="balsa")))
    failed = of(found(declared=odd), "fixing", "fail")
    assert any("not checked" in f.message for f in failed)


def test_nothing_that_holds_it_is_not_checked() -> None:
    [failed] = of(found(declared=hanging(held=())), "fixing", "fail")
    assert "not checked" in failed.message


def test_chipboard_by_its_face_holds_less() -> None:
    plank = hanging(
        held=(screw(-SCREW_Z, wood="chipboard", grip_mm=12.0), screw(SCREW_Z, wood="chipboard", grip_mm=12.0))
    )
    spruce, board = (min(f.value or 0.0 for f in of(found(declared=one), "fixing")) for one in (None, plank))
    assert board < spruce


@pytest.mark.parametrize(("edge", "severity"), [(8.0, "fail"), (20.0, "warn"), (40.0, "pass")])
def test_distance_to_the_woods_edge(edge: float, severity: str) -> None:
    held = (screw(-SCREW_Z, edge_mm=edge), screw(SCREW_Z))
    [said] = [f for f in of(found(declared=hanging(held=held)), "wood") if "edge of the spruce" in f.message]
    assert said.severity == severity


def test_screws_too_near_to_each_other_fail() -> None:
    held = (screw(0.0, name="one"), screw(10.0, name="other"))
    failed = of(found(declared=hanging(held=held)), "wood", "fail")
    assert any("splits between them" in f.message for f in failed)


@pytest.mark.parametrize(
    ("into", "size", "words"),
    [
        ("channel", "M8", "strut M8 nut"),
        ("slot", "M8", "T-slot 8 M8 nut"),
        ("thread", "M8", "metal thread at least 8 mm deep (assumed"),
        ("rod", "M8", "M8 rod of class"),
        ("tie", "tie", "nylon tie"),
    ],
)
def test_other_fixings_say_what_they_rest_on(into: str, size: str, words: str) -> None:
    held = tuple(screw(z, into=into, size=size, d_mm=8.0, hole_d_mm=9.0) for z in (-SCREW_Z, SCREW_Z))
    mount = HangerMount(slot_mm=8.2)
    said = of(found(declared=hanging(held=held), mount=mount), "fixing")
    assert any(words in f.message for f in said)


def test_a_snag_that_bends_a_long_rod_warns() -> None:
    held = (screw(0.0, into="rod", size="M8", d_mm=8.0),)
    mount = HangerMount(kind="rod", side="up", drop_mm=300.0)
    said = [f for f in of(found(declared=hanging(held=held), mount=mount), "rod", "warn") if f.place == "mount.drop"]
    # 240 MPa x pi x 6.466^3 / (32 x 150 N), class 4.6 (ISO 898-1)
    assert said and said[0].limit == pytest.approx(240.0 * math.pi * 6.466**3 / (32.0 * 150.0), rel=1e-3)


def test_a_lifted_point_of_a_batten_is_told_in_newtons() -> None:
    declared = hanging(reactions_n=(70.0, -50.0))
    batten = HangerMount(kind="batten", batten=Batten(near_mm=200.0, far_mm=480.0))
    said = of(found(declared=declared, mount=batten), "uplift")
    assert [f.severity for f in said] == ["pass", "warn"]
    assert "50 N" in said[1].message and "200 N" in said[1].advice


def test_no_eye_above_people_fails_and_unsaid_warns() -> None:
    bare = hanging(eyes=())
    assert of(found(Spoilt(eye_d=0.0), bare, above="people"), "second_fixing", "fail")
    assert of(found(Spoilt(eye_d=0.0), bare, above="cutter"), "second_fixing", "warn")
    assert of(found(Spoilt(eye_d=0.0), bare), "second_fixing", "warn")
    assert not of(found(Spoilt(eye_d=0.0), bare, above="nothing"), "second_fixing", "fail")
    assert not of(found(Spoilt(eye_d=0.0), replace(bare, overhead=False)), "second_fixing")


def test_an_eye_that_is_gone_or_thin_fails() -> None:
    assert of(found(Spoilt(eye_d=0.0)), "second_fixing", "fail")
    [thin] = of(found(Spoilt(eye_edge=9.0)), "second_fixing", "fail")
    assert "tears out" in thin.message
    assert of(found(Spoilt(eye_d=9.0)), "second_fixing", "fail")


def test_the_eye_of_a_swivel_belongs_on_what_holds_the_hose() -> None:
    declared = hanging(free_to_turn=True)
    assert not of(found(declared=declared), "second_fixing", "fail")


def test_hangers_too_far_apart_and_elbows() -> None:
    assert of(found(spacing_mm=1500.0), "spacing", "warn")
    assert of(found(spacing_mm=3500.0), "spacing", "fail")
    assert not of(found(spacing_mm=2400.0, carried=PIPE), "spacing", "warn")
    assert [f.place for f in of(found(elbow_mm=900.0), "spacing", "warn")] == ["elbow"]
    assert not of(found(elbow_mm=500.0), "spacing", "warn")


def test_above_a_cutter_nothing_holds_by_friction() -> None:
    ties = hanging(held=(screw(0.0, into="tie", size="tie"),))
    assert of(found(declared=ties, above="cutter"), "spacing", "fail")
    upright = HangerMount(kind="strut", along=False)
    nuts = hanging(
        held=tuple(screw(z, into="channel", size="M8", d_mm=8.0, hole_d_mm=9.0) for z in (-SCREW_Z, SCREW_Z))
    )
    assert of(found(declared=nuts, mount=upright, above="cutter"), "spacing", "fail")
    assert not of(found(above="cutter"), "spacing", "fail")
    assert of(found(HOOK, above="cutter"), "spacing", "fail")


def test_printed_upright_warns_and_a_hook_fails() -> None:
    upright = Pose("upright", (0.0, 0.0, -1.0))
    [warned] = of(found(pose=upright), "pose", "warn")
    assert "layers lie across the arms" in warned.message
    assert of(found(HOOK, pose=upright), "pose", "fail")


def test_a_body_that_is_not_there_is_not_checked() -> None:
    declared = hanging()
    lost = replace(declared, eyes=(replace(declared.eyes[0], body="carrier"),))
    [failed] = found(declared=lost)
    assert "not checked" in failed.message and failed.severity == "fail"


def test_a_plate_of_other_thickness_is_measured() -> None:
    [said] = of(found(), "head")
    assert f"{PLATE:.1f} mm of print" in said.message
