"""A fit gauge for an end of a part: rings or plugs round the size that the part itself would be printed with."""

from __future__ import annotations

from fitwright.errors import RefusalError
from fitwright.physics.fits import allowance_mm
from fitwright.physics.gauge_steps import nice_step_mm, widened
from fitwright.spec.gauge import WALL_LINES, bought_mm, gauge_steps, spread_mm
from fitwright.spec.joints import End, HoseTail, Socket, Spigot
from fitwright.spec.models import FitGaugeSpec, PartBase, Printer
from fitwright.spec.printed import excess_mm

DEFAULT_STEPS = 7
_NO_FIT = "nothing slides on or in there, so there is no allowance to find"


def gauge_of_end(spec: PartBase, key: str, steps: int = DEFAULT_STEPS, step_mm: float | None = None) -> FitGaugeSpec:
    """The gauge for the end `key` (`end_a`), in the part's filament, for its printer; marked with allowances.

    Parameters
    ----------
    steps
        How many, 5 to 9.
    step_mm
        From one to the next on the diameter [mm]; None: so that the printer's scatter and the spread of what it meets
        are covered.

    Raises
    ------
    RefusalError
        The end has no fit, is not round, or meets a port that tapers.
    """
    end = spec.ends[key]
    joint = _round_joint(end, key)
    kind = "rings" if isinstance(joint, Socket) else "plugs"
    hose = isinstance(joint, HoseTail)
    printer, size = spec.printer, joint.size
    middle = meant_allowance_mm(joint, printer) + excess_mm(joint, printer)
    scatters = size.nominal_mm, printer.scatter_rel, printer.scatter_abs_mm
    low, high = widened(middle, middle, *scatters, spread_mm(size, hose))
    step = nice_step_mm(low, high, steps, spec.units == "in") if step_mm is None else step_mm
    bought = bought_mm(size, hose)
    return FitGaugeSpec.model_validate(
        {
            **{one: getattr(spec, one) for one in ("units", "source_file", "printer", "material", "places")},
            "name": f"{spec.name}_gauge_{key}",
            "wall_mm": round(WALL_LINES * printer.line_mm, 6),
            "kind": kind,
            "key": f"{kind}.{'hose_inside' if hose else 'over' if kind == 'rings' else 'into'}",
            "bought": "hose" if hose else "pipe" if kind == "rings" else "hole",
            "bought_mm": bought,
            "steps": gauge_steps(kind, bought, middle, step, steps, "allowance", spec.units),
            "marks": "allowance",
            "for_end": key,
            "learned": joint.learned,
        }
    )


def meant_allowance_mm(joint: Socket | Spigot | HoseTail, printer: Printer) -> float:
    """The allowance [mm] of the joint before any print taught it better; none for a taper where it grips."""
    if joint.allowance_mm is not None:
        return joint.allowance_mm
    assert not isinstance(joint, HoseTail)
    if joint.taper_deg or joint.fit == "stretch":
        return 0.0
    found = allowance_mm(joint.fit, joint.size.longest_mm, printer.scatter_rel, printer.scatter_abs_mm).value_mm
    return found + (joint.size.ovality_mm / 2 if joint.fit in ("slide", "glue") else 0.0)


def _round_joint(end: End, key: str) -> Socket | Spigot | HoseTail:
    joint = end.joint
    allowed = "a round socket, spigot or hose_tail"
    if not isinstance(joint, Socket | Spigot | HoseTail):
        raise RefusalError(f"{key}.{end.kind}", f"no gauge for a {end.kind} end", allowed, _NO_FIT)
    if joint.size.outline is not None:
        why = "a gauge is turned: try the try-print of such an end instead"
        raise RefusalError(f"{key}.{end.kind}", "no gauge for an end that is not round", allowed, why)
    if joint.size.further_mm is not None:
        why = "a straight gauge meets it at its very end only: try the try-print of such an end instead"
        raise RefusalError(f"{key}.{end.kind}", "no gauge for a port that tapers", allowed, why)
    return joint
