"""How far a cylinder's mount gives way under its thrust: plates beside the line, rails on it, rods, boards, feet.

Lengths in mm, forces in N, moduli and stresses in MPa, angles in degrees. Small movements, linear material; plastics
creep, so pass a modulus that counts it (1750 MPa is half of a printed polyester's short-term one; common practice, no
source). Formulae: beams and frames of any handbook (Roark's Formulas for Stress and Strain, table of beams; from
memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.gravity import GRAVITY
from fitwright.physics.slide.sections import Section
from fitwright.physics.steel import STEEL_MPA

LIMIT_MM, LIMIT_DEG = 0.5, 0.5
"""The nose may move and tilt by this at running force (common practice, no source): the coupling's play takes it up."""
POISSON = 0.36
"""Printed plastics (from memory)."""
SHEAR_SHARE = 5.0 / 6.0
"""Share of a rectangle's area that carries shear (Timoshenko)."""


@dataclass(frozen=True)
class Movement:
    """How a cylinder's nose face gives way: along its axis, square to it [mm], tilting [deg]; nominal stress [MPa]."""

    along_mm: float = 0.0
    aside_mm: float = 0.0
    tilt_deg: float = 0.0
    stress_mpa: float = 0.0

    def __add__(self, other: Movement) -> Movement:
        """One thing on another: movements add up, the greater stress stays."""
        return Movement(
            self.along_mm + other.along_mm,
            self.aside_mm + other.aside_mm,
            self.tilt_deg + other.tilt_deg,
            max(self.stress_mpa, other.stress_mpa),
        )

    @property
    def moves_mm(self) -> float:
        """Along and aside together."""
        return math.hypot(self.along_mm, self.aside_mm)

    def within(self, limit_mm: float = LIMIT_MM, limit_deg: float = LIMIT_DEG) -> bool:
        """True where it moves and tilts no further than allowed."""
        return self.moves_mm <= limit_mm + 1e-9 and abs(self.tilt_deg) <= limit_deg + 1e-9


def strip(
    force_n: float, offset_mm: float, length_mm: float, section: Section, modulus_mpa: float, pieces: int = 1
) -> Movement:
    """A straight plate, U, rail or board, held at the gate, its centroid `offset_mm` beside the thrust line.

    The moment F e is the same all along: aside = F e L^2 / (2 EI), tilt = F e L / EI, and the nose, standing e off it,
    goes along by F L / EA + e x tilt. Stress = F / A + F e c / I. `pieces` alike share it (two rails or rods).

    A printed plate 60 x 8, 20.6 mm beside the line, and a U with walls 5 x 30 on the same floor:

    >>> from fitwright.physics.slide.sections import channel, rectangle
    >>> plate = strip(121, 20.6, 184.5, rectangle(60, 8), 1750)
    >>> round(plate.aside_mm, 1), round(plate.tilt_deg, 1), round(plate.stress_mpa - 121 / 480, 1)
    (9.5, 5.9, 3.9)
    >>> u = channel(60, 8, 5, 30)
    >>> round(strip(121, 20.6 - u.deep_at, 184.5, u, 1750).aside_mm, 2)
    0.17
    """
    share, moment = force_n / pieces, force_n * abs(offset_mm) / pieces
    bending = modulus_mpa * section.deep_mm4
    tilt = moment * length_mm / bending
    return Movement(
        share * length_mm / (modulus_mpa * section.area_mm2) + abs(offset_mm) * tilt,
        moment * length_mm**2 / (2.0 * bending),
        math.degrees(tilt),
        share / section.area_mm2 + moment * section.fibre_deep_mm / section.deep_mm4,
    )


@dataclass(frozen=True)
class NosePlate:
    """A beam across two rails, pushed in its middle: `span_mm` from rail to rail, `shear_mm2` what carries shear:
    of a channel its ribs at their full depth, web and all."""

    span_mm: float
    section: Section
    modulus_mpa: float
    shear_mm2: float
    poisson: float = POISSON

    @property
    def shear_mm_per_n(self) -> float:
        """Movement by shear: s / (4 k G A), k = 5/6."""
        shear = self.modulus_mpa / (2.0 * (1.0 + self.poisson))
        return self.span_mm / (4.0 * SHEAR_SHARE * shear * self.shear_mm2)

    @property
    def pinned_mm_per_n(self) -> float:
        """Upper bound, ends free to turn: s^3 / (48 EI) and the shear."""
        return self.span_mm**3 / (48.0 * self.modulus_mpa * self.section.deep_mm4) + self.shear_mm_per_n

    @property
    def built_in_mm_per_n(self) -> float:
        """Lower bound, ends held: s^3 / (192 EI) and the shear."""
        return self.span_mm**3 / (192.0 * self.modulus_mpa * self.section.deep_mm4) + self.shear_mm_per_n

    def moment_nmm(self, force_n: float, end_nmm: float = 0.0) -> float:
        """Greatest bending moment: F s / 4 in the middle, less what the ends hold; or that."""
        return max(force_n * self.span_mm / 4.0 - end_nmm, end_nmm)


@dataclass(frozen=True)
class Rail:
    """One of two rails; its section stands `across` towards the other rail, `deep` square to that."""

    length_mm: float
    section: Section
    modulus_mpa: float


def rails_frame(force_n: float, rail: Rail, nose: NosePlate, off_line_mm: float = 0.0) -> Movement:
    """The nose on two rails, one each side of the line, built in at the yoke; between both bounds of `NosePlate`.

    Rails: F L / (2 EA). The nose plate's ends turn against the rails: end moment
    M = (F s / 8) / (1 + 2 EIn L / (s 4 EIr)), middle = F s^3 / 48 EI - M s^2 / 8 EI + shear. `off_line_mm`, how far the
    rails stand above or below the line, bends them as a `strip`.

    >>> from fitwright.physics.slide.sections import channel, rectangle
    >>> rail = Rail(180, rectangle(30, 12), 1750)
    >>> nose = NosePlate(88, channel(50, 10, 6, 14), 1750, shear_mm2=2 * 6 * 24)
    >>> round(rails_frame(121, rail, nose).along_mm, 3)
    0.059
    """
    end = _end_moment_nmm(force_n, rail, nose)
    bending = nose.modulus_mpa * nose.section.deep_mm4
    middle = force_n * nose.pinned_mm_per_n - end * nose.span_mm**2 / (8.0 * bending)
    plate_mpa = nose.moment_nmm(force_n, end) * nose.section.fibre_deep_mm / nose.section.deep_mm4
    bent = strip(force_n, off_line_mm, rail.length_mm, rail.section, rail.modulus_mpa, pieces=2)
    rail_mpa = bent.stress_mpa + end * rail.section.fibre_across_mm / rail.section.across_mm4
    return Movement(bent.along_mm + middle, bent.aside_mm, bent.tilt_deg, max(plate_mpa, rail_mpa))


def rods_frame(force_n: float, length_mm: float, rod: Section, nose: NosePlate, off_line_mm: float = 0.0) -> Movement:
    """The nose plate on two steel rods, held by nuts on both its sides; cautious: their nuts let its ends turn.

    >>> from fitwright.physics.slide.sections import channel, round_bar
    >>> nose = NosePlate(88, channel(50, 10, 6, 14), 1750, shear_mm2=2 * 6 * 24)
    >>> round(rods_frame(121, 190, round_bar(6.83), nose).along_mm, 3)
    0.058
    """
    bent = strip(force_n, off_line_mm, length_mm, rod, STEEL_MPA, pieces=2)
    plate_mpa = nose.moment_nmm(force_n) * nose.section.fibre_deep_mm / nose.section.deep_mm4
    plate = Movement(force_n * nose.pinned_mm_per_n, stress_mpa=plate_mpa)
    return bent + plate


def beside_middle(
    force_n: float, offset_mm: float, length_mm: float, section: Section, modulus_mpa: float, span_mm: float
) -> Movement:
    """What a thrust `offset_mm` beside the middle between two rails `span_mm` apart adds: a tilt across the rails.

    One rail is stretched and the other squeezed by F e / s, and both bend with the plate: the plate turns by
    F e / (EA s^2 / (2 L) + 2 EI / L) and the nose goes along by e x that.

    >>> from fitwright.physics.slide.sections import rectangle
    >>> round(beside_middle(121, 2.0, 180, rectangle(30, 12), 1750, 88).tilt_deg, 4)
    0.001
    """
    turning = modulus_mpa / length_mm * (section.area_mm2 * span_mm**2 / 2.0 + 2.0 * section.across_mm4)
    angle = force_n * abs(offset_mm) / turning
    return Movement(abs(offset_mm) * angle, 0.0, math.degrees(angle))


def post(force_n: float, height_mm: float, section: Section, modulus_mpa: float, poisson: float = POISSON) -> Movement:
    """A foot that stands up to the thrust line, held at the board: F h^3 / (3 EI), its shear, tilt F h^2 / (2 EI).

    Rib it along the thrust: its section bends along the thrust as `deep`.

    >>> from fitwright.physics.slide.sections import rectangle
    >>> foot = post(121, 40, rectangle(60, 20), 1750)
    >>> round(foot.along_mm, 3), round(foot.tilt_deg, 3)
    (0.044, 0.079)
    """
    bending = modulus_mpa * section.deep_mm4
    shear = modulus_mpa / (2.0 * (1.0 + poisson)) * section.area_mm2 * SHEAR_SHARE
    return Movement(
        force_n * height_mm**3 / (3.0 * bending) + force_n * height_mm / shear,
        0.0,
        math.degrees(force_n * height_mm**2 / (2.0 * bending)),
        force_n * height_mm * section.fibre_deep_mm / section.deep_mm4,
    )


def sag(
    mass_kg: float, length_mm: float, beyond_mm: float, section: Section, modulus_mpa: float, pieces: int = 2
) -> Movement:
    """What a cylinder's weight does to a mount that is held at the gate alone and lies level.

    Centre of gravity `beyond_mm` beyond the nose face: at the face W L^3 / 3 EI + W b L^2 / 2 EI aside, W L^2 / 2 EI +
    W b L / EI tilt. Negative where the cylinder lies back over its mount.

    >>> from fitwright.physics.slide.sections import round_bar
    >>> one = sag(0.2, 167, 60, round_bar(6.83), 205000)
    >>> round(one.aside_mm, 3), round(one.tilt_deg, 3)
    (0.107, 0.061)
    """
    weight, bending = mass_kg * GRAVITY, modulus_mpa * section.deep_mm4 * pieces
    aside = weight * (length_mm**3 / 3.0 + beyond_mm * length_mm**2 / 2.0) / bending
    tilt = weight * (length_mm**2 / 2.0 + beyond_mm * length_mm) / bending
    moment = weight * (length_mm + beyond_mm) / pieces
    return Movement(0.0, aside, math.degrees(tilt), moment * section.fibre_deep_mm / section.deep_mm4)


def gate_moment_nm(mass_kg: float, arm_mm: float) -> float:
    """Moment [N m] of the cylinder's weight at the gate's edge; over 1 N m, or 0.3 kg, give it a second support.

    >>> round(gate_moment_nm(0.3, 340), 2)
    1.0
    """
    return mass_kg * GRAVITY * arm_mm / 1000.0


def _end_moment_nmm(force_n: float, rail: Rail, nose: NosePlate) -> float:
    """What the rails hold of the nose plate's ends."""
    plate = 2.0 * nose.modulus_mpa * nose.section.deep_mm4 / nose.span_mm
    column = 4.0 * rail.modulus_mpa * rail.section.across_mm4 / rail.length_mm
    return force_n * nose.span_mm / 8.0 * column / (column + plate)
