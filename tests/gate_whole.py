"""Gate brackets from the YAML that a user writes, through the whole program, and spoilt after the build."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import cadquery as cq
import pytest

from fitwright import pipeline
from fitwright.checks import CHECKS
from fitwright.errors import RefusalError
from fitwright.finding import Finding, Severity
from fitwright.frame import Vec
from fitwright.mesh import mesh_body
from fitwright.part import Body, Fastening, Part, Pose, Seat
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

from .whole import meshes_of, part_of, spec_of

GATE_4 = """part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body: {width: 150, thickness: 22}
  port: {diameter: 102, to_edge: 72}
  screws: {across: 132, from_edge: 12, size: M5}
cylinder: ISO 6432 16 x 125
"""
"""A 4 in plastic gate, invented, which passes."""
RODS = GATE_4 + "frame: rods\nguard: no\n"


def told(text: str, *changes: tuple[str, str]) -> str:
    """The YAML with words of it exchanged, each of which must stand in it once."""
    for was, becomes in changes:
        assert text.count(was) == 1, (was, text)
        text = text.replace(was, becomes)
    return text


def judged(text: str, *codes: str, part: Part | None = None) -> tuple[Finding, ...]:
    """What the pipeline says of it: by these checks, or by all; `part` stands in place of the one that is built."""
    made = part or part_of(text)
    built = {body.name: body for body in part_of(text).bodies}
    meshes = {
        body.name: meshes_of(text)[body.name] if built.get(body.name) is body else mesh_body(body)
        for body in made.bodies
    }
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pipeline, "CHECKS", tuple(one for one in CHECKS if not codes or one[0] in codes))
        return pipeline.check(made, meshes, spec_of(text))


def refused(text: str) -> RefusalError:
    """The refusal of a part that loads but cannot be built."""
    (spec,) = load_text(text, "gate.yaml")
    with pytest.raises(RefusalError) as caught:
        BUILDERS[spec.part](spec)
    assert caught.value.key and caught.value.found and caught.value.allowed and caught.value.why
    return caught.value


def the(found: tuple[Finding, ...], code: str, words: str = "", severity: Severity = "fail") -> Finding:
    """The one finding of this code and severity that says so."""
    matching = [f for f in found if f.code == code and f.severity == severity and words in f.message]
    assert len(matching) == 1, [
        (f.code, f.severity, f.message) for f in found if f.severity != "pass" or f.code == code
    ]
    return matching[0]


def bad(found: tuple[Finding, ...], severity: Severity = "fail") -> list[str]:
    """Codes of all that fails, or warns."""
    return [f.code for f in found if f.severity == severity]


def spoilt(
    text: str,
    solids: Mapping[str, cq.Shape] | None = None,
    more: tuple[Body, ...] = (),
    without: tuple[str, ...] = (),
    fastenings: Mapping[str, Fastening] | None = None,
    seats: Mapping[str, Seat] | None = None,
) -> Part:
    """The part as built, with other solids, bodies, fastenings or faces of these names in place of its own."""
    part, solids, fastenings, seats = part_of(text), solids or {}, fastenings or {}, seats or {}
    bodies = tuple(
        replace(one, solid=solids[one.name].Solids()[0]) if one.name in solids else one
        for one in part.bodies
        if one.name not in without
    )
    return replace(
        part,
        bodies=(*bodies, *more),
        fastenings=tuple(fastenings.get(one.name, one) for one in part.fastenings),
        seats=tuple(seats.get(one.name, one) for one in part.seats if one.body not in without),
    )


def solid_of(text: str, name: str) -> cq.Shape:
    """A body's solid."""
    (body,) = (one for one in part_of(text).bodies if one.name == name)
    return body.solid


def lump(name: str, solid: cq.Shape, moving: bool = False) -> Body:
    """A body of whatever this solid is."""
    return Body(name, solid.Solids()[0], 0, 2.4, (Pose("as it is", (0.0, 0.0, -1.0)),), moving=moving)


def box(low: Vec, high: Vec) -> cq.Solid:
    """A box between two corners (right, away, up)."""
    return cq.Solid.makeBox(*(b - a for a, b in zip(low, high, strict=True)), cq.Vector(*low))


def rod(d: float, y0: float, y1: float, x: float = 0.0, z: float = 0.0) -> cq.Solid:
    """A cylinder along the blade's way."""
    return cq.Solid.makeCylinder(d / 2, y1 - y0, cq.Vector(x, y0, z), cq.Vector(0, 1, 0))
