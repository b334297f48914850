"""Two benchmarks of the National Agency for Finite Element Methods and Standards, on our elements and solver.

The Standard NAFEMS Benchmarks, revision 3 (1990): LE1, an elliptic membrane: 92.7 MPa at D; LE10, a thick plate of
the same plan under pressure: -5.38 MPa at D. Lengths are theirs in metres, read as millimetres (times ten): a stress
under a pressure does not depend on the scale.
"""

from __future__ import annotations

import numpy as np
import pytest
from cadquery import Edge, Face, Solid, Vector, Wire

from fitwright.physics.elastic.held import Held, Spring
from fitwright.physics.elastic.meshed import mesh_of
from fitwright.physics.elastic.patch import indicator_of
from fitwright.physics.elastic.space import Space, stress
from tests.reference.elastic import brep, flat

SCALE = 10.0
E_MPA, POISSON = 210e3, 0.3
STIFF = 1e9
"""[N/mm3] where the benchmark holds a face."""
X, Y, Z, NEGATIVE = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)
D = (2.0 * SCALE, 0.0)


def ellipse(a: float, b: float) -> Wire:
    return Wire.assembleEdges(
        [Edge.makeEllipse(a * SCALE, b * SCALE, Vector(0, 0, 0), Vector(0, 0, 1), Vector(1, 0, 0))]
    )


def quarter(thick: float) -> Solid:
    """Between the ellipses, x and y positive."""
    whole = Solid.extrudeLinear(
        Face.makeFromWires(ellipse(3.25, 2.75), [ellipse(2.0, 1.0)]), Vector(0, 0, thick * SCALE)
    )
    return whole.intersect(Solid.makeBox(5 * SCALE, 5 * SCALE, 5 * SCALE, Vector(0, 0, -SCALE))).Solids()[0]


class Plate:
    """The quarter, meshed as a part's body is, with the planes of symmetry held."""

    def __init__(self, thick: float, size: float) -> None:
        import ngsolve

        solid, far = quarter(thick), 5 * SCALE
        self.high, self.solid = thick * SCALE, solid
        self.space = Space(mesh_of(brep(solid), 1.0, size, [((*D, self.high), size / 6)], solid.Volume()))
        planes = flat("x = 0", (0.0, 0.0, 0.0), X, Y, (far, far)), flat("y = 0", (0.0, 0.0, 0.0), Y, X, (far, far))
        self.springs = [
            Spring(indicator_of(planes[0]), (STIFF, 0.0, 0.0)),
            Spring(indicator_of(planes[1]), (0.0, STIFF, 0.0)),
        ]
        x, y, n = ngsolve.x, ngsolve.y, ngsolve.specialcf.normal(3)
        beyond = (x / (2.6 * SCALE)) ** 2 + (y / (1.9 * SCALE)) ** 2 - 1.0
        upright = ngsolve.IfPos(0.5 - n[2] * n[2], 1.0, 0.0)
        off = ngsolve.IfPos(x - 1e-4 * SCALE, 1.0, 0.0) * ngsolve.IfPos(y - 1e-4 * SCALE, 1.0, 0.0)
        self.outer = upright * off * ngsolve.IfPos(beyond, 1.0, 0.0)

    def at_d(self, traction: object) -> np.ndarray:
        """Averaged stress at D, on top."""
        import ngsolve

        form = ngsolve.LinearForm(self.space.displacement)
        form += traction * self.space.displacement.TestFunction() * ngsolve.ds(bonus_intorder=4)
        form.Assemble()
        held = Held(self.space, self.springs, E_MPA, POISSON)
        moved = held.moved(np.array(form.vec.FV().NumPy())[None, :])[0]
        mean = self.space.averaged(stress(self.space.strain(moved), E_MPA, POISSON))
        points = self.space.points[: self.space.vertices]
        k = int(np.linalg.norm(points - (*D, self.high), axis=1).argmin())
        assert np.linalg.norm(points[k] - (*D, self.high)) < 1e-6
        return np.asarray(mean[k])


@pytest.mark.slow
def test_le1_an_elliptic_membrane() -> None:
    """10 MPa outwards on the outer edge, held at its planes of symmetry only: 92.7 MPa along the inner edge at D."""
    import ngsolve

    plate = Plate(0.1, 1.6)
    bottom = flat("bottom", (0.0, 0.0, 0.0), Z, X, (5 * SCALE, 5 * SCALE))
    plate.springs.append(Spring(indicator_of(bottom), (0.0, 0.0, 1e-3)))
    found = plate.at_d(10.0 * plate.outer * ngsolve.specialcf.normal(3))
    assert found[1, 1] == pytest.approx(92.7, rel=0.02)
    assert abs(found[2, 2]) < 2.0 and abs(found[0, 1]) < 2.0


@pytest.mark.slow
def test_le10_a_thick_plate_under_pressure() -> None:
    """1 MPa down on top, the outer face held sideways and its middle line down: -5.38 MPa at D.

    The line is a strip here, a thirtieth of the thickness high.
    """
    import ngsolve

    plate = Plate(0.6, 1.8)
    middle, half = 0.3 * SCALE, 0.01 * SCALE
    plate.springs.append(Spring(plate.outer, (STIFF, STIFF, 0.0)))
    strip = plate.outer * ngsolve.IfPos(half**2 - (ngsolve.z - middle) ** 2, 1.0, 0.0)
    plate.springs.append(Spring(strip, (0.0, 0.0, STIFF)))
    n = ngsolve.specialcf.normal(3)
    found = plate.at_d(-1.0 * ngsolve.IfPos(n[2] - 0.9, 1.0, 0.0) * ngsolve.CF((0.0, 0.0, 1.0)))
    assert found[1, 1] == pytest.approx(-5.38, rel=0.02)
