"""The table of sizes."""

from fitwright.data.sizes import find
from fitwright.report.sizes_table import cli_table


def test_four_inch_in_both_units():
    """ASTM D2729 4 in: 4.215 in = 107.06 mm outside."""
    in_mm, in_inches = cli_table(find("4 in"), "mm"), cli_table(find("4 in"), "in")
    assert "outside [mm]" in in_mm and "outside [in]" in in_inches
    assert "107.06 (106.83 to 107.29)" in in_mm
    assert "4.215 (4.206 to 4.224)" in in_inches
    assert "narrows to 106.93 mm at 44.45 mm below the mouth" in in_mm
    assert "narrows to 4.21 in at 1.75 in below the mouth" in in_inches
    assert " mm" not in in_inches


def test_columns_line_up_and_hold_status():
    lines = cli_table(find("110"), "mm").splitlines()
    assert lines[0].split() == [
        "series",
        "nominal",
        "outside",
        "[mm]",
        "wall",
        "[mm]",
        "inside",
        "[mm]",
        "status",
        "note",
    ]
    start = lines[0].index("status")
    assert {line[start:].split("  ")[0] for line in lines[1:]} == {"confirmed", "memory", "common practice"}
    assert not any(line.endswith(" ") for line in lines)


def test_nothing_found():
    assert cli_table([], "mm") == "no size found"
