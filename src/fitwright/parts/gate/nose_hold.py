"""How a cylinder is held at its nose: by nose thread, front cover's four screws, or a clamp open above."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.data.air import fitting
from fitwright.data.cylinders import cylinder_row
from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import DataError, RefusalError
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.spec.gate import Cylinder
from fitwright.spec.gate_coupling import sleeve_outside_mm
from fitwright.spec.models import GateBracketSpec
from fitwright.units import Units, format_length

THREAD_ROOM_MM = 0.5
"""The nose's hole is so much wider than its thread."""
WEB_MM, LEAST_WEB_MM = 10.0, 4.0
LEAST_WASHER_WEB_MM = 7.0
"""Where a washer would leave less of the web, the nose nut (wide, thin load) goes without: bending falls with the cube
of the web, and a 6 mm web in a bay 73 mm wide gave half as much again as the whole plate does (finite elements)."""
COVER_MM = 3.0
"""The cover that a nose stands on is at least so much wider than its thread (common practice, no source)."""
BOSS_ROOM_MM, BODY_ROOM_MM, ROD_ROOM_MM = 0.4, 0.3, 2.0
NOSE_WASHERS = {
    14: (28, 2.5),
    16: (30, 3),
    18: (34, 3),
    20: (37, 3),
    22: (39, 3),
    24: (44, 4),
    27: (50, 4),
    30: (56, 4),
}
"""Outside and thickness of the plain washers of ISO 7089 above M12 (from memory)."""
SCREWS_MM = (8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120)
"""Lengths that cap screws are sold with (ISO 4762, from memory)."""
SPANNER_WIDE, SPANNER_THICK = 2.15, 0.42
"""Head and thickness of an open spanner, in widths across flats (common practice, no source)."""
PRELOAD_MPA = 10.0
"""What a printed plastic bears under a washer for years (common practice, no source: well below its strength)."""
FRICTION = 0.2
"""Plastic on metal, dry (facts of the trade give 0.1 to 0.5; common practice)."""
OVER_STALL = 1.5
CLAMP_SIZES = ("M4", "M5", "M6", "M8")
PORT_IN_REL, COVER_ROOM_MM, PORT_HALF_MM = 0.4, 1.0, 10.0
"""Where no table says where the front port is: so far behind the mounting face, in widths of the body. Room round the
front cover, and half of what a fitting takes along the body (common practice, no source)."""
FITTING_MM = 25.0
"""A fitting of a port that no table knows stands out so far (common practice, no source)."""
NECK_MM = tuple(8.0 + 2.0 * k for k in range(14))
"""Thickness of the neck below the front cover that carries the clamp."""
NECK_DEG = 0.15
"""So much the neck may tilt under the thrust, of the 0.5 deg allowed to the whole frame."""
CLAMP_WALL_MM, ABOVE_MM = 5.5, 1.0
"""A cheek is no thinner; from the body to the screws' holes above it."""
CLAMP_SAFE = 1.6
"""Strength between the layers over what the screws' preload does to a cheek as a cantilever."""
LEAST_BAND_MM = 36.0
"""A cheek is no shorter along the body: it has to bear both screws."""
NECK_IN_MM = 6.0
"""The neck is so much narrower than the block on either side, where a wall beside the cover leaves it: its sharp corner
must not lie where the screws pull most at the layers."""
CORNER_MM = 4.0
"""A square body bears so far below its edge, which is rounded (common practice, no source)."""


@dataclass(frozen=True)
class ThreadHold:
    """The nose goes through the web, its nut in front. `washer_d_mm` 0: no washer, the nose is too short for one."""

    hole_mm: float
    thread: str
    nut_af_mm: float
    nut_m_mm: float
    washer_d_mm: float
    washer_h_mm: float
    web_mm: float
    clamped_mm: float
    """Diameter that nut and cylinder hold the web stiff between them: the smaller of nut and body."""
    spanner_mm: float
    """What the bay needs along the rod: washer, nut or spanner, and a little air."""

    @property
    def bears_mm(self) -> float:
        """Diameter of what bears on the web: the washer, or the nut across its corners."""
        return max(self.washer_d_mm, 2.0 * self.nut_af_mm / math.sqrt(3.0))


@dataclass(frozen=True)
class SquareHold:
    """Four cap screws with washers from the gate's side into the front cover. `engaged_mm` in `deep_mm` of thread."""

    hole_mm: float
    apart_mm: float
    size: str
    d_mm: float
    screw_hole_mm: float
    head_d_mm: float
    head_k_mm: float
    washer_d_mm: float
    washer_h_mm: float
    deep_mm: float
    long_mm: float
    engaged_mm: float


@dataclass(frozen=True)
class ClampHold:
    """A block round the body, open above: two screws draw its cheeks together, `screw_z_mm` above the axis.

    It stands `off_mm` off the plate, behind the front cover (`cover_mm` wide with room) and its port, which looks to a
    side, on a neck from `side_mm` to `down_mm` below the axis. `bore_mm`: diameter (round) or width (square) with room.
    """

    hole_mm: float
    round: bool
    off_mm: float
    cover_mm: float
    side_mm: float
    bore_mm: float
    open_mm: float
    """Width of the opening above."""
    band_mm: float
    size: str
    screw_hole_mm: float
    screw_z_mm: float
    screw_v_mm: tuple[float, float]
    half_mm: float
    neck_half_mm: float
    down_mm: float
    up_mm: float
    preload_n: float
    """Of one screw: what its washer may press on the plastic for good."""
    grips_n: float

    def neck(self, force_n: float, modulus_mpa: float) -> tuple[float, float]:
        """How far the neck lets the thrust line go along [mm], and how far it tilts [deg]: F e L / EI, e times that.

        Only what lies below the cover is counted.
        """
        thick = self.down_mm - self.cover_mm / 2
        off_line, deep = self.down_mm - thick / 2, 2 * self.neck_half_mm * thick**3 / 12.0
        turn = force_n * off_line * self.off_mm / (modulus_mpa * deep)
        return off_line * turn, math.degrees(turn)


Hold = ThreadHold | SquareHold | ClampHold


def thread_hold(spec: GateBracketSpec) -> ThreadHold:
    """The web as thick as leaves the nut its full height of thread; RefusalError where the nose is too short."""
    cylinder = spec.cylinder
    thread, af, m = cylinder.nose_thread, cylinder.nose_nut_af_mm, cylinder.nose_nut_m_mm
    if thread is None or af is None or m is None:
        raise RefusalError("hold", "nose", "front_square or clamp", "the cylinder has no nose thread with a nut")
    d = thread_d_mm(thread)
    washer_d, washer_h = nose_washer(d)
    web = cylinder.nose_mm - m - washer_h
    if web < LEAST_WASHER_WEB_MM:
        washer_d, washer_h, web = 0.0, 0.0, cylinder.nose_mm - m
    if web < LEAST_WEB_MM:
        why = f"the nose nut, {format_length(m, spec.units)} high, would not find its full thread through the plate"
        _refuse("cylinder.nose.length", cylinder.nose_mm, m + LEAST_WEB_MM, why, spec.units)
    room = washer_h + max(m, SPANNER_THICK * af) + 1.0
    return ThreadHold(
        d + THREAD_ROOM_MM,
        thread,
        af,
        m,
        washer_d,
        washer_h,
        min(web, WEB_MM),
        min(af, max(cylinder.body_mm or af, d + COVER_MM)),
        room,
    )


def nose_washer(d_mm: float) -> tuple[float, float]:
    """Outside and thickness of the plain washer for a thread of this diameter (the next one up where there is none).

    >>> nose_washer(16.0)
    (30.0, 3.0)
    """
    small = {int(row.major_mm): row for row in (fastener(name) for name in ("M8", "M10", "M12"))}
    known = {d: (row.washer_d2_mm or 0.0, row.washer_h_mm or 0.0) for d, row in small.items()} | NOSE_WASHERS
    size = next((d for d in sorted(known) if d >= d_mm - 0.2), max(known))
    return float(known[size][0]), float(known[size][1])


def square_hold(spec: GateBracketSpec, thick_mm: float) -> SquareHold | None:
    """The longest screw sold that ends `1 mm` above the ground of the thread and engages >= 1 d through this plate.

    None where no such screw is sold; RefusalError where the cover's threads are no deeper than the screw is wide.
    """
    cylinder = spec.cylinder
    apart, size, deep = cylinder.square_mm, cylinder.square_screw, cylinder.square_deep_mm
    if apart is None or size is None or deep is None:
        raise RefusalError("hold", "front_square", "nose or clamp", "the front cover's screws were not given")
    row = fastener(size)
    if deep < row.major_mm + 1.0:
        why = f"a {size} screw in plain metal needs as much thread as it is thick, and air below it"
        _refuse("cylinder.square.deep", deep, row.major_mm + 1.0, why, spec.units)
    washer_d, washer_h = row.washer_d2_mm or 0.0, row.washer_h_mm or 0.0
    grip = thick_mm + washer_h
    fits = [long for long in SCREWS_MM if row.major_mm <= long - grip <= deep - 1.0]
    if not fits:
        return None
    long = float(max(fits))
    hole = (cylinder.boss_d_mm + BOSS_ROOM_MM) if cylinder.boss_d_mm else sleeve_outside_mm(spec) + ROD_ROOM_MM
    head = (row.head_d_mm, row.head_k_mm or row.major_mm)
    return SquareHold(
        hole, apart, size, row.major_mm, row.hole_mm(), *head, washer_d, washer_h, deep, long, long - grip
    )


def clamp_hold(spec: GateBracketSpec, thrust_n: float) -> ClampHold:
    """The smallest screws that hold 1.5 x the stalled thrust by friction; RefusalError where none do."""
    cylinder = spec.cylinder
    wide, is_round = cylinder.body_mm, cylinder.body_round_mm is not None
    if wide <= 0.0:
        raise RefusalError("hold", "clamp", "nose or front_square", "the cylinder's body was not given")
    need = OVER_STALL * thrust_n
    for name in CLAMP_SIZES:
        if clamp_grips_n(fastener(name)) >= need:
            return _clamp(spec, wide, is_round, fastener(name))
    most = clamp_grips_n(fastener(CLAMP_SIZES[-1])) / need * spec.pressure_mpa
    why = f"a clamp cannot hold {OVER_STALL:g} x the stalled thrust ({need:.0f} N) by friction"
    raise RefusalError("pressure", f"{spec.pressure_mpa * 10:.1f} bar", f"{most * 10:.1f} bar or less", why)


def clamp_grips_n(row: FastenerRow, screws: int = 2) -> float:
    """What the clamp surely holds along the body: mu x both cheeks, each pressed by the screws' preload alone.

    (The cheeks' lever about the hinge below presses them harder; their stiffness takes some of it. Neither is counted.)
    Preload: PRELOAD_MPA under the washer (common practice).

    >>> round(clamp_grips_n(fastener("M5")))
    438
    """
    return 2.0 * FRICTION * screws * preload_n(row)


def preload_n(row: FastenerRow) -> float:
    """What a washer of ISO 7089 may press for good on the print, its hole taken off."""
    return PRELOAD_MPA * math.pi / 4.0 * ((row.washer_d2_mm or 0.0) ** 2 - row.hole_mm() ** 2)


def _clamp(spec: GateBracketSpec, wide: float, is_round: bool, row: FastenerRow) -> ClampHold:
    cylinder, force = spec.cylinder, math.pi / 4 * spec.cylinder.bore_mm**2 * spec.pressure_mpa
    if cylinder.ports_face not in ("left", "right"):
        why = "the clamp's screws are above the body and its neck below: turn the cylinder"
        raise RefusalError("cylinder.ports", cylinder.ports_face, "left or right", why)
    off, cover, side = front_cover_mm(cylinder)
    bore = wide + BODY_ROOM_MM
    held_up = bore / 2 / math.sqrt(2.0) if is_round else bore / 2
    screw_z = bore / 2 + ABOVE_MM + row.hole_mm() / 2
    inset = 1.5 * row.major_mm + 1.0
    band = max(wide, LEAST_BAND_MM, 2 * inset + (row.washer_d2_mm or 0.0) + 1.0)
    borne = 0.0 if is_round else bore / 2 - CORNER_MM
    wall = cheek_mm(spec, 2 * preload_n(row), screw_z - borne, band)
    for neck in NECK_MM:
        found = ClampHold(
            hole_mm=max(_front_d_mm(cylinder), sleeve_outside_mm(spec)) + ROD_ROOM_MM,
            round=is_round,
            off_mm=off,
            cover_mm=cover,
            side_mm=side,
            bore_mm=bore,
            open_mm=2 * held_up,
            band_mm=band,
            size=row.name,
            screw_hole_mm=row.hole_mm(),
            screw_z_mm=screw_z,
            screw_v_mm=(inset, band - inset),
            half_mm=bore / 2 + wall,
            neck_half_mm=min(bore / 2 + wall, max(bore / 2 + wall - NECK_IN_MM, cover / 2 + spec.wall_mm + 0.5)),
            down_mm=max(cover / 2 + neck, bore / 2 + wall),
            up_mm=screw_z + 1.5 * row.major_mm,
            preload_n=preload_n(row),
            grips_n=clamp_grips_n(row),
        )
        if found.neck(force, spec.material.modulus_mpa)[1] <= NECK_DEG:
            return found
    why = "the clamp's neck below the front cover would bend too far under the thrust"
    raise RefusalError("hold", "clamp", "nose or front_square, or less pressure", why)


def cheek_mm(spec: GateBracketSpec, force_n: float, lever_mm: float, band_mm: float) -> float:
    """Thickness of a cheek that its screws bend over the body: a cantilever, 6 F L / b t^2 across the layers.

    `lever_mm`: from where the body bears it to the screws: at a round one's axis, with its room it bears no higher.
    """
    limit = spec.sized_for.strength_across_mpa / CLAMP_SAFE
    return max(CLAMP_WALL_MM, math.ceil(2 * math.sqrt(6.0 * force_n * lever_mm / (band_mm * limit))) / 2)


def _front_d_mm(cylinder: Cylinder) -> float:
    """What stands out of the mounting face: nose thread or boss; twice the rod where neither was given."""
    if cylinder.nose_thread:
        return thread_d_mm(cylinder.nose_thread)
    return cylinder.boss_d_mm or 2 * cylinder.rod_mm


def front_cover_mm(cylinder: Cylinder) -> tuple[float, float, float]:
    """How far the front cover with its port's fitting reaches behind the mounting face; how wide it is, with room; and
    half of what the fitting takes."""
    try:
        row = cylinder_row(f"{cylinder.standard} {cylinder.bore_mm:g}")
        port, head = row.port_from_face_mm or 0.0, row.head_round_mm or 0.0
    except DataError:
        port, head = 0.0, 0.0
    try:
        half = fitting(cylinder.port).body_mm / 2 + COVER_ROOM_MM
    except DataError:
        half = PORT_HALF_MM
    port = port or PORT_IN_REL * cylinder.body_mm
    deep = max(2 * port if head > cylinder.body_mm else 0.0, port + half)
    return deep + COVER_ROOM_MM, max(head, cylinder.body_mm) + 2 * COVER_ROOM_MM, half


def fitting_reach_mm(cylinder: Cylinder) -> float:
    """How far a port's fitting stands out from the cylinder's axis."""
    try:
        above = fitting(cylinder.port).above_mm
    except DataError:
        above = FITTING_MM
    _, cover, _ = front_cover_mm(cylinder)
    return cover / 2 + above


def _refuse(key: str, found_mm: float, least_mm: float, why: str, units: Units) -> None:
    raise RefusalError(key, format_length(found_mm, units), f"{format_length(least_mm, units)} or more", why)
