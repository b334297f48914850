"""Does the finished surface keep out of a tool's inside? If so, the tool is wholly within the part, or wholly outside.

A tool's inside is one piece. A part whose surface does not enter it therefore holds all of it or none of it, and one
point tells which. That takes only the part's faces near the tool (the kernel splits them where they meet the tool's),
where the common volume takes the whole solid: a fraction of the work, and as exact. Whatever cannot be shown so is for
the common volume to decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from cadquery import Compound, Face, Shape, Solid, Vector
from numpy.typing import NDArray
from OCP.Bnd import Bnd_Box
from OCP.BOPTools import BOPTools_AlgoTools3D
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Pnt2d, gp_Trsf, gp_Vec
from OCP.IntTools import IntTools_Context
from OCP.TopAbs import TopAbs_State
from OCP.TopLoc import TopLoc_Location
from OCP.TopTools import TopTools_ListOfShape

SAME_MM = 1e-7
"""The kernel's own confusion distance: its booleans take what is nearer for one."""
STEP_MM = 1e-3
"""How far behind one of its faces a tool's inner point is looked for."""
Side = Literal["inside", "outside"]
Corners = NDArray[np.float64]
Near = tuple[Face, Bnd_Box, Corners]


@dataclass(frozen=True)
class Finished:
    """A finished solid, with what is asked of it for every tool."""

    solid: Shape

    @cached_property
    def _faces(self) -> list[Near]:
        return [(face, _box(face), _corners(face)) for face in self.solid.Faces()]

    @cached_property
    def _classifier(self) -> BRepClass3d_SolidClassifier:
        return BRepClass3d_SolidClassifier(self.solid.wrapped)

    def side(self, tool: Shape) -> Side | None:
        """Where all of the tool is, or None where it is in no one place, or that could not be shown."""
        solids = tool.Solids()
        if len(self.solid.Solids()) != 1 or not solids:
            return None
        found = {self._side(solid) for solid in solids}
        return found.pop() if len(found) == 1 else None

    def _side(self, tool: Solid) -> Side | None:
        if len(tool.Shells()) != 1 or any(face.geomType() == "TORUS" for face in tool.Faces()):
            return None  # the kernel splits one torus by another all but the same unsurely (own trials, 0.01 mm apart)
        classifier = BRepClass3d_SolidClassifier(tool.wrapped)
        inner = _inner_point(tool, classifier)
        if inner is None or not self._keeps_out(tool, classifier):
            return None
        state = _state(self._classifier, inner)
        sides: dict[TopAbs_State, Side] = {TopAbs_State.TopAbs_IN: "inside", TopAbs_State.TopAbs_OUT: "outside"}
        return sides.get(state)

    def _keeps_out(self, tool: Solid, classifier: BRepClass3d_SolidClassifier) -> bool:
        """Whether no face of the finished solid has a point inside the tool.

        Split where they meet the tool's surface, its faces are in pieces that lie inside, outside or on the tool each
        as a whole; a point of each tells. The whole faces are asked too, so that nothing hangs on the splitting alone.
        """
        near = self._near(tool)
        if not near:
            return True
        pieces = _within(near, tool)
        if pieces is None:
            return False
        points = [_point_of(face) for face in (*pieces, *near)]
        return all(point and _state(classifier, point) != TopAbs_State.TopAbs_IN for point in points)

    def _near(self, tool: Solid) -> list[Face]:
        """The faces that may have a point inside the tool: their box meets its box, and none of its flat faces, with
        the whole tool behind it, has them in front."""
        box, corners = _box(tool), _corners(tool)
        near = [one for one in self._faces if not one[1].IsOut(box)]
        for flat in tool.Faces():
            if near and flat.geomType() == "PLANE":
                near = _not_in_front(near, tool, corners, flat)
        return [one[0] for one in near]


def _not_in_front(near: list[Near], tool: Solid, corners: Corners, flat: Face) -> list[Near]:
    """The faces that are not wholly in front of a flat face of the tool; all where the tool is on both sides of it.

    Corners tell quickly of most faces that they are not; exact boxes, square to the plane, tell of the rest.
    """
    centre, normal = np.array(flat.Center().toTuple()), np.array(flat.normalAt().toTuple())
    if ((corners - centre) @ normal > SAME_MM).any():
        return near
    may_be = [not ((own - centre) @ normal < -SAME_MM).any() for _, _, own in near]
    if not any(may_be):
        return near
    turn = gp_Trsf()
    turn.SetTransformation(gp_Ax3(gp_Pnt(*map(float, centre)), gp_Dir(*map(float, normal))))
    upright = TopLoc_Location(turn)
    if _heights(tool, upright)[1] > SAME_MM:
        return near
    return [
        one for one, asked in zip(near, may_be, strict=True) if not asked or _heights(one[0], upright)[0] < -SAME_MM
    ]


def _corners(shape: Shape) -> Corners:
    return np.array([corner.toTuple() for corner in shape.Vertices()], dtype=np.float64).reshape(-1, 3)


def _heights(shape: Shape, upright: TopLoc_Location) -> tuple[float, float]:
    """The lowest and the highest point of a shape, once moved [mm]."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape.wrapped.Moved(upright), box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return low.Z() + box.GetGap(), high.Z() - box.GetGap()


def _box(shape: Shape) -> Bnd_Box:
    """A box that surely holds the shape; its surfaces' control points and tolerances are in it."""
    box = Bnd_Box()
    BRepBndLib.Add_s(shape.wrapped, box, False)
    return box


def _within(faces: list[Face], tool: Solid) -> list[Face] | None:
    """The pieces of some faces that lie inside the tool or on its surface, or None where the kernel gave up."""
    arguments, tools = TopTools_ListOfShape(), TopTools_ListOfShape()
    arguments.Append(Compound.makeCompound(faces).wrapped)
    tools.Append(tool.wrapped)
    common = BRepAlgoAPI_Common()
    common.SetArguments(arguments)
    common.SetTools(tools)
    common.SetUseOBB(True)
    common.SetToFillHistory(False)
    common.Build()
    if not common.IsDone() or common.Shape().IsNull():
        return None
    pieces: list[Face] = Shape.cast(common.Shape()).Faces()
    return pieces


def _point_of(face: Face) -> gp_Pnt | None:
    """A point well inside a face's borders."""
    point, place = gp_Pnt(), gp_Pnt2d()
    return point if BOPTools_AlgoTools3D.PointInFace_s(face.wrapped, point, place, IntTools_Context()) == 0 else None


def _inner_point(tool: Solid, classifier: BRepClass3d_SolidClassifier) -> gp_Pnt | None:
    """A point strictly inside the tool, a little behind one of its faces."""
    for face in tool.Faces():
        point, place = gp_Pnt(), gp_Pnt2d()
        if BOPTools_AlgoTools3D.PointInFace_s(face.wrapped, point, place, IntTools_Context()) != 0:
            continue
        normal = gp_Vec(gp_Pnt(), gp_Pnt(*face.normalAt(Vector(point)).toTuple()))
        inner = point.Translated(normal.Multiplied(-STEP_MM))
        if _state(classifier, inner) == TopAbs_State.TopAbs_IN:
            return inner
    return None


def _state(classifier: BRepClass3d_SolidClassifier, point: gp_Pnt) -> TopAbs_State:
    classifier.Perform(point, SAME_MM)
    return classifier.State()
