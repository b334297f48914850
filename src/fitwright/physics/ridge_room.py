"""Helical ridge for wire-ribbed hose: how large it may be and how many turns of it a depth holds. Numbers only.

The ridge lies in the valley between two ribs. Its section is a trapezoid with flanks of 45 deg (it prints standing,
whichever end is down): `crest` wide at the top, `crest + 2 x height` at its foot.
"""

from __future__ import annotations

from dataclasses import dataclass

CREST_MM, CREST_OF_WIRE = 1.0, 1.0 / 3.0
"""Width of the crest: a third of the rib, and never under two printed lines or so (common practice, no source)."""
HEIGHT_OF_WIRE = 0.5
"""The film lies against the middle of the wire, so the valley is half a rib deep (common practice, no source)."""
PLAY_MM = 0.5
"""Axial room between the ridge's foot and the rib (common practice, no source)."""
FOOT_OF_PITCH = 0.6
"""The foot never takes more of the pitch: enough of the round face between the turns must be left to be measured."""
CLEAR_MM = 0.5
"""The ridge keeps this far from the edges before and behind it."""
LEAST_TURNS, WANTED_TURNS, MOST_TURNS = 1.0, 1.5, 20.0
"""Under one turn a hose tilts off; `depth: auto` leaves room for 1.5 (common practice, no source)."""


@dataclass(frozen=True)
class RidgeSection:
    """The ridge's trapezoid [mm]: radial `height_mm`, axial `crest_mm`; flanks of 45 deg."""

    height_mm: float
    crest_mm: float

    @property
    def foot_mm(self) -> float:
        """Its axial width where it stands on the round face."""
        return self.crest_mm + 2.0 * self.height_mm


def ridge_section(wire_mm: float, height_mm: float | None = None) -> RidgeSection:
    """The section for ribs of `wire_mm` [mm, over the film]; `height_mm` None: half the rib.

    >>> ridge_section(3.0)
    RidgeSection(height_mm=1.5, crest_mm=1.0)
    """
    height = HEIGHT_OF_WIRE * wire_mm if height_mm is None else height_mm
    return RidgeSection(height, max(CREST_MM, CREST_OF_WIRE * wire_mm))


def least_pitch_mm(section: RidgeSection, wire_mm: float) -> float:
    """The smallest pitch [mm] whose valley takes the ridge's foot beside a rib of `wire_mm`.

    >>> least_pitch_mm(ridge_section(3.0), 3.0)
    7.5
    """
    return max(section.foot_mm + wire_mm + PLAY_MM, section.foot_mm / FOOT_OF_PITCH)


def run_mm(section: RidgeSection, pitch_mm: float, turns: float) -> float:
    """Axial length [mm] that so many turns take, with the room kept free before and behind them.

    >>> run_mm(ridge_section(3.0), 12.0, 1.5)
    23.0
    """
    return turns * pitch_mm + section.foot_mm + 2.0 * CLEAR_MM


def turns_in(section: RidgeSection, pitch_mm: float, room_mm: float) -> float:
    """How many turns a length of `room_mm` holds (may be negative); MOST_TURNS at the most."""
    return min(MOST_TURNS, (room_mm - section.foot_mm - 2.0 * CLEAR_MM) / pitch_mm)
