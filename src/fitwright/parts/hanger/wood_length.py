"""How long a screw for wood has to be, and what wood there is behind the surface."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.hanger.fixing import Fixing
from fitwright.parts.hanger.mount_keys import key_of, wood_key
from fitwright.parts.hanger.wood_size import LEAST_D, WOOD_SOLD_MM, behind_mm, least_wood_mm
from fitwright.spec.hanger import HoseHangerSpec

THREAD_D = 6.0
"""Diameters of thread in the wood where it is thick enough: EN 1995-1-1, 8.7.2, asks for 6 where a screw is pulled
(from memory)."""
WOOD_EDGE_D = 1.5
"""Least edge distance in wood in diameters (NDS 2018, table 12.5.1C for an edge that is not loaded, from memory)."""


def wood_deep_mm(spec: HoseHangerSpec) -> float:
    """How deep the wood is behind the surface [mm]; infinite where nothing says."""
    mount = spec.mount
    if mount.kind == "batten" and mount.batten is not None:
        return mount.batten.thick_mm
    if mount.kind == "joist_underside":
        return mount.wood.deep_mm or float("inf")
    return mount.wood.wide_mm


def _thick_key(spec: HoseHangerSpec) -> str:
    """Which size of the wood lies along the screws."""
    if spec.mount.kind == "flat":
        return wood_key(spec, "thickness")
    return wood_key(spec, "width" if spec.mount.kind == "joist_side" else "depth")


def wood_screw_mm(spec: HoseHangerSpec, fixing: Fixing, plate_mm: float) -> float:
    """The length to buy [mm]: through plate and washer, with THREAD_D in the wood, the tip inside it."""
    d, asked = fixing.row.major_mm, spec.mount.screws.long_mm
    through = plate_mm + fixing.washer_h
    least, most = through + LEAST_D * d, through + wood_deep_mm(spec) - behind_mm(spec)
    fit = [float(one) for one in WOOD_SOLD_MM if least - 1e-6 <= one <= most + 1e-6]
    if most < least or (asked is None and not fit):
        raise _too_thin(spec, d, through)
    if asked is None:
        return next((one for one in fit if one >= through + THREAD_D * d), fit[-1])
    if least - 1e-6 <= asked <= most + 1e-6:
        return asked
    low, high = math.ceil(least - 1e-6), math.floor(min(most, 1e6) + 1e-6)
    allowed = f"{low} to {high} mm" if most < 1e6 else f"{low} mm or more"
    why = f"of it {through:.1f} mm are in plate and washer; the rest must hold, and end inside the wood"
    raise RefusalError(key_of(spec, "screws.length"), f"{asked:g} mm", allowed, why)


def _too_thin(spec: HoseHangerSpec, d_mm: float, through_mm: float) -> RefusalError:
    """The refusal, with the thickness that a screw which is sold ends in."""
    why = f"a screw of {d_mm:g} mm wants {LEAST_D * d_mm:.0f} mm of thread in the wood; the shortest that is sold "
    need = least_wood_mm(d_mm, through_mm)
    why += f"goes {need:.1f} mm deep: screw a thicker board on first"
    return RefusalError(_thick_key(spec), f"{wood_deep_mm(spec):g} mm", or_more(need + behind_mm(spec), "mm"), why)
