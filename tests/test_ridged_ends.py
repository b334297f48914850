"""Ends for wire-ribbed hose, as they come out of the YAML: the ridge's hand and pitch on the finished mesh, the lug."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.checks import features, fit_built, wall
from fitwright.errors import BuildError, RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.parts.assembly import _ridged, turned
from fitwright.parts.pair import FRAME_A, placed, plans
from fitwright.shapes.volume import exact_volume_mm3
from fitwright.spec.load import load_text

from .whole import blocking, body_of, fact, findings, mesh_of, part_of, result_of, spec_of

Points = NDArray[np.float64]

TAIL = (
    "{{part: reducer, length: 110, end_b: {{plain: {{inside: 90}}}},"
    " end_a: {{hose_tail: {{hose_inside: 100, depth: 60, ridge: {{pitch: 12, hand: {hand}, wire: 3}}{more}}}}}}}"
)
SOCKET = (
    "{{part: reducer, length: 110, end_b: {{plain: {{inside: 100}}}},"
    " end_a: {{socket: {{over: 108, depth: 50, ridge: {{pitch: 12, hand: {hand}, wire: 3}}}}}}}}"
)
BOND = "{part: reducer, end_b: {plain: {inside: 90}}, end_a: {hose_tail: {hose_inside: 100, bond: {wire: 2}}}}"


def text(form: str, hand: str, more: str = "") -> str:
    return form.format(hand=hand, more=more)


def crest(mesh: object, sign: int) -> tuple[Points, Points, Points]:
    """Radius, turn (clockwise from up, looking in at end_a) and depth of the corners on the ridge's crest."""
    x, y, z = np.asarray(mesh.vertices).T  # type: ignore[attr-defined]
    r = np.hypot(x, z)
    inside = (y > 3.0) & (y < 58.0)
    top = float(r[inside].max() if sign > 0 else r[inside & (y < 48.0)].min())
    chosen = inside & (np.abs(r - top) < 0.01) & (y < 48.0 if sign < 0 else y < 60.0)
    return r[chosen], np.arctan2(x, z)[chosen], y[chosen]


def turn_per_mm(turn: Points, depth: Points, pitch: float = 12.0) -> float:
    """Radians a millimetre, signed, measured without knowing the pitch's sign: the slope under which all corners fall
    onto one band as wide as the crest."""
    rates = [sign * 2 * math.pi / pitch * (1 + k / 1000) for sign in (1, -1) for k in range(-60, 61)]
    spread = [1.0 - abs(np.exp(1j * (turn - rate * depth)).mean()) for rate in rates]
    return rates[int(np.argmin(spread))]


@pytest.mark.parametrize(("form", "sign"), [(TAIL, 1), (SOCKET, -1)])
@pytest.mark.parametrize(("hand", "sense"), [("right", 1), ("left", -1)])
def test_hand_and_pitch_on_the_finished_mesh(form: str, sign: int, hand: str, sense: int) -> None:
    _, turn, depth = crest(mesh_of(text(form, hand)), sign)
    assert len(turn) > 300
    # a right-hand helix goes on away from you as it turns clockwise
    assert turn_per_mm(turn, depth) == pytest.approx(sense * 2 * math.pi / 12.0, rel=0.01)


@pytest.mark.parametrize(("form", "sign"), [(TAIL, 1), (SOCKET, -1)])
def test_left_and_right_are_mirror_images(form: str, sign: int) -> None:
    left, right = (body_of(text(form, hand)) for hand in ("left", "right"))
    assert exact_volume_mm3(left.solid) == pytest.approx(exact_volume_mm3(right.solid), rel=1e-6)
    (_, t0, s0), (_, t1, s1) = (crest(mesh_of(text(form, hand)), sign) for hand in ("left", "right"))
    # the same helix, turned the other way: the phase of one is minus that of the other, give or take where it begins
    phases = [np.exp(1j * (t - k * 2 * math.pi * s / 12.0)).mean() for t, s, k in ((t0, s0, -1), (t1, s1, 1))]
    assert abs(phases[0]) == pytest.approx(abs(phases[1]), abs=0.01)
    assert min(abs(p) for p in phases) > 0.95
    assert (s0.min(), s0.max()) == pytest.approx((s1.min(), s1.max()), abs=0.05)


def test_pitch_over_several_turns() -> None:
    """Along one line of the outside the crests stand a pitch apart."""
    _, turn, depth = crest(mesh_of(text(TAIL, "left")), 1)
    here = np.sort(depth[np.abs(turn - 1.0) < 0.05])
    strands = np.split(here, np.flatnonzero(np.diff(here) > 4.0) + 1)
    middles = [float((one.min() + one.max()) / 2) for one in strands]
    assert len(middles) >= 4
    assert (middles[-1] - middles[0]) / (len(middles) - 1) == pytest.approx(12.0, abs=0.12)


@pytest.mark.parametrize("form", [TAIL, SOCKET])
def test_it_passes_every_check(form: str) -> None:
    assert not blocking(result_of(text(form, "left")).findings)
    assert len(mesh_of(text(form, "left")).faces) < 150_000
    assert [f for f in findings(text(form, "left"), "printing.overhang", "pass")]


def test_the_volume_is_that_of_the_plain_tail_and_pappus() -> None:
    plain = exact_volume_mm3(
        body_of(text(TAIL, "left").replace(", ridge: {pitch: 12, hand: left, wire: 3}", ", bead: 0")).solid
    )
    added = exact_volume_mm3(body_of(text(TAIL, "left")).solid) - plain
    turns = (60.0 - (0.6 / math.tan(math.radians(20)) + 1.0) - 4.0 - 1.0) / 12.0  # depth, front, foot, room
    centroid = 49.75 + (1.0 * 1.5**2 / 2 + 1.5**3 / 3) / (1.5 + 1.5**2)
    ramps = 2 * (1.7 / math.tan(math.radians(20)))  # length of the two run-outs, under half of which is lost each
    whole = 3.75 * 2 * math.pi * centroid * turns
    assert whole - 3.75 * ramps < added < whole
    assert added == pytest.approx(whole - 3.75 * ramps * 0.55, rel=2e-3)


def test_a_ridge_of_the_wrong_hand_fails_features() -> None:
    right, left = (part_of(text(TAIL, hand)) for hand in ("right", "left"))
    swapped = replace(right.bodies[0], solid=left.bodies[0].solid)
    found = features.check(replace(right, bodies=(swapped,)), {swapped.name: mesh_body(swapped)})
    assert [f for f in found if f.blocks and "ridge" in f.message]
    assert not [f for f in found if f.blocks and "ridge" not in f.message]


def test_a_missing_ridge_fails_features() -> None:
    ridged = part_of(text(TAIL, "right"))
    bare = part_of(text(TAIL, "right").replace(", ridge: {pitch: 12, hand: right, wire: 3}", ", bead: 0"))
    swapped = replace(ridged.bodies[0], solid=bare.bodies[0].solid)
    found = features.check(replace(ridged, bodies=(swapped,)), {swapped.name: mesh_body(swapped)})
    assert [f for f in found if f.blocks and "ridge" in f.message]
    assert [f for f in features.check(replace(ridged, bodies=(swapped,)), {}) if "not checked" in f.message]


def test_a_land_that_is_too_small_fails_beside_its_ridge() -> None:
    part = part_of(text(TAIL, "right"))
    (body,) = part.bodies
    (fit,) = body.fits
    off = replace(body, fits=(replace(fit, d0_mm=fit.d0_mm + 0.2, d1_mm=fit.d1_mm + 0.2),))
    found = fit_built.check(replace(part, bodies=(off,)), {body.name: mesh_body(body)})
    assert any(f.blocks for f in found)


def test_a_ridge_whose_volume_is_wrong_stops_the_build() -> None:
    spec = spec_of(text(TAIL, "right"))
    end = placed(plans(spec, spec.wall_mm, spec.wall_mm)[0], FRAME_A)
    assert end.shape.ridge is not None
    tube = turned(end.shape.outer, end.shape.inner, end.frame).tube
    whole = _ridged(tube, end, "t")
    again = replace(end, shape=replace(end.shape, ridge=replace(end.shape.ridge, hand="left")))
    with pytest.raises(BuildError, match="the ridge adds"):
        _ridged(whole, again, "t")  # two crossing ridges: the second adds less than its own volume


# the YAML


def refusal(yaml: str) -> RefusalError:
    spec = load_text(yaml, "t.yaml")[0]
    with pytest.raises(RefusalError) as caught:
        BUILDERS[spec.part](spec)
    return caught.value


def tail(ridge: str, more: str = "") -> str:
    return (
        "{part: reducer, end_b: {plain: {inside: 90}},"
        f" end_a: {{hose_tail: {{hose_inside: 100, ridge: {{{ridge}}}{more}}}}}}}"
    )


@pytest.mark.parametrize("ridge", ["pitch: 12, wire: 3", "pitch: 12, wire: 3, hand: clockwise"])
def test_the_hand_has_no_default(ridge: str) -> None:
    with pytest.raises(SpecError) as caught:
        load_text(tail(ridge), "t.yaml")
    (problem,) = caught.value.problems
    assert problem.key.endswith("ridge.hand")
    assert "rising to the right is right-hand" in str(caught.value)


@pytest.mark.parametrize(
    ("said", "pitch"), [("12", 12.0), ("[12, 12.3, 11.7]", 12.0), ("{ribs: 5, over: 61}", 12.2), ("1/2 in", 12.7)]
)
def test_ways_to_say_the_pitch(said: str, pitch: float) -> None:
    spec = load_text(tail(f"pitch: {said}, hand: left, wire: 3"), "t.yaml")[0]
    assert spec.end_a.hose_tail is not None and spec.end_a.hose_tail.ridge is not None
    assert spec.end_a.hose_tail.ridge.pitch_mm == pytest.approx(pitch)


@pytest.mark.parametrize(
    ("ridge", "key"),
    [
        ("pitch: [12, 18], hand: left, wire: 3", "pitch"),
        ("pitch: {ribs: 20, over: 30}, hand: left, wire: 3", "pitch.over"),
        ("pitch: 12, hand: left, wire: 3, turns: 0.5", "turns"),
        ("pitch: 12, hand: left", "wire"),
    ],
)
def test_senseless_ridges_are_refused_in_the_yaml(ridge: str, key: str) -> None:
    with pytest.raises(SpecError) as caught:
        load_text(tail(ridge), "t.yaml")
    assert f"ridge.{key}" in caught.value.problems[0].key


@pytest.mark.parametrize(
    ("joint", "key"),
    [
        ("hose_tail: {hose_inside: 100, bead: 1, ridge: {pitch: 12, hand: left, wire: 3}}", "bead"),
        ("socket: {over: 100, cord: 4, ridge: {pitch: 12, hand: left, wire: 3}}", "cord"),
        ("socket: {over: 100, taper: 1 deg, ridge: {pitch: 12, hand: left, wire: 3}}", "taper"),
        ("socket: {over: 100, fit: press, ridge: {pitch: 12, hand: left, wire: 3}}", "fit"),
    ],
)
def test_what_does_not_go_with_a_ridge(joint: str, key: str) -> None:
    with pytest.raises(SpecError) as caught:
        load_text(f"{{part: reducer, end_b: {{plain: {{inside: 90}}}}, end_a: {{{joint}}}}}", "t.yaml")
    assert caught.value.problems[0].key.endswith(key)


def test_a_pitch_smaller_than_the_ridge_and_rib_need() -> None:
    error = refusal(tail("pitch: 7, hand: left, wire: 3"))
    assert error.key == "end_a.hose_tail.ridge.pitch"
    assert error.allowed.startswith("7.50 mm or more")


@pytest.mark.parametrize(("more", "works"), [("", False), (", turns: 3", True)])
def test_less_than_the_turns_wanted_is_refused_with_the_depth_that_works(more: str, works: bool) -> None:
    yaml = tail(f"pitch: 20, hand: left, wire: 3{more}", ", depth: 25")
    error = refusal(yaml)
    assert error.key == "end_a.hose_tail.depth"
    need = float(error.allowed.split(" mm")[0])
    turns = 3.0 if works else 1.0
    assert need == pytest.approx(0.6 / math.tan(math.radians(20)) + 1.0 + 20 * turns + 4.0 + 1.0, abs=0.11)
    mended = yaml.replace("depth: 25", f"depth: {need}")
    assert part_of(mended).bodies


WIDE = tail("pitch: 30, hand: left, wire: 6")


def test_an_absent_depth_makes_room_for_one_and_a_half_turns() -> None:
    ridge = placed(plans(spec_of(WIDE), 2.4, 2.4)[0], FRAME_A).shape.ridge
    assert ridge is not None and 1.5 <= ridge.turns < 2.0


def test_what_the_report_says_of_holding() -> None:
    bare, banded = tail("pitch: 12, hand: left, wire: 3"), tail("pitch: 12, hand: left, wire: 3", ", band: 13")
    assert "held by its ridge (left-hand, pitch 12.00 mm" in fact(bare, "end_a holds")
    assert "counter-clockwise" in fact(bare, "end_a holds") and "tape" in fact(bare, "end_a holds")
    assert "hose clamp on the land behind" in fact(banded, "end_a holds")
    names = [s.name for s in part_of(banded).stand_ins]
    assert "end_a hose clamp" in names and "end_a hose clamp" not in [s.name for s in part_of(bare).stand_ins]
    (fit,) = findings(banded, "fit.result")
    assert (
        "screws on" in fit.message and "the hose clamp seals it" in fit.message and "held by the ridge" in fit.message
    )
    (fit,) = findings(bare, "fit.result")
    assert "tape seals it" in fit.message


def test_the_band_keeps_a_plain_land_behind_the_ridge() -> None:
    _, _, depth = crest(mesh_of(tail("pitch: 12, hand: left, wire: 3", ", band: 13, depth: 60")), 1)
    assert depth.max() < 60.0 - 15.0


# the bonding lug


def test_the_lug_passes_every_check() -> None:
    assert not blocking(result_of(BOND).findings)
    assert body_of(BOND).genus == 1  # the pilot is blind
    assert {f.name for f in body_of(BOND).features} >= {
        "end_a bonding lug",
        "end_a bonding wire channel",
        "end_a bonding screw",
    }
    (hole,) = body_of(BOND).holes
    assert hole.key == "end_a.hose_tail.bond"


def test_channel_and_wall_on_the_finished_mesh() -> None:
    """A line through the channel at mid land: floor 2.3 below the land, the part's wall under it."""
    mesh = mesh_of(BOND)
    origins, directions = np.array([[0.0, 30.0, 200.0]]), np.array([[0.0, 0.0, -1.0]])
    points, _, _ = mesh.ray.intersects_location(origins, directions)
    floor, bore = sorted(points[points[:, 2] > 0][:, 2], reverse=True)
    assert floor == pytest.approx(49.75 - 2.3, abs=0.02)
    assert floor - bore == pytest.approx(spec_of(BOND).wall_mm, abs=0.02)
    assert findings(BOND, "wall", "pass")


def test_the_pilot_leaves_a_full_wall_and_takes_two_diameters_of_screw() -> None:
    (hole,) = body_of(BOND).holes
    end = hole.start[2] - hole.length_mm
    passage = part_of(BOND).passages_mm["end_a"] / 2
    assert end - passage == pytest.approx(spec_of(BOND).wall_mm, abs=0.05)
    assert hole.length_mm >= 2 * 4.0  # M4
    assert hole.d_mm == pytest.approx(
        3.3 + 0.2, abs=0.35
    )  # M4 in plastic, common practice, opened by the printer's 0.2


def test_a_deeper_channel_than_declared_fails_the_wall() -> None:
    part = part_of(BOND)
    (body,) = part.bodies
    thick = replace(body, wall_mm=body.wall_mm + 0.3)
    found = wall.check(replace(part, bodies=(thick,)), {body.name: mesh_body(body)})
    assert any(f.blocks for f in found)


def test_a_missing_lug_or_channel_fails_features() -> None:
    part, bare = part_of(BOND), part_of(BOND.replace(", bond: {wire: 2}", ", wall: 4.82"))
    swapped = replace(part.bodies[0], solid=bare.bodies[0].solid)
    found = features.check(replace(part, bodies=(swapped,)), {swapped.name: mesh_body(swapped)})
    assert {f.message.split(" ")[2] for f in found if f.blocks} >= {"lug", "wire"}


def test_where_the_lug_is() -> None:
    turned = BOND.replace("wire: 2", "wire: 2, at: 90 deg")
    (hole,) = body_of(turned).holes
    assert hole.start[0] > 50 and abs(hole.start[2]) < 1e-6  # clockwise from up: right


def test_what_the_report_says_of_bonding() -> None:
    words = fact(BOND, "end_a bonding")
    assert "the machine's earthed metal; local rules decide" in words
    assert "4.82 mm" in words and "2.52 mm" in words
    assert "antistatic" not in words


def test_a_channel_in_a_tail_too_small_for_it_is_refused() -> None:
    small = "{part: reducer, end_b: {plain: {inside: 20}}, end_a: {hose_tail: {hose_inside: 22, bond: {wire: 4}}}}"
    with pytest.raises(SpecError) as caught:
        load_text(small, "t.yaml")
    assert caught.value.problems[0].key == "end_a.hose_tail.bond"
    footless = small.replace("hose_inside: 22, bond: {wire: 4}", "hose_inside: 26, bond: {screw: M8, wire: 1}")
    assert refusal(footless).key == "end_a.hose_tail.bond.screw"
    nested = (
        "{part: reducer, line: nested, end_a: {socket: {over: 60}},"
        " end_b: {hose_tail: {hose_inside: 80, bond: {wire: 1}}}}"
    )
    assert refusal(nested).key == "end_b.hose_tail.bond"
