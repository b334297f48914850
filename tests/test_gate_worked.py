"""A worked gate, from its YAML through the whole program: lengths, forces and movements against arithmetic by hand.

The figures that went round while the bracket was planned are in the tests' names or docstrings; where one of them is
wrong the docstring derives what it is. Formulae: Euler's column, beams and friction as in any handbook of machine
design; thrusts: the columns that makers of ISO 6432 and ISO 15552 cylinders print (theoretical, at 6 bar).
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from pathlib import Path

import cadquery as cq
import pytest

from fitwright.errors import SpecError
from fitwright.spec.gate_load import gate_load
from fitwright.spec.load import load_text

from .gate_whole import GATE_4, RODS, bad, box, judged, refused, rod, solid_of, spoilt, the, told
from .whole import part_of, spec_of

AS_PLANNED = """part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}       # blade edge beyond the body
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body:  {width: 150, thickness: 22}
  screws: {across: 120, from_edge: 12, size: M5}
cylinder: ISO 6432 16 x 125
"""
"""The YAML as it was planned, word by word; its screws stand in the blade's way."""
TO_125_6 = told(RODS, ("open: 126", "open: 125.6"), ("diameter: 102", "diameter: 101.6"))
"""The same gate pulled out 125.6: port 101.6 and a lip of 2 at each side."""
READ = """cylinder:
  code: ISO 6432 16 x 125
  rod_stub: 22.0
  rod_thread_length: 16
  rod_flats: 5
  nose: {thread: M16 x 1.5, length: 18, nut: {across_flats: 24, height: 8}}
  length: 198
"""
HEAVY = (Path(__file__).parents[1] / "configs" / "gate_heavy_cylinder.yaml").read_text(encoding="utf-8")
WEB_TO, LOW, HIGH = 179.0, -24.6, -16.6
"""A nose plate of 8 before the cylinder's face at 187; a floor 8 thick whose middle is 20.6 below the thrust line."""


def numbers(words: str) -> list[float]:
    """All numbers in a line of words."""
    return [float(one) for one in re.findall(r"\d+(?:\.\d+)?", words)]


# lengths


def test_shut_20_40_187_as_planned() -> None:
    """20 + coupling 20 + WF 22 + stroke 125 = 187. Open: 126, 146, and the cylinder where it is."""
    facts = part_of(AS_PLANNED).facts
    assert numbers(facts["cylinder's mounting face"]) == [187.0]
    assert numbers(facts["blade edge beyond the body"])[:2] == [20.0, 126.0]
    assert numbers(facts["rod's shoulder"]) == [40.0, 146.0]


def test_open_125_6_145_6_187_with_the_sleeve() -> None:
    """Planned for a travel of 105.6, while its YAML says 126 - 20 = 106: with 125.6 it is as planned.

    Sleeve: excess 125 - 105.6 = 19.4 and the gap 22 - 18 = 4 between nose and shoulder: 23.4; for 106 it is 23.0.
    """
    facts = part_of(TO_125_6).facts
    assert numbers(facts["blade edge beyond the body"])[:2] == [20.0, 125.6]
    assert numbers(facts["rod's shoulder"]) == [40.0, 145.6]
    assert numbers(facts["cylinder's mounting face"]) == [187.0]
    assert numbers(facts["sleeve"])[:3] == [23.4, 19.4, 4.0]
    assert numbers(part_of(RODS).facts["sleeve"])[:3] == [23.0, 19.0, 4.0]


@pytest.mark.parametrize(("text", "opened"), [(RODS, 126.0), (TO_125_6, 125.6)])
def test_the_finished_meshes_drive_the_blade_there(text: str, opened: float) -> None:
    """The pin's play along is 0.4 in all: pushed 0.2 short of shut, pulled 0.2 short of open."""
    found = the(judged(text, "motion"), "motion.positions", severity="pass")
    shut, out, *_ = numbers(found.message)
    assert (shut, out) == pytest.approx((20.2, opened - 0.2), abs=0.051)


def test_without_a_sleeve_145_and_out_of_its_guides() -> None:
    """20 + stroke 125 = 145, and the blade is 20 + 72 + 51 + 2 = 145 long: nothing of it is left in its guides."""
    text = RODS + "stop: none\n"
    assert numbers(part_of(text).facts["blade edge beyond the body"])[1] == 145.0
    assert numbers(part_of(text).facts["left in the guides, open"]) == [0.0]
    found = judged(text, "motion")
    assert "out of its guides" in the(found, "motion.stop").message
    assert "motion.engagement" in bad(found)


def test_19_mm_in_the_guides_where_the_port_is_72_from_the_edge() -> None:
    """Blade 20 + 72 + 102 / 2 + 2 = 145, open 126: 19. For 101.6 and 125.6 it is 144.8 - 125.6 = 19.2, not 19."""
    assert numbers(part_of(RODS).facts["left in the guides, open"]) == [19.0]
    assert numbers(part_of(TO_125_6).facts["left in the guides, open"]) == [19.2]


def test_the_stack_up_is_5_0_at_worst_and_2_9_as_a_rule() -> None:
    """Planned: 3.6 and 1.4, which cannot be: 1.4 is the rod stub alone, and no root-sum-square is below its greatest.

    Tape 0.5, foot 0.2, print 0.2 % of 187 + 0.1, stub 1.4, stroke 0 to +2 (1 in the middle, 1 either way), thread 0.25,
    half of the play 0.2; the middle lies 1 mm off. With the stub read by caliper it counts 0.1.
    """
    parts = [0.5, 0.2, 0.002 * 187 + 0.1, 1.4, 1.0, 0.25, 0.2]
    for text, stub in ((RODS, 1.4), (told(RODS, ("cylinder: ISO 6432 16 x 125\n", READ)), 0.1)):
        parts[3] = stub
        worst, rule = numbers(the(judged(text, "motion"), "motion.stack_up", severity="pass").message)[:2]
        assert worst == pytest.approx(1.0 + sum(parts), abs=0.051)
        assert rule == pytest.approx(1.0 + math.hypot(*parts), abs=0.051)


# the screws of the planned YAML


@pytest.mark.slow
def test_the_planned_screws_stand_1_5_mm_in_the_blades_way() -> None:
    """M5 120 apart: 120 / 2 - 5 / 2 = 57.5 from the middle, and the blade reaches 59. It takes 118 + 5 + 2 x 0.25.

    The volume that each takes of the blade: a circle's segment 1.5 high, 3 thick.
    """
    found = judged(AS_PLANNED)
    screws = the(found, "motion.screws")
    assert "M5 screws, 120.0 mm across, stand 1.5 mm in the blade's way (it is 118.0 mm wide)" in screws.message
    assert (screws.value, screws.limit, screws.place) == (120.0, 123.5, "gate.screws.across")
    assert "123.5 mm or more" in screws.advice and "clamp or saddle" in screws.advice
    segment = 2.5**2 * math.acos(1.0 / 2.5) - 1.0 * math.sqrt(2 * 2.5 * 1.5 - 1.5**2)
    clashes = [f for f in found if f.code == "clearance" and f.severity == "fail"]
    assert len(clashes) == 2 and all("gate blade" in f.message and "gate screw" in f.message for f in clashes)
    assert [f.value for f in clashes] == pytest.approx([3.0 * segment] * 2, rel=0.02)
    assert set(bad(found)) == {"motion.screws", "clearance"}


@pytest.mark.parametrize(
    "mount", ["screws: {across: 123.5, from_edge: 12, size: M5}", "screws: {across: 132, from_edge: 12, size: M5}"]
)
def test_what_is_said_to_work_works(mount: str) -> None:
    text = told(AS_PLANNED, ("screws: {across: 120, from_edge: 12, size: M5}", mount))
    assert the(judged(text, "motion"), "motion.screws", severity="pass").limit == 123.5


# forces


@pytest.mark.parametrize(
    ("text", "port", "newton"),
    [
        (TO_125_6, 101.6, 20.2),
        (
            told(
                RODS,
                ("open: 126", "open: 176.4"),
                ("width: 118", "width: 170"),
                ("width: 150", "width: 205"),
                ("across: 132", "across: 186"),
                ("diameter: 102, to_edge: 72", "diameter: 152.4, to_edge: 100"),
                ("16 x 125", "20 x 160"),
            ),
            152.4,
            45.4,
        ),
    ],
    ids=["4 in", "6 in"],
)
def test_suction_drags_20_2_and_45_4(text: str, port: float, newton: float) -> None:
    """Friction 0.5 x dirt 2 x 10 inH2O x the port's area, over what weight alone drags. 46 for 6 in was rounded up."""
    without = told(text, ("  port:", "  suction: 0 Pa\n  port:"))
    with_it, weight = (gate_load(spec_of(one), 125.0, 145.0).drag.opening_n for one in (text, without))
    assert with_it - weight == pytest.approx(2490.89 * math.pi / 4 * (port / 1000) ** 2, rel=1e-6)
    assert with_it - weight == pytest.approx(newton, abs=0.05)


@pytest.mark.parametrize(
    ("port", "thick", "newton"), [(101.6, 3, 332), (152.4, 3, 229), (101.6, 2, 98), (152.4, 2, 68)]
)
def test_the_blade_bows_out_at_332_229_98_68(port: float, thick: int, newton: int) -> None:
    """pi^2 E b t^3 / 12 / L^2 with L as it is driven, 0.2 short of 125.6 and 181.6. 64 N for 2 mm was wrong."""
    changes = [("open: 126", "open: 125.6"), ("diameter: 102", "diameter: 101.6")]
    wide = 118
    if port > 150:
        wide = 170
        changes = [
            ("open: 126", "open: 181.6"),
            ("width: 118", "width: 170"),
            ("width: 150", "width: 205"),
            ("across: 132", "across: 186"),
            ("diameter: 102, to_edge: 72", "diameter: 152.4, to_edge: 110"),
            ("16 x 125", "16 x 200"),
        ]
    text = told(RODS, *changes, ("thickness: 3", f"thickness: {thick}"))
    (found,) = (f for f in judged(text, "motion") if f.code == "motion.buckling")
    out, bows, *_ = numbers(found.message)
    assert bows == pytest.approx(math.pi**2 * 2000 * wide * thick**3 / 12 / out**2, abs=0.6)
    assert bows == pytest.approx(newton, rel=0.02)


def test_53_mm_beside_its_middle_it_jams_at_71_6() -> None:
    """2 mu e / L with mu 0.5 is 53 / 19 = 2.8; it jams where L = 53, with 144.6 - 53 = 91.6 out: 71.6 from shut.

    The coupling is pushed aside by 53 less the hand's 0.5 and the pin's play. As driven the blade is out 0.2 less when
    open, and begins 0.2 later.
    """
    text = told(TO_125_6, ("hole_to_edge: 8", "hole_to_edge: 8, length: 144.6"))
    play = numbers(the(judged(text, "motion"), "motion.jamming", severity="pass").message)[0] - 0.5
    by = 53.0 - 0.5 - play
    aside = {s.name: replace(s, at=(s.at[0] + by, *s.at[1:])) for s in part_of(text).seats if s.body == "coupling"}
    solid = solid_of(text, "coupling").moved(cq.Location(cq.Vector(by, 0, 0)))
    found = the(judged(text, "motion", part=spoilt(text, {"coupling": solid}, seats=aside)), "motion.jamming")
    assert found.value == pytest.approx(53.0 / 19.2, rel=0.01) and found.value == pytest.approx(2.8, abs=0.05)
    (jams,) = re.findall(r"jams when (\d+) mm of 105 mm", found.message)
    assert float(jams) == pytest.approx(71.6, abs=0.7)


def test_beside_the_body_it_jams_far_earlier_and_is_refused() -> None:
    """53 mm is no place for a cylinder: the body alone is 150 wide. Where it can stand, e beside, it jams at L = e."""
    error = refused(GATE_4 + "layout: alongside\nsecond_guide: no\n")
    assert error.key == "second_guide" and "yes" in error.allowed and "in_line" in error.allowed
    beside, jams, travel = numbers(error.why)[:3]
    assert beside > 75.0 + 20.0 / 2 and travel == 106.0
    assert jams == pytest.approx(145.0 - beside - 20.0, abs=1.0)


@pytest.mark.parametrize(
    ("code", "push", "pull"),
    [  # theoretical thrust at 6 bar, N, as makers' tables print it
        ("ISO 6432 8 x 100", 30.2, 22.6),
        ("ISO 6432 10 x 100", 47.1, 39.6),
        ("ISO 6432 12 x 125", 67.9, 50.9),
        ("ISO 6432 16 x 125", 120.6, 103.7),
        ("ISO 6432 20 x 125", 188.5, 158.3),
        ("ISO 6432 25 x 125", 294.5, 247.4),
        ("ISO 15552 32 x 125", 482.5, 414.7),
        ("ISO 15552 40 x 125", 754.0, 633.3),
        ("ISO 15552 50 x 125", 1178.1, 989.6),
        ("ISO 15552 63 x 125", 1870.3, 1681.9),
        ("ISO 15552 80 x 125", 3015.9, 2721.4),
        ("ISO 15552 100 x 125", 4712.4, 4417.9),
        ("ISO 15552 125 x 125", 7363.1, 6880.6),
    ],
)
def test_thrusts_are_the_published_ones(code: str, push: float, pull: float) -> None:
    cylinder = gate_load(spec_of(told(GATE_4, ("ISO 6432 16 x 125", code))), 126.0, 145.0).cylinder
    assert (cylinder.stall_n("out", 6.0), cylinder.stall_n("in", 6.0)) == pytest.approx((push, pull), abs=0.06)


@pytest.mark.parametrize(("text", "words", "severity"), [(RODS, "121 N", "pass"), (HEAVY, "483 N", "warn")])
def test_the_line_at_6_bar_gives_121_and_483(text: str, words: str, severity: str) -> None:
    (found,) = (f for f in judged(text, "motion") if f.code == "motion.supply")
    assert found.severity == severity and words in found.message


@pytest.mark.slow
def test_a_32_mm_cylinder_on_a_plastic_blade_warns_with_the_regulators_setting() -> None:
    """482.5 N is over 20 x a drag of 24 N (20.4 of suction on 102 mm, the rest weight), 166 N half of what bows it out.

    Nothing blocks: at 1.5 bar it gives 120.6 N.
    """
    found = judged(HEAVY)
    assert not bad(found)
    supply = the(found, "motion.supply", severity="warn")
    assert float(re.search(r"(\S+) x the drag", supply.message)[1]) > 20.0  # type: ignore[index]
    assert supply.value == pytest.approx(482.5, abs=0.1)
    assert supply.limit == pytest.approx(math.pi**2 * 2000 * 118 * 3**3 / 12 / 125.8**2 / 2, rel=0.002)
    assert "regulator to 1.5 bar" in supply.advice and supply.place == "pressure"


@pytest.mark.parametrize(
    ("text", "warns"),
    [
        (RODS, False),  # 121 N: 5.4 x, and the blade bears 166
        (told(RODS, ("  port:", "  drag: 12 N\n  port:")), True),  # 10 x what was read with a spring balance
        (RODS + "pressure: 10 bar\n", True),  # 201 N
        (HEAVY + "pressure: 1.5 bar\n", False),  # 121 N again
    ],
)
def test_the_supply_warns_only_where_it_could_do_harm(text: str, warns: bool) -> None:
    found = judged(text, "motion")
    assert ("motion.supply" in bad(found, "warn")) is warns and not bad(found)


# how far the mount gives way; the plan reckoned with 1750 MPa, the check with half of what the filament's table says


def bracket_of(walls: bool) -> tuple[float, float, float, float]:
    """A floor 60 x 8, with walls 5 x 30 or not, in the bracket's place: force, moves, tilt as checked, and E."""
    text = GATE_4 + "frame: one_piece\nguard: no\nmargin: 3.9\n"
    made = box((-30, 0, LOW), (30, WEB_TO + 1, HIGH))
    plate = box((-30, WEB_TO, LOW), (30, 187, 16)).cut(rod(16.5, WEB_TO - 1, 188))
    sides = [box((x, 0, HIGH), (x + 5, WEB_TO + 1, 13.4)) for x in (-30, 25)] if walls else []
    found = judged(text, "stiffness", part=spoilt(text, {"bracket": made.fuse(plate, *sides)}))
    (thrust,) = (f for f in found if f.code == "stiffness")
    assert (thrust.severity == "fail") is not walls
    force, moves, tilt = numbers(thrust.message)[:3]
    return force, moves, tilt, 0.5 * spec_of(text).material.modulus_mpa


def closed_form(force: float, off: float, second: float, modulus: float) -> tuple[float, float]:
    """Moment F e all along 178 mm of the floor (1 mm from the edge to the plate), the plate 8 mm more, stiff: mm, deg.

    Aside theta (L / 2 + 8), along e x theta and the pull itself.
    """
    turn = force * off * (WEB_TO - 1.0) / (modulus * second)
    return math.hypot(turn * ((WEB_TO - 1.0) / 2 + 8.0), turn * off), math.degrees(turn)


def test_a_plate_20_6_off_the_line_moves_9_5_mm_and_tilts_5_9_deg() -> None:
    """9.5 aside alone, 184.5 long; the nose also goes along by e x tilt = 2.1, so that it moves 9.7 in all.

    Its stress: 3.9 MPa is bending alone, F e / (b h^2 / 6); the pull adds F / (b h) = 0.25.
    """
    force, moves, tilt, modulus = bracket_of(walls=False)
    assert force == 121
    expected = closed_form(120.6, 20.6, 60 * 8**3 / 12, modulus)
    assert (moves, tilt) == pytest.approx(expected, rel=0.03)
    assert moves == pytest.approx(9.7 * 1750 / modulus, rel=0.06) and tilt == pytest.approx(
        5.9 * 1750 / modulus, rel=0.06
    )
    bending, pull = 120.6 * 20.6 / (60 * 8**2 / 6), 120.6 / 480
    assert (bending, pull) == pytest.approx((3.9, 0.25), abs=0.05)


def test_a_u_moves_0_17_mm() -> None:
    """Floor 60 x 8 and walls 5 x 30: centroid 13.3 below the line, I by the theorem of parallel axes 91706 mm4."""
    force, moves, tilt, modulus = bracket_of(walls=True)
    middle = (480 * 20.6 + 300 * 1.6) / 780
    second = 60 * 8**3 / 12 + 480 * (20.6 - middle) ** 2 + 2 * 5 * 30**3 / 12 + 300 * (middle - 1.6) ** 2
    assert second == pytest.approx(91706, abs=10) and middle == pytest.approx(13.3, abs=0.05)
    expected = closed_form(force, middle, second, modulus)
    assert moves == pytest.approx(expected[0], abs=0.025) and tilt == pytest.approx(expected[1], abs=0.011)
    assert moves == pytest.approx(0.17 * 1750 / modulus, rel=0.06)


# what a table only remembers


def test_remembered_lengths_warn_once_and_not_where_they_were_read() -> None:
    once = the(judged(RODS, "motion"), "motion.cylinder", severity="warn")
    assert "only remembered, not read from ISO 6432" in once.message and "cylinder" in once.advice
    assert all(key in once.message for key in ("rod_stub", "nose.length", "nose.nut", "length", "rod_flats"))
    found = judged(told(RODS, ("cylinder: ISO 6432 16 x 125\n", READ)), "motion")
    assert not [f for f in found if f.code == "motion.cylinder"]


def test_iso_21287_is_refused_without_readings_and_taken_with_them() -> None:
    compact = told(GATE_4, ("ISO 6432 16 x 125", "ISO 21287 32 x 125"))
    with pytest.raises(SpecError) as caught:
        load_text(compact, "gate.yaml")
    assert "gate.yaml:8:11: cylinder: found ISO 21287" in str(caught.value)
    assert "only remembered" in str(caught.value) and "measure yours" in str(caught.value)
    read = "{code: ISO 21287 32 x 125, rod_thread: M10 x 1.25, rod_thread_length: 19, rod_stub: 7, rod_flats: 10, "
    read += "square: {apart: 32.5, screw: M6, deep: 14}, body: {square: 47}, length: 169, port: G 1/8}"
    spec = spec_of(told(compact, ("ISO 21287 32 x 125", read)))
    assert spec.cylinder.remembered == () and spec.cylinder.rod_stub_mm == 7.0
