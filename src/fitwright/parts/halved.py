"""The last step of a family: the finished part, or its two halves where the YAML asks for them."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.parting import Centreline, Whole
from fitwright.spec.models import AdapterSpec


def halved(part: Part, spec: AdapterSpec, ends: tuple[PlacedEnd, PlacedEnd], line: Centreline) -> Part:
    """The part as it is, or parted into two bodies (`halves`); RefusalError names the key and a place that is free."""
    if spec.halves is None:
        return part
    from fitwright.parts.halves import parted_part  # plane areas and plans of the bed: only where they are needed

    return parted_part(part, Whole(part.bodies[0], spec, spec.halves, ends, line))
