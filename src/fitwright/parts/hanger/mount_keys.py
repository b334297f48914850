"""YAML paths of a mount's keys, for refusals."""

from __future__ import annotations

from fitwright.spec.hanger import HoseHangerSpec


def key_of(spec: HoseHangerSpec, key: str) -> str:
    """`mount.strut.bolt` for `bolt`."""
    return f"{getattr(spec, 'mount_key', 'mount')}.{key}"


def bolt_key(spec: HoseHangerSpec) -> str:
    """The key of the size of what is no wood screw: `size` of a rod or of holes that are there, else `bolt`."""
    return key_of(spec, "size" if spec.mount.kind in ("rod", "holes") else "bolt")


def wood_key(spec: HoseHangerSpec, key: str) -> str:
    """The key of a joist's or batten's size: `width`, `depth`, `thickness`."""
    kind = spec.mount.kind
    if kind == "batten":
        return key_of(spec, "thickness" if key == "depth" else key)
    return key_of(spec, f"{'into' if kind == 'flat' else 'joist'}.{key}")
