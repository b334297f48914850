"""Does each body print: bed, undersides, islands, first layer, stance; and what does it take?"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from fitwright.finding import Finding, Severity
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Part
from fitwright.place import words
from fitwright.pose import PoseChoice, choose_pose
from fitwright.printing.cost import duration, hours
from fitwright.printing.limits import BRIDGE_MM, LEDGE_MM, RANK, step_mm
from fitwright.printing.overhang import Overhang

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase, Printer

FIRST_LAYER_MM2 = 100.0
"""Less than this on the bed peels off (common practice, no source)."""
TALL = 5.0
"""Height over the least width of what stands on the bed; more is knocked off (common practice, no source)."""
FILAMENT_MM = 1.75
"""Diameter of the usual filament."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """All `printing.*` findings of every printed body, in the pose that prints best."""
    found: list[Finding] = []
    for body in part.printed:
        mesh = meshes[body.name]
        if len(mesh.mesh.faces) == 0:
            found.append(_finding("bed", "fail", body, None, None, "", "whole body", "not checked: the mesh is empty"))
            continue
        found += judge(body, mesh, choose_pose(body, mesh, spec.printer), spec)
    return found


def judge(body: Body, mesh: BodyMesh, choice: PoseChoice, spec: PartBase) -> list[Finding]:
    """The findings for one pose."""
    printer = spec.printer
    return [
        _bed(body, choice, printer, _parts_it(spec)),
        *_overhangs(body, choice.overhangs, printer),
        *_islands(body, choice),
        _first_layer(body, choice),
        _tall(body, choice),
        _cost(body, mesh, choice, spec),
    ]


def _finding(
    code: str,
    severity: Severity,
    body: Body,
    value: float | None,
    limit: float | None,
    unit: str,
    place: str,
    message: str,
    advice: str = "",
) -> Finding:
    return Finding(f"printing.{code}", severity, body.name, value, limit, unit, place, message, advice)


def _parts_it(spec: PartBase) -> str:
    """How a part that is too large may be printed all the same, where it is still in one piece."""
    if getattr(spec, "part", "") in ("fit_gauge", "hose_hanger", "flange_plate"):  # these have no halves
        return ""
    if getattr(spec, "part", "") == "gate_bracket":
        return " Or let threaded rods join two smaller prints (frame: rods)."
    if getattr(spec, "part", "") == "flange_plate":
        return " Or have it cut from sheet (sheet)."
    if getattr(spec, "part", "") == "hose_hanger":
        return " Or fewer side by side (count)." if getattr(spec, "count", 1) > 1 else ""
    return "" if getattr(spec, "halves", None) is not None else " Or print it as two halves (halves: auto)."


def _bed(body: Body, choice: PoseChoice, printer: Printer, or_else: str = "") -> Finding:
    plan, height = choice.plan, choice.height_mm
    size = f"{plan.width_mm:.1f} x {plan.depth_mm:.1f} x {height:.1f} mm"
    bed = f"{printer.bed_x_mm:g} x {printer.bed_y_mm:g} x {printer.bed_z_mm:g} mm"
    pose = choice.pose.name
    over = height - printer.bed_z_mm
    taller = [f"{over:.1f} mm taller than the printer"] if over > 1e-6 else []
    if not plan.fits:
        larger = f"{-plan.spare_mm:.1f} mm larger than the bed, however it is turned"
        message = f"{size}, {pose}, is {' and '.join([larger, *taller])} ({bed})"
        wide = plan.width_mm - printer.bed_x_mm >= plan.depth_mm - printer.bed_y_mm
        value, limit = (plan.width_mm, printer.bed_x_mm) if wide else (plan.depth_mm, printer.bed_y_mm)
        advice = f"Name a larger printer (printer).{or_else}"
        return _finding("bed", "fail", body, value, limit, "mm", pose, message, advice)
    if taller:
        message = f"{size}, {pose}, is {taller[0]} ({bed})"
        return _finding("bed", "fail", body, height, printer.bed_z_mm, "mm", pose, message, _SHORTER + or_else)
    pose += f", turned {math.degrees(plan.turn_rad) % 180:.0f} deg on the bed" if plan.turn_rad else ""
    limit = min(printer.bed_x_mm, printer.bed_y_mm)
    spare = max(plan.spare_mm, 0.0)
    message = f"{size}, {pose}, fits the bed ({bed}), {spare:.1f} mm to spare"
    return _finding("bed", "pass", body, max(plan.width_mm, plan.depth_mm), limit, "mm", pose, message)


_SHORTER = "Make it shorter (length), or name a larger printer (printer)."


def _overhangs(body: Body, all_found: Iterable[Overhang], printer: Printer) -> list[Finding]:
    """One warning for each form: the worst place, and how many are like it; one pass when all are well."""
    good: list[Overhang] = []
    groups: dict[str, list[Overhang]] = defaultdict(list)
    for overhang in all_found:
        (good if overhang.grade == "clean" else groups[overhang.form]).append(overhang)
    if groups:
        return [_overhang(body, group, printer) for group in groups.values()]
    if not good:
        message = "no underside is flatter than 45 deg"
        return [_finding("overhang", "pass", body, None, 45.0, "deg", "whole body", message)]
    return [_well(body, good)]


def _well(body: Body, good: list[Overhang]) -> Finding:
    """All that hangs prints: the widest bridge and the widest ledge."""
    widest = {form: max((o.value for o in good if o.form == form), default=None) for form in ("bridge", "ledge")}
    bridge, ledge = widest["bridge"], widest["ledge"]
    told = [f"the widest bridge spans {bridge:.1f} mm"] if bridge is not None else []
    told += [f"the widest ledge stands out {ledge:.2f} mm"] if ledge is not None else []
    message = "what hangs prints without support: " + (" and ".join(told) or "it is small")
    value, limit = (bridge, BRIDGE_MM[0]) if bridge is not None else (ledge, LEDGE_MM[0])
    return _finding("overhang", "pass", body, value, limit, "mm", "whole body", message)


def _overhang(body: Body, group: list[Overhang], printer: Printer) -> Finding:
    """A warning, never a failure: whatever hangs on something can be printed with support."""
    steeper = -1.0 if group[0].form == "slope" else 1.0
    worst = max(group, key=lambda o: (RANK[o.grade], steeper * o.value))
    place = f"at {words(worst.at)}, {worst.height_mm:.1f} mm above the bed"
    more = f"; {len(group) - 1} more like it" if len(group) > 1 else ""
    unit, limit, said, smaller = _said(worst, printer)
    if worst.grade == "support":
        message, advice = f"{said}: it needs support{more}", f"Switch support on for this place, or {smaller}."
    else:
        message, advice = f"{said}: it prints, a little rough{more}", f"For a clean underside {smaller}."
    value = worst.value if math.isfinite(worst.value) else None
    return _finding("overhang", "warn", body, value, limit, unit, place, message, advice)


def _said(overhang: Overhang, printer: Printer) -> tuple[str, float, str, str]:
    """Unit, limit of what prints clean, what was found, how to have less of it."""
    if overhang.form == "bridge":
        said = f"a roof bridges {overhang.value:.1f} mm between two supports"
        return "mm", BRIDGE_MM[0], said, "choose a smaller opening there"
    if overhang.form == "ledge" and not math.isfinite(overhang.value):
        said = "an underside hangs free, none of its edges held from below"
        return "mm", LEDGE_MM[0], said, "let it grow from below"
    if overhang.form == "ledge":
        said = f"an underside stands out {overhang.value:.2f} mm, held on one side only"
        return "mm", LEDGE_MM[0], said, "make the step there smaller"
    step = step_mm(math.radians(overhang.value), printer.layer_mm)
    said = (
        f"an underside rises only {overhang.value:.1f} deg from the horizontal: each {printer.layer_mm:g} mm layer "
        f"stands out {step:.2f} mm beyond the one below, of a line {printer.line_mm:g} mm wide"
    )
    return "deg", 45.0, said, "make it steeper there: a longer part, a smaller angle"


def _islands(body: Body, choice: PoseChoice) -> list[Finding]:
    if not choice.islands:
        return [_finding("island", "pass", body, 0.0, 0.0, "places", "whole body", "no layer starts in the air")]
    first = choice.islands[0]
    place = f"at {words(first.at)}, {first.height_mm:.1f} mm above the bed"
    more = f"; {len(choice.islands) - 1} more places like it" if len(choice.islands) > 1 else ""
    message = f"the print would start in the air {first.height_mm:.1f} mm above the bed{more}"
    advice = (
        "Change what hangs down there so that it grows from below (a smaller angle, another joint), or build with "
        "--export-anyway and print it with support."
    )
    return [_finding("island", "fail", body, float(len(choice.islands)), 0.0, "places", place, message, advice)]


def _first_layer(body: Body, choice: PoseChoice) -> Finding:
    area = choice.base.area_mm2
    if area >= FIRST_LAYER_MM2:
        message = f"{area:.0f} mm2 stand on the bed"
        return _finding("first_layer", "pass", body, area, FIRST_LAYER_MM2, "mm2", choice.pose.name, message)
    message = f"only {area:.0f} mm2 stand on the bed with {choice.pose.name}: it may come off"
    return _finding("first_layer", "warn", body, area, FIRST_LAYER_MM2, "mm2", choice.pose.name, message, _BRIM)


_BRIM = "Print it with a brim of 8 mm or more."


def _tall(body: Body, choice: PoseChoice) -> Finding:
    stance, height = choice.base, choice.height_mm
    ratio = height / stance.width_mm if stance.width_mm > 0 else None
    if stance.inside_mm < 0:
        message = f"its centre of mass is {-stance.inside_mm:.1f} mm outside what it stands on: it levers itself off"
        return _finding("tall", "warn", body, ratio, TALL, "times", choice.pose.name, message, _BRIM)
    if ratio is None or ratio > TALL:
        message = f"{height:.0f} mm tall on a base {stance.width_mm:.0f} mm wide: it wobbles and may be knocked off"
        return _finding("tall", "warn", body, ratio, TALL, "times", choice.pose.name, message, _BRIM)
    message = f"{height:.0f} mm tall on a base {stance.width_mm:.0f} mm wide"
    return _finding("tall", "pass", body, ratio, TALL, "times", choice.pose.name, message)


def _cost(body: Body, mesh: BodyMesh, choice: PoseChoice, spec: PartBase) -> Finding:
    volume = mesh.brep_volume_mm3
    mass_g = volume / 1000.0 * spec.material.density_g_cm3
    length_m = volume / (math.pi * FILAMENT_MM**2 / 4.0) / 1000.0
    time_h = hours(volume, choice.height_mm, spec.printer.line_mm, spec.printer.layer_mm)
    message = (
        f"{mass_g:.0f} g of {spec.material.name} ({length_m:.1f} m of {FILAMENT_MM:g} mm filament), printed solid; "
        f"roughly {duration(time_h)}"
    )
    return _finding("cost", "pass", body, mass_g, None, "g", "whole body", message)
