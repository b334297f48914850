"""Findings on what holds a hanger: forces on each screw from weight and from a snag, against what gives first."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.hanger_holds import Holds, what_holds
from fitwright.checks.hanger_say import Of, say, way
from fitwright.checks.hanger_seats import SeatFound
from fitwright.errors import DataError
from fitwright.finding import Finding
from fitwright.frame import Vec
from fitwright.hanging import Hanging, HeldBy
from fitwright.physics.fixing import Plate, ScrewForces, Vec3, screw_forces, worst_of_any_direction
from fitwright.physics.wood import ONCE_SHARE, PERMITTED_SHARE
from fitwright.spec.hanger import HoseHangerSpec

Numbers = NDArray[np.float64]

TIED = "Screw it where it may be caught; wider ties (mount.tie) help little."
MOST = 999.0
"""More times than this are said as so many."""
NO_SAFE_LOAD = "no safe load is claimed: try it with four times the weight before it hangs over anything"


@dataclass(frozen=True)
class Surface:
    """The mounting surface as a plane of its own: right and up on it, z out of it."""

    origin: Numbers
    axes: Numbers

    def at(self, point: Vec) -> Vec3:
        """A point of the part."""
        x, y, z = self.axes @ (np.array(point) - self.origin)
        return float(x), float(y), float(z)

    def along(self, vector: Vec) -> Vec3:
        """A direction or force of the part."""
        x, y, z = self.axes @ np.array(vector)
        return float(x), float(y), float(z)

    def back(self, vector: Vec3) -> Vec:
        """A direction of the surface, in the part."""
        x, y, z = self.axes.T @ np.array(vector)
        return float(x), float(y), float(z)


@dataclass(frozen=True)
class Felt:
    """The worst of all screws: how much of what is permitted is used; what it feels [N]; from where."""

    used: float
    one: HeldBy
    holds: Holds
    tension_n: float
    shear_n: float
    way: Vec = (0.0, 0.0, -1.0)


def fixings(hanging: Hanging, seats: dict[str, SeatFound], spec: HoseHangerSpec) -> Iterator[Finding]:
    """All findings on what holds it."""
    if not hanging.held:
        message = "nothing is declared that holds it: not checked"
        yield say("fixing", "fail", Of("mount"), message, "This is a fault of the build: report it.")
        return
    try:
        lasting, snag = felt(hanging, seats, spec)
    except (DataError, ValueError) as error:
        of = Of(hanging.held[0].key)
        yield say("fixing", "fail", of, f"not checked: {error}", "Give a screw and a wood that the tables know.")
        return
    yield _judged(lasting, hanging, seats, spec, "for good")
    yield _judged(snag, hanging, seats, spec, "snag")


def felt(hanging: Hanging, seats: dict[str, SeatFound], spec: HoseHangerSpec) -> tuple[Felt, Felt]:
    """The worst screw under the lasting weight, and under weight and a snag from the worst direction."""
    surface = surface_of(hanging)
    corners = [surface.at(p)[:2] for p in hanging.plate]
    plate = Plate(tuple(corners), tuple(surface.at(one.at)[:2] for one in hanging.held))
    holds = [what_holds(one, seats[one.name].thick_mm, _edge_mm(plate, k), spec) for k, one in enumerate(hanging.held)]
    down = surface.along((0.0, 0.0, -hanging.lasting_n))
    weights = [(down, surface.at(point)) for point in hanging.load_at]
    lasting = [
        Felt(h.hold.used(t, s), one, h, t, s)
        for still in _still(hanging, surface, plate)
        for one, h, t, s in zip(hanging.held, holds, still.tension_n, still.shears_n, strict=True)
    ]
    snags = [f for point in hanging.load_at for f in _snag(hanging, surface, plate, holds, weights, point)]
    return max(lasting, key=lambda f: f.used), max(snags, key=lambda f: f.used)


def _still(hanging: Hanging, surface: Surface, plate: Plate) -> list[ScrewForces]:
    """Forces for good: the weight alone, or with a level pull of the hose from any of eight sides."""
    turns = [k * math.pi / 4 for k in range(8)] if hanging.level_n > 0.0 else [0.0]
    found = []
    for turn in turns:
        aside, along = hanging.level_n * math.cos(turn), hanging.level_n * math.sin(turn)
        force = surface.along((aside, along, -hanging.lasting_n))
        found.append(screw_forces(plate, [(force, surface.at(point)) for point in hanging.load_at]))
    return found


def surface_of(hanging: Hanging) -> Surface:
    """Its axes: along the plate's first edge, square to it, and out of what holds the hanger."""
    corners = np.array(hanging.plate, dtype=float)
    out = -np.array(hanging.held[0].direction, dtype=float)
    x = corners[1] - corners[0]
    x -= (x @ out) * out
    x /= np.linalg.norm(x)
    return Surface(corners[0], np.stack([x, np.cross(out, x), out]))


def _edge_mm(plate: Plate, number: int) -> float:
    """From a screw to the nearest edge of the plate."""
    hull, point = plate.hull, np.array(plate.screws[number])
    along = np.roll(hull, -1, axis=0) - hull
    normal = np.stack([-along[:, 1], along[:, 0]], axis=1) / np.linalg.norm(along, axis=1, keepdims=True)
    return float((normal * (point - hull)).sum(axis=1).min())


def _snag(
    hanging: Hanging,
    surface: Surface,
    plate: Plate,
    holds: Sequence[Holds],
    weights: list[tuple[Vec3, Vec3]],
    point: Vec,
) -> Iterator[Felt]:
    """Every screw at its worst, for a snag at this point."""
    permitted = min(h.hold.once_tension_n for h in holds), min(h.hold.once_shear_n for h in holds)
    if min(permitted) <= 0.0:
        raise ValueError(f"{hanging.held[0].size} holds nothing in {hanging.held[0].wood or 'what it goes into'}")
    found = worst_of_any_direction(plate, hanging.snag_n, surface.at(point), *permitted, weights)
    for one, held, worst in zip(hanging.held, holds, found, strict=True):
        yield Felt(worst.used, one, held, worst.tension_n, worst.shear_n, surface.back(worst.direction))


def _judged(worst: Felt, hanging: Hanging, seats: dict[str, SeatFound], spec: HoseHangerSpec, kind: str) -> Finding:
    """One finding: what the worst screw feels, what it bears, how much of it is permitted."""
    hold, snag = worst.holds.hold, kind == "snag"
    permitted = (hold.once_tension_n, hold.once_shear_n) if snag else (hold.lasting_tension_n, hold.lasting_shear_n)
    share = f"permitted {'once' if snag else 'for good'} {permitted[0]:.0f} and {permitted[1]:.0f} N"
    factor = ONCE_SHARE if snag else PERMITTED_SHARE
    share += f" (factor {1.0 / factor:g}{' pulled, aside what bends it' if snag else ''})"
    load = f"a snag of {hanging.snag_n:.0f} N ({way(worst.way)})" if snag else f"{_weight(hanging):.0f} N for good"
    if not snag and hanging.level_n > 0.0:
        load += f", and {hanging.level_n:.0f} N level along the hose"
    message = f"{load}: {worst.one.name} feels {worst.tension_n:.0f} N pulled and {worst.shear_n:.0f} N aside; "
    message += f"{worst.holds.words}: {hold.gives_first} at {hold.tension_n:.0f} N, aside it gives at "
    message += f"{hold.shear_n:.0f} N; {share}, of which {worst.used:.0%} is used"
    message += "" if snag else f"; {NO_SAFE_LOAD}"
    of = Of(worst.one.key, "", min(MOST, 1.0 / max(worst.used, 1.0 / MOST)), 1.0, "times")
    code = "snag" if snag else "fixing"
    if worst.used <= 1.0:
        return say(code, "pass", of, message)
    if snag and worst.one.into == "tie":  # it slips and turns on its bar before that
        return say(code, "warn", of, f"{message}: it turns on its bar or tears", TIED)
    return say(code, "fail", of, message, _instead(hanging, seats, spec))


def _weight(hanging: Hanging) -> float:
    return hanging.lasting_n * len(hanging.load_at)


def _instead(hanging: Hanging, seats: dict[str, SeatFound], spec: HoseHangerSpec) -> str:
    """Longer, thicker or more screws that would do; else a wider base."""
    for words, changed in _tries(hanging):
        if any(0.0 < one.deep_mm < one.grip_mm for one in changed.held):
            continue
        try:
            lasting, snag = felt(changed, seats, spec)
        except (DataError, ValueError):
            continue
        if max(lasting.used, snag.used) <= 1.0:
            return words
    count, key, into = len(hanging.held), hanging.held[0].key, hanging.held[0].into
    if into in ("slot", "channel"):
        return f"A thicker bolt where it goes in ({key}), `runs: across`, or a mount with screws set further apart."
    if into == "rod":
        return f"A thicker rod ({key}), or a mount with two screws or more: a snag turns it about a single rod."
    return (
        f"No longer or thicker one that was tried does: more than {count} of them, further apart, or a hanger that"
        f" stands less far out ({key})."
    )


def _tries(hanging: Hanging) -> Iterator[tuple[str, Hanging]]:
    """Changes that a user could make, the easiest first."""
    first = hanging.held[0]
    if first.into != "wood":
        return
    for more in (10.0, 20.0, 30.0, 40.0):
        held = tuple(replace(one, grip_mm=one.grip_mm + more) for one in hanging.held)
        yield f"Screws {more:.0f} mm longer ({first.key}.length).", replace(hanging, held=held)
    for size in ("5.0 mm", "6.0 mm", "8 mm coach", "10 mm coach"):
        for more in (0.0, 20.0, 40.0):
            d = float(size.split()[0])
            if d <= first.d_mm:
                continue
            washer = max(first.washer_d_mm, 2.5 * d)
            held = tuple(
                replace(one, size=size, d_mm=d, washer_d_mm=washer, hole_d_mm=1.1 * d, grip_mm=one.grip_mm + more)
                for one in hanging.held
            )
            longer = f", {more:.0f} mm longer" if more else ""
            yield (
                f"Screws of {size}{longer} with washers of {washer:.0f} mm ({first.key}.size).",
                replace(hanging, held=held),
            )
