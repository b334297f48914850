"""A bolted flange, as the YAML says it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.outline import Outline, circle
from fitwright.outline import rectangle as rectangle_outline
from fitwright.section import Section
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.covers import MARGIN_MM, CoversKeys, least_cover
from fitwright.spec.grammar.outline import OutlineValue
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
    """A flange; round, rectangular or of any outline, with a round opening."""

    example: ClassVar[str] = "{opening: 100, holes: {count: 4, circle: 130, size: M6}}"
    filled: ClassVar[tuple[str, ...]] = ("thickness", "gussets", "washers", "nut_pockets")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("bolts", "screws"), "write holes"),
        **dict.fromkeys(("inside", "into", "bore", "id"), "write opening"),
        **dict.fromkeys(("diameter", "outside", "od", "over", "d"), "write round: the diameter of the outline"),
        **dict.fromkeys(("square", "rect"), "write rectangle: {width: , height: }"),
        "thick": "write thickness",
        "gasket": "write cord: the diameter of the foam cord",
        **dict.fromkeys(("cover", "blank", "hole"), "write covers: the hole that it covers"),
        "overlap": "write margin",
    }
    round: Annotated[float | None, SIDE] = Field(
        None, description="Diameter of a round outline, in the file's units; as the holes need if absent."
    )
    rectangle: RectangleKeys | None = Field(None, description="A rectangular outline; a map, in the file's units.")
    points: OutlineValue | None = Field(
        None, description="An outline of any shape: its corners as places in order, in the file's units; arcs by `via`."
    )
    covers: CoversKeys | None = Field(
        None, description="The hole that the flange must cover, from the mouth's centre; a map, in the file's units."
    )
    margin: Annotated[float, Length(0.5, 100.0)] = Field(
        MARGIN_MM, description="How far it overlaps what it covers all round, in the file's units; 5 mm if absent."
    )
    opening: OpeningValue = Field(
        None,
        description="The opening, in the file's units: a diameter or a section; the other end's passage if absent.",
    )
    thickness: Annotated[float, Length(2.0, 30.0)] = Field(
        6.0, description="Thickness of the plate, in the file's units; 6 mm if absent."
    )
    holes: HolesKeys | None = Field(
        None, description="The bolt pattern; a map, lengths in the file's units; needed unless `covers` is given."
    )
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
        given = [key for key in ("round", "rectangle", "points") if getattr(self, key) is not None]
        if len(given) > 1:
            yield Fault((given[1],), f"{given[0]} and {given[1]} together", "one outline", "delete one", at="key")
            return
        if self.holes is None:
            yield from self._blank()
        elif self.nut_pockets and not self.holes.row.nut_af_mm:
            found = f"nut_pockets for {self.holes.size}, whose nut is not in our tables"
            yield Fault(("nut_pockets",), found, "no, or a size with a nut (M3 to M12, inch bolts)")
        yield from self._edges(context)
        yield from self._opening(context)
        yield from self._covered(context)

    def _blank(self) -> Iterator[Fault]:
        """Without bolts there is something to cover, and nothing that only bolts need."""
        if self.covers is None:
            says = "holes, or covers for a flange that is glued, taped or clamped"
            yield Fault(("holes",), "nothing", says, "add `holes:` or `covers:`", at="key")
        for key in ("nut_pockets", "washers"):
            if key in self.model_fields_set and getattr(self, key):
                yield Fault((key,), f"{key} without holes", "no, or holes", "delete it", at="key")

    def _covered(self, context: Context) -> Iterator[Fault]:
        """The outline overlaps what it covers, and bolts stand clear of it."""
        if self.covers is None:
            if "margin" in self.model_fields_set:
                yield Fault(("margin",), "margin without covers", "covers and margin", "add `covers:`", at="key")
            return
        covered = self.covers.outline()
        yield from self._overlap(covered, context)
        if self.holes is None:
            return
        need, say = EDGE * self.holes.row.hole_mm(self.holes.clearance), partial(format_length, units=context.units)
        for i, place in enumerate(self.holes.places()):
            beyond = -covered.inside_by_mm((place.right_mm, place.up_mm))
            if beyond < need - 1e-9:
                where = f"{say(beyond)} outside it" if beyond > 0 else f"{say(-beyond)} inside it"
                found = f"hole {i + 1}, its centre {where}"
                allowed = f"{say(need)} or more outside what it covers (1.5 hole diameters)"
                yield Fault(("holes",), found, allowed, "the bolt would break out into the hole")
                return

    def _overlap(self, covered: Outline, context: Context) -> Iterator[Fault]:
        own, say = self.own_outline(), partial(format_length, units=context.units)
        if own is None:
            return
        least, (right, up) = least_cover(own, covered)
        if least >= self.margin - 1e-6:
            return
        found = f"an outline that overlaps it by {say(least)} at right {say(right)}, up {say(up)}"
        allowed = f"{say(self.margin)} or more all round"
        if self.round is not None:
            yield Fault(("round",), found, f"{allowed}: round: {say(2 * (covered.reach_mm + self.margin) + 0.005)}")
        elif self.rectangle is not None:
            low_x, low_y, high_x, high_y = covered.bounds_mm
            wide, high = (2 * (max(abs(a), abs(b)) + self.margin) for a, b in ((low_x, high_x), (low_y, high_y)))
            hint = f"width: {say(wide)}, height: {say(high)} and sharp corners are enough"
            yield Fault(("rectangle",), found, allowed, hint)
        else:
            yield Fault(("points",), found, allowed, "move the outline out there, or a smaller margin")

    def own_outline(self) -> Outline | None:
        """The flange's own outline; None where it is ours to choose."""
        if self.points is not None:
            return self.points
        if self.rectangle is not None:
            return rectangle_outline(self.rectangle.width, self.rectangle.height, self.rectangle.corner)
        return circle(self.round) if self.round is not None else None

    def _edges(self, context: Context) -> Iterator[Fault]:
        if self.holes is None:
            return
        need = EDGE * self.holes.row.hole_mm(self.holes.clearance)
        for i, place in enumerate(self.holes.places()):
            edge = self.to_edge(place)
            if edge is not None and edge < need - 1e-9:
                found = f"hole {i + 1} with {format_length(edge, context.units)} from its centre to the edge"
                allowed = f"{format_length(need, context.units)} or more (1.5 hole diameters)"
                side = next(key for key in ("round", "rectangle", "points") if getattr(self, key) is not None)
                yield Fault((side,), found, allowed, "a larger outline, or holes further in")
                return

    def to_edge(self, place: Place) -> float | None:
        """From a place to the nearest edge [mm], negative outside; None while the outline is ours to choose."""
        own = self.own_outline()
        return None if own is None else own.inside_by_mm((place.right_mm, place.up_mm))

    def _opening(self, context: Context) -> Iterator[Fault]:
        if self.opening is None:
            return
        if self.opening.outline is not None:
            yield from self._section_opening(self.opening.outline, context)
            return
        room = self.round or (min(self.rectangle.width, self.rectangle.height) if self.rectangle else None)
        if self.points is not None:
            room = max(0.0, 2 * self.points.inside_by_mm((0.0, 0.0)))
        if room is not None and self.opening.nominal_mm > room - 4.0:
            found = f"an opening of {format_length(self.opening.nominal_mm, context.units)}"
            yield Fault(("opening",), found, f"at most {format_length(room - 4.0, context.units)} in this outline")

    def _section_opening(self, opening: Section, context: Context) -> Iterator[Fault]:
        for x, y in opening.polygon(0.5):
            edge = self.to_edge(Place(float(x), float(y)))
            if edge is not None and edge < 2.0:
                found = f"an opening that comes within {format_length(max(edge, 0.0), context.units)} of the edge"
                least = format_length(2.0, context.units)
                yield Fault(("opening",), found, f"{least} or more", "a larger outline, or a smaller opening")
                return

    def meant_as(self) -> Flange:
        """The flange with its bolts looked up."""
        box = self.rectangle
        outline = self.points or (Round(self.round) if self.round is not None else None)
        return Flange(
            holes=self.holes.meant_as() if self.holes else None,
            outline=Rectangle(box.width, box.height, box.corner) if box else outline,
            covers=self.covers.outline() if self.covers else None,
            margin_mm=self.margin,
            opening_mm=self.opening.nominal_mm if self.opening else None,
            opening=self.opening.outline if self.opening else None,
            thickness_mm=self.thickness,
            gussets=self.gussets,
            gasket_cord_mm=self.cord,
            washers=self.washers and self.holes is not None,
            nut_pockets=self.nut_pockets,
        )
