"""The forces that a bracket's bodies bear, each from the one list: thrust, weight, knocks, hands.

**Thrust.** The stalled cylinder at the pressure at which it is run, both ways: it stands there as long as the gate is
open or shut, so it lasts. And once the thrust at the most that the regulator may be set to (`Load.most_bar`). The frame
feels the opposite of what the rod does.
**Weight** of the cylinder for good, the way that it is mounted, else any way; through its middle, which stands off.
**Knocks**: three times that weight, once, in six directions (common practice, no source: a mallet on the pipe).
**Hands**: 50 N, once, where one pushes or holds on (common practice, no source).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.gravity import GRAVITY
from fitwright.spec.gate import MountedKind
from fitwright.spec.gate_load import Load, Way

KNOCKS_G = 3.0
ASIDE: tuple[Vec, ...] = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
ALONG: tuple[Vec, ...] = ((0.0, 1.0, 0.0), (0.0, -1.0, 0.0))
FALLS: dict[MountedKind, tuple[Vec, ...]] = {
    "blade_up": ((0.0, -1.0, 0.0),),
    "blade_down": ((0.0, 1.0, 0.0),),
    "sideways": ASIDE,
    "any": (*ASIDE, *ALONG),
}
"""Where down is, by the way that the gate is mounted."""


@dataclass(frozen=True)
class Bears:
    """What is declared of one body, or of all."""

    faces: tuple[LoadFace, ...] = ()
    supports: tuple[Support, ...] = ()
    cases: tuple[LoadCase, ...] = ()


def together(several: Iterable[Bears]) -> Bears:
    """All of them as one."""
    found = list(several)
    return Bears(
        tuple(itertools.chain.from_iterable(one.faces for one in found)),
        tuple(itertools.chain.from_iterable(one.supports for one in found)),
        tuple(itertools.chain.from_iterable(one.cases for one in found)),
    )


@dataclass(frozen=True)
class Thrust:
    """The stalled thrust [N] one way at both pressures, and which way it pushes the frame."""

    rod: Way
    running_n: float
    most_n: float
    running_bar: float
    most_bar: float
    frame_way: Vec
    dragged: bool = False
    """What lasts is what the blade's drag asks for, not the stalled thrust."""


@dataclass(frozen=True)
class Hung:
    """What hangs on a body: its mass [kg], the point that its weight goes through, and where down may be."""

    kg: float
    at: Vec
    falls: tuple[Vec, ...]

    def and_kg(self, more_kg: float) -> Hung:
        """The same with what is heavier (its middle is left where it was: further out)."""
        return replace(self, kg=self.kg + more_kg)


def thrusts(load: Load, way: float) -> tuple[Thrust, Thrust]:
    """Rod out, rod in; `way`: +1 where the cylinder lies outwards of its nose, as in `GatePlan`."""
    most = max(load.most_bar, load.setting_bar)
    found = []
    ways: tuple[tuple[Way, float], ...] = (("out", way), ("in", -way))
    for rod, sign in ways:
        running, greatest = (load.cylinder.stall_n(rod, bar) for bar in (load.setting_bar, most))
        found.append(Thrust(rod, running, greatest, load.setting_bar, most, (0.0, sign, 0.0)))
    return found[0], found[1]


def stalled(
    thrust: Thrust,
    face: LoadFace,
    held: tuple[str, ...],
    at: Vec | None = None,
    limit_mm: float = 0.0,
    key: str = "frame",
) -> Iterator[LoadCase]:
    """One way's thrust on this face: as it is run, for good; at the most that it may be, once."""
    for word, force, bar, lasting in (
        ("running", thrust.running_n, thrust.running_bar, True),
        ("greatest", thrust.most_n, thrust.most_bar, False),
    ):
        if force <= 0.0:
            continue
        stands = "against the blade's drag" if lasting and thrust.dragged else "stalled"
        yield LoadCase(
            f"{word} thrust, rod {thrust.rod}, on {face.name}",
            face.body,
            face.name,
            force,
            (thrust.frame_way,),
            held,
            lasting=lasting,
            why=f"the cylinder {stands} at {bar:.1f} bar, its rod going {thrust.rod}",
            at=at,
            limit_mm=limit_mm if lasting else 0.0,
            key=key,
        )


def hung(what: Hung, face: LoadFace, held: tuple[str, ...], carries: str = "the cylinder") -> Iterator[LoadCase]:
    """Its weight for good, and knocks."""
    weight = what.kg * GRAVITY
    if weight <= 0.0:
        return
    on = face.body, face.name
    why = f"the weight of {carries}, the way it is mounted"
    yield LoadCase(
        f"weight on {face.name}", *on, weight, what.falls, held, lasting=True, why=why, at=what.at, key="support"
    )
    why = f"a knock of {KNOCKS_G:g} g on {carries}"
    force = KNOCKS_G * weight
    yield LoadCase(f"knock on {face.name}", *on, force, (*ASIDE, *ALONG), held, why=why, at=what.at, key="support")


def hand(
    face: LoadFace,
    held: tuple[str, ...],
    why: str,
    ways: tuple[Vec, ...] = (),
    at: Vec | None = None,
    key: str = "wall",
) -> LoadCase:
    """A hand on this face; pressing on it where no ways are given."""
    return LoadCase(
        f"hand on {face.name}",
        face.body,
        face.name,
        HAND_N,
        ways or (face.frame.inward,),
        held,
        why=why,
        at=at,
        key=key,
    )
