"""Every figure in the tables of the page on the gate bracket's mechanics is what the functions answer."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.physics.slide import bearing, bridge, buckling, drag, frames, gaps, jamming, lever, overlap, stack_up
from fitwright.physics.slide.regulator import PressureRange, pressure_range
from fitwright.physics.slide.sections import channel, rectangle, round_bar, stress_diameter_mm
from fitwright.physics.slide.thrust import Cylinder

PAGE = Path(__file__).parents[3] / "docs" / "families" / "gate_bracket_mechanics.md"
SUCTION = 10 * drag.PA_PER_INCH_WATER
SMALL, LARGE = Cylinder(16, 6, 125), Cylinder(32, 12, 125)
BLADE = buckling.Strut(118, 3, 125.6, 2000)
DRAWER = jamming.Drawer(53, 19, 105.6)
SIZES = stack_up.Sizes(frame_mm=187.0, stroke_mm=125.0, sleeve_mm=23.4)
READ = stack_up.Sizes(frame_mm=187.0, stroke_mm=125.0, sleeve_mm=23.4, wf_half_mm=0.1)


def moved(one: frames.Movement) -> str:
    return f"{one.along_mm:.2f} mm, {one.aside_mm:.2f} mm, {one.tilt_deg:.2f} deg"


def pressure(one: PressureRange) -> str:
    setting = "none" if one.setting_bar is None else f"{one.setting_bar:.1f} bar"
    return f"{one.least_bar:.2f} to {min(one.stall_bar, one.buckling_bar):.2f} bar; set {setting}"


def stack(one: stack_up.StackUp) -> str:
    return f"{one.middle_mm:+.1f} mm, ±{one.worst_mm:.1f}, ±{one.root_sum_square_mm:.1f}"


def bush(one: bridge.Bridge) -> str:
    return f"{one.thrust_over_drag:.2f} x, {one.bush_n(20.2):.0f} N"


def force_figures() -> dict[str, str]:
    d4, d6 = (drag.blade_drag(SUCTION, port).greatest_n for port in (101.6, 152.4))
    least = buckling.least_thickness_mm(SMALL.stall_n("out", 6), 118, 125.6, 2000)
    thin4, thin6 = buckling.Strut(118, 2, 125.6, 2000), buckling.Strut(170, 2, 181.6, 2000)
    return {
        "drag, 4 in port": f"{d4:.1f} N",
        "drag, 6 in port": f"{d6:.1f} N",
        "bore 16 at 6 bar, push and pull": f"{SMALL.stall_n('out', 6):.1f} N, {SMALL.stall_n('in', 6):.1f} N",
        "bore 32 at 6 bar, push and pull": f"{LARGE.stall_n('out', 6):.1f} N, {LARGE.stall_n('in', 6):.1f} N",
        "bore 16, 4 in gate": pressure(pressure_range(SMALL, "in", d4, d4, BLADE.permitted_n)),
        "bore 32, 4 in gate": pressure(pressure_range(LARGE, "in", d4, d4, BLADE.permitted_n)),
        "bore 16, 4 in gate, 2 mm blade": pressure(pressure_range(SMALL, "in", d4, d4, thin4.permitted_n)),
        "air, bore 16 x 125 at 3 bar": f"{SMALL.air_litres(3.0):.2f} litres",
        "flow, bore 32 shut in 2 s at 1.5 bar": f"{LARGE.flow_l_min('out', 1.5, 2.0):.1f} litres a minute",
        "blade 118 x 3, 125.6 out": f"{BLADE.critical_n:.0f} N; permitted {BLADE.permitted_n:.0f} N",
        "blade 170 x 3, 181.6 out": f"{buckling.Strut(170, 3, 181.6, 2000).critical_n:.0f} N; "
        f"permitted {buckling.Strut(170, 3, 181.6, 2000).permitted_n:.0f} N",
        "blade 118 x 2, 125.6 out": f"{thin4.critical_n:.0f} N; permitted {thin4.permitted_n:.0f} N",
        "blade 170 x 2, 181.6 out": f"{thin6.critical_n:.0f} N; permitted {thin6.permitted_n:.0f} N",
        "least blade, bore 16 at 6 bar": f"{least:.1f} mm",
        "joint, in line, open": f"{buckling.rod_and_blade_critical_n(6, 42, 125.6):.0f} N",
        "joint, alongside, open": f"{buckling.rod_and_blade_critical_n(6, 147, 125.6):.0f} N",
    }


def side_figures() -> dict[str, str]:
    near, away, far = (bridge.Bridge(85, at, 30) for at in (25, -25, 170))
    bare = [bridge.bare_rod(6, 147, force * 53) for force in (20.2, 120.6)]
    hole = bearing.BladeHole(5, 4.5, 8, 3, 118)
    return {
        "ratio when open, 53 mm beside": f"{DRAWER.worst_ratio:.2f}",
        "jams at, 53 mm beside": f"{DRAWER.jams_at_mm:.1f} of 105.6 mm",
        "jams at, 84 mm beside": f"{jamming.Drawer(84, 19, 105.6).jams_at_mm:.1f} of 105.6 mm",
        "greatest offset at 19 mm engaged": f"{jamming.greatest_offset_mm(19):.1f} mm",
        "greatest skew, 0.75 mm of play, 0.3 mm beside": f"{jamming.greatest_skew_deg(0.75, 0.3, 105.6):.2f} deg",
        "guide 25 mm from the piston rod, towards the gate": bush(near),
        "guide 25 mm from the piston rod, away from the gate": bush(away),
        "guide across the gate, 170 mm": "jams" if far.jams else "",
        "guide rod 8 mm, 120 mm free": moved(bridge.bent_guide(near.couple_nmm(20.2), 8, 120)),
        "bare rod at drag": f"{moved(bare[0])}, {bare[0].stress_mpa:.0f} MPa",
        "bare rod at stall": f"{moved(bare[1])}, {bare[1].stress_mpa:.0f} MPa",
        "pin in the hole, 120.6 N": f"{hole.bearing_mpa(120.6):.1f}, {hole.tear_out_mpa(120.6):.1f}, "
        f"{hole.net_section_mpa(120.6):.1f} MPa",
        "greatest pull on that hole, 30 MPa": f"{hole.permitted_n(30):.0f} N",
    }


def frame_figures() -> dict[str, str]:
    u, nose = channel(60, 8, 5, 30), frames.NosePlate(88, channel(50, 10, 6, 14), 1750, 2 * 6 * 24)
    plate = frames.strip(121, 20.6, 184.5, rectangle(60, 8), 1750)
    rod8 = round_bar(stress_diameter_mm(8, 1.25))
    board = frames.strip(121, 50, 200, rectangle(150, 18), 6000) + frames.post(121, 41, rectangle(60, 30), 1750)
    return {
        "plate 60 x 8, 20.6 mm below the line": f"{moved(plate)}, {plate.stress_mpa:.1f} MPa",
        "U, floor 60 x 8, walls 5 x 30": moved(frames.strip(121, 20.6 - u.deep_at, 184.5, u, 1750)),
        "rails 12 x 30, ribbed nose plate": moved(
            frames.rails_frame(121, frames.Rail(180, rectangle(12, 30), 1750), nose)
        ),
        "the same, the line 2 mm off": moved(
            frames.rails_frame(121, frames.Rail(180, rectangle(12, 30), 1750), nose, off_line_mm=2.0)
        ),
        "rods M8, ribbed nose plate": moved(frames.rods_frame(121, 190, rod8, nose)),
        "rods M8, plate 20.6 mm off the line": moved(frames.rods_frame(121, 190, rod8, nose, off_line_mm=20.6)),
        "board 150 x 18, 50 mm below the line, foot 60 x 30": moved(board),
        "0.2 kg on rods M8": moved(frames.sag(0.2, 167, 60, rod8, 205_000)),
    }


def place_figures() -> dict[str, str]:
    port = overlap.PortAndBlade(101.6, 75, 150)
    hand = lever.Lever(200, 105.6)
    share = gaps.Gap("", 20, 126).pinching_share
    assert share is not None
    return {
        "blade shut, at the cylinder's end": stack(stack_up.position_stack("in_line", "shut", "cylinder", SIZES)),
        "the same, rod stub read": stack(stack_up.position_stack("in_line", "shut", "cylinder", READ)),
        "blade open, on the sleeve": stack(stack_up.position_stack("in_line", "open", "sleeve", SIZES)),
        "travel, once one end is set": stack(stack_up.travel_stack("sleeve", SIZES)),
        "gap from 20 to 126 mm": f"a pinch over the first {100 * share[1]:.0f} % of the travel",
        "3 mm left in a 4 in bore": f"{100 * port.covered_share(port.least_out_mm() - 3.0):.1f} % of its area",
        "lever of 200 mm, travel 105.6": f"{hand.sagitta_mm:.1f} mm; slot for a 6 mm pin {hand.slot_mm(6):.1f} mm",
    }


ROWS = {**force_figures(), **side_figures(), **frame_figures(), **place_figures()}


def printed() -> dict[str, str]:
    """Rows of the tables of figures: those whose first heading is `what`. Other tables hold words."""
    tables = PAGE.read_text(encoding="utf-8").partition("## Rules of thumb")[0].split("\n| what |")[1:]
    cells = [
        [cell.strip() for cell in line.strip("|").split("|")]
        for table in tables
        for line in table.partition("\n\n")[0].splitlines()[2:]
    ]
    return {row[0]: row[-1] for row in cells}


@pytest.mark.parametrize("row", ROWS)
def test_figures_of_the_page(row: str) -> None:
    assert printed().get(row) == ROWS[row]


def test_no_row_is_left_out() -> None:
    assert set(printed()) == set(ROWS)
