"""Block letters: which cells touch, what the outlines enclose, and volumes counted cell by cell."""

from __future__ import annotations

import itertools

import pytest
import trimesh

from fitwright.frame import Frame
from fitwright.mesh import mesh_shape
from fitwright.shapes.lettering import HIGH, LETTERS, cells, glyph, letter_solids, loops, starts, text_wide, volume_mm3

FLAT = Frame((5.0, -3.0, 2.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))


@pytest.mark.parametrize("letter", LETTERS)
def test_no_two_cells_touch_at_a_corner_only(letter: str) -> None:
    filled = glyph(letter)
    for x, y in itertools.product(range(-1, 4), range(-1, HIGH + 1)):
        four = tuple((x + i, y + j) in filled for j in (0, 1) for i in (0, 1))
        assert four not in ((True, False, False, True), (False, True, True, False)), letter


@pytest.mark.parametrize("letter", LETTERS)
def test_a_letter_is_one_piece_of_at_most_five_rows(letter: str) -> None:
    filled = set(glyph(letter))
    assert filled and all(0 <= x < 3 and 0 <= y < HIGH for x, y in filled)
    reached, ahead = set(), [min(filled)]
    while ahead:
        x, y = ahead.pop()
        if (x, y) in filled - reached:
            reached.add((x, y))
            ahead += [(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)]
    assert reached == filled


def test_letters_differ_but_for_two_pairs() -> None:
    alike: dict[frozenset[tuple[int, int]], str] = {}
    for letter in LETTERS:
        alike[glyph(letter)] = alike.get(glyph(letter), "") + letter
    assert sorted(same for same in alike.values() if len(same) > 1) == ["0O", "5S"]


@pytest.mark.parametrize(("letter", "count"), [("0", 2), ("8", 3), ("1", 1), ("4", 1), ("A", 2)])
def test_outlines_turn_one_way_outside_and_the_other_round_a_hole(letter: str, count: int) -> None:
    found = loops(glyph(letter))
    areas = [sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(one, one[1:] + one[:1], strict=True)) / 2 for one in found]
    assert len(found) == count and sum(area > 0 for area in areas) == 1
    assert sum(areas) == len(glyph(letter))


SEVEN = {
    **{"0": "abcdef", "2": "abdeg", "3": "abcdg", "4": "bcfg", "5": "acdfg"},
    **{"6": "acdefg", "7": "abc", "8": "abcdefg", "9": "abcdfg"},
}
"""Segments lit, a at the top, on clockwise, g in the middle: the codes of every seven-segment display (from memory)."""
SEGMENTS = {
    **{"a": (0, 4, 2, 4), "b": (2, 2, 2, 4), "c": (2, 0, 2, 2), "d": (0, 0, 2, 0)},
    **{"e": (0, 0, 0, 2), "f": (0, 2, 0, 4), "g": (0, 2, 2, 2)},
}
"""Cells from and to: x, y, x, y."""


@pytest.mark.parametrize(("digit", "lit"), SEVEN.items())
def test_digits_are_those_of_a_display_of_seven_segments(digit: str, lit: str) -> None:
    """Not upside down, not mirrored, none in the place of another; x to the right, y up, 3 by 5 cells."""
    ends = [SEGMENTS[one] for one in lit]
    wanted = {(x, y) for x0, y0, x1, y1 in ends for x in range(x0, x1 + 1) for y in range(y0, y1 + 1)}
    assert set(glyph(digit)) == wanted


def test_a_text_is_its_letters_a_cell_apart() -> None:
    assert text_wide("-0.45") == 3 + 1 + 3 + 1 + 1 + 1 + 3 + 1 + 3
    assert starts("1.2") == [0, 4, 6]
    assert len(cells("107")) == 8 + 12 + 7  # counted on squared paper


@pytest.mark.parametrize("text", ["-0.45", "107.1", "+8", "ABQKZ"])
def test_volume_and_place(text: str) -> None:
    """Cells counted: each 1.2 x 1.2 x 0.6 mm; the letters stand on the face and look up."""
    made = letter_solids(text, FLAT, 1.2, 0.0, -0.6)
    assert sum(one.Volume() for one in made) == pytest.approx(len(cells(text)) * 1.2 * 1.2 * 0.6, rel=1e-12)
    assert volume_mm3(text, 1.2, 0.6) == pytest.approx(sum(one.Volume() for one in made), rel=1e-12)
    boxes = [one.BoundingBox() for one in made]
    assert min(b.zmin for b in boxes) == pytest.approx(2.0) and max(b.zmax for b in boxes) == pytest.approx(2.6)
    assert min(b.xmin for b in boxes) == pytest.approx(5.0)
    assert max(b.xmax for b in boxes) == pytest.approx(5.0 + 1.2 * text_wide(text))


@pytest.mark.parametrize("letter", "08A-K")
def test_each_letter_is_a_closed_body(letter: str) -> None:
    (solid,) = letter_solids(letter, FLAT, 1.0, 0.5, -0.6)
    mesh: trimesh.Trimesh = mesh_shape(solid, 0.01, 0.2)
    assert solid.isValid() and mesh.is_volume
    assert (2 - mesh.euler_number) // 2 == len(loops(glyph(letter))) - 1
