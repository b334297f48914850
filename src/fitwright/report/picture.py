"""The picture of a part and its paper template, drawn by a child process while the other files are made.

A child, so that whatever goes wrong in it (no memory, no font, a library that kills its process) costs the picture and
a line in the report, never the part. The child needs numpy, Pillow and reportlab only, so it starts at once.
"""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from fitwright.export.atomic import said_plainly
from fitwright.export.templates import faces_of, wanted_with_a_build
from fitwright.part import FitSurface, Part, StandIn
from fitwright.report.wording import in_units
from fitwright.tessellation import facets as tessellated
from fitwright.tolerances import TOLERANCES
from fitwright.units import Units, format_angle, format_length, format_number

if TYPE_CHECKING:
    from fitwright.tessellation import Facets

PROGRAM = "fitwright.report.picture_process"
TIME_LIMIT_S = 60.0
CARRIED = ("hose", "pipe")
"""What seats in these is drawn whole in a section across, and left out from outside, where it would hide the part."""


@dataclass
class Drawing:
    """A picture being drawn, and a template where there is one; `collect` waits. No process: none could be started."""

    process: subprocess.Popen[bytes] | None
    picture: Path
    template: Path | None = None

    def collect(self, time_limit_s: float = TIME_LIMIT_S) -> tuple[dict[str, bytes], str]:
        """What was drawn, by the ending of its file's name, and the reason in words where something is missing."""
        why = self._waited(time_limit_s)
        wanted = {".png": ("picture", self.picture)}
        if self.template:
            wanted["_template.pdf"] = ("paper template", self.template)
        drawn = {ending: path.read_bytes() for ending, (_, path) in wanted.items() if path.is_file()}
        missing = [f"no {name}" for ending, (name, _) in wanted.items() if ending not in drawn]
        return drawn, f"{' and '.join(missing)}: {why or 'the drawing process wrote none'}" if missing else ""

    def _waited(self, time_limit_s: float) -> str:
        """Empty where all went well, else why not."""
        if self.process is None:
            return "the drawing process could not be started"
        try:
            _, said = self.process.communicate(timeout=time_limit_s)
        except subprocess.TimeoutExpired:
            self.end()
            return f"not finished after {time_limit_s:g} s"
        if self.process.returncode == 0:
            return ""
        last = said.decode(errors="replace").strip().rpartition("\n")[2]
        return f"the drawing process ended with code {self.process.returncode}. {last}".strip()

    def end(self) -> None:
        """Stop drawing, whether anybody still wants the picture or not."""
        if self.process is not None and self.process.poll() is None:
            self.process.kill()
            self.process.communicate()


@contextmanager
def drawing(part: Part, facets: Mapping[str, Facets], units: Units, folder: Path) -> Iterator[Drawing]:
    """Start drawing `part` into `folder`; on leaving, the child is ended if nobody collected its picture."""
    job, picture = folder / "picture.npz", folder / "picture.png"
    arrays = {}
    for number, body in enumerate(part.bodies):
        arrays[f"vertices_{number}"] = np.asarray(facets[body.name].vertices, dtype=np.float64)
        arrays[f"faces_{number}"] = np.asarray(facets[body.name].faces, dtype=np.int64)
    arrays |= _bought_arrays(part)
    with said_plainly(folder):
        np.savez(job, words=np.array(json.dumps(words(part, units))), allow_pickle=False, **arrays)
    started = _started(part, units, folder, [job, picture])
    try:
        yield started
    finally:
        started.end()


def _bought_arrays(part: Part) -> dict[str, NDArray[Any]]:
    """What is bought is drawn too where nobody understands the part without: what moves, what hangs."""
    arrays: dict[str, NDArray[Any]] = {}
    for number, one in enumerate(shown_stand_ins(part)):
        found = tessellated(one.solid, TOLERANCES.stand_in_chord_mm, TOLERANCES.stand_in_angle_rad)
        arrays[f"bought_vertices_{number}"] = np.asarray(found.vertices, dtype=np.float64)
        arrays[f"bought_faces_{number}"] = np.asarray(found.faces, dtype=np.int64)
    return arrays


def shown_stand_ins(part: Part) -> list[StandIn]:
    """The bought things of a part that moves or hangs, without what is only room; none of other parts."""
    drawn = part.motion is not None or part.hanging is not None
    return [one for one in part.stand_ins if drawn and not (one.room_only or "driver line" in one.name)]


def _started(part: Part, units: Units, folder: Path, files: list[Path]) -> Drawing:
    """The child at work on the picture, and on the template after it where the part wants one."""
    template = folder / "template.pdf" if wanted_with_a_build(faces_of(part)) else None
    if template:
        faces = folder / "template.pickle"
        with said_plainly(folder):
            faces.write_bytes(pickle.dumps((part.name, faces_of(part), units)))
        files = [*files, faces, template]
    return Drawing(_start(files), files[1], template)


def _start(files: list[Path]) -> subprocess.Popen[bytes] | None:
    command = [sys.executable, "-m", PROGRAM, *map(str, files)]
    try:
        return subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    except OSError:  # no memory or no more processes: that costs the picture only
        return None


def words(part: Part, units: Units) -> dict[str, object]:
    """All that the picture says, ready formatted, with the points [mm] it says it at."""
    return {
        "title": part.name,
        "subtitle": part.family.replace("_", " "),
        "across": part.section_across,
        "section_at": part.section_at_mm,
        "carried": [one.seats_in.startswith(CARRIED) for one in shown_stand_ins(part)],
        "units": units,
        "from_above": part.one_plate,
        "dimensions": [
            {
                "text": _value(d.label, d.value, d.unit, units),
                "a": d.a,
                "b": d.b,
                "angle": d.unit == "deg",
                "only_at": d.only_at or "begin",
            }
            for d in part.dimensions
        ],
        "stock": [body.stock.kind if body.stock else "" for body in part.bodies],
        "legend": legend(part, units),
        "bought": [_bought(fit) for body in part.bodies for fit in body.fits],
        "labels": [{"text": text, "at": at} for text, at in part.labels.items()],
        "motion": _motion(part),
    }


def legend(part: Part, units: Units) -> list[tuple[str, str]]:
    """Kind of stock and words for each tone of the picture; none where all of it is printed."""
    if part.printed == part.bodies:
        return []
    tones = (
        [("", "printed: " + ", ".join(body.name.replace("_", " ") for body in part.printed))] if part.printed else []
    )
    for body in part.bodies:
        if body.stock is not None:
            size = in_units(f"{body.stock.words} {body.stock.thickness_mm:g} mm", units)
            tones.append((body.stock.kind, f"cut: {body.name.replace('_', ' ')}, {size}"))
    return tones


def _motion(part: Part) -> dict[str, object] | None:
    """How far what moves is shifted, what that is, and what the two ends are called."""
    if part.motion is None or part.hanging is not None:
        return None
    return {
        "shift": part.motion.shift(1.0),
        "names": (part.motion.begin, part.motion.end),
        "moving": [body.moving for body in part.bodies],
        "covers": [body.name.startswith("guard") for body in part.bodies],
        "bought_moving": [one.moving for one in shown_stand_ins(part)],
        "bought_only_at": [one.only_at for one in shown_stand_ins(part)],
    }


def _bought(fit: FitSurface) -> dict[str, object]:
    """The outline of what a joint meets: middle radius at the mouth and `deep` inside, where the fit ends."""
    r0, r1 = (fit.bought_least0_mm + fit.bought_greatest0_mm) / 4, (fit.bought_least1_mm + fit.bought_greatest1_mm) / 4
    slope = (r1 - r0) / (fit.s1_mm - fit.s0_mm)
    at_mouth = r0 - slope * fit.s0_mm
    deep = fit.s1_mm
    origin, inward = fit.frame.origin, fit.frame.inward
    return {"origin": origin, "inward": inward, "deep": deep, "r0": at_mouth, "r1": at_mouth + slope * deep}


def _value(label: str, value: float, unit: str, units: Units) -> str:
    if unit == "deg":
        return f"{label} {format_angle(value)}".strip()
    text = format_number(value, 1) if units == "mm" else format_length(value, units)
    return f"{label} {text}".strip()
