"""A plate for the flange of a part, as the command `plate` makes it: no YAML of its own."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.spec.grammar.plate_made import Gasket, SheetKeys
from fitwright.spec.models import FlangePlateSpec, PartBase
from fitwright.spec.plate_of import THICKNESS_MM, flange_end


@dataclass(frozen=True)
class PlateMade:
    """What it is made of: printed `thickness_mm` thick (None: as usual), or cut from `sheet`; with a `gasket`."""

    sheet: SheetKeys | None = None
    gasket: Gasket | None = None
    thickness_mm: float | None = None


def plate_of_end(spec: PartBase, end: str | None, made: PlateMade) -> FlangePlateSpec:
    """The plate for the flange at `end` (None: the one that has a flange), with the part's printer and filament.

    FaultError, its paths `part` and `end`, where there is no flange or no telling which.
    """
    key = flange_end(spec, end)
    gasket = made.gasket
    thick = THICKNESS_MM if made.thickness_mm is None else made.thickness_mm
    own: dict[str, object] = {
        "name": f"{spec.name}_{'gasket' if gasket and gasket.alone else 'plate'}_{key}",
        "plate": None if gasket and gasket.alone else "sheet" if made.sheet else "printed",
        "sheet": made.sheet.stock() if made.sheet else None,
        "thickness_mm": made.sheet.thickness if made.sheet else thick,
        "matches": f"{spec.name}, {key}",
        "made_for": spec,
        "made_for_end": key,
    }
    if gasket is not None:
        own |= {"gasket": gasket.stock, "gasket_hole_more_mm": gasket.hole_more_mm}
        own |= {"gasket_opening_more_mm": gasket.opening_more_mm}
    shared = ("units", "source_file", "wall_mm", "printer", "material", "near_heat_c", "near_heat_said")
    taken = {one: getattr(spec, one) for one in shared}
    return FlangePlateSpec.model_validate({**taken, **own})
