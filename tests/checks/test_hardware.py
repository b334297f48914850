"""The check `hardware` on handmade plates: what goes together passes, and each way in which it would not is found."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest

from fitwright.checks.hardware import check
from fitwright.checks.hardware_room import HANDLE_WIDE
from fitwright.data.spanners import spanner
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Body, Fastening, Motion, Part, Pocket, Pose, StandIn, Turned

POSES = (Pose("flat", (0.0, 0.0, -1.0)),)
SCREW = Fastening(
    name="screw",
    size="M5",
    d_mm=5.0,
    head=(0.0, 0.0, 10.0),
    direction=(0.0, 0.0, -1.0),
    grip_mm=10.0,
    through=("plate", "plate"),
    key="gate.screws",
    long_mm=20.0,
    pitch_mm=0.8,
    nut_m_mm=4.7,
    nut_af_mm=8.0,
    washer_d_mm=10.0,
    washer_h_mm=1.0,
    head_d_mm=8.5,
    turned=(Turned(8.0, 11.0, 1.0, "nut"),),
)


def plate(hole_mm: float = 5.5, x: float = 0.0, pocket_mm: float = 0.0, open_to: str = "") -> cq.Solid:
    """40 x 40 x 10 with a hole at x, and from below a hexagonal pocket 6 deep (open to one side where asked)."""
    solid = cq.Workplane().box(40, 40, 10, centered=(True, True, False))
    solid = solid.cut(cq.Workplane().center(x, 0).circle(hole_mm / 2).extrude(10))
    if pocket_mm:
        solid = solid.cut(cq.Workplane().polygon(6, pocket_mm * 2 / 3**0.5).extrude(6))
    [found] = solid.vals()[0].Solids()
    return found


def found(solid: cq.Solid, *screws: Fastening, stand_ins: tuple[StandIn, ...] = ()) -> list[Finding]:
    body = Body("plate", solid, 1, 3.0, POSES)
    part = Part("p", "gate_bracket", (body,), stand_ins, fastenings=screws)
    return check(part, {"plate": mesh_body(body)})


def bad(findings: list[Finding]) -> list[str]:
    return [f.message for f in findings if f.severity != "pass"]


def test_a_screw_with_nut_and_washers_through_a_plate_passes() -> None:
    findings = found(plate(), SCREW)
    assert bad(findings) == []


def test_a_part_without_fastenings_is_not_judged() -> None:
    assert found(plate()) == []


def test_a_screw_that_is_too_short_names_the_length_to_buy() -> None:
    """Grip 10, two washers of 1, nut 4.7, one pitch 0.8: 17.5 is needed; 18 is the next sold."""
    [finding] = [f for f in found(plate(), replace(SCREW, long_mm=16.0)) if f.severity == "fail"]
    assert "too short" in finding.message and "4.0 mm of thread" in finding.message
    assert finding.limit == pytest.approx(17.5) and "18 mm" in finding.advice


def test_a_screw_into_a_cover_needs_its_diameter_of_thread_and_room_at_the_end() -> None:
    into = replace(
        SCREW, nut_m_mm=0.0, washers=1, thread_into="front cover", deep_mm=8.0, turned=(), through=("plate",)
    )
    assert bad(found(plate(), replace(into, long_mm=17.0))) == []
    assert "only 3.0 mm of thread" in bad(found(plate(), replace(into, long_mm=14.0)))[0]
    assert "meets the ground" in bad(found(plate(), replace(into, long_mm=20.0)))[0]


def test_a_thread_in_the_moulded_gate_is_never_trusted() -> None:
    into = replace(SCREW, nut_m_mm=0.0, washers=1, thread_into="gate", deep_mm=20.0, turned=(), through=("plate",))
    assert "tears out" in bad(found(plate(), into))[0]


def test_edge_distance_is_measured_on_the_mesh() -> None:
    """The hole's middle 6 mm from the plate's edge: 1.2 d."""
    near = replace(SCREW, head=(14.0, 0.0, 10.0), washer_d_mm=0.0, head_d_mm=0.0)
    findings = [f for f in found(plate(x=14.0), near) if f.severity == "fail"]
    assert [f.value for f in findings] == [pytest.approx(6.0, abs=0.05)] and findings[0].limit == 7.5


def test_a_hole_that_is_not_there_is_found() -> None:
    assert "no hole" in bad(found(plate(), replace(SCREW, head=(12.0, 0.0, 10.0), washer_d_mm=0.0)))[0]


def test_a_washer_must_rest_on_its_face() -> None:
    assert "washer under the head" in bad(found(plate(), replace(SCREW, head=(0.0, 0.0, 11.0), grip_mm=11.0)))[0]
    missing = replace(SCREW, washers=0, washer_d_mm=0.0)
    assert "no washer" in bad(found(plate(), missing))[0]


@pytest.mark.parametrize(("pocket", "says"), [(8.3, ""), (7.9, "does not fit"), (9.6, "turns in its pocket")])
def test_a_nut_goes_into_its_pocket_and_is_held(pocket: float, says: str) -> None:
    """A hexagon of 8 turns freely in a pocket that is as wide across flats as the nut across corners (9.24)."""
    captive = replace(
        SCREW, grip_mm=4.0, washers=1, turned=(), long_mm=12.0, pocket=Pocket("plate", (0.0, 0.0, 1.0), 10.0)
    )
    said = bad(found(plate(pocket_mm=pocket), captive))
    assert said == [] if not says else says in said[0]


def test_a_nut_that_cannot_come_in_is_found() -> None:
    captive = replace(
        SCREW, grip_mm=4.0, washers=1, turned=(), long_mm=12.0, pocket=Pocket("plate", (1.0, 0.0, 0.0), 20.0)
    )
    assert "cannot be brought in" in bad(found(plate(pocket_mm=8.3), captive))[0]


def walls(gap_mm: float) -> StandIn:
    """Two walls beside the nut that leave `gap_mm` for spanner and hand."""
    solids = [
        cq.Solid.makeBox(200, 20, 30, cq.Vector(-100, side * gap_mm / 2 - (20 if side < 0 else 0), -35))
        for side in (-1, 1)
    ]
    return StandIn("walls", cq.Compound.makeCompound(solids), "frame", None)


def test_a_spanner_between_two_walls() -> None:
    """Head of an 8 mm spanner about 18 wide: walls 60 apart let it swing, 19 apart do not."""
    assert bad(found(plate(), SCREW, stand_ins=(walls(110.0),))) == []
    assert "cannot turn it on" in bad(found(plate(), SCREW, stand_ins=(walls(19.0),)))[0]


@pytest.mark.parametrize(("free_deg", "blocks"), [(20, True), (40, False)])
def test_a_spanner_needs_thirty_degrees_and_is_turned_over_below_sixty(free_deg: int, blocks: bool) -> None:
    """Between walls g apart a handle, l long and w wide, turns by a either way: l sin a + w / 2 cos a = g / 2."""
    row, wide = spanner(8.0), HANDLE_WIDE * 8.0
    a = math.radians(free_deg / 2 + 2.5)  # tried in steps of 5 degrees
    gap = 2 * (row.length_mm * math.sin(a) + wide / 2 * math.cos(a))
    [finding] = [f for f in found(plate(), SCREW, stand_ins=(walls(gap),)) if f.unit == "deg"]
    assert (finding.severity == "fail") is blocks and (finding.value, finding.limit) == (free_deg, 30.0)


def test_a_third_of_the_washer_over_a_step_is_too_much_but_for_a_slot() -> None:
    """The ring from r = 3.1 to 4.9 beyond x = 2: acos(2 / r) / pi of it hangs free, 0.33 in the mean."""
    step = plate().cut(cq.Solid.makeBox(30, 60, 5, cq.Vector(2, -30, 7))).Solids()[0]
    radii = (3.1, 3.7, 4.3, 4.9)
    rests = 1 - sum(math.acos(2 / r) / math.pi for r in radii) / len(radii)
    [finding] = [f for f in found(step, SCREW) if "washer under the head" in f.message]
    assert finding.severity == "fail" and finding.value == pytest.approx(rests, abs=0.03) and finding.limit == 0.8
    assert not [f for f in bad(found(step, replace(SCREW, slotted=True))) if "washer under" in f]


def test_the_nuts_side_is_judged_as_the_heads() -> None:
    """The plate ends 2 mm before the nut's washer; and a washer as small as the head is none under the nut."""
    assert "washer under the nut" in bad(found(plate(), replace(SCREW, grip_mm=12.0)))[0]
    one_washer = replace(SCREW, washers=1, washer_d_mm=8.5)
    assert "no washer under the nut" in bad(found(plate(), one_washer))[0]


@pytest.mark.parametrize("rides", [False, True])
def test_room_for_a_spanner_is_looked_for_at_both_ends_of_the_movement(rides: bool) -> None:
    """A block at the nut is 100 mm away at the end; one that stands 100 mm off on the other side never comes there."""
    other = -100.0 if rides else 100.0
    block, off = (cq.Solid.makeBox(80, 80, 40, cq.Vector(-40, y - 40, -41)) for y in (0.0, other))
    blocks = (
        StandIn("block", block, "frame", None, moving=not rides),
        StandIn("other", off, "frame", None, moving=not rides),
    )
    body = Body("plate", plate(), 1, 3.0, POSES, moving=rides)
    screw = replace(SCREW, moving=rides)
    moved = Part("p", "gate_bracket", (body,), blocks, fastenings=(screw,), motion=Motion((0.0, 1.0, 0.0), 100.0))
    still = replace(moved, motion=None)
    meshes = {"plate": mesh_body(body)}
    assert not [f for f in bad(check(moved, meshes)) if "spanner" in f]
    assert [f for f in bad(check(still, meshes)) if "spanner" in f]


def collar(high: float) -> StandIn:
    """A square wall round the nut, 18 to 24 mm from its axis, open on one side by `high`."""
    ring = cq.Workplane().box(48, 48, 40).cut(cq.Workplane().box(36, 36, 60))
    ring = ring.cut(cq.Workplane().center(24, 0).box(30, high, 60))
    [solid] = ring.vals()[0].Solids()
    return StandIn("collar", solid.translate(cq.Vector(0, 0, -21.5)), "frame", None)


@pytest.mark.parametrize(("high", "swings"), [(21.5, 30.0), (19.0, 20.0)])
def test_a_spanner_takes_the_one_side_that_is_open(high: float, swings: float) -> None:
    """A handle 7.2 wide, turned by phi, is 3.6 / cos phi + 24 tan phi high at 24 mm: 10.2 at 15 deg, 9.0 at 12.5."""
    (found,) = [f for f in found_of(collar(high)) if "spanner" in f.message]
    assert found.value == swings and found.severity == ("pass" if swings >= 30.0 else "fail")


def found_of(*stand_ins: StandIn) -> list[Finding]:
    return found(plate(), SCREW, stand_ins=stand_ins)
