"""Threads by their names, and the strokes that cylinders are sold with, as the plan needs them."""

from __future__ import annotations

from fitwright.data.cylinders import standard_strokes
from fitwright.data.threads import all_threads


def sold_strokes() -> tuple[float, ...]:
    """Strokes that cylinders are sold with [mm]."""
    return standard_strokes()


def thread_d_mm(thread: str) -> float:
    """Outside diameter [mm] of a thread by its name in our tables."""
    return next(row.major_mm for row in all_threads() if row.name == thread)
