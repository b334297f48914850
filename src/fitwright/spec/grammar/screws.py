"""Screws, clamps and bolt patterns."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from itertools import combinations
from typing import Annotated, ClassVar, Literal, Protocol

from pydantic import Field

from fitwright.data.fasteners import KNOWN, FastenerRow, fastener
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.places import PlaceValue
from fitwright.spec.grammar.values import Angle, Context, Count, Length, Text, Words
from fitwright.spec.joints import Holes, Place, Screws
from fitwright.units import format_length


def _screw(text: str) -> str:
    try:
        fastener(text)
    except DataError:
        raise FaultError([Fault((), shown(text), KNOWN, "write M6, No. 8 or 1/4 in")]) from None
    return text


SCREW = Text("a screw's name, such as M6, No. 8, 1/4 in", 40, _screw)


class ClampKeys(Grammar):
    """A band round slits."""

    example: ClassVar[str] = "{slits: 4, band: 13}"
    filled: ClassVar[tuple[str, ...]] = ("slits", "band")
    slits: Annotated[int, Count(2, 12)] = Field(4, description="How many slits. A whole number, 4 if absent.")
    band: Annotated[float, Length(5.0, 40.0)] = Field(
        13.0, description="Width of the clamp band, in the file's units; 13 mm if absent."
    )


class ScrewsKeys(Grammar):
    """Screws through the socket's wall into the pipe, or through the pipe into the spigot."""

    example: ClassVar[str] = "{count: 3, size: No. 8}"
    filled: ClassVar[tuple[str, ...]] = ("count", "size")
    count: Annotated[int, Count(1, 12)] = Field(3, description="How many screws. A whole number, 3 if absent.")
    size: Annotated[str, SCREW] = Field(
        "No. 8", description="The screw by its name: No. 8, M4, 4.0 mm (its unit is in it); No. 8 if absent."
    )

    first_at: Annotated[float | None, Angle(-360.0, 360.0, signed=True)] = Field(
        None, description="Where the first one is, in degrees clockwise from up; 0 if absent. Round joints only."
    )

    def meant_as(self) -> Screws:
        """With the pilot that such a screw needs in plastic."""
        pilot = fastener(self.size).pilot_plastic_mm
        return Screws(count=self.count, size=self.size, pilot_d_mm=pilot, first_at_deg=self.first_at)


class HolesKeys(Grammar):
    """A bolt pattern: so many on a circle, or single places."""

    example: ClassVar[str] = "{count: 4, circle: 130, size: M6}"
    filled: ClassVar[tuple[str, ...]] = ("clearance",)
    meant: ClassVar[Mapping[str, str]] = {
        "diameter": "size names the bolt (M6), circle the diameter that its holes lie on",
        "pcd": "write circle",
        "bolt": "write size",
        "spacing": "write circle: the diameter through the hole centres",
    }
    count: Annotated[int | None, Count(2, 24)] = Field(
        None, description="How many holes on the circle. A whole number."
    )
    circle: Annotated[float | None, Length(15.0, 600.0)] = Field(
        None, description="Diameter of the circle through the hole centres, in the file's units."
    )
    first_at: Annotated[float | None, Angle(-360.0, 360.0, signed=True)] = Field(
        None,
        description="Where the first hole is, in degrees clockwise from up, looking into the mouth; 0 if absent.",
    )
    points: list[PlaceValue] | None = Field(
        None,
        description="Hole centres from the mouth's centre, as a list of places, in the file's units.",
        max_length=24,
    )
    size: Annotated[str, SCREW] = Field(description="The bolt by its name (no unit beside it): M6, 1/4 in, No. 10.")
    clearance: Annotated[Literal["fine", "medium", "coarse"], Words(("fine", "medium", "coarse"))] = Field(
        "medium", description="How much larger the hole is than the bolt (ISO 273); no unit, medium if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        on_circle = [key for key in ("count", "circle", "first_at") if getattr(self, key) is not None]
        if self.points is not None:
            for key in on_circle:
                yield Fault((key,), f"{key} beside points", "count and circle, or points", "delete one", at="key")
            if len(self.points) < 2:
                yield Fault(("points",), f"{len(self.points)} places", "2 to 24 places")
        else:
            for key in ("count", "circle"):
                if key not in on_circle:
                    yield Fault((key,), "nothing", "count and circle, or points", f"add `{key}:`", at="key")
                    return
        yield from self._apart(context)

    def _apart(self, context: Context) -> Iterator[Fault]:
        d, say = self.row.hole_mm(self.clearance), partial(format_length, units=context.units)
        for (i, a), (j, b) in combinations(enumerate(self.places()), 2):
            gap = math.hypot(a.right_mm - b.right_mm, a.up_mm - b.up_mm)
            if gap < 2 * d:
                key: tuple[str | int, ...] = ("points", j) if self.points is not None else ("circle",)
                found = f"holes {i + 1} and {j + 1}, {say(gap)} apart"
                yield Fault(key, found, f"hole centres {say(2 * d)} apart or more (two hole diameters)")
                return

    @property
    def row(self) -> FastenerRow:
        """The bolt's dimensions."""
        return fastener(self.size)

    def places(self) -> tuple[Place, ...]:
        """The hole centres."""
        if self.points is not None or not self.circle or not self.count:
            return tuple(self.points or ())
        turns = [math.radians((self.first_at or 0.0) + 360.0 * k / self.count) for k in range(self.count)]
        r = self.circle / 2
        return tuple(Place(round(r * math.sin(t), 9) + 0.0, round(r * math.cos(t), 9) + 0.0) for t in turns)

    def meant_as(self) -> Holes:
        """With hole, head, washer and nut of that bolt."""
        return holes_of(self, self.places())


class PatternKeys(Protocol):
    """What every bolt pattern of the YAML has."""

    size: str
    circle: float | None
    first_at: float | None
    clearance: Literal["fine", "medium", "coarse"]


def holes_of(keys: PatternKeys, places: tuple[Place, ...]) -> Holes:
    """Holes at these places, with hole, head, washer and nut of their bolt."""
    row = fastener(keys.size)
    return Holes(
        points=places,
        size=keys.size,
        hole_d_mm=row.hole_mm(keys.clearance),
        count=len(places),
        circle_mm=keys.circle,
        first_at_deg=keys.first_at or 0.0,
        clearance=keys.clearance,
        head_d_mm=row.head_d_mm,
        head_k_mm=row.head_k_mm or 0.0,
        washer_d_mm=row.washer_d2_mm or row.head_d_mm,
        washer_h_mm=row.washer_h_mm or 0.0,
        nut_af_mm=row.nut_af_mm or 0.0,
        nut_m_mm=row.nut_m_mm or 0.0,
    )
