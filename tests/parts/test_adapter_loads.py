"""Every face that an adapter declares to bear is on its finished mesh, where and as large as declared."""

from __future__ import annotations

import math
from collections import Counter
from functools import cache

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray
from tests.random_sections import random_sections
from tests.random_specs import random_yaml
from tests.test_random_halves import halves_yaml

from fitwright.errors import RefusalError, SpecError
from fitwright.loads import LoadFace
from fitwright.mesh import mesh_body
from fitwright.part import Body, Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

POINTS = 200_000
CHORD_MM = 0.03
"""Facets stray by so much from what is round."""
SPECS = {
    "tail": "part: reducer\nend_a: {socket: {over: 107.1}}\nend_b: {hose_tail: {hose_inside: 100}}\n",
    "two tails": "part: reducer\nend_a: {hose_tail: {hose_inside: 100}}\nend_b: {hose_tail: {hose_inside: 80}}\n",
    "level": "part: reducer\nline: level\nend_a: {spigot: {into: 100}}\nend_b: {hose_tail: {hose_inside: 63}}\n",
    "nested": "part: reducer\nline: nested\nend_a: {socket: {over: 100}}\nend_b: {hose_tail: {hose_inside: 110}}\n",
    "flange": "part: offset_adapter\noffset: {up: 40}\nend_b: {hose_tail: {hose_inside: 100}}\n"
    "end_a: {flange: {opening: 100, holes: {count: 4, circle: 140, size: M6}}}\n",
    "nut pockets": "part: reducer\nend_b: {spigot: {into: 100}}\n"
    "end_a: {flange: {opening: 90, thickness: 10, nut_pockets: yes, holes: {count: 6, circle: 150, size: M5}}}\n",
    "elbow": "part: offset_adapter\nangle: 90\nend_a: {socket: {over: 110}}\nend_b: {plain: {inside: 100}}\n",
    "duct": "part: reducer\nend_a: {socket: {over: {rectangle: {width: 150, height: 60}}}}\n"
    "end_b: {hose_tail: {hose_inside: 100}}\n",
    "oval": "part: reducer\nend_a: {spigot: {into: {oval: {width: 150, height: 60}}}}\nend_b: {socket: {over: 110}}\n",
    "clamped": "part: reducer\nend_a: {socket: {over: 110, clamp: {slits: 4}}}\nend_b: {spigot: {into: 100}}\n",
    "slit": "part: reducer\nslit: {}\nend_a: {socket: {over: 100}}\nend_b: {socket: {over: 102}}\n",
    "across": "part: reducer\nend_a: {socket: {over: 110}}\nend_b: {hose_tail: {hose_inside: 100}}\nlength: 200\n"
    "halves: {across: auto}\n",
    "along": "part: reducer\nend_a: {socket: {over: 110}}\nend_b: {hose_tail: {hose_inside: 100}}\n"
    "halves: {along: auto}\n",
    "bolted": "part: reducer\nend_a: {socket: {over: 110}}\nend_b: {hose_tail: {hose_inside: 100}}\n"
    "halves: {along: auto, joint: {bolts: {size: M4}}}\n",
    "plate": "part: flange_plate\nround: 160\nopenings: 100\nholes: {count: 4, circle: 130, size: M6}\n",
}


@cache
def sample(body: Body) -> tuple[NDArray[np.float64], NDArray[np.float64], float]:
    """Points all over a body's mesh, the normals there (out of the material), and the area that each stands for."""
    mesh = mesh_body(body).mesh
    points, facets = trimesh.sample.sample_surface(mesh, POINTS, seed=1)
    return np.asarray(points), np.asarray(mesh.face_normals)[facets], float(mesh.area) / POINTS


def area_mm2(body: Body, face: LoadFace) -> float:
    """Area of the mesh on the declared face, looking out of its material."""
    points, normals, each = sample(body)
    frame = face.frame
    away = points - np.array(frame.origin)
    right, up, s = (away @ np.array(v) for v in (frame.right, frame.up, frame.inward))
    near = face.near_mm + CHORD_MM
    if face.kind == "flat":
        on = (np.abs(s) < near) & (normals @ np.array(frame.inward) < -0.98)
        on &= (right >= face.right_mm[0]) & (right <= face.right_mm[1])
        on &= (up >= face.up_mm[0]) & (up <= face.up_mm[1])
        if face.disc_mm:
            on &= np.hypot(right, up) < face.disc_mm / 2
        return each * int(on.sum())
    low, high = face.turn_deg
    on = ((np.degrees(np.arctan2(right, up)) - low) % 360.0) <= high - low
    on &= (s > face.s_mm[0]) & (s < face.s_mm[1]) & (np.abs(np.hypot(right, up) - face.r_mm) < near)
    outwards = (normals @ np.array(frame.right)) * right + (normals @ np.array(frame.up)) * up
    outwards /= np.maximum(np.hypot(right, up), 1e-9)
    return each * int((on & ((outwards < -0.9) if " bore" in face.name else (outwards > 0.9))).sum())


def declared_mm2(face: LoadFace) -> float:
    """What it would have in full."""
    if face.disc_mm:
        return math.pi / 4 * face.disc_mm**2
    if face.kind == "flat":
        return (face.right_mm[1] - face.right_mm[0]) * (face.up_mm[1] - face.up_mm[0])
    return face.r_mm * math.radians(face.turn_deg[1] - face.turn_deg[0]) * (face.s_mm[1] - face.s_mm[0])


def least_share(face: LoadFace) -> float:
    """How much of it must be there at the least: a disc loses its bolt's hole, a wall runs to a corner, a bore has
    slits and a groove; faces in a mouth, flange or seam are as large as the plane is wide.
    """
    if face.name.endswith(("face", "mouth", "seam")):
        return 0.0005
    if face.disc_mm:
        return 0.25
    return 0.4


def judge(part: Part) -> None:
    """All that is declared is there, and every case can be reckoned."""
    bodies = {body.name: body for body in part.bodies}
    of = {face.name: face.body for face in part.load_faces}
    assert len(of) == len(part.load_faces), "two faces of one name"
    for face in part.load_faces:
        full, each = declared_mm2(face), sample(bodies[face.body])[2]
        share, scatter = area_mm2(bodies[face.body], face) / full, 4.0 * math.sqrt(each / full)
        assert least_share(face) - scatter <= share <= 1.05 + scatter, f"{face.name} on {face.body}: {share:.4f}"
        assert share > 0.0, f"{face.name} on {face.body}: not there"
    for case in part.loads:
        assert case.body in bodies and of[case.on] == case.body, case
        assert case.held and all(of[one] == case.body for one in case.held), case
        assert any(case.on != one for one in case.held), case
        assert case.why and (bool(case.directions) == (case.force_n > 0.0) != bool(case.pressure_mpa)), case
        assert all(math.isclose(math.hypot(*way), 1.0) for way in case.directions)
    assert {one.face for one in part.supports} <= set(of)
    assert len({case.name for case in part.loads}) == len(part.loads)


def built(text: str) -> Part | None:
    try:
        spec = load_text(text, "loads.yaml")[0]
        return BUILDERS[spec.part](spec)
    except (SpecError, RefusalError):
        return None


@cache
def named(name: str) -> Part:
    part = built(SPECS[name])
    assert part is not None, name
    return part


@pytest.mark.parametrize("name", SPECS)
def test_every_declared_face_is_on_the_mesh(name: str) -> None:
    judge(named(name))


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, 20, 5))
def test_random_adapters(start: int) -> None:
    found: Counter[str] = Counter()
    for seed in range(start, start + 5):
        family = ("reducer", "offset_adapter")[seed % 2]
        for text in (random_yaml(family, seed), random_sections(seed, family), halves_yaml(seed)):
            part = built(text)
            if part is None:
                continue
            try:
                judge(part)
            except AssertionError as error:
                raise AssertionError(f"seed {seed}: {error}\n{text}") from error
            assert part.loads, text
            found[part.family] += 1
    assert sum(found.values()) >= 7


def test_soft_parts_say_why_they_are_left_out() -> None:
    part = built("part: reducer\nmaterial: TPU\nend_a: {socket: {over: 32}}\nend_b: {socket: {over: 36}}\n")
    assert part is not None and not part.loads and not part.load_faces
    assert "TPU is soft" in part.facts["strength"]


def test_what_a_reducer_bears() -> None:
    """The hose's end is pulled while the socket sits on its pipe; a hose holds nothing, so nothing is held by it but
    where the band squeezes.
    """
    loads = {case.name: case for case in named("tail").loads}
    assert set(loads) == {"hose pull at end_b", "band at end_b"}
    pull, band = loads["hose pull at end_b"], loads["band at end_b"]
    assert pull.force_n == 100.0 and len(pull.directions) == 9 and pull.held == ("end_a bore",)
    assert pull.at is not None and pull.directions[0] == pytest.approx((0.0, 1.0, 0.0))
    mouth = max(face.frame.origin[1] for face in named("tail").load_faces)
    assert pull.at == pytest.approx((0.0, mouth + 50.0, 0.0))
    assert band.pressure_mpa == pytest.approx(2 * 800 / (13 * 99.5), rel=2e-3)
    assert {case.held for case in named("two tails").loads if "pull" in case.name} == {("end_a land",), ("end_b land",)}


def test_a_flange_is_held_at_its_bolts_and_presses_on_its_face() -> None:
    kinds = {one.face: one.kind for one in named("flange").supports}
    assert kinds == {"end_a face": "seat", **{f"end_a bolt {k}": "washer" for k in (1, 2, 3, 4)}}


def test_a_band_on_a_sleeve_presses_on_the_pipe_in_it() -> None:
    assert not [case for case in named("nested").loads if case.pressure_mpa]


def test_suction_pulls_at_large_flat_walls_for_good() -> None:
    walls = [case for case in named("duct").loads if case.name.startswith("suction")]
    assert walls and {(case.lasting, case.pressure_mpa) for case in walls} == {(False, -0.003), (True, -0.0015)}
    assert not [case for case in named("tail").loads if case.name.startswith("suction")]


def test_a_shop_vacuum_pulls_harder_and_at_narrower_walls() -> None:
    """20 kPa and 10: 60 mm at 3 kPa bear as much as 60 sqrt(3 / 20) = 23 mm at 20, and those are looked at too."""
    text = "part: reducer\nlength: 150\nend_a: {plain: {inside: {rectangle: {width: 90, height: 45}}}}\n"
    text += "end_b: {plain: {inside: {rectangle: {width: 90, height: 45}}}}\n"
    pulled = {}
    for more in ("", "air: {fan: shop vacuum}\n"):
        (spec,) = load_text(text + more, "duct.yaml")
        pulled[more] = [case for case in BUILDERS[spec.part](spec).loads if case.name.startswith("suction")]
    collector, vacuum = pulled.values()
    assert {case.pressure_mpa for case in collector} == {-0.003, -0.0015}
    assert {(case.lasting, case.pressure_mpa) for case in vacuum} == {(False, -0.02), (True, -0.01)}
    assert len({case.on for case in vacuum}) > len({case.on for case in collector}) > 0
    assert any(case.name.endswith(", 20 kPa (hose blocked)") for case in vacuum)


def test_each_half_has_what_it_bears() -> None:
    for name in ("across", "along"):
        assert {case.body for case in named(name).loads} == {"half_a", "half_b"}
    pulls = [case for case in named("along").loads if "pull" in case.name]
    assert math.fsum(case.force_n for case in pulls) == pytest.approx(100.0)
