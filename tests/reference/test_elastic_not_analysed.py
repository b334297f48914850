"""What cannot be meshed or solved is said to be not analysed; there is never a number for it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from cadquery import Edge, Face, Shell, Solid, Vector, Wire

from fitwright.loads import Support
from fitwright.physics.elastic.task import Task
from fitwright.physics.elasticity import analyse
from tests.reference.elastic import flat, load, task_of

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
ROOT = flat("root", (0.0, 5.0, 5.0), X, Y, (5.0, 5.0))
TIP = flat("tip", (40.0, 5.0, 5.0), (-1.0, 0.0, 0.0), Y, (5.0, 5.0))


def block() -> Solid:
    return Solid.makeBox(40, 10, 10)


def whole(**changes: object) -> Task:
    made = task_of(block(), (ROOT, TIP), (), [load("tip", 50.0, (0.0, 0.0, -1.0), ["root"])], 6.0)
    return replace(made, **changes)  # type: ignore[arg-type]


def says(task: Task) -> str:
    found = analyse(task)
    assert found.cases == () and found.spent is None and found.why
    return found.why


def test_the_block_itself_is_analysed() -> None:
    assert analyse(whole()).cases


@pytest.mark.parametrize("brep", ["", "no shape at all", "DBRep_DrawableShape\n\nCASCADE Topology V1\n"])
def test_what_is_no_shape(brep: str) -> None:
    assert "meshed" in says(whole(brep=brep)) or "read" in says(whole(brep=brep))


def test_an_open_shell() -> None:
    from tests.reference.elastic import brep

    shell = Shell.makeShell([face for face in block().Faces() if face.Center().z < 9.9])
    assert says(whole(brep=brep(shell)))


def test_a_body_that_goes_through_itself() -> None:
    from tests.reference.elastic import brep

    corners = [(0, 0), (40, 10), (40, 0), (0, 10)]
    wire = Wire.assembleEdges(
        [Edge.makeLine(Vector(*a, 0), Vector(*b, 0)) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    )
    bow = Solid.extrudeLinear(Face.makeFromWires(wire), Vector(0, 0, 10))
    assert says(whole(brep=brep(bow)))


def test_another_body_than_was_built() -> None:
    """The mesh holds less than the solid was measured to hold."""
    assert "mm3" in says(whole(volume_mm3=4100.0))


def test_a_face_that_is_not_there() -> None:
    away = flat("tip", (41.0, 5.0, 5.0), (-1.0, 0.0, 0.0), Y, (5.0, 5.0))
    assert "'tip' was not found" in says(whole(faces=(ROOT, away)))
    assert "no face is called" in says(whole(faces=(TIP,)))


def test_what_is_not_held_or_hardly() -> None:
    case = whole().cases[0]
    assert says(whole(cases=(replace(case, held=()),)))
    loose = Support("root", "washer", 0.0, 0.0)
    assert "held" in says(whole(supports=(loose,))) or "solved" in says(whole(supports=(loose,)))
    slides = Support("root", "washer", 1e3, 0.0)  # held along, free across: the load goes across
    assert "held" in says(whole(supports=(slides,))) or "solved" in says(whole(supports=(slides,)))


def test_nothing_to_bear() -> None:
    assert "nothing is declared" in says(whole(cases=()))
