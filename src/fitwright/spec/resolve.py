"""From what the YAML says to what is meant: defaults filled in, and what only shows when the whole part is known."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from fitwright.physics.bond_room import channel_depth_mm
from fitwright.physics.ridge_room import WANTED_TURNS, ridge_section, run_mm
from fitwright.spec.faults import FaultError
from fitwright.spec.gate_of import gate_of
from fitwright.spec.gauge import gauge_of
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.gate_bracket import GateBracketKeys
from fitwright.spec.grammar.gauge import FitGaugeKeys
from fitwright.spec.grammar.hanger import HoseHangerKeys
from fitwright.spec.grammar.joints import EndKeys, HoseTailKeys, SocketKeys, SpigotKeys
from fitwright.spec.grammar.own_materials import table_material
from fitwright.spec.grammar.own_printers import DEFAULT_PRINTER, table_printer
from fitwright.spec.grammar.parts import AdapterKeys, OffsetAdapterKeys, PartKeys, ReducerKeys, slug
from fitwright.spec.grammar.plate import FlangePlateKeys
from fitwright.spec.grammar.profiles import DEFAULT_MATERIAL
from fitwright.spec.grammar.ridge import RidgeKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.hanger_of import hanger_of
from fitwright.spec.joints import Clamp, End, Fit, Flange, HoseTail, Plain, Socket, Spigot
from fitwright.spec.models import Material, OffsetAdapterSpec, PartSpec, Printer, ReducerSpec
from fitwright.spec.plate_of import Finder, plate_of
from fitwright.spec.sense import part_faults
from fitwright.spec.size import Size
from fitwright.spec.slit import slit_faults, slitted
from fitwright.spec.soft import soft_faults, softened
from fitwright.spec.suction import ASSUMED
from fitwright.spec.tail_wall import tail_wall_mm
from fitwright.spec.taught import taught, taught_gauge

WALL_MM, LEAST_LINES = 2.4, 4
"""2.4 mm keeps 3 kPa and a workshop's knocks; four lines keep air in (common practice, no source)."""
LARGE_MM = 80.0
"""A printed bore above this scatters by more than a parallel snug fit allows: it gets a taper."""
TAPER_DEG = 0.5
LEAD_IN_MM, LEAD_IN_OF_WALL = 0.8, 0.35
DEPTH_OF_D, DEPTH_LEAST_MM, DEPTH_MOST_MM = 0.4, 25.0, 60.0
_TAIL_FRONT_MM, _LAND_MM = 8.0, 15.0
_CLAMP_EXTRA_MM, _CORD_EXTRA_MM = 15.0, 12.0
_LEAD_IN_RUN = 3.8
"""A lead-in of 15 deg is 1 / tan 15 = 3.73 times as long as it opens."""


def resolve(
    keys: PartKeys, source_file: str, stem: str, places: Mapping[str, tuple[int, int]], folder: str, find: Finder
) -> PartSpec:
    """The part's spec; FaultError where its values don't go together. `find` looks up a part of another file."""
    printer = keys.printer or table_printer(DEFAULT_PRINTER)
    material = keys.material or table_material(DEFAULT_MATERIAL)
    shared: dict[str, object] = {
        "name": keys.name or slug(stem) or "part",
        "units": keys.units,
        "source_file": source_file,
        "wall_mm": default_wall_mm(printer) if keys.wall is None else keys.wall,
        "printer": printer,
        "material": material,
        "envelope": keys.envelope.meant_as(folder),
        "near_heat_c": keys.near_heat.temperature_c if keys.near_heat else None,
        "near_heat_said": keys.near_heat.said if keys.near_heat else "",
        "suction": keys.air.pull() if isinstance(keys, AdapterKeys | FlangePlateKeys) and keys.air else ASSUMED,
        "infill_share": keys.infill,
        "wall_lines": keys.wall_lines,
        "defaulted": tuple(_defaulted(keys)),
        "places": places,
    }
    if isinstance(keys, FitGaugeKeys):
        return taught_gauge(gauge_of(keys, shared, printer), folder)
    if isinstance(keys, GateBracketKeys):
        return gate_of(keys, shared)
    if isinstance(keys, HoseHangerKeys):
        return hanger_of(keys, shared)
    if isinstance(keys, FlangePlateKeys):
        return plate_of(keys, shared, folder, find)
    assert isinstance(keys, AdapterKeys)
    return _adapter(keys, shared, printer, material, Context(keys.units, folder))


def _adapter(
    keys: AdapterKeys, shared: dict[str, object], printer: Printer, material: Material, context: Context
) -> PartSpec:
    wall = default_wall_mm(printer) if keys.wall is None else keys.wall
    near = keys.near_heat.temperature_c if keys.near_heat else None
    warm = material.at(None if near is None else min(near, material.service_c))
    ends = {"end_a": _end(keys.end_a, wall, warm), "end_b": _end(keys.end_b, wall, warm)}
    ends = softened(slitted(ends, keys), keys, material, printer, wall)
    faults = [*part_faults(keys, ends, wall, context), *soft_faults(keys, material, context), *slit_faults(keys)]
    if faults:
        raise FaultError(faults)
    ends = taught(ends, keys, printer, material, context.folder)
    own: dict[str, object] = {
        **ends,
        "length_mm": keys.length,
        "half_angle_deg": keys.half_angle,
        "air": keys.air.meant_as() if keys.air else None,
        "halves": keys.halves,
    }
    return _of_family(keys, {**shared, **own})


def default_wall_mm(printer: Printer) -> float:
    """2.4 mm, raised to a whole number of printed lines, four at least.

    >>> default_wall_mm(table_printer("generic_220"))
    2.52
    """
    lines = max(LEAST_LINES, math.ceil(WALL_MM / printer.line_mm - 1e-6))
    return round(lines * printer.line_mm, 6)


def _of_family(keys: AdapterKeys, shared: dict[str, object]) -> PartSpec:
    if isinstance(keys, OffsetAdapterKeys):
        turned = {"angle_deg": keys.angle, "clock_deg": keys.clock, "bend_radius_mm": keys.bend_radius}
        return OffsetAdapterSpec.model_validate({**shared, **turned, "offset": keys.offset, "turns": keys.turns})
    assert isinstance(keys, ReducerKeys)
    slit = keys.slit.meant_as(keys.line == "nested", keys.end_b.hose_tail is not None) if keys.slit else None
    return ReducerSpec.model_validate({**shared, "line": keys.line, "eccentricity": keys.eccentricity, "slit": slit})


def _end(keys: EndKeys, wall_mm: float, warm: Material) -> End:
    made: dict[str, Socket | Spigot | HoseTail | Flange | Plain] = {}
    if keys.socket is not None:
        made["socket"] = _socket(keys.socket, wall_mm)
    elif keys.spigot is not None:
        made["spigot"] = _spigot(keys.spigot, keys.spigot.wall or wall_mm)
    elif keys.hose_tail is not None:
        made["hose_tail"] = _hose_tail(keys.hose_tail, wall_mm, warm)
    elif keys.flange is not None:
        made["flange"] = keys.flange.meant_as()
    elif keys.plain is not None:
        made["plain"] = Plain(inside=keys.plain.inside, length_mm=keys.plain.length)
    return End.model_validate({"label": keys.label, **made})


def _socket(keys: SocketKeys, wall_mm: float) -> Socket:
    fit = _fit(keys)
    return Socket(
        size=keys.size,
        fit=fit,
        depth_mm=_depth(keys, keys.size),
        lead_in_mm=_lead_in(keys.lead_in, wall_mm),
        taper_deg=_taper(keys, fit),
        stop_mm=1.0 if keys.stop is None else keys.stop,
        allowance_mm=keys.allowance,
        clamp=Clamp(slits=keys.clamp.slits, band_mm=keys.clamp.band) if keys.clamp else None,
        screws=keys.screws.meant_as() if keys.screws else None,
        cord_mm=keys.cord,
        ridge=keys.ridge.meant_as() if keys.ridge else None,
    )


def _spigot(keys: SpigotKeys, wall_mm: float) -> Spigot:
    fit = _fit(keys)
    return Spigot(
        size=keys.size,
        fit=fit,
        depth_mm=_depth(keys, keys.size),
        lead_in_mm=_lead_in(keys.lead_in, wall_mm),
        taper_deg=_taper(keys, fit),
        stop_mm=2.0 if keys.stop is None else keys.stop,
        allowance_mm=keys.allowance,
        wall_mm=keys.wall,
        screws=keys.screws.meant_as() if keys.screws else None,
        cord_mm=keys.cord,
    )


def _hose_tail(keys: HoseTailKeys, wall_mm: float, warm: Material) -> HoseTail:
    land = _TAIL_FRONT_MM + 3 * keys.bead_mm + (max(_LAND_MM, keys.band_mm + 2.0) if keys.band_mm else 0.0)
    least_wall = wall_mm + channel_depth_mm(keys.bond.wire) if keys.bond else 0.0
    return HoseTail(
        size=keys.size,
        depth_mm=max(_plain_depth(keys.size), land + _ridge_run(keys.ridge)) if keys.depth is None else keys.depth,
        bead_mm=keys.bead_mm,
        band_mm=keys.band_mm,
        wall_mm=max(_tail_wall(keys, wall_mm, warm), least_wall),
        allowance_mm=keys.allowance,
        ridge=keys.ridge.meant_as() if keys.ridge else None,
        bond=keys.bond.meant_as() if keys.bond else None,
    )


def _tail_wall(keys: HoseTailKeys, wall_mm: float, warm: Material) -> float:
    return tail_wall_mm(keys.size.nominal_mm, keys.band_mm, wall_mm, warm) if keys.wall is None else keys.wall


def _ridge_run(keys: RidgeKeys | None) -> float:
    """Depth [mm] that a ridge needs: its turns, or 1.5 of them."""
    if keys is None:
        return 0.0
    return run_mm(ridge_section(keys.wire, keys.height), keys.pitch, keys.turns or WANTED_TURNS)


def _fit(keys: SocketKeys | SpigotKeys) -> Fit:
    """Large joints, and ports that taper, grip by a taper; what a band or cord closes must slide."""
    if keys.fit is not None:
        return keys.fit
    if keys.size.further_mm is not None:
        return "snug"
    parallel = keys.size.nominal_mm <= LARGE_MM or keys.size.outline is not None
    return "slide" if _closed_otherwise(keys) or parallel else "snug"


def _closed_otherwise(keys: SocketKeys | SpigotKeys) -> bool:
    return keys.cord is not None or (isinstance(keys, SocketKeys) and (keys.clamp or keys.ridge) is not None)


def _taper(keys: SocketKeys | SpigotKeys, fit: Fit) -> float:
    if keys.taper is not None:
        return keys.taper
    large = keys.size.nominal_mm > LARGE_MM and keys.size.further_mm is None and keys.size.outline is None
    own = keys.allowance is None and not _closed_otherwise(keys)
    return TAPER_DEG if large and own and fit == "snug" else 0.0


def _plain_depth(size: Size) -> float:
    return min(max(DEPTH_OF_D * size.equal_d_mm, DEPTH_LEAST_MM), DEPTH_MOST_MM)


def _depth(keys: SocketKeys | SpigotKeys, size: Size) -> float:
    """As deep as a tapered port was measured; more where band or cord need the room."""
    if keys.depth is not None:
        return keys.depth
    depth = _plain_depth(size)
    if size.apart_mm is not None:
        depth = min(max(size.apart_mm, 15.0), DEPTH_MOST_MM)
    if isinstance(keys, SocketKeys) and keys.clamp is not None:
        depth = max(depth, keys.clamp.band + _CLAMP_EXTRA_MM)
    if isinstance(keys, SocketKeys) and keys.ridge is not None:
        lead = LEAD_IN_MM if keys.lead_in is None else keys.lead_in
        depth = max(depth, _LEAD_IN_RUN * lead + _ridge_run(keys.ridge))
    return max(depth, 2.8 * keys.cord + _CORD_EXTRA_MM) if keys.cord is not None else depth


def _lead_in(asked: float | None, wall_mm: float) -> float:
    return min(LEAD_IN_MM, LEAD_IN_OF_WALL * wall_mm) if asked is None else asked


def _defaulted(keys: PartKeys) -> Iterator[str]:
    """Dotted keys that were left to us."""
    yield from keys.open_keys()
    if isinstance(keys, AdapterKeys):
        for name in ("end_a", "end_b"):
            end: EndKeys = getattr(keys, name)
            yield from _below(f"{name}.{end.kind}", getattr(end, end.kind))


def _below(path: str, keys: Grammar) -> Iterator[str]:
    yield from (f"{path}.{key}" for key in keys.open_keys())
    for key in keys.keys():
        inner = getattr(keys, key, None)
        if isinstance(inner, Grammar):
            yield from _below(f"{path}.{key}", inner)
