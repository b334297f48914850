"""A slit along a whole sleeve: how wide it must be to close round both pipes, its cutter, and what the report says."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.part import FitSurface
from fitwright.parts.ends import PlacedEnd
from fitwright.parts.fit_faces import fit_surface
from fitwright.physics.fits import clearance_range
from fitwright.shapes.joint import Tool
from fitwright.shapes.profile import Polyline
from fitwright.shapes.slit import slit_tool, strip_mm3
from fitwright.spec.models import ReducerSpec

LEAST_MM, LEFT_MM, STEP_MM = 3.0, 0.5, 0.5
"""Default width: at least 3 mm, and half a millimetre left open in the loosest case, so that the bands grip."""
OF_BORE = 0.3
"""A wider slit than this share of the narrowest bore leaves no sleeve (common practice, no source)."""


@dataclass(frozen=True)
class SlitCut:
    """The slit: its cutter, the volume it takes [mm3], its width and what is left of it when closed [mm]."""

    tool: Tool
    volume_mm3: float
    width_mm: float
    left_mm: tuple[float, float]


def slit_cut(
    spec: ReducerSpec, ends: tuple[PlacedEnd, PlacedEnd], frame: Frame, outer: Polyline, inner: Polyline
) -> SlitCut | None:
    """The slit through a sleeve turned from these half-profiles, None where none is asked for.

    RefusalError where it cannot close round the loosest pair, is wider than the sleeve allows, or runs into screws.
    """
    if spec.slit is None:
        return None
    low, high, need = _play(spec, ends)
    width = spec.slit.width_mm
    if width is None:
        width = max(LEAST_MM, math.ceil((need + LEFT_MM) / STEP_MM - 1e-9) * STEP_MM)
    _check_width(width, need, inner, given=spec.slit.width_mm is not None)
    for end in ends:
        _check_screws(end, width)
    tool = Tool("slit", slit_tool(frame, width, outer))
    taken = strip_mm3(outer, width) - strip_mm3(inner, width)
    return SlitCut(tool, taken, width, (width - math.pi * high, width - math.pi * low))


def _play(spec: ReducerSpec, ends: tuple[PlacedEnd, PlacedEnd]) -> tuple[float, float, float]:
    """Least and greatest diametral play round the pipes inside, and the width that the slit needs [mm].

    A nested sleeve must also close by what its outside is too large for what goes over it.
    """
    fits = [f for end in ends if (f := fit_surface(end.plan, end.shape, end.frame))]
    inside = [_clearances(f, spec) for f in fits if f.kind == "hole"]
    outside = [-_clearances(f, spec)[0] for f in fits if f.kind == "shaft"]
    low, high = max(0.0, min(a for a, _ in inside)), max(0.0, *(b for _, b in inside))
    return low, high, math.pi * max(high, *outside, 0.0)


def _clearances(fit: FitSurface, spec: ReducerSpec) -> tuple[float, float]:
    scatter = spec.printer.scatter_rel, spec.printer.scatter_abs_mm
    mouth = clearance_range(fit.kind, fit.printed0_mm, fit.bought_least0_mm, fit.bought_greatest0_mm, *scatter)
    bottom = clearance_range(fit.kind, fit.printed1_mm, fit.bought_least1_mm, fit.bought_greatest1_mm, *scatter)
    return min(mouth[0], bottom[0]), max(mouth[1], bottom[1])


def _check_width(width: float, need: float, inner: Sequence[tuple[float, float]], given: bool) -> None:
    most = OF_BORE * 2 * min(r for _, r in inner)
    if width < need - 1e-9 and need <= most:
        why = "the slit is shut before the sleeve grips the loosest pipe"
        raise RefusalError("slit.width", f"{width:.2f} mm", f"{need + 0.005:.2f} mm or more (pi x the play)", why)
    if width > most:
        why = "a sleeve so wide open would not close round" if given else "the play is too wide for a slit to close"
        allowed = f"{most:.2f} mm or less"
        if need > most:
            allowed = f"a slit of {most:.2f} mm, which closes {most / math.pi:.2f} mm: a tighter fit or allowance"
        raise RefusalError("slit", f"{width:.2f} mm", allowed, why)


def _check_screws(end: PlacedEnd, width: float) -> None:
    """The pilots either side of the slit leave a wall beside it."""
    holes = end.shape.holes
    if not holes or end.shape.fit is None:
        return
    r, pilot, wall = min(end.shape.fit[1], end.shape.fit[3]) / 2, holes[0].d_mm, end.plan.wall_mm
    need = width / 2 + pilot / 2 + wall
    if r * math.sin(math.pi / max(2, len(holes))) < need:
        most = math.floor(math.pi / math.asin(min(1.0, need / r))) if need < r else 0
        raise RefusalError(
            f"{end.plan.key}.socket.screws",
            f"{len(holes)} screws",
            f"{most} or fewer" if most > 1 else "none: the bands hold it",
            "the screws beside the slit would break out into it",
        )


def slit_facts(spec: ReducerSpec, slit: SlitCut | None) -> dict[str, str]:
    """The report's line about the slit."""
    if slit is None or spec.slit is None:
        return {}
    low, high = (max(0.0, left) for left in slit.left_mm)
    by = "a band at each end closes it" if spec.slit.band_mm else "what goes over the sleeve closes it"
    how = {"tape": "lay tape over it inside", "foam": "lay a foam strip in it", None: "it leaks until it is sealed"}
    words = f"{slit.width_mm:.2f} mm wide along the whole sleeve, at its top; {by} to {low:.1f}-{high:.1f} mm"
    return {"slit": f"{words}; {how[spec.slit.seal]}"}
