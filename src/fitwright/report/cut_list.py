"""What is cut from sheet: its sizes for the report, and the cut list that goes to the bench or the shop."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.flat import FlatHole
from fitwright.mechanism import Paper
from fitwright.part import Body, Part
from fitwright.report.model import CutReport
from fitwright.units import Units, format_mass, format_number

KEY = "cut_list"
_HEAD = "Send the DXF: it is drawn in mm, 1:1, and says so; ask the shop to leave out the layer `notes not cut`."
_MIND = {
    "sheet": "Cut edges of sheet are sharp: wear gloves, take the burr off with a file before it is fitted.",
    "gasket": "Cut the gasket on a board, the knife away from the hand that holds it; a dull knife slips.",
}


def cut_report(body: Body) -> CutReport | None:
    """The facts of a body that is cut from stock, all by closed forms; None of one that is printed."""
    flat, stock = body.flat, body.stock
    if flat is None or stock is None:
        return None
    kinds: dict[tuple[float, float, str], list[FlatHole]] = {}
    for hole in flat.holes:
        kinds.setdefault((round(hole.d_mm, 3), round(hole.long_mm, 3), hole.bolt), []).append(hole)
    return CutReport(
        kind=stock.kind,
        words=stock.words,
        thickness_mm=stock.thickness_mm,
        size_mm=flat.size_mm,
        cut_length_mm=flat.cut_length_mm,
        area_mm2=flat.area_mm2,
        openings=len(flat.openings),
        holes=tuple((len(those), those[0]) for those in kinds.values()),
    )


def cut_list(part: Part, units: Units) -> tuple[Paper, ...]:
    """NAME_cut_list.txt for a part with flat pieces; none where the part has none, or brings a cut list of its own."""
    if part.printed == part.bodies or any(paper.key == KEY for paper in part.papers):
        return ()
    found = [(body, cut) for body in part.bodies if (cut := cut_report(body)) is not None]
    cuts = [
        f"[ ] {name_of(part, body)}.dxf: {'; '.join(piece_words(one, weight_g(body), units))}." for body, one in found
    ]
    measure = [f"[ ] {name_of(part, body)}: {_measure(one)}" for body, one in found]
    mind = tuple(_MIND[kind] for kind in dict.fromkeys(one.kind for _, one in found))
    sections = (("Cut", (*cuts, _HEAD)), ("Measure what comes back", tuple(measure)), ("Take care", mind))
    return (Paper(KEY, f"Cut list: {part.name}", sections),)


def name_of(part: Part, body: Body) -> str:
    """The name of a body's files without their ending."""
    return part.name if len(part.bodies) == 1 else f"{part.name}_{body.name}"


def weight_g(body: Body) -> float:
    """Area x thickness x density [g]."""
    if body.flat is None or body.stock is None:
        return 0.0
    return body.flat.area_mm2 * body.stock.thickness_mm * body.stock.density_g_cm3 / 1000.0


def piece_words(cut: CutReport, mass_g: float, units: Units) -> Iterator[str]:
    """Material, sheet, cut length, holes, weight; lengths in mm, for `in_units`."""
    wide, high = cut.size_mm
    yield f"{cut.words} {cut.thickness_mm:g} mm thick, from a sheet of {wide:.1f} x {high:.1f} mm or larger"
    yield f"cut length {cut.cut_length_mm:.0f} mm, {_cuts(cut)}"
    yield _mass(mass_g, units)


def _cuts(cut: CutReport) -> str:
    openings = [f"{cut.openings} opening{'' if cut.openings == 1 else 's'}"] if cut.openings else []
    return ", ".join([*openings, *(hole_words(count, hole) for count, hole in cut.holes)]) or "no holes"


def hole_words(count: int, hole: FlatHole) -> str:
    """`4 holes of 5.5 mm for M5`, `2 slots of 5.5 x 17.5 mm`."""
    size = f"{format_number(hole.d_mm, 2)}"
    size += f" x {format_number(hole.d_mm + hole.long_mm, 2)} mm" if hole.long_mm else " mm"
    noun = ("slot" if hole.long_mm else "hole") + ("" if count == 1 else "s")
    return f"{count} {noun} of {size}{f' for {hole.bolt}' if hole.bolt else ''}"


def _mass(mass_g: float, units: Units) -> str:
    """Light gaskets in tenths of a gram; else as all weights."""
    if units == "mm" and mass_g < 10.0:
        return f"{format_number(mass_g, 1)} g"
    return format_mass(mass_g, units)


def _measure(cut: CutReport) -> str:
    wide, high = cut.size_mm
    return (
        f"{wide:.1f} x {high:.1f} mm over all, {cut.thickness_mm:g} mm thick; {_cuts(cut)}. Then lay it on its flange."
    )
