"""Saddle, hook, clamp and eye: outlines against a polygon library and closed forms, bodies on the real checks."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from shapely.geometry import Polygon
from tests.hanger_specs import HOSE_100, PIPE_110, hanger

from fitwright.checks import features, fit_built, hardware, printing, solid, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.outline import Outline
from fitwright.part import Part
from fitwright.parts.hanger import clamp_band, clamp_screws, hook, saddle
from fitwright.parts.hanger.cuts import FLARE_DEG, FLARE_R_MM, Flare
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hanger.shapes_uv import segment_uv
from fitwright.parts.hanger.styles import carrier_of, sizes_of
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import Carried, ClampBy, HangerMount, HoseHangerSpec, Strap
from fitwright.spec.size import from_readings

CHECKS = (solid.check, features.check, wall.check, fit_built.check, hardware.check, printing.check)
SURFACES = ("up", "left", "right", "down")


def on(side: Any, **changes: Any) -> HoseHangerSpec:
    return hanger(mount=HangerMount(kind="flat", side=side), **changes)


def hose(mm: float, kind: Any = "hose") -> Carried:
    return Carried(kind=kind, size=from_readings((mm,)), key=f"{kind}.over")


def area(drawn: Outline) -> float:
    """By a polygon library, from points on the outline."""
    return float(Polygon(drawn.polyline(1e-5)).area)


def blocked(part: Part, spec: HoseHangerSpec) -> list[str]:
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    found = [f for check in CHECKS for f in check(part, meshes, spec)]
    # the bed is for the mount to refuse
    return [f"{f.code} {f.place}: {f.message}" for f in found if f.blocks and f.code != "printing.bed"]


@pytest.mark.parametrize("side", SURFACES)
def test_a_hooks_outline_is_its_middle_line_times_its_thickness(side: Any) -> None:
    spec = on(side, style="hook")
    sizes = sizes_of(spec, Placed(side, 0.0))
    drawn = hook.outline_of(sizes, (3.0, 40.0))
    lip, curl = math.radians(sizes.lip_deg), hook.CURL * sizes.arm
    bend = math.pi / 2 - lip + math.radians(hook.FLARED_DEG)
    # Pappus: an arc of even thickness has the area of its middle line times its thickness; two half discs at the ends
    middle = sizes.mid_r * (2 * math.pi - 2 * lip) + 2 * curl * bend
    assert drawn.area_mm2 == pytest.approx(middle * sizes.arm + math.pi * sizes.arm**2 / 4, rel=1e-9)
    assert drawn.area_mm2 == pytest.approx(area(drawn), rel=1e-5)
    assert Polygon(drawn.polyline(0.01)).is_valid


@pytest.mark.parametrize("throat", [80.0, 92.0, 100.0])
def test_the_lips_stand_as_far_apart_as_asked(throat: float) -> None:
    spec = on("left", style="hook", throat_mm=throat)
    sizes = sizes_of(spec, Placed("left", 0.0))
    drawn = Polygon(hook.outline_of(sizes, (0.0, 0.0)).polyline(1e-4))
    # opens to +u: the least clear width across, over all that lies beyond the axis
    gaps = []
    for k in range(1, 4000):
        u = 0.02 * k
        cross = drawn.intersection(Polygon([(u, -200), (u + 1e-4, -200), (u + 1e-4, 200), (u, 200)]))
        parts = [g for g in getattr(cross, "geoms", [cross]) if not g.is_empty]
        if len(parts) == 2:
            low, high = sorted(parts, key=lambda g: g.centroid.y)
            gaps.append(high.bounds[1] - low.bounds[3])
    assert min(gaps) == pytest.approx(throat, abs=0.01)


@pytest.mark.parametrize("mm", [16.0, 40.0, 108.4, 200.0])
def test_a_saddles_outline_against_a_polygon_library(mm: float) -> None:
    spec = on("up", carried=hose(mm))
    sizes = sizes_of(spec, Placed("up", 0.0))
    end = sizes.bore_r + saddle.ear_mm(sizes, spec)
    drawn = saddle.outline_of(sizes, (0.0, 0.0), (end, end))
    assert drawn.area_mm2 == pytest.approx(area(drawn), rel=1e-5)
    assert drawn.fault() is None
    rounds = [side.radius_mm for side in drawn.sides if side.via is not None]
    assert min(rounds) >= 2.0 - 1e-9, "nothing sharper than R 2 meets hose or strap"


def test_a_segment_is_the_handbooks() -> None:
    r, v = 63.0, -1.0
    # circular segment: r^2 acos(h / r) - h sqrt(r^2 - h^2) (any handbook of mathematics)
    assert segment_uv((5.0, 7.0), r, v).area_mm2 == pytest.approx(r * r * math.acos(1 / r) - math.sqrt(r * r - 1))


@pytest.mark.parametrize(("lip", "bare"), [(False, 0.0), (True, 0.0), (False, 1.0)])
def test_a_flare_takes_what_the_kernel_takes(lip: bool, bare: float) -> None:
    from cadquery import Solid, Vector

    r, wide, at = 20.0, 30.0, Placed("down", 0.0)
    flare = Flare("rim", 0.0, 0.0, r, 0.0, 1.0, 0.0, 180.0, lip, bare)
    whole = Solid.makeCylinder(r, wide, Vector(0, 0, 0), Vector(0, 1, 0))
    if not lip:
        whole = Solid.makeCylinder(2 * r, wide, Vector(0, 0, 0), Vector(0, 1, 0)).cut(whole)
    half = whole.intersect(Solid.makeBox(200, 200, 200, Vector(-100, -100, bare)))
    taken = half.Volume() - half.cut(flare.tool(at)).Volume()
    assert flare.volume_mm3(None) == pytest.approx(taken, rel=1e-6)  # type: ignore[arg-type]


def test_rims_are_no_steeper_than_prints_without_support() -> None:
    assert FLARE_DEG <= 45.0 and FLARE_R_MM >= 2.0


@pytest.mark.parametrize("style", ["saddle", "hook"])
def test_left_and_right_are_mirror_images(style: str) -> None:
    left, right = (build_hose_hanger(on(side, style=style)).bodies[0] for side in ("left", "right"))
    assert left.solid.Volume() == pytest.approx(right.solid.Volume(), rel=1e-9)
    a, b = left.solid.Center(), right.solid.Center()
    assert (a.x, a.y, a.z) == pytest.approx((-b.x, b.y, b.z), abs=1e-6)


def test_a_wider_hanger_is_as_much_heavier() -> None:
    one, two = (build_hose_hanger(on("down", style="hook", width_mm=w, arm_mm=14.0)).bodies[0] for w in (90.0, 110.0))
    # so wide that the neck is no wider than its notches ask, whatever the width
    plan = hanger_plan(on("down", style="hook", width_mm=90.0, arm_mm=14.0))
    assert two.solid.Volume() - one.solid.Volume() == pytest.approx(20.0 * plan.profile.area_mm2, rel=1e-6)


@pytest.mark.parametrize(
    ("side", "changes", "key"),
    [
        ("left", {"style": "saddle", "opens_deg": 270.0}, "saddle.opens"),  # toward the surface
        ("up", {"style": "saddle", "opens_deg": 0.0}, "saddle.opens"),
        ("left", {"style": "saddle", "opens_deg": 30.0}, "saddle.opens"),
        ("up", {"style": "hook", "opens_deg": 180.0}, "hook.opens"),  # the weight presses a hose out
        ("left", {"style": "clamp", "opens_deg": 0.0}, "clamp.opens"),
        ("up", {"style": "hook", "throat_mm": 115.0}, "hook.throat"),  # drops in, and out again
        ("left", {"style": "hook", "arm_mm": 5.0}, "arm"),
        ("left", {"style": "saddle", "strap": Strap(wide_mm=38.0), "width_mm": 40.0}, "width"),
        ("left", {"style": "hook", "carried": PIPE_110, "throat_mm": 90.0}, "hook.throat"),
        ("left", {"style": "clamp", "carried": PIPE_110, "clamp": ClampBy(gap_mm=0.2)}, "clamp.gap"),
        ("left", {"style": "clamp", "carried": PIPE_110, "width_mm": 16.0}, "width"),
        ("left", {"style": "clamp", "carried": PIPE_110, "clamp": ClampBy(kind="band", band_mm=36.0)}, "width"),
        ("left", {"style": "hook", "count": 2, "apart_mm": 130.0}, "apart"),
    ],
)
def test_what_leaves_no_sound_body_is_refused(side: str, changes: dict[str, Any], key: str) -> None:
    with pytest.raises(RefusalError) as caught:
        hanger_plan(on(side, **changes))
    assert caught.value.key == key
    assert caught.value.found and caught.value.allowed


def test_the_value_that_a_refusal_names_works() -> None:
    with pytest.raises(RefusalError) as caught:
        hanger_plan(on("left", style="hook", arm_mm=5.0))
    works = float(caught.value.allowed.split()[0])
    assert hanger_plan(on("left", style="hook", arm_mm=works)).sizes.arm == works
    with pytest.raises(RefusalError):
        hanger_plan(on("left", style="hook", arm_mm=works - 0.5))


def test_saddles_under_a_ceiling_may_share_an_ear() -> None:
    spec = on("up", count=2, carried=hose(40.0))
    sizes = sizes_of(spec, Placed("up", 0.0))
    near = saddle.least_shared_mm(sizes, spec)
    assert near < sizes.apart
    part = build_hose_hanger(on("up", count=2, carried=hose(40.0), apart_mm=near))
    slots = [f for f in part.bodies[0].features if f.name.startswith("strap slot")]
    assert len(slots) == 3, "two outer ones, and one for both straps"
    assert not blocked(part, on("up", count=2, carried=hose(40.0), apart_mm=near))


def test_each_hose_comes_in_past_its_neighbour() -> None:
    for style in ("saddle", "hook"):
        sizes = sizes_of(on("left", style=style, count=2, carried=hose(40.0)), Placed("left", 0.0))
        carrier = carrier_of(sizes, on("left", style=style, count=2, carried=hose(40.0)), 0.0, 0.0, "1 ")
        room = sizes.apart - carrier.reach_u[1] + carrier.reach_u[0]
        assert room >= 40.0, "from the lips of one to the back of the next"


def test_a_clamp_closes_on_the_pipe_and_parts_through_its_axis() -> None:
    spec = on("left", style="clamp", carried=PIPE_110)
    part = build_hose_hanger(spec)
    base, cap = part.bodies
    assert {base.name, cap.name} == {"hanger", "cap"}
    assert min(v.X for v in cap.solid.Vertices()) == pytest.approx(spec.clamp.gap_mm / 2, abs=1e-6)
    plan = hanger_plan(spec)
    assert plan.sizes.bore_printed_d == pytest.approx(110.2)
    one = clamp_screws.screws_of(spec, plan.sizes)
    # washer, cap's ear, gap, floor, nut, one pitch (M5: 0.8; ISO 4032 nut 4.7; ISO 7089 washer 1.0)
    assert one.long >= 1.0 + 8.0 + 2.0 + 5.0 + 4.7 + 0.8
    assert len(part.fastenings) >= 2
    assert not blocked(part, spec)


def test_a_bands_tunnel_goes_through_the_neck() -> None:
    """A worm-drive band is 0.6 to 0.9 mm thick (from memory): three times that to thread it through."""
    spec = on("right", style="clamp", carried=PIPE_110, clamp=ClampBy(kind="band"))
    part = build_hose_hanger(spec)
    assert not blocked(part, spec)
    assert part.bodies[0].genus == build_hose_hanger(on("right", style="clamp", carried=PIPE_110)).bodies[0].genus - 3
    assert clamp_band.TUNNEL_MM + clamp_band.GROOVE_MM >= 3 * 0.9


@pytest.mark.parametrize("style", ["saddle", "hook", "clamp"])
@pytest.mark.parametrize("side", ["up", "left", "right"])
def test_an_eye_stands_clear_of_the_hose_with_its_line_straight_up(style: str, side: str) -> None:
    spec = on(side, style=style)
    plan = hanger_plan(spec)
    (eye,) = [one for carrier in plan.carrier for one in carrier.eyes]
    x, _, z = eye.frame.origin
    out = spec.carried.size.greatest_mm / 2
    assert eye.d_mm >= 8.5
    assert math.hypot(x, z) > out + 1.5 * eye.d_mm
    assert z > 0 or abs(x) > out + 4.0
    (lug,) = [one for carrier in plan.carrier for one in carrier.lugs]
    assert not plan.profile.contains(lug.at)


def test_no_eye_where_nothing_hangs() -> None:
    assert not [one for carrier in hanger_plan(on("down")).carrier for one in carrier.eyes]


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(24))
def test_random_hangers_build_or_are_refused(seed: int) -> None:
    pick = random.Random(seed)
    spec = on(
        pick.choice(SURFACES),
        style=pick.choice(["saddle", "hook", "clamp"]),
        carried=hose(round(math.exp(pick.uniform(math.log(16), math.log(200))), 1), pick.choice(["hose", "pipe"])),
        count=pick.choice([1, 1, 1, 2, 3, 6]),
        opens_deg=pick.choice([None, None, 0.0, 90.0, 180.0, 270.0]),
        width_mm=pick.choice([40.0, 50.0, 60.0]),
        clamp=ClampBy(kind=pick.choice(["screws", "band"]), screw=pick.choice(["M5", "M6"])),
        second_fixing=pick.choice([None, False]),
    )
    try:
        part = build_hose_hanger(spec)
    except RefusalError as refused:
        assert refused.key and refused.allowed
        return
    assert not blocked(part, spec)


def test_the_hose_hanger_of_the_examples_passes() -> None:
    for spec in (on("left", carried=HOSE_100), on("up", style="hook", carried=HOSE_100)):
        assert not blocked(build_hose_hanger(spec), spec)
