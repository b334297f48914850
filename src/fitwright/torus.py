"""Bends, round beads and fillets: the torus that a face lies on, and the rings of points along it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fitwright.rims import Deflection, Numbers, Points, Rim, Ring


@dataclass(frozen=True)
class Torus:
    """A bend (`rims` are sections of its tube) or a round bead or fillet (`rims` run about its axis)."""

    origin: Points
    axes: Points
    major_mm: float
    minor_mm: float
    is_bend: bool
    turns_rad: tuple[float, float]
    """Along the bend, or round its tube: from the face's beginning to its end."""
    starts_at_first_rim: bool

    @classmethod
    def of(cls, surface: Any, rims: tuple[Rim, Rim]) -> Torus:
        """The torus that a face between two rims lies on; `surface` is the kernel's."""
        found = surface.Torus()
        position = found.Position()
        axes = np.array([getattr(position, name)().Coord() for name in ("XDirection", "YDirection", "Direction")])
        origin = np.array(position.Location().Coord())
        is_bend = abs(float(rims[0].axis @ axes[2])) < 0.5
        first, last = surface.FirstUParameter(), surface.LastUParameter()
        if not is_bend:
            first, last = surface.FirstVParameter(), surface.LastVParameter()
        bare = cls(origin, axes, found.MajorRadius(), found.MinorRadius(), is_bend, (first, last), True)
        ends = [bare.rim_apart_mm(rim, first) for rim in rims]
        return replace(bare, starts_at_first_rim=ends[0] <= ends[1])

    @property
    def is_part_of_a_turn(self) -> bool:
        """Whether the two rims are two places; a whole turn has one only."""
        return abs(self.turns_rad[1] - self.turns_rad[0]) < 2.0 * math.pi - 1e-6

    def rim_apart_mm(self, rim: Rim, turn_rad: float) -> float:
        """How far a rim's middle lies from where it should be at this turn."""
        c, s = math.cos(turn_rad), math.sin(turn_rad)
        if self.is_bend:
            middle = self.major_mm * (c * self.axes[0] + s * self.axes[1])
            return float(np.linalg.norm(rim.centre - self.origin - middle))
        middle = self.origin + self.minor_mm * s * self.axes[2]
        radius = self.major_mm + self.minor_mm * c
        return float(np.linalg.norm(rim.centre - middle)) + abs(rim.radius_mm - radius)

    def rings(self, rims: tuple[Points, Points], deflection: Deflection) -> list[Ring]:
        """Rings from one rim to the other; those between are divided like the finer rim."""
        first, last = self.turns_rad
        near, far = rims if self.starts_at_first_rim else rims[::-1]
        ends = Ring(near, self._angles(near, first)), Ring(far, self._angles(far, last))
        size, chord = self.minor_mm, deflection.chord_mm
        if self.is_bend:  # the outside of the bend lies less than twice as far out as its middle
            size, chord = 2.0 * self.major_mm, deflection.bend_mm
        stations = np.linspace(first, last, deflection.steps(size, last - first, chord) + 1)[1:-1]
        angles = max(ends, key=lambda ring: len(ring.angles)).angles
        return [ends[0], *(Ring(self._points(float(at), angles), angles) for at in stations), ends[1]]

    def _angles(self, points: Points, turn_rad: float) -> Numbers:
        x, y, z = self.axes @ (points - self.origin).T
        if not self.is_bend:
            return np.asarray(np.arctan2(y, x))
        return np.asarray(np.arctan2(z, x * math.cos(turn_rad) + y * math.sin(turn_rad) - self.major_mm))

    def _points(self, turn_rad: float, angles: Numbers) -> Points:
        u, v = (np.full_like(angles, turn_rad), angles) if self.is_bend else (angles, np.full_like(angles, turn_rad))
        out = self.major_mm + self.minor_mm * np.cos(v)
        local = np.column_stack([out * np.cos(u), out * np.sin(u), self.minor_mm * np.sin(v)])
        return self.origin + local @ self.axes

    def tube_middles(self, points: Points) -> Points:
        """For each point the nearest middle of the tube."""
        x, y, _ = self.axes @ (points - self.origin).T
        out = np.maximum(np.hypot(x, y), 1e-12)
        return self.origin + np.column_stack([x / out, y / out]) @ self.axes[:2] * self.major_mm
