"""What is in the way: a wall, a box, a round bar, and the frame that they are measured in."""

from __future__ import annotations

from fitwright.report.worksheets.content import Block, Figure, Figures, Row, Rows
from fitwright.report.worksheets.pad import Pad

_KEEP = ("envelope", "keep_clear")
_BOX = (*_KEEP, "box")
ADDED = (
    "where something is in the way, add",
    """\
envelope:
  keep_clear:
    - {wall: ________, at: ____}  # <wall>
    - box: {left: ____, right: ____,  # <b_left> <b_right>
        down: ____, up: ____,  # <b_down> <b_up>
        toward: ____, away: ____}  # <b_toward> <b_away>
""",
)
"""Title and lines of the form."""


def keep_clear() -> tuple[Block, ...]:
    """Two pictures of the frame with obstacles, and their rows."""
    return (
        Figures(
            54.0,
            (
                Figure(
                    88.0,
                    "standing at end_a, looking into its mouth: everything is measured from its centre (+)",
                    _front,
                ),
                Figure(94.0, "the same from your right-hand side", _side),
            ),
        ),
        Rows(
            "What is in the way (all from the centre of end_a's mouth; leave out what is far off)", _rows(), once=True
        ),
    )


def _rows() -> tuple[Row, ...]:
    once = "once"
    return (
        Row(
            "wall",
            "wall, shelf, floor or ceiling",
            "tape",
            "square to it. wall: up, down, left, right or away",
            (*_KEEP, "at"),
        ),
        Row(
            "b_left",
            "box (motor, cabinet): its left face",
            "tape",
            f"{once}; minus if it lies right of the centre",
            (*_BOX, "left"),
        ),
        Row("b_right", "its right face", "tape", "minus if it lies left of the centre", (*_BOX, "right")),
        Row("b_down", "its lower face", "tape", "minus if it lies above", (*_BOX, "down")),
        Row("b_up", "its upper face", "tape", "minus if it lies below", (*_BOX, "up")),
        Row("b_toward", "its face near you", "tape", "minus if it lies beyond the mouth", (*_BOX, "toward")),
        Row("b_away", "its far face", "tape", once, (*_BOX, "away")),
        Row(
            "bar",
            "round bar or pipe: its diameter",
            "caliper",
            "and its two ends as places (right, up, away): notes",
            (*_KEEP, "round_bar", "diameter"),
        ),
    )


def _front(pad: Pad) -> None:
    view = pad.zoomed(0.22, 48.0, 27.0)
    view.circle((0.0, 0.0), 50.0, 0.4)
    view.sheet.cross(view.at((0.0, 0.0)), 2.0)
    view.arrow((0.0, 0.0), (0.0, 78.0))
    view.words((0.0, 78.0), "up", 1.5, -2.0)
    view.arrow((0.0, 0.0), (70.0, 0.0))
    view.words((70.0, 0.0), "right", 1.0, -0.8)
    view.line((-190.0, 105.0), (140.0, 105.0), 0.5)
    view.words((-188.0, 105.0), "shelf", 0.0, 1.2)
    view.measure((40.0, 0.0), (40.0, 105.0), -2.0, "wall")
    box = ((-150.0, -80.0), (-70.0, -80.0), (-70.0, 35.0), (-150.0, 35.0))
    view.outline(box, 0.35, 0.9)
    view.words((-110.0, -10.0), "motor", 0.0, 0.0, "middle")
    view.measure((-150.0, 35.0), (0.0, 35.0), 9.5, "b_left")
    view.measure((-70.0, -80.0), (0.0, -80.0), -5.5, "b_right")
    view.measure((-150.0, -80.0), (-150.0, 0.0), 5.0, "b_down")
    view.measure((-150.0, 0.0), (-150.0, 35.0), 12.0, "b_up")
    view.axis((-185.0, 0.0), (0.0, 0.0))
    view.circle((105.0, -40.0), 16.0, 0.35)
    view.measure((89.0, -40.0), (121.0, -40.0), -9.0, "bar")


def _side(pad: Pad) -> None:
    view = pad.zoomed(0.22, 24.0, 27.0)
    view.line((0.0, -50.0), (0.0, 50.0), 0.4)
    view.line((0.0, 50.0), (60.0, 50.0), 0.4)
    view.line((0.0, -50.0), (60.0, -50.0), 0.4)
    view.axis((-30.0, 0.0), (200.0, 0.0))
    view.arrow((0.0, 0.0), (230.0, 0.0))
    view.words((230.0, 0.0), "away", 1.0, -0.8)
    view.words((-14.0, 52.0), "end_a", 0.0, 1.2, "end")
    view.words((-34.0, 0.0), "you", 0.0, -0.8, "end")
    view.outline(((-40.0, -80.0), (150.0, -80.0), (150.0, -62.0), (-40.0, -62.0)), 0.35, 0.9)
    view.words((60.0, -76.0), "motor", 0.0, 0.4, "middle")
    view.measure((0.0, -62.0), (-40.0, -62.0), -6.0, "b_toward")
    view.measure((0.0, -80.0), (150.0, -80.0), -5.0, "b_away")
