"""The pictures of the docs: the same words as the sheets have today, at the same places."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as Xml

import pytest

from fitwright.report.worksheets.pictures import FOLDER, pictures, write_pictures

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
ANEW = "run python -m fitwright.report.worksheets.pictures"


def words(text: str) -> list[tuple[str | None, float, float]]:
    """What is written where, to 0.01 mm: outlines may differ in their last digit from machine to machine."""
    return [
        (one.text, float(one.get("x", "")), float(one.get("y", ""))) for one in Xml.fromstring(text).iter(f"{SVG}text")
    ]


def test_the_committed_pictures_are_those_of_today() -> None:
    made = dict(pictures())
    there = {path.name: path.read_text(encoding="utf-8") for path in (ROOT / FOLDER).glob("*")}
    assert set(there) == set(made), ANEW
    for name, text in made.items():
        old, new = words(there[name]), words(text)
        assert [one[0] for one in old] == [one[0] for one in new], f"{name}: {ANEW}"
        assert [p for one in old for p in one[1:]] == pytest.approx([p for one in new for p in one[1:]], abs=0.01), ANEW
        assert len(re.findall("<path", there[name])) == pytest.approx(len(re.findall("<path", text)), rel=0.02), ANEW
        assert len(text) < 150_000


def test_they_are_written_where_they_are_committed(tmp_path: Path) -> None:
    assert {path.parent for path in write_pictures(tmp_path)} == {tmp_path / FOLDER}
