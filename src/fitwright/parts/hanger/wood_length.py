"""How long a screw for wood has to be, and what wood there is behind the surface."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.hanger.fixing import WOOD_SOLD_MM, Fixing
from fitwright.parts.hanger.mount_keys import key_of, wood_key
from fitwright.spec.hanger import HoseHangerSpec

THREAD_D = 6.0
"""Diameters of thread in the wood where it is thick enough: EN 1995-1-1, 8.7.2, asks for 6 where a screw is pulled
(from memory)."""
LEAST_D = 4.0
"""Below so many diameters it is refused: EN 1995-1-1, 8.7.1, asks for 4 where a screw is pushed aside (from memory)."""
BEHIND_MM = 3.0
"""A screw's tip stays so far from the wood's other face (common practice, no source)."""
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
    through, room = plate_mm + fixing.washer_h, wood_deep_mm(spec) - BEHIND_MM
    least, most = through + LEAST_D * d, through + room
    if most < least:
        why = f"a screw of {d:g} mm wants {LEAST_D * d:.0f} mm of thread in the wood and there are {room:.0f} mm"
        sold = next((one for one in WOOD_SOLD_MM if one >= least), least)
        works = or_more(sold - through + BEHIND_MM, "mm")
        raise RefusalError(_thick_key(spec), f"{wood_deep_mm(spec):g} mm", works, why)
    if asked is not None:
        if not least - 1e-6 <= asked <= most + 1e-6:
            low, high = math.ceil(least - 1e-6), math.floor(min(most, 1e6) + 1e-6)
            allowed = f"{low} to {high} mm" if most < 1e6 else f"{low} mm or more"
            why = f"of it {through:.1f} mm are in plate and washer; the rest must hold, and end inside the wood"
            raise RefusalError(key_of(spec, "screws.length"), f"{asked:g} mm", allowed, why)
        return asked
    wanted = through + THREAD_D * d
    fit = [float(one) for one in WOOD_SOLD_MM if least <= one <= most]
    if not fit:
        why = f"no screw is sold that ends inside the wood ({least:.0f} to {most:.0f} mm)"
        raise RefusalError(key_of(spec, "screws.size"), fixing.row.name, "a thinner one, or thicker wood", why)
    return next((one for one in fit if one >= wanted), fit[-1])
