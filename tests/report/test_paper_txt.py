"""Sheets of text and the shopping list: in the file's units, nothing cut off."""

from __future__ import annotations

from fitwright.mechanism import Bought, Paper
from fitwright.report.paper_txt import bought_line, paper_txt


def test_a_sheet_is_written_in_the_files_units() -> None:
    paper = Paper("commissioning", "First stroke", (("By hand", ("push it 105.6 mm out", "then 1 bar")),))
    assert paper_txt(paper, "mm").decode() == "First stroke\n\nBY HAND\n  push it 105.6 mm out\n  then 1 bar\n"
    assert "push it 4.157 in out" in paper_txt(paper, "in").decode()


def test_long_lines_are_wrapped_and_keep_every_word() -> None:
    words = " ".join(f"word{n}" for n in range(60))
    text = paper_txt(Paper("k", "t", (("h", (words,)),)), "mm").decode()
    assert max(map(len, text.splitlines())) <= 88
    assert text.split()[2:] == words.split()


def test_bought_lines() -> None:
    assert bought_line(Bought(2, "threaded rod M8", 212.0, cut=True), "mm") == "2 x threaded rod M8, cut to 212 mm"
    assert bought_line(Bought(4, "screw M5", 45.0, note="in place of the old ones"), "mm") == (
        "4 x screw M5 x 45 (in place of the old ones)"
    )
    assert bought_line(Bought(1, "cylinder 16 x 125", needed=False), "mm") == (
        "1 x cylinder 16 x 125; it is there already"
    )
    assert bought_line(Bought(4, "screw M5", 45.0), "in") == "4 x screw M5 x 45"
    assert bought_line(Bought(1, "rod", 254.0, cut=True), "in") == "1 x rod, cut to 10 in"
