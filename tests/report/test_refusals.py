"""A refusal points at the line of the key to change, or at what holds it."""

from __future__ import annotations

import pytest

from fitwright.errors import RefusalError
from fitwright.report.refusals import refusal_text
from fitwright.spec.load import load_text

TEXT = """\
part: reducer
units: in
length: 3
end_a: {socket: {over: 4 7/32}}
end_b:
  flange:
    holes: {points: [{right: 2}, {left: 2}], size: M6}
    opening: 3
"""


@pytest.mark.parametrize(
    ("key", "place"),
    [
        ("length", "3:1"),
        ("end_a.socket.over", "4:18"),
        ("end_a.socket.taper", "4:9"),
        ("end_b.flange.holes", "7:5"),
        ("end_b.flange.holes.points[2].up", "7:34"),
        ("wall", "1:1"),
    ],
)
def test_the_nearest_key_that_the_file_has_is_pointed_at(key: str, place: str) -> None:
    [spec] = load_text(TEXT, "saw.yaml")
    text = refusal_text(RefusalError(key, "25.4 mm", "50.8 mm or more", "too short"), spec)
    assert text == f"saw.yaml:{place}: {key}: found 1 in; allowed: 2 in or more. too short"


def test_a_part_of_a_set_is_named() -> None:
    [spec] = load_text(
        "parts:\n  - {name: toad, part: reducer, end_a: {socket: {over: 60}}, end_b: {plain: {inside: 50}}}"
    )
    text = refusal_text(RefusalError("end_a.socket.depth", "1 mm", "2 mm", "short"), spec)
    assert text == "part.yaml:2:41: end_a.socket.depth: found 1 mm; allowed: 2 mm. short (part toad)"
