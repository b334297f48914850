"""STEP in mm, in part coordinates, the product named after the body, the same bytes on every run."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.StepBasic import StepBasic_Product
from OCP.STEPControl import STEPControl_StepModelType, STEPControl_Writer
from OCP.TCollection import TCollection_HAsciiString as Text

from fitwright.errors import ExportError
from fitwright.settled import settled

if TYPE_CHECKING:
    from cadquery import Shape

_TIME_STAMP = "2000-01-01T00:00:00"
"""ISO 10303-21 asks for one; a fixed one keeps the same YAML at the same bytes."""


def step_bytes(shape: Shape, name: str) -> bytes:
    """An ISO 10303-21 file (AP214) of `shape` [mm], its product called `name`.

    Raises
    ------
    ExportError
        The kernel would not translate or write the shape, or wrote something other than one solid in mm.
    """
    writer = STEPControl_Writer()
    # These settings belong to the whole process: set them each time, whoever changed them before.
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetCVal_s("write.step.product.name", name)
    done = IFSelect_ReturnStatus.IFSelect_RetDone
    if writer.Transfer(settled(shape).wrapped, STEPControl_StepModelType.STEPControl_AsIs) != done:
        raise ExportError(f"{name}: the solid could not be translated to STEP")
    _name(writer, name)
    buffer = io.BytesIO()
    if writer.WriteStream(buffer) != done:
        raise ExportError(f"{name}: the STEP file could not be written")
    return _proved(buffer.getvalue(), name)


def _name(writer: STEPControl_Writer, name: str) -> None:
    """Fix what would differ between runs: the time stamp, and the counter that the kernel adds to product names."""
    model = writer.Model()
    header = APIHeaderSection_MakeHeader(model)
    header.SetName(Text(f"{name}.step"))
    header.SetTimeStamp(Text(_TIME_STAMP))
    header.SetAuthorValue(1, Text(""))
    header.SetOrganizationValue(1, Text(""))
    header.SetAuthorisation(Text(""))
    header.SetOriginatingSystem(Text("Fitwright"))
    header.SetDescriptionValue(1, Text("Printable part, unit mm"))
    header.Apply(model)
    for number in range(1, model.NbEntities() + 1):
        entity = model.Value(number)
        if isinstance(entity, StepBasic_Product):
            entity.SetId(Text(name))
            entity.SetName(Text(name))


def _proved(data: bytes, name: str) -> bytes:
    solids = data.count(b"MANIFOLD_SOLID_BREP(") + data.count(b"BREP_WITH_VOIDS(")
    if solids != 1 or b"SI_UNIT(.MILLI.,.METRE.)" not in data:
        raise ExportError(f"{name}: the STEP file does not hold one solid in mm ({solids} solids); nothing was written")
    return data
