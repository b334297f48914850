"""The halves check passes sound halves and fails each of the ways in which they may not go together."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
import trimesh

from fitwright.checks import halves
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import HoleFit, Part
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

TUBE = "part: reducer\nlength: 140\nend_a: {plain: {inside: 60}}\nend_b: {plain: {inside: 60}}\nhalves: %s\n"
BOLTED = "{across: 60}"
LAPPED = "{across: 70, joint: {lap: {}}}"
PEGGED = "{along: up, joint: {lap: {}}}"
ALONG = "{along: up}"


@cache
def made(how: str) -> tuple[Part, dict[str, BodyMesh]]:
    spec = load_text(TUBE % how, "halves.yaml")[0]
    part = BUILDERS[spec.part](spec)
    return part, {body.name: mesh_body(body) for body in part.bodies}


def moved(how: str, *by: float) -> dict[str, BodyMesh]:
    """The meshes with the second half moved."""
    _, meshes = made(how)
    mesh: trimesh.Trimesh = meshes["half_b"].mesh.copy()
    mesh.apply_translation(by)
    return {**meshes, "half_b": replace(meshes["half_b"], mesh=mesh)}


def messages(part: Part, meshes: dict[str, BodyMesh]) -> str:
    return "; ".join(f.message for f in halves.check(part, meshes) if f.blocks)


@pytest.mark.parametrize("how", [BOLTED, LAPPED, PEGGED, ALONG])
def test_sound_halves_pass(how: str) -> None:
    part, meshes = made(how)
    assert [f.severity for f in halves.check(part, meshes)] == ["pass"]


def test_a_half_without_its_lip() -> None:
    part, meshes = made(BOLTED)
    bare = part.bodies[0].solid.intersect(part.bodies[0].solid.makeCylinder(32.52, 200, (0, 0, 0), (0, 1, 0)))
    body = replace(part.bodies[0], solid=bare.Solids()[0])
    assert "mm3 were meant" in messages(part, {**meshes, "half_a": mesh_body(body)})


def test_halves_that_overlap() -> None:
    assert "take the same room" in messages(made(BOLTED)[0], moved(BOLTED, 0.0, -0.1, 0.0))


def test_a_gap_between_the_mating_faces() -> None:
    assert "off the plane" in messages(made(BOLTED)[0], moved(BOLTED, 0.0, 0.1, 0.0))


@pytest.mark.parametrize("how", [BOLTED, ALONG, PEGGED])
def test_holes_out_of_line(how: str) -> None:
    aside = (0.2, 0.0, 0.0) if how == BOLTED else (0.0, 0.2, 0.0)
    assert "out of line" in messages(made(how)[0], moved(how, *aside))


def test_a_bolt_hole_that_is_not_there() -> None:
    part, meshes = made(BOLTED)
    seam = part.seams[0]
    stray = replace(seam.pairs[0], at=(60.0, 60.0, 60.0))
    assert "nothing of it was found" in messages(replace(part, seams=(replace(seam, pairs=(stray,)),)), meshes)


def test_a_lap_too_tight() -> None:
    assert "the lap's gap is" in messages(made(LAPPED)[0], moved(LAPPED, 0.1, 0.0, 0.0))


def test_a_seam_through_a_hole() -> None:
    part, meshes = made(BOLTED)
    pilot = HoleFit("end_a screw 1", (25.0, 61.0, 0.0), (1.0, 0.0, 0.0), 10.0, 3.5, "end_a.socket.screws")
    body = replace(part.bodies[0], holes=(*part.bodies[0].holes, pilot))
    assert "the seam runs through end_a screw 1" in messages(replace(part, bodies=(body, part.bodies[1])), meshes)


def test_a_half_without_a_mesh_is_not_passed() -> None:
    part, meshes = made(BOLTED)
    assert "not checked" in messages(part, {"half_a": meshes["half_a"]})
