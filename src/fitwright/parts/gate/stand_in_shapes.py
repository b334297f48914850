"""Simple solids that stand-ins of a bracket are made of: nuts and washers as rings, screws, the swing of a spanner."""

from __future__ import annotations

import math

from cadquery import Solid

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.frame import Frame, Vec
from fitwright.part import Fastening
from fitwright.shapes.solids import cylinder, fused, ring

LOOSE_MM = 0.2
"""Nuts and washers are drawn with a bore that is so much wider than their thread: they never clash with it."""


def along_y(x: float, y: float, way: float = 1.0, z: float = 0.0) -> Frame:
    """A frame at this place that looks outwards (way 1) or inwards (-1) along y; right is x."""
    return Frame((x, y, z), (0.0, way, 0.0), (1.0, 0.0, 0.0))


def along_z(x: float, y: float, z: float, way: float = 1.0) -> Frame:
    """A frame at this place that looks up (way 1) or down (-1); right is x."""
    return Frame((x, y, z), (0.0, 0.0, way), (1.0, 0.0, 0.0))


def tube(frame: Frame, d_out_mm: float, d_in_mm: float, s0: float, s1: float) -> Solid:
    """A ring about the frame's axis from s0 to s1, between two diameters."""
    r_out, r_in = d_out_mm / 2, d_in_mm / 2
    return ring([(s0, r_in), (s0, r_out), (s1, r_out), (s1, r_in)], frame)


def corners_mm(across_flats_mm: float) -> float:
    """Across the corners of a hexagon."""
    return 2.0 * across_flats_mm / math.sqrt(3.0)


def nut(frame: Frame, across_mm: float, thread_mm: float, s0: float, high_mm: float) -> Solid:
    """A nut from s0 on, as the ring that it sweeps when it is turned (`across_mm`: its corners)."""
    return tube(frame, across_mm, thread_mm + LOOSE_MM, s0, s0 + high_mm)


def nut_on_washer(frame: Frame, row: FastenerRow, s0: float) -> tuple[Solid, float]:
    """A washer on the face at s0 and a nut on it, and where the nut ends."""
    d, high = row.major_mm, row.washer_h_mm or 0.0
    rings = [nut(frame, corners_mm(row.nut_af_mm or 2 * d), d, s0 + high, row.nut_m_mm or d)]
    if high:
        rings.insert(0, tube(frame, row.washer_d2_mm or 2 * d, d + LOOSE_MM, s0, s0 + high))
    return fused(rings, "nut and washer"), s0 + high + (row.nut_m_mm or d)


def joint(one: Fastening) -> Solid:
    """A screw with its head, washers and nut as declared; the nut as the ring that it sweeps, or fits into a pocket."""
    frame, row, d = Frame(one.head, one.direction, square_to(one.direction)), fastener(one.size), one.d_mm
    under = one.washer_h_mm if one.washers else 0.0
    head_k = row.head_k_mm or d
    pieces = [
        cylinder(frame, (one.head_d_mm or row.head_d_mm) / 2, -under - head_k, -under),
        cylinder(frame, d / 2, -under, one.long_mm - under),
    ]
    if under and one.washer_d_mm:
        pieces.append(tube(frame, one.washer_d_mm, d, -under, 0.0))
    at = one.grip_mm
    if one.washers > 1 and one.washer_h_mm and one.washer_d_mm:
        pieces.append(tube(frame, one.washer_d_mm, d, at, at + one.washer_h_mm))
        at += one.washer_h_mm
    if one.nut_m_mm:
        across = one.nut_af_mm if one.pocket else corners_mm(one.nut_af_mm)
        pieces.append(tube(frame, across, d, at, at + one.nut_m_mm))
    return fused(pieces, one.name)


def square_to(direction: Vec) -> Vec:
    """A unit vector square to a direction along an axis."""
    return (0.0, 0.0, 1.0) if abs(direction[0]) > 0.5 else (1.0, 0.0, 0.0)


FACES: dict[str, Vec] = {
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
    "right": (1.0, 0.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
}
