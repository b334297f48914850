"""The table of sizes."""

from fitwright.data.sizes import find
from fitwright.report.sizes_table import cli_list, cli_table, legend


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


def test_a_narrow_terminal_gets_a_list_with_the_same_sizes() -> None:
    rows = find("4 in")
    text = cli_list(rows, "mm", 80)
    assert max(map(len, text.splitlines())) <= 80
    assert text.count("ASTM D2729") == 2 and "outside 107.06 (106.83 to 107.29)" in text
    assert cli_list([]) == "no size found"


def test_the_legend_explains_the_words_that_occur_and_names_a_row_as_the_yaml_does() -> None:
    rows = find("100 hose")
    assert "common practice: " in legend(rows) and "memory" not in legend(rows)
    assert "`hose: metric hose 100 mm`" in legend(rows)
    assert "`pipe: ASTM D1785 Sch 40 4 in`" in legend(find("4 in"))
    assert legend([]) == ""
