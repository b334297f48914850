"""What `fitwright log` answers: what was logged, what the prints have taught, what the next part would measure."""

from __future__ import annotations

import statistics
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from fitwright.measure.log import ENOUGH_PRINTS, Belief
from fitwright.report.wording import in_units
from fitwright.spec.grammar.prints import PrintKeys
from fitwright.spec.models import PartBase, Printer
from fitwright.spec.print_entry import own_allowance
from fitwright.spec.printed import excess_mm, modelled_at, printed_cone, read_at_mm, table_mm
from fitwright.spec.taught import (
    FIT_JOINTS,
    Group,
    error_of,
    excess_of,
    group_of,
    group_of_print,
    learned,
    table_of_print_mm,
    with_learned,
)
from fitwright.units import Units

UNEVEN_MM = 0.5
"""Readings of one print that differ by more are told: oval, or one of them a slip (common practice, no source)."""


def logged_words(one: PrintKeys, units: Units) -> str:
    """One print in a line: `2026-11-25 saw end_a: 107.87 mm (3 readings; 107.60 mm wanted), went tight`."""
    said = []
    if one.readings:
        count = len(one.readings)
        words = (
            f"{statistics.fmean(one.readings):.2f} mm ({count} reading{'s' * (count > 1)}; {one.wanted:.2f} mm wanted)"
        )
        said.append(words)
    else:
        said.append(f"not measured ({one.wanted:.2f} mm wanted)")
    if one.went:
        said.append(f"went {one.went}")
    text = in_units(f"{one.date} {one.part} {one.end}: {', '.join(said)}", units)
    return text + (f" ({one.note})" if one.note else "")


def uneven_words(one: PrintKeys, units: Units) -> str:
    """Said where the readings of one print differ a good deal."""
    apart = max(one.readings) - min(one.readings) if one.readings else 0.0
    if apart <= UNEVEN_MM:
        return ""
    text = f"its readings differ by {apart:.2f} mm: the print is oval, or one of them is a slip (then mend prints.yaml)"
    return in_units(text, units)


def answer(spec: PartBase, key: str, prints: tuple[PrintKeys, ...]) -> Iterator[str]:
    """What the prints have taught about this end, and what the next print of it would measure."""
    lines = [*_taught(spec, key, prints), *_next(spec, key, prints)]
    yield from (in_units(line, spec.units) for line in lines)


def _taught(spec: PartBase, key: str, prints: tuple[PrintKeys, ...]) -> Iterator[str]:
    end = getattr(spec, key)
    joint = end.joint
    assert isinstance(joint, FIT_JOINTS)
    group = group_of(joint, spec.printer, spec.material)
    yield from size_words(group, error_of(group, prints, spec.printer, joint.size.nominal_mm))
    excess = excess_of(group, prints, spec.printer)
    if not excess.prints:
        yield f"allowance for {name_of(group)}: as the table says, until you say how one went (--went)"
    elif group.fit == "taper":
        yield excess_words(group, excess)
    else:
        table = (
            table_of_print_mm(group.same_fit(prints)[-1], spec.printer) if group.fit == "hose" else _table_mm(spec, key)
        )
        yield (
            f"allowance for {name_of(group)}: {table:.2f} -> {table + excess.mean_mm:.2f} mm "
            f"(give or take {excess.give_or_take_mm:.2f} mm), from {count_words(excess.prints)}"
        )


def _table_mm(spec: PartBase, key: str) -> float:
    joint = getattr(spec, key).joint
    if joint.fit == "stretch":
        return joint.allowance_mm or 0.0
    return table_mm(joint, spec.printer)


def _next(spec: PartBase, key: str, prints: tuple[PrintKeys, ...]) -> Iterator[str]:
    own = own_allowance(spec, key)
    end = getattr(spec, key)
    end = with_learned(end, learned(end, prints, spec.printer, spec.material, own))
    joint = end.joint
    assert isinstance(joint, FIT_JOINTS)
    place = read_at_mm(joint)
    modelled, measures = modelled_at(joint, place, spec.printer), printed_cone(joint, spec.printer).at(place)
    yield f"the next {spec.name} {key}: modelled {modelled:.2f} mm, to measure {measures:.2f} mm"
    if own:
        yield f"{key} has an allowance of its own in the YAML, which stays as it is; delete it to use what was learned"
    elif joint.learned and abs(excess_mm(joint, spec.printer) - joint.learned.excess_mm) > 0.005:
        yield f"held at {excess_mm(joint, spec.printer):+.2f} mm: more would not leave the fit asked for"


def shown(prints: Iterable[PrintKeys], printers: Mapping[str, Printer], other: Printer, units: Units) -> Iterator[str]:
    """All that is logged, then what each group of prints has taught."""
    prints = sorted(prints, key=lambda one: one.date)
    yield from (logged_words(one, units) for one in prints)
    yield ""
    groups = dict.fromkeys(map(group_of_print, prints))
    faces: set[tuple[str, str, str]] = set()
    for group in groups:
        printer = printers.get(group.printer.casefold(), other)
        face = (group.printer.casefold(), group.material.casefold(), group.face)
        if face not in faces:
            faces.add(face)
            sizes = [one.bought for one in group.same_face(prints)]
            lines = size_words(group, error_of(group, prints, printer, statistics.median(sizes)))
            yield from (in_units(line, units) for line in lines)
    for group in groups:
        printer = printers.get(group.printer.casefold(), other)
        if (excess := excess_of(group, prints, printer)).prints:
            yield in_units(excess_words(group, excess), units)


def size_words(group: Group, error: Belief) -> Iterator[str]:
    """How much larger or smaller the face prints than the printer's calibration says."""
    if not error.prints:
        return
    faces = "holes" if group.face == "hole" else "outsides"
    larger = "larger" if error.mean_mm >= 0 else "smaller"
    by = f"{abs(error.mean_mm):.2f} mm {larger} than" if abs(error.mean_mm) >= 0.005 else "as"
    scatter = "" if error.prints < ENOUGH_PRINTS else ", whose own scatter the fit check now takes"
    yield (
        f"{faces} on {group.printer} in {group.material} come out {by} the printer's calibration "
        f"says (give or take {error.give_or_take_mm:.2f} mm), from "
        f"{count_words(error.prints)} with readings{scatter}"
    )


def excess_words(group: Group, excess: Belief) -> str:
    """How much looser or tighter than the table a joint with a fit is wanted."""
    looser = "looser" if excess.mean_mm >= 0 else "tighter"
    by = (
        f"{abs(excess.mean_mm):.2f} mm {looser} than the table" if abs(excess.mean_mm) >= 0.005 else "as the table says"
    )
    return f"{name_of(group)}: {by} (give or take {excess.give_or_take_mm:.2f} mm), from {count_words(excess.prints)}"


def name_of(group: Group) -> str:
    """`slide sockets on NAME in PETG`."""
    joint = (
        "hose tails"
        if group.joint == "hose_tail"
        else f"{'tapered' if group.fit == 'taper' else group.fit} {group.joint}s"
    )
    return f"{joint} on {group.printer} in {group.material}"


def count_words(count: int) -> str:
    """`3 prints`."""
    return f"{count} print{'s' * (count != 1)}"


def basis_words(source: Path, report_file: Path, built: bool, changed: bool, day: str) -> str:
    """What the sizes that were wanted and modelled were taken from."""
    if not built:
        where = f"no build in {report_file.parent} (-o names another folder)"
        return f"sizes from {source} and the prints logged before {day}: {where}"
    if changed:
        return f"{source} was changed after {report_file.parent} was built: the log takes the sizes that it says now"
    return ""
