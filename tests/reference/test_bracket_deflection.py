"""How far a bracket gives way by finite elements, against the closed forms that docs/families/gate_bracket_mechanics.md
works by hand: 121 N, 1750 MPa.

Strips are bent by the same moment all along and have no shear: on an exact section the elements must come to the same
but for the held end, where the section cannot widen or narrow (Saint-Venant: over about its own width). So 2 % for the
U, whose walls are thin, 3 % for the plate, 60 wide and held stiff over a third of its length (there it is up to
1 / (1 - nu^2) = 1.15 stiffer). The nose plate between its rods is short (3.7 times as long as deep) and its web bends
between its ribs, which no beam does: the washers of M8 must lie between the two bounds, ends free and ends held;
points in place of washers, free to turn, within 15 % of the upper one.
"""

from __future__ import annotations

import math

import pytest
from cadquery import Solid, Vector

from fitwright.checks.strength_tasks import brep_text
from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.part import Body, Pose
from fitwright.parts.gate.load_faces import OUT, UP, disc, minus, patch
from fitwright.physics.elastic.task import Effort, Elastic, Task
from fitwright.physics.elasticity import analyse
from fitwright.physics.slide.frames import NosePlate, strip
from fitwright.physics.slide.sections import channel, rectangle

FORCE_N, MODULUS_MPA, LONG_MM, BELOW_MM = 121.0, 1750.0, 184.5, 20.6
ROD_N_MM = 205000.0 * 36.6 / 190.0
"""A rod M8, 190 long."""
DIAGONAL: Vec = (0.0, math.sqrt(0.5), math.sqrt(0.5))


def box(low: Vec, high: Vec) -> Solid:
    return Solid.makeBox(*(b - a for a, b in zip(low, high, strict=True)), Vector(*low))


def moved(
    pieces: list[Solid], faces: list[LoadFace], supports: list[Support], cases: list[LoadCase], size_mm: float
) -> dict[str, float]:
    """Movement of the loaded face along its force [mm], a case."""
    shape = pieces[0].fuse(*pieces[1:]).clean() if len(pieces) > 1 else pieces[0]
    (solid,) = shape.Solids()
    body = Body("b", solid, 0, 5.0, (Pose("p", (0.0, 0.0, -1.0)),))
    elastic = Elastic(MODULUS_MPA, 0.36, 44.0, 25.0)
    task = Task(
        "b", brep_text(body), 5.0, tuple(faces), tuple(supports), tuple(cases), elastic, None,
        effort=Effort(refinements=0, size_mm=size_mm), volume_mm3=solid.Volume(),
    )  # fmt: skip
    answer = analyse(task)
    assert not answer.why
    return {one.name: one.moved_mm for one in answer.cases}


def strip_moved(pieces: list[Solid], line_z: float, size_mm: float) -> tuple[float, float]:
    """Along and aside [mm] of a strip's end, pushed along at `line_z`.

    Aside by the work of a slanting force: along and up alone are known, what is left is what each does to the other.
    """
    end = patch("end", "b", minus(OUT), LONG_MM, (-40.0, 40.0), (-10.0, 50.0))
    root = patch("root", "b", OUT, 0.0, (-40.0, 40.0), (-10.0, 50.0))
    at: Vec = (0.0, LONG_MM, line_z)
    ways = {"along": OUT, "up": UP, "slanting": DIAGONAL}
    cases = [LoadCase(name, "b", "end", FORCE_N, (way,), ("root",), at=at) for name, way in ways.items()]
    found = moved(pieces, [end, root], [], cases, size_mm)
    return found["along"], abs(found["slanting"] - (found["along"] + found["up"]) / 2)


@pytest.mark.slow
def test_the_u_of_the_design() -> None:
    """Floor 60 x 8, walls 5 x 30, centroid 13.3 below the line: 0.04 along, 0.17 aside."""
    pieces = [
        box((-30.0, 0.0, 0.0), (30.0, LONG_MM, 8.0)),
        box((-30.0, 0.0, 8.0), (-25.0, LONG_MM, 38.0)),
        box((25.0, 0.0, 8.0), (30.0, LONG_MM, 38.0)),
    ]
    section = channel(60.0, 8.0, 5.0, 30.0)  # its centroid counted from the floor's middle
    form = strip(FORCE_N, BELOW_MM - section.deep_at, LONG_MM, section, MODULUS_MPA)
    assert (round(form.along_mm, 2), round(form.aside_mm, 2)) == (0.04, 0.17)
    along, aside = strip_moved(pieces, 4.0 + BELOW_MM, 8.0)
    assert along == pytest.approx(form.along_mm, rel=0.02)
    assert aside == pytest.approx(form.aside_mm, rel=0.02)


@pytest.mark.slow
def test_the_plate_off_the_line() -> None:
    """60 x 8, 20.6 below the line: 2.14 along, 9.47 aside."""
    form = strip(FORCE_N, BELOW_MM, LONG_MM, rectangle(60.0, 8.0), MODULUS_MPA)
    assert (round(form.along_mm, 2), round(form.aside_mm, 2)) == (2.14, 9.47)
    along, aside = strip_moved([box((-30.0, 0.0, 0.0), (30.0, LONG_MM, 8.0))], 4.0 + BELOW_MM, 6.0)
    assert along == pytest.approx(form.along_mm, rel=0.03)
    assert aside == pytest.approx(form.aside_mm, rel=0.03)


def nose_plate_moved(washer_mm: float) -> float:
    """Of a plate 50 x 10 with ribs 6 x 14 on rods 88 apart, the rods' own stretch taken off."""
    pieces = [
        box((-54.0, 0.0, -25.0), (54.0, 10.0, 25.0)),
        box((-54.0, -14.0, -25.0), (54.0, 0.0, -19.0)),
        box((-54.0, -14.0, 19.0), (54.0, 0.0, 25.0)),
    ]
    middle = disc("middle", "b", (0.0, 10.0, 0.0), minus(OUT), 24.0)
    ends = [disc(f"washer {x:g}", "b", (x, 10.0, 0.0), minus(OUT), washer_mm) for x in (-44.0, 44.0)]
    supports = [Support(one.name, "washer", ROD_N_MM, ROD_N_MM / 10) for one in ends]
    case = LoadCase("pushed", "b", "middle", FORCE_N, (minus(OUT),), tuple(one.name for one in ends))
    return moved(pieces, [middle, *ends], supports, [case], 6.0)["pushed"] - FORCE_N / 2 / ROD_N_MM


@pytest.mark.slow
def test_the_nose_plate_on_rods_lies_between_its_bounds() -> None:
    form = NosePlate(88.0, channel(50.0, 10.0, 6.0, 14.0), MODULUS_MPA, shear_mm2=2 * 6.0 * 24.0)
    pinned, built_in = FORCE_N * form.pinned_mm_per_n, FORCE_N * form.built_in_mm_per_n
    assert round(pinned + FORCE_N / 2 / ROD_N_MM, 2) == 0.06
    assert built_in < nose_plate_moved(16.0) < pinned
    assert nose_plate_moved(5.0) == pytest.approx(pinned, rel=0.15)
