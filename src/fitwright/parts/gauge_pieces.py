"""One piece of a gauge as plain numbers: a ring, a plug, or all steps in one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fitwright.errors import RefusalError
from fitwright.parts.compensation import modelled
from fitwright.parts.gauge_sizes import WINDOW_MM, GaugeSizes, piece_height_mm, step_height_mm
from fitwright.shapes.gauge import Bars, Tab, Turned, Window
from fitwright.spec.models import FitGaugeSpec, GaugeStep

FRONT_RAD = -math.pi / 2
SPOKE_MM = 4.0
"""Width of the bar across the one that carries the mark."""
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
    bars: Bars | None = None
    windows: tuple[Window, ...] = ()
    rounds: tuple[Round, ...] = ()
    lips: tuple[tuple[float, float, float], ...] = ()
    """Rings (s0, s1, least wall) whose chamfers leave less than the wall."""

    @property
    def least_r_mm(self) -> float:
        """Least radius of what is turned."""
        return min(r for _, r in self.turned.line)

    @property
    def reach_mm(self) -> float:
        """Greatest radius without tabs."""
        return max(r for _, r in self.turned.line)


def size_mm(step: GaugeStep, kind: str, spec: FitGaugeSpec) -> float:
    """The diameter to model, as that of a joint is; a set that measures the printer is modelled as marked."""
    if spec.calibrates:
        return step.printed_mm
    error = spec.learned.size_error_mm if spec.learned else 0.0
    return modelled(step.printed_mm - error, kind, spec.printer)


def draft_ring(spec: FitGaugeSpec, sizes: GaugeSizes, step: GaugeStep, name: str) -> Draft:
    """A bore with a marked tab in front."""
    c, high = sizes.chamfer, piece_height_mm(spec, sizes)
    r = size_mm(step, "hole", spec) / 2
    outside, lip = r + sizes.wall, sizes.wall - c
    line = (*_bore(r, c, high), (high, outside), (0.0, outside))
    turned = Turned(line, outside, r, (r + c + outside) / 2, inner_chamfer_mm=c)
    rounds = (Round(f"{name} hole", "hole", c, high - c, 2 * r),)
    lips = ((0.0, c, lip), (high - c, high, lip))
    return Draft(name, turned, (_fronted(step.mark, outside, sizes),), rounds=rounds, lips=lips)


def draft_set(spec: FitGaugeSpec, sizes: GaugeSizes, step: GaugeStep, name: str) -> Draft:
    """A ring whose hole and outside are both known; crossed bars keep it from giving way to the caliper."""
    c, high = sizes.chamfer, piece_height_mm(spec, sizes)
    r, outside = size_mm(step, "hole", spec) / 2, (step.outside_mm or 0.0) / 2
    line = (*_bore(r, c, high), *_skin(outside, c, high))
    turned = Turned(line, outside, r, (r + outside) / 2, c, c)
    bars = Bars((sizes.bar_half_mm, SPOKE_MM / 2), sizes.thick) if _bar_fits(r, step.mark, sizes) else None
    mark = Mark(step.mark, None) if bars else _fronted(step.mark, outside, sizes)
    rounds = (
        Round(f"{name} hole", "hole", sizes.thick, high - c, 2 * r),
        Round(f"{name} outside", "shaft", c if bars else sizes.thick, high - c, 2 * outside),
    )
    lip = outside - r - 2 * c
    return Draft(name, turned, (mark,), bars, rounds=rounds, lips=((0.0, c, lip), (high - c, high, lip)))


def draft_plug(spec: FitGaugeSpec, sizes: GaugeSizes, step: GaugeStep, name: str) -> Draft:
    """An outside with a marked crossbar in it; where that is too short for the mark, with a tab at its foot."""
    outside, c = size_mm(step, "outside", spec) / 2, sizes.chamfer
    r, high = outside - sizes.wall, piece_height_mm(spec, sizes)
    bars = Bars((sizes.bar_half_mm,), sizes.thick) if _bar_fits(r, step.mark, sizes) else None
    high += 0.0 if bars else sizes.thick
    skin = _skin(outside, c, high) if bars else [*_skin(outside, c, high)[:2], (0.0, outside)]
    down, start = (c, c) if bars else (0.0, sizes.thick)
    turned = Turned(((0.0, r), (high, r), *skin), outside, r, (r + outside - down) / 2, down)
    mark = Mark(step.mark, None) if bars else _fronted(step.mark, outside, sizes)
    lips = ((high - c, high, sizes.wall - c), *([(0.0, c, sizes.wall - c)] if bars else []))
    sized = Round(f"{name} outside", "shaft", start, high - c, 2 * outside)
    return Draft(name, turned, (mark,), bars, rounds=(sized,), lips=lips)


def _bore(r: float, c: float, high: float) -> list[tuple[float, float]]:
    """(s, r) of a bore from the bottom up, chamfered at both ends."""
    return [(0.0, r + c), (c, r), (high - c, r), (high, r + c)]


def _skin(r: float, c: float, high: float) -> list[tuple[float, float]]:
    """(s, r) of an outside from the top down, chamfered at both ends."""
    return [(high, r - c), (high - c, r), (c, r), (0.0, r - c)]


def _bar_fits(bore_r: float, text: str, sizes: GaugeSizes) -> bool:
    half = sizes.bar_half_mm
    return half < bore_r and math.sqrt(bore_r**2 - half**2) >= sizes.half_mm(text)


def _fronted(text: str, outside: float, sizes: GaugeSizes) -> Mark:
    return Mark(text, Tab(FRONT_RAD, sizes.half_mm(text), outside + sizes.tab_mm, sizes.thick))


def draft_stepped(spec: FitGaugeSpec, sizes: GaugeSizes, name: str) -> Draft:
    """All steps in one: bores that widen upwards, or outsides that narrow upwards, so that every ledge looks up.

    The wall's other face is a cone that follows the steps.
    """
    hole = spec.kind == "rings"
    steps = spec.steps if hole else spec.steps[::-1]
    kind: Literal["hole", "shaft"] = "hole" if hole else "shaft"
    radii = [size_mm(one, "hole" if hole else "outside", spec) / 2 for one in steps]
    high, c = step_height_mm(spec, sizes), sizes.chamfer
    floors = [sizes.thick + k * high for k in range(len(steps))]
    slope = (radii[1] - radii[0]) / high
    away = sizes.wall * math.sqrt(1 + slope**2) * (1.0 if hole else -1.0)
    turned = _stairs(radii, floors, high, away, c)
    tabs = _tabs(sizes, [one.mark for one in steps], turned)
    slopes = [slope] * (len(radii) - 1) + [0.0]
    windows = [
        _window(tab, z, r, m, away, high, sizes) for tab, z, r, m in zip(tabs, floors, radii, slopes, strict=True)
    ]
    starts = [c if hole else sizes.thick, *floors[1:]]
    rounds = tuple(
        Round(f"{name} {one.mark}", kind, starts[k], floors[k] + high, 2 * radii[k]) for k, one in enumerate(steps)
    )
    top, lip = turned.top_mm, sizes.wall - c
    lips = ((top - c, top, lip), *([(0.0, c, lip)] if hole else []))
    marks = tuple(Mark(one.mark, tab) for one, tab in zip(steps, tabs, strict=True))
    return Draft(name, turned, marks, windows=tuple(windows), rounds=rounds, lips=lips)


def _stairs(radii: Sequence[float], floors: Sequence[float], high: float, away: float, c: float) -> Turned:
    """The steps from the bottom up, a chamfer on top (and under a bore); the other face, `away` from them, down."""
    hole, top = away > 0, floors[-1] + high + c
    line = [(0.0, radii[0] + c), (c, radii[0])] if hole else [(0.0, radii[0])]
    for floor, below, above in zip(floors[1:], radii, radii[1:], strict=False):
        line += [(floor, below), (floor, above)]
    line += [(top - c, radii[-1]), (top, radii[-1] + (c if hole else -c))]
    last, first = radii[-1] + away, radii[0] + away
    line += [(top, last), (floors[-1], last), (floors[0], first), (0.0, first)]
    if hole:
        return Turned(tuple(line), first, radii[0], (radii[0] + c + first) / 2, inner_chamfer_mm=c)
    return Turned(tuple(line), radii[0], first, (first + radii[0]) / 2)


def _window(tab: Tab, floor: float, r: float, slope: float, away: float, high: float, sizes: GaugeSizes) -> Window:
    """Over its tab, just above the floor of its step; the last step's other face runs straight up."""
    s0, s1 = floor + sizes.sill_mm, floor + high - sizes.head_mm
    other = r + away + slope * (s0 - floor), r + away + slope * (s1 - floor)
    faces = ((r, r), other) if away > 0 else (other, (r, r))
    return Window(tab.turn_rad, WINDOW_MM, s0, s1, *faces)


def _tabs(sizes: GaugeSizes, texts: Sequence[str], foot: Turned) -> list[Tab]:
    """All round, the first in front; RefusalError where there is no room for them side by side."""
    half, count = max(sizes.half_mm(text) for text in texts), len(texts)
    need = half / math.sin(math.pi / count) + ROOT_MM
    if need > foot.root_r_mm:
        found, allowed = f"stepped, {2 * foot.root_r_mm:.0f} mm wide", f"{2 * need:.0f} mm or more for {count} marks"
        raise RefusalError("form", found, f"separate, or auto; stepped needs {allowed}", "marks stand all round it")
    reach = max(r for _, r in foot.line) + sizes.tab_mm
    return [Tab(FRONT_RAD + k * math.tau / count, half, reach, sizes.thick) for k in range(count)]
