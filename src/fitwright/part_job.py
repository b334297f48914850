"""`pipeline.build_part` for a worker that has just been started: the part is built and its picture begun at once.

What the checks need takes as long to import as the picture takes to draw, so the two go side by side.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.begun import begun
from fitwright.export.templates import faces_of
from fitwright.parts import BUILDERS

if TYPE_CHECKING:
    from fitwright.drawing.face import Face
    from fitwright.report.model import Result
    from fitwright.spec.models import PartBase


def build_part(
    spec: PartBase, out_dir: Path | str = "outputs", write: bool = True, force: bool = False, quick: bool = False
) -> Result:
    """The same as `pipeline.build_part`."""
    with begun(spec, BUILDERS[spec.part], Path(out_dir) / spec.name if write else None) as work:
        from fitwright.pipeline import finish

        return finish(work, force, quick)


def part_templates(spec: PartBase) -> tuple[Face, ...]:
    """The faces of a part that are drawn 1:1; RefusalError and BuildError as for a build."""
    return faces_of(BUILDERS[spec.part](spec))
