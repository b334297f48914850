"""Every figure in the tables of the page on the hanger's mechanics is what the functions answer."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.data.carried import hose_weight
from fitwright.data.channel_nuts import strut_nut
from fitwright.data.profiles import material
from fitwright.data.rods import threaded_rod
from fitwright.data.woods import wood, wood_screw
from fitwright.physics import arm, batten, carried, machine_screws, wood_shear
from fitwright.physics.arm import Arm, RoundInThroat
from fitwright.physics.batten import Hanging, reactions
from fitwright.physics.by_hand import SNAG_N
from fitwright.physics.fixing import Plate, ScrewForces, WorstScrew, screw_forces, worst_of_any_direction
from fitwright.physics.gravity import GRAVITY
from fitwright.physics.hose_span import hung_with_sag
from fitwright.physics.wood import Hold, Screw, Timber, withdrawal_n
from fitwright.physics.wood_joint import PlateAtScrew, depth, hold_in_wood

PAGE = Path(__file__).parents[2] / "docs" / "families" / "hose_hanger_mechanics.md"
PETG = material("PETG")
EMPTY = hose_weight(100.0, "light polyurethane").weight_kg_m
FULL = EMPTY + carried.dust_kg_m(100.0)
LASTING = carried.lasting_n(FULL)
PIPE = carried.pipe_kg_m(110.0, 3.2) + carried.dust_kg_m(103.6)
OUTLINE = ((-30.0, -45.0), (30.0, -45.0), (30.0, 45.0), (-30.0, 45.0))
TWO = Plate(OUTLINE, ((0.0, 30.0), (0.0, -30.0)))
FOUR = Plate(OUTLINE, ((-18.0, 30.0), (18.0, 30.0), (-18.0, -30.0), (18.0, -30.0)))
LONG = Plate(
    ((-200.0, -45.0), (200.0, -45.0), (200.0, 45.0), (-200.0, 45.0)),
    ((-180.0, 30.0), (180.0, 30.0), (-180.0, -30.0), (180.0, -30.0)),
)
AXIS = (0.0, -75.0, 70.0)
"""Where the hose's axis is from the middle of the plate: below it, and out from the joist."""


def screw(name: str) -> Screw:
    row = wood_screw(name)
    return Screw("lag" if row.kind == "coach" else "wood", row.major_mm, row.core_mm, row.tensile_mpa, row.bending_mpa)


def hold(name: str, long_mm: float, head_mm: float, timber: str = "framing timber", thick: float | None = None) -> Hold:
    row, into = wood_screw(name), wood(timber)
    plate = PlateAtScrew(8.0, row.major_mm + 0.5, head_mm, PETG.strength_across_mpa, 1.0)
    into_wood = Timber(into.gravity, into.withdrawal_share, into.kind == "chipboard")
    deep = depth(long_mm, 8.0, 1.0, row.tip_mm, thick)
    return hold_in_wood(screw(name), into_wood, deep, plate)


JOIST = hold("5.0 mm", 60.0, 15.0)


def held(one: Hold) -> str:
    return f"{one.withdrawal_n:.0f} N, {one.head_n:.0f} N, {one.side_n:.0f} N"


def pulls(one: ScrewForces) -> str:
    return ", ".join(f"{t:.0f}" for t in one.tension_n) + " N"


def worst(several: tuple[WorstScrew, ...]) -> str:
    one = max(several, key=lambda each: each.used)
    return f"{one.tension_n:.0f} N, {one.shear_n:.0f} N; {100 * one.used:.0f} %"


def snag(plate: Plate, one: Hold, at: tuple[float, float, float] = AXIS) -> str:
    return worst(worst_of_any_direction(plate, SNAG_N, at, one.once_tension_n, one.once_shear_n))


def weight_figures() -> dict[str, str]:
    hung = hung_with_sag(1200.0, 0.0, 50.0)
    pull = hung.level_n(FULL * carried.GRAVITY / 1000)
    return {
        "hose, light polyurethane, 100 mm": f"{EMPTY:.2f} kg/m",
        "dust, half full": f"{carried.dust_kg_m(100.0):.2f} kg/m",
        "one hanger, 1.2 m": f"{LASTING:.1f} N",
        "drain pipe 110 x 3.2, half full, 2.4 m": f"{PIPE:.2f} kg/m, {carried.lasting_n(PIPE, 2.4):.0f} N",
        "four hoses side by side": f"{4 * LASTING:.0f} N",
        "sag that is permitted over 1.2 m": f"{carried.permitted_sag_mm(1.2):.0f} mm",
        "pull along the hose at that sag": f"{pull:.0f} N; {hung.length_mm:.1f} mm of hose",
    }


def screw_figures() -> dict[str, str]:
    distance = [wood_shear.distances(5.0, pilot, 90.0) for pilot in (False, True)]
    return {
        "5.0 x 60 in framing timber": held(JOIST),
        "the same for good: pulled, aside": f"{JOIST.lasting_tension_n:.0f} N, {JOIST.lasting_shear_n:.0f} N",
        "the same once": f"{JOIST.once_tension_n:.0f} N, {JOIST.once_shear_n:.0f} N",
        "4.5 x 35 in chipboard of 18 mm": held(hold("4.5 mm", 35.0, 15.0, "chipboard", 18.0)),
        "coach screw 8 x 60": held(hold("8 mm coach", 60.0, 24.0)),
        "coach screw 8, 40 mm of thread in end grain": f"{withdrawal_n('lag', 0.42, 8.0, 40.0, 'end'):.0f} N",
        "edge towards the load, 5 mm screw": ", ".join(f"{each.edge_loaded_mm:.0f} mm" for each in distance),
        "between them along the grain": ", ".join(f"{each.along_mm:.0f} mm" for each in distance),
    }


def group_figures() -> dict[str, str]:
    down = screw_forces(TWO, [((0.0, -LASTING, 0.0), AXIS)])
    used = max(JOIST.used(t, s) for t, s in zip(down.tension_n, down.shears_n, strict=True))
    return {
        "its weight, two screws": f"{pulls(down)}; {down.shears_n[0]:.1f} N aside",
        "share of what is permitted for good": f"{100 * used:.0f} %",
        "snag along the joist, two screws": _along(TWO),
        "snag, worst direction, two screws": snag(TWO, JOIST),
        "snag, worst direction, four screws": snag(FOUR, JOIST),
        "snag at the outer of four hoses, four screws": snag(LONG, JOIST, (195.0, -75.0, 70.0)),
    }


def _along(plate: Plate) -> str:
    found = screw_forces(plate, [((SNAG_N, 0.0, 0.0), AXIS)])
    return f"{pulls(found)}; {', '.join(f'{s:.0f}' for s in found.shears_n)} N aside"


def batten_figures() -> dict[str, str]:
    between, beyond = (reactions(0.0, 400.0, [Hanging(at, LASTING)]) for at in (150.0, 600.0))
    caught = reactions(0.0, 400.0, [Hanging(600.0, LASTING + SNAG_N)])
    moment = batten.greatest_moment_nmm(0.0, 400.0, [Hanging(600.0, LASTING + SNAG_N)])
    out = 1.5 * GRAVITY * 2.4
    door = reactions(0.0, 500.0, [Hanging(1700.0, out)])
    return {
        "hanger between joists at 400, 150 from one": f"{between.first_n:.1f} N, {between.second_n:.1f} N",
        "hanger 200 beyond the second joist": f"{beyond.first_n:.1f} N, {beyond.second_n:.1f} N",
        "the same with a snag downwards": f"{caught.first_n:.0f} N, {caught.second_n:.0f} N",
        "batten 38 x 19 on the flat": f"{batten.bending_mpa(moment, 38.0, 19.0):.1f} MPa",
        "batten 38 x 63 on edge": f"{batten.bending_mpa(moment, 38.0, 63.0):.1f} MPa",
        "empty pipe 110, 2.4 m beyond two brackets": f"{door.first_n:.0f} N, {door.second_n:.0f} N",
    }


def metal_figures() -> dict[str, str]:
    nut, rod = strut_nut("M8"), threaded_rod("M8")
    tears = machine_screws.rod_tension_n(rod.stress_area_mm2)
    washer, wide = (machine_screws.HeadOnPrint(outer, 9.0, 8.0) for outer in (16.0, 24.0))
    strength = PETG.strength_across_mpa
    through = [each.pulls_through_n(strength) for each in (washer, wide)]
    stiff = machine_screws.longest_stiff_rod_mm(SNAG_N, rod.core_mm)
    return {
        "M8 nut in strut": f"{nut.failure_n:.0f} N, for good {nut.failure_n / 4:.0f} N",
        "M8 rod, class 4.6": f"{tears:.0f} N, for good {tears / 4:.0f} N",
        "M8 washer and large washer on 8 mm of PETG": f"{through[0]:.0f} N, {through[1]:.0f} N",
        "M8 rod, 300 mm, snag": f"{machine_screws.rod_bending_mpa(SNAG_N, 300.0, rod.core_mm):.0f} MPa",
        "longest M8 rod that a snag does not bend": f"{stiff:.0f} mm",
    }


def hook_figures() -> dict[str, str]:
    one = Arm(58.0, 6.0, 40.0, 200.0, 50.0)
    wide = arm.throat(110.0, one.opens_mm(PETG.strain_limit))
    pipe = arm.throat(110.0, one.opens_mm(PETG.strain_limit), 0.0)
    short = Arm(58.0, 10.0, 40.0, 90.0, 50.0)
    stiff = arm.throat(110.0, short.opens_mm(PETG.strain_limit), 0.0)
    enters = RoundInThroat(one, PETG.modulus_mpa, 110.0, 102.0)
    limit = PETG.strength_mpa / 2
    thick = [arm.least_thickness_mm(SNAG_N, limit, 55.0, 40.0, 200.0, aside) for aside in (False, True)]
    return {
        "opens at the strain limit": f"{one.opens_mm(PETG.strain_limit):.1f} mm",
        "opened by 8 mm": f"{one.force_n(8.0, PETG.modulus_mpa):.1f} N; {100 * one.strain(8.0):.2f} %",
        "throat for a hose of 110 over its ribs": f"{wide.least_mm:.1f} to {wide.greatest_mm:.1f} mm",
        "throat for a pipe of 110": f"{pipe.least_mm:.1f} to {pipe.greatest_mm:.1f} mm",
        "arm 10 thick, 90 deg, pipe of 110": f"opens {stiff.opens_mm:.1f} mm; {'some' if stiff.possible else 'none'}",
        "pipe of 110 through a throat of 102": f"{enters.greatest_n:.1f} N",
        "snag at the tip": f"{one.snag_mpa(150.0):.0f} MPa; along the hose {one.sideways_mpa(150.0):.0f} MPa",
        "thickness that bears it": f"{thick[0]:.1f} mm, {thick[1]:.1f} mm",
    }


ROWS = {
    **weight_figures(),
    **screw_figures(),
    **group_figures(),
    **batten_figures(),
    **metal_figures(),
    **hook_figures(),
}


def printed() -> dict[str, str]:
    cells = [
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in PAGE.read_text(encoding="utf-8").splitlines()
        if line.startswith("| ")
    ]
    return {row[0]: row[-1] for row in cells if row[0] != "what"}


@pytest.mark.parametrize("row", ROWS)
def test_figures_of_the_page(row: str) -> None:
    assert printed().get(row) == ROWS[row]


def test_no_row_is_left_out() -> None:
    assert set(printed()) == set(ROWS)


def test_the_stiff_short_arm_has_no_throat_for_a_pipe() -> None:
    """The hanger that fails: an arm that does not give and a pipe that does not either."""
    assert hook_figures()["arm 10 thick, 90 deg, pipe of 110"].endswith("none")


def test_two_screws_hold_the_usual_hanger_and_the_usual_snag() -> None:
    down = screw_forces(TWO, [((0.0, -LASTING, 0.0), AXIS)])
    assert max(JOIST.used(t, s) for t, s in zip(down.tension_n, down.shears_n, strict=True)) < 0.25
    caught = worst_of_any_direction(TWO, SNAG_N, AXIS, JOIST.once_tension_n, JOIST.once_shear_n)
    assert max(one.used for one in caught) < 1.0
