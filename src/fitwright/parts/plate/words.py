"""What the report says of a flange plate: sizes, weights, edge distances, what to buy, what was filled in, cautions."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from functools import partial

from fitwright.data.fasteners import fastener
from fitwright.flat import Flat
from fitwright.outline import Outline
from fitwright.part import Bought, Dimension
from fitwright.parts.facts import CAUTIONS
from fitwright.parts.plate.flats import Piece
from fitwright.parts.plate.matched import flange_thick_mm
from fitwright.spec.air_run import suction_of
from fitwright.spec.models import FlangePlateSpec
from fitwright.spec.plate import PlatePattern
from fitwright.spec.plate_holes import hole_ends
from fitwright.spec.plate_sense import edge_rule
from fitwright.units import format_area, format_length

SHEET_CAUTION = "Cut sheet has sharp edges and burrs: wear gloves, break every edge before it goes near hose or hands."
METAL_CAUTION = (
    "Bond a metal plate to the duct's ground where local rules ask for it: plastic and rubber between them insulate."
)
BRITTLE_CAUTION = (
    "It splits at its holes: drill it clamped on wood, with a dulled or stepped drill, and tighten the nuts by hand."
)
SHOWN = 3
"""So many openings have their width in the picture."""
METALS = ("steel", "stainless", "aluminium")
SQUEEZE = "tighten crosswise until the gasket is squeezed by a quarter all round, no more"


def plate_facts(spec: FlangePlateSpec, pieces: tuple[Piece, ...]) -> dict[str, str]:
    """Lines for the report, in the file's units."""
    found: dict[str, str] = {}
    if spec.matches:
        found["made for"] = f"{spec.matches}: outline, opening and holes as that flange will measure"
    if spec.plate == "printed":
        wide, high = pieces[0].true.size_mm
        found["plate"] = f"{format_length(wide, spec.units)} x {format_length(high, spec.units)}, printed"
    areas = [(piece.name, piece.true.area_mm2) for piece in pieces]
    opened = math.fsum(one.outline.area_mm2 for one in spec.openings)
    areas += [("open to the air", opened)] if opened else []
    found["areas"] = ", ".join(f"{name} {format_area(area, spec.units)}" for name, area in areas)
    for k, pattern in enumerate(spec.patterns):
        name = "holes" if len(spec.patterns) == 1 else f"holes, pattern {k + 1}"
        found[name] = _pattern_words(pattern, spec)
    edge = least_edge(pieces[0].true)
    if edge is not None:
        rule = edge_rule(spec)
        asked = f" ({rule:g} are asked for)" if rule else ""
        found["edge distance"] = f"{format_length(edge[0], spec.units)}, {edge[1]:.2f} hole diameters{asked}"
    found["at the bench"] = "; ".join(_bench(spec, pieces))
    return found


def _pattern_words(pattern: PlatePattern, spec: FlangePlateSpec) -> str:
    holes, say = pattern.holes, partial(format_length, units=spec.units)
    on = f" on a circle of {say(holes.circle_mm)}" if holes.circle_mm is not None else ""
    clear = "as the flange has them" if pattern.read_with == "flange" else f"{holes.clearance}{_standard(holes.size)}"
    size = f"{say(holes.hole_d_mm)} ({clear})"
    if pattern.slot_mm:
        size = (
            f"slots {say(holes.hole_d_mm)} wide, {say(holes.hole_d_mm + pattern.slot_mm)} long, to and from the middle"
        )
    read = f"; read with {pattern.read_with}" if pattern.read_with in ("tape", "tracing") else ""
    return f"{len(holes.points)} x {holes.size}{on}: {size}{read}"


def _standard(size: str) -> str:
    """Where the hole's diameter comes from."""
    if fastener(size).thread.casefold().startswith(("wood", "chipboard")):
        return ""
    return ", ISO 273" if size.strip().casefold().startswith("m") else ", ASME B18.2.8"


def least_edge(flat: Flat) -> tuple[float, float] | None:
    """Least distance of a hole's centre from the edge [mm], and the same in its diameters; None without holes."""
    found = [(flat.outline.inside_by_mm(p), hole.d_mm) for hole in flat.holes for p in hole_ends(hole)]
    if not found:
        return None
    edge, d = min(found, key=lambda one: one[0] / one[1])
    return edge, edge / d


def _bench(spec: FlangePlateSpec, pieces: tuple[Piece, ...]) -> Iterator[str]:
    if spec.patterns:
        yield "a washer under every head and nut"
    if spec.gasket is not None:
        yield SQUEEZE if spec.patterns else "glue the gasket on"
    elif spec.plate is not None:
        yield "seal it with a bead of sealant, or ask for `gasket: yes`"
    if any(p.slot_mm for p in spec.patterns):
        yield "put all bolts in loosely before any is tightened"


def plate_hardware(spec: FlangePlateSpec) -> tuple[Bought, ...]:
    """Bolts, washers, nuts of each kind; the least length where the flange's thickness is known."""
    found = []
    through = spec.thickness_mm if spec.plate is not None else 0.0
    through += spec.gasket.thickness_mm if spec.gasket is not None else 0.0
    flange = flange_thick_mm(spec)
    for pattern in spec.patterns:
        holes, count = pattern.holes, len(pattern.holes.points)
        least = through + flange + 2 * holes.washer_h_mm + 1.2 * holes.nut_m_mm
        long = format_length(_whole(least), spec.units)
        note = f"{long} long or more, with nut" if flange else f"{long} long and what it is bolted to, with nut"
        found.append(Bought(count, f"bolt {holes.size}", note=note))
        found.append(Bought(2 * count, f"washer {holes.size}"))
    return tuple(found)


def _whole(mm: float) -> float:
    """Up to whole mm."""
    return float(math.ceil(mm - 1e-6))


def plate_assumed(spec: FlangePlateSpec) -> dict[str, str]:
    """Keys that were left to us, with value and reason."""
    say = partial(format_length, units=spec.units)
    left, low, right, high = spec.outline.bounds_mm if spec.outline is not None else (0.0, 0.0, 0.0, 0.0)
    words = {
        "units": spec.units,
        "wall": f"{say(spec.wall_mm)}: what is left between two cuts, at the least",
        "printer": spec.printer.name,
        "material": spec.material.name,
        "thickness": f"{say(spec.thickness_mm)}: as a printed flange",
        "outline": f"{say(right - left)} x {say(high - low)}: 2 hole diameters beyond the bolts, "
        f"{say(spec.rim_mm)} beyond openings",
    }
    pull = suction_of(spec)
    sucked = {"air.fan": pull.filled_words(spec.units)} if pull.assumed and spec.plate == "printed" else {}
    return {key: words[key] for key in spec.defaulted if key in words} | sucked


def plate_cautions(spec: FlangePlateSpec) -> tuple[str, ...]:
    """Short, deferring to local rules."""
    found = list(CAUTIONS) if spec.plate == "printed" else [CAUTIONS[1]]
    if spec.sheet is not None and spec.plate == "sheet":
        found.insert(0, SHEET_CAUTION)
        found += [BRITTLE_CAUTION] if spec.sheet.brittle else []
        found += [METAL_CAUTION] if spec.sheet.words.partition(" ")[0] in METALS else []
    return tuple(found)


def plate_dimensions(pieces: tuple[Piece, ...]) -> tuple[Dimension, ...]:
    """Width and height, each opening's size, and the longest distance between bolt holes, for the picture."""
    first = pieces[0]
    (wide, high), box = first.true.size_mm, first.model.outline.bounds_mm
    left, lower, right, upper = box
    found = [Dimension("width", (left, 0.0, lower), (right, 0.0, lower), wide)]
    found.append(Dimension("height", (right, 0.0, lower), (right, 0.0, upper), high))
    for true, model in zip(first.true.openings[:SHOWN], first.model.openings[:SHOWN], strict=True):
        found.append(_across(true, model))
    return (*found, *_between_holes(first))


def _across(true: Outline, model: Outline) -> Dimension:
    """An opening's width."""
    left, lower, right, upper = model.bounds_mm
    middle = (lower + upper) / 2
    size = true.bounds_mm[2] - true.bounds_mm[0]
    return Dimension("opening", (left, 0.0, middle), (right, 0.0, middle), size)


def _between_holes(first: Piece) -> Iterator[Dimension]:
    """The longest distance between two of the holes."""
    pairs = itertools.combinations(zip(first.true.holes, first.model.holes, strict=True), 2)
    apart = [(math.dist(a.at, b.at), m.at, n.at) for (a, m), (b, n) in pairs]
    if apart:
        far, (x, z), (u, w) = max(apart)
        yield Dimension("holes", (x, 0.0, z), (u, 0.0, w), far)
