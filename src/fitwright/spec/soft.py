"""Soft materials: which joints stretch over what they meet, what that changes, and what does not go with it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from fitwright.data.profiles import soft_materials
from fitwright.physics.fits import scatter_mm
from fitwright.physics.stretch import crumple_strain, stretch_mm
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.joints import ALLOWANCE, EndKeys, SocketKeys, SpigotKeys
from fitwright.spec.grammar.parts import AdapterKeys, ReducerKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.joints import End, Socket, Spigot
from fitwright.spec.models import Material, Printer
from fitwright.units import format_length

STOP_MM = {"socket": 2.0, "spigot": 3.0}
"""A soft shoulder of 1 mm would be pushed over (common practice, no source)."""
CLEAR_MM = 0.2
"""The lead-in's mouth is wider than the widest pipe by this, in radius, so that the cuff finds its way."""
LEAD_IN_SHARE = 0.35
"""A lead-in takes no more of the depth than this, nor more of the wall without a flare outside."""
LEAD_IN_TAN = math.tan(math.radians(15.0))


def softened(
    ends: Mapping[str, End], keys: AdapterKeys, material: Material, printer: Printer, wall: float
) -> dict[str, End]:
    """The ends, sockets and spigots of a soft material made to stretch where nothing else was asked."""
    found = dict(ends)
    for name, end in ends.items():
        written, joint = _written(getattr(keys, name)), end.joint
        if written is not None and isinstance(joint, Socket | Spigot) and _stretches(written, keys, material):
            made = _stretched(joint, written, material, printer, wall)
            found[name] = end.model_copy(update={end.kind: made})
    return found


def soft_faults(keys: AdapterKeys, material: Material, context: Context) -> Iterator[Fault]:
    """What a rigid joint does not do, and what a soft one does not take."""
    for name in ("end_a", "end_b"):
        end: EndKeys = getattr(keys, name)
        written = _written(end)
        if written is not None:
            faults = _soft(written, keys, material, context) if material.soft else _rigid(written, material, context)
            yield from (fault.under(name, end.kind) for fault in faults)


def _written(end: EndKeys) -> SocketKeys | SpigotKeys | None:
    return end.socket or end.spigot


def _stretches(written: SocketKeys | SpigotKeys, keys: AdapterKeys, material: Material) -> bool:
    if not material.soft or written.fit is not None:
        return material.soft and written.fit == "stretch"
    otherwise = written.cord is not None or written.taper or getattr(written, "clamp", None)
    return not otherwise and not _squeezed(keys) and (written.allowance is None or written.allowance < 0.0)


def _squeezed(keys: AdapterKeys) -> bool:
    """Whether it sits between two bought parts (stretched over one, it would not enter the other), or is slit."""
    return isinstance(keys, ReducerKeys) and (keys.line == "nested" or keys.slit is not None)


def _stretched(
    joint: Socket | Spigot, written: SocketKeys | SpigotKeys, material: Material, printer: Printer, wall: float
) -> Socket | Spigot:
    size, wall = joint.size, (joint.wall_mm if isinstance(joint, Spigot) else None) or wall
    d = size.nominal_mm if size.further_mm is None else min(size.nominal_mm, size.further_mm)
    spread = scatter_mm(d, printer.scatter_rel, printer.scatter_abs_mm) + (size.greatest_mm - size.least_mm) / 2
    bears = material.strain_limit
    if isinstance(joint, Spigot):
        bears = min(bears, crumple_strain(d, wall))
    tighter = stretch_mm(d, bears, spread) if joint.allowance_mm is None else -joint.allowance_mm
    update: dict[str, object] = {"fit": "stretch", "taper_deg": 0.0, "allowance_mm": -round(tighter, 6)}
    if written.lead_in is None:
        wanted = (tighter + spread) / 2 + CLEAR_MM
        most = LEAD_IN_SHARE * joint.depth_mm * LEAD_IN_TAN
        update["lead_in_mm"] = min(max(joint.lead_in_mm, wanted), most if isinstance(joint, Socket) else 0.5 * wall)
    if written.stop is None:
        update["stop_mm"] = STOP_MM["socket" if isinstance(joint, Socket) else "spigot"]
    made = joint.model_copy(update=update)
    if isinstance(made, Socket):
        flare = max(0.0, made.lead_in_mm - LEAD_IN_SHARE * wall)
        made = made.model_copy(update={"flare_mm": round(flare, 6)})
    return made


def _rigid(written: SocketKeys | SpigotKeys, material: Material, context: Context) -> Iterator[Fault]:
    if written.fit == "stretch":
        found = f"stretch in {material.name}, which is rigid and does not stretch"
        allowed = f"slide, snug, press or glue; or a soft material: {', '.join(soft_materials())}"
        hint = "write `material: TPU`, or soft: yes in a material of your own"
        yield Fault(("fit",), found, allowed, hint)
    least = ALLOWANCE.least or 0.0
    if written.allowance is not None and written.allowance < least and written.fit != "stretch":
        found = f"{format_length(written.allowance, context.units)} in {material.name}, which is rigid"
        allowed = f"{ALLOWANCE.allowed(context)}; less in a soft material ({', '.join(soft_materials())})"
        yield Fault(("allowance",), found, allowed)


def _soft(written: SocketKeys | SpigotKeys, keys: AdapterKeys, material: Material, context: Context) -> Iterator[Fault]:
    if written.screws is not None:
        why = "screws tear out of it; by its own stretch it grips and seals"
        yield Fault(("screws",), f"screws in {material.name}, which is soft", "no screws", f"{why}: delete screws")
    if written.fit != "stretch":
        return
    if _squeezed(keys) and not (isinstance(keys, ReducerKeys) and keys.slit):
        why = "its outside would grow with its bore"
        yield Fault(("fit",), "stretch in a nested sleeve", "slide, snug, press or glue", why)
    for key in ("clamp", "cord", "taper"):
        if getattr(written, key, None):
            yield Fault((key,), f"{key} beside fit: stretch", "one of the two", f"delete {key} or fit", at="key")
    if written.allowance is not None and written.allowance >= 0.0:
        found = f"{format_length(written.allowance, context.units)} beside fit: stretch"
        yield Fault(("allowance",), found, "less than 0: the print is smaller than the pipe", "or leave it out")
