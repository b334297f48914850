"""The YAML of a hose hanger: every key means what it says, in mm and in inches; what is left out is filled in."""

from __future__ import annotations

from typing import Any

import pytest
from yaml_cases import loaded, only

from fitwright.spec.hanger import HangerMount, HoseHangerSpec

HOSE = "part: hose_hanger\nhose: {over_ribs: 108.4}\n"


def hanger(more: str = "", first: str = HOSE) -> HoseHangerSpec:
    spec = loaded(first + more)
    assert isinstance(spec, HoseHangerSpec)
    return spec


def mount(said: str, more: str = "") -> HangerMount:
    return hanger(f"mount: {said}\n{more}").mount


def test_two_lines_make_a_saddle_on_the_side_of_a_joist() -> None:
    spec = hanger()
    assert (spec.style, spec.mount.kind, spec.mount.side, spec.count) == ("saddle", "joist_side", "left", 1)
    assert (spec.carried.kind, spec.carried.size.nominal_mm, spec.carried.key) == ("hose", 108.4, "hose.over_ribs")
    assert spec.width_mm >= 38.0
    assert spec.eye and spec.overhead
    assert {"mount", "width", "arm", "second_fixing", "spacing", "saddle", "hose.kind"} <= set(spec.defaulted)


def test_what_is_said_is_not_told_as_assumed() -> None:
    spec = hanger("mount: ceiling\nwidth: 48\nsaddle: {strap: {width: 20}}\nspacing: 900\nsecond_fixing: yes\n")
    assert not {"mount", "width", "saddle", "spacing", "second_fixing", "saddle.strap"} & set(spec.defaulted)
    assert {"saddle.opens", "saddle.strap.thickness", "mount.ceiling.screws"} <= set(spec.defaulted)


def test_a_hose_in_all_its_words() -> None:
    said = "{over_ribs: {circumference: 340.0}, inside: 100, squeezes_to: 80, kind: pu, weight: 450 g}"
    carried = hanger(first=f"part: hose_hanger\nhose: {said}\n").carried
    assert carried.size.nominal_mm == pytest.approx(340.0 / 3.14159265, abs=1e-5)
    assert (carried.inside_mm, carried.squeezed_mm, carried.kg_per_m) == (100.0, 80.0, 0.45)
    assert carried.hose_kind == "light polyurethane"


def test_readings_over_the_ribs_are_averaged() -> None:
    carried = hanger(first="part: hose_hanger\nhose: {over_ribs: [108, 109, 107]}\n").carried
    assert carried.size.nominal_mm == 108.0 and carried.size.ovality_mm == 2.0


@pytest.mark.parametrize(
    ("said", "outside", "inside", "made_of", "key"),
    [
        ("EN 1401 DN 110", 110.0, 110.0 - 2 * 3.2, "PVC", "pipe"),  # EN 1401-1: 110 x 3.2
        ("4 in sewer-and-drain", 107.06, 103.25, "PVC", "pipe"),  # ASTM D2729: 4.215 in
        ("{over: [110.2, 110.4], wall: 3.2, material: ABS}", 110.3, 103.9, "ABS", "pipe.over"),
        ("{over: 110.2}", 110.2, None, "PVC", "pipe.over"),
    ],
)
def test_a_pipe_by_table_or_readings(said: str, outside: float, inside: float | None, made_of: str, key: str) -> None:
    carried = hanger(first=f"part: hose_hanger\npipe: {said}\n").carried
    assert carried.kind == "pipe" and carried.key == key and carried.pipe_of == made_of
    assert carried.size.nominal_mm == pytest.approx(outside, abs=0.01)
    assert carried.inside_mm == (None if inside is None else pytest.approx(inside, abs=0.01))


@pytest.mark.parametrize(
    ("said", "style", "values"),
    [
        ("saddle: yes", "saddle", {"opens_deg": None}),
        ("saddle: {strap: 20}", "saddle", {"strap.wide_mm": 20.0, "strap.thick_mm": 3.0}),
        ("saddle: {strap: {width: 15, thickness: 1.5}}", "saddle", {"strap.wide_mm": 15.0, "strap.thick_mm": 1.5}),
        ("saddle: {opens: right}", "saddle", {"opens_deg": 90.0}),
        ("hook: yes", "hook", {"throat_mm": None}),
        ("hook: {throat: 90}", "hook", {"throat_mm": 90.0}),
        ("mount: {wall: {side: right}}\nhook: {opens: left}", "hook", {"opens_deg": 270.0}),
        ("mount: ceiling", "saddle", {"strap.wide_mm": 38.0, "width_mm": 48.0}),
        ("saddle: {strap: {thickness: 2}}", "saddle", {"strap.wide_mm": 25.0, "width_mm": 44.0}),
        ("clamp: yes", "clamp", {"clamp.kind": "screws", "clamp.screw": "M5", "clamp.gap_mm": 2.0}),
        ("clamp: {screws: M6, gap: 3}", "clamp", {"clamp.screw": "M6", "clamp.gap_mm": 3.0}),
        ("clamp: {band: 9}", "clamp", {"clamp.kind": "band", "clamp.band_mm": 9.0}),
    ],
)
def test_styles(said: str, style: str, values: dict[str, Any]) -> None:
    spec = hanger(said)
    assert spec.style == style
    for path, value in values.items():
        found: Any = spec
        for step in path.split("."):
            found = getattr(found, step)
        assert found == value, path


@pytest.mark.parametrize(
    ("said", "values"),
    [
        ("joist_side", {"kind": "joist_side", "side": "left"}),
        ("joist_underside", {"kind": "joist_underside", "side": "up", "along": True}),
        ("wall", {"kind": "flat", "side": "left"}),
        ("ceiling", {"kind": "flat", "side": "up"}),
        ("shelf", {"kind": "flat", "side": "down"}),
        ("strut", {"kind": "strut", "side": "up", "along": False, "bolt": "M8"}),
        ("{joist_side: {side: right, to_axis: 95}}", {"side": "right", "axis_mm": 95.0}),
        ("{joist_underside: {runs: across}}", {"along": False}),
        ("{wall: {side: right}}", {"kind": "flat", "side": "right"}),
        ("{strut: {runs: along, side: left, bolt: m10}}", {"along": True, "side": "left", "bolt": "M10"}),
        ("{t_slot: {slot: 8.2}}", {"kind": "t_slot", "slot_mm": 8.2, "bolt": "M6", "along": True, "side": "up"}),
        ("{t_slot: {slot: 6.1, side: left, runs: across}}", {"bolt": "M5", "side": "left", "along": False}),
        ("{t_slot: {slot: 10.1, bolt: M10}}", {"bolt": "M10"}),
        (
            "{cable_tie: {bar: 25, tie: {width: 4.8, thickness: 1.3}}}",
            {"kind": "cable_tie", "bar_mm": 25.0, "tie_wide_mm": 4.8, "tie_thick_mm": 1.3, "along": False},
        ),
        ("{rod: {drop: 300, size: m10}}", {"kind": "rod", "side": "up", "drop_mm": 300.0, "bolt": "M10"}),
    ],
)
def test_mounts(said: str, values: dict[str, Any]) -> None:
    found = mount(said)
    assert {key: getattr(found, key) for key in values} == values


def test_joist_and_screws() -> None:
    said = "{width: 45, depth: 220, wood: fir}, screws: {size: 6 mm, length: 60, head: hex, count: 4}"
    found = mount(f"{{joist_side: {{joist: {said}}}}}")
    assert (found.wood.name, found.wood.wide_mm, found.wood.deep_mm) == ("Douglas fir", 45.0, 220.0)
    assert (found.screws.size, found.screws.long_mm, found.screws.head, found.screws.count) == ("6.0 mm", 60, "hex", 4)


def test_a_coach_screw() -> None:
    assert mount("{joist_side: {screws: {size: 8 mm lag, head: hex}}}").screws.size == "8 mm coach"


def test_a_board_says_how_thick_it_is() -> None:
    assert mount("{wall: {into: {wood: ply, thickness: 15}}}").wood.wide_mm == 15.0
    assert mount("{wall: {into: {wood: ply}}}").wood.wide_mm == 18.0  # as it is sold
    assert mount("wall").wood.wide_mm == 38.0


def test_a_batten_with_both_joists_on_one_side() -> None:
    batten = mount("{batten: {near: {left: 150}, far: {left: 460}, width: 70, thickness: 45}}").batten
    assert batten is not None
    assert (batten.near_mm, batten.far_mm, batten.wide_mm, batten.thick_mm) == (-150.0, -460.0, 70.0, 45.0)


@pytest.mark.parametrize(
    ("said", "places"),
    [
        ("{points: [{up: 20}, {down: 20, away: 5}], size: M5}", [(20, 0), (-20, 5)]),
        ("{side: up, points: [{right: 20}, {left: 20, toward: 5}], size: M5}", [(20, 0), (-20, -5)]),
        ("{side: up, count: 4, circle: 60, size: M5}", [(0, 30), (30, 0), (0, -30), (-30, 0)]),
        ("{side: left, count: 2, circle: 60, first_at: 90, size: M5}", [(30, 0), (-30, 0)]),
    ],
)
def test_holes_that_are_there(said: str, places: list[tuple[float, float]]) -> None:
    holes = mount(f"{{holes: {said}}}").holes
    assert holes is not None and holes.hole_d_mm == 5.5  # ISO 273 medium for M5
    flat = [x for place in holes.points for x in (place.right_mm, place.up_mm)]
    assert flat == pytest.approx([x for place in places for x in place], abs=1e-9)


def test_the_rest_of_the_keys() -> None:
    spec = hanger(
        "count: 3\napart: 190\narm: 9\nabove: cutter\nsecond_fixing: no\nspacing: 900\nelbow: 400\n"
        "travel: {left: 600, up: 20}\ndust: chips\n"
    )
    assert (spec.count, spec.apart_mm, spec.arm_mm, spec.above) == (3, 190.0, 9.0, "cutter")
    assert (spec.second_fixing, spec.eye, spec.spacing_mm, spec.elbow_mm) == (False, False, 900.0, 400.0)
    assert spec.travel_mm == (-600.0, 0.0, 20.0) and spec.dust == "chips"


def test_a_swivel_under_a_ceiling() -> None:
    assert hanger("mount: ceiling\nhook: yes\nswivel: yes\n").swivel
    assert hanger("mount: {strut: {side: up}}\nswivel: yes\n").swivel


def test_inches() -> None:
    text = """
        part: hose_hanger
        units: in
        hose: {over_ribs: 4 1/4, inside: 4, squeezes_to: 3.5}
        saddle: {strap: 1}
        width: 1 3/4
        mount: {joist_side: {joist: {width: 1.5, depth: 7.25}, screws: {size: No. 10, length: 2}}}
        spacing: 48
        travel: {right: 24}
    """
    spec = loaded(text)
    assert isinstance(spec, HoseHangerSpec)
    assert spec.carried.size.nominal_mm == pytest.approx(107.95)
    assert (spec.carried.inside_mm, spec.carried.squeezed_mm) == (pytest.approx(101.6), pytest.approx(88.9))
    assert (spec.strap.wide_mm, spec.width_mm) == (pytest.approx(25.4), pytest.approx(44.45))
    assert (spec.mount.wood.wide_mm, spec.mount.wood.deep_mm) == (pytest.approx(38.1), pytest.approx(184.15))
    assert spec.mount.screws.long_mm == pytest.approx(50.8)
    assert spec.spacing_mm == pytest.approx(1219.2)
    assert spec.travel_mm == (pytest.approx(609.6), 0.0, 0.0)


def test_a_part_without_its_family_is_read_as_what_it_looks_like() -> None:
    assert "hose_hanger" in only("hose: {over_ribs: 100}\nmount: strut\n").allowed
