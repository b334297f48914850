"""Every check stops a part that it should stop: parts built from YAML, spoilt afterwards, through the real pipeline.

Each part passes before it is spoilt. What is expected (2 holes, 0.2 mm, 0.3 deg, ...) is what was done to the part.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import cadquery as cq
import pytest
import trimesh

from fitwright import pipeline
from fitwright.checks import CHECKS
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Body, Feature, Part
from fitwright.spec.load import load_text

from .whole import blocking, body_of, part_of, result_of, spec_of

TUBE = "part: reducer\nlength: 60\nend_a: {plain: {inside: 50}}\nend_b: {plain: {inside: 50}}\n"
WALL = 2.52  # six lines of 0.42
OUTSIDE = 50 + 2 * WALL
SOCKET = "part: reducer\nend_a: {socket: {over: 60, fit: slide%s}}\nend_b: {plain: {inside: 58}}\n"
CORDED = SOCKET % ", cord: 4, depth: 35"


def along(d: float, start: float, long: float) -> cq.Solid:
    """A cylinder about end_a's axis."""
    return cq.Solid.makeCylinder(d / 2, long, cq.Vector(0, start, 0), cq.Vector(0, 1, 0))


def ring(inside: float, outside: float, start: float, long: float) -> cq.Solid:
    """A ring about end_a's axis."""
    return along(outside, start, long).cut(along(inside, start - 1, long + 2))


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> cq.Solid:
    """A box between two corners (right, away, up)."""
    return cq.Solid.makeBox(*(b - a for a, b in zip(low, high, strict=True)), cq.Vector(*low))


def only(shape: cq.Shape) -> Any:
    """The one solid of a boolean's answer, or the answer itself where there are more."""
    solids = shape.Solids()
    return solids[0] if len(solids) == 1 else shape


def spoilt(
    text: str, solid: cq.Shape | None = None, codes: tuple[str, ...] = (), **changes: Any
) -> tuple[Finding, ...]:
    """What these checks say (none named: all) of the part with another solid, or other declarations, in its place."""
    assert not blocking(result_of(text).findings), "the part must pass before it is spoilt"
    body: Body = replace(body_of(text), **({"solid": only(solid)} if solid is not None else {}), **changes)
    part: Part = replace(part_of(text), bodies=(body,))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pipeline, "CHECKS", tuple(one for one in CHECKS if not codes or one[0] in codes))
        return pipeline.check(part, {body.name: mesh_body(body)}, spec_of(text))


def the(found: tuple[Finding, ...], code: str, words: str, severity: str = "fail") -> Finding:
    """The finding of this code and severity that says so."""
    matching = [f for f in found if f.code == code and f.severity == severity and words in f.message]
    assert matching, [(f.code, f.severity, f.message) for f in found if f.severity != "pass"]
    return matching[0]


def feature(text: str, name: str) -> Feature:
    """A declared cut or boss by a part of its name."""
    (found,) = (f for f in body_of(text).features if name in f.name)
    return found


# solid


def test_a_void_and_a_stray_hole_whose_counts_cancel() -> None:
    solid = body_of(TUBE).solid
    lump = cq.Solid.makeSphere(4, cq.Vector(26, 30, 0), cq.Vector(0, 0, 1), -90, 90, 360)
    void = cq.Solid.makeSphere(1, cq.Vector(26.26, 30, 0), cq.Vector(0, 0, 1), -90, 90, 360)
    hole = cq.Solid.makeCylinder(2, 20, cq.Vector(0, 30, 20), cq.Vector(0, 0, 1))
    made = only(solid.fuse(lump.cut(along(50, 0, 60)))).cut(void).cut(hole)
    mesh = mesh_body(replace(body_of(TUBE), solid=only(made)))
    assert mesh.mesh.euler_number == 0  # as of a tube: the count alone sees nothing
    found = spoilt(TUBE, made)
    the(found, "solid", "a closed hollow")
    assert the(found, "solid", "2 through holes where 1 were meant").value == 2


def test_a_groove_that_breaks_through_the_wall() -> None:
    slot = box((20, 20, -8), (30, 26, 8))
    found = spoilt(TUBE, body_of(TUBE).solid.cut(slot))
    assert the(found, "solid", "through holes").limit == 1


def test_a_groove_that_breaks_through_all_round() -> None:
    found = spoilt(TUBE, body_of(TUBE).solid.cut(ring(49, 60, 20, 6)))
    assert the(found, "solid", "it is 2 solids, not one").value == 2


# features


def test_a_cut_that_did_nothing() -> None:
    groove = feature(CORDED, "groove")
    beside = replace(groove, tool=groove.tool.translate(cq.Vector(200, 0, 0)))
    others = tuple(f for f in body_of(CORDED).features if f is not groove)
    found = spoilt(CORDED, features=(*others, beside))
    assert groove.name in the(found, "features", "did nothing").place


def test_a_forgotten_groove() -> None:
    groove = feature(CORDED, "groove")
    wall = groove.tool.intersect(ring(60.5, 80, 0, 40))  # the bore itself stays open
    found = spoilt(CORDED, body_of(CORDED).solid.fuse(wall))
    finding = the(found, "features", f"{groove.name} was not cut in full")
    assert finding.value == pytest.approx(wall.Volume(), rel=0.01)


def test_a_forgotten_bead() -> None:
    text = "part: reducer\nend_a: {hose_tail: {hose_inside: 60}}\nend_b: {plain: {inside: 52}}\n"
    bead = feature(text, "bead")
    found = spoilt(text, body_of(text).solid.cut(ring(59.5, 90, -1, 12)))
    the(found, "features", f"{bead.name} is not there in full")


def test_a_forgotten_stop_shoulder() -> None:
    text = SOCKET % ""
    bore = body_of(text).fits[0].d0_mm
    found = spoilt(text, body_of(text).solid.cut(along(bore, 0, 60)))
    assert {"solid", "wall"} <= blocking(found)


def test_forgotten_bolt_holes() -> None:
    text = "part: reducer\nend_a: {flange: {opening: 50, holes: {count: 3, circle: 90, size: M5}}}\n"
    text += "end_b: {plain: {inside: 50}}\n"
    tools = [feature(text, f"hole {k}").tool for k in (1, 2, 3)]
    plate = along(200, 0, 5)
    found = spoilt(text, body_of(text).solid.fuse(*(tool.intersect(plate) for tool in tools)))
    the(found, "features", "was not cut in full")
    assert the(found, "solid", "1 through holes where 4 were meant").value == 1
    the(found, "fit.built", "was not found")


# wall


def test_a_wall_a_tenth_too_thin() -> None:
    found = spoilt(TUBE, body_of(TUBE).solid.cut(ring(OUTSIDE - 0.2, 80, -1, 62)), volume_mm3=None)
    assert blocking(found) == {"wall"}
    assert the(found, "wall", "least wall").value == pytest.approx(WALL - 0.1, rel=0.01)


def test_a_hole_three_tenths_from_the_edge() -> None:
    hole = cq.Solid.makeCylinder(2, 30, cq.Vector(0, 2.3, 15), cq.Vector(0, 0, 1))
    found = spoilt(TUBE, body_of(TUBE).solid.cut(hole), volume_mm3=None, genus=2)
    assert the(found, "wall", "least wall").value == pytest.approx(0.3, abs=0.01)


# fit.built


def test_a_bore_two_tenths_off() -> None:
    text = SOCKET % ""
    fit = body_of(text).fits[0]
    found = spoilt(text, body_of(text).solid.cut(along(fit.d0_mm + 0.2, -1, fit.s1_mm + 1)))
    finding = the(found, "fit.built", "off by 0.")
    assert finding.value == pytest.approx(fit.d0_mm + 0.2, abs=0.02) and finding.limit == pytest.approx(
        fit.d0_mm, abs=1e-3
    )


def test_a_bore_beside_its_axis() -> None:
    text = SOCKET % ""
    fit = body_of(text).fits[0]
    aside = along(fit.d0_mm, -1, fit.s1_mm + 1).translate(cq.Vector(0.2, 0, 0))
    the(spoilt(text, body_of(text).solid.cut(aside)), "fit.built", "its axis is")


def test_a_taper_three_tenths_of_a_degree_off() -> None:
    text = SOCKET % ", taper: 0.5 deg, depth: 30"
    steeper = text.replace("0.5 deg", "0.8 deg")
    finding = the(spoilt(text, body_of(steeper).solid), "fit.built", "half angle is off by 0.30 deg")
    assert "end_a socket" in finding.message


# fit.result and temperature judge numbers, so the YAML itself is what is spoilt


def test_an_interference_that_no_ring_stands() -> None:
    text = "part: reducer\nend_a: {socket: {over: 60, allowance: %s}}\nend_b: {plain: {inside: 58}}\n"
    assert not blocking(result_of(text % "0.3").findings)
    found = result_of(text % "-0.9").findings
    assert blocking(found) == {"fit.result"}
    the(found, "fit.result", "does not go on")


def test_a_place_too_hot_for_the_filament() -> None:
    assert not [f for f in result_of(TUBE + "near_heat: 40\n").findings if f.severity != "pass"]
    finding = the(result_of(TUBE + "near_heat: 120\n").findings, "temperature", "softens", "warn")
    assert finding.value == 120 and finding.limit is not None and finding.limit < 120


# clearance


def near_wall(gap: float) -> tuple[Finding, ...]:
    """The tube, `gap` mm below a ceiling that wants 2 mm."""
    at = OUTSIDE / 2 + gap
    return result_of(f"{TUBE}envelope: {{keep_clear: [{{wall: up, at: {at}, clearance: 2}}]}}\n").findings


def test_two_tenths_inside_a_walls_clearance() -> None:
    assert not blocking(near_wall(2.0))
    finding = the(near_wall(1.8), "clearance", "")
    assert finding.value == pytest.approx(1.8, abs=0.02) and finding.limit == 2.0 and "wall" in finding.message


def test_a_clash_of_two_closed_surfaces_that_never_cross() -> None:
    """A bolt's head wholly inside the flange: every surface is some way off, so a gap alone sees nothing."""
    inside = "{box: {left: -10, right: 14, down: 2, up: 2, toward: -2, away: 4}, clearance: 0}"
    text = "part: reducer\nend_a: {flange: {opening: 20, thickness: 6, gussets: 0,"
    text += " holes: {count: 3, circle: 60, size: M4}}}\nend_b: {plain: {inside: 20}}\n"
    assert not blocking(result_of(text).findings)
    found = result_of(f"{text}envelope: {{keep_clear: [{inside}]}}\n").findings
    assert blocking(found) == {"clearance"}


def test_a_lug_in_the_room_of_the_pipe() -> None:
    text = SOCKET % ""
    lug = box((27, -20, -4), (36, 1, 4))
    finding = the(spoilt(text, body_of(text).solid.fuse(lug)), "clearance", "take the same room")
    assert finding.unit == "mm3" and "pipe" in finding.message


@pytest.mark.parametrize("fault", ["open", "empty", "missing a wall"])
def test_a_broken_neighbour_is_not_checked_and_never_passes(fault: str, tmp_path: Path) -> None:
    mesh = trimesh.creation.box((10, 10, 10))
    whole = f"{TUBE}envelope: {{keep_clear: [{{mesh: neighbour.stl, at: {{right: 60}}}}]}}\n"
    mesh.export(tmp_path / "neighbour.stl")
    (spec,) = load_text(whole, str(tmp_path / "tube.yaml"))
    assert not blocking(pipeline.build_part(spec, write=False).findings)
    kept = {"open": 11, "empty": 0, "missing a wall": 10}[fault]
    mesh.update_faces([k < kept for k in range(12)])
    (tmp_path / "neighbour.stl").write_bytes(trimesh.exchange.stl.export_stl(mesh))
    found = pipeline.build_part(spec, write=False).findings
    assert blocking(found) == {"clearance"}
    the(found, "clearance", "not checked")


# printing


def test_an_island_in_the_air() -> None:
    ball = cq.Solid.makeSphere(6, cq.Vector(30, 30, 0), cq.Vector(0, 0, 1), -90, 90, 360)
    found = spoilt(TUBE, body_of(TUBE).solid.fuse(ball.cut(along(50, 0, 60))), volume_mm3=None)
    finding = the(found, "printing.island", "start in the air")
    assert "24.0 mm above the bed" in finding.message  # its centre is 30 mm up either way, its radius 6


def test_a_millimetre_taller_than_the_printer() -> None:
    text = TUBE + "printer: {bed_x: 100, bed_y: 100, bed_z: %s}\n"
    assert not blocking(result_of(text % 60).findings)
    found = result_of(text % 59).findings
    assert blocking(found) == {"printing.bed"}
    assert "1.0 mm taller" in the(found, "printing.bed", "").message


def test_a_millimetre_larger_than_the_bed() -> None:
    text = TUBE + "printer: {bed_x: %s, bed_y: 200, bed_z: 200}\n"
    assert not blocking(result_of(text % OUTSIDE).findings)
    found = result_of(text % (OUTSIDE - 1)).findings
    assert blocking(found) == {"printing.bed"}
    assert "1.0 mm larger than the bed" in the(found, "printing.bed", "").message
