"""The picture of a part that moves: both ends of the movement, with what is bought in its place."""

from __future__ import annotations

from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
from PIL import Image

from fitwright.part import Body, Dimension, Motion, Part, Pose, StandIn
from fitwright.report.motion_sheet import SIZE
from fitwright.report.picture import drawing, shown_stand_ins
from fitwright.tessellation import body_facets

POSES = (Pose("flat", (0.0, 0.0, -1.0)),)


def box(x: float, y: float, z: float, at: tuple[float, float, float]) -> cq.Solid:
    return cq.Solid.makeBox(x, y, z, cq.Vector(*at))


def slider(travel: float = 60.0) -> Part:
    """A frame that stands, a slider that moves outwards, a bought bar through it, and room for a spanner."""
    frame = box(60, 120, 20, (-30, 0, -10)).cut(box(40, 100, 40, (-20, 10, -20)))
    [solid] = frame.Solids()
    return Part(
        name="slider",
        family="gate_bracket",
        bodies=(
            Body("frame", solid, 1, 10.0, POSES),
            Body("slider", box(20, 20, 10, (-10, 15, -5)), 0, 10.0, POSES, moving=True),
        ),
        stand_ins=(
            StandIn("bar", box(4, 40, 4, (-2, 35, -2)), "slider", None, moving=True),
            StandIn("spanner", box(60, 8, 60, (-30, 90, -30)), "frame", None, room_only=True),
        ),
        dimensions=(
            Dimension("shut", (0.0, 0.0, 0.0), (0.0, 15.0, 0.0), 15.0),
            Dimension("open", (0.0, 0.0, 0.0), (0.0, 15.0 + travel, 0.0), 15.0 + travel, only_at="end"),
        ),
        section_across=(1.0, 0.0, 0.0),
        motion=Motion((0.0, 1.0, 0.0), travel),
    )


def drawn(part: Part, folder: Path) -> np.ndarray:
    folder.mkdir()
    with drawing(part, {body.name: body_facets(body) for body in part.bodies}, "mm", folder) as picture:
        files, trouble = picture.collect()
    assert trouble == "" and list(files) == [".png"]
    with Image.open(folder / "picture.png") as image:
        assert image.size == SIZE
        return np.asarray(image.convert("RGB")).astype(int)


def test_room_for_a_spanner_is_not_drawn() -> None:
    assert [one.name for one in shown_stand_ins(slider())] == ["bar"]


@pytest.mark.slow
def test_both_ends_are_drawn_and_only_the_moving_body_differs(tmp_path: Path) -> None:
    """The cut slider stands 60 mm further out below than above: the middle of its hatched columns moves so far."""
    still, moved = drawn(slider(0.0), tmp_path / "still"), drawn(slider(60.0), tmp_path / "moved")
    half = SIZE[1] // 2
    assert np.abs(still[:half, :, :] - moved[:half, :, :]).sum() < np.abs(still[half:] - moved[half:]).sum()
    blue = (moved[:, :, 2] - moved[:, :, 0]) > 20
    assert blue[:half, 660:].any() and blue[half:, 660:].any()
    columns = [
        float(np.flatnonzero(blue[rows, 700:1500].any(axis=0)).mean()) for rows in (slice(100, half), slice(640, 1100))
    ]
    assert columns[1] - columns[0] > 100
