"""The guard: slots that no finger goes into, resting on the rails, on the bed of a small printer."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from tests.gate_specs import gate_4in, gate_6in, metal_alongside

from fitwright.checks import features, printing, solid, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.guard import guard_bodies, guard_bought
from fitwright.parts.gate.guard_plan import guard_plan
from fitwright.parts.gate.plan import gate_plan
from fitwright.physics.slide.gaps import TIP_MM
from fitwright.spec.gate import GateBracketSpec

SPECS = {
    "4 in rods": gate_4in(frame="rods"),
    "4 in one piece": gate_4in(frame="one_piece"),
    "6 in rods": gate_6in(frame="rods"),
}


def part_of(spec: GateBracketSpec) -> Part:
    return Part("gate", "gate_bracket", guard_bodies(gate_plan(spec), spec))


@pytest.mark.slow
@pytest.mark.parametrize("name", SPECS)
def test_both_plates_are_sound_and_print_without_support(name: str) -> None:
    spec = SPECS[name]
    part = part_of(spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    found = [f for run in (solid, features, wall, printing) for f in run.check(part, meshes, spec)]
    assert [f for f in found if f.severity != "pass"] == []
    assert {body.name for body in part.bodies} >= {"guard_up", "guard_down"}


def test_slots_are_narrower_than_a_fingers_tip_and_bars_wider_than_a_wall() -> None:
    spec = SPECS["4 in rods"]
    numbers = guard_plan(gate_plan(spec), spec)
    assert numbers.slots
    for slot in numbers.slots:
        assert min(slot.x[1] - slot.x[0], slot.y[1] - slot.y[0]) <= TIP_MM
    firsts = sorted({slot.x for slot in numbers.slots})
    assert min(b[0] - a[1] for a, b in itertools.pairwise(firsts)) >= spec.wall_mm


def test_the_upper_plate_is_the_mirror_image_of_the_lower() -> None:
    up, down = part_of(SPECS["4 in rods"]).bodies[:2]
    assert up.solid.Volume() == pytest.approx(down.solid.Volume(), rel=1e-9)
    a, b = up.solid.BoundingBox(), down.solid.BoundingBox()
    assert (a.zmin, a.zmax) == pytest.approx((-b.zmax, -b.zmin))


def test_it_laps_over_yoke_and_nose_plate_whatever_the_setting() -> None:
    for spec in SPECS.values():
        plan = gate_plan(spec)
        y = guard_plan(plan, spec).plate.y
        assert y[0] < plan.frame.yoke_y1 - 1.0
        assert y[1] >= plan.nose_face_mm - plan.frame.nose.deep + spec.setting_mm + 1.0


def test_no_guard_is_made_where_none_is_wanted() -> None:
    spec = gate_4in(frame="rods", guard="no")
    plan = gate_plan(spec)
    assert guard_bodies(plan, spec) == () and list(guard_bought(plan, spec)) == []


@pytest.mark.parametrize("spec", [gate_6in(frame="board", guard="yes"), metal_alongside(guard="yes")])
def test_a_guard_that_cannot_be_made_is_refused(spec: GateBracketSpec) -> None:
    with pytest.raises(RefusalError) as caught:
        guard_bodies(gate_plan(spec), spec)
    assert caught.value.key == "guard" and "rods" in caught.value.allowed


def test_the_ties_reach_round_both_plates() -> None:
    spec = SPECS["4 in rods"]
    [tie] = guard_bought(gate_plan(spec), spec)
    high = 2 * guard_plan(gate_plan(spec), spec).plate.z[1]
    assert tie.count == 4 and tie.long_mm is not None and tie.long_mm > 2 * high


def test_a_missing_slot_is_found() -> None:
    """Spoilt after the build: one slot filled again; the genus is one less than was meant."""
    spec = SPECS["4 in rods"]
    part = part_of(spec)
    body, slot = part.bodies[0], guard_plan(gate_plan(spec), spec).slots[0]
    size = [high - low for low, high in slot.spans]
    import cadquery as cq

    fill = cq.Solid.makeBox(*size, cq.Vector(slot.x[0], slot.y[0], slot.z[0]))
    [filled] = body.solid.fuse(fill).Solids()
    spoilt = replace(body, solid=filled)
    found = solid.check(Part("gate", "gate_bracket", (spoilt,)), {spoilt.name: mesh_body(spoilt)})
    assert any("through holes" in f.message for f in found if f.blocks)
    assert math.isclose(np.prod(size), filled.Volume() - body.solid.Volume(), rel_tol=1e-6)


def test_on_a_short_bed_each_plate_is_made_in_pieces_with_ties_of_their_own() -> None:
    """180 mm of bed for a plate 202 mm long: the bodies themselves, not only their plan."""
    short = SPECS["6 in rods"].printer.model_copy(update={"bed_x_mm": 225.0, "bed_y_mm": 180.0})
    spec = gate_6in(frame="rods", printer=short)
    plan = gate_plan(spec)
    bodies = guard_bodies(plan, spec)
    assert [body.name for body in bodies] == ["guard_up_1", "guard_up_2", "guard_down_1", "guard_down_2"]
    for body in bodies:
        box = body.solid.BoundingBox()
        assert box.ymax - box.ymin <= 180.0
    [ties] = guard_bought(plan, spec)
    assert ties.count == 8
