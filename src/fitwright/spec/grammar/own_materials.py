"""Filaments of one's own: `materials/NAME.yaml` beside the part's YAML or in a folder above it, nearest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.data import profiles
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.material_settings import MaterialSettings
from fitwright.spec.grammar.own_files import date_text, own_file, own_names, read_own
from fitwright.spec.grammar.values import Context, Text
from fitwright.spec.models import Material, Origin

FOLDER, KIND = "materials", "material_profile"


def row_name(text: str) -> str:
    """The row of our own table that is called so."""
    known = profiles.OTHER_NAMES.get(text.strip().casefold(), text.strip())
    rows = list(profiles.materials())
    for row in rows:
        if row.casefold() == known.casefold():
            return row
    raise FaultError([Fault((), shown(text), " | ".join(rows), nearest(text, rows))])


class OwnMaterialKeys(MaterialSettings):
    """A filament of one's own, from what was measured on prints of it."""

    example: ClassVar[str] = "{material_profile: birch_lane_petg, like: PETG, modulus: 1750 MPa}"
    material_profile: Annotated[str, Text("a name", 40, number=True)] = Field(
        description="The filament's name: that of its file; no unit."
    )
    like: Annotated[str, Text("a filament of the tables", 40, row_name)] = Field(
        description="The filament of the tables that gives what is absent here; no unit."
    )
    measured: Annotated[str | None, Text("a day", 20, date_text)] = Field(
        None, description="The day of the measuring, such as 2026-11-20; no unit."
    )
    note: Annotated[str | None, Text("a few words", 200)] = Field(
        None, description="How it was measured, spool and settings; shown in the report; no unit."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self.faults(self.changed(table_material(self.like)))

    def meant_as(self, file: str) -> Material:
        """The filament of this profile."""
        made = self.changed(table_material(self.like))
        origin = Origin(file=file, like=self.like, measured=self.measured or "", told=self.told())
        status = "measured" if self.measured else "by hand"
        said = {"name": self.material_profile, "status": status, "note": self.note or made.note, "origin": origin}
        return made.model_copy(update=said)


def table_material(name: str) -> Material:
    """The filament of a row of our own table."""
    row = asdict(profiles.material(name))
    return Material.model_validate({key: value for key, value in row.items() if key in Material.model_fields})


def material_names(folder: str) -> list[str]:
    """Names of all filaments of one's own that a part in this folder may use, nearest first."""
    return own_names(KIND, FOLDER, folder)


def own_material(name: str, folder: str) -> Material | None:
    """The filament of this name that is nearest to a folder, or None; SpecError where its file is damaged."""
    file = own_file(name, FOLDER, folder)
    return read_material_profile(file, folder) if file else None


def read_material_profile(file: Path, folder: str = ".") -> Material:
    """The filament that a profile's file tells of; SpecError with everything that is wrong with it."""
    keys, seen = read_own(file, folder, OwnMaterialKeys, KIND)
    return keys.meant_as(seen)
