"""docs/cli.md: committed as generated, and nothing of the argument parser is left out."""

from __future__ import annotations

from pathlib import Path

from fitwright.cli.main import parser
from fitwright.cli.reference import EXAMPLES, PAGE, cli_markdown, commands, write_page

ROOT = Path(__file__).parents[2]


def test_the_committed_page_is_the_generated_one() -> None:
    assert (ROOT / PAGE).read_text(encoding="utf-8") == cli_markdown(), "run python -m fitwright.cli.reference"


def test_it_is_written_where_it_is_committed(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    assert write_page(tmp_path).read_text(encoding="utf-8") == cli_markdown()


def test_every_option_of_the_help_is_on_the_page() -> None:
    page = cli_markdown()
    for name, command in commands().items():
        section = page.partition(f"## fitwright {name}\n")[2].partition("\n## ")[0]
        for word in command.format_help().split():
            if word.startswith("--") and word.strip("[],") != "--help":
                assert word.strip("[],") in section, (name, word)


def test_every_example_is_understood() -> None:
    assert set(EXAMPLES) == set(commands())
    for example in (one for examples in EXAMPLES.values() for one in examples):
        program, *arguments = example.split()
        assert program == "fitwright" and parser().parse_args(arguments).command == arguments[0]
