"""A flange plate as the YAML says it: outline, openings, bolt patterns, and what it is made of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.outline import Outline, circle
from fitwright.outline import rectangle as rectangle_outline
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.air import PlateAirKeys
from fitwright.spec.grammar.flange import RectangleKeys
from fitwright.spec.grammar.outline import OutlineValue
from fitwright.spec.grammar.parts import PartKeys
from fitwright.spec.grammar.plate_made import GasketValue, SheetKeys
from fitwright.spec.grammar.plate_matches import MatchesValue
from fitwright.spec.grammar.plate_openings import OpeningsValue
from fitwright.spec.grammar.plate_patterns import PatternsValue
from fitwright.spec.grammar.values import Context, Length, Words
from fitwright.units import format_length

PLATE_SIDE = Length(15.0, 1500.0)
THICKNESS = Length(1.0, 40.0)
OUTLINES = ("round", "rectangle", "points")


class PlateRectangleKeys(RectangleKeys):
    """A rectangular plate."""

    width: Annotated[float, PLATE_SIDE] = Field(description="Left to right, in the file's units.")
    height: Annotated[float, PLATE_SIDE] = Field(description="Bottom to top, in the file's units.")


class FlangePlateKeys(PartKeys):
    """A flat plate with openings and bolt holes, printed or cut from sheet, with its gasket."""

    example: ClassVar[str] = "{part: flange_plate, openings: {round: 100}, holes: {count: 4, circle: 130, size: M6}}"
    filled: ClassVar[tuple[str, ...]] = ("units", "wall", "printer", "material", "thickness")
    meant: ClassVar[Mapping[str, str]] = {
        **{key: says for key, says in PartKeys.meant.items() if key != "thickness"},
        **dict.fromkeys(("opening", "inside", "bore", "hole", "cutout"), "write openings: {round: 100}, or a list"),
        **dict.fromkeys(("bolts", "screws", "pattern", "patterns"), "write holes"),
        **dict.fromkeys(("diameter", "outside", "od", "d"), "write round: the diameter of the plate"),
        **dict.fromkeys(("square", "rect", "size"), "write rectangle: {width: , height: }"),
        **dict.fromkeys(("width", "height"), "write rectangle: {width: , height: }"),
        **dict.fromkeys(("metal", "steel", "plate", "dxf"), "write sheet: {material: steel, thickness: 1.5}"),
        **dict.fromkeys(("seal", "rubber"), "write gasket: yes, or a map"),
        **dict.fromkeys(("match", "for", "flange", "fits"), "write matches: {part: FILE.yaml, end: end_a}"),
        **dict.fromkeys(("end_a", "end_b"), "a plate has no ends: write openings and holes, or matches"),
    }
    part: Annotated[Literal["flange_plate"], Words(("flange_plate",))] = Field(
        description="The family: flange_plate; no unit."
    )
    round: Annotated[float | None, PLATE_SIDE] = Field(
        None, description="Diameter of a round plate, in the file's units; as holes and openings need if absent."
    )
    rectangle: PlateRectangleKeys | None = Field(
        None, description="A rectangular plate about its middle; a map, in the file's units."
    )
    points: OutlineValue | None = Field(
        None, description="A plate of any shape: its corners as places in order, in the file's units; arcs by `via`."
    )
    openings: OpeningsValue = Field(
        (), description="What the air goes through: one opening, or a list of them; in the file's units."
    )
    holes: PatternsValue = Field(
        (), description="The bolt pattern, or a list of patterns; lengths in the file's units."
    )
    thickness: Annotated[float | None, THICKNESS] = Field(
        None, description="Thickness of a printed plate, in the file's units; 6 mm if absent."
    )
    sheet: SheetKeys | None = Field(
        None, description="Cut from sheet and not printed: a map with its material and thickness, in the file's units."
    )
    gasket: GasketValue = Field(
        None,
        description="A gasket behind the plate: yes, or a map with material and thickness, in the file's units; no if "
        "absent.",
    )
    air: PlateAirKeys | None = Field(
        None,
        description="What draws the air, a map with `fan`, its numbers with their units: how hard the plate is sucked; "
        "as the part that it matches, or a collector, if absent.",
    )
    matches: MatchesValue = Field(
        None,
        description="The flange of another part that it is made for, by file and end (no unit): it takes outline, "
        "opening and holes from there.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [key for key in OUTLINES if getattr(self, key) is not None]
        if len(given) > 1:
            yield Fault((given[1],), f"{given[0]} and {given[1]} together", "one outline", "delete one", at="key")
        if self.matches is None and not self.openings and not self.holes:
            says = "openings, holes, or matches (the flange of another part)"
            yield Fault(("openings",), "nothing", says, "a plate without any hole needs no program", at="key")
        if self.sheet is not None and self.thickness is not None:
            hint = "the sheet has its own: delete one"
            yield Fault(("thickness",), "thickness beside sheet", "sheet: {thickness: }", hint, at="key")
        yield from self._alone()
        if self.thickness is not None and self.wall is not None and self.thickness < self.wall:
            found = format_length(self.thickness, context.units)
            allowed = f"{format_length(self.wall, context.units)} or more, the wall"
            yield Fault(("thickness",), found, allowed)

    def _alone(self) -> Iterator[Fault]:
        """A gasket alone has no plate to say anything of."""
        if self.gasket is None or not self.gasket.alone:
            return
        for key in ("sheet", "thickness"):
            if getattr(self, key) is not None:
                found = f"{key} beside gasket: {{alone: yes}}"
                yield Fault((key,), found, "a plate, or a gasket alone", f"delete {key}, or alone", at="key")

    def own_outline(self) -> Outline | None:
        """The outline as given; None where it is left to us."""
        if self.points is not None:
            return self.points
        if self.rectangle is not None:
            box = self.rectangle
            return rectangle_outline(box.width, box.height, box.corner)
        return circle(self.round) if self.round is not None else None

    def open_keys(self) -> tuple[str, ...]:
        """What is not printed has no thickness, wall, filament or printer to fill in."""
        left = super().open_keys()
        printed = self.sheet is None and not (self.gasket and self.gasket.alone)
        own = left if printed else tuple(k for k in left if k == "units")
        return own if any(getattr(self, key) is not None for key in OUTLINES) or self.matches else (*own, "outline")
