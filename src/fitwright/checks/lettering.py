"""Check `lettering`: does each mark on the finished mesh read as it was meant, in strokes and gaps that print?

The relief is cut parallel to its face near its foot and near its top. Along lines through every row and column of cells
the stretches of material are measured: each cell must be filled or empty as the letters ask, all round the text it must
be empty, and no stroke or gap may be narrower than the rule. Above the relief nothing may stand; below it all is solid.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.rounds import cut
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh
from fitwright.part import Body, Label, Part
from fitwright.place import words
from fitwright.shapes.lettering import HIGH, cells, text_wide
from fitwright.tolerances import TOLERANCES

CODE = "lettering"
HEIGHTS = (0.1, 0.9)
"""Where the relief is cut, as shares of its height."""
BEYOND_MM = 0.05
"""So far above the relief and below its foot it is looked whether it has the height that was meant."""
ACROSS = (0.13, 0.47, 0.87)
"""Lines through each row and column of cells, as shares of a cell: off the places where diagonals of the letters'
flanks are cut and rounding would count a crossing twice."""
LEAST_LETTER_MM = 5.0
REBUILD = "This is a fault of the build, not of your numbers; report it."

Points = NDArray[np.float64]


@dataclass(frozen=True)
class _Line:
    """What one line through a text meets: where material begins and ends on it [cells], in turn."""

    upright: bool
    at: float
    ends: Points

    def filled(self, where: float) -> bool:
        """Whether there is material at this place of it."""
        return bool(np.searchsorted(self.ends, where) % 2)


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: object = None) -> list[Finding]:
    """One finding for each label of each body; none for a part without labels."""
    findings = []
    for body in part.bodies:
        finished = meshes.get(body.name)
        for label in body.labels:
            if finished is None or len(finished.mesh.faces) == 0:
                findings.append(_finding(body, label, None, ["not checked: it has no mesh"]))
            else:
                findings.append(judge(body, label, _facets(finished, label)))
    return findings


def judge(body: Body, label: Label, facets: Points) -> Finding:
    """Judge one label from the facets at its height, corners as (right, s, up) in its frame."""
    runs: list[float] = []
    faults = list(_height(label, facets))
    for share in HEIGHTS:
        lines = _lines(label, facets, -share * label.relief_mm)
        faults += _unread(label, lines)
        runs += [run for line in lines for run in _runs(line, label)]
    least = min(runs, default=0.0) * label.cell_mm
    if least < label.least_mm - TOLERANCES.stroke_mm:
        faults.append(f"its narrowest stroke or gap is {least:.2f} mm, {label.least_mm:.2f} mm at least prints")
    if HIGH * label.cell_mm < LEAST_LETTER_MM - TOLERANCES.stroke_mm:
        faults.append(f"its letters are {HIGH * label.cell_mm:.1f} mm high, {LEAST_LETTER_MM:g} mm at least is read")
    return _finding(body, label, least, list(dict.fromkeys(faults)))


def _facets(finished: BodyMesh, label: Label) -> Points:
    """Corners (n, 3, 3) of the facets at the height of a label, in its frame: all of them, for insides are counted."""
    frame = label.frame
    axes = np.array([frame.right, frame.inward, frame.up], dtype=np.float64).T
    corners = (np.asarray(finished.mesh.vertices) - np.array(frame.origin)) @ axes
    depth = corners[:, 1][finished.mesh.faces]
    near = (depth.max(axis=1) > -label.relief_mm - 2 * BEYOND_MM) & (depth.min(axis=1) < 2 * BEYOND_MM)
    found: Points = corners[np.asarray(finished.mesh.faces)[near]]
    return found


def _lines(label: Label, facets: Points, s_mm: float) -> list[_Line]:
    """What lines along all rows and columns of cells meet in the section at depth s, and one cell beyond the text."""
    starts, ends = (np.round(points / label.cell_mm, 9) for points in cut(facets, s_mm))
    rows = [y + share for y in range(-1, HIGH + 1) for share in ACROSS]
    columns = [x + share for x in range(-1, text_wide(label.text) + 1) for share in ACROSS]
    return [
        *(_Line(False, at, _crossings(starts, ends, at)) for at in rows),
        *(_Line(True, at, _crossings(starts[:, ::-1], ends[:, ::-1], at)) for at in columns),
    ]


def _crossings(starts: Points, ends: Points, at: float) -> Points:
    """Where the line y = `at` crosses the segments, rising in x."""
    crossed = (starts[:, 1] > at) != (ends[:, 1] > at)
    (x0, y0), (x1, y1) = starts[crossed].T, ends[crossed].T
    found: Points = np.sort(x0 + (at - y0) * (x1 - x0) / (y1 - y0)) if crossed.any() else np.empty(0)
    return found


def _unread(label: Label, lines: list[_Line]) -> Iterator[str]:
    """Cells that are not filled or empty as meant; outside the text all within a cell of it is empty."""
    meant, wide = cells(label.text), text_wide(label.text)
    for line in lines:
        across, length = int(np.floor(line.at)), HIGH if line.upright else wide
        for along in range(-1, length + 1):
            x, y = (across, along) if line.upright else (along, across)
            for share in ACROSS:
                found = line.filled(along + share)
                if found != ((x, y) in meant):
                    what = "is missing" if (x, y) in meant else "is filled"
                    yield f"cell {x + 1}, {y + 1} (from the left, from below) {what}"
                    break


def _runs(line: _Line, label: Label) -> Iterator[float]:
    """Widths [cells] of all strokes and of the gaps between them, within the text and a cell round it."""
    length = HIGH if line.upright else text_wide(label.text)
    inside = line.ends[(line.ends > -1.0) & (line.ends < length + 1.0)]
    yield from (float(run) for run in np.diff(inside))


def _height(label: Label, facets: Points) -> Iterator[str]:
    """Above the relief nothing, below its foot everything."""
    wide = text_wide(label.text)
    above = [line for line in _lines(label, facets, -label.relief_mm - BEYOND_MM) if _stands(line, wide)]
    if above:
        yield f"it stands out more than {label.relief_mm:g} mm"
    below = _lines(label, facets, BEYOND_MM)
    if not all(line.filled(share) for line in below if _within(line, wide) for share in (0.5, 1.5)):
        yield "it does not stand on a face"


def _stands(line: _Line, wide: int) -> bool:
    length = HIGH if line.upright else wide
    return _within(line, wide) and bool(((line.ends > 0.0) & (line.ends < length)).any())


def _within(line: _Line, wide: int) -> bool:
    return 0.0 < line.at < (wide if line.upright else HIGH)


def _finding(body: Body, label: Label, least: float | None, faults: list[str]) -> Finding:
    place = f"{label.name}, near {words(label.frame.origin)}"
    if faults:
        more = f"; {len(faults) - 2} more" if len(faults) > 2 else ""
        message = f"mark {label.text}: {'; '.join(faults[:2])}{more}"
        return Finding(CODE, "fail", body.name, least, label.least_mm, "mm", place, message, REBUILD)
    message = f"mark {label.text} reads as meant, {HIGH * label.cell_mm:g} mm high, {label.relief_mm:g} mm raised"
    return Finding(CODE, "pass", body.name, least, label.least_mm, "mm", place, message)
