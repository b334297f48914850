"""What holds the cylinder bears: where nose, nut, screws or barrel press, and the nuts of the rods that carry it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.data.fasteners import fastener
from fitwright.frame import Frame, Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.gate.load_cases import ALONG, ASIDE, Bears, Hung, hand, hung, stalled, thrusts
from fitwright.parts.gate.load_faces import OUT, RIGHT, bore, disc, minus, patch
from fitwright.parts.gate.load_springs import HARD_N_MM, aside_n_mm, axial_n_mm
from fitwright.parts.gate.nose_hold import ClampHold, ThreadHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import support_plan
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

ROOF_DEG = 45.0
"""A lying bore leaves its circle so far beside the top: for its roof, or where it is open."""


@dataclass(frozen=True)
class NoseFaces:
    """What the cylinder presses on as its rod goes out (`out`), as it goes in (`into`), and what else is declared."""

    out: LoadFace
    into: LoadFace
    more: tuple[LoadFace, ...] = ()

    @property
    def all(self) -> tuple[LoadFace, ...]:
        """Each once."""
        return tuple({one.name: one for one in (self.into, self.out, *self.more)}.values())


def nose_faces(plan: GatePlan, spec: GateBracketSpec, body: str) -> NoseFaces:
    """Where the cylinder bears on the body that holds it."""
    hold, nose = plan.frame.nose.hold, plan.frame.nose
    x, y, way = plan.axis_x_mm, plan.nose_face_mm, plan.way
    towards: Vec = (0.0, -way, 0.0)
    if isinstance(hold, ClampHold):
        return _clamped(hold, plan, spec, body)
    if isinstance(hold, ThreadHold):
        face = disc("nose face", body, (x, y, 0.0), towards, hold.clamped_mm)
        nut_d = hold.washer_d_mm or hold.nut_af_mm
        return NoseFaces(disc("nose nut", body, (x, y - way * hold.web_mm, 0.0), minus(towards), nut_d), face)
    half = min(spec.cylinder.body_mm or hold.apart_mm, nose.high) / 2
    face = patch("nose face", body, towards, y, (x - half, x + half), (-half, half))
    reach = hold.apart_mm / 2 + hold.washer_d_mm / 2
    back = y - way * nose.deep
    return NoseFaces(patch("cover screws", body, minus(towards), back, (x - reach, x + reach), (-reach, reach)), face)


def _clamped(hold: ClampHold, plan: GatePlan, spec: GateBracketSpec, body: str) -> NoseFaces:
    """The barrel in its bore (a square one: on its floor, and its flanks beside it); the screws' washers, one strip on
    either cheek."""
    x, y, way = plan.axis_x_mm, plan.nose_face_mm, plan.way
    r = modelled(hold.bore_mm, "hole", spec.printer) / 2
    ends = sorted((y + way * hold.off_mm, y + way * (hold.off_mm + hold.band_mm)))
    if hold.round:
        frame = Frame((x, ends[0], 0.0), OUT, RIGHT)
        grip = bore("clamp bore", body, frame, r, (0.0, hold.band_mm), (ROOF_DEG + 1.0, 359.0 - ROOF_DEG))
    else:
        grip = patch("clamp bore", body, (0.0, 0.0, -1.0), -r, (x - r, x + r), (ends[0], ends[1]))
    washer = (fastener(hold.size).washer_d2_mm or 2 * fastener(hold.size).major_mm) / 2
    along = sorted(y + way * (hold.off_mm + v) for v in hold.screw_v_mm)
    strip = (along[0] - washer, along[-1] + washer), (hold.screw_z_mm - washer, hold.screw_z_mm + washer)
    cheeks = tuple(
        patch(f"clamp screws {name}", body, (-side, 0.0, 0.0), x + side * hold.half_mm, *strip)
        for name, side in (("left", -1.0), ("right", 1.0))
    )
    flanks = tuple(
        patch(f"clamp flank {name}", body, (side, 0.0, 0.0), x + side * r, (ends[0], ends[1]), (-r, r))
        for name, side in (("left", -1.0), ("right", 1.0))
        if not hold.round
    )
    return NoseFaces(grip, grip, (*cheeks, *flanks))


def cylinder_hung(plan: GatePlan, spec: GateBracketSpec, falls: tuple[Vec, ...]) -> Hung:
    """The cylinder's weight through its middle; a second support takes its share, and the moment with it."""
    x, y, way, middle = plan.axis_x_mm, plan.nose_face_mm, plan.way, spec.cylinder.long_mm / 2
    if support_plan(plan, spec) is None:
        return Hung(spec.cylinder.mass_kg, (x, y + way * middle, 0.0), falls)
    return Hung(spec.cylinder.mass_kg, (x, y, 0.0), falls)


def on_nose(
    plan: GatePlan,
    spec: GateBracketSpec,
    load: Load,
    faces: NoseFaces,
    held: tuple[str, ...],
    falls: tuple[Vec, ...],
    limit_mm: float,
) -> Iterator[LoadCase]:
    """Thrust both ways, weight, knocks, a hand on the cylinder, a clamp's screws."""
    at: Vec = (plan.axis_x_mm, plan.nose_face_mm, 0.0)
    out, into = thrusts(load, plan.way)
    yield from stalled(out, faces.out, held, at, limit_mm)
    yield from stalled(into, faces.into, held, at, limit_mm)
    carried = cylinder_hung(plan, spec, falls)
    yield from hung(carried, faces.out, held)  # clamped between nut and cylinder; the wider ring is the nut's
    why = "a hand that holds on to the cylinder"
    yield hand(faces.out, held, why, (*ASIDE, *ALONG), carried.at, key="support")
    hold = plan.frame.nose.hold
    if isinstance(hold, ClampHold):
        yield _squeezed(hold, faces)


def _squeezed(hold: ClampHold, faces: NoseFaces) -> LoadCase:
    """Its screws draw one cheek to the other, and both to the barrel; what is tightened slackens with time."""
    left, right, *flanks = faces.more
    force = len(hold.screw_v_mm) * hold.preload_n
    why = f"the clamp's screws, tightened to {hold.preload_n:.0f} N each"
    held = (right.name, faces.out.name, *(one.name for one in flanks))
    return LoadCase(
        "clamp screws tightened", left.body, left.name, force, ((1.0, 0.0, 0.0),), held, why=why, key="hold"
    )


def rod_faces(plan: GatePlan, spec: GateBracketSpec, body: str = "nose_plate") -> tuple[LoadFace, ...]:
    """The washers under the nuts that hold the nose plate on its rods: outer and inner, left and right."""
    row, x = fastener(plan.frame.rod), placed(plan.frame.rail_x, spec.printer)
    d = row.washer_d2_mm or 2 * row.major_mm
    found = []
    for name, side in (("left", -1.0), ("right", 1.0)):
        outer: Vec = (side * x, plan.nose_face_mm, 0.0)
        inner: Vec = (side * x, plan.nose_face_mm - plan.frame.nose.deep, 0.0)
        found.append(disc(f"{name} rod outer nut", body, outer, (0.0, -1.0, 0.0), d))
        found.append(disc(f"{name} rod inner nut", body, inner, (0.0, 1.0, 0.0), d))
    return tuple(found)


def rod_supports(faces: tuple[LoadFace, ...], plan: GatePlan) -> tuple[Support, ...]:
    """Two nuts share what one rod gives way; it is as long as from the yoke's nut to the plate's."""
    row = fastener(plan.frame.rod)
    long = plan.nose_face_mm - plan.frame.nose.deep - plan.frame.yoke_y1
    axial, lateral = axial_n_mm(row, long) / 2, aside_n_mm(row, long) / 2
    return tuple(Support(one.name, "washer", axial, lateral) for one in faces)


def clamp_supports(plan: GatePlan, faces: NoseFaces) -> tuple[Support, ...]:
    """The other cheek's washers, and the barrel between both."""
    if not isinstance(plan.frame.nose.hold, ClampHold):
        return ()
    seats = (faces.out, *faces.more[2:])
    return (
        Support(faces.more[1].name, "washer", HARD_N_MM, HARD_N_MM / 10),
        *(Support(one.name, "seat") for one in seats),
    )


def nose_plate_bears(plan: GatePlan, spec: GateBracketSpec, load: Load, falls: tuple[Vec, ...], limit: float) -> Bears:
    """The nose plate on its rods."""
    faces, rods = nose_faces(plan, spec, "nose_plate"), rod_faces(plan, spec)
    held = tuple(one.name for one in rods)
    cases = on_nose(plan, spec, load, faces, held, falls, limit)
    return Bears((*faces.all, *rods), (*rod_supports(rods, plan), *clamp_supports(plan, faces)), tuple(cases))
