"""Words that all worksheets share."""

from __future__ import annotations

LEAD = (
    "Read three times, write all three down and ring the unit: the program uses the spread. Clean the face and take "
    "burrs off first. Leave a box empty where you do not know. The last pages are for what is in the way and for other "
    "ends than these."
)
CAUTIONS = (
    "Switch the machine off and pull its plug before you reach into a port or near an impeller; let it run down. "
    "Relieve air lines. Wear gloves at cut sheet metal.",
)
NOTE = (
    "end_a is the mouth that you stand at and look into, end_b the other; facing the machine that end_a meets, left "
    "and right change places. Type a list of readings as it stands, [107.0, 107.3, 107.1]; leave a line out where its "
    "boxes are empty."
)
TOP_BLANKS = (("name", 0.34), ("date", 0.22), ("machine", 0.44))
LAST_BLANKS = (
    (("printer and nozzle", 0.5), ("material", 0.5)),
    (("notes", 1.0),),
)
TAIL = """\
material: ________  # PETG where empty
near_heat: ____  # deg C where it sits
"""
