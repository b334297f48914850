"""Every face that a hanger declares to bear is on the finished solid, as large as declared; every case names faces."""

from __future__ import annotations

import itertools
import math
from functools import cache

import numpy as np
import pytest
import shapely
import trimesh
from tests.hanger_specs import PIPE_110, hanger
from tests.whole import spec_of

from fitwright.loads import LoadFace
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.hanger.held_faces import held_at
from fitwright.parts.hanger.loads import all_ways
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.grammar.hanger import HoseHangerKeys
from fitwright.spec.hanger import Batten, Carried, ClampBy, HangerMount, HoseHangerSpec
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
    "wall": hanger(mount=HangerMount(kind="flat", side="right")),
    "under": hanger(mount=HangerMount(kind="joist_underside", side="up"), style="hook", width_mm=52.0),
    "under across": hanger(mount=HangerMount(kind="joist_underside", side="up", along=False)),
    "strut along": hanger(style="hook", mount=HangerMount(kind="strut", side="up")),
    "slot": hanger(style="clamp", carried=PIPE_110, mount=HangerMount(kind="t_slot", side="left", slot_mm=8.0)),
    "slot across": hanger(mount=HangerMount(kind="t_slot", side="down", slot_mm=8.0, along=False)),
    "band up": hanger(
        style="clamp",
        carried=PIPE_110,
        clamp=ClampBy(kind="band"),
        mount=HangerMount(kind="strut", side="up", along=False),
    ),
    "tie": hanger(mount=HangerMount(kind="cable_tie", side="up", bar_mm=25.0)),
    "tie across": hanger(style="hook", mount=HangerMount(kind="cable_tie", side="left", bar_mm=30.0, along=False)),
    "rod": hanger(style="clamp", carried=PIPE_110, mount=HangerMount(kind="rod", side="up", drop_mm=300.0)),
    "batten": hanger(
        style="clamp",
        carried=PIPE_110,
        mount=HangerMount(kind="batten", side="up", batten=Batten(near_mm=-150.0, far_mm=-550.0, wide_mm=40.0)),
    ),
    "swivel strut": hanger(style="clamp", carried=PIPE_110, swivel=True, mount=HangerMount(kind="strut", side="up")),
    "holes": spec_of(
        "part: hose_hanger\npipe: {over: 110.2}\nclamp: {screws: M5}\n"
        "mount: {holes: {side: left, points: [{up: 90}, {down: 90}], size: M6}}\n"
    ),
}
NEAR_MM = 0.05


@cache
def built(name: str) -> Part:
    return build_hose_hanger(SPECS[name])


@cache
def mesh_of(name: str, body: str) -> trimesh.Trimesh:
    return mesh_body(next(one for one in built(name).bodies if one.name == body)).mesh


@cache
def facets(name: str, body: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Middles, normals (out of the material) and areas of a body's facets."""
    mesh = mesh_of(name, body)
    for _ in range(3):
        mesh = mesh.subdivide()
    return mesh.triangles_center, mesh.face_normals, mesh.area_faces


def flat_mm2(name: str, face: LoadFace) -> float:
    """Area of the body's facets in the face's plane, cut off exactly at the face's limits."""
    mesh, frame = mesh_of(name, face.body), face.frame
    away = mesh.triangles - np.array(frame.origin)
    right, up, s = (away @ np.array(v) for v in (frame.right, frame.up, frame.inward))
    on = (np.abs(s).max(axis=1) < NEAR_MM) & (mesh.face_normals @ np.array(frame.inward) < -0.99)
    limits = shapely.box(face.right_mm[0], face.up_mm[0], face.right_mm[1], face.up_mm[1])
    if face.disc_mm:
        limits = limits.intersection(shapely.Point(0.0, 0.0).buffer(face.disc_mm / 2, quad_segs=64))
    corners = np.stack([right[on], up[on]], axis=2)
    return math.fsum(shapely.Polygon(one).intersection(limits).area for one in corners)


def area_mm2(name: str, face: LoadFace) -> float:
    """Area of the facets that lie on the declared face and look out of its material."""
    if face.kind == "flat":
        return flat_mm2(name, face)
    middles, normals, areas = facets(name, face.body)
    frame = face.frame
    away = middles - np.array(frame.origin)
    right, up, s = (away @ np.array(v) for v in (frame.right, frame.up, frame.inward))
    r = np.hypot(right, up)
    turn = np.degrees(np.arctan2(right, up))
    low, high = face.turn_deg
    within = ((turn - low) % 360.0) <= (high - low)
    on = (np.abs(r - face.r_mm) < NEAR_MM) & within & (s > face.s_mm[0]) & (s < face.s_mm[1])
    towards = ((normals @ np.array(frame.right)) * right + (normals @ np.array(frame.up)) * up) / np.maximum(r, 1e-9)
    return float(areas[on & ((towards > 0.9) if face.name.endswith("band seat") else (towards < -0.9))].sum())


def declared_mm2(face: LoadFace) -> float:
    if face.disc_mm:
        return math.pi / 4 * face.disc_mm**2
    if face.kind == "flat":
        return (face.right_mm[1] - face.right_mm[0]) * (face.up_mm[1] - face.up_mm[0])
    turn = math.radians(face.turn_deg[1] - face.turn_deg[0])
    return face.r_mm * turn * (face.s_mm[1] - face.s_mm[0])


@pytest.mark.parametrize("name", SPECS)
def test_every_declared_face_is_on_the_solid(name: str) -> None:
    for face in built(name).load_faces:
        share = area_mm2(name, face) / declared_mm2(face)
        # a washer's disc loses its hole, a nut's more; a back its holes; the bore what recesses and tunnels take of it
        least = 0.45 if face.kind == "flat" else 0.97
        if face.kind == "round" and not face.name.startswith(("eye", "bed")) and recessed(name):
            least = 0.8
        assert least <= share <= 1.02, f"{face.name} on {face.body}: {share:.3f}"


def recessed(name: str) -> bool:
    """Whether a screw, bolt or nut lies under the hose, in the ground of the bore."""
    return SPECS[name].swivel or name in ("under", "strut along", "slot", "rod")


@pytest.mark.parametrize("name", SPECS)
def test_every_case_names_faces_of_its_own_body(name: str) -> None:
    part = built(name)
    of = {one.name: one.body for one in part.load_faces}
    assert len(of) == len(part.load_faces)
    bodies = {one.name for one in part.bodies}
    assert {case.body for case in part.loads} == bodies
    for case in part.loads:
        assert case.body in bodies and of[case.on] == case.body
        assert case.held and case.on not in case.held and all(of[one] == case.body for one in case.held), case
        assert all(math.isclose(math.hypot(*way), 1.0) for way in case.directions)
        assert case.why and (case.force_n > 0.0) == bool(case.directions) == (case.pressure_mpa == 0.0)
        assert case.key in ("width", "arm", "clamp.screws", "second_fixing")


@pytest.mark.parametrize("name", SPECS)
def test_every_key_is_one_of_the_yaml(name: str) -> None:
    keys = {case.key.split(".")[0] for case in built(name).loads}
    assert keys <= set(HoseHangerKeys.model_fields)


@pytest.mark.parametrize("name", SPECS)
def test_what_is_asked_of_a_hanger_is_declared(name: str) -> None:
    part, spec = built(name), SPECS[name]
    assert part.hanging is not None
    snags = [one for one in part.loads if one.name.startswith("snag") and one.body != "base"]
    assert {one.force_n for one in snags} == {150.0} and all(len(one.directions) == 26 for one in snags)
    assert len(snags) == min(spec.count, 3) * (2 if spec.style == "clamp" else 1)
    hands = [one for one in part.loads if one.name.startswith("hand")]
    assert bool(hands) == (spec.style == "hook" or (spec.style == "clamp" and spec.clamp.kind == "screws"))
    # 0.5 N m on an M5 with a nut factor of 0.2: 500 N, whatever the hand weighs
    assert all(one.force_n == pytest.approx(500.0 if "head" in one.name else 50.0) for one in hands)


@pytest.mark.parametrize("name", SPECS)
def test_the_weight_comes_whole_to_every_body_on_its_way(name: str) -> None:
    """In the strap it pulls at both ears; on a cap below, it comes through nuts or band to the half on the base."""
    part, spec = built(name), SPECS[name]
    assert part.hanging is not None
    whole = part.hanging.lasting_n * spec.count
    lasting = [one for one in part.loads if one.lasting]
    assert all(one.directions == ((0.0, 0.0, -1.0),) for one in lasting)
    for body in part.bodies:
        own = [one for one in lasting if one.body == body.name]
        if own or not body.name.startswith("cap"):
            assert math.fsum(one.force_n for one in own) == pytest.approx(whole), body.name
    on = {one.on.rsplit(" ", 1)[0] if one.on[-1].isdigit() else one.on for one in lasting if one.body != "base"}
    screw = {"clamp screw one side nut", "clamp screw other side nut"}
    below = {"ceiling": {"strap seat"}, "two": {"strap seat"}, "under across": {"strap seat"}, "tie": {"strap seat"}}
    below |= {one: {"cap", *screw} for one in ("clamp", "strut", "rod", "batten", "swivel strut")}
    assert on == below.get(name, on)
    if name == "band up":
        assert on == {"cap", "half band seat"}


@pytest.mark.parametrize("name", SPECS)
def test_what_holds_it_is_declared_as_it_gives_way(name: str) -> None:
    part = built(name)
    faces = {one.name: one for one in part.load_faces}
    kinds = {one.face: one for one in part.supports}
    assert set(kinds) <= set(faces) and len(kinds) == len(part.supports)
    held = {one for case in part.loads for one in case.held}
    fixed = {one for one in held - set(kinds)}
    assert all(one.startswith("eye") or faces[one].kind == "round" for one in fixed), fixed
    for one in kinds.values():
        seats = ("back", "bed", "turning face", "rod head")
        seat = one.face.startswith(seats) or (one.face == faces[one.face].body == "cap")
        assert one.kind == ("seat" if seat else "washer"), one.face
        if one.kind == "washer":
            assert 100.0 < one.lateral_n_mm <= 1e6 and 300.0 < one.axial_n_mm <= 2e6, one
    usual = [one for one in part.loads if one.body == "hanger" and not one.name.startswith(("line", "squeeze"))]
    hanger_held = {one for case in usual for one in case.held}
    assert any(kinds[one].kind == "washer" for one in hanger_held), "nothing holds it against a pull"
    assert any(kinds[one].kind == "seat" for one in hanger_held)


def test_springs_of_the_joist_are_those_of_the_standard() -> None:
    """EN 1995-1-1:2004, table 7.1, screws (from memory): rho_m^1.5 d / 23; spruce C16 has rho_m 370 to 410 (EN 338)."""
    for one in built("saddle").supports:
        if one.kind == "washer":
            assert 370.0**1.5 * 5.0 / 23.0 <= one.lateral_n_mm <= 410.0**1.5 * 5.0 / 23.0


def test_a_seat_lies_only_where_something_is_behind_it() -> None:
    """On a batten 40 mm wide under a hanger of 44; on a strut's two lips of 9.5 mm, and nowhere over its slot."""
    (back,) = (one for one in built("batten").load_faces if one.name == "back")
    assert back.right_mm == pytest.approx((2.0, 42.0))
    lips = [one for one in built("strut").load_faces if one.name.startswith("back")]
    assert [one.right_mm[1] - one.right_mm[0] for one in lips] == pytest.approx([9.5, 9.5])
    assert lips[1].right_mm[0] - lips[0].right_mm[1] == pytest.approx(22.0)


def test_the_bands_squeeze_is_that_of_a_thin_ring() -> None:
    """T = p r b: 800 N on a band of 13 mm round 126 mm are about 1 MPa."""
    squeezes = [one for one in built("band").loads if one.pressure_mpa]
    assert {one.body for one in squeezes} == {"hanger", "cap"}
    for one in squeezes:
        face = next(face for face in built("band").load_faces if face.name == one.on)
        assert one.pressure_mpa * face.r_mm * 13.0 == pytest.approx(800.0)
        assert 0.5 < one.pressure_mpa < 1.5


def test_on_its_line_the_load_hangs_plumb_below_the_eye() -> None:
    part = built("ceiling")
    assert part.hanging is not None
    (case,) = (one for one in part.loads if one.name.startswith("line"))
    (eye,), (load,) = part.hanging.eyes, part.hanging.load_at
    arm = np.array(load) - np.array(eye.frame.point(0.0, eye.long_mm / 2, 0.0))
    assert case.held == (eye.name,) and case.at == load
    assert np.linalg.norm(np.cross(arm, case.directions[0])) == pytest.approx(0.0, abs=1e-9)
    assert case.force_n >= 4 * part.hanging.lasting_n


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
