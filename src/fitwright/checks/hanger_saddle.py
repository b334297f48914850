"""Findings on what the hose or pipe lies on: how wide it bears, whether it is pinched, whether an edge cuts it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.hanger_rays import swept
from fitwright.checks.hanger_say import Of, say, where
from fitwright.finding import Finding
from fitwright.hanging import Cradle, Hanging
from fitwright.physics.carried import FLEXIBLE_ADC, FLEXIBLE_SMACNA
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.printed import as_printed
from fitwright.tolerances import TOLERANCES

Numbers = NDArray[np.float64]

STEP_MM, STEP_DEG = 0.1, 4.0
END_DEG = 2.0
"""The two ends of a sector are left out by so much: there it goes over into a lip."""
BEARS_MM = 0.05
"""It bears where its face is no further than this from the bore's radius."""
FOUND_MM = 3.0
"""A face further than this from where the bore was meant to be is another one."""
RECESSED = 0.8
"""What recesses leave of the width on average (common practice, no source)."""
RIM_R_MM, RIM_SLACK_MM = 2.0, 0.1
"""No rim under a hose is sharper (common practice, no source; the duct rules say: no sharp edges)."""
RIM_TURN_DEG = 40.0
"""So far a rim is rounded at the least: what is left of the corner then lies away from the hose."""
FALLS_OFF_MM, GONE_MM = 0.03, 6.0
CLAMP_SLACK_MM = 0.3
"""A clamp may be so much narrower than its pipe in the mean: more than that stays open between its halves (common
practice, no source)."""
RATTLES = 0.03
"""A pipe with more slack than this share of its diameter rattles: warns (common practice, no source)."""
DOWN_DEG = 180.0


@dataclass(frozen=True)
class Bore:
    """What was measured: radius as modelled [mm], widths by angle (whole, and what bears of it), the rims' radius.

    `rim_mm`: least radius of the two rims; 0 where one is sharp. `narrow_deg`: where it is narrowest.
    """

    r_mm: float
    extent_mm: float
    bears_mm: float
    rim_mm: float
    narrow_deg: float


def saddles(hanging: Hanging, meshes: dict[str, trimesh.Trimesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """Findings on every cradle, and on the strap where that carries."""
    for cradle in hanging.cradles:
        found = measured(cradle, meshes[cradle.body])
        if found is None:
            message = f"no face for the {spec.carried.kind} was found at the {cradle.name}: not checked"
            yield say("bore", "fail", _of(cradle), message, "This is a fault of the build: report it.")
            continue
        yield from _size(cradle, found, spec)
        if spec.carried.kind == "hose":
            yield from _wide(cradle, found)
            yield from _rims(cradle, found)
    yield from _strap(hanging, spec)


def measured(cradle: Cradle, mesh: trimesh.Trimesh) -> Bore | None:
    """The bore by rays from its axis; None where there is no face."""
    low, high = cradle.turn_deg
    deg = np.linspace(low + END_DEG, high - END_DEG, max(3, round((high - low) / STEP_DEG)))
    rays = swept(mesh, cradle.frame, np.arange(-STEP_MM, cradle.wide_mm + 2 * STEP_MM, STEP_MM), deg)
    near = np.abs(rays.first - cradle.r_mm) <= FOUND_MM
    if not near.any():
        return None
    r = float(np.median(rays.first[near]))
    bears = np.abs(rays.first - r) <= BEARS_MM
    if not bears.any():
        return None
    seen = bears.any(axis=0)
    first, last = bears.argmax(axis=0), len(rays.s_mm) - bears[::-1].argmax(axis=0)
    extent = np.where(seen, (last - first) * STEP_MM, 0.0)
    narrow = int(extent.argmin())
    on_rim = seen & bears[len(rays.s_mm) // 2]
    rims = [_rim_mm(rays.s_mm, rays.first[:, k], r) for k in np.flatnonzero(on_rim)]
    bearing = float(bears.sum(axis=0).mean() * STEP_MM)
    return Bore(r, float(extent[narrow]), bearing, min(rims, default=0.0), float(rays.deg[narrow]))


def _rim_mm(s_mm: Numbers, first: Numbers, r: float) -> float:
    """Least radius of the rims at one angle, each up to where the bore begins; 0 where one is not rounded enough."""
    there = np.flatnonzero(np.isfinite(first) & (first < r + GONE_MM))
    middle = len(there) // 2
    halves = there[:middle], there[middle:][::-1]
    rims = [half[: int(np.argmax(first[half] - r <= FALLS_OFF_MM))] for half in halves]
    return min(_fitted(s_mm[rim], first[rim] - r) for rim in rims)


def _fitted(s_mm: Numbers, high: Numbers) -> float:
    """Radius of the arc that leaves the bore without a corner: (s - s0)^2 + h^2 = 2 R h, by least squares."""
    on = (high > FALLS_OFF_MM) & (high < GONE_MM)
    if on.sum() < 5:
        return 0.0
    s, h = s_mm[on], high[on]
    rows = np.column_stack([2.0 * s, 2.0 * h, -np.ones(len(s))])
    (s0, radius, _), *_ = np.linalg.lstsq(rows, s**2 + h**2, rcond=None)
    turned = np.degrees(np.arcsin(min(1.0, float(np.abs(s - s0).max()) / max(float(radius), 1e-9))))
    return float(radius) if radius > 0.0 and turned >= RIM_TURN_DEG else 0.0


def _of(cradle: Cradle, value: float | None = None, limit: float | None = None) -> Of:
    return Of(cradle.name, cradle.body, value, limit)


def _size(cradle: Cradle, found: Bore, spec: HoseHangerSpec) -> Iterator[Finding]:
    """The bore as it will print, against what was meant and against what lies in it."""
    bore, meant = as_printed(2 * found.r_mm, "hole", spec.printer), 2 * cradle.r_mm
    size, what = spec.carried.size, spec.carried.kind
    if abs(bore - meant) > TOLERANCES.fit_mm:
        message = f"its bore measures {bore:.2f} mm, {meant:.2f} mm was meant"
        yield say("bore", "fail", _of(cradle, bore, meant), message, "This is a fault of the build: report it.")
    least = size.nominal_mm - CLAMP_SLACK_MM if spec.style == "clamp" else size.greatest_mm
    if bore < least - TOLERANCES.fit_mm:
        message = f"its bore of {bore:.1f} mm pinches the {what} of {size.greatest_mm:.1f} mm"
        advice = f"Give it {least:.1f} mm or more ({cradle.key})."
        yield say("bore", "fail", _of(cradle, bore, least), message, advice)
        return
    slack = bore - size.least_mm
    if what == "pipe" and spec.style != "clamp" and slack > RATTLES * size.least_mm:
        message = f"the pipe of {size.least_mm:.1f} mm lies with {slack:.1f} mm of slack: it rattles"
        yield say("bore", "warn", _of(cradle, slack, RATTLES * size.least_mm), message, "Put tape or felt under it.")
        return
    sizes = f"{size.least_mm:.1f} to {size.greatest_mm:.1f} mm"
    message = f"the {what} of {sizes} lies in {bore:.1f} mm, {max(0.0, slack):.1f} mm of slack at the most"
    yield say("bore", "pass", _of(cradle, bore, least), message)


def _wide(cradle: Cradle, found: Bore) -> Iterator[Finding]:
    """How wide it bears, rims and recesses left out, against the rule for flexible duct."""
    least, fewer = FLEXIBLE_ADC.saddle_mm, FLEXIBLE_SMACNA.saddle_mm
    assert least is not None and fewer is not None
    place = where(found.narrow_deg, cradle.wide_mm / 2)
    if found.extent_mm < least - STEP_MM / 2:
        message = f"the hose lies on {found.extent_mm:.1f} mm {place}; {least:.0f} mm or more is asked so that it is"
        message += " not dented (ADC flexible duct standards, 4.6)"
        wider = cradle.wide_mm + least - found.extent_mm + STEP_MM
        advice = f"Make `width` {wider:.1f} mm or more: the rims take some of it."
        yield say("saddle", "fail", _of(cradle, found.extent_mm, least), message, advice)
    elif found.bears_mm < RECESSED * least:
        message = f"recesses leave {found.bears_mm:.1f} mm of bearing on average"
        advice = "Make `width` larger, or put the screws beside the hose."
        yield say("saddle", "fail", _of(cradle, found.bears_mm, RECESSED * least), message, advice)
    else:
        message = f"the hose lies on {found.extent_mm:.1f} mm, {found.bears_mm:.1f} mm on average without recesses"
        yield say("saddle", "pass", _of(cradle, found.extent_mm, least), message)


def _rims(cradle: Cradle, found: Bore) -> Iterator[Finding]:
    """No rim sharper than R 2."""
    if found.rim_mm < RIM_R_MM - RIM_SLACK_MM:
        sharp = "sharp" if found.rim_mm <= 0.0 else f"rounded with R {found.rim_mm:.1f} mm only"
        message = f"a rim of its bore is {sharp}: it cuts the hose"
        advice = "This is a fault of the build: report it."
        yield say("rim", "fail", _of(cradle, found.rim_mm, RIM_R_MM), message, advice)
        return
    message = f"its rims are rounded with R {found.rim_mm:.1f} mm"
    yield say("rim", "pass", _of(cradle, found.rim_mm, RIM_R_MM), message)


def carries_down(hanging: Hanging) -> bool:
    """Whether the print itself is under what it carries; else a strap carries it."""
    return any(_under(one.turn_deg) for one in hanging.cradles)


def _under(turn_deg: tuple[float, float]) -> bool:
    low, high = turn_deg
    return any(low + END_DEG <= DOWN_DEG + 360.0 * k <= high - END_DEG for k in (-2, -1, 0, 1, 2))


def _strap(hanging: Hanging, spec: HoseHangerSpec) -> Iterator[Finding]:
    """Where the hose hangs in its strap, that is its saddle."""
    if spec.style != "saddle" or carries_down(hanging):
        return
    wide, least = spec.strap.wide_mm, FLEXIBLE_ADC.saddle_mm
    assert least is not None
    of = Of("strap", "", wide, least)
    if spec.carried.kind == "hose" and wide < least - 1e-6:
        message = f"the hose hangs in its strap, which is {wide:.0f} mm wide: it is dented"
        advice = f"Take a strap of {least:.0f} mm or more (saddle: {{strap: {least:.0f}}}), or open the saddle upwards."
        yield say("saddle", "fail", of, message, advice)
        return
    yield say("saddle", "pass", of, f"the {spec.carried.kind} hangs in its strap of {wide:.0f} mm")
