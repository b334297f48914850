"""What is to be analysed and what comes of it: plain numbers that go to a process of their own and back."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.physics.filament import CREEP_SHARE, SUSTAINED_SHARE


@dataclass(frozen=True)
class Elastic:
    """A filament as printed, at the temperature of the place: modulus and strengths in MPa, Poisson's ratio.

    `across_mpa`: tension between layers. `sustained`: the share of both strengths that it bears for good; `creep`: the
    share of the modulus that is left for good.
    """

    modulus_mpa: float
    poisson: float
    strength_mpa: float
    across_mpa: float
    sustained: float = SUSTAINED_SHARE
    creep: float = CREEP_SHARE


@dataclass(frozen=True)
class Infill:
    """How it is filled deeper than `skin_mm` below its surface: `share` of the volume, 1 where it is solid.

    Strength and modulus of the fill are taken as share ** 1.5, between the share itself (walls in the load's direction)
    and its square (an open foam that bends: Gibson and Ashby, Cellular Solids, 1997, ch. 5).
    """

    share: float = 1.0
    skin_mm: float = 0.0

    @property
    def knock_down(self) -> float:
        """Share of strength and modulus that is left in the fill.

        >>> round(Infill(0.25).knock_down, 3)
        0.125
        """
        return float(self.share**1.5)


@dataclass(frozen=True)
class Effort:
    """How much is spent: element size [mm] (None: by the wall and the surface), refinements, unknowns.

    Never by the clock: the same part gives the same answer on any machine.
    """

    size_mm: float | None = None
    refinements: int = 5
    unknowns: int = 260_000
    fixed_per_mm: float = 2.0
    """What a `fixed` face is held by, over its area: modulus x this [1/mm]: about as stiff as the thing it sits on."""
    seat_n_mm3: float = 20.0
    """What a seat lies on: wood across its grain, 400 MPa over 20 mm of depth (common practice, no source)."""


@dataclass(frozen=True)
class Task:
    """One body: its shape as the kernel writes it (`brep`, mm), what bears, what holds, of what, how it was printed.

    `layers`: the direction square to the layers, None where there are none. `wall_mm`: its usual wall.
    """

    body: str
    brep: str
    wall_mm: float
    faces: tuple[LoadFace, ...]
    supports: tuple[Support, ...]
    cases: tuple[LoadCase, ...]
    elastic: Elastic
    layers: Vec | None = None
    infill: Infill = Infill()
    effort: Effort = Effort()
    volume_mm3: float | None = None


@dataclass(frozen=True)
class Peak:
    """The place that is nearest to giving way: its use (1: gives way), how, where [mm], the stress there [MPa]."""

    use: float
    how: str
    at: Vec
    stress_mpa: float
    limit_mpa: float


@dataclass(frozen=True)
class CaseAnswer:
    """One load case from its worst direction, as the seats press only; beside it the bounds.

    `moved_mm`: of the loaded face along the force. `glued_*` and `loose_*`: the same with seats that hold both ways,
    and without any; equal where there is no seat. `bearing`: the worst of what washers and loaded faces
    press, by hand, from whichever direction.
    """

    name: str
    direction: Vec | None
    peak: Peak
    moved_mm: float
    glued_use: float
    loose_use: float
    glued_mm: float
    loose_mm: float
    bearing: tuple[str, float] = ("", 0.0)
    """Face and mean pressure [MPa] under it."""


@dataclass(frozen=True)
class Spent:
    """How the answer was reached: elements, unknowns, refinements, seconds, what the last refinement still changed."""

    elements: int
    unknowns: int
    refinements: int
    seconds: float
    moved_change: float
    """Greatest relative change of a governing movement in the last refinement; nan where there was none."""
    use_change: float
    fine: bool = True
    """Settled, or nothing left to divide: elements are as fine as the stress's mean asks at every governing place."""


@dataclass(frozen=True)
class Answer:
    """All cases of a body; `why` says why there is none (not analysed), and then `cases` is empty."""

    body: str
    cases: tuple[CaseAnswer, ...] = ()
    spent: Spent | None = None
    why: str = ""
