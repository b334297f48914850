"""How thick the screws of a mount are, where the file does not say: the usual ones, thinner ones in a thin board."""

from __future__ import annotations

from fitwright.data.channels import large_washer
from fitwright.data.fasteners import fastener
from fitwright.data.woods import wood
from fitwright.spec.hanger import HoseHangerSpec

PLATE_MM = 8.0
"""Thickness of the print under the heads beside a hose."""
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
    if spec.mount.screws.size is not None:
        return spec.mount.screws.size
    if spec.mount.kind != "flat":
        return USUAL
    room = spec.mount.wood.wide_mm - behind_mm(spec)
    return next((one for one in (USUAL, *THINNER) if _deep_mm(one, spec) <= room + 1e-6), THINNER[-1])


def _deep_mm(size: str, spec: HoseHangerSpec) -> float:
    """How deep the shortest screw of this size goes that does."""
    d = fastener(size).major_mm
    washer = 0.0 if spec.mount.screws.head == "washer" else large_washer(d)[1]
    return least_wood_mm(d, PLATE_MM + washer)
