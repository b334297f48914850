"""What people run into with slide gates that a cylinder works, each told to the tool as its user would, by YAML.

The situations are reports of users, restated; the numbers are theirs, or chosen to make the case run.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest

from fitwright import pipeline
from fitwright.data.air import fitting
from fitwright.errors import SpecError
from fitwright.physics.slide.lever import Lever
from fitwright.report.report_txt import report_txt
from fitwright.spec.load import load_text

from .gate_whole import GATE_4, RODS, bad, box, judged, lump, refused, solid_of, spoilt, the, told
from .whole import meshes_of, part_of, spec_of

ROOT = Path(__file__).parents[1]
CONFIGS = sorted((ROOT / "configs").glob("gate*.yaml"))


def bounds(text: str, name: str) -> tuple[np.ndarray, np.ndarray]:
    """Low and high corner of a bought thing or a room."""
    (thing,) = (one for one in part_of(text).stand_ins if one.name == name)
    at = thing.solid.BoundingBox()
    return np.array([at.xmin, at.ymin, at.zmin]), np.array([at.xmax, at.ymax, at.zmax])


# dust behind the blade


@pytest.mark.parametrize("far_end", ["open", "unknown"])
def test_dust_has_room_behind_the_far_end(far_end: str) -> None:
    """A blade 145 long and 20 out when shut reaches 125 into the body; the room goes 10 beyond the body's end."""
    text = told(RODS, ("thickness: 22", f"thickness: 22, length: 130, far_end: {far_end}"))
    low, high = bounds(text, "gate room for dust")
    assert (low[1], high[1]) == pytest.approx((-140.0, -130.0))
    assert high[0] - low[0] >= 118.0 and high[2] - low[2] >= 3.0


def test_dust_has_10_mm_more_than_the_blade_goes_out_there() -> None:
    """A body 125 long, a blade 170 long that is 40 out when shut: its tip is out by 5; driven 19 beyond shut by 24."""
    text = told(
        RODS,
        ("shut: 20, open: 126", "shut: 40, open: 146"),
        ("hole_to_edge: 8", "hole_to_edge: 8, length: 170"),
        ("thickness: 22", "thickness: 22, length: 125, far_end: open, far_end_room: 25"),
    )
    assert bounds(text, "gate room for dust")[0][1] == pytest.approx(-125.0 - 5.0 - 10.0)
    over = text + "stop: over_shut\n"
    assert bounds(over, "gate room for dust")[0][1] == pytest.approx(-125.0 - 24.0 - 10.0)
    assert bounds(over, "gate blade")[0][1] == pytest.approx(-125.0 - 24.0)


def test_driven_beyond_shut_the_coupling_must_not_meet_the_body() -> None:
    text = told(RODS, ("thickness: 22", "thickness: 22, length: 125, far_end: open, far_end_room: 25"))
    error = refused(text + "stop: over_shut\n")
    assert error.key == "stop" and "over_shut by 19 mm" in error.found and "or sleeve" in error.allowed


@pytest.mark.parametrize("away", [0.5, 9.0, 10.5])
def test_a_bracket_must_not_cover_the_slots_far_end(away: float) -> None:
    text = told(RODS, ("thickness: 22", "thickness: 22, length: 130, far_end: open"))
    assert not bad(judged(text, "clearance"))
    lid = lump("lid", box((-70, -130 - away - 4, -11), (70, -130 - away, 11)))
    found = judged(text, "clearance", part=spoilt(text, more=(lid,)))
    if away > 10.0:
        assert not bad(found)
        return
    dust = the(found, "clearance", "room for dust")
    assert "packs" in dust.advice and dust.body == "lid"


def test_a_closed_far_end_is_told_to_be_opened() -> None:
    found = judged(told(RODS, ("thickness: 22", "thickness: 22, far_end: closed")), "motion")
    assert "Open the far end" in the(found, "motion.far_end", severity="warn").advice


# nothing is sealed


def words_of(text: str) -> Iterator[str]:
    """All that is told of a part: findings, facts, cautions, papers."""
    part = part_of(text)
    yield from (f"{f.message} {f.advice}" for f in judged(text, "motion"))
    yield from part.facts.values()
    yield from part.cautions
    yield from (line for paper in part.papers for _, lines in paper.sections for line in lines)


@pytest.mark.parametrize("path", CONFIGS, ids=lambda path: path.stem)
def test_a_gate_is_never_said_to_be_tight(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    told_of = " ".join(" ".join(words_of(text)).split())
    assert "not sealed and not airtight" in told_of and "blow dust out of it" in told_of
    claims = re.sub(r"\bnot (sealed|airtight)\b|threads, sealed by the fitting's ring", "", told_of)
    assert re.findall(r"airtight|air-tight|\bsealed\b|seals? tight|leak-?proof", claims) == []


@pytest.mark.slow
def test_the_report_says_so_too() -> None:
    result = pipeline.build_part(spec_of(RODS), write=False)
    said = " ".join(report_txt(result.report).decode().split())
    assert "not sealed and not airtight" in said


# running clearance


@pytest.mark.parametrize("thick", [1.5, 3.0, 3.3, 6.0])
def test_the_blades_slot_is_the_blade_and_0_4_on_the_mesh(thick: float) -> None:
    """Measured by rays through the finished mesh, all over the fork, beside what the check says."""
    text = told(RODS, ("thickness: 3", f"thickness: {thick}"))
    mesh = meshes_of(text)["coupling"].mesh
    (seat,) = (one for one in part_of(text).seats if one.name == "fork floor")
    low, high = mesh.bounds
    at = [
        (x, y, 0.0)
        for x in np.linspace(0.8 * low[0], 0.8 * high[0], 9) + 0.013
        for y in np.linspace(low[1] + 0.7, seat.at[1] - 0.7, 9) + 0.017
    ]
    gaps = []
    for z in (1.0, -1.0):
        where, ray, _ = mesh.ray.intersects_location(at, [(0.0, 0.0, z)] * len(at), multiple_hits=False)
        far = np.full(len(at), np.inf)
        far[ray] = np.abs(where[:, 2])
        gaps.append(far)
    slot = gaps[0] + gaps[1]
    assert np.isfinite(slot).mean() > 0.5  # elsewhere is the pin's hole
    assert slot[np.isfinite(slot)].min() == pytest.approx(thick + 0.4, abs=0.01)
    told_of = the(judged(text, "motion"), "motion.slot", severity="pass")
    assert told_of.value == pytest.approx(thick + 0.4, abs=0.01)


# a stroke that is longer than the travel


def test_stroke_100_for_a_travel_of_90_gets_a_sleeve_and_loses_a_cushion() -> None:
    """10 and the gap between nose and shoulder, WF 22 - 18: 14 on the rod. The printed one fills the nut's room too."""
    text = told(
        RODS, ("open: 126", "open: 110"), ("diameter: 102", "diameter: 86"), ("ISO 6432 16 x 125", "ISO 6432 16 x 100")
    )
    facts = part_of(text).facts
    assert facts["sleeve"].startswith(
        "14.0 mm on the rod: the stroke is 10.0 mm longer than the travel, and 4.0 mm lie"
    )
    assert "no cushion" in facts["stops"]
    found = judged(text, "motion")
    stop = the(found, "motion.stop", severity="pass")
    assert "open by the sleeve on the rod" in stop.message and "its end has no cushion" in stop.message
    low, high = meshes_of(text)["sleeve"].mesh.bounds
    assert high[1] - low[1] == pytest.approx(14.0 + 0.4, abs=0.01)
    assert not bad(found)


def test_a_longer_sleeve_than_half_the_stroke_is_refused_with_the_stroke_to_buy() -> None:
    error = refused(told(RODS, ("open: 126", "open: 60"), ("diameter: 102", "diameter: 36")))
    assert error.key == "cylinder" and "125 mm for a travel of" in error.found and "50 mm" in error.allowed


# a rod beside the blade


def test_the_offset_of_rod_and_blade_is_told_and_the_float_counts() -> None:
    """Across it may stand off by 0.5 and what the pin floats; square to the blade nothing floats: 0.5."""
    said = the(judged(RODS, "motion"), "motion.side_load", severity="pass")
    assert "rod to cylinder 0.00 mm across the blade, 0.00 mm square to it" in said.message
    floats = float(said.message.partition("floats ")[2].split()[0])
    for by, severity in ((floats + 0.3, "pass"), (floats + 0.7, "fail")):
        found = shifted(RODS, (by, 0.0))
        (one,) = (f for f in found if f.code == "motion.side_load")
        assert one.severity == severity and f"{by:.2f} mm across" in one.message
    for by, severity in ((0.4, "pass"), (0.6, "fail")):
        (one,) = (f for f in shifted(RODS, (0.0, by)) if f.code == "motion.side_load")
        assert one.severity == severity and f"{by:.2f} mm square to it" in one.message


def test_a_clamped_blade_floats_nowhere() -> None:
    text = told(RODS, (", hole: 5, hole_to_edge: 8", ""))
    assert "floats" not in the(judged(text, "motion"), "motion.side_load", severity="pass").message
    (one,) = (f for f in shifted(text, (0.6, 0.0)) if f.code == "motion.side_load")
    assert one.severity == "fail" and one.value == pytest.approx(0.6, abs=0.02) and one.limit == 0.5


def shifted(text: str, by: tuple[float, float]) -> tuple:  # type: ignore[type-arg]
    """With the nose plate shifted (right, up)."""
    plate = solid_of(text, "nose_plate").moved(cq.Location(cq.Vector(by[0], 0, by[1])))
    seats = {
        s.name: replace(s, at=(s.at[0] + by[0], s.at[1], s.at[2] + by[1]))
        for s in part_of(text).seats
        if s.body == "nose_plate"
    }
    return judged(text, "motion", part=spoilt(text, {"nose_plate": plate}, seats=seats))


# a lever goes on an arc


def test_a_lever_is_no_key_and_the_page_says_how_to_measure_it() -> None:
    with pytest.raises(SpecError) as caught:
        load_text(told(GATE_4, ("  port:", "  lever: {arm: 200}\n  port:")), "gate.yaml")
    assert "gate.lever" in str(caught.value) and "gate.yaml:6" in str(caught.value)
    page = " ".join((ROOT / "docs" / "families" / "gate_bracket.md").read_text(encoding="utf-8").split())
    assert "A gate with a lever" in page and "13.6 mm for a pin of 6" in page


@pytest.mark.parametrize(("arm", "travel", "pin"), [(200.0, 105.6, 6.0), (120.0, 157.0, 8.0), (300.0, 60.0, 5.0)])
def test_a_levers_slot_is_no_shorter_than_its_arc_needs(arm: float, travel: float, pin: float) -> None:
    """Walked along the arc: the pin's place across the travel, from its farthest to its nearest."""
    half = math.asin(travel / 2 / arm)
    across = arm * np.cos(np.linspace(-half, half, 2001))
    assert Lever(arm, travel).slot_mm(pin) >= float(np.ptp(across)) + pin
    assert Lever(arm, travel).sagitta_mm == pytest.approx(float(np.ptp(across)), rel=1e-6)


# fittings and flow controls


@pytest.mark.parametrize("name", ["front", "rear"])
@pytest.mark.parametrize(("side", "axis", "sign"), [("up", 2, 1), ("down", 2, -1), ("left", 0, -1), ("right", 0, 1)])
def test_an_elbow_with_a_flow_control_has_its_room(name: str, side: str, axis: int, sign: int) -> None:
    """As high over the barrel as the table's fitting, and its tube's bend beyond."""
    text = told(RODS, ("ISO 6432 16 x 125", f"{{code: ISO 6432 16 x 125, ports: {side}}}"))
    low, high = bounds(text, f"cylinder {name} fitting")
    far = high[axis] if sign > 0 else -low[axis]
    assert far == pytest.approx(10.0 + fitting("M5").above_mm, abs=0.2)
    hose = bounds(text, f"cylinder {name} hose bend")
    assert (hose[1][axis] if sign > 0 else -hose[0][axis]) > far


@pytest.mark.parametrize(("at", "blocks"), [(42.0, False), (37.0, True)])
def test_fittings_are_held_against_the_envelope(at: float, blocks: bool) -> None:
    """A shelf over the cylinder: barrel and cover reach 10 up, the elbow 39."""
    shelf = "envelope:\n  keep_clear:\n    - {box: {left: 40, right: 40, toward: -250, away: 420, down: -%s, up: 90}, "
    text = RODS + shelf % at + "label: shelf, clearance: 1}\n"
    found = judged(text, "clearance")
    rear = [f for f in found if f.severity == "fail" and "rear fitting" in f.message]
    assert bool(rear) is blocks


def test_fittings_are_held_against_the_bracket() -> None:
    """A rib on the nose plate in the front elbow's place."""
    low, high = bounds(RODS, "cylinder front fitting")
    rib = box((-8, 180, high[2] - 10), (8, low[1] + 6, high[2]))
    plate = solid_of(RODS, "nose_plate").fuse(rib, box((-8, 180, 15), (8, 187, high[2])))
    found = judged(RODS, "clearance", part=spoilt(RODS, {"nose_plate": plate}))
    clash = the(found, "clearance", "cylinder front fitting")
    assert "cylinder.ports" in clash.advice and clash.body == "nose_plate"
