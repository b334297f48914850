"""1:1 templates on paper of a part's mouths and of bolt patterns: all sheets in one PDF, or one SVG a side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.drawing.face import Face
from fitwright.drawing.flat_face import flat_face
from fitwright.drawing.paper import PaperName
from fitwright.drawing.pdf import pdf_bytes
from fitwright.drawing.svg import svg_text
from fitwright.drawing.template import sides, template_sheets, whole_sheet
from fitwright.part import Part
from fitwright.units import Units


def usual_paper(units: Units) -> PaperName:
    """Letter where people work in inches, else A4 (common practice, no source)."""
    return "Letter" if units == "in" else "A4"


def faces_of(part: Part) -> tuple[Face, ...]:
    """The part's own faces, then those of what is cut from sheet where the part does not draw them itself."""
    drawn = {face.key for face in part.templates}
    flat = [
        flat_face(body.name, body.name.replace("_", " "), body.flat, body.stock)
        for body in part.bodies
        if body.flat is not None and body.stock is not None and body.name not in drawn
    ]
    return (*part.templates, *flat)


def wanted_with_a_build(faces: Sequence[Face]) -> bool:
    """Whether there is a flange, a pattern or an outline among them, and not only round rings."""
    return any(face.needed for face in faces)


def template_pdf(title: str, faces: Sequence[Face], units: Units, paper: PaperName | None = None) -> bytes:
    """Every side of every face, on `paper` or the one usual for the units; the same faces give the same bytes."""
    return pdf_bytes(template_sheets(title, faces, paper or usual_paper(units), units))


def template_svgs(title: str, faces: Sequence[Face], units: Units) -> Iterator[tuple[str, bytes]]:
    """(file name, SVG) of every side, each on one sheet of its own size, for a cutter or a large printer."""
    for side in sides(faces):
        yield f"{title}_{side.key}.svg", svg_text(whole_sheet(title, side, units)).encode("utf-8")
