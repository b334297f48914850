"""Every face that a hanger declares to bear is on the finished solid, as large as declared; every case names faces."""

from __future__ import annotations

import itertools
import math
from functools import cache

import numpy as np
import pytest
from tests.hanger_specs import PIPE_110, hanger

from fitwright.loads import LoadFace
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.hanger.loads import all_ways, held_at
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import Carried, ClampBy, HangerMount, HoseHangerSpec
from fitwright.spec.size import from_readings

SMALL = Carried(kind="hose", size=from_readings((40.0,)))
SPECS: dict[str, HoseHangerSpec] = {
    "saddle": hanger(),
    "ceiling": hanger(mount=HangerMount(kind="flat", side="up")),
    "hook": hanger(style="hook"),
    "clamp": hanger(style="clamp", carried=PIPE_110, mount=HangerMount(kind="flat", side="up")),
    "band": hanger(style="clamp", carried=PIPE_110, clamp=ClampBy(kind="band")),
    "two": hanger(style="saddle", count=2, mount=HangerMount(kind="flat", side="up"), carried=SMALL),
    "swivel": hanger(style="hook", swivel=True, mount=HangerMount(kind="flat", side="up")),
    "strut": hanger(style="clamp", carried=PIPE_110, mount=HangerMount(kind="strut", side="up", along=False)),
    "shelf": hanger(mount=HangerMount(kind="flat", side="down")),
}
NEAR_MM = 0.05


@cache
def built(name: str) -> Part:
    return build_hose_hanger(SPECS[name])


@cache
def facets(name: str, body: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Middles, normals (out of the material) and areas of a body's facets."""
    mesh = mesh_body(next(one for one in built(name).bodies if one.name == body)).mesh
    for _ in range(3):
        mesh = mesh.subdivide()
    return mesh.triangles_center, mesh.face_normals, mesh.area_faces


def area_mm2(name: str, face: LoadFace) -> float:
    """Area of the facets that lie on the declared face and look out of its material."""
    middles, normals, areas = facets(name, face.body)
    frame = face.frame
    away = middles - np.array(frame.origin)
    right, up, s = (away @ np.array(v) for v in (frame.right, frame.up, frame.inward))
    if face.kind == "flat":
        on = (np.abs(s) < NEAR_MM) & (normals @ np.array(frame.inward) < -0.99)
        on &= (right > face.right_mm[0]) & (right < face.right_mm[1]) & (up > face.up_mm[0]) & (up < face.up_mm[1])
        return float(areas[on].sum())
    r = np.hypot(right, up)
    turn = np.degrees(np.arctan2(right, up))
    low, high = face.turn_deg
    within = ((turn - low) % 360.0) <= (high - low)
    on = (np.abs(r - face.r_mm) < NEAR_MM) & within & (s > face.s_mm[0]) & (s < face.s_mm[1])
    towards = ((normals @ np.array(frame.right)) * right + (normals @ np.array(frame.up)) * up) / np.maximum(r, 1e-9)
    return float(areas[on & ((towards > 0.9) if face.name.endswith("band seat") else (towards < -0.9))].sum())


def declared_mm2(face: LoadFace) -> float:
    if face.kind == "flat":
        return (face.right_mm[1] - face.right_mm[0]) * (face.up_mm[1] - face.up_mm[0])
    turn = math.radians(face.turn_deg[1] - face.turn_deg[0])
    return face.r_mm * turn * (face.s_mm[1] - face.s_mm[0])


@pytest.mark.parametrize("name", SPECS)
def test_every_declared_face_is_on_the_solid(name: str) -> None:
    for face in built(name).load_faces:
        share = area_mm2(name, face) / declared_mm2(face)
        # a washer's square loses its hole and what of its corners stands over an edge; a back its holes; the bore over
        # a swivel's nut its recess
        least = {"flat": 0.45, "round": 0.92 if SPECS[name].swivel else 0.97}[face.kind]
        assert least <= share <= 1.02, f"{face.name} on {face.body}: {share:.3f}"


@pytest.mark.parametrize("name", SPECS)
def test_every_case_names_faces_of_its_own_body(name: str) -> None:
    part = built(name)
    of = {one.name: one.body for one in part.load_faces}
    assert len(of) == len(part.load_faces)
    bodies = {one.name for one in part.bodies}
    for case in part.loads:
        assert case.body in bodies and of[case.on] == case.body
        assert case.held and all(of[one] == case.body for one in case.held), case
        assert all(math.isclose(math.hypot(*way), 1.0) for way in case.directions)
        assert case.force_n > 0.0 and case.why


@pytest.mark.parametrize("name", SPECS)
def test_what_is_asked_of_a_hanger_is_declared(name: str) -> None:
    part, spec = built(name), SPECS[name]
    snags = [one for one in part.loads if one.name.startswith("snag")]
    assert {one.force_n for one in snags} == {150.0} and all(len(one.directions) == 26 for one in snags)
    lasting = [one for one in part.loads if one.lasting]
    hangs = name in ("ceiling", "two")  # in the strap, which pulls at both ears
    assert len(lasting) == spec.count * (2 if hangs else 1) and all(
        one.on.startswith("strap seat") is hangs for one in lasting
    )
    assert part.hanging is not None
    assert math.fsum(one.force_n for one in lasting) == pytest.approx(part.hanging.lasting_n * spec.count)
    assert all(one.directions == ((0.0, 0.0, -1.0),) for one in lasting)
    hands = [one for one in part.loads if one.name.startswith("hand")]
    assert bool(hands) == (spec.style == "hook" or (spec.style == "clamp" and spec.clamp.kind == "screws"))
    assert all(one.force_n == 50.0 for one in hands)


def test_26_ways_are_those_of_a_cube() -> None:
    ways = all_ways()
    assert len(ways) == len(set(ways)) == 26
    least = min(math.dist(a, b) for a, b in itertools.combinations(ways, 2))
    assert least == pytest.approx(math.dist((1, 0, 0), (2**-0.5, 2**-0.5, 0)), rel=0.25)


def test_a_body_is_held_at_its_back_and_its_screws() -> None:
    faces = built("saddle").load_faces
    assert held_at("hanger", faces) == ("back", "fixing 1 seat", "fixing 2 seat")


def test_weight_is_the_tables() -> None:
    """The heaviest usual hose of 100 mm, light polyurethane: 0.7 kg/m; half full of
    dust at 250 kg/m3: 0.98 kg/m; 1.2 m of it, and its own weight.
    """
    hanging = built("saddle").hanging
    assert hanging is not None
    carried = (0.7 + 250.0 * 0.5 * math.pi / 4 * 0.1**2) * 9.80665 * 1.2
    body = built("saddle").bodies[0]
    own = body.solid.Volume() * 1.27e-6 * 9.80665
    assert carried + own <= hanging.lasting_n <= carried + 1.25 * own
