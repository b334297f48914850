"""The rows of the gate bracket's worksheet: what to measure, with what, how, and the key of each."""

from __future__ import annotations

from fitwright.report.worksheets.content import Row

_EDGE = "from the body edge where the blade comes out"
GATE_ROWS = (
    Row(
        "shut",
        "blade's edge beyond the body, shut",
        "tape, depth rod",
        f"{_EDGE}; push it home anew each time",
        ("gate", "sticks_out", "shut"),
    ),
    Row(
        "open",
        "the same, open",
        "tape",
        "until the port is all free; look through it each time",
        ("gate", "sticks_out", "open"),
    ),
    Row("wide", "width of the blade", "caliper", "at both ends; the greatest counts", ("gate", "blade", "width")),
    Row(
        "thick",
        "thickness of the blade",
        "caliper",
        "at three places near its outer edge; the greatest counts",
        ("gate", "blade", "thickness"),
    ),
    Row(
        "hole",
        "hole near the blade's edge",
        "caliper, drill",
        "or the drill that just goes in",
        ("gate", "blade", "hole"),
    ),
    Row(
        "hole_edge",
        "that hole's MIDDLE to the blade's edge",
        "caliper",
        "near side of the hole to the edge, and half the hole",
        ("gate", "blade", "hole_to_edge"),
    ),
    Row("body_wide", "width of the body", "tape", "at the body edge", ("gate", "body", "width")),
    Row("body_thick", "thickness of the body", "caliper", "at the body edge", ("gate", "body", "thickness")),
    Row(
        "across",
        "two screws nearest the edge, across",
        "caliper",
        "over the holes' outer edges, less one hole",
        ("gate", "screws", "across"),
    ),
    Row(
        "from_edge",
        "those screws from the body edge",
        "caliper",
        "near side of the hole to the edge, and half the hole",
        ("gate", "screws", "from_edge"),
    ),
    Row("size", "which screw goes through", "look", "M5, No. 10, 1/4 in", ("gate", "screws", "size"), "word"),
)
MORE_ROWS = (
    Row("port", "inside of the port", "caliper, tape", "twice, crosswise", ("gate", "port", "diameter")),
    Row(
        "port_edge",
        "middle of the port to the body edge",
        "tape",
        "near side to the edge, and half the port",
        ("gate", "port", "to_edge"),
    ),
    Row(
        "sheet",
        "what the blade is made of",
        "look",
        "plastic, acrylic, HDPE, PVC, steel ...",
        ("gate", "blade", "material"),
        "word",
    ),
    Row(
        "far_end",
        "can you look out behind the blade?",
        "look",
        "open or closed: the slot's far end",
        ("gate", "body", "far_end"),
        "word",
    ),
    Row(
        "drag",
        "what it takes to pull",
        "spring balance",
        "collector running, gate shut; the greatest, with its unit: 12 N",
        ("gate", "drag"),
        "word",
    ),
    Row(
        "mounted",
        "which way the blade comes out on the wall",
        "look",
        "blade_up, blade_down or sideways",
        ("mounted",),
        "word",
    ),
)
CYLINDER_ROWS = (
    Row("code", "its name", "label", "standard, bore x stroke: ISO 6432 16 x 125", ("cylinder", "code"), "word"),
    Row(
        "stub",
        "mounting face to the rod's shoulder",
        "depth rod",
        "rod pushed in; the face that the bracket lies against",
        ("cylinder", "rod_stub"),
    ),
    Row("tip", "rod's shoulder to its tip", "caliper", "the threaded end", ("cylinder", "rod_thread_length")),
    Row("flats", "across the flats of the rod", "caliper", "empty: there are none", ("cylinder", "rod_flats")),
    Row(
        "nose",
        "nose thread",
        "caliper, thread gauge",
        "by name, M16 x 1.5: the worksheet thread finds it",
        ("cylinder", "nose", "thread"),
        "word",
    ),
    Row(
        "nose_long",
        "mounting face to the nose's end",
        "caliper",
        "what stands out towards the rod",
        ("cylinder", "nose", "length"),
    ),
    Row(
        "nut",
        "its nut across flats",
        "caliper",
        "the nut that came with it",
        ("cylinder", "nose", "nut", "across_flats"),
    ),
    Row("nut_high", "height of that nut", "caliper", "", ("cylinder", "nose", "nut", "height")),
    Row("long", "mounting face to the rear end", "tape", "rod pushed in, rear eye and all", ("cylinder", "length")),
    Row(
        "ports",
        "where the air ports look",
        "look",
        "as it will hang on the gate: up, down, left, right",
        ("cylinder", "ports"),
        "word",
    ),
    Row("bore", "bore", "label", "where no table has it; not to be seen from outside", ("cylinder", "bore")),
    Row(
        "stroke", "stroke", "depth rod, rule", "rod's end from the nose, out, less the same, in", ("cylinder", "stroke")
    ),
    Row("rod", "diameter of the rod", "caliper", "clear of the flats", ("cylinder", "rod")),
    Row("rod_thread", "rod's thread", "caliper, thread gauge", "by name, M6 x 1", ("cylinder", "rod_thread"), "word"),
    Row("barrel", "outside of the body", "caliper", "at its thickest; round or square", ("cylinder", "body", "round")),
)
