"""The yoke of a cylinder that stands beside its gate: how far it turns under thrust and the guide rod's couple.

Lengths in mm, forces in N, moduli in MPa. Across the gate the yoke is a beam on its two screws at x = +-s, with a
window of half width w between bars. All that hangs on its arm - the thrust T on the nose at a, the friction F and the
couple M on the guide rod at g - balances the blade's drag D, which pulls on the same gate in the middle: the sum is D
through x = 0 (T - F = D, and no moment about the middle). So each screw bears D / 2, and the moment in the beam is
D |x| from the guide rod to the first screw, and falls from D s there to nothing at the other screw. Beyond the guide
rod there is the thrust alone: T (a - x). Where no guide rod is there the piston rod bears the couple, and D |x| goes on
to the nose. Small movements; beams of any handbook (Roark's Formulas for Stress and Strain; from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.slide.frames import Movement


@dataclass(frozen=True)
class Yoke:
    """Stations from the middle, all positive: screws, window's edge, guide rod (None: there is none), web, nose.

    `bars_mm4`, `ends_mm4`, `web_mm4`: second moments (bending in the plane of the blade) of both bars together, of the
    plate beside the window, and of the web from `web_mm` on to the nose.
    """

    screw_mm: float
    window_mm: float
    guide_mm: float | None
    web_mm: float
    nose_mm: float
    bars_mm4: float
    ends_mm4: float
    web_mm4: float
    modulus_mpa: float


def screw_turn(yoke: Yoke, drag_n: float) -> float:
    """How far it turns at the screw on the cylinder's side [rad]: D / 2s x integral of (s - x)^2 / 2 EI from -s to s.

    With nothing but bars this is M s 2 / (3 EI), M = D s: the end of a beam with a couple on it, M L / 3 EI.

    >>> one = Yoke(60.0, 60.0, None, 70.0, 80.0, 1000.0, 5000.0, 2000.0, 2000.0)
    >>> round(screw_turn(one, 10.0) / (10.0 * 60.0 * 120.0 / (3 * 2000.0 * 1000.0)), 9)
    1.0
    """
    s, w = yoke.screw_mm, min(yoke.window_mm, yoke.screw_mm)

    def over(x0: float, x1: float) -> float:
        return ((s - x0) ** 3 - (s - x1) ** 3) / 3.0

    bars, ends = over(-w, w), over(-s, -w) + over(w, s)
    return drag_n / (4.0 * s * yoke.modulus_mpa) * (bars / yoke.bars_mm4 + ends / yoke.ends_mm4)


def yoke_gives(yoke: Yoke, drag_n: float, thrust_n: float) -> tuple[Movement, float]:
    """How the nose gives way, and how far the guide rod's root turns [deg] (the nose where there is none).

    >>> one = Yoke(63.0, 57.5, 67.0, 79.0, 91.0, 17500.0, 66000.0, 1400.0, 1750.0)
    >>> moved, root = yoke_gives(one, 20.0, 55.0)
    >>> round(moved.along_mm, 2), round(moved.tilt_deg, 2), round(root, 2)
    (0.03, 0.01, 0.09)
    """
    angle, y, x = screw_turn(yoke, drag_n), 0.0, yoke.screw_mm
    root, stress = None, 0.0
    for far, second, alone in _stretches(yoke):
        if alone and root is None:
            root = angle
        near, second = x, second * yoke.modulus_mpa
        if alone:
            a0, a1 = -thrust_n * (yoke.nose_mm - near), -thrust_n * (yoke.nose_mm - far)
        else:
            a0, a1 = drag_n * near, drag_n * far
        long = far - near
        y += angle * long + (a0 / 3.0 + a1 / 6.0) * long * long / second
        angle += (a0 + a1) / 2.0 * long / second
        stress, x = max(stress, abs(a0), abs(a1)), far
    root = angle if root is None else root
    return Movement(abs(y), 0.0, math.degrees(abs(angle)), 0.0), math.degrees(abs(root))


def moments_nmm(yoke: Yoke, drag_n: float, thrust_n: float) -> tuple[float, float]:
    """Greatest bending moment [N mm] in the bars, and in the web.

    >>> moments_nmm(Yoke(63.0, 57.5, 67.0, 79.0, 91.0, 1.0, 1.0, 1.0, 1.0), 20.0, 55.0)
    (1205.0, 660.0)
    """
    s, w = yoke.screw_mm, yoke.window_mm
    bars = drag_n / 2.0 * (s + min(s, w)) if w < s else drag_n * s
    web = thrust_n * (yoke.nose_mm - yoke.web_mm) if yoke.guide_mm is not None else drag_n * yoke.nose_mm
    return bars, web


def _stretches(yoke: Yoke) -> list[tuple[float, float, bool]]:
    """From the screw outwards: where each ends, its second moment, and whether the thrust alone bends it."""
    ends = sorted({yoke.window_mm, yoke.guide_mm or yoke.nose_mm, yoke.web_mm, yoke.nose_mm})
    found, x = [], yoke.screw_mm
    for far in ends:
        if far <= x:
            continue
        middle = (x + far) / 2
        second = yoke.bars_mm4 if middle < yoke.window_mm else yoke.ends_mm4
        second = yoke.web_mm4 if middle > yoke.web_mm else second
        found.append((far, second, yoke.guide_mm is not None and middle > yoke.guide_mm))
        x = far
    return found
