"""What moves between rod and blade bears: the coupling, a clamping jaw, the sleeve between nose and jam nut.

The rod pulls on its captive nut and pushes by its jam nut; the blade holds: at its pin, at the fork's floor, or in the
jaws. The seats slide, so each is held along the thrust, and aside by next to nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitwright.data.nuts import nut
from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.coupling_plan import ACROSS_MM, PAD_MM, CouplingPlan
from fitwright.parts.gate.jaw_plan import BITE_MM, CLEAR_MM, HEEL_MM, JawPlan
from fitwright.parts.gate.load_cases import Bears, Thrust, stalled, thrusts
from fitwright.parts.gate.load_faces import OUT, UP, disc, minus, patch
from fitwright.parts.gate.load_springs import HARD_N_MM, SLIDES_N_MM, pin_n_mm
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.spec.gate_coupling import nose_end_mm, rod_washer
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

HELD = (HARD_N_MM, SLIDES_N_MM)
"""Along the thrust, and aside."""


def coupling_bears(plan: GatePlan, spec: GateBracketSpec, load: Load) -> Bears:
    """Coupling, and the jaw plate where the blade is clamped."""
    at, late = plan.coupling, coupling_shift_mm(plan)
    caught = disc("coupling rod nut", "coupling", (0.0, at.nut_y1 + late, 0.0), OUT, at.nut_af_mm)
    back_d = at.jam_af_mm or at.nut_af_mm
    back = disc("coupling back", "coupling", (0.0, at.back_y + late, 0.0), minus(OUT), back_d)
    opens, shuts = _on_blade(load, plan)
    if at.jaw is not None:
        return _jawed(at, at.jaw, spec, (caught, back), (opens, shuts), late)
    pin, floor = _pin(at, spec, late), _floor(at, spec, late)
    supports = (
        Support(pin.name, "washer", pin_n_mm(at.pin_d_mm, at.slot_mm + at.jaw_mm), SLIDES_N_MM),
        Support(floor.name, "washer", *HELD),
    )
    cases = [
        *stalled(opens, caught, (pin.name,), key="material"),
        *stalled(shuts, back, (floor.name,), key="material"),
    ]
    return Bears((caught, back, pin, floor), supports, tuple(cases))


def _on_blade(load: Load, plan: GatePlan) -> tuple[Thrust, Thrust]:
    """What opens the blade (outwards), and what shuts it: the rod's own way, not the frame's."""
    both = {one.rod: replace(one, frame_way=minus(one.frame_way)) for one in thrusts(load, plan.way)}
    return both[load.opens], both[load.shuts]


def _pin(at: CouplingPlan, spec: GateBracketSpec, late: float) -> LoadFace:
    """The slot's side towards the tip, in both jaws."""
    r, half = modelled(at.pin_slot_mm, "hole", spec.printer) / 2, at.fork_mm / 2
    y = at.pin_slot_y - r + late
    return patch("pin slot", "coupling", minus(OUT), y, (-ACROSS_MM / 2, ACROSS_MM / 2), (-half, half))


def _floor(at: CouplingPlan, spec: GateBracketSpec, late: float) -> LoadFace:
    half = modelled(at.slot_mm, "hole", spec.printer) / 2
    return patch("fork floor", "coupling", OUT, at.floor_y + late, (-PAD_MM, PAD_MM), (-half, half))


def _jawed(
    at: CouplingPlan,
    jaw: JawPlan,
    spec: GateBracketSpec,
    rod: tuple[LoadFace, LoadFace],
    ways: tuple[Thrust, Thrust],
    late: float,
) -> Bears:
    """Lower jaw: friction holds it on the blade. Its plate: two screws, a toe on the blade, a heel on the ledge."""
    half, x = spec.gate.blade.thickness_mm / 2, (-jaw.wide_mm / 2, jaw.wide_mm / 2)
    toe_y = jaw.tip_y + late, at.edge_y + late
    heel_y = jaw.heel_y - HEEL_MM + late, jaw.heel_y + late
    washer = jaw.washer_mm / 2
    strip_y = jaw.screw_y - washer + late, jaw.screw_y + washer + late
    lower = patch("lower jaw", "coupling", minus(UP), -half, x, toe_y)
    under = patch("jaw screws' nuts", "coupling", UP, -jaw.low_mm, _screws_x(jaw), strip_y)
    ledge = patch("heel's ledge", "coupling", minus(UP), half - BITE_MM, x, heel_y)
    toe = patch("jaw toe", "jaw", UP, half, x, (toe_y[0], toe_y[1] - CLEAR_MM))
    heel = patch("jaw heel", "jaw", UP, half, x, heel_y)
    over = patch("jaw screws' heads", "jaw", minus(UP), half + jaw.thick_mm, _screws_x(jaw), strip_y)
    supports = (
        Support(lower.name, "fixed"),
        Support(ledge.name, "seat"),
        Support(toe.name, "fixed"),
        Support(heel.name, "seat"),
    )
    cases: list[LoadCase] = []
    for thrust, face in zip(ways, rod, strict=True):
        cases += stalled(thrust, face, (lower.name,), key="material")
    cases.append(_screwed(under, UP, (lower.name, ledge.name), jaw))
    cases.append(_screwed(over, minus(UP), (toe.name, heel.name), jaw))
    return Bears((*rod, lower, under, ledge, toe, heel, over), supports, tuple(cases))


def _screws_x(jaw: JawPlan) -> tuple[float, float]:
    """From the left screw's washer to the right one's; between them is the box, or nothing."""
    reach = jaw.screw_x + jaw.washer_mm / 2
    return -reach, reach


def _screwed(face: LoadFace, way: Vec, held: tuple[str, ...], jaw: JawPlan) -> LoadCase:
    force = 2.0 * jaw.preload_n
    why = f"both screws tightened to {jaw.preload_n:.0f} N each"
    name = f"tightened on {face.name}"
    return LoadCase(name, face.body, face.name, force, (way,), held, why=why, key="blade.hole")


def sleeve_bears(plan: GatePlan, spec: GateBracketSpec, load: Load) -> Bears:
    """Crushed between the cylinder's nose and the jam nut as the rod goes in."""
    sizes = sleeve_sizes(plan, spec)
    if sizes is None:
        return Bears()
    x, y0, y1 = plan.axis_x_mm, sizes.y0, sizes.y0 + sizes.long_mm
    high, wide = rod_washer(spec)
    nut_d = wide if high else nut(spec.cylinder.rod_thread, "thin").af_mm
    ds = (nut_d, nose_end_mm(spec)) if plan.way > 0 else (nose_end_mm(spec), nut_d)
    low = disc("sleeve's gate end", "sleeve", (x, y0, 0.0), OUT, min(ds[0], sizes.outside_mm))
    far = disc("sleeve's outer end", "sleeve", (x, y1, 0.0), minus(OUT), min(ds[1], sizes.outside_mm))
    pushed, nose = (low, far) if plan.way > 0 else (far, low)
    into = next(one for one in thrusts(load, plan.way) if one.rod == "in")
    pressed = replace(into, frame_way=pushed.frame.inward)
    cases: Iterator[LoadCase] = stalled(pressed, pushed, (nose.name,), key="material")
    return Bears((pushed, nose), (Support(nose.name, "washer", *HELD),), tuple(cases))
