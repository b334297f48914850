"""Check `strength.ring`: does a hose tail bear its band, and the passage the collector's suction, at the wall as built?

Closed forms (physics/ring.py) on the wall that is measured on the finished mesh. See docs/checks/strength.ring.md.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fitwright.checks.ring_wall import RingWall, ring_wall
from fitwright.checks.strength_say import warm_words
from fitwright.finding import Finding, Severity
from fitwright.mesh import BodyMesh
from fitwright.part import Body, FitSurface, Frame, Part
from fitwright.physics.hose_band import BAND_N, N_OF_NM, kept_share
from fitwright.physics.ring import band_mpa, hoop_mpa, long_tube_mpa, stub_mpa, tube_mpa, under_band
from fitwright.place import words
from fitwright.spec.air_run import suction_of
from fitwright.spec.suction import Suction, suction_words
from fitwright.units import Units

if TYPE_CHECKING:
    from fitwright.spec.models import Material
    from fitwright.spec.part_base import PartBase

CODE = "strength.ring"
WANTED = 1.5
"""A safety factor below this warns, one below 1 blocks, as in the check `strength`."""
STATIONS, MARGIN = 9, 0.06
COLLAR_MM = 2.0
"""The hose stop, which is stiff, begins so far behind the land."""
TIE_N = 30.0
"""No band is drawn as gently as that by hand (common practice, no source)."""
THICKER_MM = 0.1
"""A wall that would hold is looked for in such steps."""
LEAST_ROUND = 0.98
"""A section counts as round where its narrowest radius is this share of its widest."""


@dataclass(frozen=True)
class Tail:
    """A tail under its band: outside and band [mm], mean and least wall [mm], free length from mouth to hose stop."""

    d_mm: float
    band_mm: float
    wall_mm: float
    least_mm: float
    free_mm: float


@dataclass(frozen=True)
class Judged:
    """A safety factor, what it is of, the one that is wanted, and whether falling short of 1 breaks the tail."""

    factor: float
    said: str
    wanted: float = WANTED
    breaks: bool = True

    @property
    def severity(self) -> Severity:
        """A pass from what is wanted on; below 1 it blocks where it breaks."""
        if self.factor >= self.wanted:
            return "pass"
        return "fail" if self.factor < 1.0 and self.breaks else "warn"

    @property
    def order(self) -> tuple[bool, float]:
        """What blocks comes first, then what falls furthest short."""
        return self.severity != "fail", self.factor / self.wanted


def ring_findings(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """One finding for each tail with a band, one a body for suction on its round passage."""
    found: list[Finding] = []
    for body in part.printed:
        finished = meshes.get(body.name)
        for fit in body.fits:
            if fit.seal == "hose clamp" and fit.kind == "shaft":
                found.append(_tail(body, fit, finished, spec))
        found += _suction(part, body, finished, spec)
    return found


def _tail(body: Body, fit: FitSurface, finished: BodyMesh | None, spec: PartBase) -> Finding:
    end = spec.ends[fit.joint]
    band = end.hose_tail.band_mm if end.hose_tail else 0.0
    place = f"{fit.joint}.hose_tail"
    if (backed := _backed(spec)) is not None:
        message = f"{fit.name}: {backed}, so that the band's squeeze goes into that"
        return Finding(CODE, "pass", body.name, None, WANTED, "", place, message)
    walls = [] if finished is None else [w for w in _walls(finished, fit) if w is not None]
    if not walls:
        message = f"{fit.name}: not checked: its wall was not found on the mesh"
        return Finding(CODE, "fail", body.name, None, WANTED, "", place, message, "Report it: this is our fault.")
    tail = Tail(
        2.0 * max(w.outer_mm for w in walls),
        band,
        _borne_mm(min(w.wall_mm for w in walls), spec),
        _borne_mm(min(w.least_mm for w in walls), spec),
        fit.s1_mm + COLLAR_MM,
    )
    material = spec.material.at(spec.near_heat_c)
    worst = min(judged(tail, material), key=lambda one: one.order)
    press = band_mpa(BAND_N, band, tail.d_mm)
    message = (
        f"{fit.name}: a hose clamp turned tight ({BAND_N:g} N in a band of {band:g} mm) presses with {press:.2f} MPa "
        f"on a wall of {tail.wall_mm:.2f} mm: safety factor {worst.factor:.2g}, {worst.said}{warm_words(spec)}"
    )
    advice = "" if worst.severity == "pass" else _advice(f"{place}.wall", tail, material)
    return Finding(CODE, worst.severity, body.name, round(worst.factor, 3), worst.wanted, "", place, message, advice)


def _backed(spec: PartBase) -> str | None:
    """What stands in the tail under its band, where something does."""
    if getattr(spec, "line", "") == "nested":
        return "the pipe stands in the sleeve under the band"
    return "the slit closes under the band onto the pipe in it" if getattr(spec, "slit", None) else None


def judged(tail: Tail, material: Material) -> Iterator[Judged]:
    """The ways in which a band can crush a tail.

    Hoop stress when the band is turned tight (the wall beside the band helps); what is left of it once the tail has
    crept, against what the filament bears for good; and the ring folding in.
    """
    r_out, press = tail.d_mm / 2.0, band_mpa(BAND_N, tail.band_mm, tail.d_mm)
    nu = material.poisson
    helped = under_band(tail.band_mm, tail.least_mm, r_out - tail.least_mm / 2.0, nu)
    hoop = hoop_mpa(press, r_out, r_out - tail.least_mm) * helped
    yield Judged(
        material.strength_mpa / hoop, f"{hoop:.1f} MPa round the ring, where {material.strength_mpa:.3g} crush it"
    )
    kept = kept_share(tail.band_mm, tail.d_mm, tail.least_mm, material.modulus_mpa, material.creep_share, nu)
    lasting = hoop * kept
    said = (
        f"{lasting:.1f} MPa round the ring stay ({100 * kept:.0f} % of what it was when tightened) where "
        f"{material.lasting_mpa:.3g} MPa last"
    )
    factor = material.lasting_mpa / lasting
    yield Judged(factor, said if factor >= 1.0 else f"{said}: it creeps until the band is loose", 1.0, breaks=False)
    share = min(1.0, tail.band_mm / tail.free_mm)
    folds = stub_mpa(material.modulus_mpa, tail.wall_mm, r_out - tail.wall_mm / 2.0, tail.free_mm, nu) / share
    now, later = folds / press, material.creep_share * folds / (kept * press)
    yield Judged(now, f"the ring folds in at {folds:.2g} MPa", breaks=not material.soft)
    said = f"the ring, crept, folds in at {material.creep_share * folds:.2g} MPa, and {kept * press:.2g} stay"
    yield Judged(later, said, breaks=not material.soft)


def _advice(key: str, tail: Tail, material: Material) -> str:
    """The wall that would hold, and how tight the band may be drawn."""
    bears = BAND_N * min(one.factor / one.wanted for one in judged(tail, material))
    gently = f"draw the band to {bears:.0f} N at the most ({bears / N_OF_NM:.2g} N m on its screw)"
    if bears < TIE_N:
        gently = "glue or tape the hose on in place of a band"
    if material.soft:
        return f"{material.name} gives way under it: {gently}, or print the tail in a stiff filament."
    need = _would_hold_mm(tail, material)
    return f"{key}: {need:.1f} mm would hold; or {gently}." if need else f"No wall would hold: {gently}."


def _would_hold_mm(tail: Tail, material: Material) -> float:
    """The least thicker wall that passes [mm]; 0 where none under a quarter of the diameter does."""
    for step in range(1, int(tail.d_mm / 4.0 / THICKER_MM)):
        more = step * THICKER_MM
        thick = replace(tail, wall_mm=tail.wall_mm + more, least_mm=tail.least_mm + more)
        if all(one.severity == "pass" for one in judged(thick, material)):
            return math.ceil(10.0 * thick.least_mm - 1e-6) / 10.0
    return 0.0


def _walls(finished: BodyMesh, fit: FitSurface) -> Iterator[RingWall | None]:
    """The wall at several depths of the land."""
    long = fit.s1_mm - fit.s0_mm
    for k in range(STATIONS):
        s = fit.s0_mm + long * (MARGIN + (1.0 - 2.0 * MARGIN) * k / (STATIONS - 1))
        at = Frame(fit.frame.point(0.0, s, 0.0), fit.frame.inward, fit.frame.right)
        yield ring_wall(finished.mesh, at, fit.turn_share)


def _borne_mm(wall_mm: float, spec: PartBase) -> float:
    """The solid wall that bears as much: lines on both sides count in full, what is filled between by its share."""
    solid = min(wall_mm, 2.0 * spec.infill.walls * spec.printer.line_mm)
    return solid + spec.infill.share * (wall_mm - solid)


def _suction(part: Part, body: Body, finished: BodyMesh | None, spec: PartBase) -> Iterator[Finding]:
    """The thinnest round ring of the passage, sucked in at once behind a shut gate or, in time, while it runs.

    Its ends count as held round half a diameter beyond the first and the last station: there the joints are.
    """
    places = [one.frame for one in part.stations]
    if finished is None or not places or _backed(spec) is not None:
        return
    rings = [(at, ring) for at in places if (ring := ring_wall(finished.mesh, at)) and ring.round_share > LEAST_ROUND]
    if not rings:
        return
    pull = suction_of(spec)
    long = _length_mm(places) + 2.0 * max(ring.outer_mm for _, ring in rings)
    at, ring, worst = min(
        ((at, ring, min(sucked(_borne_mm(ring.wall_mm, spec), ring, long, pull, spec))) for at, ring in rings),
        key=lambda one: one[2],
    )
    factor, bears, said = worst
    severity = Judged(factor, "").severity
    message = (
        f"passage near {words(at.origin)}: the ring of {2 * ring.outer_mm:.1f} mm, wall {ring.wall_mm:.2f} mm, stands "
        f"{_stands(1e6 * bears, spec.units)} {said}; {pull.words(spec.units)}{warm_words(spec)}"
    )
    advice = "" if severity == "pass" else _thicker(ring, long, pull, spec)
    yield Finding(CODE, severity, body.name, round(factor, 2), WANTED, "", "wall", message, advice)


def _stands(pa: float, units: Units) -> str:
    """No suction is greater than the air's own pressure."""
    return f"{suction_words(pa, units)} of suction" if pa < ATMOSPHERE_PA else "more than a full vacuum"


ATMOSPHERE_PA = 101_325.0
Sucked = tuple[float, float, str]
"""Safety factor, what the ring stands [MPa], and whether that is at once or for good."""


def sucked(wall_mm: float, ring: RingWall, long_mm: float, pull: Suction, spec: PartBase) -> Iterator[Sucked]:
    """What a solid wall in the place of this ring's stands, at once against a shut gate and for good while it runs."""
    material, r = spec.in_place, ring.outer_mm - ring.wall_mm / 2.0
    nu = material.poisson
    for modulus, pa, said in (
        (material.modulus_mpa, pull.shut_pa, "at once"),
        (material.lasting_modulus_mpa, pull.lasting_pa, "for good"),
    ):
        bears = max(long_tube_mpa(modulus, wall_mm, r, nu), tube_mpa(modulus, wall_mm, r, long_mm, nu))
        yield bears / (1e-6 * pa), bears, said


def _thicker(ring: RingWall, long_mm: float, pull: Suction, spec: PartBase) -> str:
    """The least thicker wall that passes, in words."""
    for step in range(1, int(ring.outer_mm / 4.0 / THICKER_MM)):
        wall = ring.wall_mm + step * THICKER_MM
        if min(sucked(_borne_mm(wall, spec), ring, long_mm, pull, spec))[0] >= WANTED:
            return f"A wall of {math.ceil(10.0 * wall - 1e-6) / 10.0:.1f} mm would hold (wall), or a stiffer filament."
    return "No wall would hold: a stiffer filament, or a narrower passage."


def _length_mm(places: Sequence[Frame]) -> float:
    """Along the passage from the first station to the last."""
    points = [one.origin for one in places]
    return max(1.0, sum(math.dist(a, b) for a, b in itertools.pairwise(points)))
