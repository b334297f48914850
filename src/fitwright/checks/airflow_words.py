"""Flows and speeds in words, with no more digits than the handbooks agree on."""

from __future__ import annotations

from fitwright.physics.duct import Band
from fitwright.units import FLOWS_M3_S, Units, format_flow, format_speed

_FT_MIN = 0.3048 / 60


def flow_words(flow: Band, units: Units) -> str:
    """`640-780 m3/h, about 700`; a flow that is known exactly as it is told.

    >>> flow_words(Band(0.18, 0.194, 0.21), "mm")
    '650-760 m3/h, about 700'
    """
    if flow.low == flow.high:
        return format_flow(flow.middle, units)
    unit = "m3/h" if units == "mm" else "cfm"
    return flow.times(1.0 / FLOWS_M3_S[unit]).words(unit)


def speed_words(speed_m_s: Band, units: Units) -> str:
    """`12-15 m/s, about 14`; a speed that follows from a flow that is told with one decimal more."""
    if speed_m_s.low == speed_m_s.high:
        return format_speed(speed_m_s.middle, units)
    return speed_m_s.words("m/s") if units == "mm" else speed_m_s.times(1.0 / _FT_MIN).words("ft/min")


def about(words: str) -> str:
    """The middle of a band's words alone: `about 700 m3/h` of `640-780 m3/h, about 700`."""
    ends, _, middle = words.partition(", about ")
    return f"about {middle} {ends.rpartition(' ')[2]}" if middle else words


def ends(words: str) -> str:
    """The two ends of a band's words alone: `640-780 m3/h`."""
    return words.partition(", about ")[0]
