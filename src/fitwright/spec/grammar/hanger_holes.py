"""Holes that are there already, for a hanger that is screwed to them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from itertools import combinations
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.frame import Vec
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.places import PointValue
from fitwright.spec.grammar.screws import SCREW, holes_of
from fitwright.spec.grammar.values import Angle, Context, Count, Length, Words
from fitwright.spec.hanger import Side
from fitwright.spec.joints import Holes, Place
from fitwright.units import format_length

OFF_MM = 0.05
WHERE: Mapping[Side, str] = {"up": "above", "down": "below", "left": "left of", "right": "right of"}


class HangerHolesKeys(Grammar):
    """Places of the holes, from the middle of the hanger: the hose's axis, half its width away."""

    example: ClassVar[str] = "{points: [{up: 20}, {down: 20}], size: M5}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("pcd", "diameter"), "write circle: the diameter through the hole centres"),
        **dict.fromkeys(("bolt", "screw", "screws", "thread"), "write size"),
        **dict.fromkeys(("spacing", "apart", "distance"), "write points: [{up: 20}, {down: 20}] for holes 40 apart"),
        "places": "write points",
        "axis": "write to_axis",
    }
    points: list[PointValue] | None = Field(
        None,
        description="The holes as places on the surface, from the middle of the hanger, in the file's units: right or "
        "left on what lies above or below the hose, up or down on what stands beside it, and away or toward along it.",
        max_length=12,
    )
    count: Annotated[int | None, Count(2, 8)] = Field(None, description="How many holes on a circle: a whole number.")
    circle: Annotated[float | None, Length(10.0, 300.0)] = Field(
        None, description="Diameter of the circle through their centres, in the file's units."
    )
    first_at: Annotated[float | None, Angle(-360.0, 360.0, signed=True)] = Field(
        None, description="Where the first one is, in degrees from `away` towards right (or up); 0 if absent."
    )
    size: Annotated[str, SCREW] = Field(description="The screw by its name (no unit beside it): M5, 1/4 in, No. 10.")
    clearance: Annotated[Literal["fine", "medium", "coarse"], Words(("fine", "medium", "coarse"))] = Field(
        "medium", description="How much larger the hole is than the screw (ISO 273); no unit, medium if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        on_circle = [key for key in ("count", "circle", "first_at") if getattr(self, key) is not None]
        if self.points is not None:
            for key in on_circle:
                yield Fault((key,), f"{key} beside points", "count and circle, or points", "delete one", at="key")
            if len(self.points) < 2:
                yield Fault(("points",), f"{len(self.points)} places", "2 to 12 places", "one screw lets it turn")
                return
        else:
            for key in ("count", "circle"):
                if key not in on_circle:
                    yield Fault((key,), "nothing", "count and circle, or points", f"add `{key}:`", at="key")
                    return
        yield from self._apart(context)

    def _apart(self, context: Context) -> Iterator[Fault]:
        d, say = self.row.hole_mm(self.clearance), partial(format_length, units=context.units)
        for (i, a), (j, b) in combinations(enumerate(self.on_plane("up") if self.points is None else self.points), 2):
            gap = math.dist(a, b)
            if gap < 2 * d:
                key: tuple[str | int, ...] = ("points", j) if self.points is not None else ("circle",)
                found = f"holes {i + 1} and {j + 1}, {say(gap)} apart"
                yield Fault(key, found, f"hole centres {say(2 * d)} apart or more (two hole diameters)")
                return

    def on_surface(self, side: Side) -> Iterator[Fault]:
        """Places lie on the surface: beside the hose they have no right, above and below it no up."""
        flat = side in ("up", "down")
        for i, (x, _, z) in enumerate(self.points or ()):
            if abs(z if flat else x) > OFF_MM:
                word, other = ("up or down", "right or left") if flat else ("right or left", "up or down")
                found = f"a place {word}, on a surface that lies {WHERE[side]} the hose"
                yield Fault(("points", i), found, f"{other}, and away or toward", "or another side")

    @property
    def row(self) -> FastenerRow:
        """The screw's dimensions."""
        return fastener(self.size)

    def on_plane(self, side: Side) -> tuple[Vec, ...]:
        """The places as (u, away, 0): u right on what is above or below, up on what is beside the hose."""
        if self.points is not None:
            flat = side in ("up", "down")
            return tuple((x if flat else z, y, 0.0) for x, y, z in self.points)
        count, r = self.count or 2, (self.circle or 0.0) / 2
        turns = [math.radians((self.first_at or 0.0) + 360.0 * k / count) for k in range(count)]
        return tuple((round(r * math.sin(t), 9) + 0.0, round(r * math.cos(t), 9) + 0.0, 0.0) for t in turns)

    def holes_on(self, side: Side) -> Holes:
        """With hole, head, washer and nut of that screw."""
        return holes_of(self, tuple(Place(u, y) for u, y, _ in self.on_plane(side)))
