"""Scale and offset undone once everywhere: the finished mesh, printed as the printer prints, has the sizes asked for.

The printer here is a formula: a hole of d comes out 0.994 d - 0.18, an outside 0.994 d + 0.09, a place at 0.994 of it.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.whole import bore_mm, circles, findings, loops, part_of

from fitwright.parts.compensation import gap_between, modelled, small_hole
from fitwright.spec.models import Printer

SCALE, HOLE, OUTSIDE = 0.994, -0.18, 0.09
PRINTER = f"printer: {{name: generic_220, scale_xy: {SCALE}, hole_offset: {HOLE}, outside_offset: {OUTSIDE}}}\n"
NEAR = 0.03


def printed(d: float, kind: str) -> float:
    """What a modelled diameter measures once printed."""
    return SCALE * d + (HOLE if kind == "hole" else OUTSIDE)


def part(end_a: str, end_b: str = "{plain: {inside: 60}}", more: str = "") -> str:
    return f"part: reducer\n{PRINTER}{more}end_a: {end_a}\nend_b: {end_b}\n"


def printer(**values: float) -> Printer:
    return Printer(name="one", bed_x_mm=220, bed_y_mm=220, bed_z_mm=240, **values)


def test_a_socket() -> None:
    text = part("{socket: {over: 107.1, allowance: 0.3}}")
    assert printed(bore_mm(text, 12), "hole") == pytest.approx(107.4, abs=NEAR)


def test_a_spigot() -> None:
    text = part("{spigot: {into: 100.2, allowance: 0.3}}")
    assert printed(bore_mm(text, 12, outside=True), "outside") == pytest.approx(99.9, abs=NEAR)


def test_a_hose_tail() -> None:
    text = part("{hose_tail: {hose_inside: 100, allowance: 0.5}}")
    land = part_of(text).bodies[0].fits[0]
    s = (land.s0_mm + land.s1_mm) / 2
    assert printed(bore_mm(text, s, outside=True), "outside") == pytest.approx(99.5, abs=NEAR)


def test_a_plain_end() -> None:
    assert printed(bore_mm(part("{plain: {inside: 58}}"), 5), "hole") == pytest.approx(58, abs=NEAR)


def test_both_faces_of_a_nested_sleeve() -> None:
    text = f"part: reducer\n{PRINTER}line: nested\nend_a: {{socket: {{over: 50, allowance: 0.2}}}}\n"
    text += "end_b: {spigot: {into: 60, allowance: 0.2}}\n"
    assert printed(bore_mm(text, 10), "hole") == pytest.approx(50.2, abs=NEAR)
    away = float(part_of(text).bodies[0].fits[1].frame.origin[1]) - 10
    assert printed(bore_mm(text, away, outside=True), "outside") == pytest.approx(59.8, abs=NEAR)


FLANGE = "{flange: {opening: 90, round: 170, holes: {count: 4, circle: 140, size: M6}}}"


def test_a_flange_its_opening_its_plate_its_bolts() -> None:
    text = part(FLANGE)
    found = sorted(circles(text, 1.0), key=lambda one: one[2])
    assert [round(math.hypot(x, y)) for x, y, _ in found] == [70, 70, 70, 70, 0, 0]
    for x, y, d in found[:4]:
        assert SCALE * math.hypot(x, y) == pytest.approx(70.0, abs=NEAR)  # a place has a scale and no offset
        # ISO 273 medium for M6 is 6.6; a small hole prints 0.2 small (the generic figure), which is opened once
        assert SCALE * d - 0.2 == pytest.approx(6.6, abs=NEAR)
    assert printed(found[4][2], "hole") == pytest.approx(90.0, abs=NEAR)
    assert printed(found[5][2], "outside") == pytest.approx(170.0, abs=NEAR)


def test_an_opening_taken_over_from_the_other_end_is_not_compensated_twice() -> None:
    text = part("{flange: {holes: {count: 4, circle: 140, size: M6}}}", "{plain: {inside: 90}}")
    opening = sorted(circles(text, 1.0), key=lambda one: one[2])[4]
    assert printed(opening[2], "hole") == pytest.approx(90.0, abs=NEAR)


def test_a_rectangular_plate() -> None:
    outline = "rectangle: {width: 150, height: 120, corner: 8}"
    flange = f"{{flange: {{opening: 60, {outline}, holes: {{count: 4, circle: 100, size: M6}}}}}}"
    plate = max(loops(part(flange), 1.0), key=lambda loop: float(np.ptp(loop[:, 0])))
    sides = [printed(float(side), "outside") for side in np.ptp(plate, axis=0)]
    assert sides == pytest.approx([150.0, 120.0], abs=NEAR)


def test_a_plate_of_any_outline_is_scaled() -> None:
    points = "[{left: 80, down: 70}, {right: 80, down: 70}, {right: 80, up: 70}, {left: 80, up: 70}]"
    text = part(f"{{flange: {{opening: 60, points: {points}, holes: {{count: 4, circle: 100, size: M6}}}}}}")
    plate = max(loops(text, 1.0), key=lambda loop: float(np.ptp(loop[:, 0])))
    assert SCALE * np.ptp(plate, axis=0) == pytest.approx([160.0, 140.0], abs=NEAR)


def test_a_flange_that_covers_reaches_round_once_printed() -> None:
    text = part("{flange: {covers: {round: 80}, margin: 8, opening: 40}}", "{plain: {inside: 40}}")
    plate = max(circles(text, 1.0), key=lambda one: one[2])
    assert printed(plate[2], "outside") == pytest.approx(96.0, abs=NEAR)
    assert not [f for f in findings(text, "cover") if f.severity != "pass"]


def test_nut_pockets() -> None:
    """ISO 4032 M6: 10 mm across flats, and 0.3 mm of slack (common practice)."""
    flange = "{flange: {opening: 60, thickness: 9, nut_pockets: yes, holes: {count: 4, circle: 110, size: M6}}}"
    text = part(flange)
    away = 8.0  # in the pocket
    pockets = [loop for loop in loops(text, away) if 8.0 < np.ptp(loop[:, 0]) < 13.0]
    assert len(pockets) == 4
    for loop in pockets:
        centre = loop.mean(axis=0)
        flats = min(np.ptp((loop - centre) @ [math.cos(a), math.sin(a)]) for a in np.radians(np.arange(0, 180, 1.0)))
        assert printed(float(flats), "hole") == pytest.approx(10.3, abs=NEAR)


def test_a_rectangular_socket() -> None:
    text = part("{socket: {over: {rectangle: {width: 150, height: 60, corner: 6}}, allowance: 0.4, taper: 0}}")
    bore = min(loops(text, 12.0), key=lambda loop: float(np.ptp(loop[:, 0])))
    sides = [printed(float(side), "hole") for side in np.ptp(bore, axis=0)]
    assert sides == pytest.approx([150.4, 60.4], abs=NEAR)


def test_a_flange_with_a_rectangular_opening() -> None:
    opening = "{rectangle: {width: 120, height: 60, corner: 6}}"
    text = part(f"{{flange: {{opening: {opening}, holes: {{count: 4, circle: 180, size: M6}}}}}}")
    hole = next(loop for loop in loops(text, 1.0) if 50 < np.ptp(loop[:, 0]) < 150)
    sides = [printed(float(side), "hole") for side in np.ptp(hole, axis=0)]
    assert sides == pytest.approx([120.0, 60.0], abs=NEAR)


def test_lengths_along_the_passage_stay() -> None:
    text = part("{plain: {inside: 58}}", more="length: 80\n")
    assert part_of(text).bodies[0].solid.BoundingBox().ylen == pytest.approx(80.0, abs=1e-6)


@pytest.mark.parametrize(
    ("d", "offset", "add", "opened"),
    [
        (3.0, 0.0, 0.2, 0.2),  # not calibrated: the generic figure
        (3.0, -0.18, 0.2, 0.2),  # both say the same shrinking: undone once, not 0.38
        (3.0, -0.3, 0.2, 0.3),  # measured more than the figure
        (3.0, 0.1, 0.2, 0.2),  # large holes print large, small ones still curl in
        (3.0, -0.18, 0.0, 0.18),
        (12.0, -0.18, 0.2, 0.18),  # no small hole
        (12.0, 0.0, 0.2, 0.0),
    ],
)
def test_a_small_hole_is_opened_once(d: float, offset: float, add: float, opened: float) -> None:
    one = printer(hole_offset_mm=offset, small_hole_add_mm=add)
    assert small_hole(d, one) == pytest.approx(d + opened)


@pytest.mark.parametrize("scale", [1.0, 0.994, 0.99])
@pytest.mark.parametrize("offset", [0.0, -0.1, -0.18, -0.25])
def test_a_hole_of_three_is_modelled_between_three_point_two_and_three_point_three(scale: float, offset: float) -> None:
    one = printer(hole_offset_mm=offset, scale_xy=scale)
    assert 3.2 - 1e-9 <= small_hole(3.0, one) <= 3.3


def test_a_gap_between_two_faces_of_one_print() -> None:
    one = printer(scale_xy=SCALE, hole_offset_mm=HOLE, outside_offset_mm=OUTSIDE)
    gap, inner = gap_between(0.2, one), 80.0
    assert (printed(inner + 2 * gap, "hole") - printed(inner, "outside")) / 2 == pytest.approx(0.2)
    assert gap_between(0.2, printer()) == pytest.approx(0.2)
    assert gap_between(0.2, printer(hole_offset_mm=0.9)) == 0.05


def test_a_glued_lap_keeps_its_gap() -> None:
    text = part(
        "{plain: {inside: 80}}", "{plain: {inside: 80}}", "length: 160\nhalves: {across: 80, joint: {lap: {}}}\n"
    )
    seam = part_of(text).seams[0]
    told = findings(text, "halves")
    assert told and all(f.severity == "pass" for f in told)
    assert 2 * SCALE * seam.gap_mm + HOLE - OUTSIDE == pytest.approx(2 * 0.2, abs=1e-9)


def test_the_step_there_and_back() -> None:
    one = printer(scale_xy=SCALE, hole_offset_mm=HOLE, outside_offset_mm=OUTSIDE)
    for kind in ("hole", "outside"):
        assert printed(modelled(100.0, kind, one), kind) == pytest.approx(100.0, abs=1e-12)


def test_a_plate_that_just_keeps_its_edge_is_not_refused_for_being_compensated() -> None:
    """Hole centres 10 mm from the edge, 1.5 x 6.6 = 9.9 wanted; and a printer that prints large."""
    flange = "{flange: {opening: 60, round: 130, washers: no, holes: {count: 4, circle: 110.1, size: M6}}}"
    for printer_line in (PRINTER, "printer: {name: generic_220, scale_xy: 1.004, outside_offset: 0.1}\n"):
        part_of(f"part: reducer\n{printer_line}end_a: {flange}\nend_b: {{plain: {{inside: 60}}}}\n")


def test_a_plate_of_our_own_choice_is_never_refused_for_being_compensated() -> None:
    for scale in (0.97, 1.03):
        printer_line = f"printer: {{name: generic_220, scale_xy: {scale}, outside_offset: -0.2}}\n"
        for size in ("M3", "M6", "M10"):
            flange = f"{{flange: {{opening: 60, holes: {{count: 4, circle: 120, size: {size}}}}}}}"
            part_of(f"part: reducer\n{printer_line}end_a: {flange}\nend_b: {{plain: {{inside: 60}}}}\n")


@pytest.mark.parametrize("size", ["200", "{rectangle: {width: 200, height: 90, corner: 8}}"])
def test_a_part_modelled_much_larger_does_not_clash_with_what_it_fits(size: str) -> None:
    """The stand-in is what the model meets: 1.5 % of 200 mm would else be 1.5 mm of clash in radius."""
    printer_line = "printer: {name: generic_300, scale_xy: 0.985, hole_offset: -0.2, outside_offset: 0.1}\n"
    text = f"part: reducer\n{printer_line}end_a: {{socket: {{over: {size}}}}}\nend_b: {{spigot: {{into: {size}}}}}\n"
    assert all(f.severity == "pass" for f in findings(text, "clearance"))


def test_the_picture_tells_what_the_caliper_should_say() -> None:
    text = part("{socket: {over: 107.1, allowance: 0.3, taper: 0}}", "{spigot: {into: 80.2, allowance: 0.2, taper: 0}}")
    told = {one.label: one.value for one in part_of(text).dimensions}
    assert told["end_a bore at its bottom"] == pytest.approx(107.4, abs=1e-6)
    assert told["end_b outside at its collar"] == pytest.approx(80.0, abs=1e-6)
