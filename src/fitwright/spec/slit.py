"""What a slit along a whole sleeve changes in its ends, and what does not go with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.spec.faults import Fault
from fitwright.spec.grammar.joints import SocketKeys
from fitwright.spec.grammar.parts import AdapterKeys, ReducerKeys
from fitwright.spec.joints import End, Socket

BAND_ROOM_MM = 15.0
"""A socket is this much deeper than its band is wide."""


def slitted(ends: Mapping[str, End], keys: AdapterKeys) -> dict[str, End]:
    """The ends of a slit sleeve: they slide on, and are deep enough for a band."""
    found = dict(ends)
    if not isinstance(keys, ReducerKeys) or keys.slit is None:
        return found
    for name, end in ends.items():
        written = getattr(keys, name).socket
        if isinstance(written, SocketKeys) and isinstance(end.joint, Socket):
            found[name] = end.model_copy(update={"socket": _slit_socket(end.joint, written, keys)})
    return found


def _slit_socket(joint: Socket, written: SocketKeys, keys: ReducerKeys) -> Socket:
    update: dict[str, object] = {}
    if written.fit is None and joint.size.further_mm is None:
        update["fit"] = "slide"
        if written.taper is None:
            update["taper_deg"] = 0.0
    if written.depth is None and keys.line != "nested" and keys.slit is not None:
        update["depth_mm"] = max(joint.depth_mm, keys.slit.band + BAND_ROOM_MM)
    return joint.model_copy(update=update)


def slit_faults(keys: AdapterKeys) -> Iterator[Fault]:
    """A slit runs along a sleeve of two sockets in one line, or a nested one, that slide on."""
    if not isinstance(keys, ReducerKeys) or keys.slit is None:
        return
    if keys.line == "level" or keys.eccentricity is not None:
        found = "a slit beside two axes" if keys.eccentricity is not None else f"a slit beside line: {keys.line}"
        yield Fault(("slit",), found, "line: coaxial or nested", "the slit is one straight cut", at="key")
    for name in ("end_a", "end_b"):
        end = getattr(keys, name)
        if end.socket is None and keys.line != "nested":
            hint = "it opens and goes over both pipes; write over, or line: nested"
            yield Fault((name, end.kind), f"{end.kind} on a slit sleeve", "socket at both ends", hint, at="key")
        elif end.socket is not None:
            yield from (fault.under(name, "socket") for fault in _socket_faults(end.socket))


def _socket_faults(socket: SocketKeys) -> Iterator[Fault]:
    if socket.clamp is not None:
        hint = "the slit sleeve has its own bands: slit: {band: 13}"
        yield Fault(("clamp",), "clamp slits beside a slit along the whole sleeve", "one of the two", hint, at="key")
    if socket.cord is not None:
        yield Fault(("cord",), "a cord across a slit", "no cord", "air passes it there: write seal: foam", at="key")
    if socket.fit not in (None, "slide", "snug"):
        yield Fault(("fit",), f"{socket.fit} on a slit sleeve", "slide or snug", "the bands close it")
