"""What a flange plate and its gasket are cut from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar

from pydantic import Field

from fitwright.data.gaskets import gasket_sheet
from fitwright.data.sheets import sheet
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import YES_NO, Context, Length, Text, YesNo
from fitwright.spec.plate import PlateStock

SHEET_THICKNESS = Length(0.3, 40.0)
GASKET_THICKNESS = Length(0.2, 20.0)
USUAL_GASKET = "foam rubber"
HOLE_MORE_MM, OPENING_MORE_MM = 1.0, 2.0
"""A gasket's holes and openings are larger by so much (on the diameter), so that none is caught under a bolt or hangs
into the air (common practice, no source)."""


def _known(find: Callable[[str], Any], what: str) -> Callable[[str], str]:
    def check(text: str) -> str:
        try:
            return str(find(text).name)
        except DataError as error:
            known = str(error).partition("known: ")[2]
            allowed, _, meant = known.partition("; ")
            raise FaultError([Fault((), shown(text), allowed or what, meant)]) from None

    return check


SHEET = Text("a sheet material, such as steel, aluminium, acrylic, plywood", 30, _known(sheet, "a sheet material"))
GASKET = Text("a gasket sheet, such as foam rubber, cork", 30, _known(gasket_sheet, "a gasket sheet"))


class SheetKeys(Grammar):
    """The sheet that a plate is cut from."""

    example: ClassVar[str] = "{material: steel, thickness: 1.5}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("thick", "gauge"), "write thickness, in mm or inches: gauge numbers differ by metal"),
        **dict.fromkeys(("of", "metal"), "write material"),
    }
    material: Annotated[str, SHEET] = Field(
        description="What it is: steel, stainless, aluminium, acrylic, plywood and others; no unit."
    )
    thickness: Annotated[float, SHEET_THICKNESS] = Field(description="Of the sheet, by caliper, in the file's units.")

    def stock(self) -> PlateStock:
        """With its density."""
        row = sheet(self.material)
        words = row.name if row.name in ("plywood", "MDF", "hardboard") else f"{row.name} sheet"
        return PlateStock(
            words=words,
            thickness_mm=self.thickness,
            density_g_cm3=row.density_g_cm3,
            brittle=row.splits,
            status=row.density_status,
        )


@dataclass(frozen=True)
class Gasket:
    """A gasket as asked for: what of, how much larger its holes and openings, and whether it is all that is made."""

    stock: PlateStock
    hole_more_mm: float = HOLE_MORE_MM
    opening_more_mm: float = OPENING_MORE_MM
    alone: bool = False


class GasketKeys(Grammar):
    """The gasket behind a plate."""

    example: ClassVar[str] = "{material: foam rubber, thickness: 5}"
    filled: ClassVar[tuple[str, ...]] = ("material", "thickness")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("thick",), "write thickness"),
        **dict.fromkeys(("only", "without_plate"), "write alone: yes"),
        **dict.fromkeys(("holes", "hole"), "write hole_more: how much larger than the plate's"),
        **dict.fromkeys(("opening", "openings"), "write opening_more: how much larger than the plate's"),
    }
    material: Annotated[str, GASKET] = Field(
        USUAL_GASKET,
        description="What it is: foam rubber, rubber, silicone, cork, paper, felt; no unit; foam rubber if absent.",
    )
    thickness: Annotated[float | None, GASKET_THICKNESS] = Field(
        None, description="Of the gasket sheet, in the file's units; as it is usually sold if absent."
    )
    hole_more: Annotated[float, Length(0.0, 10.0)] = Field(
        HOLE_MORE_MM, description="How much larger its bolt holes are, on the diameter, in the file's units; 1 mm."
    )
    opening_more: Annotated[float, Length(0.0, 20.0)] = Field(
        OPENING_MORE_MM, description="How much larger its openings are, on the diameter, in the file's units; 2 mm."
    )
    alone: Annotated[bool, YesNo()] = Field(False, description="yes: the gasket only, no plate; no unit; no if absent.")

    def made(self) -> Gasket:
        """With its sheet looked up."""
        row = gasket_sheet(self.material)
        thick = row.thickness_mm if self.thickness is None else self.thickness
        stock = PlateStock(words=row.name, thickness_mm=thick, density_g_cm3=row.density_g_cm3, status=row.status)
        return Gasket(stock, self.hole_more, self.opening_more, self.alone)


def read_gasket(value: object, context: Context) -> Gasket | None:
    """`yes`, `no`, or a map."""
    if isinstance(value, dict):
        return GasketKeys.read(value, context).made()
    word = value.strip().casefold() if isinstance(value, str) else ""
    if word not in YES_NO:
        raise FaultError([Fault((), shown(value), f"yes, no, or a map such as {GasketKeys.example}")])
    return GasketKeys.read({}, context).made() if YES_NO[word] else None


GasketValue = Annotated[
    Gasket | None, Forms(read_gasket, Annotated[bool, YesNo()] | GasketKeys, "`yes`, `no` or a map")
]
