"""What the screws of a hanger go into, and the screws, as the YAML says them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data.woods import all_wood_screws, wood, wood_screw, woods
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Context, Count, Length, Text, Words
from fitwright.spec.hanger import Wood, WoodScrews


def known_wood(text: str) -> str:
    """The wood as the table calls it; FaultError lists the known ones."""
    try:
        return wood(text).name
    except DataError:
        stone = any(word in text.casefold() for word in ("brick", "concrete", "block", "plaster", "stone"))
        hint = nearest(text, list(woods())) or "what the screws go into"
        hint = (
            "plugs and anchors are by their maker: screw a board to it, and the hanger to the board" if stone else hint
        )
        raise FaultError([Fault((), shown(text), " | ".join(woods()), hint)]) from None


def known_wood_screw(text: str) -> str:
    """A screw for wood that a hanger can take; FaultError lists them."""
    try:
        return wood_screw(text).name
    except DataError:
        known = [row.name for row in all_wood_screws()]
        hint = "a machine screw does not hold in wood" if text.strip()[:1] in "Mm" else "by the diameter of its thread"
        raise FaultError([Fault((), shown(text), " | ".join(known), hint)]) from None


WOOD = Text("a wood", 40, known_wood)
WOOD_SAYS = "What wood it is; no unit. Spruce, the softest, if absent."


class JoistKeys(Grammar):
    """A joist, beam or post."""

    example: ClassVar[str] = "{width: 38, depth: 195, wood: spruce}"
    filled: ClassVar[tuple[str, ...]] = ("width", "wood")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("thickness", "thick", "wide"), "write width: its narrow side"),
        **dict.fromkeys(("height", "deep", "high"), "write depth: its tall side"),
        **dict.fromkeys(("material", "species"), "write wood"),
    }
    width: Annotated[float, Length(15.0, 300.0)] = Field(
        38.0, description="Its narrow side, in the file's units; 38 mm (a 2-by) if absent."
    )
    depth: Annotated[float | None, Length(30.0, 600.0)] = Field(
        None, description="Its tall side, in the file's units; not judged if absent."
    )
    wood: Annotated[str, WOOD] = Field("spruce", description=WOOD_SAYS)

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.depth is not None and self.depth < self.width:
            yield Fault(("depth",), "a depth below the width", "the tall side", "swap width and depth")

    def wood_meant(self) -> Wood:
        """As the spec has it."""
        return Wood(name=self.wood, wide_mm=self.width, deep_mm=self.depth)


class IntoKeys(Grammar):
    """Wood or board behind a flat surface."""

    example: ClassVar[str] = "{wood: plywood, thickness: 18}"
    filled: ClassVar[tuple[str, ...]] = ("wood", "thickness")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("width", "depth", "thick", "board"), "write thickness"),
        **dict.fromkeys(("material", "species", "of"), "write wood"),
    }
    wood: Annotated[str, WOOD] = Field("spruce", description=WOOD_SAYS)
    thickness: Annotated[float | None, Length(6.0, 300.0)] = Field(
        None, description="How thick it is, in the file's units; 38 mm, a board as it is sold (18 mm), if absent."
    )

    def wood_meant(self) -> Wood:
        """As the spec has it: its thickness is what the screws go through."""
        usual = wood(self.wood).board_mm or 38.0
        return Wood(name=self.wood, wide_mm=self.thickness or usual)


class WoodScrewsKeys(Grammar):
    """Wood screws of a mount."""

    example: ClassVar[str] = "{size: 5.0 mm, length: 50}"
    filled: ClassVar[tuple[str, ...]] = ("size", "length", "head")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("diameter", "thread", "screw"), "write size"),
        "long": "write length",
    }
    size: Annotated[str | None, Text("a wood screw, such as 5.0 mm or No. 10", 40, known_wood_screw)] = Field(
        None,
        description="The screw by its name (its unit is in it): 5.0 mm, No. 10, 8 mm coach; 5.0 mm if absent, "
        "thinner in a thin board.",
    )
    length: Annotated[float | None, Length(12.0, 200.0, auto=True)] = Field(
        None, description="Under its head, in the file's units; as the wood needs if absent."
    )
    head: Annotated[
        Literal["pan", "washer", "hex", "countersunk"],
        Words(
            ("pan", "washer", "hex", "countersunk"),
            (
                ("round", "pan"),
                ("flange", "washer"),
                ("hexagon", "hex"),
                ("flat", "countersunk"),
                ("csk", "countersunk"),
            ),
        ),
    ] = Field(
        "pan", description="Its head: pan, washer or hex; no unit. Pan if absent; a countersunk one splits a print."
    )
    count: Annotated[int | None, Count(2, 8)] = Field(
        None, description="How many screws: a whole number; two if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.head == "countersunk":
            hint = "a countersunk head wedges a print apart along its layers; a washer under a pan head spreads it"
            yield Fault(("head",), "'countersunk'", "pan | washer | hex", hint)

    def meant_as(self) -> WoodScrews:
        """As the spec has it."""
        return WoodScrews(size=self.size, head=self.head, count=self.count, long_mm=self.length)
