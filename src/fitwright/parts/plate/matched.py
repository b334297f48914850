"""What a plate takes over from its flange: outline, opening and holes as that flange will measure."""

from __future__ import annotations

from fitwright.errors import RefusalError
from fitwright.outline import Outline, circle, rectangle
from fitwright.outline_forms import of_section
from fitwright.parts.compensation import as_printed
from fitwright.parts.ends import EndPlan, sizes_of_flange
from fitwright.parts.pair import plans
from fitwright.shapes.flange import FlangeSizes
from fitwright.spec.faults import FaultError, dotted
from fitwright.spec.models import AdapterSpec, Flange, FlangePlateSpec, Place, Rectangle, Round
from fitwright.spec.plate import Opening, PlatePattern
from fitwright.spec.plate_of import settled

KEY = "matches"


def filled(spec: FlangePlateSpec) -> FlangePlateSpec:
    """The spec with all that the flange gives; the plate's own openings and holes are added to them.

    RefusalError where the flange's part cannot be, or its holes stand too near to something for this plate.
    """
    if spec.made_for is None:
        return spec
    assert isinstance(spec.made_for, AdapterSpec)
    part = spec.made_for
    plan = next(one for one in plans(part, part.wall_mm, part.wall_mm) if one.key == spec.made_for_end)
    joint = plan.end.joint
    assert isinstance(joint, Flange)
    sizes = sizes_of_flange(joint, plan)
    taken = Opening(outline=_opening(plan, sizes), at=Place(0.0, 0.0), words="the flange's opening", key=KEY)
    patterns = spec.patterns
    if joint.holes is not None:
        patterns = (PlatePattern(holes=joint.holes, slot_mm=0.0, key=KEY, read_with="flange"), *patterns)
    outline = spec.outline or _outline(joint, sizes, plan)
    return _judged(
        spec.model_copy(update={"outline": outline, "openings": (taken, *spec.openings), "patterns": patterns})
    )


def _judged(spec: FlangePlateSpec) -> FlangePlateSpec:
    try:
        return settled(spec)
    except FaultError as error:
        fault = error.faults[0]
        found = f"{fault.found} (of {spec.matches})" if fault.path[:1] == (KEY,) else fault.found
        raise RefusalError(
            dotted(fault.path), found, fault.allowed, "the flange's pattern asks too much of it"
        ) from None


def _outline(joint: Flange, sizes: FlangeSizes, plan: EndPlan) -> Outline:
    """As the flange will measure: as asked, or as its pattern needs."""
    printer = plan.printer
    asked = joint.outline
    if isinstance(asked, Round):
        return circle(asked.d_mm)
    if isinstance(asked, Rectangle):
        return rectangle(asked.width_mm, asked.height_mm, asked.corner_mm)
    if isinstance(asked, Outline):
        return asked
    if sizes.round_d:
        return circle(as_printed(sizes.round_d, "outside", printer))
    scale = printer.scale_xy
    return rectangle(scale * sizes.width, scale * sizes.height, scale * sizes.corner)


def _opening(plan: EndPlan, sizes: FlangeSizes) -> Outline:
    """As it will measure once printed."""
    scale, printed_d = plan.printer.scale_xy, as_printed(sizes.opening_d, "hole", plan.printer)
    form = plan.form
    if form.base is None:
        return circle(printed_d)
    return of_section(form.at(printed_d / 2 / scale).scaled(scale))


def flange_thick_mm(spec: FlangePlateSpec) -> float:
    """Thickness of the flange that it is made for [mm]; 0 where there is none."""
    joint = spec.made_for.ends[spec.made_for_end].joint if spec.made_for is not None else None
    return joint.thickness_mm if isinstance(joint, Flange) else 0.0
