"""Screws and bolts of a mount as they are bought: hole, head, washer, and the room that their driver needs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fitwright.data.channels import large_washer
from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.woods import wood_screw
from fitwright.errors import RefusalError
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.wood_size import screw_size
from fitwright.spec.hanger import Head, HoseHangerSpec

PAN_K, FLANGE_D, FLANGE_K, HUB_D = 0.7, 2.4, 0.5, 1.6
"""Height of a pan head, diameter and height of a washer head and diameter of its hub, in screw diameters (common
practice, no source)."""
SOCKET_OF_AF = 1.4
"""Outside of a socket over the flats that it turns (common practice, no source)."""
DRIVER_MM = 10.0
"""Diameter of a bit holder (common practice, no source)."""
ROUND_MM = 1.0
"""A recess is so much wider than the washer, head or socket that goes into it."""
LOCKNUT_M = {"M3": 4.5, "M4": 6.0, "M5": 6.8, "M6": 8.0, "M8": 9.5, "M10": 11.9}
"""Greatest height [mm] of a locking nut with an insert, ISO 7040 (from memory)."""
LOCKNUT_REL = 1.2


@dataclass(frozen=True)
class Fixing:
    """One kind of screw or bolt [mm]; `hole_d` and `recess_d` as modelled. `washer_d` 0: none is needed."""

    row: FastenerRow
    name: str
    head: Head
    hole_d: float
    head_d: float
    head_k: float
    washer_d: float
    washer_h: float
    recess_d: float
    turned_af: float = 0.0

    @property
    def bears_d(self) -> float:
        """What presses on the print: the washer, or the head where there is none."""
        return self.washer_d or self.head_d

    @property
    def high(self) -> float:
        """Washer and head above what they bear on."""
        return self.washer_h + self.head_k

    @property
    def driver_d(self) -> float:
        """Room that the driver needs round the axis."""
        return SOCKET_OF_AF * self.turned_af if self.turned_af else max(DRIVER_MM, self.head_d)


def wood_fixing(spec: HoseHangerSpec) -> Fixing:
    """The screws that go into wood, with a head that does not split the print."""
    return wood_fixing_of(spec, screw_size(spec))


def wood_fixing_of(spec: HoseHangerSpec, size: str) -> Fixing:
    """The same of a size."""
    head = spec.mount.screws.head
    refuse_countersunk(spec)
    if any(word in size.casefold() for word in ("coach", "lag")):
        return _coach(spec, size)
    row = fastener(size)
    if row.name.startswith("M"):
        why = f"{row.name} is no screw for wood"
        raise RefusalError(key_of(spec, "screws.size"), size, "5.0 mm, No. 10, 8 mm coach", why)
    if head == "hex":
        why = "screws for wood with a hexagon head are coach screws"
        raise RefusalError(key_of(spec, "screws.size"), size, "6 mm coach, 8 mm coach, 1/4 in coach", why)
    hole = small_hole(row.hole_mm(), spec.printer)
    d = row.major_mm
    if head == "washer":
        wide, name = FLANGE_D * d, f"washer-head screw {row.name}"
        return Fixing(row, name, head, hole, wide, FLANGE_K * d, 0.0, 0.0, _recess(spec, wide))
    washer_d, washer_h = large_washer(d)
    wide = max(washer_d, row.head_d_mm)
    name = f"pan-head screw {row.name}"
    return Fixing(row, name, head, hole, row.head_d_mm, PAN_K * d, washer_d, washer_h, _recess(spec, wide))


def refuse_countersunk(spec: HoseHangerSpec) -> None:
    """A countersink splits a print."""
    if spec.mount.screws.head != "countersunk":
        return
    why = "a countersunk head wedges the print apart; buy the same screw with a pan head, and a large washer for it"
    raise RefusalError(key_of(spec, "screws.head"), "countersunk", "pan, washer or hex", why)


def _coach(spec: HoseHangerSpec, size: str) -> Fixing:
    screw = wood_screw(size)
    af, hole = screw.head_mm or 0.0, screw.hole_mm or 0.0
    washer_d, washer_h = screw.washer_d2_mm or 0.0, large_washer(screw.major_mm)[1]
    like = fastener(f"M{round(screw.major_mm)}")
    row = replace(like, name=screw.name, thread="coach screw", major_mm=screw.major_mm, hole_medium_mm=hole)
    k = like.hex_k_mm or PAN_K * screw.major_mm
    wide = max(washer_d, SOCKET_OF_AF * af)
    hole_d = small_hole(hole, spec.printer)
    corners = af * 2 / 3**0.5
    return Fixing(
        row, f"coach screw {screw.name}", "hex", hole_d, corners, k, washer_d, washer_h, _recess(spec, wide), af
    )


def bolt_fixing(spec: HoseHangerSpec, size: str, head: Head = "hex") -> Fixing:
    """A metric bolt with its washer: hexagon head, or a cylinder head that a key turns (`pan`)."""
    refuse_countersunk(spec)
    row = fastener(size)
    af, washer_d, washer_h = row.hex_af_mm or 0.0, row.washer_d2_mm or 2 * row.major_mm, row.washer_h_mm or 1.0
    hole = small_hole(row.hole_mm(), spec.printer)
    if head == "hex" and af:
        wide = max(washer_d, SOCKET_OF_AF * af)
        corners, k = af * 2 / 3**0.5, row.hex_k_mm or 0.7 * row.major_mm
        name = f"hexagon bolt {row.name}"
        return Fixing(row, name, "hex", hole, corners, k, washer_d, washer_h, _recess(spec, wide), af)
    k = row.head_k_mm or row.major_mm
    name = f"cylinder-head screw {row.name}"
    return Fixing(row, name, "pan", hole, row.head_d_mm, k, washer_d, washer_h, _recess(spec, washer_d))


def nut_fixing(spec: HoseHangerSpec, size: str) -> Fixing:
    """A locking nut on its washer, as what bears in a recess."""
    one = bolt_fixing(spec, size)
    return replace(one, name=f"locking nut {one.row.name}", head_k=locknut_mm(one.row))


def locknut_mm(row: FastenerRow) -> float:
    """Height [mm] of a locking nut."""
    return LOCKNUT_M.get(row.name, LOCKNUT_REL * row.major_mm)


def _recess(spec: HoseHangerSpec, wide_mm: float) -> float:
    return modelled(wide_mm + ROUND_MM, "hole", spec.printer)
