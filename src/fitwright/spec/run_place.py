"""Where the last hanger would have to be, where no length of hose serves a moving head with it as it is."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fitwright.frame import Vec
from fitwright.spec.run import RunSpec, Station
from fitwright.spec.run_solved import moving_piece

SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Of the way to above the middle of the travel."""
STEP_MM, DOWN_MM, UP_MM = 100.0, 500.0, 1500.0


@dataclass(frozen=True)
class Better:
    """A place that works, and how far it is from the present one; `new`: a hanger where there is none."""

    at: Vec
    shift: Vec
    new: bool = False


def better_place(run: RunSpec, before_trolley_mm: float) -> Better | None:
    """The nearest place found: moved towards above the middle of the travel, lowered by up to 0.5 m or raised."""
    assert run.head is not None
    last, new = run.stations[-1], not run.stations[-1].is_hanger
    if new:
        box = run.head.box
        middle = tuple((lo + hi) / 2 for lo, hi in zip(box.low, box.high, strict=True))
        last = Station("new hanger", (middle[0], middle[1], box.high[2]), "hangers", way="follows")
        run = replace(run, stations=(*run.stations, last))
    for shift in sorted(_shifts(run, last), key=lambda one: math.hypot(*one)):
        if moving_piece(run, before_trolley_mm, shift).serves_all():
            x, y, z = (a + s for a, s in zip(last.at, shift, strict=True))
            return Better((x, y, z), shift, new)
    return None


def _shifts(run: RunSpec, last: Station) -> Iterator[Vec]:
    assert run.head is not None
    box = run.head.box
    aside = [(lo + hi) / 2 - at for lo, hi, at in zip(box.low, box.high, last.at, strict=True)]
    highest = last.at[2] + UP_MM if run.ceiling_mm is None else run.ceiling_mm
    count = max(0, math.floor((highest - last.at[2]) / STEP_MM + 1e-9))
    ups = [k * STEP_MM for k in range(-round(DOWN_MM / STEP_MM), count + 1)]
    shares = SHARES if last.rail is None else SHARES[:1]
    for share, up in itertools.product(shares, ups):
        if last.at[2] + up <= highest + 1e-9 and (share or up):
            yield share * aside[0], share * aside[1], up
