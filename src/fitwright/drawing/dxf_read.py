"""A DXF drawing read back as closed lines: what a cutter will follow, and whatever else stands on its layers."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ezdxf import recover
from ezdxf.lldxf.const import DXFError

from fitwright.drawing.dxf import CUT_LAYERS, NOTES
from fitwright.outline import Outline, Point, Side, circle

if TYPE_CHECKING:
    from ezdxf.document import Drawing


@dataclass(frozen=True)
class Loop:
    """One closed line on a cutting layer; `name` as `bolt hole 3`, counted in the drawing's order."""

    layer: str
    name: str
    line: Outline
    d_mm: float = 0.0
    """Its diameter where it is a CIRCLE, else 0."""

    @property
    def centres(self) -> tuple[Point, ...]:
        """Centre of a circle; of a slot the centres of its two ends [mm]."""
        found: list[Point] = []
        for side in self.line.sides:
            if side.via is not None and all(math.dist(side.centre, one) > 1e-4 for one in found):
                found.append(side.centre)
        return tuple(found)

    @property
    def across_mm(self) -> float:
        """Diameter of a circle, width of a slot [mm]."""
        return 2 * min((side.radius_mm for side in self.line.sides if side.via is not None), default=0.0)


@dataclass(frozen=True)
class ReadDxf:
    """Units as the header gives them, the closed lines, and in words all that must not be on a cutting layer."""

    insunits: int
    measurement: int
    loops: tuple[Loop, ...]
    strange: tuple[str, ...]


def read_dxf(data: bytes) -> ReadDxf:
    """Read a drawing; a file that is no sound DXF is `strange` from its beginning, nothing is raised."""
    try:
        document, auditor = recover.read(io.BytesIO(data))
    except (DXFError, OSError, ValueError) as error:
        return ReadDxf(0, 0, (), (f"the file cannot be read ({error})",))
    loops, strange = [], [f"the file is damaged ({one.message})" for one in (*auditor.errors, *auditor.fixes)]
    counted: dict[str, int] = {}
    for entity in document.modelspace():
        found = _loop(entity, counted)
        if isinstance(found, Loop):
            loops.append(found)
        elif found:
            strange.append(found)
    return ReadDxf(_header(document, "$INSUNITS"), _header(document, "$MEASUREMENT"), tuple(loops), tuple(strange))


def _header(document: Drawing, name: str) -> int:
    return int(document.header.get(name, 0))


def _loop(entity: Any, counted: dict[str, int]) -> Loop | str:
    """A closed line; else what is wrong with the thing in words, empty for what stands on the layer of notes."""
    layer, kind = str(entity.dxf.layer), entity.dxftype()
    if layer == NOTES:
        return ""
    if layer not in CUT_LAYERS:
        return f"a {kind} on layer `{layer}`"
    if kind == "CIRCLE":
        centre, r = entity.dxf.center, float(entity.dxf.radius)
        return Loop(layer, _name(layer, counted), circle(2 * r).mapped(1.0, (centre.x, centre.y)), 2 * r)
    if kind != "LWPOLYLINE":
        return f"a {kind} on layer `{layer}`"
    points = [tuple(map(float, point)) for point in entity.get_points("xyb")]
    if not entity.closed:
        return f"a line on layer `{layer}` is open: it begins at {_at(points[0])} and ends at {_at(points[-1])}"
    return Loop(layer, _name(layer, counted), Outline(tuple(_sides(points))))


def _name(layer: str, counted: dict[str, int]) -> str:
    if layer == CUT_LAYERS[0]:
        return layer
    counted[layer] = counted.get(layer, 0) + 1
    return f"{layer.removesuffix('s')} {counted[layer]}"


def _sides(points: list[tuple[float, ...]]) -> Iterator[Side]:
    for (x, y, bulge), (u, v, _) in zip(points, [*points[1:], points[0]], strict=True):
        if math.dist((x, y), (u, v)) > 1e-9:
            yield Side((x, y), (u, v), _via((x, y), (u, v), bulge))


def _via(start: Point, end: Point, bulge: float) -> Point | None:
    """The middle of an arc: bulge x half the chord to the right of the way, which makes it run anticlockwise."""
    if bulge == 0.0:
        return None
    x, y = end[0] - start[0], end[1] - start[1]
    return (start[0] + end[0] + bulge * y) / 2, (start[1] + end[1] - bulge * x) / 2


def _at(point: tuple[float, ...]) -> str:
    return f"{point[0]:.2f}, {point[1]:.2f}"
