"""Faces that bear, from plain numbers: a washer's disc, a rectangle, square to one of the part's axes."""

from __future__ import annotations

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace

RIGHT: Vec = (1.0, 0.0, 0.0)
OUT: Vec = (0.0, 1.0, 0.0)
UP: Vec = (0.0, 0.0, 1.0)
Span = tuple[float, float]


def minus(way: Vec) -> Vec:
    """The other way."""
    return -way[0], -way[1], -way[2]


def beside(inward: Vec) -> Vec:
    """The part's axis that a face's `right` lies along: x, but y where the face looks along x."""
    return OUT if abs(inward[0]) > 0.5 else RIGHT


def disc(name: str, body: str, at: Vec, inward: Vec, d_mm: float) -> LoadFace:
    """A washer's, nut's or head's seat about `at`; the hole in it counts off by itself."""
    half = (-d_mm / 2, d_mm / 2)
    return LoadFace(name, body, "flat", Frame(at, inward, beside(inward)), half, half, disc_mm=d_mm)


def patch(name: str, body: str, inward: Vec, level: float, one: Span, other: Span) -> LoadFace:
    """A rectangle in the plane at `level` along the axis that `inward` lies on.

    `one`, `other`: its low and high along the two other axes of the part, x before y before z.
    """
    if abs(inward[0]) > 0.5:
        middle: Vec = (level, _mid(one), _mid(other))
    elif abs(inward[1]) > 0.5:
        middle = (_mid(one), level, _mid(other))
    else:
        middle = (_mid(one), _mid(other), level)
    a, b = (one[1] - one[0]) / 2, (other[1] - other[0]) / 2
    return LoadFace(name, body, "flat", Frame(middle, inward, beside(inward)), (-a, a), (-b, b))


def bore(name: str, body: str, frame: Frame, r_mm: float, s_mm: Span, turn_deg: Span = (0.0, 360.0)) -> LoadFace:
    """A round face about the frame's axis."""
    return LoadFace(name, body, "round", frame, r_mm=r_mm, s_mm=s_mm, turn_deg=turn_deg)


def _mid(span: Span) -> float:
    return (span[0] + span[1]) / 2
