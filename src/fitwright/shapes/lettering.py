"""Block letters, 3 cells wide and 5 high, as exact solids: every stroke and every gap is one cell.

Digits, `. + -` and the capital letters. No glyph has two cells that touch at a corner only: there the solid would touch
itself along an edge, and no printer could print it. So some capitals borrow the form of the small letter (B, D, R), and
0 and O, 5 and S are the same.
"""

from __future__ import annotations

from collections.abc import Sequence

from cadquery import Solid, Vector, Wire

from fitwright.frame import Frame

Cell = tuple[int, int]
HIGH = 5
"""Height of every letter [cells]."""
GAP = 1
"""Between two letters [cells]."""
_DRAWN = {
    "0": "### #.# #.# #.# ###",
    "1": ".#. ##. .#. .#. ###",
    "2": "### ..# ### #.. ###",
    "3": "### ..# ### ..# ###",
    "4": "#.# #.# ### ..# ..#",
    "5": "### #.. ### ..# ###",
    "6": "### #.. ### #.# ###",
    "7": "### ..# ..# ..# ..#",
    "8": "### #.# ### #.# ###",
    "9": "### #.# ### ..# ###",
    ".": ". . . . #",
    "+": "... .#. ### .#. ...",
    "-": "... ... ### ... ...",
    "A": "### #.# ### #.# #.#",
    "B": "#.. #.. ### #.# ###",
    "C": "### #.. #.. #.. ###",
    "D": "..# ..# ### #.# ###",
    "E": "### #.. ### #.. ###",
    "F": "### #.. ### #.. #..",
    "G": "### #.. #.# #.# ###",
    "H": "#.# #.# ### #.# #.#",
    "I": "### .#. .#. .#. ###",
    "J": "..# ..# ..# #.# ###",
    "K": "#.# ### ##. ### #.#",
    "L": "#.. #.. #.. #.. ###",
    "M": "#.# ### ### #.# #.#",
    "N": "### #.# #.# #.# #.#",
    "O": "### #.# #.# #.# ###",
    "P": "### #.# ### #.. #..",
    "Q": "### #.# #.# ### ..#",
    "R": "### #.. #.. #.. #..",
    "S": "### #.. ### ..# ###",
    "T": "### .#. .#. .#. .#.",
    "U": "#.# #.# #.# #.# ###",
    "V": "#.# #.# #.# ### .#.",
    "W": "#.# #.# ### ### #.#",
    "X": "#.# ### .#. ### #.#",
    "Y": "#.# #.# ### .#. .#.",
    "Z": "### ..# .## ##. ###",
}
LETTERS = "".join(_DRAWN)
"""All that can be written."""


def glyph(letter: str) -> frozenset[Cell]:
    """The filled cells (column from the left, row from below) of one letter; KeyError for what is not in LETTERS."""
    rows = _DRAWN[letter].split()
    return frozenset((x, HIGH - 1 - y) for y, row in enumerate(rows) for x, mark in enumerate(row) if mark == "#")


def wide(letter: str) -> int:
    """Width of one letter [cells]."""
    return len(_DRAWN[letter].split()[0])


def text_wide(text: str) -> int:
    """Width of a text [cells], a gap between its letters."""
    return sum(wide(letter) for letter in text) + GAP * (len(text) - 1)


def starts(text: str) -> list[int]:
    """The column at which each letter begins."""
    return [text_wide(text[:k]) + GAP if k else 0 for k in range(len(text))]


def cells(text: str) -> frozenset[Cell]:
    """The filled cells of a text, counted from its lower left corner."""
    return frozenset((x + at, y) for letter, at in zip(text, starts(text), strict=True) for x, y in glyph(letter))


def loops(filled: frozenset[Cell]) -> list[list[Cell]]:
    """The corners of each outline of some cells: outer ones run anticlockwise, those of holes clockwise."""
    follows: dict[Cell, Cell] = {}
    for x, y in filled:
        ring = [(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)]
        beside = [(x, y - 1), (x + 1, y), (x, y + 1), (x - 1, y)]
        follows.update({ring[k]: ring[(k + 1) % 4] for k in range(4) if beside[k] not in filled})
    found = []
    while follows:
        here = first = min(follows)
        loop: list[Cell] = []
        while not loop or here != first:
            loop.append(here)
            here = follows.pop(here)
        found.append(_corners(loop))
    return found


def _corners(loop: list[Cell]) -> list[Cell]:
    """Without the points at which it runs on straight."""
    turns = zip(loop[-1:] + loop[:-1], loop, loop[1:] + loop[:1], strict=True)
    return [b for a, b, c in turns if (b[0] - a[0], b[1] - a[1]) != (c[0] - b[0], c[1] - b[1])]


def letter_solids(text: str, frame: Frame, cell_mm: float, s0_mm: float, s1_mm: float) -> list[Solid]:
    """A prism for each letter from s0 to s1 along the frame's axis, its first cell's lower left corner at the origin.

    Their volumes add up to `volume_mm3(text, cell_mm, s1 - s0)` exactly.
    """
    return [
        _prism(loops(frozenset((x + at, y) for x, y in glyph(letter))), frame, cell_mm, s0_mm, s1_mm)
        for letter, at in zip(text, starts(text), strict=True)
    ]


def volume_mm3(text: str, cell_mm: float, high_mm: float) -> float:
    """Volume of the letters: so many cells, so high."""
    return len(cells(text)) * cell_mm**2 * high_mm


def _prism(outlines: Sequence[Sequence[Cell]], frame: Frame, cell_mm: float, s0: float, s1: float) -> Solid:
    """The outer outline is the one that runs anticlockwise."""
    wires: dict[bool, list[Wire]] = {True: [], False: []}
    for loop in outlines:
        points = [Vector(*frame.point(x * cell_mm, s0, y * cell_mm)) for x, y in loop]
        wires[_area(loop) > 0.0].append(Wire.makePolygon(points, close=True))
    (outer,) = wires[True]
    along = Vector(*frame.inward) * (s1 - s0)
    return Solid.extrudeLinear(outer, wires[False], along)


def _area(loop: Sequence[Cell]) -> float:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(loop, [*loop[1:], loop[0]], strict=True)) / 2.0
