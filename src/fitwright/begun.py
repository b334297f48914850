"""The beginning of a build, up to the triangles and the child that draws them: it needs the kernel and numpy only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from fitwright.export.atomic import Staging, staged
from fitwright.part import Part
from fitwright.report.picture import Drawing, drawing
from fitwright.spec.models import PartBase
from fitwright.tessellation import Facets, body_facets


@dataclass(frozen=True)
class Output:
    """Where the files of a part are collected, and its picture, which is being drawn."""

    staging: Staging
    picture: Drawing


@dataclass(frozen=True)
class Begun:
    """A part that is built and meshed, not yet checked; no output where nothing is to be written."""

    spec: PartBase
    part: Part
    facets: dict[str, Facets]
    output: Output | None = None


@contextmanager
def begun(spec: PartBase, build: Callable[[PartBase], Part], folder: Path | None) -> Iterator[Begun]:
    """Build and mesh a part and begin its picture, for files in `folder` (None: none); on leaving all is tidied."""
    part = build(spec)
    facets = {body.name: body_facets(body) for body in part.bodies}
    if folder is None:
        yield Begun(spec, part, facets)
        return
    with staged(folder) as staging, drawing(part, facets, spec.units, staging.hidden) as picture:
        yield Begun(spec, part, facets, Output(staging, picture))
