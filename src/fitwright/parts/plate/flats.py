"""The flat pieces of a flange plate: plate and gasket at their true sizes, and the plate as modelled for a print."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.flat import Flat, FlatHole
from fitwright.frame import Frame
from fitwright.outline import Outline, circle
from fitwright.outline_forms import OutlineError, as_circle, grown
from fitwright.parts.compensation import modelled, placed, small_hole
from fitwright.spec.models import FlangePlateSpec, Printer
from fitwright.spec.plate_holes import plate_holes
from fitwright.spec.plate_sense import GASKET_WEB_MM, gasket_faults

RIGHT, AWAY = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)


@dataclass(frozen=True)
class Piece:
    """A flat piece at its place: `true` at finished size, `model` as its body is modelled, `frame` its front."""

    name: str
    true: Flat
    model: Flat
    frame: Frame


def pieces(spec: FlangePlateSpec) -> tuple[Piece, ...]:
    """Plate, then gasket, as far as they are wanted; RefusalError where too little is left of the gasket."""
    found = []
    outline, holes = spec.outline, plate_holes(spec.patterns)
    assert outline is not None
    openings = tuple(one.outline for one in spec.openings)
    behind = 0.0
    if spec.plate is not None:
        flat = Flat(outline, openings, holes, spec.thickness_mm)
        model = as_modelled(flat, spec.printer) if spec.plate == "printed" else flat
        found.append(Piece("plate", flat, model, _front(0.0)))
        behind = spec.thickness_mm
    if spec.gasket is not None:
        flat = _gasket(spec, outline, openings, holes, spec.gasket.thickness_mm)
        found.append(Piece("gasket", flat, flat, _front(behind)))
    return tuple(found)


def _front(y: float) -> Frame:
    return Frame((0.0, y, 0.0), AWAY, RIGHT)


def _gasket(
    spec: FlangePlateSpec, outline: Outline, openings: tuple[Outline, ...], holes: tuple[FlatHole, ...], thick: float
) -> Flat:
    try:
        larger = tuple(grown(one, spec.gasket_opening_more_mm / 2, rounded=True) for one in openings)
    except OutlineError as error:
        found, why = f"{spec.gasket_opening_more_mm:g} mm", f"{error}"
        raise RefusalError("gasket.opening_more", found, "0, or a smaller value", why) from None
    more = spec.gasket_hole_more_mm
    drilled = tuple(FlatHole(h.at, h.d_mm + more, h.bolt, h.long_mm, h.turned_deg) for h in holes)
    narrow = next(gasket_faults(outline, larger, drilled), None)
    if narrow is not None:
        now = f"opening_more {spec.gasket_opening_more_mm:g} mm and hole_more {more:g} mm leave {narrow}"
        allowed = f"{GASKET_WEB_MM:g} mm or more: a smaller opening_more or hole_more"
        raise RefusalError("gasket", now, allowed, "so narrow a strip of gasket tears")
    return Flat(outline, larger, drilled, thick)


def as_modelled(flat: Flat, printer: Printer) -> Flat:
    """What to model so that the print measures as `flat` says: positions scaled, outsides and holes offset as well."""
    holes = tuple(
        FlatHole(
            (placed(h.at[0], printer), placed(h.at[1], printer)),
            small_hole(h.d_mm, printer),
            h.bolt,
            placed(h.long_mm, printer),
            h.turned_deg,
        )
        for h in flat.holes
    )
    openings = tuple(sized(one, "hole", printer) for one in flat.openings)
    return Flat(sized(flat.outline, "outside", printer), openings, holes, flat.thickness_mm)


def sized(outline: Outline, kind: str, printer: Printer) -> Outline:
    """An outline as modelled: a diameter by scale and offset, any other scaled and moved by half the offset all round.

    Where it would fold over when moved it is only scaled, as a flange's outline of points is.
    """
    scaled = outline.mapped(placed(1.0, printer))
    found = as_circle(outline)
    if found is not None:
        (x, y), d = found
        return circle(modelled(d, kind, printer)).mapped(1.0, (placed(x, printer), placed(y, printer)))
    by = modelled(0.0, kind, printer) / 2
    try:
        return grown(scaled, by)
    except OutlineError:
        return scaled
