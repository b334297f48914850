"""What to change where a body is too weak or gives too far, where the key is no plain size that could be made more."""

from __future__ import annotations

CURES = {
    "material": "",
    "second_fixing": "",
    "frame": "another frame (frame: rods, one_piece or board), a cylinder of smaller bore",
    "support": "a second support under the cylinder (support)",
    "hold": "another hold (hold: nose or front_square)",
    "clamp": "screws or a saddle in place of the clamp (gate)",
    "blade.hole": "a hole in the blade for a pin in place of a jaw (gate.blade.hole)",
    "second_guide": "a thicker guide rod (second_guide), which stands further apart",
}
"""By the key of a load case; what else helps is a stronger filament, always."""


def cure(key: str, more: str) -> str:
    """What is to be changed, with a comma where more follows; `more`: the words for a key that is a size.

    >>> cure("frame", ""), cure("material", ""), cure("wall", "20 % more wall")
    ('Another frame (frame: rods, one_piece or board), a cylinder of smaller bore, a', 'A', '20 % more wall, a')
    """
    words = CURES.get(key, more)
    return f"{words[0].upper()}{words[1:]}, a" if words else "A"
