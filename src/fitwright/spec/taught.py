"""From logged prints to what they teach about an end: the size error of its face, the clearance wanted for its fit."""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from fitwright.measure.log import (
    PRINT_SHARE,
    Belief,
    Missed,
    Verdict,
    own_scatter_mm,
    print_sd_mm,
    reading_sd_mm,
    say_so_sd_mm,
    size_error,
    wanted_excess,
)
from fitwright.physics.fits import allowance_mm, scatter_mm
from fitwright.spec.grammar.prints import LogFit, PrintKeys
from fitwright.spec.joints import End, HoseTail, Socket, Spigot
from fitwright.spec.learned import Learned
from fitwright.spec.models import FitGaugeSpec, Material, Printer
from fitwright.spec.print_store import prints_in, store_beside
from fitwright.spec.printed import HOSE_ALLOWANCE_MM, Face, FitJoint, as_printed, grips_by_taper

if TYPE_CHECKING:
    from fitwright.spec.grammar.parts import AdapterKeys

FIT_JOINTS = (Socket, Spigot, HoseTail)
_DIGITS = 4


@dataclass(frozen=True)
class Group:
    """The prints that teach about each other: one printer, one material, and of those one joint with one fit."""

    printer: str
    material: str
    joint: str
    fit: LogFit

    @property
    def face(self) -> Face:
        """The face that meets the bought part."""
        return "hole" if self.joint == "socket" else "outside"

    def same_face(self, prints: Iterable[PrintKeys]) -> list[PrintKeys]:
        """Those of the same printer, material and face."""
        mine = (self.printer.casefold(), self.material.casefold(), self.face)
        return [one for one in prints if (*_plastic(one), group_of_print(one).face) == mine]

    def same_fit(self, prints: Iterable[PrintKeys]) -> list[PrintKeys]:
        """Of those, the same joint and fit."""
        return [one for one in self.same_face(prints) if (one.joint, one.fit) == (self.joint, self.fit)]


def group_of(joint: FitJoint, printer: Printer, material: Material) -> Group:
    """The group that an end's prints belong to."""
    kind = "socket" if isinstance(joint, Socket) else "spigot" if isinstance(joint, Spigot) else "hose_tail"
    return Group(printer.name, material.name, kind, log_fit(joint))


def group_of_print(one: PrintKeys) -> Group:
    """The group that a logged print belongs to."""
    return Group(one.printer, one.material, one.joint, one.fit)


def log_fit(joint: FitJoint) -> LogFit:
    """The fit's name in the log: a taper that makes the fit, and a hose, are fits of their own."""
    if isinstance(joint, HoseTail):
        return "hose"
    return "taper" if grips_by_taper(joint) else joint.fit


def taught(
    ends: Mapping[str, End], keys: AdapterKeys, printer: Printer, material: Material, folder: str
) -> dict[str, End]:
    """The ends, each with what the prints logged beside the part teach about it; SpecError where the log is damaged."""
    prints = prints_in(store_beside(folder))
    if not prints:
        return dict(ends)
    return {
        name: with_learned(end, _of_end(end, getattr(keys, name), prints, printer, material))
        for name, end in ends.items()
    }


def taught_gauge(gauge: FitGaugeSpec, folder: str) -> FitGaugeSpec:
    """The gauge, with the size error of its face as the prints logged beside it show; as it is where it calibrates."""
    prints = () if gauge.calibrates else prints_in(store_beside(folder))
    kind = "socket" if gauge.kind == "rings" else "spigot"
    group = Group(gauge.printer.name, gauge.material.name, kind, "slide")
    error = error_of(group, prints, gauge.printer, gauge.bought_mm or 0.0)
    if not error.prints:
        return gauge
    found = Learned(
        printer=gauge.printer.name,
        material=gauge.material.name,
        size_error_mm=round(error.mean_mm, _DIGITS),
        size_error_give_or_take_mm=round(error.give_or_take_mm, _DIGITS),
        readings=error.prints,
    )
    return gauge.model_copy(update={"learned": found})


def _of_end(
    end: End, written: object, prints: tuple[PrintKeys, ...], printer: Printer, material: Material
) -> Learned | None:
    joint = getattr(written, end.kind)
    own = "allowance" in joint.model_fields_set and joint.allowance is not None
    return learned(end, prints, printer, material, own)


def with_learned(end: End, found: Learned | None) -> End:
    """The end with what was learned about it; a flange or plain end stays as it is."""
    joint = end.joint
    if not isinstance(joint, FIT_JOINTS) or joint.learned == found:
        return end
    return end.model_copy(update={end.kind: joint.model_copy(update={"learned": found})})


def learned(
    end: End, prints: Iterable[PrintKeys], printer: Printer, material: Material, own_allowance: bool
) -> Learned | None:
    """What these prints teach about an end; None where it has no fit or none of them is like it."""
    joint = end.joint
    if not isinstance(joint, FIT_JOINTS):
        return None
    group, prints = group_of(joint, printer, material), list(prints)
    d = joint.size.nominal_mm
    error = error_of(group, prints, printer, d)
    excess = excess_of(group, prints, printer)
    if not error.prints and (own_allowance or not excess.prints):
        return None
    kept = excess if not own_allowance else wanted_excess(())
    own = own_scatter_mm(_errors(group, prints, printer), PRINT_SHARE * prior_sd_mm(printer, d), error.sd_mm)
    return Learned(
        printer=printer.name,
        material=material.name,
        excess_mm=round(kept.mean_mm, _DIGITS) if kept.prints else 0.0,
        excess_give_or_take_mm=round(kept.give_or_take_mm, _DIGITS),
        verdicts=kept.prints,
        size_error_mm=round(error.mean_mm, _DIGITS) if error.prints else 0.0,
        size_error_give_or_take_mm=round(error.give_or_take_mm, _DIGITS),
        readings=error.prints,
        scatter_mm=None if own is None else round(own, _DIGITS),
    )


def prior_sd_mm(printer: Printer, d_mm: float) -> float:
    """Before any print: printers miss by this [mm], one standard deviation, half of the scatter's half-range."""
    return max(scatter_mm(d_mm, printer.scatter_rel, printer.scatter_abs_mm) / 2, 0.01)


def error_of(group: Group, prints: Iterable[PrintKeys], printer: Printer, d_mm: float) -> Belief:
    """By how much the face prints larger than the printer's present calibration says, for a part of this size."""
    return size_error(_missed(group, prints, printer, d_mm), prior_sd_mm(printer, d_mm))


def _missed(group: Group, prints: Iterable[PrintKeys], printer: Printer, d_mm: float) -> list[Missed]:
    read = [one for one in group.same_face(prints) if one.readings]
    errors = _errors(group, read, printer)
    print_sd = print_sd_mm(errors, PRINT_SHARE * prior_sd_mm(printer, d_mm))
    counts = (len(one.readings or ()) for one in read)
    return [
        Missed(error, math.hypot(print_sd, reading_sd_mm(count))) for error, count in zip(errors, counts, strict=True)
    ]


def _errors(group: Group, prints: Iterable[PrintKeys], printer: Printer) -> list[float]:
    """By how much each print of the face that was read came out larger than today's calibration says [mm]."""
    read = [one for one in group.same_face(prints) if one.readings]
    return [statistics.fmean(one.readings or ()) - as_printed(one.modelled, group.face, printer) for one in read]


def excess_of(group: Group, prints: Iterable[PrintKeys], printer: Printer) -> Belief:
    """How much more clearance than the table's is wanted for this printer, material, joint and fit."""
    prints = list(prints)
    missed = cache(lambda d_mm: error_of(group, prints, printer, d_mm))
    return wanted_excess([v for one in group.same_fit(prints) if (v := _verdict(group, one, missed, printer))])


def _verdict(group: Group, one: PrintKeys, missed: Callable[[float], Belief], printer: Printer) -> Verdict | None:
    """How the print went on; where it was not measured, its size is what its face is known to come out at."""
    meant = meant_excess_mm(one, printer)
    if one.went is None or meant is None:
        return None
    if one.readings:
        printed, sd = statistics.fmean(one.readings), reading_sd_mm(len(one.readings))
    else:
        error = missed(one.bought)  # with what is assumed of the scatter from print to print
        printed = as_printed(one.modelled, group.face, printer) + (error.mean_mm if error.prints else 0.0)
        sd = math.hypot(error.sd_mm, PRINT_SHARE * prior_sd_mm(printer, one.bought))
    looser = (printed - one.wanted) * (1.0 if one.joint == "socket" else -1.0)
    return Verdict(meant + looser, say_so_sd_mm(sd), one.went)


def meant_excess_mm(one: PrintKeys, printer: Printer) -> float | None:
    """How much more clearance than today's table a print was meant to have; None where its log does not tell."""
    if one.eased is not None or one.fit in ("taper", "stretch"):
        return one.eased
    clearance = (one.wanted - one.bought) * (1.0 if one.joint == "socket" else -1.0)
    return clearance - table_of_print_mm(one, printer)


def table_of_print_mm(one: PrintKeys, printer: Printer) -> float:
    """The allowance that the table gives for a logged print on this printer [mm]; 0 for a taper, where it grips."""
    if one.fit == "hose":
        return HOSE_ALLOWANCE_MM
    if one.fit == "taper" or one.fit == "stretch":
        return 0.0
    d = max(one.bought, one.across or 0.0)
    of_fit = allowance_mm(one.fit, d, printer.scatter_rel, printer.scatter_abs_mm).value_mm
    return of_fit + ((one.oval or 0.0) / 2 if one.fit in ("slide", "glue") else 0.0)


def _plastic(one: PrintKeys) -> tuple[str, str]:
    return one.printer.casefold(), one.material.casefold()
