"""How thick the screws of a mount are, where the file does not say: the usual ones, thinner ones in a thin board."""

from __future__ import annotations

from fitwright.data.channels import large_washer
from fitwright.data.fasteners import fastener
from fitwright.data.woods import wood
from fitwright.spec.hanger import HoseHangerSpec

PLATE_MM = 9.0
"""Thickness of the print under the heads beside a hose."""
THICKEST_MM = 12.0
"""No plate is made thicker than this for the sake of its screws."""
LEAST_D = 4.0
"""Below so many diameters in the wood it is refused: EN 1995-1-1, 8.7.1, asks for 4 where a screw is pushed aside (from
memory)."""
BEHIND_MM = 3.0
"""A screw's tip stays so far from the other face of timber; in a board it may be flush (common practice, no source)."""
WOOD_SOLD_MM = (16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 140, 160)
"""Lengths that wood and coach screws are sold in (common practice, no source)."""
USUAL = "5.0 mm"
THINNER = ("4.5 mm", "4.0 mm", "3.5 mm")
"""What is taken in a board that the usual ones would come through, the thickest that ends inside it."""


def behind_mm(spec: HoseHangerSpec) -> float:
    """What is left behind a screw's tip [mm], at the least."""
    return 0.0 if wood(spec.mount.wood.name).kind in ("board", "chipboard") else BEHIND_MM


def least_wood_mm(d_mm: float, through_mm: float) -> float:
    """Depth [mm] of the shortest screw that is sold and has LEAST_D diameters in the wood."""
    need = through_mm + LEAST_D * d_mm
    return float(next((one for one in WOOD_SOLD_MM if one >= need - 1e-6), need)) - through_mm


def screw_size(spec: HoseHangerSpec) -> str:
    """The size that is asked for, else USUAL, else the thickest of THINNER that a thin board takes."""
    return _screw_and_plate(spec)[0]


def plate_mm(spec: HoseHangerSpec) -> float:
    """Thickness of the print under the heads: PLATE_MM, or more, so that a screw that is sold ends in a thin board."""
    return _screw_and_plate(spec)[1]


def _screw_and_plate(spec: HoseHangerSpec) -> tuple[str, float]:
    asked = spec.mount.screws.size
    coach = asked is not None and any(word in asked.casefold() for word in ("coach", "lag"))
    if spec.mount.kind != "flat" or spec.mount.screws.long_mm is not None or coach:
        return asked or USUAL, PLATE_MM
    room = spec.mount.wood.wide_mm - behind_mm(spec)
    sizes = (asked,) if asked is not None else (USUAL, *THINNER)
    steps = [PLATE_MM + 0.5 * k for k in range(int((THICKEST_MM - PLATE_MM) / 0.5) + 1)]
    works = ((size, plate) for size in sizes for plate in steps if _deep_mm(size, plate, spec) <= room + 1e-6)
    return next(works, (sizes[-1], PLATE_MM))


def _deep_mm(size: str, plate: float, spec: HoseHangerSpec) -> float:
    """How deep the shortest screw of this size goes that does."""
    d = fastener(size).major_mm
    washer = 0.0 if spec.mount.screws.head == "washer" else large_washer(d)[1]
    return least_wood_mm(d, plate + washer)
