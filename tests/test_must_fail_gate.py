"""Every way in which a gate bracket would not work is stopped, or told: the finding names what was found, and the cure.

Each bracket is a user's YAML that passes, with one thing in it changed, or one body spoilt after the build.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import cadquery as cq
import pytest

from fitwright.data.nuts import nut
from fitwright.errors import SpecError
from fitwright.spec.load import load_text

from .gate_whole import GATE_4, RODS, bad, box, judged, lump, refused, solid_of, spoilt, the, told
from .whole import part_of

LISTED = ("motion", "stiffness", "hardware", "clearance", "solid", "features", "wall", "fit.built")


@cache
def blocks(text: str) -> set[str]:
    """Codes of all that blocks."""
    return set(bad(judged(text)))


@pytest.mark.slow
@pytest.mark.parametrize("text", [GATE_4, RODS], ids=["auto", "rods"])
def test_before_it_is_spoilt_it_passes(text: str) -> None:
    assert blocks(text) == set()


# the stroke and its stops


@pytest.mark.slow
def test_no_stop_and_the_blade_out_of_its_guides() -> None:
    text = RODS + "stop: none\n"
    found = judged(text)
    stop = the(found, "motion.stop")
    assert "it comes out 144.8 mm and is 145.0 mm long" in stop.message
    assert stop.limit == 126.0 and stop.place == "stop" and "stop: sleeve" in stop.advice
    kept = the(found, "motion.engagement")
    assert kept.value == pytest.approx(0.2) and kept.limit == 15.0 and "at least 15.0 mm" in kept.message
    assert {code.partition(".")[0] for code in bad(found)} == {"motion"}


def test_a_forgotten_sleeve() -> None:
    """Declared, but not printed: the check follows the bodies."""
    found = judged(RODS, "motion", part=spoilt(RODS, without=("sleeve",)))
    assert "out of its guides" in the(found, "motion.stop").message


def test_a_stroke_4_mm_short_is_refused_with_the_one_to_buy() -> None:
    error = refused(told(GATE_4, ("open: 126", "open: 124"), ("16 x 125", "16 x 100")))
    assert error.key == "cylinder" and error.found == "a stroke of 100 mm for a travel of 104 mm"
    assert error.allowed == "a stroke of 125 mm" and "4 mm short of open" in error.why


def test_a_stroke_2_mm_short_only_warns_with_what_stays_in_the_bore() -> None:
    """Stroke 100: open 120, the pin's play pulls 0.2 less. The port's near edge lies 72 - 51 = 21 in; the tip 25.2."""
    text = told(GATE_4, ("open: 126", "open: 122"), ("16 x 125", "16 x 100"))
    found = judged(text, "motion")
    short = the(found, "motion.positions", severity="warn")
    assert "2.2 mm short of open" in short.message and short.value == pytest.approx(119.8) and short.limit == 122.0
    assert "4.2 mm of the blade's edge stay in the bore" in short.message and "longer stroke" in short.advice
    assert not bad(found)


def test_too_little_left_in_the_guides() -> None:
    text = told(RODS, ("hole_to_edge: 8", "hole_to_edge: 8, length: 139"))
    found = the(judged(text, "motion"), "motion.engagement")
    assert found.value == pytest.approx(13.2) and found.limit == 15.0 and found.place == "gate.blade.length"
    assert "only 13.2 mm" in found.message and "sticks_out.open" in found.advice and "longer blade" in found.advice


def test_a_closed_far_end_packs_dust() -> None:
    found = judged(told(RODS, ("thickness: 22", "thickness: 22, far_end: closed")), "motion")
    dust = the(found, "motion.far_end", severity="warn")
    assert dust.place == "gate.body.far_end" and "dust packs" in dust.message and "Open the far end" in dust.advice
    assert not [f for f in judged(RODS, "motion") if f.code == "motion.far_end" and f.severity != "pass"]


# thrust


def test_too_little_pressure() -> None:
    """Pull area of 16 / 6: 172.8 mm2; 0.85 x 0.15 x 172.8 = 22.0 N against 2 x 22.2."""
    found = [f for f in judged(RODS + "pressure: 1.5 bar\n", "motion") if f.code == "motion.thrust"]
    assert [f.severity for f in found] == ["fail", "fail"]
    assert found[0].value == pytest.approx(22.0, abs=0.05) and found[0].limit == pytest.approx(44.4, abs=0.1)
    assert "22 N at 1.5 bar against a drag of 22 N" in found[0].message and found[0].place == "pressure"
    assert "3.1 bar or more (pressure)" in found[0].advice and "bore of 22 mm" in found[0].advice
    assert not bad(judged(RODS + "pressure: 3.1 bar\n", "motion"))


def spring(least: str) -> str:
    """The cylinder single-acting, its spring driving the rod out."""
    words = f"{{code: ISO 6432 16 x 125, spring: {{drives: out, least: {least}, greatest: 90 N}}}}"
    return told(RODS, ("ISO 6432 16 x 125", words))


def test_a_spring_too_weak() -> None:
    found = the(judged(spring("20 N"), "motion"), "motion.spring")
    assert found.value == pytest.approx(0.85 * 20) and found.limit == pytest.approx(44.4, abs=0.1)
    assert "the spring shuts the gate with 17 N where it is weakest" in found.message
    assert "double-acting" in found.advice and "53 N or more" in found.advice
    assert found.place == "cylinder.spring"
    assert not [f for f in judged(spring("53 N"), "motion") if f.code == "motion.spring" and f.severity == "fail"]


def test_a_single_acting_cylinder_without_its_springs_forces() -> None:
    text = told(GATE_4, ("ISO 6432 16 x 125", "{code: ISO 6432 16 x 125, spring: {drives: out}}"))
    with pytest.raises(SpecError) as caught:
        load_text(text, "gate.yaml")
    assert "gate.yaml:8:" in str(caught.value) and "cylinder.spring.least: found nothing" in str(caught.value)


def test_a_2_mm_plastic_blade_warns_and_a_wider_port_fails() -> None:
    """98 N on 126 mm and 68 N on 182 mm, Euler; asked is twice of what the cylinder pushes with.

    On the 4 in gate 3.0 bar move it for certain: 60 N, factor 1.6. On the 6 in gate the drag alone is 50 N.
    """
    thin = told(RODS, ("thickness: 3", "thickness: 2"))
    warned = the(judged(thin, "motion"), "motion.buckling", severity="warn")
    assert warned.limit == 2.0 and warned.value == pytest.approx(98 / 60, rel=0.02)
    assert "bows out at 98 N" in warned.message and "2.2 mm thick" in warned.advice and warned.place == "gate.blade"
    assert "motion.supply" in bad(judged(thin, "motion"), "warn")
    wide = told(
        thin,
        ("open: 126", "open: 176"),
        ("width: 118", "width: 170"),
        ("width: 150", "width: 205"),
        ("across: 132", "across: 186"),
        ("diameter: 102, to_edge: 72", "diameter: 152, to_edge: 100"),
        ("16 x 125", "20 x 160"),
    )
    failed = the(judged(wide, "motion"), "motion.buckling")
    assert failed.value is not None and failed.value < 1.5 and "thick" in failed.advice
    mended = told(wide, ("thickness: 2,", "thickness: 6,"))
    assert "motion.buckling" not in bad(judged(mended, "motion"))


def test_beside_the_blade_without_a_second_guide() -> None:
    error = refused(GATE_4 + "layout: alongside\nsecond_guide: no\n")
    assert error.key == "second_guide" and error.found == "no"
    assert error.allowed.startswith("yes") and "layout: in_line" in error.allowed
    assert "jams at" in error.why and "0.5 is allowed" in error.why


def test_a_pull_beside_the_middle_jams() -> None:
    """The nose hole and the coupling's rod hole 30 mm apart: L 19.2, e 30 + 0.5 and the pin's play."""
    moved = solid_of(RODS, "coupling").moved(cq.Location(cq.Vector(30, 0, 0)))
    seats = {s.name: replace(s, at=(s.at[0] + 30, *s.at[1:])) for s in part_of(RODS).seats if s.body == "coupling"}
    found = judged(RODS, "motion", part=spoilt(RODS, {"coupling": moved}, seats=seats))
    jams = the(found, "motion.jamming")
    assert jams.limit == 0.5 and jams.value == pytest.approx(31.4 / 19.2, rel=0.02) and "jams when" in jams.message
    side = the(found, "motion.side_load")
    assert side.value == pytest.approx(30.0, abs=0.05) and side.advice


def test_a_nose_off_the_blades_plane() -> None:
    raised = solid_of(RODS, "nose_plate").moved(cq.Location(cq.Vector(0, 0, 0.8)))
    found = the(judged(RODS, "motion", part=spoilt(RODS, {"nose_plate": raised})), "motion.side_load")
    assert found.value == pytest.approx(0.8, abs=0.02) and found.limit == 0.5
    assert "0.80 mm square to it" in found.message


# frame


def test_a_plate_off_the_thrust_line() -> None:
    """In place of the nose plate on its rods: rods 20.6 below the line. At 70 N two bars bend by F e L^2 / 2 E I.

    6.83 mm of stress diameter: I = 107 each, L 187; 70 x 20.6 x 187^2 / (2 x 205000 x 214) = 0.57 mm.
    """
    part = part_of(RODS)
    row = next(one for one in part.fastenings if one.name == "left rod at the nose plate")
    plate = box((-83, 161, -40), (83, 187, 18.5)).cut(
        cq.Solid.makeCylinder(8.25, 40, cq.Vector(0, 155, 0), cq.Vector(0, 1, 0))
    )
    holes = [
        cq.Solid.makeCylinder(row.d_mm / 2 + 0.5, 40, cq.Vector(x, 155, -20.6), cq.Vector(0, 1, 0)) for x in (-71, 71)
    ]
    found = judged(RODS, "stiffness", part=spoilt(RODS, {"nose_plate": plate.cut(*holes)}))
    thrust = the(found, "stiffness")
    moves = float(thrust.message.partition("moves ")[2].split()[0])
    assert moves == pytest.approx(0.57, abs=0.15)
    assert "0.5 mm and 0.5 deg are allowed" in thrust.advice and thrust.place == "frame"


def test_a_plate_that_is_too_soft_across() -> None:
    """The nose plate's ribs and window cut down to 5 mm of plate between the rods."""
    plate = solid_of(RODS, "nose_plate").intersect(box((-100, 182, -100), (100, 188, 100)))
    found = judged(RODS, "stiffness", part=spoilt(RODS, {"nose_plate": plate}))
    assert "0.5 mm and 0.5 deg are allowed" in the(found, "stiffness").advice


@pytest.mark.slow
def test_a_heavy_cylinder_without_a_support() -> None:
    """0.52 + 0.27 x 1.25 = 0.86 kg, 307 mm out: 2.6 N m."""
    text = told(RODS, ("ISO 6432 16 x 125", "ISO 15552 32 x 125"))
    found = judged(text, "motion", "stiffness")
    heavy = the(found, "motion.weight", severity="warn")
    assert heavy.value == pytest.approx(0.8575 * 9.81 * 0.3065, rel=0.01) and heavy.limit == 1.0
    assert "0.86 kg" in heavy.message and "support" in heavy.advice and heavy.place == "cylinder"
    held = judged(text + "support: {down: 60}\n", "motion", "stiffness")
    assert "motion.weight" not in bad(held, "warn") and not bad(held)


# coupling


def test_the_coupling_meets_the_bracket_half_way() -> None:
    """A peg grown on the yoke, met by the coupling when it has gone half of its way; only the clearance sees it."""
    part = part_of(RODS)
    low, high = (getattr(solid_of(RODS, "coupling").BoundingBox(), name) for name in ("ymin", "ymax"))
    half = part.motion.travel_mm / 2  # type: ignore[union-attr]
    top = solid_of(RODS, "coupling").BoundingBox().zmax
    yoke = solid_of(RODS, "yoke")
    over = yoke.BoundingBox().zmax
    reach = (low + high) / 2 + half
    arm = box((7, 5, over - 2), (13, reach + 2, over + 2))
    tooth = box((7, reach - 2, top - 3), (13, reach + 2, over + 2))
    found = [f for f in judged(RODS, "clearance", part=spoilt(RODS, {"yoke": yoke.fuse(arm, tooth)})) if f.blocks]
    assert found and "the coupling and the yoke" in found[0].message and "mm open" in found[0].message
    assert found[0].value is not None and found[0].value > 1.0 and found[0].advice


@pytest.mark.parametrize(("filled", "severity"), [(0.3, "fail"), (0.0, "pass")])
def test_a_blade_slot_too_narrow(filled: float, severity: str) -> None:
    """Slot 3.4 for a blade of 3: a skin of 0.3 on its lower jaw leaves 3.1."""
    coupling = solid_of(RODS, "coupling")
    if filled:
        coupling = coupling.fuse(
            box((-9.8, 6.4, -1.8), (9.8, 20.2, -1.7 + filled)).intersect(box((-9.8, 6.4, -1.8), (9.8, 20.2, 0)))
        )
    found = judged(RODS, "motion", part=spoilt(RODS, {"coupling": coupling}))
    slot = the(found, "motion.slot", severity=severity)  # type: ignore[arg-type]
    assert slot.value == pytest.approx(3.4 - filled, abs=0.01) and slot.limit == pytest.approx(3.4)
    assert slot.place == "gate.blade.thickness"
    assert "binds" in slot.message or not filled


def nut_pocket() -> tuple[cq.Solid, float, float]:
    """The coupling's nut slot: a box that widens it, and its height along the rod."""
    one = next(f for f in part_of(RODS).fastenings if f.name == "rod in the coupling")
    low, m = one.head[1] - one.grip_mm - one.nut_m_mm, one.nut_m_mm
    return box((-20, low - 0.3, -6.2), (6.2, low + m + 0.3, 6.2)), low, m


def test_a_nut_that_turns_in_its_pocket() -> None:
    """A slot as wide as the nut over its corners holds nothing."""
    wider, _, _ = nut_pocket()
    part = spoilt(RODS, {"coupling": solid_of(RODS, "coupling").cut(wider)})
    found = the(judged(RODS, "hardware", part=part), "hardware", "turns in its pocket")
    assert found.place == "rod in the coupling" and "M6" in found.message and "narrower" in found.advice


def test_a_nut_that_cannot_come_in() -> None:
    """A wall over the slot's mouth, at whichever side it opens."""
    _, low, m = nut_pocket()
    one = next(f for f in part_of(RODS).fastenings if f.name == "rod in the coupling")
    assert one.pocket is not None
    x = -one.pocket.way[0] * 8.0
    wall = box((min(x, x * 1.2), low - 1, -8), (max(x, x * 1.2), low + m + 1, 8))
    part = spoilt(RODS, {"coupling": solid_of(RODS, "coupling").fuse(wall)})
    found = the(judged(RODS, "hardware", part=part), "hardware", "cannot be brought into its pocket")
    assert "Open the pocket" in found.advice and found.body == "coupling"


def test_a_nut_that_does_not_fit() -> None:
    """The slot 0.6 tighter than the nut is wide: skins at its flats."""
    _, low, m = nut_pocket()
    half = nut("M6 x 1").af_mm / 2 - 0.3
    skins = [box((-6, low, z), (6, low + m, z + 2)) for z in (half, -half - 2)]
    part = spoilt(RODS, {"coupling": solid_of(RODS, "coupling").fuse(*skins)})
    assert the(judged(RODS, "hardware", part=part), "hardware", "does not fit").advice


# hardware


def fastening(name: str, **changes: object) -> Mapping[str, object]:
    """One fastening as built, with changes."""
    (one,) = (f for f in part_of(RODS).fastenings if f.name == name)
    return {name: replace(one, **changes)}  # type: ignore[arg-type]


def test_a_screw_too_short() -> None:
    """Grip 34.4, two washers of 1, nut 4.7, one pitch 0.8: 41.9; 40 does not reach, 45 is sold."""
    part = spoilt(RODS, fastenings=fastening("gate screw 1", long_mm=40.0))  # type: ignore[arg-type]
    found = the(judged(RODS, "hardware", part=part), "hardware", "too short")
    assert found.limit == pytest.approx(41.9, abs=0.05) and found.value == 40.0
    assert "3.6 mm of thread" in found.message and "45 mm long" in found.advice and found.place == "gate screw 1"


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("cylinder nose", (-40.0, 140.0, -40.0), (40.0, 177.0, 40.0)),
        ("left rod at the nose plate", (-95.0, 187.5, -30.0), (-45.0, 215.0, 30.0)),
    ],
)
def test_a_spanner_that_cannot_swing(
    name: str, low: tuple[float, float, float], high: tuple[float, float, float]
) -> None:
    """A box round the nut with just the nut's room in it."""
    one = next(f for f in part_of(RODS).fastenings if f.name == name)
    r = one.nut_af_mm / 2 * 1.3
    room = cq.Solid.makeCylinder(r, 100, cq.Vector(one.head[0], 130, one.head[2]), cq.Vector(0, 1, 0))
    wall = lump("wall", box(low, high).cut(room))
    found = judged(RODS, "hardware", part=spoilt(RODS, more=(wall,)))
    stuck = [f for f in found if f.severity == "fail"]
    assert stuck and all(f.place == name and "cannot turn it on" in f.message for f in stuck)
    assert all(f.limit == 30.0 and "room" in f.advice and "socket" in f.advice for f in stuck)


def test_a_hole_too_near_the_edge() -> None:
    """The yoke's ears cut off 4 mm outside of the gate's screws: 1.5 diameters are asked."""
    ears = solid_of(RODS, "yoke").cut(box((70, -60, -60), (200, 0, 60)))
    found = the(judged(RODS, "hardware", part=spoilt(RODS, {"yoke": ears})), "hardware", "from the edge")
    assert found.limit == 7.5 and found.value == pytest.approx(4.0, abs=0.1) and "gate.screws" in found.advice


# fingers


def test_no_guard_where_it_pinches() -> None:
    pinch = the(judged(RODS, "motion"), "motion.pinch", severity="warn")
    assert "guard: auto" in pinch.advice and "finger" in pinch.message and pinch.limit == 25.0
    guarded = judged(told(RODS, ("guard: no", "guard: auto")), "motion")
    assert "motion.pinch" not in bad(guarded, "warn")
