"""The channel in which a hose's bared wire lies: its size. Numbers only."""

from __future__ import annotations

DEEPER_MM, WIDER_MM = 0.3, 0.6
"""The channel against the wire: the band above must not touch it (common practice, no source)."""


def channel_depth_mm(wire_mm: float) -> float:
    """Depth [mm] of the channel for a bared wire of `wire_mm`.

    >>> channel_depth_mm(2.0)
    2.3
    """
    return wire_mm + DEEPER_MM


def channel_width_mm(wire_mm: float) -> float:
    """Its width [mm]."""
    return wire_mm + WIDER_MM
