"""A sheet -> SVG at true size (its width and height are said in mm)."""

from __future__ import annotations

import math
from xml.etree import ElementTree as Xml

from fitwright.drawing.sheet import Arc, Mark, Path, Point, Sheet, View, Words


def svg_text(sheet: Sheet) -> str:
    """The sheet as an SVG document; 1 user unit is 1 mm, y is turned to go down."""
    wide, high = sheet.paper.width_mm, sheet.paper.height_mm
    root = Xml.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": f"{wide:g}mm",
            "height": f"{high:g}mm",
            "viewBox": f"0 0 {wide:g} {high:g}",
            "stroke-linecap": "round",
            "stroke-linejoin": "round",
            "font-family": "Helvetica, Arial, sans-serif",
        },
    )
    Xml.SubElement(root, "title").text = sheet.title
    Xml.SubElement(root, "rect", {"width": f"{wide:g}", "height": f"{high:g}", "fill": "#ffffff"})
    for mark in sheet.marks:
        _draw(root, mark, high)
    Xml.indent(root, " ")
    return Xml.tostring(root, encoding="unicode") + "\n"


def _draw(root: Xml.Element, mark: Mark, high: float) -> None:
    if isinstance(mark, Words):
        _words(root, mark, high)
        return
    if isinstance(mark, View):
        _view(root, mark, high)
        return
    style = {
        "fill": "none" if mark.fill is None else _grey(mark.fill),
        "stroke": _grey(mark.grey) if mark.width_mm > 0.0 else "none",
        "stroke-width": f"{mark.width_mm:g}",
    }
    if mark.dash_mm:
        style["stroke-dasharray"] = f"{mark.dash_mm[0]:g} {mark.dash_mm[1]:g}"
    if isinstance(mark, Arc) and mark.sweep_deg >= 360.0:
        place = {"cx": _n(mark.centre[0]), "cy": _n(high - mark.centre[1]), "r": _n(mark.radius_mm)}
        Xml.SubElement(root, "circle", {**place, **style})
        return
    way = _arc(mark, high) if isinstance(mark, Arc) else _path(mark, high)
    Xml.SubElement(root, "path", {"d": way, **style, "fill-rule": "evenodd"})


def _view(root: Xml.Element, mark: View, high: float) -> None:
    left, lower, right, upper = mark.window
    name = f"window{1 + sum(1 for _ in root.iter('clipPath'))}"
    place = {"x": _n(left), "y": _n(high - upper), "width": _n(right - left), "height": _n(upper - lower)}
    Xml.SubElement(Xml.SubElement(root, "clipPath", {"id": name}), "rect", place)
    group = Xml.SubElement(root, "g", {"clip-path": f"url(#{name})"})
    moved = Xml.SubElement(group, "g", {"transform": f"translate({_n(mark.shift[0])} {_n(-mark.shift[1])})"})
    for inner in mark.marks:
        _draw(moved, inner, high)


def _path(mark: Path, high: float) -> str:
    outlines = [(mark.points, mark.closed), *((hole, True) for hole in mark.holes)]
    return " ".join(
        "M" + " L".join(_at(point, high) for point in outline) + (" Z" if closed else "")
        for outline, closed in outlines
    )


def _arc(mark: Arc, high: float) -> str:
    ends = [math.radians(mark.start_deg + turn) for turn in (0.0, mark.sweep_deg)]
    (x, y), r = mark.centre, mark.radius_mm
    start, end = ((x + r * math.cos(t), y + r * math.sin(t)) for t in ends)
    large, way = int(abs(mark.sweep_deg) > 180.0), int(mark.sweep_deg < 0.0)
    return f"M{_at(start, high)} A{_n(r)} {_n(r)} 0 {large} {way} {_at(end, high)}"


def _words(root: Xml.Element, mark: Words, high: float) -> None:
    x, y = mark.at[0], high - mark.at[1]
    style = {
        "x": _n(x),
        "y": _n(y),
        "font-size": _n(mark.size_mm),
        "text-anchor": mark.anchor,
        "fill": _grey(mark.grey),
    }
    if mark.bold:
        style["font-weight"] = "bold"
    if mark.turn_deg:
        style["transform"] = f"rotate({_n(-mark.turn_deg)} {_n(x)} {_n(y)})"
    Xml.SubElement(root, "text", style).text = mark.text


def _at(point: Point, high: float) -> str:
    return f"{_n(point[0])} {_n(high - point[1])}"


def _n(number: float) -> str:
    return f"{round(number, 4) + 0.0:g}" if abs(number) < 1e5 else f"{number:.1f}"


def _grey(share: float) -> str:
    level = round(255 * share)
    return f"#{level:02x}{level:02x}{level:02x}"
