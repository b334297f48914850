"""Cylinders in words: what was read stands plain, what is only remembered is starred."""

from fitwright.data.cylinders import all_cylinders, cylinder_row, find_cylinders
from fitwright.report.cylinders_table import cylinders_legend, cylinders_text


def test_one_cylinder_in_full() -> None:
    """ISO 6432 16: rod 6, M6, nose M16 x 1.5, M5 ports read; WF 22, AM 16 remembered; 0.6 MPa x pi/4 16^2 = 121 N."""
    text = " ".join(cylinders_text(find_cylinders("ISO 6432 16")).split())
    assert text.startswith("ISO 6432 16, round [mm] rod 6, thread M6 x 1, 16* long, flats 5*; shoulder 22* +-1.2*")
    assert "nose M16 x 1.5, 18* long, its nut 24* across flats, 8* high" in text
    assert "port M5 x 0.8, 6* from" in text
    assert "at 6 bar 121 N out, 104 N in, less friction" in text


def test_screws_and_boss_of_a_profile_cylinder() -> None:
    """ISO 15552 50: TG 46.5, B 40 read; the screw remembered."""
    text = cylinders_text([cylinder_row("ISO 15552 50")])
    assert "screws 4 M8*, 46.5 apart, 16* deep; boss 40, 4* long" in text
    assert "nose" not in text


def test_compact_cylinders_star_nearly_everything() -> None:
    text = cylinders_text([cylinder_row("ISO 21287 20")])
    assert "rod 10*, thread M8 x 1.25*, 16* long, or bored M6 x 1*" in text
    assert "give readings" in cylinders_legend(find_cylinders("ISO 21287"))
    assert "in the YAML" not in cylinders_legend(find_cylinders("ISO 21287"))


def test_table_has_a_line_for_each() -> None:
    lines = cylinders_text(list(all_cylinders())).splitlines()
    assert len(lines) == 1 + len(all_cylinders())
    assert lines[0].split("  ")[0] == "cylinder" and "shoulder [mm]" in lines[0]
    assert not any(line.endswith(" ") for line in lines)
    assert next(line for line in lines if line.startswith("ISO 15552 80 ")).split()[-2:] == ["3016,", "2721"]


def test_narrow_terminal_and_inches() -> None:
    rows = find_cylinders("ISO 6432")
    text = cylinders_text(rows, "mm", 60)
    assert max(map(len, text.splitlines())) <= 60
    assert text.count(", round [mm]") == len(rows)
    inches = cylinders_text(find_cylinders("ISO 6432 16"), "in")
    assert "[in]" in inches and "shoulder 0.866*" in inches and " mm" not in inches


def test_legend() -> None:
    assert "`cylinder: ISO 6432 16 x STROKE`" in cylinders_legend(find_cylinders("ISO 6432 16"))
    assert "`fitwright sizes ISO 6432 8`" in cylinders_legend(find_cylinders("cylinder"))
    assert cylinders_legend([]) == ""
