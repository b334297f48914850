"""The bracket in one piece: where `auto` takes it, on the thrust line, clear of the blade, and on the bed."""

from __future__ import annotations

import pytest
from cadquery import Solid, Vector
from tests.gate_specs import BORE_16, BORE_32, GATE_4, METAL_100, gate_4in, gate_6in, gate_bracket

from fitwright.checks import features, fit_built, printing, solid, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.frame_one_piece import one_piece_bodies
from fitwright.parts.gate.frame_plan import fits_bed, not_at_all, one_piece_gives, one_piece_outline
from fitwright.parts.gate.plan import gate_plan
from fitwright.pose import choose_pose
from fitwright.spec.gate import GateBracketSpec, GateMount
from fitwright.spec.grammar.own_printers import table_printer

SIDEWAYS_16 = BORE_16.model_copy(update={"ports_face": "left"})
BIG = table_printer("generic_300")
ONE = {
    "4 in": gate_4in(frame="one_piece"),
    "6 in on a large bed": gate_6in(frame="one_piece", printer=BIG),
    "bore 32": gate_bracket(GATE_4, BORE_32, frame="one_piece", printer=BIG),
    "clamp": gate_bracket(GATE_4, SIDEWAYS_16, frame="one_piece", hold="clamp", printer=BIG),
    "metal": gate_bracket(METAL_100, frame="one_piece", printer=BIG),
}


def bracket(spec: GateBracketSpec) -> Part:
    """The frame alone."""
    return Part("bracket", "gate_bracket", one_piece_bodies(gate_plan(spec), spec))


@pytest.mark.parametrize("name", ONE)
def test_it_is_sound_and_fits(name: str) -> None:
    """All checks pass but for one warning: the upper ears want support over the gap for the gate's body."""
    spec = ONE[name]
    part = bracket(spec)
    meshes = {"bracket": mesh_body(part.bodies[0])}
    checks = (solid, features, wall, printing, fit_built)
    findings = [f for check in checks for f in check.check(part, meshes, spec)]
    assert {(f.code, f.severity) for f in findings if f.severity != "pass"} == {("printing.overhang", "warn")}


@pytest.mark.parametrize("name", ONE)
def test_its_centroid_is_on_the_thrust_line(name: str) -> None:
    """Within 5 mm: else the thrust bends it aside."""
    middle = bracket(ONE[name]).bodies[0].solid.Center()
    assert abs(middle.x) < 1e-3
    assert abs(middle.z) < 5.0


@pytest.mark.parametrize("name", ["4 in", "6 in on a large bed"])
def test_blade_and_coupling_pass_between_the_rails(name: str) -> None:
    spec = ONE[name]
    plan, solid_ = gate_plan(spec), bracket(spec).bodies[0].solid
    blade, pair = spec.gate.blade, plan.coupling
    end = plan.ends.blade_open_mm
    sweep = Solid.makeBox(
        blade.width_mm, end + 30, blade.thickness_mm, Vector(-blade.width_mm / 2, -30, -blade.thickness_mm / 2)
    )
    shut = plan.ends.blade_shut_mm - spec.gate.shut_mm
    begin, far = pair.tip_y + shut, pair.shoulder_y + shut + plan.moved_mm
    coupling = Solid.makeBox(
        pair.wide_mm, far - begin, pair.high_mm, Vector(-pair.wide_mm / 2, begin, -pair.high_mm / 2)
    )
    for thing in (sweep, coupling):
        common = solid_.intersect(thing)
        assert sum(s.Volume() for s in common.Solids()) < 1e-6


def test_auto_takes_one_piece_where_it_fits_and_says_so() -> None:
    frame = gate_plan(gate_4in()).frame
    assert frame.kind == "one_piece" and "fits the bed" in frame.frame_why


def test_auto_takes_rods_where_the_bed_is_short_and_says_why() -> None:
    frame = gate_plan(gate_6in()).frame
    assert frame.kind == "rods" and "220 x 220 mm" in frame.frame_why
    assert gate_plan(gate_6in(printer=BIG)).frame.kind == "one_piece"


def test_asked_for_but_too_long_it_is_built_and_the_bed_blocks_it() -> None:
    spec = gate_6in(frame="one_piece")
    part = bracket(spec)
    found = printing.check(part, {"bracket": mesh_body(part.bodies[0])}, spec)
    assert [f.severity for f in found if f.code == "printing.bed"] == ["fail"]


@pytest.mark.parametrize("name", ONE)
def test_the_outline_that_auto_judges_is_no_smaller_than_the_bracket(name: str) -> None:
    spec = ONE[name]
    body = bracket(spec).bodies[0]
    box = body.solid.BoundingBox()
    corners = one_piece_outline(gate_plan(spec).frame, spec)
    assert max(x for x, _ in corners) == pytest.approx(box.xmax, abs=0.1)
    assert (min(y for _, y in corners), max(y for _, y in corners)) == pytest.approx((box.ymin, box.ymax), abs=0.1)
    choice = choose_pose(body, mesh_body(body), spec.printer)
    assert choice.plan.fits == fits_bed(corners, spec.printer.bed_x_mm, spec.printer.bed_y_mm)


def test_it_is_stiff_enough_at_full_thrust() -> None:
    for spec in ONE.values():
        assert one_piece_gives(gate_plan(spec).frame, spec).within()


def test_a_mount_that_needs_bars_is_refused_in_one_piece_and_auto_takes_rods() -> None:
    gate = METAL_100.model_copy(update={"mount": GateMount(kind="saddle")})
    spec = gate_bracket(gate, frame="one_piece")
    with pytest.raises(RefusalError) as refusal:
        one_piece_bodies(gate_plan(spec), spec)
    assert (refusal.value.key, refusal.value.allowed) == ("frame", "rods")
    frame = gate_plan(gate_bracket(gate, printer=BIG)).frame
    assert frame.kind == "rods" and "bars" in frame.frame_why


def test_one_that_would_bend_is_refused_with_rods_as_the_cure() -> None:
    """The same frame under forty times the thrust."""
    spec = gate_4in(frame="one_piece")
    plan = gate_plan(spec)
    harder = spec.model_copy(update={"pressure_mpa": 24.0})
    assert "0.5 mm and 0.5 deg allowed" in not_at_all(plan.frame, harder)
    with pytest.raises(RefusalError, match="frame"):
        one_piece_bodies(plan, harder)


def test_auto_counts_a_clamps_long_ears_and_takes_rods_where_the_bed_is_too_small_for_them() -> None:
    """A clamp's ears are as long as bending them asks: known only once the yoke is."""
    gate = GATE_4.model_copy(update={"mount": GateMount(kind="clamp")})
    frame = gate_plan(gate_bracket(gate)).frame
    assert frame.kind == "rods" and "220 x 220 mm" in frame.frame_why
    spec = gate_bracket(gate, printer=BIG)
    assert gate_plan(spec).frame.kind == "one_piece"
    body = bracket(spec).bodies[0]
    assert choose_pose(body, mesh_body(body), spec.printer).plan.fits


def test_in_one_piece_a_clamp_stands_off_the_body_by_its_setting() -> None:
    """Else it could be set one way only."""
    gate = GATE_4.model_copy(update={"mount": GateMount(kind="clamp")})
    assert gate_plan(gate_bracket(gate, frame="one_piece", printer=BIG)).frame.yoke_y0 == pytest.approx(5.5)
