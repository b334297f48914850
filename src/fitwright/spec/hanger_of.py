"""From a hose hanger's keys to its spec: what is not said is filled in, and told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.hanger import STYLES, HoseHangerKeys
from fitwright.spec.hanger import ClampBy, HoseHangerSpec, HungByRun

SPACING_MM = 1200.0
"""To the next hanger where nothing is said: the ADC's 4 ft, rounded down (see physics/carried.py)."""


def hanger_of(keys: HoseHangerKeys, shared: Mapping[str, object]) -> HoseHangerSpec:
    """The spec; `shared` is what all families have."""
    own: dict[str, object] = {
        "carried": keys.carried(),
        "style": keys.style,
        "count": keys.count,
        "apart_mm": keys.apart,
        "mount": keys.meant_mount(),
        "mount_key": f"mount.{keys.mount.kind}" if keys.mount else "mount",
        "width_mm": keys.width_mm,
        "arm_mm": keys.arm,
        "opens_deg": keys.opens,
        "throat_mm": keys.hook.throat if keys.hook else None,
        "strap": keys.strap(),
        "clamp": _clamp(keys),
        "swivel": keys.swivel,
        "above": keys.above,
        "second_fixing": keys.second_fixing,
        "spacing_mm": SPACING_MM if keys.spacing is None else keys.spacing,
        "elbow_mm": keys.elbow,
        "dust": keys.dust,
        "travel_mm": keys.travel,
        "hung": _hung(keys, shared),
        "defaulted": tuple(_defaulted(keys, shared)),
    }
    return HoseHangerSpec.model_validate({**shared, **own})


def _hung(keys: HoseHangerKeys, shared: Mapping[str, object]) -> HungByRun | None:
    if keys.run is None:
        return None
    from fitwright.spec.run_load import load_of  # brings numpy in: only where a run is read

    return load_of(keys.run, _folder(shared), keys.carried(), keys.units)


def _folder(shared: Mapping[str, object]) -> str:
    return str(Path(str(shared["source_file"])).parent)


def _clamp(keys: HoseHangerKeys) -> ClampBy:
    if keys.clamp is None:
        return ClampBy()
    if keys.clamp.band is not None:
        return ClampBy(kind="band", band_mm=keys.clamp.band, gap_mm=keys.clamp.gap)
    return ClampBy(screw=keys.clamp.screws or ClampBy().screw, gap_mm=keys.clamp.gap)


def _defaulted(keys: HoseHangerKeys, shared: Mapping[str, object]) -> Iterator[str]:
    """Dotted keys that were left to us: of what it carries, of its style and mount, and of the part."""
    said = shared["defaulted"]
    assert isinstance(said, tuple)
    yield from said
    if not any(getattr(keys, style) is not None for style in STYLES):
        yield "saddle"
    for key, held in (("hose", keys.hose), (keys.style, getattr(keys, keys.style)), ("mount", keys.mount)):
        if isinstance(held, Grammar):
            yield from _below(key, held)


def _below(path: str, keys: Grammar) -> Iterator[str]:
    yield from (f"{path}.{key}" for key in keys.open_keys())
    for key in keys.keys():
        inner = getattr(keys, key, None)
        if isinstance(inner, Grammar) and key in keys.model_fields_set:
            yield from _below(f"{path}.{key}", inner)
