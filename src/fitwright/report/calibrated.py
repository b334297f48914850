"""The report's lines on printer and filament: calibrated when and from what, or not at all; what x and y apart cost."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.part import Part
from fitwright.spec.models import Calibration, Material, Printer
from fitwright.units import format_number


def largest_mm(part: Part) -> float:
    """The part's largest printed diameter that meets something [mm]; its widest passage where nothing does."""
    fits = [d for body in part.bodies for fit in body.fits for d in (fit.printed0_mm, fit.printed1_mm)]
    return max(fits or part.passages_mm.values(), default=0.0)


def printer_words(printer: Printer, largest: float) -> str:
    """What the printer does to sizes, as measured, as the file says, or nothing: shrinkage is never guessed."""
    return "; ".join(_told(printer, largest))


def filament_words(material: Material) -> str:
    """Where the numbers of a filament of one's own come from; empty for one of the tables."""
    known = material.origin
    if known is None:
        return ""
    since = f"measured {known.measured}" if known.measured else "not measured, written by hand"
    words = f"{material.name} ({known.file}), {since}: {', '.join(known.told) or 'nothing'}; the rest as {known.like}"
    return f"{words}; {material.note}" if material.note else words


def _told(printer: Printer, largest: float) -> Iterator[str]:
    known = printer.calibration
    if known:
        yield _since(printer, known)
    scale = f"{printer.scale_xy:.5g}"
    if not known and printer.scale_xy == 1.0:
        scale = "1.0 (not calibrated)"
    holes, outsides = (f"{mm:+.3g} mm" for mm in (printer.hole_offset_mm, printer.outside_offset_mm))
    yield f"printed size over modelled size {scale}, holes {holes}, outsides {outsides}"
    if printer.oval_rel:
        yield _oval(printer, largest)
    also = f" ({100 * printer.oval_rel:.2g} % of it because x and y differ)" if printer.oval_rel else ""
    rel, constant = f"{100 * printer.scatter_rel:.3g}", format_number(printer.scatter_abs_mm, 3)
    yield f"its diameters scatter by {rel} %{also} and {constant} mm"
    yield f"screw holes are opened by {_opened(printer)} mm"


def _since(printer: Printer, known: Calibration) -> str:
    """Where the numbers come from, and what the part's own YAML says otherwise."""
    words = f"profile {printer.name} ({known.file})"
    if known.measured:
        sizes = ""
        if known.smallest_mm and known.largest_mm:
            sizes = f" of {format_number(known.smallest_mm, 3)} to {format_number(known.largest_mm, 3)} mm"
        filament = f" in {known.material}" if known.material else ""
        words += f", calibrated {known.measured} from {known.gauges} gauges{sizes}{filament}"
    else:
        words += ", not measured: its numbers were written by hand"
    return words + (f", with this part's own {', '.join(known.changed)}" if known.changed else "")


def _oval(printer: Printer, largest: float) -> str:
    apart = format_number(2 * printer.oval_rel * largest, 2)
    return (
        f"along x {printer.scale_x:.5g} and along y {printer.scale_y:.5g}: a round of {format_number(largest, 1)} mm "
        f"comes out oval by {apart} mm; the cure is the printer's steps per mm along x and y, then to measure again"
    )


def _opened(printer: Printer) -> str:
    """A small hole is opened by its own figure or by the hole offset, never by both."""
    return format_number(max(printer.small_hole_add_mm, -printer.hole_offset_mm), 3)
