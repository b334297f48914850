"""The rows of the hose hanger's worksheet: what to measure, with what, how, and the key of each."""

from __future__ import annotations

from fitwright.report.worksheets.content import Row

CARRIED_ROWS = (
    Row(
        "round",
        "once round the hose, OVER its ribs",
        "strip of paper, tape",
        "snug, not squeezed, where the hanger will sit; at three places",
        ("hose", "over_ribs", "circumference"),
    ),
    Row("inside", "inside of the hose", "caliper, label", "what it is called by", ("hose", "inside")),
    Row(
        "flat",
        "how narrow it goes, pressed flat",
        "caliper",
        "by hand, as you would push it into a hook",
        ("hose", "squeezes_to"),
    ),
    Row("pipe", "or the OUTSIDE of a pipe", "caliper", "three times round, 60 deg apart", ("pipe", "over")),
    Row("thick", "its wall", "caliper", "at a cut end", ("pipe", "wall")),
)
JOIST_ROWS = (
    Row(
        "side",
        "the surface lies: left, right, up or down",
        "look",
        "stand before the hanger, the hose running away from you",
        ("mount", "joist_side", "side"),
        "word",
    ),
    Row("joist", "the joist's narrow side", "tape", "", ("mount", "joist_side", "joist", "width")),
    Row("deep", "its tall side", "tape", "", ("mount", "joist_side", "joist", "depth")),
    Row(
        "axis",
        "from the surface to the hose's middle",
        "tape",
        "only where it matters",
        ("mount", "joist_side", "to_axis"),
    ),
)
PLACE_ROWS = (
    Row("slot", "a T-slot: its width at the rail's face", "caliper", "inner jaws", ("mount", "t_slot", "slot")),
    Row("bar", "a bar: its diameter", "caliper", "", ("mount", "cable_tie", "bar")),
    Row("drop", "a rod: down to the hose's middle", "tape", "from what carries the rod", ("mount", "rod", "drop")),
    Row(
        "near",
        "a batten: the nearer joist to the hose",
        "tape",
        "level, to the hose's middle",
        ("mount", "batten", "near"),
    ),
    Row("far", "the other joist", "tape", "level, to the hose's middle", ("mount", "batten", "far")),
    Row(
        "hole_up",
        "screws that are there: up from the hose",
        "tape",
        "to the middle of the hole",
        ("mount", "holes", "points", "up"),
    ),
    Row(
        "hole_down",
        "the other: down from the hose",
        "tape",
        "to the middle of the hole",
        ("mount", "holes", "points", "down"),
    ),
    Row("spacing", "to the next hanger", "tape", "along the hose", ("spacing",)),
    Row("elbow", "to the next elbow", "tape", "along the hose, where one is near", ("elbow",)),
    Row("above", "what is below: people, cutter, nothing", "look", "", ("above",), "word"),
)
