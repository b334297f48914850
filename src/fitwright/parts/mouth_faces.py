"""The mouths of a part as they are drawn 1:1 on paper: at the size that a caliper will find, not the modelled one.

What the printer profile changes is undone here (see `compensation`): hole centres, hole diameters, an outline of our
own choice. An outline or opening of the user's own is drawn as the YAML asks for it.
"""

from __future__ import annotations

from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.drawing.sheet import Point
from fitwright.outline import Outline, rectangle
from fitwright.parts.ends import PlacedEnd, sizes_of_flange
from fitwright.section import Section
from fitwright.shapes.flange import FlangeSizes
from fitwright.spec.models import AdapterSpec, Flange, Plain, Printer, Rectangle, Round, Size, Socket
from fitwright.spec.printed import as_printed
from fitwright.units import format_length

CHORD_MM = 0.01
"""A polygon drawn for a curve stays this near to it: a tenth of what a printer on paper can show."""
FRONT = "as you look into the part's mouth"
BACK = "as you look at the machine, plate or port that it meets"
AGAIN = "Where it is loose or will not go, measure again before you print."
HOLD_FLANGE = "Hold it against the bolts: every hole must show its bolt's middle under its cross."


def mouth_faces(a: PlacedEnd, b: PlacedEnd, spec: AdapterSpec) -> tuple[Face, ...]:
    """One face an end, in its own frame: right and up as seen by who looks into that mouth."""
    return tuple(_flange_face(end, spec) if _is_flange(end) else _mouth_face(end, spec) for end in (a, b))


def _is_flange(end: PlacedEnd) -> bool:
    return isinstance(end.plan.end.joint, Flange)


def _flange_face(end: PlacedEnd, spec: AdapterSpec) -> Face:
    plan, joint = end.plan, end.plan.end.joint
    assert isinstance(joint, Flange)
    sizes = sizes_of_flange(joint, plan)
    holes: tuple[FaceHole, ...] = ()
    if joint.holes:
        scale, d, bolt = plan.printer.scale_xy, joint.holes.hole_d_mm, joint.holes.size
        holes = tuple(FaceHole((scale * x, scale * y), d, bolt) for x, y in sizes.bolts.points)
    lines = [_edge(sizes, joint, plan.printer), _opening(end, sizes, plan.printer)]
    if joint.covers:
        lines.append(FaceLine("what it covers", points=_points(joint.covers), style="hidden"))
    return Face(plan.key, f"{plan.name}, flange", tuple(lines), holes, _flange_words(joint, spec), FRONT, BACK)


def _flange_words(joint: Flange, spec: AdapterSpec) -> tuple[str, ...]:
    says = []
    if joint.holes:
        if joint.holes.circle_mm:
            says.append(f"Bolt circle {format_length(joint.holes.circle_mm, spec.units, fraction=False)}.")
        says.append(HOLD_FLANGE)
    if joint.covers:
        says.append("Dashed: the hole that it covers. Lay it on the hole: the rim must reach beyond it all round.")
    return tuple(says)


def _edge(sizes: FlangeSizes, joint: Flange, printer: Printer) -> FaceLine:
    asked = joint.outline
    if isinstance(asked, Round):
        return FaceLine("edge", asked.d_mm)
    if isinstance(asked, Rectangle):
        return FaceLine("edge", points=_points(rectangle(asked.width_mm, asked.height_mm, asked.corner_mm)))
    if isinstance(asked, Outline):
        return FaceLine("edge", points=_points(asked))
    if sizes.round_d:
        return FaceLine("edge", as_printed(sizes.round_d, "outside", printer))
    wide, high, corner = (printer.scale_xy * length for length in (sizes.width, sizes.height, sizes.corner))
    return FaceLine("edge", points=_points(rectangle(wide, high, corner)))


def _opening(end: PlacedEnd, sizes: FlangeSizes, printer: Printer) -> FaceLine:
    """As it will be printed: as asked, for what the printer does to it was undone when it was modelled."""
    form, scale = end.shape.form, printer.scale_xy
    printed_d = as_printed(sizes.opening_d, "hole", printer)
    if form.base is None:
        return FaceLine("opening", printed_d)
    return FaceLine("opening", points=_polygon(form.at(printed_d / 2 / scale).scaled(scale)))


def _mouth_face(end: PlacedEnd, spec: AdapterSpec) -> Face:
    """What the mouth meets, as measured, to be cut out and tried; dashed the room that the print takes round it."""
    plan, joint = end.plan, end.plan.end.joint
    assert not isinstance(joint, Flange)
    over = isinstance(joint, Socket)
    size: Size = joint.inside if isinstance(joint, Plain) else joint.size
    line, says = _tried(size, over, spec)
    lines = [line]
    if size.further_mm is not None:
        further, apart = (format_length(mm, spec.units, fraction=False) for mm in (size.further_mm, size.apart_mm or 0))
        lines.append(FaceLine("further along", size.further_mm))
        says += (f"Second line: {further}, which it should be {apart} further along.",)
    outer = end.shape.form.at(max(r for _, r in end.shape.outer)).scaled(plan.printer.scale_xy)
    lines.append(FaceLine("outside of the print", *_curve(outer), style="hidden"))
    says += ("Dashed: the outside of the print at its widest, which needs this room.",)
    kind = plan.end.kind.replace("_", " ")
    needed = size.outline is not None
    return Face(plan.key, f"{plan.name}, {kind}", tuple(lines), (), says, FRONT, BACK, needed)


def _tried(size: Size, over: bool, spec: AdapterSpec) -> tuple[FaceLine, tuple[str, ...]]:
    middle = (size.least_mm + size.greatest_mm) / 2
    words = format_length(middle, spec.units, fraction=False)
    if size.outline is not None:
        sides = (size.outline.width_mm, size.outline.height_mm)
        words = " x ".join(format_length(mm, spec.units, fraction=False) for mm in sides)
    face, how = "inside", "along it: the disc drops in flat"
    if over:
        face, how = "outside", "out what is inside it: the ring slips on"
    says = f"Full line: the {face} that was measured, {words}. Cut {how}.", AGAIN
    curve = (middle, ()) if size.outline is None else _curve(size.outline)
    return FaceLine("as measured", *curve, style="cut"), says


def _curve(section: Section) -> tuple[float, tuple[Point, ...]]:
    return (2 * section.inside_r_mm, ()) if section.is_round else (0.0, _polygon(section))


def _polygon(section: Section) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in section.polygon(CHORD_MM))


def _points(outline: Outline) -> tuple[Point, ...]:
    return tuple(outline.polyline(CHORD_MM))
