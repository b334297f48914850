"""A measured diameter as the line of a part's YAML, and what that line makes: read through the part's own grammar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fitwright.physics.fit_words import gap_words
from fitwright.physics.fits import Fit, allowance_mm, clearance_range
from fitwright.report.wording import in_units
from fitwright.spec.joints import HoseTail, Socket, Spigot
from fitwright.spec.load import load_text
from fitwright.spec.models import AdapterSpec, Printer
from fitwright.spec.size import Size
from fitwright.units import MM_PER_INCH, Units, format_length, format_number

Face = Literal["over", "into", "hose_inside", ""]
_JOINTS = {"over": "socket", "into": "spigot", "hose_inside": "hose_tail"}


@dataclass(frozen=True)
class Made:
    """What the project makes of a size under a key: the size as it reads it, the joint, the printer it reckons with."""

    key: Face
    size: Size
    joint: Socket | Spigot | HoseTail
    printer: Printer


def face_yaml(value: str, face: Face, fit: str) -> str:
    """The lines for the joint's map in a part: `over: [..]`, and its fit where one is asked for."""
    if not face:
        return value
    return f"{face}: {value}" + (f"\nfit: {fit}" if fit and face != "hose_inside" else "")


def made_of(value: str, face: Face, fit: str) -> Made:
    """Read these lines in a part of nothing else; an unnamed face is taken as `over`."""
    key = face or "over"
    inside = ", ".join(face_yaml(value, key, fit).splitlines())
    part = f"part: reducer\nend_a: {{{_JOINTS[key]}: {{{inside}}}}}\nend_b: {{plain: {{inside: 30}}}}\n"
    spec = load_text(part, "what was measured")[0]
    assert isinstance(spec, AdapterSpec)
    joint = spec.end_a.joint
    assert isinstance(joint, Socket | Spigot | HoseTail)
    return Made(key, joint.size, joint, spec.printer)


def lengths(values_mm: Sequence[float], units: Units) -> str:
    """`[110.2, 110.5]`, in inch files `[4.339 in, 4.35 in]`, so that the line reads the same in any part's file."""
    return f"[{', '.join(length(one, units) for one in values_mm)}]"


def length(value_mm: float, units: Units) -> str:
    """One length as the YAML takes it in a file of any units."""
    return format_number(value_mm, 3) if units == "mm" else f"{format_number(value_mm / MM_PER_INCH, 4)} in"


def fit_lines(made: Made, units: Units) -> list[str]:
    """What the part makes of it: which fit, what is added or taken off for it and for the ovality, how it then sits."""

    def say(mm: float) -> str:
        return format_length(mm, units, fraction=False)

    joint, size = made.joint, made.size
    if isinstance(joint, HoseTail):
        return [f"hose tail {say(size.nominal_mm - joint.allowance_mm)}: {say(joint.allowance_mm)} less than the hose"]
    fit: Fit = "snug" if joint.fit is None or joint.fit == "stretch" else joint.fit
    word = "socket" if isinstance(joint, Socket) else "spigot"
    plus, more = (1.0, "more") if word == "socket" else (-1.0, "less")
    if joint.taper_deg:
        taper = format_number(joint.taper_deg, 2)
        return [f"{word}, fit {fit}: it tapers {taper} deg and meets {say(size.nominal_mm)} a little past half-way in"]
    relative, absolute = made.printer.scatter_rel, made.printer.scatter_abs_mm
    allowance = allowance_mm(fit, size.nominal_mm, relative, absolute).value_mm
    oval = size.ovality_mm / 2.0 if fit in ("slide", "glue") else 0.0
    printed = (size.least_mm + size.greatest_mm) / 2.0 + plus * (allowance + oval)
    kind: Literal["hole", "shaft"] = "hole" if word == "socket" else "shaft"
    gap = clearance_range(kind, printed, size.least_mm, size.greatest_mm, relative, absolute)
    for_oval = f" and {say(oval)} for half the ovality" if oval else ""
    line = f"{word} {say(printed)}, fit {fit}: {say(allowance)} {more} for the fit{for_oval}"
    return [f"{line}; {in_units(gap_words(*gap), units)}"]
