"""A gate's blade as the YAML says it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data.sheets import sheet, sheets
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.gate_values import Readings
from fitwright.spec.grammar.values import Context, Length, Text
from fitwright.units import format_length

LEAST_EDGE_MM = 0.5
"""What must be left between the hole and the blade's edge for it to be a hole and not a notch."""


def _sheet(text: str) -> str:
    try:
        return sheet(text).name
    except DataError:
        names = list(sheets())
        hint = nearest(text, names) or "plastic stands for any plastic that is not known better"
        raise FaultError([Fault((), shown(text), " | ".join(names), hint)]) from None


class PlaneKeys(Grammar):
    """Where the blade lies in the body's thickness."""

    example: ClassVar[str] = "{above: 2}"
    above: Annotated[float | None, Length(0.0, 50.0)] = Field(
        None, description="The blade's middle above the body's middle, in the file's units."
    )
    below: Annotated[float | None, Length(0.0, 50.0)] = Field(
        None, description="The blade's middle below the body's middle, in the file's units."
    )
    below_top: Annotated[float | None, Length(0.0, 100.0)] = Field(
        None,
        description="Body's upper face down to the blade's upper face, by caliper, in the file's units.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [key for key in self.keys() if getattr(self, key) is not None]
        if len(given) != 1:
            found = f"{' and '.join(given)} together" if given else "an empty map"
            yield Fault((given[1],) if given else (), found, "one of above, below, below_top", at="key")

    def offset_mm(self, body_mm: float, blade_mm: float) -> float:
        """The blade's middle above the body's middle [mm]."""
        if self.below_top is not None:
            return body_mm / 2 - self.below_top - blade_mm / 2
        return self.above if self.above is not None else -(self.below or 0.0)


def read_plane(value: object, context: Context) -> PlaneKeys | None:
    """`middle`, or a map."""
    if isinstance(value, dict):
        return PlaneKeys.read(value, context)
    if isinstance(value, str) and value.strip() == "middle":
        return None
    raise FaultError([Fault((), shown(value), f"middle, or a map such as {PlaneKeys.example} or {{below_top: 8}}")])


_MIDDLE = Annotated[str, Text("middle")]
PlaneValue = Annotated[PlaneKeys | None, Forms(read_plane, _MIDDLE | PlaneKeys, "`middle` or a map")]


class BladeKeys(Grammar):
    """The sliding plate."""

    example: ClassVar[str] = "{width: 118, thickness: 3, hole: 5, hole_to_edge: 8}"
    filled: ClassVar[tuple[str, ...]] = ("material", "length", "plane")
    meant: ClassVar[Mapping[str, str]] = {
        "thick": "write thickness",
        **dict.fromkeys(("hole_from_edge", "edge", "to_edge"), "write hole_to_edge: the hole's centre to the edge"),
        **dict.fromkeys(("bore", "pin", "hole_diameter", "eye"), "write hole: the hole's diameter"),
        "offset": "write plane: {above: 2}",
    }
    width: Annotated[float, Readings(Length(20.0, 400.0), "greatest")] = Field(
        description="Of the blade across its way, in the file's units."
    )
    thickness: Annotated[float, Readings(Length(0.4, 20.0), "greatest")] = Field(
        description="Of the blade, by caliper, in the file's units; of several readings the greatest counts."
    )
    hole: Annotated[float | None, Readings(Length(2.0, 20.0))] = Field(
        None, description="Diameter of the hole near its outer edge, in the file's units; clamped if absent."
    )
    hole_to_edge: Annotated[float | None, Readings(Length(1.5, 100.0))] = Field(
        None, description="From that hole's centre to the blade's outer edge, in the file's units."
    )
    material: Annotated[str, Text("a sheet material", 30, _sheet)] = Field(
        "plastic", description="What it is made of: plastic, acrylic, PVC, HDPE, hardboard, steel ...; no unit."
    )
    plane: PlaneValue = Field(
        None,
        description="Where it lies in the body's thickness: a map, in the file's units; middle if absent.",
    )
    length: Annotated[float | None, Length(40.0, 1000.0)] = Field(
        None, description="Of the blade along its way, in the file's units; just enough to cover the port if absent."
    )

    def plane_mm(self, body_mm: float) -> float:
        """Its middle above the body's middle [mm]."""
        return 0.0 if self.plane is None else self.plane.offset_mm(body_mm, self.thickness)

    def sense(self, context: Context) -> Iterator[Fault]:
        say = partial(format_length, units=context.units)
        if self.hole is None or self.hole_to_edge is None:
            for key, other in (("hole", "hole_to_edge"), ("hole_to_edge", "hole")):
                if getattr(self, key) is None and getattr(self, other) is not None:
                    hint = f"add `{key}:`, or delete {other}: a blade without a hole is clamped"
                    yield Fault((key,), "nothing", f"{key} beside {other}", hint, at="key")
            return
        if self.hole_to_edge < self.hole / 2 + LEAST_EDGE_MM:
            found = f"a hole of {say(self.hole)}, its centre {say(self.hole_to_edge)} from the edge"
            allowed = f"{say(self.hole / 2 + LEAST_EDGE_MM)} or more"
            yield Fault(("hole_to_edge",), found, allowed, "from the hole's CENTRE: its near side, and half the hole")
        if self.hole >= self.width:
            yield Fault(("hole",), say(self.hole), f"less than the blade's width, {say(self.width)}")
