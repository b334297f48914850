"""Nuts by the thread that they go on, and the strokes that cylinders are sold with, as the plan needs them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.data.cylinders import standard_strokes
from fitwright.data.nuts import nut
from fitwright.data.threads import all_threads
from fitwright.errors import DataError, RefusalError


@dataclass(frozen=True)
class NutSize:
    """A nut: thread diameter, greatest width across flats, greatest height [mm]."""

    d_mm: float
    af_mm: float
    m_mm: float


def full_nut(thread: str) -> NutSize:
    """The ordinary nut of a thread named as `M10 x 1.25`; RefusalError where none is known."""
    return _nut(thread, "full")


def thin_nut(thread: str) -> NutSize:
    """The thin (jam) nut."""
    return _nut(thread, "thin")


def sold_strokes() -> tuple[float, ...]:
    """Strokes that cylinders are sold with [mm]."""
    return standard_strokes()


def _nut(thread: str, kind: Literal["thin", "full"]) -> NutSize:
    try:
        row = nut(thread, kind)
    except DataError as error:
        raise RefusalError("cylinder.rod_thread", thread, "a thread that nuts are sold for", f"{error}") from None
    return NutSize(thread_d_mm(row.thread), row.af_mm, row.m_mm)


def thread_d_mm(thread: str) -> float:
    """Outside diameter [mm] of a thread by its name in our tables."""
    return next(row.major_mm for row in all_threads() if row.name == thread)
