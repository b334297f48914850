"""One piece of a gauge as plain numbers: a ring, a plug, or all steps in one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fitwright.errors import RefusalError
from fitwright.parts.compensation import modelled
from fitwright.parts.gauge_sizes import WINDOW_MM, GaugeSizes, piece_height_mm, step_height_mm
from fitwright.shapes.gauge import Tab, Turned, Window
from fitwright.spec.models import FitGaugeSpec, GaugeStep

FRONT_RAD = -math.pi / 2
ROOT_MM = 1.0
"""Between two tabs where they leave the wall."""


@dataclass(frozen=True)
class Mark:
    """A text and the tab it stands on; no tab: on a crossbar."""

    text: str
    tab: Tab | None


@dataclass(frozen=True)
class Round:
    """A face of a known size: modelled diameter `d_mm` from s0 to s1."""

    name: str
    kind: Literal["hole", "shaft"]
    s0_mm: float
    s1_mm: float
    d_mm: float


@dataclass(frozen=True)
class Draft:
    """A piece as plain numbers, before it has a place: what is turned, marks, windows, sizes and zones."""

    name: str
    turned: Turned
    marks: tuple[Mark, ...]
    bore_r_mm: float
    bar_half_mm: float = 0.0
    windows: tuple[Window, ...] = ()
    rounds: tuple[Round, ...] = ()
    lips: tuple[tuple[float, float, float], ...] = ()
    """Rings (s0, s1, least wall) whose chamfers leave less than the wall."""

    @property
    def reach_mm(self) -> float:
        """Greatest radius without tabs."""
        return max(r for _, r in self.turned.line)


def size_mm(step: GaugeStep, kind: str, spec: FitGaugeSpec) -> float:
    """The diameter to model; a set that measures the printer is modelled as marked."""
    return step.printed_mm if spec.calibrates else modelled(step.printed_mm, kind, spec.printer)


def draft_ring(spec: FitGaugeSpec, sizes: GaugeSizes, step: GaugeStep, name: str) -> Draft:
    """A bore with a marked tab in front; its outside is of a known size too where the step says so."""
    c, high = sizes.chamfer, piece_height_mm(spec, sizes)
    r = size_mm(step, "hole", spec) / 2
    outside = r + sizes.wall if step.outside_mm is None else step.outside_mm / 2
    bore = [(0.0, r + c), (c, r), (high - c, r), (high, r + c)]
    known = step.outside_mm is not None
    skin = [(high, outside - c), (high - c, outside), (c, outside), (0.0, outside - c)]
    line = (*bore, *(skin if known else [(high, outside), (0.0, outside)]))
    down = c if known else 0.0
    turned = Turned(line, outside, (r + c + outside - down) / 2, down)
    rounds = [Round(f"{name} hole", "hole", c, high - c, 2 * r)]
    rounds += [Round(f"{name} outside", "shaft", sizes.thick, high - c, 2 * outside)] if known else []
    lip = outside - r - c - down
    tab = Tab(FRONT_RAD, sizes.half_mm(step.mark), outside + sizes.tab_mm, sizes.thick)
    marks = (Mark(step.mark, tab),)
    return Draft(name, turned, marks, r, rounds=tuple(rounds), lips=((0.0, c, lip), (high - c, high, lip)))


def draft_plug(spec: FitGaugeSpec, sizes: GaugeSizes, step: GaugeStep, name: str) -> Draft:
    """An outside with a marked crossbar in it; where that is too short for the mark, with a tab at its foot."""
    outside, c = size_mm(step, "outside", spec) / 2, sizes.chamfer
    r, high = outside - sizes.wall, piece_height_mm(spec, sizes)
    half = sizes.bar_half_mm
    barred = half < r and 2 * math.sqrt(r * r - half * half) >= 2 * sizes.half_mm(step.mark)
    high += 0.0 if barred else sizes.thick
    foot = [(c, outside), (0.0, outside - c)] if barred else [(0.0, outside)]
    line = ((0.0, r), (high, r), (high, outside - c), (high - c, outside), *foot)
    down, start = (c, c) if barred else (0.0, sizes.thick)
    turned = Turned(line, outside, (r + outside - down) / 2, down)
    tab = None if barred else Tab(FRONT_RAD, sizes.half_mm(step.mark), outside + sizes.tab_mm, sizes.thick)
    lips = ((high - c, high, sizes.wall - c), *([(0.0, c, sizes.wall - c)] if barred else []))
    sized = Round(f"{name} outside", "shaft", start, high - c, 2 * outside)
    return Draft(name, turned, (Mark(step.mark, tab),), r, half if barred else 0.0, rounds=(sized,), lips=lips)


def draft_stepped(spec: FitGaugeSpec, sizes: GaugeSizes, name: str) -> Draft:
    """All steps in one: bores that widen upwards, or outsides that narrow upwards, so that every ledge looks up."""
    hole = spec.kind == "rings"
    steps = spec.steps if hole else spec.steps[::-1]
    radii = [size_mm(one, "hole" if hole else "outside", spec) / 2 for one in steps]
    high, c = step_height_mm(spec, sizes), sizes.chamfer
    floors = [sizes.thick + k * high for k in range(len(steps))]
    top = floors[-1] + high + c
    other = radii[-1] + sizes.wall if hole else radii[-1] - sizes.wall
    rise = _stairs(radii, [0.0, *floors[1:], top])
    if hole:
        line = ((0.0, radii[0] + c), (c, radii[0]), *rise[1:-1], (top - c, radii[-1]), (top, radii[-1] + c))
        line = (*line, (top, other), (0.0, other))
    else:
        line = (*rise[:-1], (top - c, radii[-1]), (top, radii[-1] - c), (top, other), (0.0, other))
    foot = other if hole else radii[0]
    root = (radii[0] + c + other) / 2 if hole else (other + radii[0]) / 2
    turned = Turned(tuple(line), foot, root)
    tabs = _tabs(spec, sizes, [one.mark for one in steps], turned)
    windows = tuple(
        Window(tab.turn_rad, WINDOW_MM, z + sizes.sill_mm, z + high - sizes.head_mm, *sorted((r, other)))
        for tab, z, r in zip(tabs, floors, radii, strict=True)
    )
    ends = [(z if k else (c if hole else sizes.thick), z + high) for k, z in enumerate(floors)]
    rounds = tuple(
        Round(f"{name} {one.mark}", "hole" if hole else "shaft", *ends[k], 2 * radii[k]) for k, one in enumerate(steps)
    )
    lips = ((top - c, top, sizes.wall - c), *([(0.0, c, other - radii[0] - c)] if hole else []))
    marks = tuple(Mark(one.mark, tab) for one, tab in zip(steps, tabs, strict=True))
    return Draft(name, turned, marks, min(radii[0], other), windows=windows, rounds=rounds, lips=lips)


def _stairs(radii: Sequence[float], floors: Sequence[float]) -> list[tuple[float, float]]:
    """(s, r) from the bottom to the top, a ledge at each floor between."""
    line = [(floors[0], radii[0])]
    for k, r in enumerate(radii):
        line += [(floors[k + 1], r)]
        line += [(floors[k + 1], radii[k + 1])] if k + 1 < len(radii) else []
    return line


def _tabs(spec: FitGaugeSpec, sizes: GaugeSizes, texts: Sequence[str], foot: Turned) -> list[Tab]:
    """All round, the first in front; RefusalError where there is no room for them side by side."""
    half, count = max(sizes.half_mm(text) for text in texts), len(texts)
    need = half / math.sin(math.pi / count) + ROOT_MM
    if need > foot.root_r_mm:
        found, allowed = f"stepped, {2 * foot.root_r_mm:.0f} mm wide", f"{2 * need:.0f} mm or more for {count} marks"
        raise RefusalError("form", found, f"separate, or auto; stepped needs {allowed}", "marks stand all round it")
    reach = foot.foot_r_mm + sizes.tab_mm
    return [Tab(FRONT_RAD + k * math.tau / count, half, reach, sizes.thick) for k in range(count)]
