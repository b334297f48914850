"""Check `fit.built`: diameters, tapers, roundness and holes are read off the finished mesh; what is missing fails."""

from __future__ import annotations

import math
from typing import Literal

import pytest
import trimesh
from cadquery import Shape, Solid, Vector, Wire
from kernel_solids import ALONG, Y, body, box, faults, rod, run, tube, turned

from fitwright.checks.fit_built import check
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_shape
from fitwright.part import FitSurface, Frame, HoleFit, Vec


def fit(
    d0: float, d1: float, s0: float, s1: float, kind: Literal["hole", "shaft"] = "hole", groove: float = 0.0
) -> FitSurface:
    ends = (s0, s1, d0, d1, d0, d1, d0, d0, d1, d1)
    words = ("slide", "end_a.socket.over", "pipe", "none", "none")
    return FitSurface("bore", "end_a", ALONG, kind, *ends, *words, cord_groove_depth_mm=groove)  # type: ignore[arg-type]


def found(solid: Shape, *fits: FitSurface, holes: tuple[HoleFit, ...] = ()) -> list[Finding]:
    return run(check, body(solid, 1, fits=fits, holes=holes))


def tapered(mouth_r: float, half_angle_deg: float, length: float = 40.0) -> Solid:
    bottom = mouth_r - length * math.tan(math.radians(half_angle_deg))
    return turned([(mouth_r, 0), (mouth_r + 3, 0), (mouth_r + 3, length), (bottom, length)])


@pytest.mark.parametrize("d", [20.0, 58.4, 107.6, 160.0])
def test_parallel_faces_measure_what_they_are(d: float) -> None:
    made = tube(d / 2, d / 2 + 3, 40)
    hole, shaft = found(made, fit(d, d, 2, 38), fit(d + 6, d + 6, 2, 38, "shaft"))
    assert hole.severity == shaft.severity == "pass"
    assert hole.value == pytest.approx(d, abs=0.02) and shaft.value == pytest.approx(d + 6, abs=0.02)


@pytest.mark.parametrize(("error", "severity"), [(0.02, "pass"), (0.08, "fail"), (0.2, "fail"), (-0.2, "fail")])
def test_bore_that_is_off(error: float, severity: str) -> None:
    """The limit is 0.05 mm of diameter, and 0.02 of it may be the mesh."""
    (one,) = found(tube(50 + error / 2, 53, 40), fit(100, 100, 0, 40))
    assert one.severity == severity
    assert one.value == pytest.approx(100 + error, abs=0.02)


@pytest.mark.parametrize("anchor", [0.0, 0.5, 1.0])
def test_taper_0_3_deg_off(anchor: float) -> None:
    """Wherever along the face the diameters agree: half angle 0.5 built, 0.8 meant."""
    slope = 2 * math.tan(math.radians(0.5)), 2 * math.tan(math.radians(0.8))
    d_there = 100 - slope[0] * 40 * anchor
    d0 = d_there + slope[1] * 40 * anchor
    (one,) = found(tapered(50, 0.5), fit(d0, d0 - slope[1] * 40, 0, 40))
    assert one.severity == "fail" and "half angle is off by 0.30 deg" in one.message


def test_taper_0_3_deg_off_on_a_short_face() -> None:
    """Over 6 mm it changes the diameter by 0.03 at most, below the limit: the angle itself tells."""
    built, meant = math.tan(math.radians(0.5)), math.tan(math.radians(0.8))
    d0 = 100 - 2 * built * 13 + 2 * meant * 3
    (one,) = found(tapered(50, 0.5), fit(d0, d0 - 2 * meant * 6, 10, 16))
    assert one.severity == "fail" and "half angle is off" in one.message and "; off by" not in one.message


def test_taper_as_meant_is_compared_at_its_own_depth() -> None:
    slope = 2 * math.tan(math.radians(0.5))
    (one,) = found(tapered(50, 0.5), fit(100 - 3 * slope, 100 - 38 * slope, 3, 38))
    assert one.severity == "pass"
    assert one.value is not None and one.limit is not None and one.value == pytest.approx(one.limit, abs=0.02)


def test_a_bulging_loft_is_caught() -> None:
    """Known kernel fault (CadQuery issue 808): a smooth loft through four circles measures 53.9 where 50 was asked."""
    stations = ((50, 0), (50, 25), (32, 45), (32, 70))
    loft = Solid.makeLoft([Wire.makeCircle(r, Vector(0, y, 0), Y) for r, y in stations], False)
    mesh = BodyMesh(mesh_shape(loft, 0.05, 0.2), loft.Volume())
    (one,) = run(check, body(loft, fits=(fit(100, 100, 2, 23, "shaft"),)), mesh)
    assert one.severity == "fail"


@pytest.mark.parametrize("missing", [fit(96, 96, 2, 38), fit(100, 100, 2, 38, "shaft"), fit(100, 100, 20, 80)])
def test_a_face_that_is_not_there_fails(missing: FitSurface) -> None:
    """Another diameter, facing the wrong way, half as long as declared."""
    (one,) = found(tube(50, 53, 40), missing)
    assert one.severity == "fail" and "not found" in one.message and one.value is None


def test_empty_mesh_fails() -> None:
    made = body(tube(50, 53, 40), 1, fits=(fit(100, 100, 2, 38),))
    assert faults(run(check, made, BodyMesh(trimesh.Trimesh(process=False), 1.0))) == ["not checked: it has no mesh"]


def test_slits_and_screw_holes_do_not_disturb() -> None:
    made: Shape = tube(50, 53, 40)
    for k in range(4):
        slit = box(-1.5, -1, 40, 1.5, 30, 60).rotate(Vector(0, 0, 0), Y, 90 * k)
        hole = Solid.makeCylinder(1.7, 20, Vector(0, 15, 40)).rotate(Vector(0, 0, 0), Y, 90 * k + 45)
        made = made.cut(slit).cut(hole)
    (one,) = found(made, fit(100, 100, 2, 38))
    assert one.severity == "pass" and one.value == pytest.approx(100, abs=0.02)


def test_less_than_half_a_circle_is_not_a_bore() -> None:
    (one,) = found(tube(50, 53, 40).cut(box(-60, -1, -5, 60, 41, 60)), fit(100, 100, 2, 38))
    assert one.severity == "fail" and "not found" in one.message


def test_declared_cord_groove_is_no_fault_and_an_undeclared_one_is() -> None:
    """A groove 0.8 deep over an eighth of the length."""
    made = tube(50, 54, 40).cut(turned([(49, 18), (50.8, 18), (50.8, 23), (49, 23)]))
    assert faults(found(made, fit(100, 100, 2, 38, groove=0.8))) == []
    assert faults(found(made, fit(100, 100, 2, 38))) != []


def test_oval_bore() -> None:
    """0.3 mm between the two diameters of an ellipse of mean 100: the mean alone would pass."""
    outer = rod(55, 40)
    ring = Wire.makeEllipse(50.075, 49.925, Vector(0, -1, 0), Y, Vector(1, 0, 0))
    (one,) = found(outer.cut(Solid.extrudeLinear(ring, [], Vector(0, 42, 0))), fit(100, 100, 2, 38))
    assert one.severity == "fail" and "out of round by 0.15" in one.message


def test_bore_aside_of_its_axis() -> None:
    (one,) = found(rod(55, 40).cut(rod(50, 42, x=0.1, y=-1)), fit(100, 100, 2, 38))
    assert one.severity == "fail" and "axis is 0.100 mm aside" in one.message


def radial(angle_deg: float, y: float, d: float, length: float = 9.0) -> HoleFit:
    """A screw hole through the wall of a D106 tube, from 49 mm outwards."""
    x, z = math.sin(math.radians(angle_deg)), math.cos(math.radians(angle_deg))
    return HoleFit("screw hole", (48.0 * x, y, 48.0 * z), (x, 0.0, z), length, d, "end_a.socket.screws")


def drilled() -> Shape:
    made: Shape = tube(50, 55, 40)
    for angle in (0, 120, 240):
        hole = Solid.makeCylinder(1.65, 20, Vector(0, 20, 40)).rotate(Vector(0, 0, 0), Y, angle)
        made = made.cut(hole)
    return made


def test_screw_holes_as_meant() -> None:
    findings = found(drilled(), holes=tuple(radial(a, 20, 3.3) for a in (0, 120, 240)))
    assert [f.severity for f in findings] == ["pass"] * 3
    assert findings[0].value == pytest.approx(3.3, abs=0.02)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (radial(0, 20.1, 3.3), "aside"),
        (radial(0.2, 20, 3.3), "aside"),
        (radial(0, 20, 3.5), "off by 0.2"),
        (radial(60, 20, 3.3), "not found"),
        (radial(0, 24, 3.3), "not found"),
    ],
    ids=["0.1 along", "0.17 round", "0.2 too small", "missing", "4 mm along"],
)
def test_screw_holes_that_are_wrong(wrong: HoleFit, says: str) -> None:
    (one,) = found(drilled(), holes=(wrong,))
    assert one.severity == "fail" and says in one.message


@pytest.mark.parametrize("inward", [(0.0, 1.0, 0.0), (0.6, 0.8, 0.0)])
def test_any_frame(inward: Vec) -> None:
    """The same tube, turned: the frame says where its axis is."""
    right = (inward[1], -inward[0], 0.0)
    frame = Frame((7.0, -3.0, 11.0), inward, right)
    outer = Solid.makeCylinder(53, 40, Vector(7, -3, 11), Vector(*inward))
    made = outer.cut(Solid.makeCylinder(50, 40, Vector(7, -3, 11), Vector(*inward)))
    given = fit(100, 100, 2, 38)
    turned_fit = FitSurface(**{**given.__dict__, "frame": frame})
    (one,) = found(made, turned_fit)
    assert one.severity == "pass" and one.value == pytest.approx(100, abs=0.02)
