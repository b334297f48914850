"""A bolted flange, as the YAML says it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.screws import HolesKeys
from fitwright.spec.grammar.sections import OpeningValue
from fitwright.spec.grammar.values import Context, Count, Length, YesNo
from fitwright.spec.joints import Flange, Place, Rectangle, Round
from fitwright.units import format_length

EDGE = 1.5
"""Hole centre to edge in hole diameters, at least, in a print (2 in brittle sheet; common practice, no source)."""
SIDE = Length(30.0, 600.0)


class RectangleKeys(Grammar):
    """A rectangular outline."""

    example: ClassVar[str] = "{width: 150, height: 120, corner: 8}"
    filled: ClassVar[tuple[str, ...]] = ("corner",)
    meant: ClassVar[Mapping[str, str]] = {"length": "write height, the side that stands up", "radius": "write corner"}
    width: Annotated[float, SIDE] = Field(description="Left to right, in the file's units.")
    height: Annotated[float, SIDE] = Field(description="Bottom to top, in the file's units.")
    corner: Annotated[float, Length(0.0, 150.0)] = Field(
        0.0, description="Radius of the corners, in the file's units; 0 if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.corner > min(self.width, self.height) / 2:
            most = format_length(min(self.width, self.height) / 2, context.units)
            yield Fault(
                ("corner",), format_length(self.corner, context.units), f"at most {most}, half the shorter side"
            )


class FlangeKeys(Grammar):
    """A flange; round or rectangular, with a round opening."""

    example: ClassVar[str] = "{opening: 100, holes: {count: 4, circle: 130, size: M6}}"
    filled: ClassVar[tuple[str, ...]] = ("thickness", "gussets", "washers", "nut_pockets")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("bolts", "screws"), "write holes"),
        **dict.fromkeys(("inside", "into", "bore", "id"), "write opening"),
        **dict.fromkeys(("diameter", "outside", "od", "over", "d"), "write round: the diameter of the outline"),
        **dict.fromkeys(("square", "rect"), "write rectangle: {width: , height: }"),
        "thick": "write thickness",
        "gasket": "write cord: the diameter of the foam cord",
    }
    round: Annotated[float | None, SIDE] = Field(
        None, description="Diameter of a round outline, in the file's units; as the holes need if absent."
    )
    rectangle: RectangleKeys | None = Field(None, description="A rectangular outline; a map, in the file's units.")
    opening: OpeningValue = Field(
        None,
        description="The opening, in the file's units: a diameter or a section; the other end's passage if absent.",
    )
    thickness: Annotated[float, Length(2.0, 30.0)] = Field(
        6.0, description="Thickness of the plate, in the file's units; 6 mm if absent."
    )
    holes: HolesKeys = Field(description="The bolt pattern; a map, lengths in the file's units.")
    gussets: Annotated[int | None, Count(0, 24, auto=True)] = Field(
        None,
        description="A whole number of ribs between plate and tube, 0 for none; as the plate needs if absent.",
    )
    cord: Annotated[float | None, Length(1.5, 10.0)] = Field(
        None, description="Diameter of a foam cord laid in a groove as a gasket, in the file's units; none if absent."
    )
    washers: Annotated[bool, YesNo()] = Field(
        True, description="Flat seats for washers on the inner side: yes or no (no unit); yes if absent."
    )
    nut_pockets: Annotated[bool, YesNo()] = Field(
        False, description="Pockets that hold the nuts: yes or no (no unit); no if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.round is not None and self.rectangle is not None:
            yield Fault(("rectangle",), "round and rectangle together", "one outline", "delete one", at="key")
            return
        if self.nut_pockets and not self.holes.row.nut_af_mm:
            found = f"nut_pockets for {self.holes.size}, whose nut is not in our tables"
            yield Fault(("nut_pockets",), found, "no, or a size with a nut (M3 to M12, inch bolts)")
        yield from self._edges(context)
        yield from self._opening(context)

    def _edges(self, context: Context) -> Iterator[Fault]:
        need = EDGE * self.holes.row.hole_mm(self.holes.clearance)
        for i, place in enumerate(self.holes.places()):
            edge = self.to_edge(place)
            if edge is not None and edge < need - 1e-9:
                found = f"hole {i + 1} with {format_length(edge, context.units)} from its centre to the edge"
                allowed = f"{format_length(need, context.units)} or more (1.5 hole diameters)"
                side = "round" if self.round is not None else "rectangle"
                yield Fault((side,), found, allowed, "a larger outline, or holes further in")
                return

    def to_edge(self, place: Place) -> float | None:
        """From a place to the nearest edge [mm], negative outside; None while the outline is ours to choose."""
        x, y = abs(place.right_mm), abs(place.up_mm)
        if self.round is not None:
            return self.round / 2 - math.hypot(x, y)
        if self.rectangle is None:
            return None
        box = self.rectangle
        dx, dy = x - (box.width / 2 - box.corner), y - (box.height / 2 - box.corner)
        if dx > 0 and dy > 0:
            return box.corner - math.hypot(dx, dy)
        return box.corner - max(dx, dy)

    def _opening(self, context: Context) -> Iterator[Fault]:
        if self.opening is None:
            return
        if self.opening.outline is None:
            room = self.round or (min(self.rectangle.width, self.rectangle.height) if self.rectangle else None)
            if room is not None and self.opening.nominal_mm > room - 4.0:
                found = f"an opening of {format_length(self.opening.nominal_mm, context.units)}"
                yield Fault(("opening",), found, f"at most {format_length(room - 4.0, context.units)} in this outline")
            return
        for x, y in self.opening.outline.polygon(0.5):
            edge = self.to_edge(Place(float(x), float(y)))
            if edge is not None and edge < 2.0:
                found = f"an opening of {self.opening.words} mm, {max(edge, 0.0):.1f} mm from the edge"
                yield Fault(("opening",), found, "2 mm or more", "a larger outline, or a smaller opening")
                return

    def meant_as(self) -> Flange:
        """The flange with its bolts looked up."""
        box = self.rectangle
        outline = Round(self.round) if self.round is not None else None
        return Flange(
            holes=self.holes.meant_as(),
            outline=Rectangle(box.width, box.height, box.corner) if box else outline,
            opening_mm=self.opening.nominal_mm if self.opening else None,
            opening=self.opening.outline if self.opening else None,
            thickness_mm=self.thickness,
            gussets=self.gussets,
            gasket_cord_mm=self.cord,
            washers=self.washers,
            nut_pockets=self.nut_pockets,
        )
