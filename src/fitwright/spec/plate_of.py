"""From a flange plate's keys to its spec: what is left to us filled in, distances judged, its flange found."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.plate import FlangePlateKeys
from fitwright.spec.grammar.plate_matches import MatchesKeys
from fitwright.spec.joints import Flange
from fitwright.spec.part_base import PartBase
from fitwright.spec.plate import FlangePlateSpec
from fitwright.spec.plate_holes import own_outline
from fitwright.spec.plate_sense import plate_faults

Finder = Callable[[Path, str | None], PartBase]
"""The part of a file by its name (None: its only one), for `matches`; FaultError with paths `part` and `name`."""
THICKNESS_MM = 6.0
"""A printed plate is as thick as a printed flange where nothing is said."""


def plate_of(keys: FlangePlateKeys, shared: Mapping[str, object], folder: str, find: Finder) -> FlangePlateSpec:
    """The spec; `shared` is what all families have. FaultError where its values don't go together."""
    gasket = keys.gasket
    own: dict[str, object] = {
        "plate": "sheet" if keys.sheet is not None else "printed",
        "outline": keys.own_outline(),
        "openings": keys.openings,
        "patterns": keys.holes,
        "sheet": keys.sheet.stock() if keys.sheet is not None else None,
    }
    thick = THICKNESS_MM if keys.thickness is None else keys.thickness
    if keys.sheet is not None:
        thick = keys.sheet.thickness
    if gasket is not None:
        own |= {"gasket": gasket.stock, "gasket_hole_more_mm": gasket.hole_more_mm}
        own |= {"gasket_opening_more_mm": gasket.opening_more_mm}
        own["plate"] = None if gasket.alone else own["plate"]
    if keys.matches is not None:
        own |= _matched(keys.matches, folder, find)
    spec = FlangePlateSpec.model_validate({**shared, **own, "thickness_mm": thick})
    return spec if spec.made_for is not None else settled(spec)


def settled(spec: FlangePlateSpec) -> FlangePlateSpec:
    """With an outline, all distances judged; FaultError with everything that stands too near to something."""
    outline = own_outline(spec) if spec.outline is None else spec.outline
    faults = list(plate_faults(spec, outline))
    if faults:
        raise FaultError(faults)
    return spec.model_copy(update={"outline": outline})


def _matched(keys: MatchesKeys, folder: str, find: Finder) -> dict[str, object]:
    try:
        part = find(Path(folder) / keys.part, keys.name)
        end = flange_end(part, keys.end)
    except FaultError as error:
        raise FaultError(fault.under("matches") for fault in error.faults) from None
    return {"made_for": part, "made_for_end": end, "matches": f"{Path(keys.part).name}, {part.name}, {end}"}


def flange_end(part: PartBase, end: str | None) -> str:
    """The key of the end whose flange is meant; FaultError where there is none, or no telling which."""
    flanged = [key for key, one in part.ends.items() if isinstance(one.joint, Flange)]
    if not flanged:
        kinds = ", ".join(f"{key}: {one.kind}" for key, one in part.ends.items())
        found = f"{part.name}, a {part.part} with {kinds}" if kinds else f"{part.name}, a {part.part}: it has no ends"
        raise FaultError([Fault(("part",), found, "a part with a flange at one of its ends")])
    if end is None:
        if len(flanged) > 1:
            found = f"nothing, and {part.name} has a flange at both ends"
            raise FaultError([Fault(("end",), found, " or ".join(flanged), "add `end:`", at="key")])
        return flanged[0]
    if end not in flanged:
        hint = nearest(end, flanged)
        found = shown(end)
        if end in part.ends:
            found = f"{end} of {part.name}, which is a {part.ends[end].kind.replace('_', ' ')}"
        raise FaultError([Fault(("end",), found, f"an end with a flange: {', '.join(flanged)}", hint)])
    return end
