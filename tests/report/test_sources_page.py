"""docs/sources.md is what the tables say."""

from pathlib import Path

from fitwright.data import tables
from fitwright.report.sources_page import sources_markdown

PAGE = Path(__file__).parents[2] / "docs" / "sources.md"


def test_the_committed_page_is_up_to_date():
    assert PAGE.read_text(encoding="utf-8") == sources_markdown(), (
        "write it again: python -c 'from fitwright.report.sources_page import sources_markdown as s; "
        'open("docs/sources.md", "w", encoding="utf-8").write(s())\''
    )


def test_every_table_is_on_it():
    page = sources_markdown()
    for name in tables.NAMES:
        assert f"`data/{name}.csv`" in page
        assert tables.load(name).head["title"] in page
