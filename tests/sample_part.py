"""A Part made by hand, without YAML and families, for the tests of export, report and pictures."""

from __future__ import annotations

from math import cos, pi, radians, sin

import cadquery as cq

from fitwright.part import Body, Dimension, Part, Pose, TryPiece

OUTER_MM, BORE_MM, LENGTH_MM, FLANGE_MM, FLANGE_LONG_MM = 60.0, 50.0, 80.0, 90.0, 6.0
HOLES, HOLE_MM, HOLE_CIRCLE_MM = 3, 5.0, 75.0


def volume_mm3() -> float:
    """Closed form: a tube, plus the flange round it, minus the holes through the flange."""
    tube = pi / 4 * (OUTER_MM**2 - BORE_MM**2) * LENGTH_MM
    flange = pi / 4 * (FLANGE_MM**2 - OUTER_MM**2) * FLANGE_LONG_MM
    return tube + flange - HOLES * pi / 4 * HOLE_MM**2 * FLANGE_LONG_MM


def cylinder(d_mm: float, start_mm: float, long_mm: float, x: float = 0.0, z: float = 0.0) -> cq.Solid:
    """A cylinder along +y from y = start."""
    return cq.Solid.makeCylinder(d_mm / 2, long_mm, cq.Vector(x, start_mm, z), cq.Vector(0, 1, 0))


def solid() -> cq.Solid:
    """A tube along y with a flange at the near end and three holes in it."""
    shape = cylinder(FLANGE_MM, 0, FLANGE_LONG_MM).fuse(cylinder(OUTER_MM, 0, LENGTH_MM))
    shape = shape.cut(cylinder(BORE_MM, -1, LENGTH_MM + 2))
    for number in range(HOLES):
        angle = radians(120 * number)
        x, z = HOLE_CIRCLE_MM / 2 * sin(angle), HOLE_CIRCLE_MM / 2 * cos(angle)
        shape = shape.cut(cylinder(HOLE_MM, -1, FLANGE_LONG_MM + 2, x, z))
    [found] = shape.Solids()
    return found


def bush() -> Part:
    """One body of genus 4 (the bore and three holes) with two try pieces, dimensions and labels."""
    away, towards = (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)
    tries = (
        TryPiece("end_b ring", cylinder(200, LENGTH_MM - 10, 20), away),
        TryPiece("end_a footprint", cylinder(200, -1, 3), towards),
    )
    body = Body("bush", solid(), HOLES + 1, 5.0, (Pose("end_a on the bed", towards),), tries=tries)
    half = OUTER_MM / 2
    dimensions = (
        Dimension("outside", (0, LENGTH_MM, -half), (0, LENGTH_MM, half), OUTER_MM),
        Dimension("bore", (0, 0, -BORE_MM / 2), (0, 0, BORE_MM / 2), BORE_MM),
        Dimension("length", (0, 0, -half), (0, LENGTH_MM, -half), LENGTH_MM),
        Dimension("plate", (0, 0, -half), (0, FLANGE_LONG_MM, -half), FLANGE_LONG_MM),
    )
    return Part(
        "bush",
        "reducer",
        (body,),
        dimensions=dimensions,
        section_across=(0.0, 0.0, 1.0),
        labels={"machine": (0, 0, 0), "Schläuche Ø 60": (0, LENGTH_MM, 0)},
        facts={"end_a holds and seals": "3 x M5 with washers; a flat gasket"},
        assumed={"material": "PETG, the default"},
        cautions=("Bond metal parts where local rules ask for it.",),
    )
