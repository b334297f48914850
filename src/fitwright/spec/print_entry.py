"""One print of one end as the log holds it: what was bought, wanted and modelled, and what came out."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from fitwright.errors import Problem, SpecError
from fitwright.spec.faults import Fault, FaultError, dotted, nearest, shown
from fitwright.spec.grammar.prints import LogKeys, PrintKeys, readings_far_off
from fitwright.spec.grammar.values import Context
from fitwright.spec.joints import End
from fitwright.spec.learned import Learned
from fitwright.spec.models import PartBase
from fitwright.spec.nodes import Value
from fitwright.spec.printed import (
    GRIP_AT,
    FitJoint,
    bought_cone,
    excess_mm,
    is_wedge,
    modelled_at,
    printed_cone,
    read_at_mm,
    sign_of,
)
from fitwright.spec.taught import FIT_JOINTS, group_of, with_learned
from fitwright.units import MM_PER_INCH, Units, format_length, format_number

COMMAND_LINE = "command line"
ENDS = ("end_a", "end_b")
NEAR_REL = 0.02
"""Readings within this share of the other end's size were probably taken there."""


def command_line_error(faults: list[Fault]) -> SpecError:
    """Faults in what the command line says; keys are called after their options."""
    return SpecError([Problem(COMMAND_LINE, 0, 0, _option(f), f.found, f.allowed, _hint(f)) for f in faults])


def _option(fault: Fault) -> str:
    return f"--{dotted(fault.path) or 'read'}"


def _hint(fault: Fault) -> str:
    return f"add {_option(fault)}" if fault.hint.startswith("add `") else fault.hint


def keys_of(values: Mapping[str, Value | None], units: Units) -> LogKeys:
    """What the command line says, read in the part's units; SpecError with everything wrong in it."""
    given = {key: value for key, value in values.items() if value is not None}
    try:
        return LogKeys.read(given, Context(units))
    except FaultError as error:
        raise command_line_error(list(error.faults)) from None


def spec_called(specs: list[PartBase], name: str | None) -> PartBase:
    """The part of this name, or the only one; SpecError names those that there are."""
    names = [spec.name for spec in specs]
    if name is None and len(specs) == 1:
        return specs[0]
    for spec in specs:
        if spec.name == name:
            return spec
    found = shown(name) if name else f"a file of {len(specs)} parts, and no --name"
    raise command_line_error([Fault(("name",), found, " | ".join(names), nearest(name or "", names))])


def end_called(spec: PartBase, key: str) -> End:
    """The end of this key, which must have a fit; SpecError names those that have one."""
    ends = {name: end for name in ENDS if isinstance(end := getattr(spec, name, None), End)}
    fits = [f"{name} ({end.kind})" for name, end in ends.items() if isinstance(end.joint, FIT_JOINTS)]
    allowed = " | ".join(fits) or "a part with a socket, spigot or hose_tail"
    if key not in ends:
        raise command_line_error(
            [Fault(("end",), shown(key), allowed, nearest(key, [name.partition(" ")[0] for name in fits]))]
        )
    if not isinstance(ends[key].joint, FIT_JOINTS):
        raise command_line_error([Fault(("end",), f"{key}, a {ends[key].kind} end, which has no fit", allowed)])
    return ends[key]


def as_built(spec: PartBase, built: Mapping[str, Learned | None]) -> PartBase:
    """The part as it was when it was printed: with what had been learned by then."""
    return spec.model_copy(update={key: with_learned(getattr(spec, key), built.get(key)) for key in ENDS})


def own_allowance(spec: PartBase, key: str) -> bool:
    """Whether the YAML gives this end an allowance of its own."""
    end: End = getattr(spec, key)
    return f"{key}.{end.kind}.allowance" in spec.places


def entry_of(spec: PartBase, keys: LogKeys, day: datetime.date) -> dict[str, Value]:
    """The print as its lines in the log, in the part's units; SpecError where a reading is far from what was wanted."""
    end = end_called(spec, keys.end)
    joint = end.joint
    assert isinstance(joint, FIT_JOINTS)
    place, printed = read_at_mm(joint), printed_cone(joint, spec.printer)
    wanted = printed.at(place)
    _refuse_far_off(spec, keys, wanted)
    group, size = group_of(joint, spec.printer, spec.material), joint.size
    lengths: dict[str, float | None] = {
        "bought": size.nominal_mm if group.fit == "hose" else bought_cone(joint).at(place),
        "wanted": wanted,
        "modelled": modelled_at(joint, place, spec.printer),
        "eased": _eased_mm(joint, spec, keys.end),
        "across": size.outline.longer_mm if size.outline else None,
        "oval": size.ovality_mm if size.ovality_mm and group.fit in ("slide", "glue") else None,
    }
    entry: dict[str, Value] = {
        "date": keys.date or day.isoformat(),
        "part": spec.name,
        "end": keys.end,
        "printer": group.printer,
        "material": group.material,
        "joint": group.joint,
        "fit": group.fit,
        **{key: _written(mm, spec.units) for key, mm in lengths.items() if mm is not None},
    }
    if keys.readings:
        entry["readings"] = [_written(mm, spec.units) for mm in keys.readings]
    return entry | {key: said for key, said in (("went", keys.went), ("note", keys.note)) if said}


def print_of(entry: Mapping[str, Value]) -> PrintKeys:
    """The same, read."""
    return PrintKeys.read(dict(entry), Context())


def _eased_mm(joint: FitJoint, spec: PartBase, key: str) -> float | None:
    """How much looser than usual a taper was made where it grips, or a soft cuff; None for every other fit."""
    fit = group_of(joint, spec.printer, spec.material).fit
    if fit == "stretch":
        return None if own_allowance(spec, key) else excess_mm(joint, spec.printer)
    if fit != "taper":
        return None
    if is_wedge(joint):
        return excess_mm(joint, spec.printer)
    grip = GRIP_AT * joint.depth_mm
    return sign_of(joint) * (printed_cone(joint, spec.printer).at(grip) - bought_cone(joint).at(grip))


def _written(mm: float, units: Units) -> str:
    """As text that reads back to a tenth of a micrometre; inches with their unit."""
    return format_number(mm, 4) if units == "mm" else f"{format_number(mm / MM_PER_INCH, 6)} in"


def _refuse_far_off(spec: PartBase, keys: LogKeys, wanted: float) -> None:
    faults = list(readings_far_off(keys.readings or [], wanted, Context(spec.units)))
    if not faults:
        return
    hint = _other_end(spec, keys)
    named = [Fault(("read", *f.path[1:]), f.found, f.allowed, hint or f.hint) for f in faults]
    raise command_line_error(named)


def _other_end(spec: PartBase, keys: LogKeys) -> str:
    """`did you measure end_b?` where all readings lie near what that end measures."""
    other = ENDS[1 - ENDS.index(keys.end)]
    joint = getattr(spec, other).joint
    if not isinstance(joint, FIT_JOINTS):
        return ""
    there = printed_cone(joint, spec.printer).at(read_at_mm(joint))
    if not all(abs(mm - there) <= NEAR_REL * there for mm in keys.readings or []):
        return ""
    return f"did you measure {other}, which was to be {format_length(there, spec.units, fraction=False)}?"
