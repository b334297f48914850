"""Check `flat`: is the DXF of what is cut from sheet sound, true to the finished piece, and can it be cut and bolted?

The drawing is read back from its own bytes by ezdxf; nothing is taken from the numbers that it was drawn from but the
closed form of its area.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from fitwright.checks.flat_lines import (
    CHORD_MM,
    EdgeDistance,
    at,
    edge_distances,
    faults,
    inner_corners,
    neck,
    webs,
)
from fitwright.checks.flat_mesh import Built, built, strayed
from fitwright.drawing import dxf
from fitwright.drawing.dxf_read import Loop, ReadDxf, read_dxf
from fitwright.errors import BuildError
from fitwright.finding import Finding, Severity
from fitwright.flat import Flat, Stock
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Frame, Part
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

CODE = "flat"
LEAST_WEB_MM = {"sheet": 1.0, "gasket": 2.0}
"""Narrower webs burn away or warp under a laser, tear under a knife; in sheet no narrower than it is thick either.
Common practice, no source."""
TOO_NARROW = 0.5
"""Below this share of the least web the piece is not cut at all."""
EDGE_D, EDGE_BRITTLE_D = 1.5, 2.0
"""From a bolt hole's centre to the edge, in hole diameters (common practice, no source)."""
CORNER_MM = 1.0
"""Least radius of a corner that points into brittle sheet: a crack begins there (common practice, no source)."""
SLACK_MM = 2 * CHORD_MM
"""A web exactly as wide as the limit passes, though it is measured between chords."""
AREA_REL = 1e-6
"""The drawing is written to a nanometre."""
THICK_MM = 0.01
"""Thickness as built: flat faces are exact on the mesh."""
REBUILD = "This is a fault of the build, not of your numbers; report it."


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase | None = None) -> list[Finding]:
    """All `flat.*` findings of every body that is cut from sheet; none for what is printed."""
    return [found for body in part.bodies if body.stock is not None for found in _body(body, body.stock, meshes)]


def _body(body: Body, stock: Stock, meshes: Mapping[str, BodyMesh]) -> list[Finding]:
    mesh = meshes.get(body.name)
    if body.flat is None or body.flat_frame is None or mesh is None or len(mesh.mesh.faces) == 0:
        missing = "no mesh" if body.flat and body.flat_frame else "no flat drawing"
        return [_fault(body, "dxf", f"not checked: there is {missing} of what is cut from {stock.words}")]
    read = read_dxf(dxf.piece_dxf(body.flat, stock, body.name))
    wrong = [*_units(read), *read.strange] or list(faults(read.loops))
    if wrong:
        return [_fault(body, "dxf", f"the DXF is not sound: {'; '.join(wrong)}")]
    count = len(read.loops)
    said = f"{count} closed line{'s' if count > 1 else ''} in mm, none crosses or touches another"
    found = [Finding("flat.dxf", "pass", body.name, float(count), None, "", "DXF", said)]
    try:
        found += [*_as_built(body, body.flat, stock, mesh, body.flat_frame, read.loops)]
    except BuildError as error:
        found.append(_fault(body, "shape", f"{error}"))
    return [*found, *_can_be_made(body, stock, read.loops)]


def _fault(body: Body, code: str, message: str, value: float | None = None, limit: float | None = None) -> Finding:
    unit = "" if value is None else "mm2" if code == "area" else "mm"
    return Finding(f"flat.{code}", "fail", body.name, value, limit, unit, body.name, message, REBUILD)


def _units(read: ReadDxf) -> Iterator[str]:
    if read.insunits != dxf.MILLIMETRES:
        yield f"its unit is number {read.insunits}, not {dxf.MILLIMETRES} (mm)"
    if read.measurement != dxf.METRIC:
        yield "it says that it is not metric"


def _as_built(
    body: Body, flat: Flat, stock: Stock, mesh: BodyMesh, frame: Frame, loops: Sequence[Loop]
) -> Iterator[Finding]:
    """The drawing beside the finished piece: thickness, area, each line and hole."""
    piece = built(body, mesh, frame)
    yield _thickness(body, flat, stock, piece)
    yield _area(body, flat, mesh, piece, loops)
    lines = strayed(mesh, frame, piece.thickness_mm, loops)
    limit = TOLERANCES.fit_mm
    for line in lines:
        worst = max(line.middle_mm, line.line_mm)
        if worst > limit:
            words = f"{line.name} of the DXF is {worst:.2f} mm off the finished piece, {at(line.at)}"
            yield _fault(body, "shape", words, worst, limit)
    holes = [line for line in lines if line.name.startswith("bolt hole")]
    worst = max(max(line.middle_mm, line.line_mm) for line in lines)
    if worst <= limit:
        off = f"{max((h.middle_mm for h in holes), default=0.0):.3f} mm"
        of_holes = (
            f", the middles of its {len(holes)} bolt hole{'s' if len(holes) > 1 else ''} within {off}" if holes else ""
        )
        message = f"all lines of the DXF within {worst:.3f} mm of the finished piece's{of_holes}"
        yield Finding("flat.shape", "pass", body.name, worst, limit, "mm", "DXF", message)


def _thickness(body: Body, flat: Flat, stock: Stock, piece: Built) -> Finding:
    off = max(abs(piece.thickness_mm - flat.thickness_mm), abs(flat.thickness_mm - stock.thickness_mm))
    if off > THICK_MM or abs(piece.front_mm) > THICK_MM:
        words = f"the piece is {piece.thickness_mm:.2f} mm thick from {piece.front_mm:.2f} mm behind its front on, "
        words += f"its drawing {flat.thickness_mm:.2f} mm, the {stock.words} {stock.thickness_mm:.2f} mm"
        return _fault(body, "thickness", words, piece.thickness_mm, stock.thickness_mm)
    message = f"{piece.thickness_mm:.2f} mm thick, as the {stock.words} is"
    return Finding(
        "flat.thickness", "pass", body.name, piece.thickness_mm, stock.thickness_mm, "mm", body.name, message
    )


def _area(body: Body, flat: Flat, mesh: BodyMesh, piece: Built, loops: Sequence[Loop]) -> Finding:
    """Drawing, closed form, exact faces, volumes over thickness: each as near as its way of measuring allows.

    A mesh runs within its chord of every line, so its area is off by the length of the lines times that at most.
    """
    drawn = drawn_area_mm2(loops)
    exact = TOLERANCES.sewn_volume_rel * drawn
    ways = [
        ("the formula's", flat.area_mm2, AREA_REL * drawn),
        ("the front face's", piece.by_faces_mm2[0], exact),
        ("the back face's", piece.by_faces_mm2[1], exact),
        ("volume / thickness", piece.by_volume_mm2, exact),
        ("the mesh's volume / thickness", piece.by_mesh_mm2, exact + flat.cut_length_mm * mesh.chord_mm),
    ]
    wrong = [(name, area) for name, area, allowed in ways if not abs(area - drawn) <= allowed]
    if wrong:
        said = ", ".join(f"{name} {area:.1f} mm2" for name, area in wrong)
        return _fault(body, "area", f"the DXF encloses {drawn:.1f} mm2, but {said}", wrong[0][1], drawn)
    message = f"{drawn:.1f} mm2 in the DXF, by formula, on the faces and from the volume"
    return Finding("flat.area", "pass", body.name, drawn, flat.area_mm2, "mm2", body.name, message)


def drawn_area_mm2(loops: Sequence[Loop]) -> float:
    """Area between the outline and all that is cut within it, arcs exactly."""
    return sum((1.0 if loop.layer == dxf.OUTLINE else -1.0) * loop.line.area_mm2 for loop in loops)


def _can_be_made(body: Body, stock: Stock, loops: Sequence[Loop]) -> Iterator[Finding]:
    """Webs, edges, corners: what the shop and the bolts ask of it."""
    yield _webs(body, stock, loops)
    if stock.kind == "sheet":
        yield from _edges(body, stock, edge_distances(loops))
    if stock.brittle:
        yield from _corners(body, loops)


def least_web_mm(stock: Stock) -> float:
    """The narrowest web that is safely cut [mm]."""
    least = LEAST_WEB_MM[stock.kind]
    return max(least, stock.thickness_mm) if stock.kind == "sheet" else least


def _webs(body: Body, stock: Stock, loops: Sequence[Loop]) -> Finding:
    limit = least_web_mm(stock)
    narrow = next(iter(webs(loops)), None)
    if narrow is not None and narrow.width_mm < limit - SLACK_MM:
        hard = narrow.width_mm < TOO_NARROW * limit - SLACK_MM
        message = f"only {narrow.width_mm:.2f} mm are left {narrow.words}, {at(narrow.at)}"
        advice = f"Move them apart, or make one smaller: {stock.words} wants {limit:g} mm between cuts."
        return Finding(
            "flat.web", "fail" if hard else "warn", body.name, narrow.width_mm, limit, "mm", body.name, message, advice
        )
    for share in (TOO_NARROW, 1.0):
        found = neck(loops, share * limit)
        if found:
            message = f"the piece itself is narrower than {share * limit:g} mm at {at(found)}"
            severity: Severity = "fail" if share < 1.0 else "warn"
            advice = f"Widen it there: {stock.words} wants {limit:g} mm."
            return Finding("flat.web", severity, body.name, None, limit, "mm", body.name, message, advice)
    words = "one cut only" if narrow is None else f"least web {narrow.width_mm:.2f} mm, {narrow.words}"
    width = None if narrow is None else narrow.width_mm
    return Finding("flat.web", "pass", body.name, width, limit, "mm", body.name, words)


def _edges(body: Body, stock: Stock, found: Sequence[EdgeDistance]) -> Iterator[Finding]:
    """The worst hole against the outline, which blocks, and against an opening, which warns."""
    times = EDGE_BRITTLE_D if stock.brittle else EDGE_D
    bad: list[Finding] = []
    judged: tuple[tuple[bool, Severity], ...] = ((True, "fail"), (False, "warn"))
    for of_outline, severity in judged:
        those = [
            one for one in found if (one.edge == dxf.OUTLINE) == of_outline and one.from_centre_mm < _least(one, times)
        ]
        if those:
            worst = min(those, key=lambda one: one.from_centre_mm / one.d_mm)
            bad.append(_edge(body, worst, times, severity, len(those)))
    yield from bad
    if found and not bad:
        near = min(found, key=lambda one: one.from_centre_mm / one.d_mm)
        words = f"{near.hole}'s centre {near.from_centre_mm:.2f} mm from {near.edge}, "
        words += f"{near.from_centre_mm / near.d_mm:.1f} of its diameters"
        limit = times * near.d_mm
        yield Finding("flat.edge", "pass", body.name, near.from_centre_mm, limit, "mm", body.name, words)


def _least(one: EdgeDistance, times: float) -> float:
    """A hole exactly at the limit passes, rounding and all."""
    return times * one.d_mm - 1e-4


def _edge(body: Body, worst: EdgeDistance, times: float, severity: Severity, count: int) -> Finding:
    more = f" ({count} such places)" if count > 1 else ""
    message = f"{worst.hole}'s centre is {worst.from_centre_mm:.2f} mm from {worst.edge}, {at(worst.at)}{more}"
    advice = (
        f"Its edge tears out below {times:g} hole diameters: move it in, make the piece larger or the hole smaller."
    )
    limit = times * worst.d_mm
    return Finding("flat.edge", severity, body.name, worst.from_centre_mm, limit, "mm", body.name, message, advice)


def _corners(body: Body, loops: Sequence[Loop]) -> Iterator[Finding]:
    sharp = [(r, loop.name, point) for loop in loops for point, r in inner_corners(loop) if r < CORNER_MM - 1e-6]
    if sharp:
        r, name, point = min(sharp)
        message = (
            f"{len(sharp)} inner corner{'s' if len(sharp) > 1 else ''} of radius {r:.2f} mm, one of {name}, {at(point)}"
        )
        advice = f"A crack begins in such a corner of brittle sheet: round it by {CORNER_MM:g} mm or more."
        yield Finding("flat.corner", "warn", body.name, r, CORNER_MM, "mm", body.name, message, advice)
