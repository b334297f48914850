"""Hangers made by hand of a ring, a plate and a lug, whose declarations stay the same whatever is spoilt of the solid.

Meant: bore 110 about y, arm 8, 48 wide, rims R 4; plate 6 thick on the surface x = -80; two 5.0 mm screws at z = +-60;
a hook's opening 93 wide, upwards; an eye of 8 below right.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import cadquery as cq

from fitwright.checks import hanger as check_hanger
from fitwright.finding import Finding
from fitwright.frame import Frame
from fitwright.hanging import Cradle, Eye, Hanging, HeldBy, Throat
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Part, Pose
from fitwright.spec.hanger import Carried
from fitwright.spec.size import from_readings
from tests.hanger_specs import hanger

R, ARM, WIDE, SURFACE, PLATE, SCREW_Z, THROAT, EYE_D = 55.0, 8.0, 48.0, -80.0, 6.0, 60.0, 93.0, 8.0
ALONG = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
EYE_AT = (52.0, 0.0, -48.0)
LYING = Pose("lying on its side", (0.0, -1.0, 0.0))
HOSE = Carried(kind="hose", size=from_readings((109.0,)), inside_mm=100.0)
PIPE = Carried(kind="pipe", size=from_readings((109.0,)), key="pipe.over")


@dataclass(frozen=True)
class Spoilt:
    """What of the solid is not as declared."""

    bore_r: float = R
    arm: float = ARM
    wide: float = WIDE
    rim: float = 4.0
    throat: float | None = None
    """Opening of a hook, 0: closed; None: a saddle, open above its middle."""
    eye_d: float = EYE_D
    eye_edge: float = 12.0
    cone: bool = False
    near_hole: bool = False
    """A hole along the hose, 3 mm behind the bore's face."""
    recess: bool = False


def cylinder_y(x: float, z: float, r: float, wide: float, start: float = 0.0) -> cq.Solid:
    """A cylinder along y."""
    return cq.Solid.makeCylinder(r, wide, cq.Vector(x, start, z), cq.Vector(0, 1, 0))


def box(x: tuple[float, float], z: tuple[float, float], y: tuple[float, float]) -> cq.Solid:
    """A box between these coordinates."""
    return cq.Solid.makeBox(x[1] - x[0], y[1] - y[0], z[1] - z[0], cq.Vector(x[0], y[0], z[0]))


def solid(s: Spoilt) -> cq.Shape:
    """The hanger, spoilt as asked."""
    wide = s.wide
    made: cq.Shape = cylinder_y(0.0, 0.0, s.bore_r + s.arm, wide)
    made = made.fuse(box((SURFACE, SURFACE + PLATE), (-70.0, 70.0), (0.0, wide)))
    made = made.fuse(box((SURFACE + 1.0, -40.0), (-45.0, -5.0), (0.0, wide)))
    if s.eye_d:
        made = made.fuse(cylinder_y(EYE_AT[0], EYE_AT[2], s.eye_edge, wide))
    bore: cq.Shape = cylinder_y(0.0, 0.0, s.bore_r, wide + 2.0, -1.0)
    if s.rim:
        for y, way in ((0.0, 1.0), (wide, -1.0)):
            bore = bore.fuse(_flare(s.bore_r, s.rim, y, way))
    made = made.cut(bore)
    half = 200.0 if s.throat is None else s.throat / 2
    if half > 0.0:
        low = max(-half, SURFACE + PLATE)
        made = made.cut(box((low, half), (0.0, 200.0), (-1.0, wide + 1.0)))
    return _drilled(made, s)


def _drilled(made: cq.Shape, s: Spoilt) -> cq.Shape:
    for z in (-SCREW_Z, SCREW_Z):
        start = cq.Vector(SURFACE - 1.0, WIDE / 2, z)
        made = made.cut(cq.Solid.makeCylinder(2.75, 10.0, start, cq.Vector(1, 0, 0)))
        if s.cone:
            sunk = cq.Vector(SURFACE + PLATE - 4.0, WIDE / 2, z)
            made = made.cut(cq.Solid.makeCone(2.75, 6.75, 4.0, sunk, cq.Vector(1, 0, 0)))
    if s.eye_d:
        made = made.cut(cylinder_y(EYE_AT[0], EYE_AT[2], s.eye_d / 2, s.wide + 2.0, -1.0))
    if s.near_hole:
        made = made.cut(cylinder_y(0.0, -(R + 4.5), 1.5, s.wide + 2.0, -1.0))
    if s.recess:
        made = made.cut(box((-30.0, 30.0), (-57.0, 0.0), (8.0, 40.0)))
    return made


def _flare(r: float, rim: float, y: float, way: float) -> cq.Solid:
    """A quarter round rim of radius `rim`, turned about the bore's axis."""
    start, end = cq.Vector(r, y + way * rim, 0), cq.Vector(r + rim, y, 0)
    middle = cq.Vector(r + rim * (1 - 0.5**0.5), y + way * rim * (1 - 0.5**0.5), 0)
    inner, outer = cq.Vector(r - 1, y + way * rim, 0), cq.Vector(r + rim, y - way, 0)
    corner = cq.Vector(r - 1, y - way, 0)
    edges = [cq.Edge.makeThreePointArc(start, middle, end), cq.Edge.makeLine(end, outer)]
    edges += [cq.Edge.makeLine(outer, corner), cq.Edge.makeLine(corner, inner), cq.Edge.makeLine(inner, start)]
    wire = cq.Wire.assembleEdges(edges)
    return cq.Solid.revolve(wire, [], 360.0, cq.Vector(0, 0, 0), cq.Vector(0, 1, 0))


def screw(z: float, **changes: Any) -> HeldBy:
    """One of the two screws."""
    own: dict[str, Any] = {
        "name": f"screw at {z:+.0f}",
        "size": "5.0 mm",
        "d_mm": 5.0,
        "at": (SURFACE, WIDE / 2, z),
        "direction": (-1.0, 0.0, 0.0),
        "into": "wood",
        "key": "mount.screws",
        "grip_mm": 44.0,
        "wood": "spruce",
        "washer_d_mm": 15.0,
        "hole_d_mm": 5.5,
    }
    return HeldBy(**{**own, **changes})


def hanging(hook: bool = False, **changes: Any) -> Hanging:
    """What it declares of itself."""
    turn = (58.0, 302.0) if hook else (90.0, 270.0)
    throat = Throat(
        "throat",
        "hanger",
        (0.0, WIDE / 2, 34.0),
        (1.0, 0.0, 0.0),
        (0.0, 0.0, 1.0),
        THROAT,
        109.0,
        ARM,
        (60.0, 120.0),
        R + 4,
    )
    corners = ((-70.0, 0.0), (70.0, 0.0), (70.0, WIDE), (-70.0, WIDE))
    eye = Frame(EYE_AT, (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    own: dict[str, Any] = {
        "cradles": (Cradle("bore", "hanger", ALONG, R, turn, WIDE, "hose.over_ribs"),),
        "throats": (throat,) if hook else (),
        "eyes": (Eye("eye", "hanger", eye, EYE_D, WIDE),),
        "held": (screw(-SCREW_Z), screw(SCREW_Z)),
        "plate": tuple((SURFACE, y, z) for z, y in corners),
        "load_at": ((0.0, WIDE / 2, 0.0),),
        "lasting_n": 20.0,
    }
    return Hanging(**{**own, **changes})


@cache
def _meshed(spoilt: Spoilt) -> tuple[cq.Solid, BodyMesh]:
    shape = solid(spoilt).Solids()[0]
    return shape, mesh_body(Body("hanger", shape, 0, 2.4, (LYING,)))


def found(
    spoilt: Spoilt | None = None, declared: Hanging | None = None, pose: Pose = LYING, **spec: Any
) -> list[Finding]:
    """What the check says of a saddle or hook made by hand."""
    spoilt = spoilt or Spoilt()
    shape, mesh = _meshed(spoilt)
    body = Body("hanger", shape, 0, 2.4, (pose,))
    declared = declared or hanging(hook=spoilt.throat is not None)
    part = Part("hanger", "hose_hanger", (body,), hanging=declared)
    own: dict[str, Any] = {"carried": HOSE, "width_mm": WIDE, "style": "saddle" if spoilt.throat is None else "hook"}
    return check_hanger.check(part, {"hanger": mesh}, hanger(**{**own, **spec}))


def of(findings: list[Finding], code: str, severity: str = "") -> list[Finding]:
    """Those of one sub-code, of one severity."""
    return [f for f in findings if f.code == f"hanger.{code}" and severity in ("", f.severity)]
