"""Fit gauges built from YAML: sizes read on the finished mesh, holes counted, marks and plates; what must fail does."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from functools import cache

import cadquery as cq
import numpy as np
import pytest
import trimesh
from tests.whole import blocking, meshes_of, part_of, result_of, spec_of

from fitwright import pipeline
from fitwright.errors import RefusalError
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Body
from fitwright.shapes.lettering import cells

RINGS = "part: fit_gauge\nrings: {over: 60}\nform: stepped\nsteps: 5\nstep: 0.3\n"
PLUGS = "part: fit_gauge\nplugs: {hose_inside: 60}\nform: stepped\nsteps: 5\nstep: 0.8\n"
FEW = "part: fit_gauge\nplugs: {into: 30}\nsteps: 5\nstep: 0.2\n"
SET = "part: fit_gauge\nsizes: [20, 40]\n"
TILTED = "\nprinter: {name: generic_220, scale_xy: 0.99, hole_offset: -0.2, outside_offset: 0.1}"


def radii(mesh: trimesh.Trimesh, z: float, at: tuple[float, float] = (0.0, 0.0)) -> tuple[float, float]:
    """Least and greatest distance from the axis of the section at z, tabs and bars left out by staying above them."""
    cut = np.asarray(trimesh.intersections.mesh_plane(mesh, (0, 0, 1), (0, 0, z)))[:, :, :2] - np.array(at)
    reach = np.hypot(*cut.reshape(-1, 2).T)
    return float(reach.min()), float(reach.max())


@cache
def only(text: str) -> trimesh.Trimesh:
    (mesh,) = meshes_of(text).values()
    return mesh.mesh


@pytest.mark.parametrize(
    "text", [RINGS, PLUGS, FEW, SET, RINGS + TILTED], ids=["rings", "plugs", "few", "set", "tilted"]
)
def test_nothing_blocks_and_nothing_warns(text: str) -> None:
    found = [f for f in result_of(text).findings if f.severity != "pass"]
    assert not found, found


def test_a_stepped_ring_widens_upwards() -> None:
    """60 mm less 0.3 in the middle of five: each step 3 mm high on a foot of 1.4, cut above its window."""
    steps = spec_of(RINGS).steps
    for k, step in enumerate(steps):
        inner, _ = radii(only(RINGS), 1.4 + 3 * k + 2.8)
        assert 2 * inner == pytest.approx(step.printed_mm, abs=0.02)
    assert [round(b.printed_mm - a.printed_mm, 6) for a, b in itertools.pairwise(steps)] == [0.3] * 4


def test_wide_steps_are_made_higher() -> None:
    """3 mm on the diameter in 3 mm of height would leave 0.4 mm beside the last window."""
    wide = "part: fit_gauge\nplugs: {hose_inside: 60}\nform: stepped\nsteps: 5\nstep: 3\n"
    assert not blocking(result_of(wide).findings)
    with pytest.raises(RefusalError) as caught:
        part_of(wide + "height: 3\n")
    assert caught.value.key == "height" and "3.8 mm or more" in str(caught.value)


def test_a_stepped_plug_narrows_upwards() -> None:
    for k, step in enumerate(spec_of(PLUGS).steps[::-1]):
        _, outer = radii(only(PLUGS), 1.4 + 3 * k + 2.8)
        assert 2 * outer == pytest.approx(step.printed_mm, abs=0.02)


@pytest.mark.parametrize("text", [RINGS, PLUGS], ids=["ring", "plug"])
def test_holes_are_the_bore_and_a_window_a_step(text: str) -> None:
    mesh = only(text)
    assert mesh.is_watertight and (2 - mesh.euler_number) // 2 == 1 + 5


def test_a_bar_parts_a_plugs_bore_in_two_and_crossed_bars_in_four() -> None:
    for text, holes in ((FEW, 2), (SET, 4)):
        assert {(2 - m.mesh.euler_number) // 2 for m in meshes_of(text).values()} == {holes}


def test_a_windows_roof_is_a_bridge_of_five_millimetres() -> None:
    (found,) = (f for f in result_of(RINGS).findings if f.code == "printing.overhang")
    assert found.value is not None and found.value <= 6.0 and "bridge" in found.message


def test_each_window_stands_over_the_mark_of_its_step() -> None:
    """Looking along the tab's direction there is a way through at the height of its step, and at no other."""
    (body,) = part_of(RINGS).bodies
    for k, label in enumerate(body.labels):
        x, y, _ = label.frame.point(len(label.text), 0.0, 2.5)
        turn = math.atan2(y, x)
        out = np.array([math.cos(turn), math.sin(turn), 0.0])
        for step in range(5):
            start = np.array([0.0, 0.0, 1.4 + 3 * step + 1.3])
            hits = only(RINGS).ray.intersects_any([start], [out])
            assert bool(hits[0]) == (step != k), (k, step)


def test_volume_of_a_plug_with_a_bar_by_hand() -> None:
    """Tube, two chamfers by Pappus, a strip of the bore 7 mm wide, and the cells of its letters."""
    (step, *_), body = spec_of(FEW).steps, part_of(FEW).bodies[0]
    big, wall, c, high, thick = step.printed_mm / 2, 1.26, 0.3 * 1.26, 6.0, 1.4
    small, half = big - wall, 3.5
    tube = math.pi * (big**2 - small**2) * high
    chamfer = 2 * math.pi * (big - c / 3) * c * c / 2
    strip = 2 * (half * math.sqrt(small**2 - half**2) + small**2 * math.asin(half / small)) * thick
    letters = len(cells(step.mark)) * 1.0 * 0.6
    assert body.solid.Volume() == pytest.approx(tube - 2 * chamfer + strip + letters, rel=1e-9)


@pytest.mark.parametrize("form", ["stepped", "separate"])
def test_the_printers_profile_is_undone_once(form: str) -> None:
    """printed = 0.99 x modelled - 0.2 for holes: modelled = (printed + 0.2) / 0.99."""
    text = f"part: fit_gauge\nrings: {{over: 50}}\nsteps: 5\nstep: 0.2\nform: {form}{TILTED}"
    sized = [one for body in part_of(text).bodies for one in body.rounds]
    assert [one.d_mm for one in sized] == pytest.approx([(s.printed_mm + 0.2) / 0.99 for s in spec_of(text).steps])


def test_a_ring_and_a_socket_of_the_same_allowance_are_alike() -> None:
    gauge = f"part: fit_gauge\nrings: {{over: 60}}\nsteps: 5\nstep: 0.1{TILTED}"
    (mark, d) = next(
        (s.mark, r.d_mm) for s, b in zip(spec_of(gauge).steps, part_of(gauge).bodies, strict=True) for r in b.rounds
    )
    joint = (
        f"part: reducer\nend_a: {{socket: {{over: 60, allowance: {mark}}}}}\nend_b: {{plain: {{inside: 58}}}}{TILTED}"
    )
    assert part_of(joint).bodies[0].fits[0].d0_mm == pytest.approx(d)


def test_a_set_of_sizes_is_modelled_as_marked() -> None:
    sized = {one.name: one.d_mm for body in part_of(SET + TILTED).bodies for one in body.rounds}
    assert sized == {"ring_1 hole": 20.0, "ring_1 outside": 23.0, "ring_2 hole": 40.0, "ring_2 outside": 43.0}


def test_separate_where_the_bed_holds_them_and_one_piece_where_not() -> None:
    small, large = (f"part: fit_gauge\nrings: {{over: {d}}}\n" for d in (50, 110))
    assert len(part_of(small).bodies) == 7 and len(part_of(large).bodies) == 1
    wide = large + "printer: {name: generic_300, bed_x: 500, bed_y: 500}"
    assert len(part_of(wide).bodies) == 7


@pytest.mark.parametrize(
    ("text", "key", "allowed"),
    [
        ("rings: {over: 110}\nform: separate", "form", "auto, stepped"),
        ("rings: {over: 30}\nform: stepped", "form", "separate, or auto"),
        (
            "rings: {over: 60}\nform: stepped\nheight: 2.4\nprinter: {name: generic_220, layer: 0.3}",
            "height",
            "or more",
        ),
        ("sizes: [140, 150, 160]", "sizes", "fewer or smaller"),
        ("plugs: {into: 20}\nwall: 8", "wall", "or less"),
    ],
)
def test_what_finds_no_room_is_refused_by_its_key(text: str, key: str, allowed: str) -> None:
    with pytest.raises(RefusalError) as refused:
        part_of(f"part: fit_gauge\n{text}\n")
    assert refused.value.key == key and allowed in refused.value.allowed and refused.value.why


def spoilt(text: str, change: cq.Shape | None = None, **changes: object) -> tuple[Finding, ...]:
    """What the checks say where the first body has another solid, or other declarations."""
    assert not blocking(result_of(text).findings)
    first, *others = part_of(text).bodies
    body: Body = replace(first, **({"solid": change.Solids()[0]} if change else {}), **changes)  # type: ignore[arg-type]
    part = replace(part_of(text), bodies=(body, *others))
    return pipeline.check(part, {one.name: mesh_body(one) for one in part.bodies}, spec_of(text))


def test_a_step_that_is_a_tenth_too_wide_is_stopped() -> None:
    first, *others = part_of(FEW).bodies[0].rounds
    found = spoilt(FEW, rounds=(replace(first, d_mm=first.d_mm + 0.1), *others))
    assert blocking(found) == {"fit.built"}
    (told,) = (f for f in found if f.blocks)
    assert told.value is not None and told.limit is not None
    assert told.limit - told.value == pytest.approx(0.1, abs=0.02)  # the mesh's chord


def test_a_window_that_was_not_cut_is_stopped() -> None:
    (body,) = part_of(RINGS).bodies
    tool = next(f.tool for f in body.features if f.kind == "cut")
    assert {"features", "solid"} <= blocking(spoilt(RINGS, body.solid.fuse(tool.intersect(_wall_of(body)))))


def _wall_of(body: Body) -> cq.Shape:
    """A tube about the axis that the wall of RINGS lies in."""
    outer, inner = (cq.Solid.makeCylinder(r, 30.0) for r in (31.3, 30.5))
    return outer.cut(inner)


def test_a_mark_that_was_planed_off_is_stopped() -> None:
    body = part_of(FEW).bodies[0]
    plane = cq.Solid.makeBox(40, 7, 2, cq.Vector(-20, -3.5, 1.4)).intersect(cq.Solid.makeCylinder(12, 10))
    found = spoilt(FEW, body.solid.cut(plane))
    assert {"lettering", "features"} <= blocking(found)
    assert any("is missing" in f.message for f in found if f.code == "lettering")


def test_two_pieces_pushed_together_are_stopped() -> None:
    """The first, 4 mm towards the second: less than the 5 mm that were between them is left."""
    one, other = (body.rounds[0].frame.origin for body in part_of(FEW).bodies[:2])
    towards = cq.Vector(*other) - cq.Vector(*one)
    found = spoilt(FEW, part_of(FEW).bodies[0].solid.moved(cq.Location(towards.normalized() * 4.0)))
    assert "plate" in blocking(found)


def test_the_report_says_how_to_read_it_and_what_to_write() -> None:
    facts = result_of(RINGS).report.facts
    assert "lowest window in which you see it" in facts["how to read it"]
    assert "`allowance:` and the mark under socket" in facts["what to write"]
    assert "`hose_inside:` and the mark under hose_tail" in result_of(PLUGS).report.facts["what to write"]
    assert "`fitwright measure printer`" in result_of(SET).report.facts["what to write"]


def test_tabs_wider_than_their_ring_keep_their_distance_too() -> None:
    (found,) = (
        f for f in result_of("part: fit_gauge\nplugs: {hose_inside: 20.6}\nstep: 2.5").findings if f.code == "plate"
    )
    assert found.severity == "pass" and found.value is not None and found.value >= 5.0
