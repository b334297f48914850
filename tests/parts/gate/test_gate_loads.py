"""What a gate bracket declares to bear: faces that are there, names that resolve, forces that hold each other up."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from tests.parts.gate.face_areas import share
from tests.parts.gate.load_specs import SPECS

from fitwright.loads import LoadCase, LoadFace
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Part
from fitwright.parts.gate.load_faces import disc, patch
from fitwright.parts.gate_bracket import build_gate_bracket

GRAVITY = 9.80665
LEAST = {
    "nose face": 0.15,
    "nose nut": 0.45,
    "caught nuts": 0.05,
    "front nuts": 0.1,
    "gate foot sole": 0.15,
    "sleeve's gate end": 0.4,
    "sleeve's outer end": 0.4,
    "guard_up middle": 0.4,
    "guard_down middle": 0.4,
    "bridge jam nut": 0.45,
    "bridge rod nut": 0.45,
}
"""Of these less is there than of the rest: a cover's thin ring round the nose, two places far apart declared as one
rectangle, a plate full of slots."""
SLOTTED_WASHER, LEAST_FLAT, LEAST_ROUND, MOST = 0.3, 0.5, 0.9, 1.035
FRAMES = {"nose_plate", "yoke", "bracket", "gate_foot", "nose_foot"}


@cache
def built(name: str) -> Part:
    return build_gate_bracket(SPECS[name])


@cache
def meshed(name: str) -> dict[str, BodyMesh]:
    return {one.name: mesh_body(one) for one in built(name).bodies}


def least(face: LoadFace, name: str) -> float:
    if name.startswith(("one piece", "alongside")) and "ear washer" in face.name:
        return SLOTTED_WASHER
    return LEAST.get(face.name, LEAST_ROUND if face.kind == "round" else LEAST_FLAT)


@pytest.mark.parametrize("name", SPECS)
def test_every_declared_face_is_on_its_body(name: str) -> None:
    """In its plane to 0.05 mm, looking out of the material, as large as declared less its holes."""
    for face in built(name).load_faces:
        there = share(face, meshed(name)[face.body].mesh)
        assert least(face, name) <= there <= MOST, f"{face.name} on {face.body}: {there:.3f}"


@pytest.mark.parametrize("name", SPECS)
def test_every_body_bears_something_and_every_name_resolves(name: str) -> None:
    part = built(name)
    of = {one.name: one.body for one in part.load_faces}
    assert len(of) == len(part.load_faces), "a name twice"
    assert {one.face for one in part.supports} <= set(of)
    assert len({one.face for one in part.supports}) == len(part.supports)
    assert {one.body for one in part.loads} == {one.name for one in part.bodies} == set(of.values())
    assert len({one.name for one in part.loads}) == len(part.loads)
    held = {one.face for one in part.supports}
    for case in part.loads:
        assert of[case.on] == case.body and case.on not in case.held
        assert case.held and all(of[one] == case.body and one in held for one in case.held), case
        assert all(math.isclose(math.hypot(*way), 1.0) for way in case.directions) and case.directions
        assert case.force_n > 0.0 and case.why and not case.pressure_mpa


@pytest.mark.parametrize("name", SPECS)
def test_no_body_floats(name: str) -> None:
    """A case that is held by seats alone is held by faces that look one way: then the engine takes them as fixed."""
    part = built(name)
    kind = {one.face: one.kind for one in part.supports}
    for case in part.loads:
        kinds = {kind[one] for one in case.held}
        assert kinds & {"washer", "fixed"} or len(case.held) == 1, case.name


def wrench(case: LoadCase, faces: dict[str, LoadFace]) -> np.ndarray:
    """Force and moment about the origin, of its first direction."""
    force = case.force_n * np.array(case.directions[0])
    at = np.array(case.at if case.at is not None else faces[case.on].frame.origin)
    return np.concatenate([force, np.cross(at, force)])


def nose_n(nose: np.ndarray) -> float:
    return float(np.linalg.norm(nose[:3]))


@pytest.mark.parametrize("name", SPECS)
@pytest.mark.parametrize("rod", ["in", "out"])
@pytest.mark.parametrize("word", ["running", "greatest"])
def test_the_thrust_is_one_force_through_all_bodies(name: str, rod: str, word: str) -> None:
    """Action and reaction: each body of the frame gets the same force on the same line; what moves, the opposite.

    The rod holds on to what moves at the blade's middle, in line on the cylinder's axis; alongside the bridge has the
    rod's force on the rod's line.
    """
    part, faces = built(name), {one.name: one for one in built(name).load_faces}
    cases = [one for one in part.loads if one.name.startswith(f"{word} thrust, rod {rod}") and one.body != "sleeve"]
    at_nose = next(one for one in cases if one.at is not None and one.body in FRAMES and abs(one.at[2]) < 1e-9)
    nose = wrench(
        next(one for one in cases if faces[one.on].name in ("nose nut", "nose face", "cover screws", "clamp bore")),
        faces,
    )
    for case in cases:
        found = wrench(case, faces)
        if "against the blade's drag" in case.why:  # less than stalled, on the same line
            assert 0.0 < case.force_n <= nose_n(nose)
            found *= nose_n(nose) / case.force_n
        sign = 1.0 if case.body in FRAMES else -1.0
        assert found[:3] == pytest.approx(sign * nose[:3], rel=1e-9), case.name
        beside = name.startswith("alongside")
        if beside and (case.body == "coupling" or case.on.startswith("guide rod")):
            assert found[3:] == pytest.approx(np.zeros(3), abs=1e-6)  # on the blade's middle
        else:
            assert found[3:] == pytest.approx(sign * nose[3:], rel=1e-9, abs=1e-6), case.name
    assert at_nose.force_n == pytest.approx(float(np.linalg.norm(nose[:3])))


@pytest.mark.parametrize("name", ["rods 4 in", "rods bore 32", "one piece 6 in", "board 6 in", "alongside"])
def test_the_thrust_is_pressure_times_area(name: str) -> None:
    """p pi D^2 / 4 out, p pi (D^2 - d^2) / 4 in, from the bars that the case itself names."""
    part, cylinder = built(name), SPECS[name].cylinder
    out, into = (math.pi / 4 * (cylinder.bore_mm**2 - d**2) for d in (0.0, cylinder.rod_mm))
    thrusts = [one for one in part.loads if "thrust, rod" in one.name]
    assert {one.lasting for one in thrusts if one.name.startswith("running")} == {True}
    assert {one.lasting for one in thrusts if one.name.startswith("greatest")} == {False}
    for case in (one for one in thrusts if "stalled" in one.why):
        bar = float(case.why.split(" at ")[1].split(" bar")[0])
        assert case.force_n == pytest.approx(bar / 10 * (out if "rod out" in case.name else into), rel=0.04), case.name


def test_the_figures_of_the_4_in_gate() -> None:
    """Bore 16: 3.0 bar and at the most 6.0, as docs/families/gate_bracket_mechanics.md has it; run harder by weight."""
    cases = {one.name: one.force_n for one in built("rods 4 in").loads}
    assert cases["greatest thrust, rod out, on nose nut"] == pytest.approx(120.6, abs=0.1)
    assert cases["greatest thrust, rod in, on nose face"] == pytest.approx(103.7, abs=0.1)
    assert cases["running thrust, rod out, on nose nut"] == pytest.approx(3.5 / 6 * 120.6, abs=0.1)


@pytest.mark.parametrize("name", SPECS)
def test_weight_knocks_and_a_hand(name: str) -> None:
    part, spec = built(name), SPECS[name]
    by_name = {one.name: one for one in part.loads}
    weights = [one for one in part.loads if one.name.startswith("weight on") and one.body in FRAMES]
    assert weights
    ways = {"any": 6, "sideways": 4, "blade_up": 1, "blade_down": 1}[spec.mounted]
    for weight in weights:
        knock = by_name[weight.name.replace("weight", "knock")]
        assert weight.lasting and not knock.lasting and knock.force_n == pytest.approx(3 * weight.force_n)
        assert len(weight.directions) == ways and len(set(knock.directions)) == 6
        assert weight.at == knock.at
        assert weight.force_n >= spec.cylinder.mass_kg * GRAVITY - 1e-9
    hands = [one for one in part.loads if one.name.startswith("hand on")]
    assert hands and {one.force_n for one in hands} == {50.0} and not any(one.lasting for one in hands)


def test_the_weight_goes_through_the_cylinders_middle() -> None:
    """4 in: nose face 187.0 out; the cylinder 56 + 125 long; 0.15 kg."""
    weight = next(one for one in built("rods 4 in").loads if one.name == "weight on nose nut")
    assert weight.force_n == pytest.approx(0.15 * GRAVITY)
    assert weight.at == pytest.approx((0.0, 187.0 + (56.0 + 125.0) / 2, 0.0), abs=0.01)


def test_a_second_support_takes_the_moment() -> None:
    """Carried near its rear end, the cylinder's weight on the nose is a force and no moment."""
    weight = next(one for one in built("rods bore 32").loads if one.name == "weight on cover screws")
    nose = next(one for one in built("rods bore 32").load_faces if one.name == "nose face")
    assert weight.at is not None and weight.at[1] == pytest.approx(nose.frame.origin[1])
    assert any(one.body == "support" and one.name.startswith("weight") for one in built("rods bore 32").loads)


@pytest.mark.parametrize("name", SPECS)
def test_the_noses_limit_is_what_is_left_of_half_a_millimetre(name: str) -> None:
    limits = [one for one in built(name).loads if one.limit_mm]
    assert limits and all(one.lasting and 0.1 <= one.limit_mm <= 0.5 for one in limits)
    if name.startswith(("one piece", "alongside")):
        assert {one.limit_mm for one in limits} == {0.5}


def test_a_disc_and_a_patch_lie_where_they_are_said_to() -> None:
    washer = disc("w", "b", (1.0, 2.0, 3.0), (0.0, 0.0, -1.0), 10.0)
    assert washer.disc_mm == 10.0 and washer.right_mm == (-5.0, 5.0) == washer.up_mm
    for inward, one, other, middle in (
        ((1.0, 0.0, 0.0), (0.0, 4.0), (2.0, 8.0), (7.0, 2.0, 5.0)),
        ((0.0, 1.0, 0.0), (0.0, 4.0), (2.0, 8.0), (2.0, 7.0, 5.0)),
        ((0.0, 0.0, -1.0), (0.0, 4.0), (2.0, 8.0), (2.0, 5.0, 7.0)),
    ):
        face = patch("p", "b", inward, 7.0, one, other)
        corner = face.frame.point(face.right_mm[1], 0.0, face.up_mm[1])
        assert face.frame.origin == middle
        off = sorted(abs(a - b) for a, b in zip(corner, middle, strict=True))
        assert off == pytest.approx([0.0, 2.0, 3.0])
